"""Outlines given by coordinates whose walls cross: no reading has to be adjusted to see that."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np

from floorwright.geometry.measure import is_simple
from floorwright.job.inputs.walls import own_name, rooms_of, walls_of
from floorwright.job.read.misfit import quoted
from floorwright.job.read.problem import Problem

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.geometry.region import Points
    from floorwright.job.model import Job
    from floorwright.job.read.positions import Path


def check_crossing(job: Job) -> Iterator[Problem]:
    """Yields the first two walls that cross, of every room whose corners all have coordinates and no wall is an arc."""
    points = job.survey.points
    known = walls_of(job)
    arcs = {own_name(job, arc.wall) for arc in job.survey.arcs}
    for i, room in enumerate(rooms_of(job)):
        path: Path = ("survey",) if i == 0 else ("rooms", i - 1)
        names = room.outline
        if not all(name in points for name in names):
            continue
        walls = [wall for wall, ends in known.items() if set(ends) <= set(names)]
        if arcs & set(walls) or is_simple([points[name] for name in names]):
            continue
        places = np.array([points[name] for name in names], dtype=np.float64)
        for first, second in combinations(range(len(names)), 2):
            if second - first in (1, len(names) - 1) or not _meet(places, first, second):
                continue
            pair = [own_name(job, f"{names[n]}-{names[(n + 1) % len(names)]}") or "" for n in (first, second)]
            yield Problem(
                path=(*path, "outline"),
                code="job-outline",
                found=f"wall {quoted(pair[0])} and wall {quoted(pair[1])}, which cross by their coordinates",
                expected="walls that meet at corners alone",
                remedy="look at the order of the corners, and at the coordinates at both ends of the two walls",
                drop=(*path, "outline") if i == 0 else path,
            )
            break


def _meet(places: Points, first: int, second: int) -> bool:
    """Whether two edges of a ring, given by the points where they start, touch."""
    a, b = places[first], places[(first + 1) % len(places)]
    c, d = places[second], places[(second + 1) % len(places)]
    return _side(a, b, c) * _side(a, b, d) <= 0.0 and _side(c, d, a) * _side(c, d, b) <= 0.0


def _side(start: Points, end: Points, point: Points) -> float:
    """On which side of a line a point lies: over 0 on its left."""
    return float((end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0]))
