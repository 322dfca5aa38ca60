"""Rings of a circle, divided by spokes: whole numbers of cells, so that all the spokes of a ring are alike."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from floorwright.geometry.region import Points
from floorwright.scoring.clip import overlap, run_between
from floorwright.scoring.design import Circle, Frame, OldJoint, Point
from floorwright.tolerance import ONE_CUT


@dataclass(frozen=True, slots=True, kw_only=True)
class Spokes:
    """The spokes of one ring.

    Attributes:
        circle: number of its circle, from 1.
        ring: its own number, from 1 for the outermost.
        outer, inner: its circles' radii, mm; inner is 0 where it reaches the centre.
        count: of its cells, and so of its spokes.
        first: of the first spoke, radians from the floor's x.
        lines: ends of each that is to cut, floor mm, outer end first.
        there: joints that lie where another spoke would.
    """

    circle: int
    ring: int
    outer: float
    inner: float
    count: int
    first: float
    lines: tuple[tuple[Point, Point], ...]
    there: tuple[str, ...] = ()

    @property
    def length(self) -> float:
        """mm of all that are to cut."""
        return len(self.lines) * (self.outer - self.inner)

    @property
    def chord(self) -> float:
        """Straight from spoke to spoke on the outer circle, mm: 2 R sin(pi / n), to step them off with a compass."""
        return chord_of(self.outer, self.count)

    @property
    def widths(self) -> tuple[float, float]:
        """Of a cell inside and outside, mm along the arc."""
        return math.tau * self.inner / self.count, math.tau * self.outer / self.count


def chord_of(radius: float, count: int) -> float:
    """Returns the chord between neighbours of so many points shared out evenly round a circle, mm: 2 R sin(pi / n).

    >>> round(chord_of(1500, 12), 1)
    776.5
    """
    return 2 * radius * math.sin(math.pi / count)


def spokes_of(circles: Sequence[Circle], frame: Frame, joints: Sequence[OldJoint]) -> tuple[Spokes, ...]:
    """Returns the spokes of every ring of every circle, from the outside in.

    Args:
        circles: on the slab.
        frame: along the first line, which their turn is told from.
        joints: there already: a spoke that lies on one is not cut.
    """
    return tuple(
        spokes for number, circle in enumerate(circles, start=1) for spokes in _of_circle(number, circle, frame, joints)
    )


def _of_circle(number: int, circle: Circle, frame: Frame, joints: Sequence[OldJoint]) -> Iterator[Spokes]:
    radii = [*circle.radii, 0.0]
    first = frame.angle + circle.turn
    for ring, (asked, outer, inner) in enumerate(zip(circle.rings, radii, radii[1:], strict=False), start=1):
        step = math.tau / asked.cells
        first += asked.broken * step
        lines, there = [], []
        for k in range(asked.cells):
            ends = _ends(circle, first + k * step, outer, inner)
            on = next((joint.name for joint in joints if _lies_on(ends, joint, frame)), None)
            if on is None:
                lines.append((_point(ends[0]), _point(ends[1])))
            else:
                there.append(on)
        yield Spokes(
            circle=number,
            ring=ring,
            outer=outer,
            inner=inner,
            count=asked.cells,
            first=first,
            lines=tuple(lines),
            there=tuple(there),
        )


def _ends(circle: Circle, angle: float, outer: float, inner: float) -> Points:
    way = np.array([math.cos(angle), math.sin(angle)])
    return np.asarray(np.asarray(circle.centre) + np.array([outer, inner])[:, None] * way)


def _lies_on(ends: Points, joint: OldJoint, frame: Frame) -> bool:
    run, line = (run_between(*frame.local(np.asarray(pair))) for pair in (ends, joint.ends))
    over = overlap(run, line)
    return over is not None and run.length - (over[1] - over[0]) <= ONE_CUT


def _point(array: Points) -> Point:
    return float(array[0]), float(array[1])
