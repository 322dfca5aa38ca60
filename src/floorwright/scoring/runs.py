"""The edges of a pattern's cells, merged into maximal straight runs: what a saw cuts in one go."""

import math
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from floorwright.geometry.region import Points
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.scoring.swings import rounded_sides
from floorwright.tolerance import TOUCH

Ints: TypeAlias = NDArray[np.intp]

SAME_WAY: Final = 1e-6
"""Radians. Edges whose directions differ by less run the same way: rounding of a turned pattern is far under it."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Run:
    """A straight run.

    Attributes:
        angle: radians, in [0, pi).
        off: mm from the origin, along the normal (angle + 90 degrees).
        start, end: mm along it from the foot of the normal; start < end.
    """

    angle: float
    off: float
    start: float
    end: float

    @property
    def length(self) -> float:
        """mm."""
        return self.end - self.start

    def point(self, along: float) -> Points:
        """Returns the (2,) point so far along it, mm."""
        cos, sin = math.cos(self.angle), math.sin(self.angle)
        return np.array([along * cos - self.off * sin, along * sin + self.off * cos])

    @property
    def ends(self) -> Points:
        """(2, 2) mm."""
        return np.array([self.point(self.start), self.point(self.end)])


def pattern_edges(cell: UnitCell, placement: Placement, box: Points) -> Points:
    """Returns the straight edges of every piece whose repeat may reach into a box, (n, 2, 2) mm; shared ones twice.

    Args:
        cell: with joints of no width.
        placement: of the pattern.
        box: (2, 2) mm, least and most corner.
    """
    edges = np.concatenate([_straight(piece) for piece in cell.pieces])
    shifts = repeats(cell, placement, box) @ cell.repeat
    flat = (edges[None] + shifts[:, None, None]).reshape(-1, 2)
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    return np.asarray(flat @ np.array([[cos, sin], [-sin, cos]]) + np.asarray(placement.origin)).reshape(-1, 2, 2)


def _straight(piece: Points) -> Points:
    """The sides of a piece but those that stand for arcs, (n, 2, 2) mm."""
    rounded = np.zeros(len(piece), dtype=bool)
    for flags, _ in rounded_sides(piece):
        rounded |= flags
    return np.stack([piece, np.roll(piece, -1, axis=0)], axis=1)[~rounded]


def repeats(cell: UnitCell, placement: Placement, box: Points) -> Points:
    """Returns the lattice indices of the repeats that may reach into a box, (n, 2)."""
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    corners = np.array([[x, y] for x in box[:, 0] for y in box[:, 1]]) - np.asarray(placement.origin)
    inside = corners @ np.array([[cos, -sin], [sin, cos]])
    # A piece reaches so far from its lattice point: the box grows by it before it is said in lattice steps.
    points = np.concatenate(cell.pieces)
    low, high = inside.min(axis=0) - points.max(axis=0), inside.max(axis=0) - points.min(axis=0)
    grown = np.array([[x, y] for x in (low[0], high[0]) for y in (low[1], high[1])])
    steps = grown @ np.linalg.inv(cell.repeat)
    first, last = np.floor(steps.min(axis=0)), np.ceil(steps.max(axis=0))
    i, j = (np.arange(first[axis], last[axis] + 1) for axis in (0, 1))
    return np.stack(np.meshgrid(i, j, indexing="ij"), axis=-1).reshape(-1, 2)


def merged(edges: Points) -> tuple[Run, ...]:
    """Returns edges, (n, 2, 2) mm, as maximal straight runs: what lies end to end or on each other is one.

    In order of direction, then from the right of it to the left, then along it.
    """
    if not len(edges):
        return ()
    along = edges[:, 1] - edges[:, 0]
    angle = np.mod(np.arctan2(along[:, 1], along[:, 0]), math.pi)
    angle[angle > math.pi - SAME_WAY] = 0.0
    family = _clusters(angle, SAME_WAY)
    # One direction a family, or rounding of each edge's own would move it off its neighbours far from the origin.
    way = np.array([np.median(angle[family == number]) for number in range(int(family.max()) + 1)])[family]
    direction = np.column_stack([np.cos(way), np.sin(way)])
    normal = np.column_stack([-direction[:, 1], direction[:, 0]])
    off = (edges.mean(axis=1) * normal).sum(axis=1)
    ends = np.sort((edges * direction[:, None]).sum(axis=2), axis=1)
    runs: list[Run] = []
    for number in range(int(family.max()) + 1):
        own = np.flatnonzero(family == number)
        line = _clusters(off[own], TOUCH)
        order = np.asarray(np.lexsort((ends[own, 0], line)), dtype=np.intp)
        runs += _joined(own[order], line[order], way, off, ends)
    return tuple(runs)


def _joined(order: Ints, line: Ints, way: Points, off: Points, ends: Points) -> list[Run]:
    """The runs of edges that are in order of their line, and along it."""
    found: list[Run] = []
    at, start, end = -1, 0.0, 0.0
    place = 0.0
    for index, own in zip(order, line, strict=True):
        low, high = float(ends[index, 0]), float(ends[index, 1])
        if own != at or low > end + TOUCH:
            if at >= 0:
                found.append(Run(angle=float(way[index]), off=place, start=start, end=end))
            at, start, end, place = int(own), low, high, float(off[index])
        end = max(end, high)
    if at >= 0:
        found.append(Run(angle=float(way[order[-1]]), off=place, start=start, end=end))
    return found


def _clusters(values: Points, apart: float) -> Ints:
    """Returns the number of each value's cluster, in order of value: neighbours in one are no further apart."""
    order = np.argsort(values, kind="stable")
    steps = np.concatenate([[0], np.cumsum(np.diff(values[order]) > apart)])
    found = np.empty(len(values), dtype=np.intp)
    found[order] = steps
    return found
