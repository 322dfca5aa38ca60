"""How far a loop of walls and corner angles fails to close, as read and before anything is adjusted.

Walked round wall by wall, turning at each corner by the angle read there, a person should come out where they began.
What is left over is the misclosure; over the length walked it is a ratio that any surveyor reads (1 in 5000). The least
squares of `survey.solve` shares it out by the accuracy of every reading; the compass rule here (N. Bowditch, in The
Analyst, 1808) by the length of the walls alone, so that it can be done by hand and held against the other.
"""

import math
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import Final, TypeVar

import numpy as np

from floorwright.findings import Finding, Severity
from floorwright.geometry.measure import distance
from floorwright.geometry.region import Points
from floorwright.survey.chi_square import CRITICAL
from floorwright.survey.observation import Angle, Distance, Observation, Square
from floorwright.survey.outline import Outline
from floorwright.tolerance import COINCIDENT
from floorwright.units import LengthStyle

NOTICED_ANGLE: Final = math.radians(0.005)
"""An excess of the angles under this prints as none."""

Key = TypeVar("Key", bound=Hashable)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Loop:
    """A room walked round by its walls and angles alone.

    Attributes:
        room: its name.
        corners: names, anticlockwise; leg i runs from corner i to the next.
        lengths: of the walls, mm; the mean where one was read more than once.
        legs: (n, 2) mm, each wall as walked, the first along x, after the angles are made to add up.
        angle: what the inside angles add up to less what they should, radians; None where one of them was not read.
        sd: mm, of the linear misclosure in its worst direction by the accuracy of the readings: one standard deviation.
    """

    room: str
    corners: tuple[str, ...]
    lengths: tuple[float, ...]
    legs: Points
    angle: float | None
    sd: float

    @property
    def perimeter(self) -> float:
        """Walked, mm."""
        return math.fsum(self.lengths)

    @property
    def gap(self) -> tuple[float, float]:
        """From where the walk began to where it ended, x and y, mm."""
        x, y = self.legs.sum(axis=0)
        return float(x), float(y)

    @property
    def linear(self) -> float:
        """The linear misclosure, mm."""
        return distance((0.0, 0.0), self.gap)

    @property
    def ratio(self) -> float:
        """Length walked over the linear misclosure; infinite where it closes."""
        return self.perimeter / self.linear if self.linear > COINCIDENT else math.inf

    @property
    def balanced(self) -> Points:
        """The legs by the compass rule, (n, 2) mm: each takes of the misclosure the share that it is of the walk."""
        shares = np.array(self.lengths) / self.perimeter
        return np.asarray(self.legs - shares[:, None] * np.array(self.gap), dtype=np.float64)


def loop_of(outline: Outline, observations: Sequence[Observation]) -> Loop | None:
    """Returns a room walked round by its walls and angles; None where a wall or two angles were not read.

    Corners taken as square count as read. The mean stands for what was read more than once. What all angles are over
    or short of (n - 2) 180 degrees is shared out evenly among them; one that was not read is where the walk ends.

    Args:
        outline: of the one room, as booked.
        observations: in any order.
    """
    walls = _means((frozenset((o.a, o.b)), o.measured, o.sd) for o in observations if isinstance(o, Distance))
    angles = _means(read for o in observations if (read := _inside(o, outline)) is not None)
    unread = [name for name in outline.corners if name not in angles]
    if len(unread) > 1:
        return None
    begun = outline.corners.index(unread[0]) if unread else 0
    corners = (*outline.corners[begun:], *outline.corners[:begun])
    ends = [frozenset(pair) for pair in zip(corners, (*corners[1:], corners[0]), strict=True)]
    if not all(wall in walls for wall in ends):
        return None
    lengths = tuple(walls[wall][0] for wall in ends)
    angle = None if unread else math.fsum(read for read, _ in angles.values()) - (len(corners) - 2) * math.pi
    share = 0.0 if angle is None else angle / len(corners)
    turned = np.cumsum([0.0, *(math.pi - (angles[name][0] - share) for name in corners[1:])])
    ways = np.column_stack([np.cos(turned), np.sin(turned)])
    legs = np.array(lengths)[:, None] * ways
    lever = _levers(legs, is_shared=angle is not None)
    sds = np.array([walls[wall][1] for wall in ends]), np.array([angles[name][1] for name in corners[len(unread) :]])
    pulls = np.vstack([ways * sds[0][:, None], lever[len(unread) :] * sds[1][:, None]])
    return Loop(
        room=outline.name,
        corners=corners,
        lengths=lengths,
        legs=legs,
        angle=angle,
        sd=float(np.linalg.norm(pulls, ord=2)),
    )


def _levers(legs: Points, *, is_shared: bool) -> Points:
    """How far the end of the walk moves for each radian at each corner, (n, 2) mm; the first corner only turns it all.

    Where the angles are made to add up, each angle's error is less the mean of all.
    """
    corners = np.vstack([np.zeros(2), np.cumsum(legs, axis=0)[:-1]])
    back = legs.sum(axis=0) - corners
    lever = np.column_stack([back[:, 1], -back[:, 0]])
    lever[0] = 0.0
    return lever - lever.mean(axis=0) if is_shared else lever


def loop_finding(loop: Loop, style: LengthStyle) -> Finding:
    """Returns the note of how far a room fails to close by its walls and angles alone."""
    round_it = style.text(loop.perimeter, unit=True)
    found = "the walls and corner angles alone, walked round, "
    if style.steps(loop.linear):
        rounded = f"{loop.ratio:,.0f}".replace(",", " ")
        found += f"fail to close by {style.text(loop.linear, unit=True)} in {round_it}, 1 in {rounded}"
    else:
        found += f"close to the graduation in {round_it}"
    if loop.angle is not None:
        whole = 180 * (len(loop.corners) - 2)
        over = f"{abs(math.degrees(loop.angle)):.2f} degrees {'over' if loop.angle > 0 else 'under'}"
        found += f"; its angles add up to {over if abs(loop.angle) > NOTICED_ANGLE else 'just'} {whole}"
    allowed = CRITICAL * loop.sd
    too_much = loop.linear > allowed
    return Finding(
        code="survey-misclosure",
        severity=Severity.NOTE,
        place=loop.room,
        found=found,
        expected=f"{style.text(allowed, unit=True)} or less, by the accuracy stated" if too_much else "",
        remedy="read the walls and the angles again" if too_much
        else "nothing to do: the adjustment shares it out by how true each reading is",
        source="yours",
    )  # fmt: skip


def _inside(observation: Observation, outline: Outline) -> tuple[str, float, float] | None:
    """The corner, its inside angle and the standard deviation of it, radians, where that is what was read or taken."""
    if not isinstance(observation, Angle | Square) or observation.at not in outline.corners:
        return None
    before, after = outline.neighbours(observation.at)
    if {observation.a, observation.b} != {before, after}:
        return None
    if isinstance(observation, Square):
        return observation.at, math.pi / 2 if outline.wanted(observation.at) >= 0 else 3 * math.pi / 2, observation.sd
    inside = observation.measured if observation.a == after else 2 * math.pi - observation.measured
    return observation.at, inside, observation.sd


def _means(readings: Iterable[tuple[Key, float, float]]) -> dict[Key, tuple[float, float]]:
    """The mean of all readings of each thing, and its standard deviation as if they were equally true."""
    read: dict[Key, list[tuple[float, float]]] = {}
    for key, value, sd in readings:
        read.setdefault(key, []).append((value, sd))
    return {
        key: (
            math.fsum(value for value, _ in values) / len(values),
            math.hypot(*(sd for _, sd in values)) / len(values),
        )
        for key, values in read.items()
    }
