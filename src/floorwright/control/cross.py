"""The cross: the first line and the centre as found, before anything is raised on them."""

import math
from dataclasses import dataclass

from floorwright.control.accuracy import drift
from floorwright.control.centre import find_centre, first_chord
from floorwright.control.choices import Centre, FirstLine, Tools
from floorwright.control.first import find_first
from floorwright.control.lines import between_marks, line_marks
from floorwright.control.sight import Point
from floorwright.control.square import best_triangle, compass, three_four_five
from floorwright.control.station import Station, stand
from floorwright.control.ways import BY_METHOD
from floorwright.findings import Finding
from floorwright.geometry.region import Region
from floorwright.plan.room import Room
from floorwright.units import LengthStyle


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cross:
    """A first line and a centre on it.

    Attributes:
        angle: of the first line, radians.
        centre: mm.
        wall: name of the wall that the first line is parallel to, else empty.
        first_how, centre_how: words.
        station: to raise lines on.
        findings: what was wrong with the choices, or assumed.
    """

    angle: float
    centre: Point
    wall: str
    first_how: str
    centre_how: str
    station: Station
    findings: tuple[Finding, ...]


def place_cross(room: Room, region: Region, first: FirstLine, centre: Centre, style: LengthStyle) -> Cross:
    """Returns the first line and the centre of a room by the person's choices."""
    line, trouble = find_first(room, region, first, style)
    middle = find_centre(room, region, line, centre, style)
    return Cross(
        angle=line.angle,
        centre=middle.point,
        wall=line.wall,
        first_how=line.how,
        centre_how=middle.how,
        station=stand(middle.point, line.angle, region, style),
        findings=(*trouble, *middle.findings),
    )


def first_line_ends(room: Room, cross: Cross) -> tuple[Point, ...]:
    """Returns where the first line meets the walls, two points, mm; none where it misses the room."""
    part = first_chord(room, cross.centre, cross.angle)
    cos, sin = math.cos(cross.angle), math.sin(cross.angle)
    x, y = cross.centre
    return tuple((x + end.at * cos, y + end.at * sin) for end in part or ())


def quick_drift(room: Room, cross: Cross, tools: Tools) -> float:
    """Returns how far out the square line may be at its far end, mm.

    Raised in the way that is asked for; without one by compass or 3-4-5, the truer that fits. Where none fits it is
    struck through its marks on the walls.
    """
    asked = BY_METHOD[tools.square](cross.station, tools) if tools.square else None
    raised = asked or compass(cross.station, tools)
    ways = [raised.sd_angle] if raised else []
    if not asked and (not ways or ways[0] > best_triangle(cross.station, tools)):
        ways += [made.sd_angle for made in (three_four_five(cross.station, tools),) if made]
    square = cross.angle + math.pi / 2
    marks = line_marks(room, cross.centre, square, ("M3", "M4"), tools)
    sd = min(ways, default=between_marks(room, marks, square) if len(marks) == 2 else 0.0)
    far = max((math.dist(cross.centre, (mark.x, mark.y)) for mark in marks), default=0.0)
    return drift(sd, far, tools)
