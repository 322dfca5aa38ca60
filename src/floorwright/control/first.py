"""The first line: where it runs, before the centre on it is known."""

import math
from dataclasses import dataclass, replace
from typing import Final

from floorwright.control.choices import FirstLine, Place
from floorwright.control.sight import Point
from floorwright.control.visible import visual_centre
from floorwright.control.wall import find_opening, opening_angle, opening_at, wall_angle, wall_middle
from floorwright.control.words import place_text
from floorwright.findings import Finding, Severity
from floorwright.geometry.region import Region
from floorwright.plan.room import Room
from floorwright.tolerance import COINCIDENT, PARALLEL
from floorwright.units import LengthStyle

TURN: Final = math.radians(135)
"""A control line is named by its direction in (-45, 135] degrees: to the right or up the plan, never back."""


MOST_LEAN: Final = math.radians(45)
"""Walls that lean more to each other than this have no mean direction that anybody would call theirs (our default)."""


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


def find_first(room: Room, region: Region, first: FirstLine, style: LengthStyle) -> tuple[Found, tuple[Finding, ...]]:
    """Returns the first line of a room, and what was wrong with the choice.

    A choice that names what is not there is an error, and the line runs parallel to the first wall instead.
    """
    try:
        return _find(room, region, first, style), ()
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


def _find(room: Room, region: Region, first: FirstLine, style: LengthStyle) -> Found:
    if first.by == "parallel":
        return _parallel(room, _known_wall(room, first.wall or room.walls[0].name))
    if first.by == "opening":
        opening = find_opening(room, first.opening)
        if opening is None:
            raise _ChoiceError(
                f"no opening {first.opening!r}", _one_of([opening.name for opening in room.known_openings])
            )
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
    if first.by == "mean":
        return _mean(room, first.walls)
    if first.by == "sight":
        return _sight(room, region, first.opening)
    if len(first.points) != 2:
        raise _ChoiceError(f"{len(first.points)} points to run through", "two points")
    found = [find_place(room, place) for place in first.points]
    if found[0] is None or found[1] is None:
        missing = first.points[0] if found[0] is None else first.points[1]
        raise _ChoiceError(f"no corner {missing!r}", _one_of([corner.name for corner in room.corners]))
    words = [place_text(place, style) for place in first.points]
    how = f"along {first.slab_joint}" if first.by == "slab joint" else f"through {words[0]} and {words[1]}"
    return _through(found[0], found[1], how=how)


def _mean(room: Room, walls: tuple[str, ...]) -> Found:
    """Half way between two walls that run with each other: a taper is shared by both."""
    if len(walls) != 2:
        raise _ChoiceError(f"{len(walls)} walls to take the mean of", "two walls")
    start, end = (_known_wall(room, wall) for wall in walls)
    lean = math.remainder(wall_angle(room, end) - wall_angle(room, start), math.pi)
    if abs(lean) > MOST_LEAN:
        raise _ChoiceError(
            f"walls {start} and {end}, which lean {math.degrees(abs(lean)):.0f} degrees to each other",
            f"two walls within {math.degrees(MOST_LEAN):.0f} degrees of each other",
        )
    (x, y), (u, v) = wall_middle(room, start), wall_middle(room, end)
    angle = direction(wall_angle(room, start) + lean / 2)
    return Found(angle=angle, through=((x + u) / 2, (y + v) / 2), wall="", how=f"mean of {start} and {end}")


def _sight(room: Room, region: Region, name: str) -> Found:
    """From the middle of a door through the middle of what is seen from it."""
    opening = find_opening(room, name)
    if opening is None:
        raise _ChoiceError(f"no opening {name!r}", _one_of([opening.name for opening in room.known_openings]))
    seen = visual_centre(room, region, opening)
    if seen is None:
        raise _ChoiceError(f"no floor in sight from {opening.name}", "an opening that is not blocked")
    eye = opening_at(room, opening)
    return replace(_through(eye, seen, how=f"sight line from {opening.name}"), through=eye)


def _parallel(room: Room, wall: str) -> Found:
    return Found(angle=direction(wall_angle(room, wall)), through=None, wall=wall, how=f"parallel to {wall}")


def _through(start: Point, end: Point, *, how: str) -> Found:
    if math.dist(start, end) <= COINCIDENT:
        raise _ChoiceError(f"a line {how}, which is the same point", "two points apart")
    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    return Found(angle=direction(math.atan2(end[1] - start[1], end[0] - start[0])), through=middle, wall="", how=how)


def _known_wall(room: Room, name: str) -> str:
    names = [wall.name for wall in room.known_walls]
    if name not in names:
        raise _ChoiceError(f"no wall {name!r}", _one_of(names))
    return name


def _one_of(names: list[str]) -> str:
    return "one of " + ", ".join(names) if names else "none is booked"
