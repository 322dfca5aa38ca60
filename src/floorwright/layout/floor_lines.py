"""Lines of a floor that a joint, or the middle of a tile, may lie on, and which of them a position lines up with."""

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from floorwright.control.control import Control
from floorwright.geometry.region import Points
from floorwright.layout.axis import Axis
from floorwright.layout.option import WallCut
from floorwright.plan.room import Room
from floorwright.tolerance import ALONG, LINES_UP, STRIP


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FloorLine:
    """A line that people see or work from.

    Attributes:
        name: as a person names it in the job file: `first line`, an opening, a wall; empty for one that has no name of
            its own there.
        words: where a joint on it lies: `on the first line`, `at the middle of door`.
        point: (2,) mm, where it is held against the pattern.
        angle: radians, its direction.
        reach: mm, how far it runs to either side of the point.
        joints_only: whether only a joint in line with it is worth a word, and not the middle of a tile.
    """

    name: str
    words: str
    point: Points
    angle: float
    reach: float = 0.0
    joints_only: bool = False


def floor_lines(room: Room, control: Control, rooms: Collection[str] = ()) -> tuple[FloorLine, ...]:
    """Returns the control lines, the axis of every opening, the middle of every wall, the walls, the sides of openings
    and the sides of columns; in that order.

    Args:
        room: as adjusted.
        control: its lines.
        rooms: whose walls and openings count, of several; empty for all.
    """
    if rooms:
        walls = tuple(wall for wall in room.walls if wall.room in rooms)
        own = {wall.name for wall in walls}
        openings = tuple(opening for opening in room.openings if opening.wall in own)
        return (*_control_lines(room, control), *_of_walls(replace(room, walls=walls, openings=openings)))
    return (*_control_lines(room, control), *_of_walls(room))


def _of_walls(room: Room) -> Iterator[FloorLine]:
    for made in (_opening_axes, _wall_middles, _walls, _opening_sides, _column_sides):
        yield from made(room)


def _control_lines(room: Room, control: Control) -> Iterator[FloorLine]:
    reach = float(np.hypot(*np.ptp(room.outline, axis=0))) / 2
    for line in control.lines:
        through = np.array(line.through)
        yield FloorLine(name=line.name, words=f"on the {line.name}", point=through, angle=line.angle, reach=reach)


def _along(room: Room, wall: str) -> tuple[Points, Points, float]:
    """Returns the start of a wall, its direction, and its length."""
    start, end = room.ends(wall)
    length = math.dist(start, end)
    return start, (end - start) / length, length


def _opening_axes(room: Room) -> Iterator[FloorLine]:
    for opening in room.openings:
        start, unit, _ = _along(room, opening.wall)
        point = start + (opening.start + opening.width / 2) * unit
        yield FloorLine(name=opening.name, words=f"at the middle of {opening.name}", point=point, angle=_square(unit))


def _wall_middles(room: Room) -> Iterator[FloorLine]:
    for wall in room.walls:
        start, unit, length = _along(room, wall.name)
        point = start + length / 2 * unit
        yield FloorLine(name="", words=f"at the middle of wall {wall.name}", point=point, angle=_square(unit))


def _walls(room: Room) -> Iterator[FloorLine]:
    for wall in room.walls:
        start, unit, length = _along(room, wall.name)
        yield FloorLine(
            name=wall.name,
            words="",
            point=start + length / 2 * unit,
            angle=math.atan2(unit[1], unit[0]),
            reach=length / 2,
        )


def _opening_sides(room: Room) -> Iterator[FloorLine]:
    for opening in room.openings:
        start, unit, _ = _along(room, opening.wall)
        words = f"in line with a side of {opening.name}"
        for along in (opening.start, opening.start + opening.width):
            point = start + along * unit
            yield FloorLine(name="", words=words, point=point, angle=_square(unit), joints_only=True)


def _column_sides(room: Room) -> Iterator[FloorLine]:
    for obstacle in room.obstacles:
        if obstacle.radius is not None:
            continue
        for one, other in zip(obstacle.outline, np.roll(obstacle.outline, -1, axis=0), strict=True):
            run = other - one
            yield FloorLine(
                name="",
                words=f"in line with a side of {obstacle.name}",
                point=(one + other) / 2,
                angle=math.atan2(run[1], run[0]),
                reach=float(np.hypot(*run)) / 2,
                joints_only=True,
            )


def _square(unit: Points) -> float:
    return math.atan2(unit[0], -unit[1])


JOINT: Final = "joint"
TILE: Final = "tile"


def off_line(line: FloorLine, axes: tuple[Axis, ...], origin: Points, what: str) -> float | None:
    """Returns how far the nearest joint's centre, or tile's middle, lies from a line where it is held against the
    pattern, mm; None where the line does not run along the pattern.

    Args:
        line: which.
        axes: of the pattern.
        origin: (2,) mm, a crossing of joint centres.
        what: `JOINT` or `TILE`.
    """
    for axis in axes:
        if not runs_along(line, axis):
            continue
        at = float((line.point - origin) @ axis.direction) - (0.0 if what == JOINT else axis.pitch / 2)
        return min(abs((at - phase + axis.pitch / 2) % axis.pitch - axis.pitch / 2) for phase in axis.phases)
    return None


def runs_along(line: FloorLine, axis: Axis) -> bool:
    """Returns whether a line runs along the joints that an axis is square to."""
    return abs(_slope(line, axis)) <= math.sin(ALONG)


def _slope(line: FloorLine, axis: Axis) -> float:
    """How much a line comes on along an axis for every mm of its length."""
    return float(np.array([math.cos(line.angle), math.sin(line.angle)]) @ axis.direction)


def lines_up(
    lines: tuple[FloorLine, ...], axes: tuple[Axis, ...], origin: Points, walls: tuple[WallCut, ...]
) -> tuple[str, ...]:
    """Returns what lines up with what, to `tolerance.LINES_UP`, as phrases: `a joint on the first line`."""
    found = []
    for line in lines:
        if not line.words:
            continue
        for what in (JOINT,) if line.joints_only else (JOINT, TILE):
            off = off_line(line, axes, origin, what)
            if off is None:
                continue
            # To both ends of the line, not only where it is held.
            off += line.reach * min(abs(_slope(line, axis)) for axis in axes)
            if off <= LINES_UP:
                found.append(f"a joint {line.words}" if what == JOINT else f"the middle of a tile {line.words}")
    found += [f"full tiles at wall {wall.wall}" for wall in walls if wall.fits and wall.tile - wall.thin <= STRIP]
    return tuple(dict.fromkeys(found))
