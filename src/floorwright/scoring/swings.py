"""Arcs that short straight sides of an outline stand for.

A run of sides of one length that all turn by one small angle is an arc, as a pattern's own arcs are made and as a
drawing's are read.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from floorwright.geometry.region import Points
from floorwright.scoring.design import Point

Flags: TypeAlias = NDArray[np.bool_]

FEWEST: Final = 4
"""So many sides at least stand for an arc."""

GENTLE: Final = math.radians(20)
"""They turn by no more than this from one to the next: the corners of a polygon turn by more."""

EVEN: Final = 1e-6
"""The part by which their lengths, and the angles between them (radians), may differ: rounding of a drawing in
micrometres is less."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Swing:
    """An arc swung from a pivot.

    Attributes:
        pivot: mm.
        radius: to the middle of the cut, mm.
        start: radians.
        sweep: radians anticlockwise, a whole turn at the most.
    """

    pivot: Point
    radius: float
    start: float
    sweep: float

    @property
    def length(self) -> float:
        """mm."""
        return self.radius * self.sweep

    @property
    def ends(self) -> tuple[Point, Point]:
        """mm."""
        return self.at(0.0), self.at(1.0)

    def at(self, share: float) -> Point:
        """Returns the point so far along it, 0 to 1."""
        angle = self.start + share * self.sweep
        x, y = self.pivot
        return x + self.radius * math.cos(angle), y + self.radius * math.sin(angle)


def rounded_sides(outline: Points) -> Iterator[tuple[Flags, Swing]]:
    """Yields every arc that sides of an outline stand for: which sides, (n,), and the arc itself.

    Args:
        outline: (n, 2) mm, not closed; side k starts at point k.
    """
    count = len(outline)
    side = np.roll(outline, -1, axis=0) - outline
    length = np.hypot(*side.T)
    before = np.roll(side, 1, axis=0)
    turn = np.arctan2(before[:, 0] * side[:, 1] - before[:, 1] * side[:, 0], (before * side).sum(axis=1))
    # Whether side k goes on from the one before it, and by the same angle as that does from its own.
    even = np.abs(length - np.roll(length, 1)) <= EVEN * length
    on = even & (np.abs(turn) <= GENTLE) & (np.abs(turn) > EVEN)
    starts = [k for k in range(count) if not on[k]]
    for first in starts:
        members = [first]
        while len(members) < count and on[(members[-1] + 1) % count]:
            after = (members[-1] + 1) % count
            if len(members) > 1 and abs(turn[after] - turn[members[-1]]) > EVEN:
                break
            members.append(after)
        if len(members) >= FEWEST:
            flags = np.zeros(count, dtype=bool)
            flags[members] = True
            yield flags, _swing(outline, members, float(turn[members[1]]), float(length[first]))


def _swing(outline: Points, members: Sequence[int], turn: float, side: float) -> Swing:
    """The arc that sides stand for: a chord c that turns by a has the radius c / (2 sin(a / 2))."""
    radius = side / (2 * math.sin(abs(turn) / 2))
    start, after = outline[members[0]], outline[(members[0] + 1) % len(outline)]
    along = (after - start) / side
    # The pivot lies to the left of sides that turn left, off the middle of any of them.
    normal = np.array([-along[1], along[0]]) * math.copysign(1.0, turn)
    pivot = (start + after) / 2 + normal * math.sqrt(radius**2 - (side / 2) ** 2)
    end = outline[(members[-1] + 1) % len(outline)]
    low = start if turn > 0 else end
    angle = math.atan2(low[1] - pivot[1], low[0] - pivot[0])
    return Swing(pivot=(float(pivot[0]), float(pivot[1])), radius=radius, start=angle, sweep=abs(turn) * len(members))
