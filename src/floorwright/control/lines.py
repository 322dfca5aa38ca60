"""Control lines as they are struck: their marks on the walls, and how far out they may be."""

import math
from collections.abc import Iterator
from typing import Final

import numpy as np

from floorwright.control.accuracy import drift, taped_mark
from floorwright.control.centre import first_chord
from floorwright.control.choices import Tools
from floorwright.control.control import Construction, ControlLine, Drift, Mark, Step
from floorwright.control.sight import Meeting, Point, step, unit
from floorwright.control.square import CENTRE, join, mark, numbered
from floorwright.control.station import HAND
from floorwright.control.wall import wall_angle
from floorwright.plan.room import Room
from floorwright.tolerance import TOUCH

TURNS: Final = {
    "first line": 0.0,
    "square line": math.pi / 2,
    "45 left": math.pi / 4,
    "45 right": -math.pi / 4,
}
"""Every control line and how far it is turned from the first line, anticlockwise, radians."""


def wall_mark(room: Room, meeting: Meeting, at: Point, name: str, *, sd: float, from_end: bool = False) -> Mark:
    """Returns the mark where a line meets a wall: a running distance from the corner where the wall starts.

    Args:
        room: whose wall it is.
        meeting: with the room's outline.
        at: the same point, mm.
        name: of the mark.
        sd: standard deviation along the wall, mm.
        from_end: whether to measure from the corner where the wall ends instead.
    """
    wall = room.walls[meeting.edge]
    left = max(0.0, wall_length(room, wall.name) - meeting.along)
    start, distance = (wall.end, left) if from_end else (wall.start, meeting.along)
    return Mark(name=name, on=wall.name, start=start, distance=distance, x=at[0], y=at[1], sd=sd)


def wall_length(room: Room, wall: str) -> float:
    """Returns the length of a wall from corner to corner along its face, mm."""
    return room.length(wall)


def line_marks(room: Room, through: Point, angle: float, names: tuple[str, str], tools: Tools) -> tuple[Mark, ...]:
    """Returns the marks at both ends of the part of a line inside the walls that holds a point, in its direction.

    Obstacles do not stop a line. A distance that only reaches the mark from the wall's end with the tape to hand is
    measured from there. Empty where the line misses the room.
    """
    part = first_chord(room, through, angle)
    if part is None:
        return ()
    found = []
    for meeting, name in zip((in_corner(room, end) for end in part), names, strict=True):
        left = wall_length(room, room.walls[meeting.edge].name) - meeting.along
        from_end = meeting.along > tools.tape >= left
        at = step(through, angle, meeting.at)
        found.append(wall_mark(room, meeting, at, name, sd=taped_mark(tools), from_end=from_end))
    return tuple(found)


def in_corner(room: Room, meeting: Meeting) -> Meeting:
    """Returns a meeting with a wall, given to the wall that starts in the corner where it is in one.

    Rounding would decide between the two walls otherwise.
    """
    if wall_length(room, room.walls[meeting.edge].name) - meeting.along > TOUCH:
        return meeting
    return Meeting(at=meeting.at, edge=(meeting.edge + 1) % len(room.walls), along=0.0)


def control_line(
    room: Room, name: str, centre: Point, angle: float, marks: tuple[Mark, ...], sd_angle: float, tools: Tools
) -> ControlLine:
    """Returns a line through the centre with its drift at both ends, and at the far corner where that is further.

    The first line has no drift but that of its own marks: everything else is held against it.
    """
    ends = [math.dist(centre, (end.x, end.y)) for end in marks]
    if name == "first line":
        struck = [Drift(at=at, sd=across(room, end, angle)) for at, end in zip(ends, marks, strict=True)]
    else:
        reach = float(np.abs((room.outline - np.asarray(centre)) @ unit(angle)).max())
        if reach > max(ends, default=0.0) + HAND:
            ends.append(reach)
        struck = [Drift(at=at, sd=drift(sd_angle, at, tools)) for at in ends]
    return ControlLine(name=name, angle=angle, through=centre, marks=marks, sd_angle=sd_angle, drift=tuple(struck))


def across(room: Room, end: Mark, angle: float) -> float:
    """Returns how far a line's end moves square to the line as its mark slips along the wall by one sd, mm."""
    return end.sd * abs(math.sin(wall_angle(room, end.on) - angle))


def between_marks(room: Room, marks: tuple[Mark, ...], angle: float) -> float:
    """Returns the standard deviation of the angle of a line struck through its two marks on the walls, radians."""
    length = math.dist((marks[0].x, marks[0].y), (marks[1].x, marks[1].y))
    return math.hypot(*(across(room, end, angle) for end in marks)) / length


def by_wall_marks(name: str, marks: tuple[Mark, ...], centre: Point | None, sd_angle: float) -> Construction:
    """Returns a line struck through its marks on two walls, with the centre marked on it when one is given."""
    first, last = marks
    start, end = (first.x, first.y), (last.x, last.y)

    def steps() -> Iterator[Step]:
        for made in marks:
            yield mark("tape", made.start, made.name, made.distance, (made.x, made.y))
        yield join(first.name, last.name, start, end)
        if centre is not None:
            yield mark("tape", first.name, CENTRE, math.dist(start, centre), centre)

    return Construction(
        makes=name,
        method="marks on the walls",
        size=math.dist(start, end),
        steps=numbered(steps()),
        sd_angle=sd_angle,
        why="Each mark is a running distance from a corner: hold the tape's zero there and add nothing up.",
    )
