"""Small pictures of cut pieces in their tiles, turned as they lie on the layout, the waste crossed out."""

import math
from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from floorwright.cuts.frame import Tile, onto_floor, tile_of
from floorwright.cuts.schedule import CutPiece, TileMark
from floorwright.draw.scale import fit_scale
from floorwright.draw.style import CAP_HEIGHT, Pen, Size, Tone
from floorwright.draw.view import Fill, Item, Line, Point, Text, View
from floorwright.geometry.region import Points
from floorwright.layout.layout import Layout
from floorwright.sheets.figures import Figures

CELL: Final = 42.0
"""mm on paper, the side of a picture with its figures."""

TILE_SPACE: Final = 24.0
"""mm on paper that a tile may take of it."""


def picture_views(pieces: Sequence[CutPiece], layout: Layout, figures: Figures, width: float) -> tuple[View, ...]:
    """Returns a view for each row of pictures, so that a page can break between rows, in the order of the pieces.

    Args:
        pieces: to show.
        layout: that they belong to.
        figures: how lengths print.
        width: mm on paper that they may take.
    """
    across = int(width / CELL)
    extent = max(float(np.ptp(_outline(piece, layout), axis=0).max()) for piece in pieces)
    scale = fit_scale((extent, extent), (TILE_SPACE, TILE_SPACE), figures.imperial)
    cell = CELL * scale
    views = []
    for first in range(0, len(pieces), across):
        shown = pieces[first : first + across]
        items: list[Item] = []
        for n, piece in enumerate(shown):
            middle = ((n + 0.5) * cell, -0.5 * cell)
            items += _picture(piece, layout, middle, scale, figures)
        labels = ", ".join(piece.label for piece in shown)
        views.append(
            View(
                name=f"pictures-{shown[0].label}",
                described=f"Pictures of the cut pieces {labels}, each in its tile with the waste crossed out.",
                scale=scale,
                window=(0.0, -cell, across * cell, 0.0),
                items=tuple(items),
                check_bar=False,
            )
        )
    return tuple(views)


def _outline(piece: CutPiece, layout: Layout) -> Points:
    tile = tile_of(layout.cell, _index(piece, layout)[2])
    return _laid(tile.outline, tile, layout)


def _laid(points: Points, tile: Tile, layout: Layout) -> Points:
    """Returns points of the tile's frame turned as the tile lies on the floor, about the middle of the tile."""
    middle = tile.outline.mean(axis=0)
    placement = layout.chosen.placement
    both = onto_floor(np.vstack([points, middle]), tile, layout.cell, placement, (0, 0, 0))
    return np.asarray(both[:-1] - both[-1])


def _index(piece: CutPiece, layout: Layout) -> tuple[int, int, int]:
    return next(one.index for one in layout.pieces if one.id == piece.id)


def _picture(piece: CutPiece, layout: Layout, middle: Point, scale: float, figures: Figures) -> Iterator[Item]:
    import shapely

    tile = tile_of(layout.cell, _index(piece, layout)[2])
    shift = np.array(middle)

    def placed(points: Points | Sequence[Point]) -> tuple[Point, ...]:
        return tuple((float(x), float(y)) for x, y in _laid(np.asarray(points), tile, layout) + shift)

    outline = placed(tile.outline)
    rings = tuple(placed(ring) for ring in piece.outline)
    yield Fill(rings=(outline,), tone=Tone.WASTE)
    yield Fill(rings=rings, tone=Tone.CUT)
    yield Line(points=outline, pen=Pen.FACTORY, closed=True)
    waste = shapely.difference(shapely.Polygon(outline), shapely.Polygon(rings[0], rings[1:]))
    for part in shapely.get_parts(waste):
        yield from _cross(part, scale)
    yield from _sawn(piece, placed)
    on_side: dict[str, int] = {}
    marks = [mark for saw in piece.saws for mark in saw.marks] + [mark for bore in piece.bores for mark in bore.marks]
    for mark in marks:
        row = on_side.setdefault(mark.side, 0)
        on_side[mark.side] += 1
        yield _figure(mark, row, tile, layout, shift, scale, figures)
    corner = (middle[0] - CELL * scale * 0.46, middle[1] + CELL * scale * 0.42)
    yield Text(at=corner, text=f"No. {piece.label}", size=Size.FIGURE, anchor="start")


def _sawn(piece: CutPiece, placed: object) -> Iterator[Item]:
    assert callable(placed)
    for saw in piece.saws:
        yield Line(points=placed([saw.start, saw.end]), pen=Pen.SAWN)
    for bore in piece.bores:
        turn = np.linspace(0.0, math.tau, 49)
        ring = np.column_stack([np.cos(turn), np.sin(turn)]) * bore.radius + np.array(bore.centre)
        yield Line(points=placed(ring), pen=Pen.SAWN)
        for mark in bore.marks:
            yield Line(points=placed([mark.at, bore.centre]), pen=Pen.HIDDEN)


def _cross(part: object, scale: float) -> Iterator[Item]:
    """Yields an X in a piece of waste, as large as fits and no larger than is seen."""
    import shapely

    assert isinstance(part, shapely.Polygon)
    circle = shapely.maximum_inscribed_circle(part, tolerance=scale * 0.5)
    (x, y), rim = circle.coords[0], circle.length
    arm = min(0.7 * rim, 2.2 * scale) * math.sqrt(0.5)
    if arm < 0.5 * scale:
        return
    yield Line(points=((x - arm, y - arm), (x + arm, y + arm)), pen=Pen.MARK)
    yield Line(points=((x - arm, y + arm), (x + arm, y - arm)), pen=Pen.MARK)


def _figure(
    mark: TileMark, row: int, tile: Tile, layout: Layout, shift: Points, scale: float, figures: Figures
) -> Text:
    """Returns a mark's figure outside its side, beside the stretch that it measures; row: 0 for the nearest."""
    corner = tile.outline[tile.corners.index(mark.corner)]
    ends = _laid(np.array([corner, mark.at]), tile, layout)
    along = ends[1] - ends[0]
    length = float(np.hypot(*along))
    middle = ends.mean(axis=0)
    side = tile.sides.index(mark.side)
    a, b = _laid(tile.outline[[side, (side + 1) % len(tile.sides)]], tile, layout)
    out = np.array([(b - a)[1], -(b - a)[0]]) / np.hypot(*(b - a))
    unit = along / length if length else np.array([1.0, 0.0])
    rise = (1.0 + CAP_HEIGHT[Size.TEXT] * (0.5 + 1.4 * row)) * scale
    x, y = middle + out * rise + shift
    return Text(
        at=(float(x), float(y)),
        text=figures.cut(mark.distance),
        size=Size.TEXT,
        angle=math.atan2(unit[1], unit[0]),
        halo=True,
    )
