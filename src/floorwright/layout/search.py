"""The proved search: the position whose narrowest piece is widest, over every position there is.

Branch and bound over the positions of one repeat. For a box of positions, every pair of a room's edge and a tile is
*sure* (the edge cuts the tile wherever in the box the pattern lies), possible, or out of the question:

- how far a tile reaches behind an edge is affine in the position, so over the sure pairs a small linear programme
  bounds the narrowest piece from above (`layout.linear`);
- where that bound is loose (a piece narrower than its tile reaches, or a tip), the room is cut by the tiles grown to
  all that they cover from anywhere in the box: a piece lies within what that leaves, so what is left behind an edge,
  and the hull width, can only be less (`bounds.grown_bound`);
- an edge along the rows is known exactly: a strip that nothing fills takes its positions out of the search.

Boxes whose bound does not beat the best position found by more than the tolerance are dropped; the others are halved,
the most promising first. What bound is left when no box remains, or when the allowance of boxes is used up, is the
proof or the shortfall.
"""

import heapq
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from floorwright.geometry.region import Points, Region
from floorwright.layout.bounds import Box, Ground, bound, ground_of, grown_bound
from floorwright.layout.option import Proof
from floorwright.layout.score import narrowest_of
from floorwright.layout.walk import Ints
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import PROOF, TOUCH

ALLOWANCE = 6_000
"""Work done before the search stops, counted in boxes looked at and not in time, so that the same job gives the same
answer on any machine. Nearly all rooms need far less."""

EXACT = 8
"""A position tried exactly, or a box bounded by grown tiles, is as much work as so many boxes."""

BATCH = 24
"""Boxes taken at a time."""

LEAST_SHARE = 0.05
"""What a side's own length counts for when a box is cut across the side that changes its bound more."""

SMALL = 8.0
"""A box is small when its bound leads the best by this many times half its side."""

START = 4
"""The repeat is first cut into this many boxes each way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The best position.

    Attributes:
        placement: where, or None where every position tried leaves a strip that nothing fills.
        narrowest: mm, the narrowest piece there.
        proof: what is known about better ones.
        boxes: looked at.
    """

    placement: Placement | None
    narrowest: float
    proof: Proof
    boxes: int


@dataclass(slots=True, kw_only=True, eq=False)
class _State:
    """What the search knows so far; the only thing here that changes."""

    best: float = -np.inf
    at: Points | None = None
    ceiling: float = -np.inf
    boxes: int = 0
    work: int = 0


def search(
    region: Region,
    cell: UnitCell,
    *,
    angle: float,
    centre: tuple[float, float],
    spare: float,
    aim: str,
    starts: tuple[Placement, ...] = (),
    allowance: int = ALLOWANCE,
    progress: Callable[[float], None] | None = None,
) -> Found:
    """Returns the position of the pattern whose narrowest piece is widest.

    Args:
        region: less the perimeter gap, floor frame.
        cell: the pattern.
        angle: of the pattern, radians.
        centre: floor mm, what positions are counted from: the answer lies within a repeat of it.
        spare: mm by which the gap may be wider than it is.
        aim: what the proof says was searched for.
        starts: positions to have tried first; a good one saves boxes.
        allowance: work to do, in boxes.
        progress: told the share of the allowance used.
    """
    ground = ground_of(region, cell, angle, centre, spare)
    state = _State()
    for start in starts:
        _try(ground, ground.shift_of(start), state)
    heap: list[tuple[float, int, Box]] = []
    count = 0
    for box in _first_boxes(ground):
        heapq.heappush(heap, (-ground.most, count, box))
        count += 1
    while heap and -heap[0][0] > state.best + PROOF and state.work < allowance:
        batch: list[Box] = []
        while heap and len(batch) < BATCH and -heap[0][0] > state.best + PROOF:
            batch.append(heapq.heappop(heap)[2])
        state.boxes += len(batch)
        state.work += len(batch)
        for half in _look(ground, batch, state):
            heapq.heappush(heap, (-half.bound, count, half))
            count += 1
        if progress is not None:
            progress(min(1.0, state.work / allowance))
    top = max(state.best, state.ceiling, -heap[0][0] if heap else -np.inf)
    return Found(
        placement=None if state.at is None else ground.placement(state.at),
        narrowest=state.best,
        proof=_proof(state, top, aim, cell.joint),
        boxes=state.boxes,
    )


def _proof(state: _State, top: float, aim: str, joint: float) -> Proof:
    proved = top <= state.best + PROOF
    why = "" if proved else f"stopped after {state.boxes} boxes of positions"
    return Proof(
        status="proved" if proved else "best found",
        aim=aim,
        best=max(state.best, 0.0),
        bound=max(top, 0.0),
        tolerance=PROOF,
        joint=joint,
        why=why,
    )


def _first_boxes(ground: Ground) -> list[Box]:
    every = np.arange(len(ground.pairs))
    half = np.array([0.5, 0.5]) / START
    return [
        Box(middle=np.array([(a + 0.5) / START, (b + 0.5) / START]), half=half, pairs=every, bound=ground.most)
        for a in range(START)
        for b in range(START)
    ]


def _look(ground: Ground, batch: list[Box], state: _State) -> list[Box]:
    """Returns the halves of those boxes of the batch that may hold something better, having tried the likely places."""
    looked = bound(ground, batch)
    halves: list[Box] = []
    # The place that promises most is tried first, so that the others are held against the best there is.
    for row in np.argsort(-looked.guess, kind="stable"):
        box, top = batch[row], min(batch[row].bound, float(looked.bound[row]))
        enough = state.best + PROOF
        grown = ground.most
        # Growing tiles costs as much as trying a position: only where the bound by sure pairs was found wanting.
        if top > enough and (box.loose or _is_small(ground, box, top - state.best)):
            grown = _grown(ground, box, looked.sure[row], state)
        guess = min(float(looked.guess[row]), top, grown)
        real = _try(ground, looked.place[row], state) if min(top, grown) > enough and guess > state.best else guess
        if real < guess - PROOF and grown == ground.most:
            grown = _grown(ground, box, looked.sure[row], state)
        loose = grown < top - PROOF
        top = min(top, grown)
        if top <= state.best + PROOF:
            state.ceiling = max(state.ceiling, top)
        else:
            box = replace(box, bound=top, pairs=looked.possible[row], loose=loose)
            halves += _halves(ground, box, looked.matter[row], state)
    return halves


def _grown(ground: Ground, box: Box, sure: Ints, state: _State) -> float:
    state.work += EXACT
    return grown_bound(ground, box, sure, state.best + PROOF)


def _is_small(ground: Ground, box: Box, lead: float) -> bool:
    """Returns whether the reach of tiles varies so little in a box that halving it takes away little of its lead."""
    return float((box.half * ground.lengths).max()) < lead / SMALL


def _halves(ground: Ground, box: Box, matter: Points, state: _State) -> list[Box]:
    """Returns the box cut in two across the side that matters more; none where it is too small to matter."""
    extent = box.half * ground.lengths
    way = int((matter + LEAST_SHARE * extent).argmax())
    if extent[way] < TOUCH:
        state.ceiling = max(state.ceiling, box.bound)
        return []
    half = box.half.copy()
    half[way] /= 2
    step = np.zeros(2)
    step[way] = half[way]
    return [replace(box, middle=box.middle + to * step, half=half) for to in (-1.0, 1.0)]


def _try(ground: Ground, shift: Points, state: _State) -> float:
    """Returns the narrowest piece at a position exactly, and remembers the position if it is the best yet."""
    if ground.leaves_strip(shift):
        return -np.inf
    state.work += EXACT
    narrowest = narrowest_of(ground.region, ground.cell, ground.placement(shift))
    if narrowest > state.best:
        state.best, state.at = narrowest, shift
    return narrowest
