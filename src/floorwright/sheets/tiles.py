"""The tiles on a plan: full and cut, sawn sides thicker, and the number of every cut piece where it can be read."""

import math
from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Final

import numpy as np

from floorwright import tolerance
from floorwright.cuts.schedule import CutList
from floorwright.draw.lettering import text_width
from floorwright.draw.style import CAP_HEIGHT, Pen, Size, Tone
from floorwright.draw.view import Fill, Item, Line, Point, Text
from floorwright.geometry.region import Points
from floorwright.geometry.restore import Outline, restored_region
from floorwright.layout.layout import Layout
from floorwright.layout.piece import Piece
from floorwright.layout.zones import BORDER, INSET, RINGS
from floorwright.plan.room import Room
from floorwright.sheets.frame import Frame
from floorwright.sheets.labels import Label, Labelled, outside
from floorwright.sheets.plan import backed_walls, outward, paper_angle, rings_of

if TYPE_CHECKING:
    import shapely

ZONE_TONES: Final = {BORDER: Tone.BORDER, INSET: Tone.INSET, RINGS: Tone.INSET}

CLEAR: Final = 0.5
"""mm on paper between a number and the sides of its piece."""

ASIDE: Final = 3.0
"""mm on paper that a number moves off a line through its piece."""

REACHES: Final = (0.75, 1.25, 1.75)
"""A number that cannot stand outside is led this part of a tile into a neighbour, the nearest that is free."""


def tile_items(layout: Layout) -> tuple[Item, ...]:
    """Returns every piece of a layout: filled by what it is, factory sides thin, sawn sides thick.

    Like items follow each other, so that an export can draw them in one go.
    """
    fills: list[Fill] = []
    factory: list[Line] = []
    sawn: list[Line] = []
    for piece in layout.pieces:
        tone = _tone(piece, layout.limit)
        if piece.outlines:
            fills.append(_curved_fill(piece, tone))
            for outline in piece.outlines:
                for side, wall, bulge in outline_sides(outline):
                    pen = Pen.FACTORY if wall is None else Pen.SAWN
                    lines = factory if wall is None else sawn
                    lines.append(Line(points=side, pen=pen, bulges=(bulge,) if bulge else ()))
            continue
        rings = tuple(rings_of(piece.rings))
        fills.append(Fill(rings=rings, tone=tone))
        if piece.full:
            factory.append(Line(points=rings[0], pen=Pen.FACTORY, closed=True))
            continue
        for ring, walls in zip(rings, piece.edges, strict=True):
            for n, wall in enumerate(walls):
                side = (ring[n], ring[(n + 1) % len(ring)])
                if wall is None:
                    factory.append(Line(points=side, pen=Pen.FACTORY))
                else:
                    sawn.append(Line(points=side, pen=Pen.SAWN))
    return (*sorted(fills, key=lambda fill: fill.tone), *factory, *sawn)


def _curved_fill(piece: Piece, tone: Tone) -> Fill:
    return Fill(
        rings=tuple(rings_of(tuple(outline.points for outline in piece.outlines))),
        tone=tone,
        bulges=tuple(outline.bulges for outline in piece.outlines),
    )


def outline_sides(outline: Outline) -> Iterator[tuple[tuple[Point, Point], str | None, float]]:
    """Yields the two ends of every side of an outline, the wall that it is sawn to, and its bulge."""
    (points,) = rings_of((outline.points,))
    ends = (*points[1:], points[0])
    for start, end, wall, bulge in zip(points, ends, outline.names, outline.bulges, strict=True):
        yield (start, end), wall, bulge


def zone_items(layouts: Sequence[Layout]) -> tuple[Item, ...]:
    """Returns what tells borders and insets from the field: a hatch of their own and their outline."""
    items: list[Item] = []
    for layout in layouts:
        tone = ZONE_TONES.get(layout.part.kind) if layout.part else None
        if tone is not None:
            outlines = restored_region(layout.region)
            rings = tuple(rings_of(tuple(outline.points for outline in outlines)))
            bulges = tuple(outline.bulges if outline.is_curved else () for outline in outlines)
            items.append(Fill(rings=rings, tone=tone, bulges=bulges if any(bulges) else ()))
            items += [
                Line(points=ring, pen=Pen.ZONE, closed=True, bulges=round_)
                for ring, round_ in zip(rings, bulges, strict=True)
            ]
    # Like items follow each other, so that an export can draw them in one go.
    return tuple(sorted(items, key=lambda item: isinstance(item, Line)))


def _tone(piece: Piece, limit: float) -> Tone:
    if piece.full:
        return Tone.TILE
    return Tone.UNDER if piece.narrowest < limit - tolerance.PROOF else Tone.CUT


def number_items(
    layout: Layout, cuts: CutList, room: Room, frame: Frame, lines: Sequence[Line] = (), names: Sequence[Text] = ()
) -> Labelled:
    """Returns the number of every cut piece: in the piece where it fits, else led outside the wall, once each.

    Where the pieces are too small even for that, only every so many are numbered.

    Args:
        layout, cuts: of one zone.
        room: whose walls the numbers stand outside of.
        frame: of the drawing.
        lines: drawn across the tiles; numbers stand off them where they can.
        names: written on the tiles; numbers that are led into a neighbour stand off them.
    """
    pieces = {piece.id: piece for piece in layout.pieces}
    items: list[Item] = []
    led: dict[str, list[Label]] = {}
    small: list[tuple[str, Piece]] = []
    backed = backed_walls(room, frame)
    for cut in cuts.pieces:
        piece = pieces[cut.id]
        inside = _inside(cut.label, piece, frame, lines)
        at_wall = None if inside else _at_wall(cut.label, piece, room, backed)
        if inside:
            items.append(inside)
        elif at_wall:
            led.setdefault(at_wall[0], []).append(at_wall[1])
        else:
            small.append((cut.label, piece))
    set_outside = [outside(labels, wall, room, frame) for wall, labels in led.items()]
    beside = _beside(small, layout, frame, names)
    items += [item for labelled in (*set_outside, beside) for item in labelled.items]
    return Labelled(items=tuple(items), left_out=sum(labelled.left_out for labelled in (*set_outside, beside)))


def _inside(label: str, piece: Piece, frame: Frame, lines: Sequence[Line]) -> Text | None:
    """Returns the number inside its piece, level or upright on the paper, or None where it does not fit."""
    import shapely

    shape = shapely.Polygon(piece.rings[0], list(piece.rings[1:]))
    shapely.prepare(shape)
    across = shapely.MultiLineString([line.points for line in lines])
    wide = frame.paper(text_width(label, Size.TEXT) + 2 * CLEAR) / 2
    high = frame.paper(CAP_HEIGHT[Size.TEXT] + 2 * CLEAR) / 2
    fits: list[Text] = []
    for x, y in _places(shape, frame):
        for angle in (0.0, math.pi / 2):
            half = (wide, high) if (angle == 0.0) == (frame.turn % 2 == 0) else (high, wide)
            box = shapely.box(x - half[0], y - half[1], x + half[0], y + half[1])
            if shapely.covers(shape, box):
                fits.append(Text(at=(x, y), text=label, size=Size.TEXT, angle=paper_angle(frame, angle)))
                if not shapely.intersects(across, box):
                    return fits[-1]
    return fits[0] if fits else None


def _places(shape: "shapely.Polygon", frame: Frame) -> Iterator[Point]:
    """Yields places for a number in a piece: where it is widest or its middle, then a little off."""
    import shapely

    middle = shapely.centroid(shape)
    x, y = middle.x, middle.y
    if len(shape.interiors) or not shapely.contains(shape, middle):
        x, y = shapely.maximum_inscribed_circle(shape, tolerance=frame.paper(CLEAR)).coords[0]
    step = frame.paper(ASIDE)
    for dx, dy in ((0, 0), (0, 1), (0, -1), (1, 0), (-1, 0), (1, 1), (-1, -1)):
        yield x + dx * step, y + dy * step


def _at_wall(label: str, piece: Piece, room: Room, backed: Collection[str]) -> tuple[str, Label] | None:
    """Returns the wall that a piece meets and its label there, at the middle of its longest side; None at no wall, and
    at those with another room close behind them."""
    names = {wall.name for wall in room.walls} - set(backed)
    sides = [
        (float(np.hypot(*(end - start))), tuple((start + end) / 2), wall)
        for start, end, wall in _sides(piece)
        if wall in names
    ]
    if not sides:
        return None
    _, (x, y), wall = max(sides, key=lambda side: side[0])
    assert wall is not None
    start, _ = room.ends(wall)
    along, _ = outward(room, wall)
    place = float((x - start[0]) * along[0] + (y - start[1]) * along[1])
    return wall, Label(text=label, along=place, foot=(float(x), float(y)))


def _beside(small: Sequence[tuple[str, Piece]], layout: Layout, frame: Frame, names: Sequence[Text] = ()) -> Labelled:
    """Returns the numbers of small pieces that meet no wall, led away from their sawn sides into their neighbours."""
    items: list[Item] = []
    taken: list[Point] = [name.at for name in names]
    for label, piece in small:
        start, end, _ = max(
            (side for side in _sides(piece) if side[2] is not None),
            key=lambda side: float(np.hypot(*(side[1] - side[0]))),
        )
        along = (end - start) / np.hypot(*(end - start))
        into = np.array([-along[1], along[0]])
        x, y = piece.rings[0].mean(axis=0)
        apart = frame.paper(text_width(label, Size.TEXT) + CLEAR)
        for reach in REACHES:
            at = (
                float(x + into[0] * reach * min(layout.cell.size)),
                float(y + into[1] * reach * min(layout.cell.size)),
            )
            if all(math.dist(at, other) > apart for other in taken):
                taken.append(at)
                items.append(Line(points=((float(x), float(y)), at), pen=Pen.DIMENSION))
                items.append(Text(at=at, text=label, size=Size.TEXT, angle=paper_angle(frame), halo=True))
                break
    return Labelled(items=tuple(items), left_out=len(small) - len(taken) + len(names))


def _sides(piece: Piece) -> Iterable[tuple[Points, Points, str | None]]:
    for ring, walls in zip(piece.rings, piece.edges, strict=True):
        yield from zip(ring, np.roll(ring, -1, axis=0), walls, strict=True)
