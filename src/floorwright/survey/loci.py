"""Where one more point may lie, by each reading that ties it to points that have a place, and where two such meet.

A distance is a circle; a square corner at a placed point is a line, at the new point itself a circle (Thales); a
straight is a line. Readings are never perfect: circles that just miss each other meet half way between.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from floorwright.survey.network import names_of
from floorwright.survey.observation import Distance, Observation, Square
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


def locus(observation: Observation, point: str, placed: Mapping[str, Place]) -> Locus | None:
    """Returns where an observation lets a point lie, or None where it says nothing yet (a point of it has no place)."""
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
    return Line(through=known[0], direction=along)


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
