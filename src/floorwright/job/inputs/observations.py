"""Every reading and assumption of a job as an observation with its a-priori accuracy, in the order of the form."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from math import atan2, hypot, radians
from typing import TYPE_CHECKING, Final

from floorwright.job.inputs.tape import corrected
from floorwright.job.inputs.walls import anticlockwise, own_name, rooms_of, walls_of
from floorwright.job.model.values import ends
from floorwright.survey.accuracy import TAPES, own_limit, sd
from floorwright.survey.observation import Along, Angle, Coordinate, Distance, Observation, Offset, Square, Straight

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from floorwright.job.model import AngleReading, Job, OffsetReading, Survey
    from floorwright.job.model import Square as TakenSquare

BY_EYE: Final = 0.01
"""Our default: a tape held square by eye is out by a hundredth of its length, one standard deviation (0.6 degrees)."""


def observations(job: Job) -> tuple[Observation, ...]:
    """Returns every reading and assumption of a job whose survey has nothing wrong; no two have one key."""
    booked = job.survey
    accuracy = tape_accuracy(booked)
    readings: list[Observation] = []
    for pair, reads in booked.distances.items():
        a, b = ends(pair)
        lengths = [corrected(read, booked, pair) for read in reads]
        readings += [Distance(key=pair, a=a, b=b, measured=length, sd=accuracy(length)) for length in lengths]
    readings += [_angle(angle, job) for angle in booked.angles]
    for offset in booked.offsets:
        readings += _offset(offset, job, accuracy)
    for name, place in booked.points.items():
        readings += [
            Coordinate(key=f"{name} {axis}", point=name, axis=i, measured=value, sd=booked.coordinates_within)
            for i, (axis, value) in enumerate(zip(("x", "y"), place, strict=True))
        ]
    readings += [_square(square, job) for square in booked.square]
    for line in booked.straight:
        a, at, b = line.points
        readings.append(Straight(key=f"straight {'-'.join(line.points)}", a=a, at=at, b=b, sd=line.within))
    return tuple(_each_with_its_own_key(readings))


def tape_accuracy(booked: Survey) -> Callable[[float], float]:
    """Returns the function from a length read, mm, to its standard deviation, mm, with the survey's tape."""
    tape = own_limit(booked.tape.limit) if booked.tape.limit else TAPES[booked.tape.tape_class]
    return partial(sd, tape=tape, hook=booked.tape.hook, reading=booked.tape.reading)


def _each_with_its_own_key(readings: Iterable[Observation]) -> Iterator[Observation]:
    """The readings, a second one of the same thing called `SW-NE/2` and so on."""
    times: dict[str, int] = {}
    for reading in readings:
        time = times[reading.key] = times.get(reading.key, 0) + 1
        yield reading if time == 1 else replace(reading, key=f"{reading.key}/{time}")


def walls_at(corner: str, job: Job) -> tuple[str, str]:
    """Returns the corners after and before one, anticlockwise: its inside angle runs from the first to the second.

    Of a corner that rooms share it is the angle of the first of them.
    """
    outline = next(anticlockwise(room) for room in rooms_of(job) if corner in room.outline)
    place = outline.index(corner)
    return outline[(place + 1) % len(outline)], outline[place - 1]


def line_of(offset: OffsetReading, job: Job) -> tuple[str, str]:
    """Returns the ends of the line that a point is measured out from: to its left is into the room, or left of it."""
    return offset.line or walls_of(job)[own_name(job, offset.wall or "") or ""]


def _square(square: TakenSquare, job: Job) -> Square:
    after, before = walls_at(square.corner, job)
    return Square(
        key=f"square {square.corner}", at=square.corner, a=after, b=before, sd=atan2(square.within, square.over)
    )


def _angle(read: AngleReading, job: Job) -> Angle:
    start, end = read.between or walls_at(read.corner, job)
    key = f"angle {read.corner}" if read.between is None else f"angle {start}-{read.corner}-{end}"
    measured, accuracy = radians(read.angle), radians(read.within_degrees)
    return Angle(key=key, at=read.corner, a=start, b=end, measured=measured, sd=accuracy)


def _offset(read: OffsetReading, job: Job, accuracy: Callable[[float], float]) -> Iterator[Observation]:
    start, end = line_of(read, job)
    line = read.wall or f"{start}-{end}"
    if read.along is not None:
        held = read.within or hypot(accuracy(abs(read.along)), BY_EYE * read.out)
        zero, to = (end, start) if read.start == end else (start, end)
        yield Along(key=f"{read.point} along {line}", a=zero, at=read.point, b=to, measured=read.along, sd=held)
    out = read.out if read.held is None else (read.held - read.out) * _side_of_room(read.point, start, end, job)
    good_to = read.within or accuracy(abs(read.out))
    yield Offset(key=f"{read.point} off {line}", a=start, at=read.point, b=end, measured=out, sd=good_to)


def _side_of_room(point: str, start: str, end: str, job: Job) -> float:
    """1 where the room lies left of a string that bridges a corner, seen along it; else -1."""
    outline = next(anticlockwise(room) for room in rooms_of(job) if {point, start, end} <= set(room.outline))
    first = outline.index(start)
    onward = (*outline[first:], *outline[:first])
    return 1.0 if onward.index(point) < onward.index(end) else -1.0
