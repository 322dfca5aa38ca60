"""Readings to take once the lines are down, with what each should be and what it may be out by."""

import math
from collections.abc import Iterator
from typing import Final

from floorwright.control.accuracy import reading_across
from floorwright.control.choices import Tools
from floorwright.control.control import Check, Construction, ControlLine, Mark
from floorwright.control.diagonal import ARMS
from floorwright.control.midlines import biggest_triangle
from floorwright.control.sight import is_clear, step
from floorwright.control.square import CENTRE
from floorwright.control.station import QUARTERS, Station
from floorwright.plan.room import Corner, Room
from floorwright.units import LengthStyle

ALLOW: Final = 3.0
"""Standard deviations that a reading may be out by: one good reading in 370 is out by more (normal distribution)."""


LEAST_HELD: Final = 500.0
"""mm. A triangle with a shorter long side proves nothing: its reading is no truer than its marks (our default)."""


def check_readings(
    room: Room,
    station: Station,
    lines: tuple[ControlLine, ...],
    constructions: tuple[Construction, ...],
    tools: Tools,
    style: LengthStyle,
) -> tuple[Check, ...]:
    """Returns the readings that prove the control lines, those that the tape reaches.

    A triangle across the lines in each quarter, the four equal chords, each line wall to wall, and the corners of the
    room to the centre.
    """
    first, square = lines[0], lines[1]
    arm = next((made.size for made in constructions if made.method == "four equal marks" and made.chosen), None)
    found = [*_triangles(station, first, square, tools, style)]
    if arm is not None:
        found += _chords(station, arm, first, square, tools, style)
    found += _walls(room, lines[:2], tools)
    found += _corners(room, station, first, tools)
    return tuple(check for check in found if check.expected <= tools.tape)


def reading_sd(along: float, out: float, square: float, tools: Tools) -> float:
    """Returns the standard deviation of a reading across the lines, mm.

    With t the error of the square and e that of the reading, c^2 = a^2 + b^2 + 2 a b t gives
    dc = (a da + b db + a b t) / c + e: the two sides together count as one length set, the reading as another; the two
    marks, each out along its line and across it, count as two. Variance = 2 set^2 + 2 mark^2 + (a b / c)^2 square^2.
    """
    lever = along * out / math.hypot(along, out)
    return math.sqrt(2 * tools.set**2 + 2 * tools.mark**2 + (lever * square) ** 2)


def _triangles(
    station: Station, first: ControlLine, square: ControlLine, tools: Tools, style: LengthStyle
) -> Iterator[Check]:
    """The biggest 3-4-5 that fits each quarter."""
    for ahead, up in QUARTERS:
        sides = _fitting(station, ahead, up, tools)
        if sides is None:
            continue
        along, out = sides
        legs = _leg(first, ahead, along), _leg(square, up, out)
        yield Check(
            between=(_leg_words(legs[0], style), _leg_words(legs[1], style)),
            expected=reading_across(along, out, math.pi / 2),
            allow=ALLOW * reading_sd(along, out, square.sd_angle, tools),
            why="Proves the cross square in this quarter: long, the corner is open; short, it is closed.",
            legs=legs,
        )


def _fitting(station: Station, ahead: int, up: int, tools: Tools) -> tuple[float, float] | None:
    """The short sides of the biggest 3-4-5 that can be held in a quarter."""
    most = tools.tape * 4 / 5
    along, out = min(station.run(ahead, 0), most), min(station.run(0, up), most)
    while (sides := biggest_triangle(along, out, station.handy)) is not None:
        near, far = station.place(ahead * sides[0], 0), station.place(0, up * sides[1])
        if math.hypot(*sides) < LEAST_HELD:
            return None
        if station.fits([near, far], [(near, far)]):
            return sides
        # Something stands in the way of the long side: the next size down.
        shorter = max(sides) - station.handy
        along, out = min(along, shorter), min(out, shorter)
    return None


def _chords(
    station: Station, arm: float, first: ControlLine, square: ControlLine, tools: Tools, style: LengthStyle
) -> Iterator[Check]:
    """Between neighbouring equal marks, all round."""
    legs = [_leg(line, side, arm) for line, side in ((first, 1), (square, 1), (first, -1), (square, -1))]
    marks = [station.place(*(arm * way for way in side)) for side in ARMS]
    for start in range(4):
        end = (start + 1) % 4
        if station.fits([marks[start], marks[end]], [(marks[start], marks[end])]):
            yield Check(
                between=(_leg_words(legs[start], style), _leg_words(legs[end], style)),
                expected=reading_across(arm, arm, math.pi / 2),
                allow=ALLOW * reading_sd(arm, arm, square.sd_angle, tools),
                why="All four chords read alike when the marks are equal and the cross is square.",
                legs=(legs[start], legs[end]),
            )


def _walls(room: Room, lines: tuple[ControlLine, ...], tools: Tools) -> Iterator[Check]:
    """Each line wall to wall: the plan against the room."""
    for line in lines:
        if len(line.marks) != 2:
            continue
        start, end = line.marks
        slips = [_slip(room, mark, line.angle) for mark in line.marks]
        yield Check(
            between=(f"{start.name} on {start.on}", f"{end.name} on {end.on}"),
            expected=math.dist((start.x, start.y), (end.x, end.y)),
            allow=ALLOW * math.sqrt(tools.set**2 + sum(slip**2 for slip in slips)),
            why=f"Wall to wall along the {line.name}: proves that the room is what was measured.",
        )


def _corners(room: Room, station: Station, first: ControlLine, tools: Tools) -> Iterator[Check]:
    """From the corners that see the centre. The centre is marked twice: a wall mark, then along the first line."""
    centre_sd = math.hypot(tools.set, tools.mark)
    for corner in room.corners:
        at = corner.x, corner.y
        if is_clear(station.region, at, station.centre):
            angle = math.atan2(station.centre[1] - corner.y, station.centre[0] - corner.x)
            sd = math.sqrt(tools.set**2 + centre_sd**2 + corner_sd(corner, angle) ** 2)
            yield Check(
                between=(f"corner {corner.name}", CENTRE),
                expected=math.dist(at, station.centre),
                allow=ALLOW * sd,
                why=f"Proves where the centre is; it hangs on no reading along the {first.name}.",
            )


def corner_sd(corner: Corner, angle: float) -> float:
    """Returns the standard deviation of a corner in a direction, from its own along x and y, mm."""
    return math.hypot(corner.sd_x * math.cos(angle), corner.sd_y * math.sin(angle))


def _slip(room: Room, mark: Mark, angle: float) -> float:
    """How far a mark may be out along a line that meets the wall there: its own slip along the wall, and the wall's
    corners as far as they are known (nearer one counts more)."""
    wall = room.wall(mark.on)
    start, end = room.corner(wall.start), room.corner(wall.end)
    length = math.dist((start.x, start.y), (end.x, end.y))
    share = math.dist((start.x, start.y), (mark.x, mark.y)) / length
    along = mark.sd * math.cos(math.atan2(end.y - start.y, end.x - start.x) - angle)
    return math.hypot(along, (1 - share) * corner_sd(start, angle), share * corner_sd(end, angle))


def _leg(line: ControlLine, side: int, out: float) -> Mark:
    """A mark out on an arm of a line."""
    x, y = step(line.through, line.angle, side * out)
    return Mark(name=_towards(line, side), on=line.name, start=CENTRE, distance=out, x=x, y=y)


def _leg_words(leg: Mark, style: LengthStyle) -> str:
    return f"{style.text(leg.distance, unit=True)} out on the {leg.on} towards {leg.name}"


def _towards(line: ControlLine, side: int) -> str:
    """The wall that an arm of a line runs to."""
    return line.marks[-1 if side > 0 else 0].on
