"""Straight lines over a floor: where they meet the walls, how far they run clear, what is in the way."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from floorwright.geometry.measure import distance_to_ring, is_inside
from floorwright.geometry.region import Points, Region
from floorwright.tolerance import COINCIDENT, PARALLEL, STRIP, TOUCH

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """Where a line meets an edge.

    Attributes:
        at: mm along the line from the point it was given by, in its direction.
        edge: index of the edge in its ring.
        along: mm from the start of that edge.
    """

    at: float
    edge: int
    along: float


def unit(angle: float) -> Points:
    """Returns the unit vector at an angle, (2,)."""
    return np.array([math.cos(angle), math.sin(angle)])


def step(start: Point, angle: float, distance: float) -> Point:
    """Returns the point at a distance from another in a direction, mm."""
    return start[0] + distance * math.cos(angle), start[1] + distance * math.sin(angle)


def meetings(ring: Points, through: Point, angle: float) -> tuple[Meeting, ...]:
    """Returns where an endless line meets a ring, in the line's direction; always an even number.

    A line through a corner meets one of its two edges or, where it only touches the corner, both or neither. One that
    runs along an edge meets the neighbours of that edge.

    Args:
        ring: (n, 2) mm.
        through: a point on the line, mm.
        angle: of the line, radians.
    """
    along, across = unit(angle), unit(angle + math.pi / 2)
    start = ring - np.asarray(through)
    end = np.roll(start, -1, axis=0)
    start_off, end_off = start @ across, end @ across
    found = []
    for edge in np.flatnonzero((start_off > 0) != (end_off > 0)):
        share = start_off[edge] / (start_off[edge] - end_off[edge])
        point = start[edge] + share * (end[edge] - start[edge])
        length = math.dist(start[edge], end[edge])
        found.append(Meeting(at=float(point @ along), edge=int(edge), along=float(share * length)))
    return tuple(sorted(found, key=lambda meeting: (meeting.at, meeting.edge)))


def chord(ring: Points, through: Point, angle: float) -> tuple[Meeting, Meeting] | None:
    """Returns the two ends of the part of a line inside a ring that holds the point it was given by.

    None where the point lies outside. A point on a wall between two parts has the longer. Where the line runs along
    an edge, or through a corner that turns in, rounding would decide what it meets: a line `tolerance.TOUCH` beside it
    decides then.
    """
    beside = [step(through, angle + math.pi / 2, shift) for shift in (0.0, TOUCH, -TOUCH)]
    parts = [(start, end) for point in beside for start, end in _parts(ring, point, angle)]
    # The first of equals is the line itself: a shift may only win by more than it can move an end.
    return max(parts, key=lambda part: round((part[1].at - part[0].at) / STRIP), default=None)


def longest_chord(ring: Points, through: Point, angle: float) -> tuple[Meeting, Meeting] | None:
    """Returns the two ends of the longest part of an endless line inside a ring; None where it misses the ring."""
    found = meetings(ring, through, angle)
    return max(
        zip(found[::2], found[1::2], strict=True),
        key=lambda part: round((part[1].at - part[0].at) / STRIP),
        default=None,
    )


def _parts(ring: Points, through: Point, angle: float) -> list[tuple[Meeting, Meeting]]:
    """The parts of a line inside a ring that hold `through`, ends counted in."""
    found = meetings(ring, through, angle)
    return [
        (start, end)
        for start, end in zip(found[::2], found[1::2], strict=True)
        if start.at <= TOUCH + COINCIDENT and end.at >= -TOUCH - COINCIDENT and end.at - start.at > COINCIDENT
    ]


def spans(region: Region, through: Point, angle: float) -> tuple[tuple[float, float], ...]:
    """Returns the parts of a line inside a region, holes left out: mm along the line from `through`, in order."""
    found = sorted(meeting.at for ring in region.rings for meeting in meetings(ring, through, angle))
    return tuple((start, end) for start, end in zip(found[::2], found[1::2], strict=True) if end - start > COINCIDENT)


def is_clear(region: Region, start: Point, end: Point) -> bool:
    """Returns whether a straight line from one point to another stays on the floor (along a wall is on it)."""
    length = math.dist(start, end)
    if length <= COINCIDENT:
        return True
    angle = math.atan2(end[1] - start[1], end[0] - start[0])
    off = (0.0, TOUCH, -TOUCH)  # along a wall rounding decides which side the line is on; either side will do
    return any(
        first <= TOUCH and last >= length - TOUCH
        for shift in off
        for first, last in spans(region, step(start, angle + math.pi / 2, shift), angle)
    )


def clear_run(region: Region, start: Point, angle: float) -> float:
    """Returns how far the floor runs clear from a point in a direction, mm; 0 where the point is not on the floor."""
    return max((last for first, last in spans(region, start, angle) if first <= TOUCH < last), default=0.0)


def room_round(region: Region, points: ArrayLike) -> NDArray[np.float64]:
    """Returns the distance of each point from the nearest wall or obstacle, (m,) mm; 0 where it is not on the floor.

    Args:
        region: the floor.
        points: (m, 2) or (2,) mm.
    """
    away = np.min([distance_to_ring(points, ring) for ring in region.rings], axis=0)
    return np.where(is_inside(points, region), away, 0.0)


def crossing(a: Point, a_angle: float, b: Point, b_angle: float) -> Point | None:
    """Returns where two endless lines cross, mm; None where they run within `tolerance.PARALLEL` of each other."""
    sine = math.sin(b_angle - a_angle)
    if abs(sine) < PARALLEL:
        return None
    gap = np.asarray(b) - np.asarray(a)
    towards = unit(b_angle)
    distance = float(gap[0] * towards[1] - gap[1] * towards[0]) / sine
    return step(a, a_angle, distance)
