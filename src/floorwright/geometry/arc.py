"""Circular arcs: from chord and rise, through a point, by a radius; their sizes; and the straight edges for them.

An arc is its two ends and its *bulge*, the tangent of a quarter of the angle that it sweeps, positive anticlockwise
(as group code 42 of an LWPOLYLINE in the DXF reference). So the *rise*, the greatest offset from the chord, is
bulge x chord / 2, and a half circle has the bulge 1.

Edges that stand for an arc never leave the region on its left: where the arc bows out of it (anticlockwise) they are
chords, and where it bows in (clockwise) they touch the arc from outside the circle. Either way they start and end in
the arc's own ends, and fall short of it by no more than a tolerance.
"""

import math
from dataclasses import dataclass

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Circle, Points
from floorwright.tolerance import COINCIDENT

Point = tuple[float, float]

LEAST_EDGES = 2
"""So many edges stand for an arc at least, so that it is told from a straight wall."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """An arc of a circle, more than a point and less than all of it.

    Attributes:
        start, end: (x, y) mm.
        bulge: tangent of a quarter of the angle swept, over 0 anticlockwise; never 0.
    """

    start: Point
    end: Point
    bulge: float

    @property
    def chord(self) -> float:
        """From end to end in a straight line, mm."""
        return math.dist(self.start, self.end)

    @property
    def rise(self) -> float:
        """Greatest offset from the chord, mm, over 0 to the right of the way from start to end."""
        return self.bulge * self.chord / 2.0

    @property
    def sweep(self) -> float:
        """Angle swept, radians, over 0 anticlockwise."""
        return 4.0 * math.atan(self.bulge)

    @property
    def radius(self) -> float:
        """mm: c^2 / (8 h) + h / 2 of chord c and rise h."""
        return self.chord / 4.0 * (1.0 / abs(self.bulge) + abs(self.bulge))

    @property
    def centre(self) -> Point:
        """(x, y) mm."""
        (ax, ay), (bx, by) = self.start, self.end
        # Over the chord, to its left, as a part of the chord.
        out = (1.0 / self.bulge - self.bulge) / 4.0
        return (ax + bx) / 2.0 - (by - ay) * out, (ay + by) / 2.0 + (bx - ax) * out

    @property
    def length(self) -> float:
        """Along the arc, mm."""
        return self.radius * abs(self.sweep)

    @property
    def segment(self) -> float:
        """Area between arc and chord, mm2: r^2 (t - sin t) / 2 of the angle t, over 0 where the arc bows right."""
        return self.radius**2 / 2.0 * (self.sweep - math.sin(self.sweep))

    @property
    def circle(self) -> Circle:
        """The circle that it lies on; hollow where the left of the arc is the inside."""
        return Circle(centre=self.centre, radius=self.radius, hollow=self.bulge > 0.0)

    def offset(self, along: float) -> float:
        """Returns how far the arc lies off its chord, mm, so many mm along the chord; the sign is that of `rise`."""
        half = self.chord / 2.0
        over = self.radius - abs(self.rise)
        off = math.sqrt(max(self.radius**2 - (along - half) ** 2, 0.0)) - over
        return math.copysign(off, self.bulge)

    def at(self, along: float) -> Point:
        """Returns the point so many mm along the arc from its start."""
        turned = along / self.length * self.sweep
        (x, y), (cx, cy) = self.start, self.centre
        cos, sin = math.cos(turned), math.sin(turned)
        return cx + (x - cx) * cos - (y - cy) * sin, cy + (x - cx) * sin + (y - cy) * cos

    def heading(self, along: float) -> float:
        """Returns the direction in which the arc runs so many mm from its start, radians."""
        (x, y), (cx, cy) = self.at(along), self.centre
        return math.remainder(math.atan2(y - cy, x - cx) + math.copysign(math.pi / 2.0, self.bulge), math.tau)


def by_rise(start: Point, end: Point, rise: float) -> Arc:
    """Returns the arc over a chord with a rise, mm, to the right of the way from start to end where it is over 0.

    A rise of more than half the chord makes more than half a circle.

    Raises:
        FloorwrightValueError: the chord has no length, or the rise is none.

    >>> round(by_rise((0.0, 0.0), (2000.0, 0.0), 150.0).radius, 1)
    3408.3
    """
    chord = math.dist(start, end)
    if not chord > COINCIDENT or not abs(rise) > COINCIDENT:
        raise FloorwrightValueError("an arc needs a chord and a rise")
    return Arc(start=start, end=end, bulge=2.0 * rise / chord)


def rise_through(start: Point, middle: Point, end: Point) -> float:
    """Returns the rise of the arc from start to end through a third point, mm, over 0 to the right of the chord.

    It is 0 where the point lies on the chord.

    Raises:
        FloorwrightValueError: the ends are one point, or the third lies in line with them but not between.
    """
    chord = math.dist(start, end)
    if not chord > COINCIDENT:
        raise FloorwrightValueError("the two ends of an arc are one point")
    unit = ((end[0] - start[0]) / chord, (end[1] - start[1]) / chord)
    away = (middle[0] - start[0], middle[1] - start[1])
    along = away[0] * unit[0] + away[1] * unit[1]
    left = unit[0] * away[1] - unit[1] * away[0]
    if abs(left) <= COINCIDENT:
        if COINCIDENT < along < chord - COINCIDENT:
            return 0.0
        raise FloorwrightValueError("the third point lies in line with the ends, and not between them")
    # The centre lies `over` to the left of the middle of the chord.
    over = (along * (along - chord) + left * left) / (2.0 * left)
    half = chord / 2.0
    way = -1.0 if left > 0.0 else 1.0
    # As a quotient: of a flat arc, radius less `over` would be the difference of two large numbers.
    apart = math.hypot(half, over) + way * over
    return way * half * half / apart


def through(start: Point, middle: Point, end: Point) -> Arc:
    """Returns the arc from start to end through a third point.

    Raises:
        FloorwrightValueError: the three points lie in line.
    """
    return by_rise(start, end, rise_through(start, middle, end))


def rise_of_radius(chord: float, radius: float, *, over_half: bool = False) -> float:
    """Returns the rise of an arc over a chord with a radius, mm, over 0.

    Args:
        chord, radius: mm.
        over_half: whether it is the arc of more than half a circle.

    Raises:
        FloorwrightValueError: no circle of that radius spans the chord.
    """
    half = chord / 2.0
    if radius < half - COINCIDENT:
        raise FloorwrightValueError("a circle of that radius is too small for the chord")
    out = math.sqrt(max((radius - half) * (radius + half), 0.0))
    return radius + out if over_half else half * half / (radius + out)


def edge_count(radius: float, sweep: float, hollow: bool, tolerance: float) -> int:
    """Returns how many even edges stand for an arc within a tolerance, mm."""
    share = radius - min(tolerance, radius) if hollow else radius
    widest = 2.0 * math.acos(min(share / (radius if hollow else radius + tolerance), 1.0))
    return max(LEAST_EDGES, math.ceil(abs(sweep) / max(widest, COINCIDENT) - COINCIDENT))


def flat(arc: Arc, tolerance: float) -> Points:
    """Returns the points of the edges that stand for an arc, from its start and without its end, (n, 2) mm.

    On its left the edges never pass the arc (see the module); they fall short of it by at most the tolerance.
    """
    hollow = arc.bulge > 0.0
    count = edge_count(arc.radius, arc.sweep, hollow, tolerance)
    cx, cy = arc.centre
    first = math.atan2(arc.start[1] - cy, arc.start[0] - cx)
    if hollow:
        turns, radius = first + arc.sweep * np.arange(1, count) / count, arc.radius
    else:
        # Sides that touch the circle, the first and the last for half a step from the ends.
        turns = first + arc.sweep * (np.arange(count) + 0.5) / count
        radius = arc.radius / math.cos(arc.sweep / count / 2.0)
    between = np.column_stack([cx + radius * np.cos(turns), cy + radius * np.sin(turns)])
    return np.vstack([np.array([arc.start]), between])


def bulged_area(points: Points, bulges: tuple[float, ...]) -> float:
    """Returns the signed area of a ring of arcs and straight sides, mm2: positive where it runs anticlockwise.

    Args:
        points: (n, 2) mm, not closed.
        bulges: of the side that starts at each, 0 for a straight one.
    """
    x, y = (points - points[0]).T
    total = 0.5 * float(np.dot(x, np.roll(y, -1)) - np.dot(np.roll(x, -1), y))
    for n, bulge in enumerate(bulges):
        if bulge:
            total += _side(points, n, bulge).segment
    return total


def bulged_length(points: Points, bulges: tuple[float, ...]) -> float:
    """Returns the length all round a ring of arcs and straight sides, mm; args as for `bulged_area`."""
    ends = np.roll(points, -1, axis=0)
    straight = np.hypot(*(ends - points).T)
    return float(sum(_side(points, n, b).length if b else straight[n] for n, b in enumerate(bulges)))


def _side(points: Points, n: int, bulge: float) -> Arc:
    (ax, ay), (bx, by) = points[n], points[(n + 1) % len(points)]
    return Arc(start=(float(ax), float(ay)), end=(float(bx), float(by)), bulge=bulge)
