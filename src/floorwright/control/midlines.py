"""The cross that a four-cornered room offers by itself, middles of opposite walls joined, and why not to trust it."""

import math
from dataclasses import dataclass

import numpy as np

from floorwright.control.accuracy import reading_across
from floorwright.control.sight import Point, crossing
from floorwright.control.station import HAND
from floorwright.control.wall import wall_middle
from floorwright.control.words import fine, fine_bare, out_over
from floorwright.findings import Finding, Severity
from floorwright.geometry.measure import turns
from floorwright.plan.room import Room
from floorwright.units import LengthStyle


@dataclass(frozen=True, slots=True, kw_only=True)
class MidLines:
    """The two mid-lines of a four-cornered room.

    Attributes:
        crossing: where they cross, mm; it halves both.
        lengths: of the line from the middle of wall 2 to that of wall 4, and from wall 1 to wall 3, mm.
        angles: between the arms, in the quarter that holds each corner, radians.
    """

    crossing: Point
    lengths: tuple[float, float]
    angles: tuple[float, float, float, float]

    @property
    def out_of_square(self) -> float:
        """How far the cross is from square, radians, positive."""
        return max(self.angles) - math.pi / 2


def mid_lines(room: Room) -> MidLines | None:
    """Returns the mid-lines of a room with four corners, none of them turned in, and straight walls; else None."""
    if len(room.walls) != 4 or room.has_arcs or bool(np.any(turns(room.corner_ring) <= 0)):
        return None
    middles = [wall_middle(room, wall.name) for wall in room.walls]
    ways = [math.atan2(middles[i][1] - middles[i - 2][1], middles[i][0] - middles[i - 2][0]) for i in range(4)]
    at = crossing(middles[0], ways[0], middles[1], ways[1])
    if at is None:
        return None
    quarters = [math.acos(math.cos(ways[corner] - ways[corner - 1])) for corner in range(4)]
    lengths = math.dist(middles[1], middles[3]), math.dist(middles[0], middles[2])
    return MidLines(crossing=at, lengths=lengths, angles=(quarters[0], quarters[1], quarters[2], quarters[3]))


def biggest_triangle(first: float, second: float, handy: float) -> tuple[float, float] | None:
    """Returns the short sides of the biggest 3-4-5 triangle that arms of these lengths hold, in their order, mm.

    In multiples of `handy`; the longer side lies on the first arm where both ways fit. None where not even the smallest
    does.
    """
    ways = [(4, 3), (3, 4)]
    units = [math.floor(round(min(first / a, second / b) / handy, 6)) for a, b in ways]
    best = max(units)
    if best == 0:
        return None
    along, out = ways[units.index(best)]
    return along * best * handy, out * best * handy


def mid_lines_finding(
    room: Room, wall: str, joint: float, handy: float, style: LengthStyle, *, is_used: bool
) -> Finding | None:
    """Returns what the mid-lines of a room are out by and what a triangle held on them would read.

    None for a room without mid-lines and for one where they are square to the graduation. A warning where one of them
    is the first line, so that the other offers itself, and they are out by more than half a joint over the room.

    Args:
        room: as adjusted.
        wall: name of the wall over whose length it is told.
        joint: mm; 0 where none is known.
        handy: mm, lengths to hold are multiples of this.
        style: how lengths print.
        is_used: whether the first line is one of them.
    """
    found = mid_lines(room)
    if found is None:
        return None
    start, end = room.ends(wall)
    over = math.dist(start, end)
    out = math.tan(found.out_of_square) * over
    if out < style.mm(1):
        return None
    return Finding(
        code="control-mid-lines",
        severity=Severity.WARNING if is_used and out > joint / 2 else Severity.NOTE,
        place="middles of opposite walls",
        found=(
            f"joined, they cross at {math.degrees(max(found.angles)):.2f} degrees: "
            f"{out_over(found.out_of_square, style)}, {fine(out, style)} over {wall}"
            f"{_readings(room, found, handy, style)}"
        ),
        expected="a square cross",
        remedy="keep one line and square the other from it; do not use both as they fall",
    )


def _readings(room: Room, found: MidLines, handy: float, style: LengthStyle) -> str:
    first, second = (length / 2 - HAND for length in found.lengths)
    held = biggest_triangle(first, second, handy)
    if held is None:
        return ""
    reads = [fine_bare(reading_across(*held, angle), style) for angle in found.angles]
    names = [corner.name for corner in room.corners]
    wide = 0 if found.angles[0] > math.pi / 2 else 1
    short, long, square = (style.text(side, feet=False) for side in (*sorted(held), math.hypot(*held)))
    return (
        f"; a {short} / {long} triangle on them reads {reads[wide]} towards {names[wide]} and {names[wide + 2]}, "
        f"{reads[1 - wide]} towards {names[1 - wide]} and {names[3 - wide]}, not {square}"
    )
