"""Edges that may move, and for which no move saves anything: each with why."""

from collections.abc import Sequence
from dataclasses import dataclass

from floorwright.layout.arcs import arc_of
from floorwright.layout.axis import Axis, axes_of
from floorwright.layout.change import Change, FreeEdge, faces_at, is_full, least_move
from floorwright.layout.layout import Layout
from floorwright.layout.options import breaks_limit
from floorwright.layout.sides import Side
from floorwright.plan.room import Room
from floorwright.tolerance import TOUCH


@dataclass(frozen=True, slots=True, kw_only=True)
class Unmoved:
    """An edge that is better left where it is.

    Attributes:
        edge: see there.
        why: in a few words.
    """

    edge: FreeEdge
    why: str


def unmoved(
    layout: Layout, sides: Sequence[Side], room: Room, free: Sequence[FreeEdge], found: Sequence[Change]
) -> tuple[Unmoved, ...]:
    """Returns the free edges that none of the changes found moves, in the order given. Arguments as for `changes`."""
    moved = {wall for change in found for wall, _ in change.moves}
    return tuple(
        Unmoved(edge=edge, why=_why(layout, sides, room, edge, found)) for edge in free if edge.wall not in moved
    )


def _why(layout: Layout, sides: Sequence[Side], room: Room, edge: FreeEdge, found: Sequence[Change]) -> str:
    number = next(n for n, wall in enumerate(room.walls) if wall.name == edge.wall)
    before, own, after = (room.walls[(number + step) % len(room.walls)] for step in (-1, 0, 1))
    if own.bulge:
        limit = " and nowhere so far does the worst piece come up to the limit"
        broken = layout.limit > 0 and breaks_limit(layout.options[0], layout.limit)
        return f"it is an arc, so that tiles along it are cut wherever it lies{limit if broken else ''}"
    if before.bulge or after.bulge:
        return "the wall beside it is an arc, and how that would run on cannot be told"
    axes = axes_of(layout.cell, layout.chosen.placement.angle)
    axis = next((axis for axis in axes if faces_at(layout, sides, axis, edge)), None)
    if axis is None:
        return "the pattern does not run along it"
    return _why_along(layout, sides, axis, edge, found)


def _why_along(layout: Layout, sides: Sequence[Side], axis: Axis, edge: FreeEdge, found: Sequence[Change]) -> str:
    spare = layout.gap[1] - layout.gap[0]
    mine = faces_at(layout, sides, axis, edge)
    if any(arc_of(face, axis, axis.size, spare) is None for face in mine):
        return "it is out of true with the pattern, so that a row of full tiles cannot end at it"
    by = least_move(layout, sides, axis, edge, axis.size)
    if is_full(layout.chosen, [edge.wall]) or (by is not None and abs(by) < TOUCH):
        return "the tiles can end full there as it is"
    other = next((change for change in found if change.aim.endswith(axis.name) and change.moves), None)
    if other is not None:
        return f"wall {other.moves[0][0]} need not move as far for the same"
    return "nowhere so far do full tiles end there, or the worst piece comes up to the limit"
