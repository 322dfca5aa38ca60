"""The first line: where it runs, before the centre on it is known."""

import math
from dataclasses import dataclass
from typing import Final

from floorwright.control.choices import FirstLine, Place
from floorwright.control.sight import Point
from floorwright.control.words import place_text
from floorwright.findings import Finding, Severity
from floorwright.plan.room import Opening, Room
from floorwright.tolerance import COINCIDENT, PARALLEL
from floorwright.units import LengthStyle

TURN: Final = math.radians(135)
"""A control line is named by its direction in (-45, 135] degrees: to the right or up the plan, never back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A first line as found.

    Attributes:
        angle: radians, in (-45, 135] degrees.
        through: a point on it, mm; None for one that takes its place from the centre.
        wall: name of the wall that it is parallel to, else empty.
        how: words.
    """

    angle: float
    through: Point | None
    wall: str
    how: str


def find_first(room: Room, first: FirstLine, style: LengthStyle) -> tuple[Found, tuple[Finding, ...]]:
    """Returns the first line of a room, and what was wrong with the choice.

    A choice that names what is not there is an error, and the line runs parallel to the first wall instead.
    """
    try:
        return _find(room, first, style), ()
    except _ChoiceError as why:
        wall = room.walls[0].name
        finding = Finding(
            code="control-first-line",
            severity=Severity.ERROR,
            place="first line",
            found=why.found,
            expected=why.expected,
            remedy=f"mend the choice; the first line is drawn parallel to {wall} until then",
            source="yours",
        )
        return _parallel(room, wall), (finding,)


def direction(angle: float) -> float:
    """Returns an angle, or the opposite one, in (-45, 135] degrees: the two directions of one line are one answer."""
    turned = math.remainder(angle, math.tau)
    if turned <= TURN - math.pi + PARALLEL:
        return turned + math.pi
    return turned - math.pi if turned > TURN + PARALLEL else turned


def wall_angle(room: Room, wall: str) -> float:
    """Returns the direction of a wall from its start to its end, the room on its left, radians."""
    start, end = room.ends(wall)
    return math.atan2(end[1] - start[1], end[0] - start[0])


def wall_middle(room: Room, wall: str) -> Point:
    """Returns the middle of a wall, corner to corner, mm."""
    start, end = room.ends(wall)
    return float(start[0] + end[0]) / 2, float(start[1] + end[1]) / 2


def opening_at(room: Room, opening: Opening, share: float = 0.5) -> Point:
    """Returns a point across an opening on the face of its wall, 0 at the side nearer the wall's start, mm."""
    x, y = room.place(opening.wall, opening.start + share * opening.width)
    return float(x), float(y)


def opening_angle(room: Room, opening: Opening) -> float:
    """Returns the direction across an opening, from the side nearer its wall's start to the other, radians."""
    if not room.wall(opening.wall).bulge:
        return wall_angle(room, opening.wall)
    (ax, ay), (bx, by) = opening_at(room, opening, 0.0), opening_at(room, opening, 1.0)
    return math.atan2(by - ay, bx - ax)


def find_opening(room: Room, name: str) -> Opening | None:
    """Returns the opening of that name, the first one where no name is given, None where there is none."""
    return next((opening for opening in room.openings if name in ("", opening.name)), None)


def find_place(room: Room, place: Place) -> Point | None:
    """Returns a place in mm; None where it names a corner that the room has not."""
    if not isinstance(place, str):
        return place
    return next(((corner.x, corner.y) for corner in room.corners if corner.name == place), None)


class _ChoiceError(Exception):
    """A choice that the room does not allow; never leaves this module."""

    def __init__(self, found: str, expected: str) -> None:
        super().__init__(found)
        self.found = found
        self.expected = expected


def _find(room: Room, first: FirstLine, style: LengthStyle) -> Found:
    if first.by == "parallel":
        return _parallel(room, _known_wall(room, first.wall or room.walls[0].name))
    if first.by == "opening":
        opening = find_opening(room, first.opening)
        if opening is None:
            raise _ChoiceError(f"no opening {first.opening!r}", _one_of([opening.name for opening in room.openings]))
        square = opening_angle(room, opening) + math.pi / 2
        return Found(
            angle=direction(square), through=opening_at(room, opening), wall="", how=f"in line with {opening.name}"
        )
    if first.by == "mid-points":
        if len(first.walls) != 2:
            raise _ChoiceError(f"{len(first.walls)} walls to join the middles of", "two walls")
        walls = [_known_wall(room, wall) for wall in first.walls]
        start, end = (wall_middle(room, wall) for wall in walls)
        return _through(start, end, how=f"middle of {walls[0]} to middle of {walls[1]}")
    if len(first.points) != 2:
        raise _ChoiceError(f"{len(first.points)} points to run through", "two points")
    found = [find_place(room, place) for place in first.points]
    if found[0] is None or found[1] is None:
        missing = first.points[0] if found[0] is None else first.points[1]
        raise _ChoiceError(f"no corner {missing!r}", _one_of([corner.name for corner in room.corners]))
    words = [place_text(place, style) for place in first.points]
    return _through(found[0], found[1], how=f"through {words[0]} and {words[1]}")


def _parallel(room: Room, wall: str) -> Found:
    return Found(angle=direction(wall_angle(room, wall)), through=None, wall=wall, how=f"parallel to {wall}")


def _through(start: Point, end: Point, *, how: str) -> Found:
    if math.dist(start, end) <= COINCIDENT:
        raise _ChoiceError(f"a line {how}, which is the same point", "two points apart")
    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    return Found(angle=direction(math.atan2(end[1] - start[1], end[0] - start[0])), through=middle, wall="", how=how)


def _known_wall(room: Room, name: str) -> str:
    names = [wall.name for wall in room.walls]
    if name not in names:
        raise _ChoiceError(f"no wall {name!r}", _one_of(names))
    return name


def _one_of(names: list[str]) -> str:
    return "one of " + ", ".join(names) if names else "none is booked"
