"""What a person says of the outline before any reading: the order of the corners, and which of them turn in."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from floorwright.geometry.measure import is_simple, turns
from floorwright.geometry.region import Points
from floorwright.survey.observation import Observation, Offset, Straight
from floorwright.tolerance import ALONG


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """The outline as booked.

    Attributes:
        corners: names, anticlockwise.
        inward: those that turn into the room.
        straight: those taken to lie on the line through their neighbours: they may turn either way by a little.
    """

    corners: tuple[str, ...]
    inward: frozenset[str]
    straight: frozenset[str]

    def wanted(self, name: str) -> int:
        """Returns which way a corner should turn: 1 to the left, -1 into the room, 0 where either will do."""
        return 0 if name in self.straight else -1 if name in self.inward else 1

    def neighbours(self, name: str) -> tuple[str, str]:
        """Returns the corners before and after one."""
        i = self.corners.index(name)
        return self.corners[i - 1], self.corners[(i + 1) % len(self.corners)]


def outline_of(
    corners: Sequence[str], *, anticlockwise: bool, inward: Sequence[str], observations: Sequence[Observation]
) -> Outline:
    """Returns the outline anticlockwise. Of one booked clockwise the first corner stays first."""
    ordered = tuple(corners) if anticlockwise else (corners[0], *reversed(corners[1:]))
    straight = frozenset(name for run in runs_of(ordered, observations) for name in run.between)
    return Outline(corners=ordered, inward=frozenset(inward), straight=straight)


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Corners of one crooked wall, each read out from the line between its ends.

    Attributes:
        start, end: the ends, anticlockwise.
        between: the corners on the way.
    """

    start: str
    end: str
    between: tuple[str, ...]


def runs_of(ordered: Sequence[str], observations: Sequence[Observation]) -> tuple[Run, ...]:
    """Returns the runs of corners that all are read from the line through the corners before and after the run.

    Args:
        ordered: corners, anticlockwise.
        observations: straights and offsets count.
    """
    by_line: dict[frozenset[str], set[str]] = {}
    for o in observations:
        if isinstance(o, Straight | Offset):
            by_line.setdefault(frozenset((o.a, o.b)), set()).add(o.at)
    found: list[Run] = []
    for line, read in by_line.items():
        if line <= set(ordered):
            first, second = sorted(ordered.index(name) for name in line)
            ways = (
                (first, second, ordered[first + 1 : second]),
                (second, first, (*ordered[second + 1 :], *ordered[:first])),
            )
            found += [
                Run(start=ordered[start], end=ordered[end], between=tuple(run))
                for start, end, run in ways
                if run and set(run) <= read
            ]
    return tuple(found)


def misturned(outline: Outline, ring: Points) -> tuple[str, ...]:
    """Returns the corners that turn the other way than booked, in order; one that hardly turns counts as neither.

    Args:
        outline: as booked.
        ring: (n, 2) mm, its corners in order.
    """
    return tuple(
        name
        for name, turn in zip(outline.corners, turns(ring), strict=True)
        if is_misturned(outline, name, float(turn))
    )


def is_misturned(outline: Outline, name: str, sine: float) -> bool:
    """Returns whether a corner whose turn has this sine turns the other way than booked."""
    return outline.wanted(name) * sine < 0.0 and abs(sine) > ALONG


def fits(outline: Outline, ring: Points) -> bool:
    """Returns whether a ring is an outline as booked: no wall crosses another and every corner turns its way."""
    return is_simple(ring) and not misturned(outline, ring)


def template(outline: Outline, others: Sequence[str], *, side: float, stretch: float, dent: float) -> Points:
    """Returns a made-up room with the outline's turns, (n, 2) mm: corners in order, then the other points.

    Corners lie round an oval, those that turn in behind the line between their neighbours; other points lie about the
    middle.
    It is where a search starts, and what a design is reckoned on before anything is measured.

    Args:
        outline: as booked.
        others: names of points off the outline.
        side: mm, of an even outline.
        stretch: of the oval, length over width.
        dent: how far a corner that turns in lies behind that line, as a part of the oval's radius.
    """
    count = len(outline.corners)
    around = 2 * np.pi * (np.arange(count) - (count - 1) / 2) / count - np.pi / 2
    radius = side / (2 * np.sin(np.pi / count))
    behind = np.cos(2 * np.pi / count) - dent
    pulled = np.array([behind if name in outline.inward else 1.0 for name in outline.corners])
    ring = radius * np.column_stack([stretch * pulled * np.cos(around), pulled * np.sin(around)])
    inside = 2.4 * np.arange(len(others), dtype=np.float64)
    out = 0.1 * radius * np.sqrt(1.0 + inside)
    spiral = np.column_stack([out * np.cos(inside), out * np.sin(inside)])
    return np.vstack([ring, spiral + ring.mean(axis=0)])
