"""Where one more point may lie, by each reading that ties it to points that have a place, and where two such meet.

A distance is a circle; a square corner or an angle at a placed point is a line, at the new point itself a circle; a
straight, an offset and a length along a line are lines. Readings are never perfect: circles that just miss each other
meet half way between.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from floorwright.survey.network import names_of
from floorwright.survey.observation import Along, Angle, Coordinate, Distance, Observation, Offset, Square
from floorwright.tolerance import COINCIDENT, PARALLEL

Place = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """Every point at `radius` from `centre`, mm."""

    centre: Place
    radius: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """The endless line through a point in a unit direction."""

    through: Place
    direction: Place


Locus = Circle | Line


def locus_may_tell(observation: Observation, point: str) -> bool:
    """Returns whether an observation, once its other points have a place, says where a point may lie."""
    if isinstance(observation, Offset | Along):
        return observation.at == point
    return not isinstance(observation, Coordinate)


def locus(observation: Observation, point: str, placed: Mapping[str, Place]) -> Locus | None:
    """Returns where an observation lets a point lie, or None where it says nothing yet (a point of it has no place)."""
    if not locus_may_tell(observation, point):
        return None
    others = [placed.get(name) for name in names_of(observation) if name != point]
    known = [place for place in others if place is not None]
    if point not in names_of(observation) or len(known) < len(others):
        return None
    if isinstance(observation, Distance):
        return Circle(centre=known[0], radius=observation.measured)
    (ax, ay), (bx, by) = known
    length = math.hypot(bx - ax, by - ay)
    if length <= COINCIDENT:
        return None
    along = ((bx - ax) / length, (by - ay) / length)
    if isinstance(observation, Square):
        if observation.at == point:
            return Circle(centre=((ax + bx) / 2, (ay + by) / 2), radius=length / 2)
        # names_of gives the corner first, so that known[0] is the corner.
        return Line(through=known[0], direction=(-along[1], along[0]))
    if isinstance(observation, Angle):
        return _angle(observation, point, known[0], along, length)
    if isinstance(observation, Offset | Along):
        return _by_line(observation, known[0], along)
    return Line(through=known[0], direction=along)


def _angle(angle: Angle, point: str, first: Place, along: Place, length: float) -> Locus:
    """At an end, the line at that angle to the other ray; at the corner, the circle of equal angles over the chord."""
    sine, cosine = math.sin(angle.measured), math.cos(angle.measured)
    if point != angle.at:
        sine = sine if point == angle.b else -sine
        turned = (along[0] * cosine - along[1] * sine, along[0] * sine + along[1] * cosine)
        return Line(through=first, direction=turned)
    if abs(sine) <= PARALLEL:
        return Line(through=first, direction=along)
    # Euclid, Elements III.21: the angle over a chord is the same all round an arc; its centre sees twice that angle.
    out = length / 2 * cosine / sine
    x = first[0] + along[0] * length / 2 - along[1] * out
    y = first[1] + along[1] * length / 2 + along[0] * out
    return Circle(centre=(x, y), radius=length / 2 / abs(sine))


def _by_line(reading: Offset | Along, start: Place, along: Place) -> Line:
    left = (-along[1], along[0])
    shift, direction = (left, along) if isinstance(reading, Offset) else (along, left)
    through = (start[0] + reading.measured * shift[0], start[1] + reading.measured * shift[1])
    return Line(through=through, direction=direction)


def meet(first: Locus, second: Locus) -> tuple[Place, ...]:
    """Returns the points where two loci meet, or nearly do; none for parallel lines and circles round one centre."""
    if isinstance(first, Line):
        if isinstance(second, Line):
            return _lines(first, second)
        return _line_circle(first, second)
    if isinstance(second, Line):
        return _line_circle(second, first)
    return _circles(first, second)


def _lines(first: Line, second: Line) -> tuple[Place, ...]:
    (px, py), (dx, dy) = first.through, first.direction
    (qx, qy), (ex, ey) = second.through, second.direction
    cross = dx * ey - dy * ex
    if abs(cross) <= PARALLEL:
        return ()
    t = ((qx - px) * ey - (qy - py) * ex) / cross
    return ((px + t * dx, py + t * dy),)


def _line_circle(line: Line, circle: Circle) -> tuple[Place, ...]:
    (px, py), (dx, dy) = line.through, line.direction
    t = (circle.centre[0] - px) * dx + (circle.centre[1] - py) * dy
    foot = (px + t * dx, py + t * dy)
    squared = circle.radius**2 - (circle.centre[0] - foot[0]) ** 2 - (circle.centre[1] - foot[1]) ** 2
    if squared <= 0.0:
        return (foot,)
    half = math.sqrt(squared)
    return ((foot[0] + half * dx, foot[1] + half * dy), (foot[0] - half * dx, foot[1] - half * dy))


def _circles(first: Circle, second: Circle) -> tuple[Place, ...]:
    """Two-tape tie: x = (r1^2 - r2^2 + b^2) / 2b along the line of the centres, y = +/- sqrt(r1^2 - x^2)."""
    (ax, ay), (bx, by) = first.centre, second.centre
    base = math.hypot(bx - ax, by - ay)
    if base <= COINCIDENT:
        return ()
    ux, uy = (bx - ax) / base, (by - ay) / base
    one, two = first.radius, second.radius
    x = (one * one - two * two + base * base) / (2 * base)
    if one * one <= x * x:
        # They miss, side by side or one in the other: half way between their nearest points.
        near = one if x > 0.0 else -one
        far = base + two if base < one - two else base - two
        middle = (near + far) / 2
        return ((ax + middle * ux, ay + middle * uy),)
    y = math.sqrt(one * one - x * x)
    return ((ax + x * ux - y * uy, ay + x * uy + y * ux), (ax + x * ux + y * uy, ay + x * uy - y * ux))
