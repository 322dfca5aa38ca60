"""Nodes: the few points of a pattern from which a person can find every line of it again."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final, TypeAlias

import numpy as np

from floorwright.control.control import Control
from floorwright.control.sight import Point, crossing, room_round, unit
from floorwright.control.station import HAND
from floorwright.geometry.region import Points, Region
from floorwright.geometry.restore import restored_region
from floorwright.layout.layout import Layout
from floorwright.plan.room import Room
from floorwright.setout.snap import SnapLine, SnapList
from floorwright.tolerance import PARALLEL, TOUCH

WAYS: Final = 8
"""Directions, 45 degrees apart and counted from the first line, in each of which a pattern's farthest crossing is a
node: for rows and columns the four corners of the grid, for a diagonal floor the points of the diamonds."""


LETTERS: Final = "NPQ"

_Found: TypeAlias = tuple[tuple[str, ...], str, Point]
"""Lines that cross, what is there, and where."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """A point of the floor that is worth a mark of its own.

    Attributes:
        name: `N1` and on, anticlockwise round each zone from the right of the first line; `P1` and on, or `Q1`, where
            a corner of the room is called so.
        what: what crosses there or what it is: `rows 1 x columns 7`, `border, corner 2`.
        lines: names of the two lines that cross there; empty for a zone's own corner or middle.
        zone: the zone that it belongs to.
        x, y: mm.
    """

    name: str
    what: str
    zone: str
    x: float
    y: float
    lines: tuple[str, ...] = ()


def find_nodes(
    *, room: Room, region: Region, control: Control, layouts: Sequence[Layout], snap: SnapList
) -> tuple[Node, ...]:
    """Returns the nodes of every zone that can be marked: a hand's width of floor about each.

    Of each zone the outermost crossings of its lines (`WAYS`), the crossing nearest to the centre, and, where the zone
    does not end at the walls (an inset, a field within a border), its corners and, if it stands
    free all round, its middle.

    Args:
        room, region: the room and its floor wall to wall.
        control: whose centre and first line the nodes are looked for from.
        layouts: of the zones.
        snap: the lines to snap, of all zones.
    """
    found: list[tuple[str, tuple[str, ...], str, Point]] = []
    for layout in layouts:
        prefix = f"{layout.zone} " if len(layouts) > 1 else ""
        lines = [line for line in snap.lines if line.family in {f"{prefix}{one.name}" for one in layout.cell.lines}]
        points = [*_crossings(layout, lines, control), *_own_corners(room, layout)]
        found += [(layout.zone, *point) for point in points]
    if not found:
        return ()
    free = room_round(region, [at for *_, at in found]) >= HAND - TOUCH
    kept = [one for one, is_free in zip(found, free, strict=True) if is_free]
    letter = _letter(room)
    return tuple(
        Node(name=f"{letter}{number}", what=what, zone=zone, x=at[0], y=at[1], lines=lines)
        for number, (zone, lines, what, at) in enumerate(kept, start=1)
    )


def _letter(room: Room) -> str:
    """A letter that no corner with a number is called by."""
    taken = {corner.name[0] for corner in room.corners if corner.name[1:].isdecimal()}
    return next(letter for letter in LETTERS if letter not in taken or letter == LETTERS[-1])


def _crossings(layout: Layout, lines: Sequence[SnapLine], control: Control) -> Iterator[_Found]:
    """The outermost crossings of a zone's lines on its floor in each direction, then the one nearest to the centre."""
    families = two_families(lines)
    if families is None:
        return
    pairs = [
        ((one.name, other.name), f"{one.name} x {other.name}", at)
        for one, other in product(*families)
        if (at := crossing(_on(one), one.angle, _on(other), other.angle)) is not None
    ]
    points = np.array([at for *_, at in pairs])
    inside = room_round(layout.region, points) >= HAND - TOUCH
    pairs, points = [pair for pair, is_in in zip(pairs, inside, strict=True) if is_in], points[inside]
    if not pairs:
        return
    off = points - np.asarray(control.centre)
    from_centre = np.hypot(*off.T)
    taken: list[int] = []
    for way in range(WAYS):
        far = off @ unit(control.lines[0].angle + way * math.tau / WAYS)
        outermost = np.flatnonzero(far >= far.max() - HAND)
        # Of a row of crossings equally far out the middle one; the corners have directions of their own.
        taken.append(int(outermost[np.argmin(_steps(from_centre[outermost]))]))
    taken.append(int(np.argmin(_steps(from_centre))))
    yield from (pairs[n] for n in dict.fromkeys(taken))


def _steps(distance: Points) -> Points:
    """Distances to a step at which rounding decides nothing: of equals the first is taken."""
    return np.round(distance / TOUCH)


def two_families(lines: Sequence[SnapLine]) -> tuple[list[SnapLine], list[SnapLine]] | None:
    """The first two families of a pattern that run across each other, those that joints run down unbroken first."""
    named: dict[str, list[SnapLine]] = {}
    for line in sorted(lines, key=lambda line: not line.through):
        if line.marks:
            named.setdefault(line.family, []).append(line)
    families = list(named.values())
    for n, one in enumerate(families):
        for other in families[n + 1 :]:
            if abs(math.sin(one[0].angle - other[0].angle)) > PARALLEL:
                return one, other
    return None


def _on(line: SnapLine) -> Point:
    return line.marks[0].x, line.marks[0].y


def _own_corners(room: Room, layout: Layout) -> Iterator[_Found]:
    """The corners of a zone that stand off the walls, and the middle of one that does so all round; of rings their
    centre alone."""
    if layout.rings is not None:
        yield (), f"{layout.zone}, centre", layout.chosen.placement.origin
        return
    # Where a wall or what lies beside is round, only the ends of the arc are corners.
    ring = restored_region(layout.region)[0].points
    bare = Region(rings=(room.outline,), edges=(("",) * len(room.outline),))
    free = room_round(bare, ring) > layout.gap[1] + HAND
    for number, (at, is_free) in enumerate(zip(ring, free, strict=True), start=1):
        if is_free:
            yield (), f"{layout.zone}, corner {number}", (float(at[0]), float(at[1]))
    if free.all():
        middle = (ring.min(axis=0) + ring.max(axis=0)) / 2
        yield (), f"{layout.zone}, middle", (float(middle[0]), float(middle[1]))
