"""What a first line and centre would cost, told without the full search: enough to hold many side by side."""

from collections.abc import Callable, Iterator

import numpy as np

from floorwright.layout.axis import axes_of
from floorwright.layout.option import Option
from floorwright.layout.options import (
    Line,
    Tried,
    best_of,
    best_way,
    breaks_limit,
    by_hand,
    lines_of,
    paired,
    placed_at,
    thin_limit,
    ways_of,
    weighed,
)
from floorwright.layout.positions import FULL_AT, UNALIGNED, WIDEST, Placed
from floorwright.layout.rectilinear import best_on_axis, is_rectilinear
from floorwright.layout.score import Floor, score
from floorwright.layout.wider import spread
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import TOUCH

SEARCHED = (
    "each by the best of the positions by hand and, in a room square to the pattern, the widest worst piece; the "
    "chosen first line alone is searched in full"
)
"""What `quick_best` looks at, in words."""


def quick_best(floor: Floor, make_cell: Callable[[float], UnitCell], angle: float, joints: list[float]) -> Option:
    """Returns the best position of a pattern, of a few that are quickly told.

    On each axis the best of the positions by hand is found from the walls alone, and those with a full tile at a wall
    that keep to the limit; only those are scored piece by piece. Where the room is square to the pattern the exact
    answer is too. Joints are opened no further than it takes to keep to the limit; one at which the walls alone tell
    that no position by hand keeps to it is not laid.

    Args:
        floor: to lay.
        make_cell: the pattern at a joint, mm.
        angle: of the pattern, radians.
        joints: mm, those allowed, the one asked for first; of many a few are tried.
    """
    tried: list[Tried] = []
    for joint in spread(joints, []):
        cell = make_cell(joint)
        lines = lines_of(floor, cell, angle)
        placed = [ways_of(floor, line) for line in lines]
        if tried and not all(_may_keep(floor, cell, ways) for ways in placed):
            continue
        tried += _tried(floor, cell, angle, lines, placed)
        if not all(one.option.refused or breaks_limit(one.option, floor.limit) for one in tried):
            break  # a joint opened further only ranks lower
    best = best_of(floor, make_cell, tried)
    if best:
        return best[0].option
    return weighed(floor, make_cell(tried[0].option.joint), tried[0].option, tried[0].rank)


def _may_keep(floor: Floor, cell: UnitCell, ways: list[Placed]) -> bool:
    """Whether a way on one axis fits and leaves no thin end under the limit, as far as the walls tell."""
    least = thin_limit(floor, cell)
    return any(way.fits and way.thin >= least - TOUCH for way in ways)


def _tried(
    floor: Floor, cell: UnitCell, angle: float, lines: tuple[Line, ...], placed: list[list[Placed]]
) -> Iterator[Tried]:
    if not lines:
        yield from by_hand(floor, cell, angle)
        return
    across, along = [best_way(floor, cell, ways) for ways in placed]
    yield paired(floor, cell, angle, lines, (across, along))
    for way in _full_at_walls(floor, cell, placed[0]):
        yield paired(floor, cell, angle, lines, (way, along))
    for way in _full_at_walls(floor, cell, placed[1]):
        yield paired(floor, cell, angle, lines, (across, way))
    exact = _exact(floor, cell, angle, lines)
    if exact is not None:
        yield exact


def _full_at_walls(floor: Floor, cell: UnitCell, ways: list[Placed]) -> list[Placed]:
    """The ways on one axis with a full tile at a wall that leave no thin end under the limit."""
    least = thin_limit(floor, cell)
    full = [way for way in ways if way.position.name.startswith(FULL_AT)]
    return [way for way in full if way.fits and way.thin >= least - TOUCH]


def _exact(floor: Floor, cell: UnitCell, angle: float, lines: tuple[Line, ...]) -> Tried | None:
    if not is_rectilinear(floor.region, cell, angle):
        return None
    best = [
        best_on_axis(floor.region, axis, float(np.array(floor.centre) @ axis.direction), floor.spare, WIDEST)
        for axis in axes_of(cell, angle)
    ]
    lows = [one.low for one in best if one is not None]
    if len(lows) < len(best):
        return None
    placement = placed_at(floor, cell, angle, lines, lows)
    return Tried(option=score(floor, cell, placement, WIDEST), rank=UNALIGNED)
