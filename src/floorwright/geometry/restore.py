"""The true arcs behind edges that stand for them.

Edges that carry the name of a circle, with both ends on it, are one arc. It ends where the circle meets what comes
before and after it: the line of a straight side, or another circle.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from floorwright.geometry.arc import Arc, flat
from floorwright.geometry.region import Circle, Points, Region
from floorwright.tolerance import ARC, CHORD, COINCIDENT

MOVED = 4.0
"""In `CHORD`: an end that would move farther than this is left where it is (circle and line only just meet)."""

Name = str | None

Side = Circle | tuple[Points, Points]
"""What a side lies on: a circle, or the line through two points."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Outline:
    """A ring of straight sides and arcs.

    Attributes:
        points: (n, 2) mm.
        bulges: of the side that starts at each point, 0 for a straight one; see `geometry.arc`.
        names: of those sides.
    """

    points: Points
    bulges: tuple[float, ...]
    names: tuple[Name, ...]

    @property
    def is_curved(self) -> bool:
        """Whether any side is an arc."""
        return any(self.bulges)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Run:
    """Edges of a ring that are one side: from point `first` of the ring, `count` of them, on a circle or not."""

    first: int
    count: int
    name: Name
    circle: Circle | None


def on_circle(start: Points, end: Points, circle: Circle) -> bool:
    """Returns whether an edge is one of those that stand for a circle: both its ends lie on it, within `CHORD`."""
    return all(abs(math.dist(point, circle.centre) - circle.radius) <= CHORD + COINCIDENT for point in (start, end))


def restored(ring: Points, names: Sequence[Name], circles: Mapping[str, Circle]) -> Outline:
    """Returns a ring with its arcs given back.

    Args:
        ring: (n, 2) mm, the region on the left of its edges.
        names: of the edges.
        circles: by name.
    """
    runs = _runs(ring, names, circles)
    if len(runs) == 1:
        return _round(ring, runs[0])
    starts = [_meeting(ring, runs[n - 1], run) for n, run in enumerate(runs)]
    bulges = [
        0.0 if run.circle is None else _bulge(ring, run, run.circle, start, end)
        for run, start, end in zip(runs, starts, (*starts[1:], starts[0]), strict=True)
    ]
    return Outline(points=np.array(starts), bulges=tuple(bulges), names=tuple(run.name for run in runs))


def restored_region(region: Region) -> tuple[Outline, ...]:
    """Returns every ring of a region with its arcs given back."""
    return tuple(restored(ring, names, region.circles) for ring, names in zip(region.rings, region.edges, strict=True))


def with_even_edges(region: Region) -> Region:
    """Returns the region with new edges for its arcs, which end truly where they meet what is beside them."""
    if not region.circles:
        return region
    rings: list[Points] = []
    edges: list[tuple[str, ...]] = []
    for ring, names in zip(region.rings, region.edges, strict=True):
        points, named = flattened(restored(ring, names, region.circles))
        rings.append(points)
        edges.append(tuple(name or "" for name in named))
    return replace(region, rings=tuple(rings), edges=tuple(edges))


def flattened(outline: Outline) -> tuple[Points, tuple[Name, ...]]:
    """Returns a ring of straight edges that stand for an outline within `tolerance.ARC`, and their names."""
    points: list[Points] = []
    names: list[Name] = []
    for n, (start, bulge, name) in enumerate(zip(outline.points, outline.bulges, outline.names, strict=True)):
        end = outline.points[(n + 1) % len(outline.points)]
        part = flat(Arc(start=_pair(start), end=_pair(end), bulge=bulge), ARC) if bulge else start[None]
        points.append(part)
        names += [name] * len(part)
    return np.concatenate(points), tuple(names)


def _runs(ring: Points, names: Sequence[Name], circles: Mapping[str, Circle]) -> list[_Run]:
    count = len(ring)
    bent: list[Circle | None] = []
    for n, name in enumerate(names):
        circle = circles.get(name) if name is not None else None
        bent.append(circle if circle and on_circle(ring[n], ring[(n + 1) % count], circle) else None)
    begins = [n for n in range(count) if bent[n] is None or names[n] != names[n - 1] or bent[n - 1] is None] or [0]
    return [
        _Run(first=first, count=(after - first) % count or count, name=names[first], circle=bent[first])
        for first, after in zip(begins, (*begins[1:], begins[0]), strict=True)
    ]


def _round(ring: Points, run: _Run) -> Outline:
    """A ring that is one circle, as two halves."""
    assert run.circle is not None
    centre = np.array(run.circle.centre)
    out = ring[0] - centre
    out *= run.circle.radius / float(np.hypot(*out))
    bulge = 1.0 if run.circle.hollow else -1.0
    return Outline(points=np.array([centre + out, centre - out]), bulges=(bulge, bulge), names=(run.name, run.name))


def _meeting(ring: Points, before: _Run, after: _Run) -> Points:
    """Where two sides truly meet, (2,): the crossing nearest to the point between their edges, if one is near."""
    at: Points = ring[after.first]
    one, other = (before.circle, after.circle)
    if one is None and other is None:
        return at
    found = crossings(*(run.circle or (ring[run.first], ring[(run.first + 1) % len(ring)]) for run in (before, after)))
    near = [point for point in found if math.dist(point, at) <= MOVED * CHORD]
    return np.asarray(min(near, key=lambda point: math.dist(point, at), default=at))


def crossings(one: Side, other: Side) -> list[Points]:
    """Returns the points that two sides have in common, carried on without end; of them at least one is a circle."""
    if isinstance(one, Circle):
        return _circles_cross(one, other) if isinstance(other, Circle) else _line_crosses(*other, one)
    assert isinstance(other, Circle), "two straight sides"
    return _line_crosses(*one, other)


def _line_crosses(start: Points, end: Points, circle: Circle) -> list[Points]:
    """The points that an endless line has in common with a circle."""
    unit = (end - start) / float(np.hypot(*(end - start)))
    away = np.array(circle.centre) - start
    foot = float(unit @ away)
    off = float(unit[0] * away[1] - unit[1] * away[0])
    square = (circle.radius - off) * (circle.radius + off)
    if square < 0.0:
        return []
    half = math.sqrt(square)
    return [start + (foot - half) * unit, start + (foot + half) * unit]


def _circles_cross(one: Circle, other: Circle) -> list[Points]:
    """The points that two circles have in common."""
    first, second = np.array(one.centre), np.array(other.centre)
    apart = float(np.hypot(*(second - first)))
    if apart <= COINCIDENT:
        return []
    unit = (second - first) / apart
    along = (apart * apart + one.radius**2 - other.radius**2) / (2.0 * apart)
    square = (one.radius - along) * (one.radius + along)
    if square < 0.0:
        return []
    out = math.sqrt(square) * np.array([-unit[1], unit[0]])
    return [first + along * unit - out, first + along * unit + out]


def _bulge(ring: Points, run: _Run, circle: Circle, start: Points, end: Points) -> float:
    """The bulge of an arc between its true ends: it sweeps about as much as its edges do."""
    at = ring[(run.first + np.arange(run.count + 1)) % len(ring)] - np.array(circle.centre)
    turned = np.unwrap(np.arctan2(at[:, 1], at[:, 0]))
    swept = float(turned[-1] - turned[0])
    true = math.atan2(*(end - circle.centre)[::-1]) - math.atan2(*(start - circle.centre)[::-1])
    return math.tan((swept + math.remainder(true - swept, math.tau)) / 4.0)


def _pair(point: Points) -> tuple[float, float]:
    return float(point[0]), float(point[1])
