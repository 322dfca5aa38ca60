"""A disc, or the part of a ring between two radii and two directions: its edges, and the edges of what lies around."""

import math
from typing import Final

import numpy as np

from floorwright.geometry.arc import Arc
from floorwright.geometry.region import Circle, Points, Region
from floorwright.geometry.restore import Outline, flattened
from floorwright.tolerance import COINCIDENT

Point = tuple[float, float]

OUTSIDE, INSIDE, FIRST, LAST = "round edge", "inside edge", "first side", "last side"
"""What the edges are called; the last side lies anticlockwise of the first."""

HALF_ROUND: Final = 1.0
"""The bulge of half a circle."""


def disc(centre: Point, radius: float) -> Region:
    """Returns a disc, its edges chords of the circle."""
    return _region(circle_outline(centre, radius, OUTSIDE), "")


def around_disc(centre: Point, radius: float, name: str) -> Region:
    """Returns the hole that a disc leaves, clockwise, its edges touching the circle; named `name, round edge`."""
    return _region(_turned(circle_outline(centre, radius, OUTSIDE)), f"{name}, ")


def sector(centre: Point, radii: tuple[float, float], start: float, sweep: float) -> Region:
    """Returns the part of a ring between two radii from a direction on.

    Args:
        centre: (x, y) mm.
        radii: inside and outside, mm; an inside of 0 for a wedge.
        start, sweep: radians, less than a turn.
    """
    return _region(_sector(centre, radii, start, sweep, 0.0), "")


def around_sector(
    centre: Point, radii: tuple[float, float], start: float, sweep: float, beside: float, name: str
) -> Region:
    """Returns the hole that such a part leaves, clockwise, with its sides moved out by `beside` mm; other arguments
    are those of `sector` and `around_disc`."""
    return _region(_turned(_sector(centre, radii, start, sweep, beside)), f"{name}, ")


def circle_outline(centre: Point, radius: float, name: str | None) -> Outline:
    """Returns a circle as two true halves, anticlockwise, both of one name."""
    x, y = centre
    ends = np.array([(x + radius, y), (x - radius, y)])
    return Outline(points=ends, bulges=(HALF_ROUND, HALF_ROUND), names=(name, name))


def _sector(
    centre: Point, radii: tuple[float, float], start: float, sweep: float, beside: float
) -> Outline:  # fmt: skip
    inner, outer = radii

    def at(radius: float, last: bool) -> Point:
        """Where a side, moved out, meets a circle."""
        moved = math.asin(min(beside / radius, 1.0))
        turn = start + sweep + moved if last else start - moved
        return centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)

    def bulge(radius: float) -> float:
        return math.tan((sweep + 2 * math.asin(min(beside / radius, 1.0))) / 4)

    if inner > beside + COINCIDENT:
        points = [at(inner, False), at(outer, False), at(outer, True), at(inner, True)]
        bulges = (0.0, bulge(outer), 0.0, -bulge(inner))
        return Outline(points=np.array(points), bulges=bulges, names=(FIRST, OUTSIDE, LAST, INSIDE))
    half = sweep / 2
    back = beside / math.sin(half) if half < math.pi / 2 else 0.0
    tip = centre[0] - back * math.cos(start + half), centre[1] - back * math.sin(start + half)
    points = [tip, at(outer, False), at(outer, True)]
    return Outline(points=np.array(points), bulges=(0.0, bulge(outer), 0.0), names=(FIRST, OUTSIDE, LAST))


def _turned(outline: Outline) -> Outline:
    """The same the other way round."""
    return Outline(
        points=outline.points[::-1].copy(),
        bulges=tuple(-bulge for bulge in (*outline.bulges[-2::-1], outline.bulges[-1])),
        names=(*outline.names[-2::-1], outline.names[-1]),
    )


def _region(outline: Outline, before: str) -> Region:
    points, names = flattened(outline)
    circles: dict[str, Circle] = {}
    for n, (bulge, name) in enumerate(zip(outline.bulges, outline.names, strict=True)):
        if bulge:
            start, end = outline.points[n], outline.points[(n + 1) % len(outline.points)]
            circles[f"{before}{name}"] = Arc(start=_pair(start), end=_pair(end), bulge=bulge).circle
    return Region(rings=(points,), edges=(tuple(f"{before}{name}" for name in names),), circles=circles)


def _pair(point: Points) -> Point:
    return float(point[0]), float(point[1])
