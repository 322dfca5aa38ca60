"""Runs of lines and arcs in a drawing, joined end to end into closed rings."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from floorwright.geometry.arc import Arc, bulged_area
from floorwright.geometry.measure import area, is_inside_ring
from floorwright.job.read.drawing import DrawnArc
from floorwright.survey.booking import corner_names
from floorwright.tolerance import CHORD, COINCIDENT, JOIN

HALF = 1.0 + COINCIDENT
"""The bulge of half a circle, with some to spare."""

FEWEST = 3
"""Corners of an outline."""

if TYPE_CHECKING:
    from collections.abc import Sequence

    from floorwright.geometry.region import Points

Vertex = tuple[float, float, float]
"""x, y, and the bulge of the side that starts there: the tangent of a quarter of the angle that it sweeps."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """A run of sides; of a closed one the last side goes back to the first vertex."""

    vertices: tuple[Vertex, ...]
    closed: bool

    @staticmethod
    def all_of(chains: Sequence[Chain]) -> Chain:
        """Returns the vertices of several as though they were one."""
        return Chain(vertices=tuple(vertex for chain in chains for vertex in chain.vertices), closed=False)

    @property
    def is_curved(self) -> bool:
        """Whether any side of it is an arc."""
        return any(abs(bulge) > COINCIDENT for _, _, bulge in self.vertices)

    def across(self) -> float:
        """Returns the longer side of the box around its vertices."""
        return float(np.ptp(np.array(self.vertices)[:, :2], axis=0).max())

    def size_text(self) -> str:
        """Returns the box around it, of a chain in mm, longer side first: `3583 by 100 mm`."""
        longer, shorter = sorted(np.ptp(np.array(self.vertices)[:, :2], axis=0), reverse=True)
        return f"{longer:.0f} by {shorter:.0f} mm"

    def scaled(self, scale: float) -> Chain:
        """Returns it in another unit."""
        return Chain(vertices=tuple((x * scale, y * scale, b) for x, y, b in self.vertices), closed=self.closed)

    def reversed(self) -> Chain:
        """Returns an open chain walked from its other end."""
        turned = self.vertices[::-1]
        bulges = (*(-bulge for _, _, bulge in turned[1:]), 0.0)
        return Chain(vertices=tuple((x, y, b) for (x, y, _), b in zip(turned, bulges, strict=True)), closed=False)

    def flat(self, tolerance: float) -> Points:
        """Returns its corners with chords for arcs, (n, 2), none nearer than `tolerance.JOIN` to the one before.

        Args:
            tolerance: how far a chord may stray from its arc.
        """
        sides = zip(self.vertices, (*self.vertices[1:], *self.vertices[: int(self.closed)]), strict=False)
        found: list[tuple[float, float]] = []
        for start, end in sides:
            found += _chords(start, end, tolerance)
        kept: list[tuple[float, float]] = []
        for point in found:
            if not kept or math.dist(point, kept[-1]) > JOIN:
                kept.append(point)
        while len(kept) > 1 and math.dist(kept[0], kept[-1]) <= JOIN:
            kept.pop()
        return np.array(kept, dtype=np.float64).reshape(-1, 2)

    def sides(self) -> tuple[Points, tuple[float, ...]]:
        """Returns the corners of a closed one in mm, (n, 2), and the bulge of the side that starts at each.

        An arc of more than half a circle is two, and so is every arc where there would be fewer than three corners. An
        arc that leaves its chord by no more than `CHORD` is straight, and corners nearer than `tolerance.JOIN` are one.
        """
        halved = [part for n, vertex in enumerate(self.vertices) for part in self._halves(n, abs(vertex[2]) > HALF)]
        if len(halved) < FEWEST:
            halved = [part for n in range(len(self.vertices)) for part in self._halves(n, True)]
        kept: list[Vertex] = []
        for x, y, bulge in halved:
            if kept and math.dist((x, y), kept[-1][:2]) <= JOIN:
                # What is too short to be a side goes on as the next one.
                kept[-1] = (*kept[-1][:2], bulge)
                continue
            kept.append((x, y, bulge))
        while len(kept) > 1 and math.dist(kept[0][:2], kept[-1][:2]) <= JOIN:
            kept.pop()
        points = np.array(kept, dtype=np.float64)[:, :2]
        chords = np.hypot(*(np.roll(points, -1, axis=0) - points).T)
        rises = [abs(bulge) * chord / 2.0 for (_, _, bulge), chord in zip(kept, chords, strict=True)]
        bulges = (bulge if rise > CHORD else 0.0 for (_, _, bulge), rise in zip(kept, rises, strict=True))
        return points, tuple(bulges)

    def _halves(self, n: int, split: bool) -> list[Vertex]:
        """The side from a vertex as it is, or an arc as its two halves."""
        x, y, bulge = self.vertices[n]
        if not split or abs(bulge) <= COINCIDENT:
            return [(x, y, bulge)]
        bx, by, _ = self.vertices[(n + 1) % len(self.vertices)]
        arc = Arc(start=(x, y), end=(bx, by), bulge=bulge)
        half = math.tan(math.atan(bulge) / 2.0)
        return [(x, y, half), (*arc.at(arc.length / 2.0), half)]

    def holds(self, other: Chain) -> bool:
        """Returns whether another lies inside this closed one."""
        return bool(np.all(is_inside_ring(np.array(other.vertices)[:, :2], self.flat(JOIN))))


def _chords(start: Vertex, end: Vertex, tolerance: float) -> list[tuple[float, float]]:
    """The side from one vertex to the next without its end: one point, or those of the chords of an arc."""
    (ax, ay, bulge), (bx, by, _) = start, end
    length = math.hypot(bx - ax, by - ay)
    if abs(bulge) <= COINCIDENT or length <= COINCIDENT:
        return [(ax, ay)]
    swept = 4.0 * math.atan(bulge)
    radius = length / 2.0 / abs(math.sin(swept / 2.0))
    # A chord strays from its arc by radius x (1 - cos of half its angle).
    widest = 2.0 * math.acos(max(0.0, 1.0 - min(tolerance / radius, 1.0)))
    count = max(1, math.ceil(abs(swept) / widest))
    out = length / 2.0 / math.tan(swept / 2.0)
    cx = (ax + bx) / 2.0 - (by - ay) / length * out
    cy = (ay + by) / 2.0 + (bx - ax) / length * out
    turns = [swept * i / count for i in range(count)]
    return [
        (
            cx + (ax - cx) * math.cos(turn) - (ay - cy) * math.sin(turn),
            cy + (ax - cx) * math.sin(turn) + (ay - cy) * math.cos(turn),
        )
        for turn in turns
    ]


def closed_chains(chains: Sequence[Chain]) -> tuple[list[Chain], float]:
    """Returns the closed rings that chains make, ends within `tolerance.JOIN` joined, and the gap of what stays open.

    Where more than two ends meet the first in the order of the drawing is taken.

    Args:
        chains: in mm.

    Returns:
        the rings, and the distance between the ends of the longest run that does not close, mm (0 where all do).
    """
    rings = [chain for chain in chains if chain.closed and len(chain.vertices) > 1]
    rest = [chain for chain in chains if not chain.closed and len(chain.vertices) > 1]
    longest, gap = 0, 0.0
    while rest:
        run = rest.pop(0)
        while not _meets(run.vertices[-1], run.vertices[0]) or len(run.vertices) < 3:
            following = next((i for i, chain in enumerate(rest) if _starts(chain, run.vertices[-1])), None)
            if following is None:
                backward = run.reversed()
                following = next((i for i, chain in enumerate(rest) if _starts(chain, backward.vertices[-1])), None)
                if following is None:
                    break
                run = backward
            run = _joined(run, rest.pop(following))
        if len(run.vertices) > 2 and _meets(run.vertices[-1], run.vertices[0]):
            rings.append(Chain(vertices=run.vertices[:-1], closed=True))
        elif len(run.vertices) > longest:
            longest, gap = len(run.vertices), math.dist(run.vertices[0][:2], run.vertices[-1][:2])
    return rings, gap


def _meets(first: Vertex, second: Vertex) -> bool:
    return math.dist(first[:2], second[:2]) <= JOIN


def _starts(chain: Chain, at: Vertex) -> bool:
    """Whether a chain starts or ends at a vertex."""
    return _meets(chain.vertices[0], at) or _meets(chain.vertices[-1], at)


def _joined(run: Chain, following: Chain) -> Chain:
    if not _meets(following.vertices[0], run.vertices[-1]):
        following = following.reversed()
    return Chain(vertices=(*run.vertices[:-1], *following.vertices), closed=False)


def named_sides(
    points: Points, bulges: tuple[float, ...]
) -> tuple[tuple[tuple[str, float, float], ...], tuple[DrawnArc, ...]]:
    """Returns corners with names A, B, C ... anticlockwise from the first, and the sides that are arcs."""
    if bulged_area(points, bulges) < 0:
        points = np.vstack([points[:1], points[:0:-1]])
        bulges = tuple(-bulge for bulge in reversed(bulges))
    names = corner_names(len(points))
    ring = tuple((name, float(x), float(y)) for name, (x, y) in zip(names, points, strict=True))
    ends = np.roll(points, -1, axis=0)
    arcs = tuple(
        DrawnArc(start=name, end=after, rise=bulge * math.dist(start, end) / 2.0)
        for name, after, start, end, bulge in zip(names, (*names[1:], names[0]), points, ends, bulges, strict=True)
        if bulge
    )
    return ring, arcs


def named_ring(ring: Points) -> tuple[tuple[str, float, float], ...]:
    """Returns corners with names A, B, C ... anticlockwise from the first, as `job.drawing.Drawn` holds them."""
    ordered = ring if area(ring) > 0 else np.vstack([ring[:1], ring[:0:-1]])
    return tuple((name, float(x), float(y)) for name, (x, y) in zip(corner_names(len(ordered)), ordered, strict=True))
