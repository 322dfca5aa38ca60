"""A course: what lies along one straight line across the floor, wall to wall, so that it can be printed and add up."""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from floorwright.control.sight import Point, meetings, spans, step
from floorwright.geometry.measure import area, is_inside_ring
from floorwright.geometry.region import Points, Region
from floorwright.layout.layout import Layout
from floorwright.layout.piece import Piece
from floorwright.tolerance import COINCIDENT, SLIVER_AREA, STRIP, TOUCH
from floorwright.units import FINEST_MM, LengthStyle, close_sum

_Pieces: TypeAlias = dict[tuple[int, int, int], list[Piece]]
"""By lattice index; more than one where the tile leaves more than one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of a course.

    Attributes:
        kind: `gap`, `cut`, `tile` or `joint`.
        length: mm.
        piece: id of the piece, empty for gap and joint.
        rounded: whether it prints at the graduation: a cut, and a gap that is not the one entered because its wall runs
            aslant or falls in a joint. All else prints as entered.
    """

    kind: str
    length: float
    piece: str = ""
    rounded: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """One course.

    Attributes:
        name: `row 3`, `column 2`, with `, part 2` where obstacles or the walls split it.
        walls: names of the walls, obstacles or thresholds that it runs between.
        length: mm wall to wall.
        parts: in order, adding up to `length`.
    """

    name: str
    walls: tuple[str, str]
    length: float
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedCourse:
    """The printed figures of a course.

    Attributes:
        figures: what is printed for each part, mm, exact. The one at `carries` has the remainder in it.
        total: what is printed for the length, mm, exact: the sum of `figures`.
        remainder: mm, at most one graduation either way: what rounding left over.
        carries: index of the part that carries it: the last joint, or the last part where there is none.
    """

    figures: tuple[Fraction, ...]
    total: Fraction
    remainder: Fraction
    carries: int


def printed(course: Course, style: LengthStyle) -> PrintedCourse:
    """Returns the printed figures of a course, which add up to its printed length.

    Tiles, joints and gaps print as entered, cuts at the graduation; the last joint carries what rounding leaves over.
    """
    closed = close_sum(
        [part.length for part in course.parts], course.length, style, [part.rounded for part in course.parts]
    )
    joints = [number for number, part in enumerate(course.parts) if part.kind == "joint"]
    carries = joints[-1] if joints else len(course.parts) - 1
    figures = list(closed.parts)
    figures[carries] += closed.remainder
    return PrintedCourse(figures=tuple(figures), total=closed.total, remainder=closed.remainder, carries=carries)


def like_parts(course: Course, told: PrintedCourse) -> dict[tuple[str, Fraction], int]:
    """Returns how many parts of each kind print the same, in the order in which they first lie along the course."""
    groups: dict[tuple[str, Fraction], int] = {}
    for part, figure in zip(course.parts, told.figures, strict=True):
        groups[part.kind, figure] = groups.get((part.kind, figure), 0) + 1
    return groups


def courses(*, region: Region, layout: Layout) -> tuple[Course, ...]:
    """Returns every course of a layout: its rows, then its columns, from the left and the foot of the pattern.

    A row runs along the pattern's x through the middle of what the zone has of its pieces. A column runs across, where
    it meets a piece in every row: a bond has one wherever no perp is in the way. A course ends at a wall, an obstacle
    or a threshold; a stretch without a piece is none. Empty for a pattern of other pieces than rectangles along its
    own frame.

    Args:
        region: the ground of the zone: wall to wall, less what other zones take.
        layout: of the zone.
    """
    if not all(_is_rectangle(piece) for piece in layout.cell.pieces):
        return ()
    tiles = _tiles(layout)
    pieces: _Pieces = defaultdict(list)
    for piece in layout.pieces:
        pieces[piece.index].append(piece)
    found: list[Course] = []
    for axis, name in ((0, "row"), (1, "column")):
        number = 0
        for place in _places(tiles, 1 - axis, layout.cell.joint):
            parts = list(_courses_at(region, layout, tiles, pieces, axis, place))
            number += bool(parts)
            for part, (walls, length, made) in enumerate(parts, start=1):
                split = f", part {part}" if len(parts) > 1 else ""
                found.append(Course(name=f"{name} {number}{split}", walls=walls, length=length, parts=made))
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Tiles:
    """The tiles that the zone meets or ends a joint away from, in the pattern's frame.

    Attributes:
        index: (n, 3) of repeat i, j and piece k.
        low, high: (n, 2) mm, lower left and upper right corners.
        zone_low, zone_high: (2,) mm, of the zone.
    """

    index: NDArray[np.int64]
    low: Points
    high: Points
    zone_low: Points
    zone_high: Points


def _is_rectangle(piece: Points) -> bool:
    sides = piece.max(axis=0) - piece.min(axis=0)
    return len(piece) == 4 and abs(area(piece) - float(sides[0] * sides[1])) < SLIVER_AREA


def _tiles(layout: Layout) -> _Tiles:
    placement, repeat = layout.chosen.placement, layout.cell.repeat
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    zone = (layout.region.rings[0] - np.asarray(placement.origin)) @ np.array([[cos, -sin], [sin, cos]])
    low, high = zone.min(axis=0), zone.max(axis=0)
    corners = np.array([low, (high[0], low[1]), high, (low[0], high[1])]) @ np.linalg.inv(repeat)
    first, last = np.floor(corners.min(axis=0)).astype(int) - 1, np.ceil(corners.max(axis=0)).astype(int) + 1
    i, j, k = (
        axis.ravel()
        for axis in np.meshgrid(
            np.arange(first[0], last[0] + 1),
            np.arange(first[1], last[1] + 1),
            np.arange(len(layout.cell.pieces)),
            indexing="ij",
        )
    )
    shift = i[:, None] * repeat[0] + j[:, None] * repeat[1]
    lows = np.array([piece.min(axis=0) for piece in layout.cell.pieces])[k] + shift
    highs = np.array([piece.max(axis=0) for piece in layout.cell.pieces])[k] + shift
    # A tile that ends a joint before the zone tells that the zone begins in a joint.
    margin = layout.cell.joint + TOUCH
    meets = np.all((lows < high + margin) & (highs > low - margin), axis=1)
    index = np.column_stack([i, j, k])[meets].astype(np.int64)
    return _Tiles(index=index, low=lows[meets], high=highs[meets], zone_low=low, zone_high=high)


def _places(tiles: _Tiles, axis: int, joint: float) -> Iterator[float]:
    """Where courses run, measured along an axis: the middle of each stretch of the zone that no joint takes up."""
    ends = np.unique(np.round(tiles.high[:, axis] / TOUCH)) * TOUCH
    breaks = np.union1d(np.unique(np.round(tiles.low[:, axis] / TOUCH)) * TOUCH, ends)
    zone_low, zone_high = float(tiles.zone_low[axis]), float(tiles.zone_high[axis])
    for start, stop in pairwise(breaks):
        middle = (start + stop) / 2
        before = ends[ends < middle]
        low, high = max(start, zone_low), min(stop, zone_high)
        in_joint = len(before) > 0 and middle < before[-1] + joint
        if not in_joint and high - low > STRIP:
            yield float(low + high) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stretch:
    """What a line has of one tile.

    Attributes:
        start, stop: mm along the line.
        tile: row of `_Tiles`.
        cut_start, cut_stop: whether the zone ends inside the tile there.
    """

    start: float
    stop: float
    tile: int
    cut_start: bool
    cut_stop: bool


def _courses_at(
    region: Region, layout: Layout, tiles: _Tiles, pieces: _Pieces, axis: int, place: float
) -> Iterator[tuple[tuple[str, str], float, tuple[Part, ...]]]:
    """The courses on one line: their walls, length and parts."""
    placement = layout.chosen.placement
    angle = placement.angle + axis * math.pi / 2
    through = step(placement.origin, placement.angle + (1 - axis) * math.pi / 2, place)
    stretches = list(_stretches(tiles, axis, place, spans(layout.region, through, angle)))
    for start, stop, walls in _wall_to_wall(region, through, angle):
        inside = [stretch for stretch in stretches if start < (stretch.start + stretch.stop) / 2 < stop]
        if not inside:
            continue
        ids = [
            _piece_id(layout, pieces, tiles.index[each.tile], step(through, angle, (each.start + each.stop) / 2))
            for each in inside
        ]
        yield walls, stop - start, tuple(_parts(start, stop, inside, ids, layout.gap[0]))


def _wall_to_wall(region: Region, through: Point, angle: float) -> Iterator[tuple[float, float, tuple[str, str]]]:
    """The stretches of floor on a line, each with the names of the edges at its ends."""
    found = sorted(
        (meeting.at, names[meeting.edge])
        for ring, names in zip(region.rings, region.edges, strict=True)
        for meeting in meetings(ring, through, angle)
    )
    for (start, first), (stop, last) in zip(found[::2], found[1::2], strict=True):
        yield start, stop, (first, last)


def _stretches(tiles: _Tiles, axis: int, place: float, covered: Sequence[tuple[float, float]]) -> Iterator[_Stretch]:
    """What a line has of every tile it runs through, in order: what is thinner than a touch is nothing."""
    on_line = np.flatnonzero((tiles.low[:, 1 - axis] < place) & (place < tiles.high[:, 1 - axis]))
    for tile in on_line[np.argsort(tiles.low[on_line, axis])]:
        low, high = float(tiles.low[tile, axis]), float(tiles.high[tile, axis])
        for start, stop in covered:
            first, last = max(low, start), min(high, stop)
            if last - first > TOUCH:
                yield _Stretch(
                    start=first,
                    stop=last,
                    tile=int(tile),
                    cut_start=start - low > TOUCH,
                    cut_stop=high - stop > TOUCH,
                )


def _parts(start: float, stop: float, stretches: Sequence[_Stretch], ids: Sequence[str], gap: float) -> Iterator[Part]:
    """The parts of a course, wall to wall: what lies between two uncut tile ends is a joint, all else a gap."""
    at, cut = start, True
    for stretch, piece in zip(stretches, ids, strict=True):
        yield from _between(stretch.start - at, gap, is_joint=not (cut or stretch.cut_start))
        is_cut = stretch.cut_start or stretch.cut_stop
        length = stretch.stop - stretch.start
        yield Part(kind="cut" if is_cut else "tile", length=length, piece=piece, rounded=is_cut)
        at, cut = stretch.stop, stretch.cut_stop
    yield from _between(stop - at, gap, is_joint=False)


def _between(length: float, gap: float, *, is_joint: bool) -> Iterator[Part]:
    if length <= COINCIDENT:
        return
    if is_joint:
        yield Part(kind="joint", length=length)
    else:
        yield Part(kind="gap", length=length, rounded=abs(length - gap) > float(FINEST_MM) / 2)


def _piece_id(layout: Layout, pieces: _Pieces, index: NDArray[np.int64], at: Point) -> str:
    """The id of the piece of a tile at a point of it."""
    i, j, k = (int(number) for number in index)
    found = pieces.get((i, j, k), [])
    held = [piece.id for piece in found if len(found) == 1 or is_inside_ring(at, piece.rings[0])[0]]
    return held[0] if held else f"{layout.zone}:{i},{j},{k}"
