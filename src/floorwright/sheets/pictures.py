"""Small pictures of cut pieces in their tiles, sides level, much as they lie on the layout, the waste crossed out."""

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from floorwright.cuts.frame import Tile, tile_of
from floorwright.cuts.schedule import CutPiece, TileMark
from floorwright.draw.lettering import text_width
from floorwright.draw.scale import fit_scale
from floorwright.draw.style import CAP_HEIGHT, Pen, Size, Tone
from floorwright.draw.view import Fill, Item, Line, Point, Text, View
from floorwright.geometry.region import Points
from floorwright.layout.layout import Layout
from floorwright.sheets.figures import Figures

CELL: Final = 42.0
"""mm on paper, the width of a picture with its figures."""

TILE_SPACE: Final = 24.0
"""mm on paper that a tile may take of it."""

OFF_SIDE: Final = 1.0
"""mm on paper between a side and its figures."""

NEXT_ROW: Final = 1.4
"""From a figure to the next further out, in capital heights."""

CLEAR: Final = 1.5
TITLE: Final = 5.5
TITLE_IN: Final = 2.0
"""mm on paper about a picture, for its number over it, and to the start of that."""


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
        rows = max((count for piece in shown for count in _on_sides(piece).values()), default=0)
        edge = OFF_SIDE + CAP_HEIGHT[Size.TEXT] * (1.0 + NEXT_ROW * (rows - 1)) + CLEAR if rows else CLEAR
        tall = max(float(np.ptp(_outline(piece, layout)[:, 1])) for piece in shown)
        high = tall + (2 * edge + TITLE) * scale
        items: list[Item] = []
        for n, piece in enumerate(shown):
            left = n * cell
            items += _picture(piece, layout, (left + cell / 2, edge * scale + tall / 2), scale, figures)
            at = (left + TITLE_IN * scale, high - CAP_HEIGHT[Size.FIGURE] / 2 * scale)
            items.append(Text(at=at, text=f"No. {piece.label}", size=Size.FIGURE, anchor="start"))
        labels = ", ".join(piece.label for piece in shown)
        views.append(
            View(
                name=f"pictures-{shown[0].label}",
                described=f"Pictures of the cut pieces {labels}, each in its tile with the waste crossed out.",
                scale=scale,
                window=(0.0, 0.0, across * cell, high),
                items=tuple(items),
                check_bar=False,
            )
        )
    return tuple(views)


def _on_sides(piece: CutPiece) -> Counter[str]:
    """Returns how many figures stand beside each side of a piece's tile."""
    return Counter(mark.side for mark in marks_of(piece))


def marks_of(piece: CutPiece) -> list[TileMark]:
    """Returns the marks of all cuts of a piece."""
    of_saws = [mark for saw in piece.saws for mark in saw.marks]
    of_arcs = [mark for arc in piece.arcs for mark in arc.marks if mark is not None]
    return of_saws + of_arcs + [mark for bore in piece.bores for mark in bore.marks]


def _outline(piece: CutPiece, layout: Layout) -> Points:
    tile = tile_of(layout.cell, _index(piece, layout)[2])
    return laid_level(tile.outline, tile, layout)


def laid_level(points: Points, tile: Tile, layout: Layout) -> Points:
    """Returns points of the tile's frame about the middle of the tile, turned as the tile lies on the floor, but by
    whole quarters only: figures along sides that slope would stand on each other."""
    quarters = round((layout.chosen.placement.angle + tile.turn) / (math.pi / 2))
    cos, sin = ((1, 0), (0, 1), (-1, 0), (0, -1))[quarters % 4]
    middle = tile.outline.mean(axis=0)
    return np.asarray((points - middle) @ np.array([[cos, sin], [-sin, cos]], dtype=float))


def _index(piece: CutPiece, layout: Layout) -> tuple[int, int, int]:
    return next(one.index for one in layout.pieces if one.id == piece.id)


def _picture(piece: CutPiece, layout: Layout, middle: Point, scale: float, figures: Figures) -> Iterator[Item]:
    import shapely

    tile = tile_of(layout.cell, _index(piece, layout)[2])
    shift = np.array(middle)

    def placed(points: Points | Sequence[Point]) -> tuple[Point, ...]:
        return tuple((float(x), float(y)) for x, y in laid_level(np.asarray(points), tile, layout) + shift)

    outline = placed(tile.outline)
    rings = tuple(placed(ring) for ring in piece.outline)
    yield Fill(rings=(outline,), tone=Tone.WASTE)
    yield Fill(rings=rings, tone=Tone.CUT)
    yield Line(points=outline, pen=Pen.FACTORY, closed=True)
    waste = shapely.difference(shapely.Polygon(outline), shapely.Polygon(rings[0], rings[1:]))
    for part in shapely.get_parts(waste):
        yield from _cross(part, scale)
    yield from _sawn(piece, tile, placed)
    on_side: dict[str, int] = {}
    for mark in marks_of(piece):
        row = on_side.setdefault(mark.side, 0)
        on_side[mark.side] += 1
        yield _figure(mark, row, tile, layout, shift, scale, figures)


def _sawn(piece: CutPiece, tile: Tile, placed: object) -> Iterator[Item]:
    import shapely

    assert callable(placed)
    for saw in piece.saws:
        yield Line(points=placed([saw.start, saw.end]), pen=Pen.SAWN)
    for arc in piece.arcs:
        yield Line(points=placed([arc.start, arc.end]), pen=Pen.SAWN, bulges=(arc.bulge,))
        yield Line(points=placed([arc.start, arc.end]), pen=Pen.HIDDEN)
    for bore in piece.bores:
        turn = np.linspace(0.0, math.tau, 49)
        ring = np.column_stack([np.cos(turn), np.sin(turn)]) * bore.radius + np.array(bore.centre)
        # Off the tile nothing is cut.
        for part in shapely.get_parts(shapely.intersection(shapely.Polygon(tile.outline), shapely.LineString(ring))):
            if isinstance(part, shapely.LineString):
                yield Line(points=placed(shapely.get_coordinates(part)), pen=Pen.SAWN)
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
    ends = laid_level(np.array([corner, mark.at]), tile, layout)
    along = ends[1] - ends[0]
    length = float(np.hypot(*along))
    unit = along / length if length else np.array([1.0, 0.0])
    text = figures.cut(mark.distance)
    out, room = _beside(mark, unit, tile, layout)
    # Wider than its stretch it starts at the corner: past it the figures of the next side stand.
    half = min(text_width(text, Size.TEXT) * scale, room) / 2
    middle = ends[0] + unit * max(length / 2, half)
    rise = (OFF_SIDE + CAP_HEIGHT[Size.TEXT] * (0.5 + NEXT_ROW * row)) * scale
    x, y = middle + out * (rise + _bulge(ends[0], unit * length, out, mark, tile, layout)) + shift
    return Text(
        at=(float(x), float(y)),
        text=text,
        size=Size.TEXT,
        angle=math.atan2(unit[1], unit[0]),
        halo=True,
    )


def _beside(mark: TileMark, along: Points, tile: Tile, layout: Layout) -> tuple[Points, float]:
    """The way out of the tile beside a mark's stretch, and the length of its side, mm on the floor."""
    own = [n for n, name in enumerate(tile.sides) if name == mark.side]
    count = len(tile.sides)
    if len(own) > 1:
        # An arc's figure stands beside the straight stretch that it measures, on the side away from the tile's middle.
        out = np.array([along[1], -along[0]])
        at = laid_level(np.array([mark.at]), tile, layout)[0]
        return (out if float(out @ at) >= 0 else -out), float(np.ptp(tile.outline, axis=0).max())
    a, b = laid_level(tile.outline[[own[0], (own[0] + 1) % count]], tile, layout)
    length = float(np.hypot(*(b - a)))
    return np.array([(b - a)[1], -(b - a)[0]]) / length, length


def _bulge(corner: Points, stretch: Points, out: Points, mark: TileMark, tile: Tile, layout: Layout) -> float:
    """How far an arc stands out past the straight stretch from a corner to a mark on it, mm; 0 of a straight side."""
    own = [n for n, name in enumerate(tile.sides) if name == mark.side]
    if len(own) < 2:
        return 0.0
    off = laid_level(tile.outline[own], tile, layout) - corner
    between = (off @ stretch >= 0) & (off @ stretch <= float(stretch @ stretch))
    return max(float((off[between] @ out).max(initial=0.0)), 0.0)
