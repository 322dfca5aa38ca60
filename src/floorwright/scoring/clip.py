"""Runs cut to a part of the slab, and less what is cut or there already."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain

import numpy as np
import shapely

from floorwright.geometry.region import Points, Region
from floorwright.scoring.design import Circle, Frame
from floorwright.scoring.runs import SAME_WAY, Run
from floorwright.tolerance import ALONG, COINCIDENT, ONE_CUT, TOUCH


def run_between(start: Points, end: Points) -> Run:
    """Returns the run between two points."""
    angle = math.atan2(end[1] - start[1], end[0] - start[0]) % math.pi
    if angle > math.pi - SAME_WAY:
        angle = 0.0
    direction = np.array([math.cos(angle), math.sin(angle)])
    low, high = sorted((float(start @ direction), float(end @ direction)))
    off = float((start + end) @ np.array([-direction[1], direction[0]])) / 2
    return Run(angle=angle, off=off, start=low, end=high)


def ring_runs(rings: Sequence[Points], frame: Frame) -> tuple[Run, ...]:
    """Returns the sides of rings, floor mm, as runs in the frame, in their order."""
    local = [frame.local(ring) for ring in rings]
    return tuple(
        run_between(start, end) for ring in local for start, end in zip(ring, np.roll(ring, -1, axis=0), strict=True)
    )


def within(runs: Sequence[Run], region: Region, frame: Frame) -> Iterator[Run]:
    """Yields the runs as far as they lie in a region."""
    rings = [frame.local(ring) for ring in region.rings]
    area = shapely.Polygon(rings[0], rings[1:])
    shapely.prepare(area)
    lines = np.asarray(shapely.linestrings(np.array([run.ends for run in runs]).reshape(-1, 2, 2)), dtype=object)
    parts, of_run = shapely.get_parts(np.atleast_1d(shapely.intersection(lines, area)), return_index=True)
    for part, number in zip(parts, of_run.tolist(), strict=True):
        if isinstance(part, shapely.LineString) and part.length > ONE_CUT:
            run = runs[number]
            on = run_between(*np.asarray(part.coords))
            # Its own line, not one that cutting has moved by rounding.
            yield replace(run, start=on.start, end=on.end)


def less(runs: Sequence[Run], lines: Sequence[Run]) -> tuple[Run, ...]:
    """Returns the runs less what lies on a line, so near that two cuts would leave a sliver between them."""
    left = list(runs)
    for line in lines:
        if not left:
            break
        direction = np.array([math.cos(line.angle), math.sin(line.angle)])
        ends = np.array([run.ends for run in left])
        off = ends @ np.array([-direction[1], direction[0]]) - line.off
        along = np.sort(ends @ direction, axis=1)
        # A little of a run that only starts on the line, as one that crosses it does, is not on it.
        over = np.minimum(along[:, 1], line.end) - np.maximum(along[:, 0], line.start)
        on = np.all(np.abs(off) <= ONE_CUT, axis=1) & (over > ONE_CUT)
        parts = (_beside(run, line) if is_on else (run,) for run, is_on in zip(left, on.tolist(), strict=True))
        left = list(chain.from_iterable(parts))
    return tuple(left)


def _beside(run: Run, line: Run) -> Iterator[Run]:
    """What a line leaves of a run that lies on it in part."""
    direction = np.array([math.cos(run.angle), math.sin(run.angle)])
    low, high = sorted((line.ends @ direction).tolist())
    for start, end in ((run.start, min(run.end, low)), (max(run.start, high), run.end)):
        if end - start > ONE_CUT:
            yield replace(run, start=start, end=end)


def overlap(run: Run, line: Run) -> tuple[float, float] | None:
    """Returns the stretch of a run that a line lies on, mm along the run, or None: within `tolerance.ONE_CUT`."""
    direction = np.array([math.cos(run.angle), math.sin(run.angle)])
    normal = np.array([-direction[1], direction[0]])
    if abs(math.remainder(run.angle - line.angle, math.pi)) > ALONG:
        return None
    along = line.ends @ direction
    off = line.ends @ normal - run.off
    low, high = max(run.start, float(along.min())), min(run.end, float(along.max()))
    if high - low <= ONE_CUT:
        return None
    shares = (np.array([low, high]) - along[0]) / (along[1] - along[0])
    beside = off[0] + shares * (off[1] - off[0])
    return (low, high) if bool(np.all(np.abs(beside) <= ONE_CUT)) else None


def outside_circles(
    run: Run, start: float, end: float, circles: Sequence[Circle], frame: Frame
) -> list[tuple[float, float]]:
    """Returns what circles leave of a stretch of a run, mm along it."""
    left = [(start, end)]
    for circle in circles:
        chord = chord_in(run, circle, frame)
        if chord is not None:
            low, high = chord
            parts = (part for a, b in left for part in ((a, min(b, low)), (max(a, high), b)))
            left = [(a, b) for a, b in parts if b - a > TOUCH]
    return left


def chord_in(run: Run, circle: Circle, frame: Frame) -> tuple[float, float] | None:
    """Returns the stretch of a run's line inside a circle, mm along it, or None where it passes by."""
    centre = frame.local(np.asarray(circle.centre))
    direction = np.array([math.cos(run.angle), math.sin(run.angle)])
    off = float(centre @ np.array([-direction[1], direction[0]])) - run.off
    if abs(off) >= circle.radius - COINCIDENT:
        return None
    half = math.sqrt(circle.radius**2 - off**2)
    along = float(centre @ direction)
    return along - half, along + half
