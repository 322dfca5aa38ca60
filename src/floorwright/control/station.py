"""Where constructions stand: the centre, the direction of the first line, and the floor that is clear about them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from floorwright.control.sight import Point, clear_run, is_clear, room_round
from floorwright.geometry.region import Region
from floorwright.tolerance import TOUCH
from floorwright.units import INCH, LengthStyle

HAND: Final = 50.0
"""mm of floor that a mark, a foot or an arc needs about it to be made (our default)."""

HANDY: Final = {"metric": 50.0, "imperial": float(INCH)}
"""mm. Lengths that are set on a compass or tape are multiples of this (our default)."""

SIZES: Final = 40
"""At most so many sizes of a length are tried: beyond, they go up by more than one handy step."""

QUARTERS: Final = ((1, 1), (-1, 1), (-1, -1), (1, -1))
"""Sides of the first line and of the square line, anticlockwise from ahead and left."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Station:
    """The cross that constructions are raised on.

    Attributes:
        centre: mm.
        angle: of the first line, radians.
        region: the floor with its obstacles.
        handy: mm, see `HANDY`.
    """

    centre: Point
    angle: float
    region: Region
    handy: float

    def place(self, along: float, out: float) -> Point:
        """Returns the floor point at distances along the first line and square to it, to the left, mm."""
        cos, sin = math.cos(self.angle), math.sin(self.angle)
        return self.centre[0] + along * cos - out * sin, self.centre[1] + along * sin + out * cos

    def run(self, along: int, out: int) -> float:
        """Returns how far a mark may be made along an arm of the cross, such as (0, -1), mm: 0 where it may not."""
        far = self.place(along, out)
        angle = math.atan2(far[1] - self.centre[1], far[0] - self.centre[0])
        return max(0.0, clear_run(self.region, self.centre, angle) - HAND)

    def sizes(self, most: float) -> list[float]:
        """Returns handy lengths up to a limit, longest first, mm."""
        count = math.floor(round(most / self.handy, 6))
        stride = max(1, math.ceil(count / SIZES))
        return [index * self.handy for index in range(count, 0, -stride)]

    def can_mark(self, points: Sequence[Point]) -> list[bool]:
        """Returns for each point whether there is floor about it to mark it."""
        if not points:
            return []
        # Marks are put a hand off the wall, and coordinates are never to the last digit.
        return [bool(clear) for clear in room_round(self.region, points) >= HAND - TOUCH]

    def fits(self, marks: Sequence[Point], reaches: Sequence[tuple[Point, Point]]) -> bool:
        """Returns whether marks can be made and a tape or compass can reach from point to point over the floor."""
        return all(self.can_mark(marks)) and self.reaches(reaches)

    def reaches(self, pairs: Sequence[tuple[Point, Point]]) -> bool:
        """Returns whether a tape or compass can reach from point to point over the floor, for all pairs."""
        return all(is_clear(self.region, start, end) for start, end in pairs)


def stand(centre: Point, angle: float, region: Region, style: LengthStyle) -> Station:
    """Returns the station at a centre on a first line."""
    return Station(centre=centre, angle=angle, region=region, handy=HANDY[style.system])
