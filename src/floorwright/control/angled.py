"""Lines at any angle through the centre: 60 and 30 by stepping the radius, any other by its chord."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from floorwright.control.choices import Tools
from floorwright.control.control import Construction, Step
from floorwright.control.predicted import chord_turn, stepped_30
from floorwright.control.sight import Point
from floorwright.control.square import CENTRE, arc, join, mark, numbered
from floorwright.control.station import Station

SAME: Final = math.radians(0.01)
"""Angles nearer than this are one: 0.2 mm per m."""

RAISED: Final = (0.0, 45.0, 90.0, 135.0)
"""Degrees from the first line of the lines that every cross has."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A line that a pattern asks for.

    Attributes:
        name: what it is called, such as `rows of floor`.
        angle: from the first line, anticlockwise, radians.
        first: number of the first of its three letters, so that no two lines share one.
    """

    name: str
    angle: float
    first: int = 1


def is_raised(angle: float) -> bool:
    """Returns whether an angle from the first line is one of the cross's own: 0, 45, 90 or 135 degrees."""
    return any(abs(math.remainder(angle - math.radians(own), math.pi)) < SAME for own in RAISED)


def at_angle(station: Station, tools: Tools, wanted: Wanted) -> Construction | None:
    """Returns how a line at an angle is raised, the biggest that fits; None where none does.

    It is set off from the nearer arm of the first line, by an angle of a right angle at the most, to either end of the
    line wanted, whichever has room.
    """
    turn = math.remainder(wanted.angle, math.pi)
    reach = tools.compass if tools.compass > 0 else tools.tape
    for radius in station.sizes(reach):
        for ahead in (1, -1):
            made = _try(station, tools, wanted, radius, turn, ahead)
            if made is not None:
                return made
    return None


def _try(
    station: Station, tools: Tools, wanted: Wanted, radius: float, angle: float, ahead: int
) -> Construction | None:
    tool = "compass" if tools.compass > 0 else "tape"
    size = abs(angle)
    at = _on_circle(station, radius, 0.0, ahead)
    end = _on_circle(station, radius, angle, ahead)
    chord = 2 * radius * math.sin(size / 2)
    halved = abs(size - math.radians(30)) < SAME
    if not halved and chord > (tools.compass if tools.compass > 0 else tools.tape):
        return None
    points = [at, end]
    sixty = far = station.centre
    if halved:
        sixty = _on_circle(station, radius, math.copysign(2 * size, angle), ahead)
        far = _on_circle(station, math.sqrt(3) * radius, angle, ahead)
        points = [at, sixty, far]
    reaches = [(station.centre, point) for point in points] + [(at, point) for point in points[1:]]
    if not station.fits(points, reaches):
        return None

    near, across, beyond = (f"A{wanted.first + number}" for number in range(3))

    def steps() -> Iterator[Step]:
        yield mark("tape", CENTRE, near, radius, at)
        if halved:
            yield arc(tool, CENTRE, across, radius, station.centre, sixty)
            yield arc(tool, near, across, radius, at, sixty)
            yield arc(tool, near, beyond, radius, at, far)
            yield arc(tool, across, beyond, radius, sixty, far)
            yield join(CENTRE, beyond, station.centre, far)
            return
        yield arc(tool, CENTRE, across, radius, station.centre, end)
        yield arc(tool, near, across, chord, at, end)
        yield join(CENTRE, across, station.centre, end)

    stepped = halved or abs(size - math.radians(60)) < SAME
    return Construction(
        makes=wanted.name,
        method="stepping the radius" if stepped else "chord",
        size=radius,
        steps=numbered(steps()),
        sd_angle=stepped_30(radius, tools) if halved else chord_turn(radius, size, tools),
        why=_why(size, halved=halved, stepped=stepped),
    )


def _why(size: float, *, halved: bool, stepped: bool) -> str:
    degrees = f"{math.degrees(size):.2f}".rstrip("0").rstrip(".")
    if halved:
        return "The radius stepped off gives 60 degrees; arcs from both marks halve it: all at one setting."
    if stepped:
        return "The radius stepped off along its own arc gives 60 degrees: both arcs at one setting."
    return f"{degrees} degrees is a chord of twice the radius by the sine of half of it; a bigger radius is truer."


def _on_circle(station: Station, radius: float, angle: float, ahead: int) -> Point:
    return station.place(ahead * radius * math.cos(angle), ahead * radius * math.sin(angle))
