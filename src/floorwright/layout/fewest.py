"""The proved search for the fewest: cuts, tiles or small pieces, over every position that keeps to some limits.

The places of one repeat are split, always along a side of some polygon that what is counted or ruled out changes at
(`layout.contact`), so that what is left is finite. Of every part a least number is known: that of the tiles with a
polygon which holds all of the part. The part with the least of those is split next; once no polygon's side passes
through it, a position in it is tried exactly. When no part is left with a number under the best found, nothing beats
the best.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from heapq import heappop, heappush

import numpy as np

from floorwright.geometry.region import Points
from floorwright.layout.aims import FEWEST_CUTS
from floorwright.layout.flat import Bools, Ints
from floorwright.layout.motion import HalfPlanes, polygon_of
from floorwright.layout.shapes import Shapes, is_line, middle, split, without
from floorwright.layout.trial import Count, Task, Trial, broken_moves, small_moves, try_at
from floorwright.pattern.cell import Placement
from floorwright.tolerance import COINCIDENT

ALLOWANCE = 20_000
"""Parts looked at before a search stops: counted, not timed, so that the same job gives the same answer anywhere."""

SKEWS = (1.0, 3.0)
"""How much more each corner weighs than the one before it, where the middle of a part tells nothing."""

NEWS = 2_000
"""Parts between one word of how far a search is and the next."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fewest:
    """What was found.

    Attributes:
        placement: where, or None where no position keeps to the limits.
        value: of the first count there; infinite where there is none.
        bound: no position has fewer.
        parts: how many parts were looked at.
        why: why the search stopped, if it did before its end.
        stopped: whether a person stopped it.
    """

    placement: Placement | None
    value: float
    bound: float
    parts: int
    why: str = ""
    stopped: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Part:
    """A convex part of the places.

    Attributes:
        corners: (n, 2) mm, anticlockwise.
        open: of the barred shapes and of each count's the numbers of those with a side that passes through the part.
        sure: of each count which tiles are counted at all its places.
    """

    corners: Points
    open: tuple[Ints, ...]
    sure: tuple[Bools, ...]


@dataclass(slots=True, kw_only=True, eq=False)
class _State:
    best: float = np.inf
    at: Points | None = None
    heap: list[tuple[float, int, int, _Part]] = field(default_factory=list)
    serial: int = 0
    odd: float = np.inf


def fewest(
    task: Task,
    starts: Sequence[Placement] = (),
    allowance: int = ALLOWANCE,
    progress: Callable[[float], None] | None = None,
) -> Fewest:
    """Returns the position with the least of the first count among those that keep to the limits.

    Ctrl-C ends it early, with the best so far and a bound that holds.

    Args:
        task: see there.
        starts: positions to have tried first; a good one saves work.
        allowance: parts to look at.
        progress: told the share of the allowance used, from time to time, if the search is a long one.
    """
    state = _State()
    stopped = False
    try:
        for start in starts:
            place = task.ground.place_of(start)
            if not task.ground.leaves_strip(place):
                _try(task, state, place)
        rim = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]]) @ task.ground.cell.repeat
        every = tuple(np.arange(len(shapes)) for shapes in _families(task))
        none = tuple(np.zeros(count.shapes.owners, dtype=bool) for count in task.counts)
        _push(task, state, _Part(corners=_anticlockwise(rim), open=every, sure=none))
        while state.heap and state.heap[0][0] < state.best and state.serial < allowance:
            if task.any_will_do and state.at is not None:
                break
            _step(task, state, heappop(state.heap)[3])
            if progress is not None and state.serial % NEWS == 0:
                progress(state.serial / allowance)
    except KeyboardInterrupt:
        stopped = True
    left = min(state.heap[0][0] if state.heap else np.inf, state.odd)
    bound = min(state.best, left)
    settled = task.any_will_do and state.at is not None
    why = f"stopped{' by hand' if stopped else ''} after {state.serial} parts of the positions"
    if left == state.odd and not stopped:
        why = "rounding hides what a few of the positions make"
    return Fewest(
        placement=None if state.at is None else task.ground.placement(state.at),
        value=state.best,
        bound=bound,
        parts=state.serial,
        why=why if bound < state.best and not settled else "",
        stopped=stopped,
    )


def _anticlockwise(rim: Points) -> Points:
    (ax, ay), (bx, by) = rim[1] - rim[0], rim[2] - rim[1]
    return rim if ax * by - ay * bx > 0 else rim[::-1]


def _families(task: Task) -> tuple[Shapes, ...]:
    return (task.barred, *(count.shapes for count in task.counts))


def _push(task: Task, state: _State, part: _Part) -> None:
    """Keeps a part to be split, with the least number that is known of it, unless it is ruled out."""
    state.serial += 1
    barred, unsure = task.barred.against(part.open[0], part.corners)
    if barred.any():
        return
    still, surely = [part.open[0][unsure]], []
    for count, which, known in zip(task.counts, part.open[1:], part.sure, strict=True):
        inside, unsure = count.shapes.against(which, part.corners)
        sure = known.copy()
        sure[count.shapes.owner[which[inside]]] = True
        if int(sure.sum()) > count.most:
            return
        still.append(which[unsure])
        surely.append(sure)
    least = float(surely[0].sum()) if surely and not task.any_will_do else 0.0
    if least >= state.best:
        return
    made = _Part(corners=part.corners, open=tuple(still), sure=tuple(surely))
    # Of equals the one that is nearest to being settled.
    heappush(state.heap, (least, sum(len(each) for each in still), state.serial, made))


def _step(task: Task, state: _State, part: _Part) -> None:
    """Splits a part, or tries a position in it where nothing that counts is left to split it by."""
    telling = (part.open[0], *(_untold(*each) for each in zip(task.counts, part.open[1:], part.sure, strict=True)))
    if _split(task, state, part, zip(_families(task), telling, strict=True)):
        return
    if not any(_settle(task, state, part, place) for place in _places(part.corners)):
        # Rounding hides what the places round these have in common: the part counts as open.
        state.odd = min(state.odd, _least(part))


def _places(corners: Points) -> Iterator[Points]:
    """Yields places well inside a convex polygon: its middle, where symmetry may have things coincide, and others."""
    yield middle(corners)
    for skew in SKEWS:
        weight = 1.0 + skew * np.arange(len(corners))
        yield weight @ corners / weight.sum()


def _settle(task: Task, state: _State, part: _Part, place: Points) -> bool:
    """Tries a position and goes on with what it leaves open of a part; returns False where nothing can be told."""
    tried = _try(task, state, place)
    if not tried.kept:
        return _without_broken(task, state, part, place, tried)
    if tried.parted and _split_parted(task, state, part, tried):
        return True
    # Beyond a cut tile's first piece: as many wherever the part is, now that nothing is left to split it by.
    beyond = [tried.parted if count.name == FEWEST_CUTS else 0 for count in task.counts]
    short = [value - more - int(sure.sum()) for value, more, sure in zip(tried.values, beyond, part.sure, strict=True)]
    if any(lacks and count.width is not None for lacks, count in zip(short, task.counts, strict=True)):
        return _without_small(task, state, part, place, tried)
    return not any(short)


def _split_parted(task: Task, state: _State, part: _Part, tried: Trial) -> bool:
    """Splits a part along what may change how many pieces a tile is cut in, of the tiles that a place in it has cut in
    more than one; returns False where nothing of the kind runs through it."""
    tiles = tried.pieces.index[tried.pieces.part > 1]
    both: list[tuple[Shapes, Ints]] = []
    for count, still in zip(task.counts, part.open[1:], strict=True):
        if count.partings is not None:
            both.append((count.shapes, still[np.isin(still, count.shapes.of(tiles))]))
            both.append((count.partings, count.partings.of(tiles)))
    unsure = ((own, which[own.against(which, part.corners)[1]]) for own, which in both)
    return _split(task, state, part, unsure)


def _untold(count: Count, which: Ints, sure: Bools) -> Ints:
    """Returns the polygons of tiles that are not counted at all places yet."""
    return which[~sure[count.shapes.owner[which]]]


def _split(task: Task, state: _State, part: _Part, by: Iterable[tuple[Shapes, Ints]]) -> bool:
    """Splits a part along the side that goes deepest into it, of some of some shapes; returns False where there is
    none."""
    cuts = [shapes.best_cut(which, part.corners) for shapes, which in by if len(which)]
    if not cuts:
        return False
    _, normal, limit = max(cuts, key=lambda cut: cut[0])
    for corners in split(part.corners, normal, limit):
        _push_again(task, state, part, corners)
    return True


def _push_again(task: Task, state: _State, part: _Part, corners: Points) -> None:
    # What is narrower than two places that are one is no part: its places go with those beside it.
    if len(corners) and not is_line(corners):
        _push(task, state, _Part(corners=corners, open=part.open, sure=part.sure))


def _try(task: Task, state: _State, place: Points) -> Trial:
    """Returns what a position makes of the task, and takes it as the best if it is."""
    tried = try_at(task, place)
    allowed = all(value <= count.most for value, count in zip(tried.values, task.counts, strict=True))
    value = float(tried.values[0]) if tried.values else 0.0
    if tried.kept and allowed and value < state.best:
        state.best, state.at = value, place
    return tried


def _without_broken(task: Task, state: _State, part: _Part, place: Points, tried: Trial) -> bool:
    """Goes on with what is left of a part when the places round one that break a limit as it does are taken away."""
    left, gone = [part.corners], False
    for planes in broken_moves(task, tried):
        taken = _round(planes, part.corners - place)
        if len(taken):
            gone = True
            left = [rest for corners in left for rest in without(corners, taken + place)]
    if gone:
        for corners in left:
            _push_again(task, state, part, corners)
    return gone


def _round(planes: HalfPlanes, window: Points) -> Points:
    """Returns the moves of a window that keep to some half planes, if no move at all is among them; else nothing."""
    if (planes.limits < -COINCIDENT).any():
        return np.zeros((0, 2))
    return polygon_of(planes, window, COINCIDENT)


def _without_small(task: Task, state: _State, part: _Part, place: Points, tried: Trial) -> bool:
    """Goes on with what is left of a part when the places round one at which the same pieces stay small are taken away.

    Those pieces may be small by their tips, which no polygon of an edge tells of.
    """
    number = next(n for n, count in enumerate(task.counts) if count.width is not None)
    most = state.best if number == 0 and not task.any_will_do else task.counts[number].most + 1
    taken, pieces = part.corners - place, 0
    for planes in small_moves(task, tried, number):
        polygon = _round(planes, taken)
        if len(polygon):
            taken, pieces = polygon, pieces + 1
        if pieces >= most:
            break
    if pieces < min(most, tried.values[number]):
        return False
    for corners in without(part.corners, taken + place):
        _push_again(task, state, part, corners)
    return True


def _least(part: _Part) -> float:
    return float(part.sure[0].sum()) if part.sure else 0.0
