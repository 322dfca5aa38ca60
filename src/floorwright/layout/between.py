"""The widest worst piece at any angle of a range: the best angle found, and a width that none of them beats.

The range is split into parts. Of each part what the edges of the room rule out at its middle angle is worked out, drawn
in by as far as a point of an edge strays when the floor is turned to either end (`layout.cover`): that is ruled out at
every angle of the part. The least level at which nothing is left open, and what a saw line that is turned may leave
more of a tile, bounds the part. The part with the highest bound is halved next; the place that was left open last is
tried, and where it beats the best found, its angle is searched in full.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from heapq import heapify
from itertools import pairwise

import numpy as np
import shapely

from floorwright.geometry.region import Region
from floorwright.layout.cover import Open, inside, not_ruled_out, repeat_of
from floorwright.layout.ground import Ground, ground_of
from floorwright.layout.option import Proof
from floorwright.layout.score import narrowest_of
from floorwright.layout.search import search
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import SPAN_PROOF

ALLOWANCE = 100
"""Parts looked at, beside the first ones, before the search stops: counted, not timed, as everywhere."""

WIDEST_PART = 0.02
"""Radians: in a house room a corner strays by less than 100 mm over a part that is no wider, so something is ruled
out."""

LEVEL_STEP = SPAN_PROOF / 4
"""How near the level of a part is closed in on, mm."""

GAIN = SPAN_PROOF / 2
"""An angle is worth another only for a piece that is wider by more than this, mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Between:
    """What was found over a range of angles.

    Attributes:
        angle: the best found in it that beats what was known before, radians in the floor frame; None for none.
        best: mm, the widest narrowest piece known.
        bound: mm; no position at any angle of the range has a wider one.
        parts: how many parts of the range were looked at.
        stopped: whether a person stopped the search.
    """

    angle: float | None
    best: float
    bound: float
    parts: int
    stopped: bool


@dataclass(slots=True, kw_only=True, eq=False)
class _State:
    """What the search knows so far: the best, its angle, and the parts as (minus its bound, number, from, to)."""

    best: float
    heap: list[tuple[float, int, float, float]]
    angle: float | None = None
    parts: int = 0

    @property
    def bound(self) -> float:
        """Mm, of the whole range."""
        return max(self.best, -self.heap[0][0])


def between_angles(
    region: Region,
    cell: UnitCell,
    span: tuple[float, float],
    *,
    known: float,
    spare: float,
    allowance: int = ALLOWANCE,
    progress: Callable[[float], None] | None = None,
) -> Between:
    """Returns the best that there is over a range of angles, with its bound. Ctrl-C ends it early, with a bound that
    holds.

    Args:
        region: less the perimeter gap, floor frame.
        cell: the pattern.
        span: from and to, radians in the floor frame.
        known: mm, the widest narrowest piece of the positions known already, at whatever angle of the range.
        spare: mm by which the gap may be wider than it is.
        allowance: parts to look at beside the first ones.
        progress: told the share of the allowance used.
    """
    circle = shapely.minimum_bounding_circle(shapely.Polygon(region.rings[0]))
    centre = (circle.centroid.x, circle.centroid.y)
    low, high = span
    count = max(1, math.ceil((high - low) / WIDEST_PART))
    ends = np.linspace(low, high, count + 1).tolist()
    most = ground_of(region, cell, low, centre, spare).most
    state = _State(best=known, heap=[(-most, number, *part) for number, part in enumerate(pairwise(ends))])
    report = progress or (lambda _share: None)
    stopped = False
    try:
        report(0.0)
        while state.parts < count + allowance and state.bound > state.best + SPAN_PROOF:
            _halve(region, cell, centre, spare, state, count)
            report(state.parts / (count + allowance))
    except KeyboardInterrupt:
        stopped = True
    return Between(angle=state.angle, best=state.best, bound=state.bound, parts=state.parts, stopped=stopped)


def _halve(
    region: Region, cell: UnitCell, centre: tuple[float, float], spare: float, state: _State, count: int
) -> None:
    """Looks at the two halves of the part with the highest bound; at itself, if it is one of the first `count`."""
    bound, number, start, end = state.heap[0]
    middle = (start + end) / 2
    made = [(start, end)] if number < count else [(start, middle), (middle, end)]
    found = [_look(region, cell, part, centre, spare, state, -bound) for part in made]
    state.parts += len(made)
    heap = state.heap[1:]
    heap += [(-top, count + state.parts + n, *part) for n, (top, part) in enumerate(zip(found, made, strict=True))]
    heapify(heap)
    # All at once, so that what is known holds wherever the search is stopped.
    state.heap = heap


def _look(
    region: Region,
    cell: UnitCell,
    part: tuple[float, float],
    centre: tuple[float, float],
    spare: float,
    state: _State,
    most: float,
) -> float:
    """Returns the bound of a part of the range, mm, having tried a place at its middle angle."""
    angle, turn = (part[0] + part[1]) / 2, (part[1] - part[0]) / 2
    ground = ground_of(region, cell, angle, centre, spare)
    # A saw line that is turned leaves more of a tile by no more than this.
    more = 2.0 * math.sin(turn / 2) * _widest_across(cell)
    enough = state.best + SPAN_PROOF - more
    low, high = max(0.0, enough), min(ground.most, most)
    left: shapely.Geometry = repeat_of(ground)
    if low > 0.0:
        rest = not_ruled_out(ground, left, low, turn)
        if shapely.is_empty(rest):
            return state.best + SPAN_PROOF
        left = rest
    while high - low > LEVEL_STEP:
        level = (low + high) / 2
        rest = not_ruled_out(ground, left, level, turn)
        low, high, left = (low, level, left) if shapely.is_empty(rest) else (level, high, rest)
    _try(region, cell, ground, left, spare, state)
    return min(high + more, ground.most, most)


def _try(region: Region, cell: UnitCell, ground: Ground, left: shapely.Geometry, spare: float, state: _State) -> None:
    """Tries a place that is left open; where it beats the best by what matters, all positions at its angle."""
    parts = Open()
    parts.add(left)
    if not parts:
        return
    place = inside(parts.largest())
    placement = ground.placement(place)
    if ground.leaves_strip(place) or narrowest_of(region, cell, placement) <= state.best + GAIN:
        return
    found = search(region, cell, angle=ground.angle, centre=ground.centre, spare=spare, aim="", starts=(placement,))
    if found.stopped:
        raise KeyboardInterrupt
    if found.placement is not None and found.narrowest > state.best:
        state.best, state.angle = found.narrowest, ground.angle


def _widest_across(cell: UnitCell) -> float:
    """Returns the farthest that two corners of a piece lie apart, mm."""
    return max(float(np.hypot(*(piece[:, None] - piece).reshape(-1, 2).T).max()) for piece in cell.pieces)


def proof_between(found: Between, span: tuple[float, float], best: float, joint: float, aim: str) -> Proof:
    """Returns what is known of a range of angles.

    Args:
        found: over the range.
        span: from and to, radians in the floor frame.
        best: mm, of the best position there is among the options.
        joint: mm.
        aim: what was searched for.
    """
    bound = max(found.bound, best)
    proved = bound <= best + SPAN_PROOF
    why = f"stopped{' by hand' if found.stopped else ''} after {found.parts} parts of the range"
    return Proof(
        status="proved" if proved else "best found",
        aim=aim,
        best=best,
        bound=bound,
        tolerance=SPAN_PROOF,
        joint=joint,
        why="" if proved else why,
        span=span,
        stopped=found.stopped,
    )
