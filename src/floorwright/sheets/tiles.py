"""The tiles on a plan: full and cut, sawn sides thicker, and the number of every cut piece where it can be read."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, Final

import numpy as np

from floorwright import tolerance
from floorwright.cuts.schedule import CutList, CutPiece
from floorwright.draw.lettering import text_width
from floorwright.draw.style import CAP_HEIGHT, Pen, Size, Tone
from floorwright.draw.view import Fill, Item, Line, Point, Text
from floorwright.geometry.region import Points
from floorwright.layout.layout import Layout
from floorwright.layout.piece import Piece
from floorwright.plan.room import Room
from floorwright.sheets.frame import Frame
from floorwright.sheets.plan import outward, paper_angle, rings_of

if TYPE_CHECKING:
    import shapely

CLEAR: Final = 0.5
"""mm on paper between a number and the sides of its piece."""

BETWEEN: Final = 1.0
"""mm on paper between two numbers that stand outside."""

ASIDE: Final = 3.0
"""mm on paper that a number moves off a line through its piece."""

FROM_CORNER: Final = 1.0
"""mm on paper that a number outside keeps from the end of its wall, where the corner's name stands."""

OUTSIDE: Final = 4.0
"""mm on paper from a wall to the middle of a number led outside."""

REACH: Final = 0.75
"""A number that cannot stand outside is led this part of a tile into its neighbour."""


def tile_items(layout: Layout) -> tuple[Item, ...]:
    """Returns every piece of a layout: filled by what it is, factory sides thin, sawn sides thick."""
    items: list[Item] = []
    sawn: list[Item] = []
    for piece in layout.pieces:
        items.append(Fill(rings=tuple(rings_of(piece.rings)), tone=_tone(piece, layout.limit)))
        if piece.full:
            items.append(Line(points=next(rings_of(piece.rings)), pen=Pen.FACTORY, closed=True))
            continue
        for ring, walls in zip(rings_of(piece.rings), piece.edges, strict=True):
            for n, wall in enumerate(walls):
                side = (ring[n], ring[(n + 1) % len(ring)])
                pen = Pen.FACTORY if wall is None else Pen.SAWN
                (items if wall is None else sawn).append(Line(points=side, pen=pen))
    return (*items, *sawn)


def _tone(piece: Piece, limit: float) -> Tone:
    if piece.full:
        return Tone.TILE
    return Tone.UNDER if piece.narrowest < limit - tolerance.PROOF else Tone.CUT


@dataclass(frozen=True, slots=True, kw_only=True)
class _Led:
    """A number outside its wall: where the wall meets its piece, and how far along the wall it wants to stand."""

    label: str
    foot: Point
    wall: str
    along: float


def number_items(
    layout: Layout, cuts: CutList, room: Room, frame: Frame, lines: Sequence[Line] = ()
) -> tuple[Item, ...]:
    """Returns the number of every cut piece: in the piece where it fits, else led outside the wall, once each.

    Args:
        layout, cuts: of one zone.
        room: whose walls the numbers stand outside of.
        frame: of the drawing.
        lines: drawn across the tiles; numbers stand off them where they can.
    """
    pieces = {piece.id: piece for piece in layout.pieces}
    items: list[Item] = []
    led: list[_Led] = []
    for cut in cuts.pieces:
        piece = pieces[cut.id]
        inside = _inside(cut.label, piece, frame, lines)
        if inside is not None:
            items.append(inside)
            continue
        place = _at_wall(cut, piece, room)
        if place is None:
            items += _beside(cut, piece, layout, frame)
        else:
            led.append(place)
    for wall in dict.fromkeys(one.wall for one in led):
        items += _outside([one for one in led if one.wall == wall], wall, room, frame)
    return tuple(items)


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


def _at_wall(cut: CutPiece, piece: Piece, room: Room) -> _Led | None:
    """Returns where a piece meets a wall of the room, at the middle of its longest side there, or None."""
    names = {wall.name for wall in room.walls}
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
    return _Led(
        label=cut.label,
        foot=(float(x), float(y)),
        wall=wall,
        along=float((x - start[0]) * along[0] + (y - start[1]) * along[1]),
    )


def _outside(led: Sequence[_Led], wall: str, room: Room, frame: Frame) -> Iterator[Item]:
    """Yields the numbers outside a wall, apart from each other, each with a thin line to its piece."""
    start, end = room.ends(wall)
    length = float(np.hypot(*(end - start)))
    along, out = outward(room, wall)
    turned = math.atan2(along[1], along[0]) + frame.turn * math.pi / 2
    ordered = sorted(led, key=lambda one: one.along)
    wide, high = max(text_width(one.label, Size.TEXT) for one in led), CAP_HEIGHT[Size.TEXT]
    extent = abs(math.cos(turned)) * wide + abs(math.sin(turned)) * high
    width = frame.paper(extent + BETWEEN)
    least = frame.paper(FROM_CORNER) + width / 2
    wanted = [min(max(one.along, least), max(length - least, least)) for one in ordered]
    places = spread(wanted, [width] * len(ordered))
    rise = frame.paper(OUTSIDE)
    reach = frame.paper(OUTSIDE - (abs(math.cos(turned)) * high + abs(math.sin(turned)) * wide) / 2 - CLEAR)
    for one, place in zip(ordered, places, strict=True):
        base = (float(start[0]) + along[0] * place, float(start[1]) + along[1] * place)
        at = (base[0] + out[0] * rise, base[1] + out[1] * rise)
        stop = (base[0] + out[0] * reach, base[1] + out[1] * reach)
        yield Line(points=(one.foot, stop), pen=Pen.DIMENSION)
        yield Text(at=at, text=one.label, size=Size.TEXT, angle=paper_angle(frame), halo=True)


def _beside(cut: CutPiece, piece: Piece, layout: Layout, frame: Frame) -> tuple[Item, ...]:
    """Returns the number of a small piece that meets no wall, led away from its sawn side into the neighbour."""
    start, end, _ = max(
        (side for side in _sides(piece) if side[2] is not None), key=lambda side: float(np.hypot(*(side[1] - side[0])))
    )
    along = (end - start) / np.hypot(*(end - start))
    into = np.array([-along[1], along[0]])
    foot = piece.rings[0].mean(axis=0)
    at = foot + into * REACH * min(layout.cell.size)
    return (
        Line(points=((float(foot[0]), float(foot[1])), (float(at[0]), float(at[1]))), pen=Pen.DIMENSION),
        Text(at=(float(at[0]), float(at[1])), text=cut.label, size=Size.TEXT, angle=paper_angle(frame), halo=True),
    )


def _sides(piece: Piece) -> Iterable[tuple[Points, Points, str | None]]:
    for ring, walls in zip(piece.rings, piece.edges, strict=True):
        yield from zip(ring, np.roll(ring, -1, axis=0), walls, strict=True)


def spread(wanted: Sequence[float], widths: Sequence[float]) -> list[float]:
    """Returns middles as near as can be to those wanted (least squares), so that things of such widths do not overlap.

    Args:
        wanted: middles in rising order.
        widths: of each, what must be free beside it included.

    >>> spread([0.0, 1.0, 10.0], [3.0, 3.0, 3.0])
    [-1.0, 2.0, 10.0]
    """
    # Less the widths before them the middles must only rise: pool neighbours that do not (isotonic regression).
    before = list(accumulate(((a + b) / 2 for a, b in pairwise(widths)), initial=0.0))[: len(wanted)]
    pools: list[tuple[float, int]] = []
    for place, taken in zip(wanted, before, strict=True):
        mean, count = place - taken, 1
        while pools and pools[-1][0] > mean:
            lower, size = pools.pop()
            mean, count = (lower * size + mean * count) / (size + count), size + count
        pools.append((mean, count))
    means = [mean for mean, count in pools for _ in range(count)]
    return [mean + taken for mean, taken in zip(means, before, strict=True)]
