"""Change the job, not the cuts: the least change of an edge that is free, or of the joint, that does away with cuts.

A patio's edge, a kerb or a wall that is not built yet may as well end where the tiles do. For every edge that is free
the least move is worked out at which no cut is left along its axis, or at which the narrowest piece comes up to the
limit. Where walls and tiles are square to each other that is exact (`layout.arcs`); every change is then laid out by
the ordinary machinery on the changed floor, and only told if it does what it should.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from floorwright.errors import FloorwrightValueError
from floorwright.layout.arcs import Arc, arc_of, least_shift, shared
from floorwright.layout.axis import Axis, Face, axes_of, region_faces, wall_faces
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option
from floorwright.layout.options import breaks_limit
from floorwright.layout.rectilinear import is_rectilinear
from floorwright.layout.sides import Side
from floorwright.plan.moved import with_wall_moved
from floorwright.plan.room import Room
from floorwright.tolerance import COINCIDENT, RANK_STEP, TOUCH

NO_CUTS: Final = "no cuts"
LIMIT: Final = "nothing under the limit"

TRIES: Final = 8
"""Moves laid out at a free edge where walls and tiles are not square to each other."""

Lay = Callable[[Room], Layout | None]
"""Lays a room out as the job says; None where nothing comes of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FreeEdge:
    """A wall that may be built elsewhere.

    Attributes:
        wall: its name.
        out, inward: mm by which it may move, out of the floor and into it.
    """

    wall: str
    out: float
    inward: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A change of the job, and what comes of it.

    Attributes:
        aim: `no cuts along`, `no cuts across`, `no cuts` at all, `no cuts at` a wall, or `nothing under the limit`.
        moves: (wall, mm out) of each wall that moves; under 0 for in.
        joint: mm, where it is the joint that changes; else None.
        border: (zone, mm wide), where it is the width of a border; else None.
        before: the option as the job is.
        option: the option that it makes possible; chosen by its name once the job is changed.
        exact: whether no smaller change of this kind does it; else it is the least of those that were tried.
    """

    aim: str
    moves: tuple[tuple[str, float], ...] = ()
    joint: float | None = None
    border: tuple[str, float] | None = None
    before: Option
    option: Option
    exact: bool

    @property
    def size(self) -> float:
        """How much is changed, mm."""
        return sum(abs(by) for _, by in self.moves)


def changes(
    layout: Layout, sides: Sequence[Side], room: Room, free: Sequence[FreeEdge], joint: float, lay: Lay
) -> tuple[Change, ...]:
    """Returns the least changes of the job that do away with cuts, or bring every piece to the limit.

    Args:
        layout: of the field, as the job is.
        sides: that its cuts are measured to.
        room: as it is.
        free: the walls that may move.
        joint: mm, as asked for.
        lay: lays out a changed room.
    """
    found = [*_by_joint(layout, joint)]
    moved: dict[str, Change] = {}
    for axis in _axes(layout):
        for edge in free:
            change = _without_cuts(layout, sides, room, axis, edge, lay)
            if change is not None and (axis.name not in moved or change.size < moved[axis.name].size):
                moved[axis.name] = change
    found += moved.values()
    axes = [axis for axis in _axes(layout) if axis.name not in moved]
    alone = [_without_cuts_at(layout, sides, room, axis, edge, lay) for axis in axes for edge in free]
    found += [change for change in alone if change is not None]
    if len(moved) == 2:
        both = _both(layout, room, [*moved.values()], lay)
        found += [both] if both is not None else []
    if layout.limit > 0 and breaks_limit(layout.options[0], layout.limit):
        kept = [change for edge in free if (change := _to_limit(layout, sides, room, edge, lay)) is not None]
        found += sorted(kept, key=lambda change: (change.size, change.moves))[:1]
    return tuple(found)


def _axes(layout: Layout) -> tuple[Axis, ...]:
    return axes_of(layout.cell, layout.chosen.placement.angle)


def is_full(option: Option, axis_walls: Sequence[str]) -> bool:
    """Returns whether an option lays full tiles at all of these walls."""
    cuts = {cut.wall: cut for cut in option.walls}
    return all(name in cuts and cuts[name].thin >= cuts[name].tile - TOUCH for name in axis_walls)


def _by_joint(layout: Layout, joint: float) -> Iterator[Change]:
    """Yields the joint nearest to the one asked for, of those that are allowed, at which no cut is left along an axis,
    and that at which the limit is kept."""
    asked = [option for option in layout.options if abs(option.joint - joint) < RANK_STEP and not option.refused]
    other = [option for option in layout.options if abs(option.joint - joint) >= RANK_STEP and not option.refused]
    before = asked[0] if asked else layout.chosen

    def nearest(options: Sequence[Option]) -> Option:
        return min(options, key=lambda option: (round(abs(option.joint - joint) / RANK_STEP), option.cut))

    for name, walls in _walls_by_axis(layout).items():
        good = [option for option in other if is_full(option, walls) and option.cut < before.cut]
        if good and not any(is_full(option, walls) for option in asked):
            best = nearest(good)
            yield Change(aim=f"{NO_CUTS} {name}", joint=best.joint, before=before, option=best, exact=False)
    if layout.limit > 0 and all(breaks_limit(option, layout.limit) for option in asked):
        good = [option for option in other if not breaks_limit(option, layout.limit)]
        if good:
            best = nearest(good)
            yield Change(aim=LIMIT, joint=best.joint, before=before, option=best, exact=False)


def _walls_by_axis(layout: Layout) -> dict[str, list[str]]:
    """Returns for each axis the walls square to it, by name."""
    walls = {cut.wall for cut in layout.chosen.walls}
    found: dict[str, list[str]] = {}
    for axis in _axes(layout):
        faces = region_faces(layout.region, axis)
        found[axis.name] = sorted({face.name for face in faces} & walls)
    return {name: names for name, names in found.items() if names}


def _faces(layout: Layout, sides: Sequence[Side], axis: Axis) -> tuple[Face, ...]:
    """Returns what bounds the floor along an axis: every edge where all is square, else the walls."""
    if is_rectilinear(layout.region, layout.cell, layout.chosen.placement.angle):
        return region_faces(layout.region, axis)
    return wall_faces(sides, axis)


def faces_at(layout: Layout, sides: Sequence[Side], axis: Axis, edge: FreeEdge) -> list[Face]:
    """Returns what a free edge bounds of the floor along an axis."""
    return [face for face in _faces(layout, sides, axis) if _goes_with(face, edge)]


def least_move(layout: Layout, sides: Sequence[Side], axis: Axis, edge: FreeEdge, least: float) -> float | None:
    """Returns the least move of a free edge, mm out, at which a position leaves no cut on this axis thinner than
    `least`; None where none does, or the edge is not square to the axis."""
    mine = faces_at(layout, sides, axis, edge)
    if not mine or len({face.sign for face in mine}) > 1:
        return None
    spare = layout.gap[1] - layout.gap[0]

    def allowed(some: Sequence[Face]) -> list[Arc]:
        arcs = [arc_of(face, axis, least, spare, phase) for face in some for phase in axis.phases]
        return shared(arcs, axis.pitch)

    sign = mine[0].sign
    bounds = (-edge.inward, edge.out) if sign > 0 else (-edge.out, edge.inward)
    others = [face for face in _faces(layout, sides, axis) if not _goes_with(face, edge)]
    shift = least_shift(allowed(mine), allowed(others), axis.pitch, *bounds)
    return None if shift is None else sign * shift


def _goes_with(face: Face, edge: FreeEdge) -> bool:
    """Returns whether a face is a free edge, or a border along it, which moves with it."""
    return face.name == edge.wall or face.name.endswith(f" at {edge.wall}")


def _without_cuts(
    layout: Layout, sides: Sequence[Side], room: Room, axis: Axis, edge: FreeEdge, lay: Lay
) -> Change | None:
    """Returns the least move of an edge at which no cut is left along an axis."""
    by = least_move(layout, sides, axis, edge, axis.size)
    if by is None or abs(by) < TOUCH:
        return None
    # The arcs are as much wider as a touch: the move goes on to where the tiles end exactly.
    walls = _walls_by_axis(layout).get(axis.name, [])
    return _laid(
        layout, room, ((edge.wall, _flush(by)),), f"{NO_CUTS} {axis.name}", lay, lambda one: is_full(one, walls)
    )


def _without_cuts_at(
    layout: Layout, sides: Sequence[Side], room: Room, axis: Axis, edge: FreeEdge, lay: Lay
) -> Change | None:
    """Returns the lesser move of an edge at which the pattern, as it is laid, ends full along it; there are cuts
    elsewhere."""
    cut = next((one for one in layout.chosen.walls if one.wall == edge.wall), None)
    if cut is None or not faces_at(layout, sides, axis, edge) or cut.fat - cut.thin > TOUCH:
        return None
    moves = [by for by in (cut.tile - cut.thin, -cut.thin - axis.joint) if -edge.inward <= by <= edge.out]
    for by in sorted((by for by in moves if abs(by) >= TOUCH), key=abs):
        change = _laid(
            layout,
            room,
            ((edge.wall, by),),
            f"{NO_CUTS} at {edge.wall}",
            lay,
            lambda one: is_full(one, [edge.wall]) and _saves(layout, one),
        )
        if change is not None:
            return replace(change, exact=False)
    return None


def _saves(layout: Layout, changed: Option) -> bool:
    """Returns whether no option of the job as it is has as few cuts and keeps the limit as well."""
    limit = layout.limit
    return not any(
        one.cut <= changed.cut and (breaks_limit(changed, limit) or not breaks_limit(one, limit))
        for one in layout.options
        if not one.refused
    )


def _flush(by: float) -> float:
    return by + math.copysign(TOUCH, by)


def _both(layout: Layout, room: Room, two: Sequence[Change], lay: Lay) -> Change | None:
    """Returns the changes on both axes made at once: no cut is left at all."""
    moves = tuple(move for change in two for move in change.moves)
    return _laid(layout, room, moves, NO_CUTS, lay, lambda one: one.cut == 0)


def _to_limit(layout: Layout, sides: Sequence[Side], room: Room, edge: FreeEdge, lay: Lay) -> Change | None:
    """Returns the least move of an edge at which every piece keeps the limit."""
    moves = [by for axis in _axes(layout) if (by := least_move(layout, sides, axis, edge, layout.limit)) is not None]
    exact = is_rectilinear(layout.region, layout.cell, layout.chosen.placement.angle)
    tried = [by for by in moves if abs(by) >= TOUCH]
    if not exact:
        tried += _spread(edge)
    for by in sorted(tried, key=lambda by: (abs(by), by)):
        change = _laid(
            layout, room, ((edge.wall, _flush(by)),), LIMIT, lay, lambda one: not breaks_limit(one, layout.limit)
        )
        if change is not None:
            return change if exact else replace(change, exact=False)
    return None


def _spread(edge: FreeEdge) -> list[float]:
    """Returns moves to try where no sum tells the least: even steps over the range there is."""
    reach = edge.out + edge.inward
    steps = [-edge.inward + reach * n / TRIES for n in range(TRIES + 1)]
    return [by for by in steps if abs(by) > COINCIDENT]


def _laid(
    layout: Layout,
    room: Room,
    moves: tuple[tuple[str, float], ...],
    aim: str,
    lay: Lay,
    does_it: Callable[[Option], bool],
) -> Change | None:
    """Returns the change with the best option that does it on the changed floor; None where none does."""
    try:
        for wall, by in moves:
            room = with_wall_moved(room, wall, by)
    except FloorwrightValueError:
        return None
    changed = lay(room)
    if changed is None:
        return None
    good = [option for option in changed.options if not option.refused and does_it(option)]
    if not good:
        return None
    best = good[0] if aim == LIMIT else min(good, key=lambda option: (breaks_limit(option, layout.limit), option.cut))
    exact = is_rectilinear(layout.region, layout.cell, layout.chosen.placement.angle)
    return Change(aim=aim, moves=moves, before=layout.chosen, option=best, exact=exact)
