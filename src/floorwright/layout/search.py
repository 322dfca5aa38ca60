"""The proved search: the position whose narrowest piece is widest, over every position there is.

A position is held against a *level*, the best found so far and a little more: whatever leaves a piece under that level
is ruled out, and when nothing is left open, no position beats the best by more than that little.

- Every edge of the room rules out, for each tile, a polygon of positions, and an edge along the rows those that leave a
  strip that nothing fills (`layout.cover`). Halving the level a few times finds one at which these leave little open.
- What is left open is taken away piece by piece: a position is picked in it and tried exactly; there some piece is
  under the level, or the position is a new best and a piece of its own is; and all positions round it that leave that
  piece so go with it (`layout.motion`).

There are finitely many such polygons, however near the second best comes to the best, so the search ends. If it is
stopped before, the least level at which the edges alone rule out all that was left open is the bound.
"""

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
import shapely

from floorwright.geometry.region import Points, Region
from floorwright.layout.cover import Open, inside, not_ruled_out, repeat_of, try_at, window_of
from floorwright.layout.ground import Ground, ground_of
from floorwright.layout.option import Proof
from floorwright.layout.score import narrowest_of
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import COINCIDENT, PROOF

ALLOWANCE = 2_000
"""Positions tried before the search stops: counted, not timed, so that the same job gives the same answer on any
machine. Nearly all rooms need less than a hundred."""

QUIET = 100
"""Positions, about half a second of work, after which a search says how far it is; and then every `NEWS`."""

NEWS = 10

LEAD = PROOF / 10
"""A position must beat the best by more than this to be looked for, mm."""

HALVINGS = 6
"""How often the level is halved to begin with."""

FIRST = 8
"""Places tried at each of those."""

RISE = 1.0
"""What the edges rule out is worked out anew when the best has risen by this, mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The best position.

    Attributes:
        placement: where, or None where every position tried leaves a strip that nothing fills.
        narrowest: mm, the narrowest piece there.
        proof: what is known about better ones.
        tried: positions tried exactly.
    """

    placement: Placement | None
    narrowest: float
    proof: Proof
    tried: int

    @property
    def stopped(self) -> bool:
        """Whether a person stopped the search."""
        return self.proof.stopped


@dataclass(slots=True, kw_only=True, eq=False)
class _State:
    """What the search knows so far; the only thing here that changes.

    Attributes:
        best: mm.
        at: the place that has it.
        level: mm, under which places are ruled out in `left`, less the lead.
        left: the places left open.
        odd: those round a place at which nothing could be told.
        tried: places tried.
    """

    best: float = -np.inf
    at: Points | None = None
    level: float = -np.inf
    left: Open = field(default_factory=Open)
    odd: Open = field(default_factory=Open)
    tried: int = 0

    def remember(self, place: Points, narrowest: float) -> None:
        """Takes the place as the best if it is."""
        if narrowest > self.best:
            self.best, self.at = narrowest, place


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

    A position within `tolerance.COINCIDENT` of ones that are ruled out goes with them. Ctrl-C ends the search early,
    with the best so far and a proof that says by how much it may fall short.

    Args:
        region: less the perimeter gap, floor frame.
        cell: the pattern.
        angle: of the pattern, radians.
        centre: floor mm, what positions are counted from: the answer lies within a repeat of it.
        spare: mm by which the gap may be wider than it is.
        aim: what the proof says was searched for.
        starts: positions to have tried first; a good one saves work.
        allowance: positions to try.
        progress: told the share of what was open that is ruled out, from time to time, if the search is a long one.
    """
    ground = ground_of(region, cell, angle, centre, spare)
    state = _State()
    for start in starts:
        place = ground.place_of(start)
        if not ground.leaves_strip(place):
            state.remember(place, narrowest_of(region, cell, ground.placement(place)))
    state.left.add(repeat_of(ground))
    stopped = False
    try:
        _halve(ground, state)
        _close(ground, state, allowance, progress)
    except KeyboardInterrupt:
        stopped = True
    return Found(
        placement=None if state.at is None else ground.placement(state.at),
        narrowest=state.best,
        proof=_proof(ground, state, aim, stopped),
        tried=state.tried,
    )


def _halve(ground: Ground, state: _State) -> None:
    """Halves towards the highest level at which the edges alone leave places open, and tries some of those."""
    low, high = max(state.best, 0.0), ground.most
    left: shapely.Geometry = repeat_of(ground)
    for _ in range(HALVINGS):
        level = (low + high) / 2
        rest = not_ruled_out(ground, left, level)
        if shapely.is_empty(rest):
            high = level
            continue
        low, left = level, rest
        parts = Open()
        parts.add(rest)
        for _ in range(FIRST):
            if parts:
                part = parts.take()
                parts.add(shapely.difference(part, _try(ground, state, part)))


def _try(ground: Ground, state: _State, part: shapely.Polygon) -> shapely.Geometry:
    """Returns the places that one in a polygon rules out with it, and remembers that one if it is the best yet."""
    place = inside(part)
    tried = try_at(ground, place, window_of(part), max(state.best, 0.0), LEAD)
    state.tried += 1
    if not ground.leaves_strip(place):
        state.remember(place, tried.narrowest)
    return tried.alike


def _raise(ground: Ground, state: _State) -> None:
    """Takes away from what is left open what the edges rule out at the level of the best there is now."""
    level = max(state.best, 0.0)
    rest = Open()
    if level + LEAD < ground.most:
        rest.add(not_ruled_out(ground, state.left.all(), level + LEAD))
    state.left, state.level = rest, level


def _close(ground: Ground, state: _State, allowance: int, progress: Callable[[float], None] | None) -> None:
    """Takes away place by place what is left open, as far as the allowance goes."""
    _raise(ground, state)
    whole = max(state.left.area, COINCIDENT)
    while state.left and state.tried < allowance:
        if state.best > state.level + RISE or state.best + LEAD >= ground.most:
            _raise(ground, state)
            continue
        part = state.left.largest()
        gone = _try(ground, state, part)
        # Added before the part is taken away, so that what is left open is never less than it should be.
        if shapely.is_empty(gone):
            state.odd.add(part)
        else:
            state.left.add(shapely.difference(part, gone))
        state.left.take()
        if progress is not None and state.tried >= QUIET and state.tried % NEWS == 0:
            progress(1.0 - state.left.area / whole)


def _proof(ground: Ground, state: _State, aim: str, stopped: bool) -> Proof:
    """Returns what is known about better positions: the bound is the least level that rules out all that is open."""
    top = state.best + LEAD if state.at is not None else 0.0
    left: shapely.Geometry = shapely.union(state.left.all(), state.odd.all())
    if not shapely.is_empty(left):
        low, top = max(top, 0.0), ground.most
        while top - low > LEAD:
            level = (low + top) / 2
            rest = not_ruled_out(ground, left, level)
            low, top, left = (low, level, left) if shapely.is_empty(rest) else (level, top, rest)
    top = min(top, ground.most)
    proved = top <= max(state.best, 0.0) + PROOF
    why = "" if proved else f"stopped{' by hand' if stopped else ''} after {state.tried} positions"
    return Proof(
        status="proved" if proved else "best found",
        aim=aim,
        best=max(state.best, 0.0),
        bound=top,
        tolerance=PROOF,
        joint=ground.cell.joint,
        why=why,
        stopped=stopped,
    )
