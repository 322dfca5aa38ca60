"""Which readings to take: those that are missing, and the one that tells two possibilities apart."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import numpy as np

from floorwright.geometry.measure import distance_to_segments, is_inside_ring
from floorwright.geometry.region import Points
from floorwright.survey.adjustment import Adjustment, Datum
from floorwright.survey.datum import basis_of
from floorwright.survey.network import Floats, derivatives, network
from floorwright.survey.observation import Distance, Observation
from floorwright.survey.outline import Outline
from floorwright.survey.start import made_up, settle
from floorwright.tolerance import COINCIDENT, RANK, UNCHECKED

WEAKEST: Final = 0.003
"""A direction in which points are held this much weaker than in the strongest is one in which they are loose: two walls
taken as square to a third, but read 10 mm apart, seem to hold what is between them, by 1 in 400."""

GRIP: Final = 0.01
"""A reading that feels less than this part of a loose movement does not stop it."""

UNEVEN: Final = ((1.0, 0.02), (1.3, 0.2), (0.7, 0.35))
"""Stretch and unevenness of the made-up rooms that are tried."""

CLEAR: Final = 50.0
"""mm. A tape is not stretched past a corner nearer than this: it would touch."""

TELLING: Final = 6.0
"""Standard deviations by which two possibilities must differ in a reading that is to tell them apart."""


WORTH: Final = 0.1
"""Our default: a reading is worth taking for accuracy alone where it leaves the worst corner this much better known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A distance to take.

    Attributes:
        a, b: its ends.
        why: `fixes the shape`, `tells which shape`, `tells which is wrong`, `checks` or `sharpens`.
        would_read: what it would be in each possibility that it tells apart, mm.
        corner: that it sharpens: the one known worst.
        sd_before, sd_after: mm, of that corner without it, and of the worst with it.
    """

    a: str
    b: str
    why: str = "fixes the shape"
    would_read: tuple[float, ...] = ()
    corner: str = ""
    sd_before: float = 0.0
    sd_after: float = 0.0

    @property
    def name(self) -> str:
        """Both ends, as it is booked."""
        return f"{self.a}-{self.b}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """What keeps readings from fixing a room; both empty where nothing does.

    Attributes:
        readings: the fewest distances that would fix every point.
        loose: points that are free to move without them.
    """

    readings: tuple[Reading, ...] = ()
    loose: tuple[str, ...] = ()


def missing_readings(points: Sequence[str], outline: Outline, observations: Sequence[Observation]) -> Missing:
    """Returns which distances would fix every point, walls before diagonals.

    The figure is judged as it settles from a made-up room, so that readings that say the same thing twice (both long
    sides of a room with square corners) count once.

    Args:
        points: all names, the outline's corners first.
        outline: as booked.
        observations: so far.
    """
    # Some figures are loose only because they are even (six corners on an oval): the firmest counts.
    rooms = [
        settle(points, made_up(points, outline, observations, stretch=stretch), observations, uneven)
        for stretch, uneven in UNEVEN
    ]
    net = network(points, observations)
    firmest = min(range(len(rooms)), key=lambda i: len(_loose(_unit(derivatives(net, rooms[i])), rooms[i])))
    xy = rooms[firmest]
    rows = _unit(derivatives(net, xy))
    loose = _loose(rows, xy)
    if not len(loose):
        return Missing()
    moves = np.abs(loose).reshape(-1, len(points), 2).max(axis=(0, 2))
    names = tuple(name for name, move in zip(points, moves, strict=True) if move > WEAKEST)
    taken: list[Reading] = []
    candidates = pairs_to_measure(points, outline, observations, xy)
    made = [Distance(key=f"{a}-{b}", a=a, b=b, measured=1.0, sd=1.0) for _, a, b in candidates]
    new_rows = _unit(derivatives(network(points, made), xy))
    while len(loose):
        grips = np.linalg.norm(new_rows @ loose.T, axis=1)
        best = _first_that_grips(grips, candidates)
        if best is None:
            break
        _, a, b = candidates[best]
        taken.append(Reading(a=a, b=b))
        # What is left: the loose movements that the new reading does not feel.
        turned, _ = np.linalg.qr((loose @ new_rows[best])[:, None], mode="complete")
        loose = turned[:, 1:].T @ loose
    order = [(name, room.neighbours(name)[1]) for room in outline.rooms for name in room.corners]
    walls = [Reading(a=a, b=b) for a, b in order if any({a, b} == {r.a, r.b} for r in taken)]
    across = [r for r in taken if not any({r.a, r.b} == {a, b} for a, b in order)]
    return Missing(readings=(*walls, *across), loose=names)


def _first_that_grips(grips: Floats, candidates: Sequence[tuple[int, str, str]]) -> int | None:
    """The first wall that stops a loose movement, else the first diagonal that does about as well as any."""
    most = float(grips.max(initial=0.0))
    if most <= GRIP:
        return None
    wall = next((i for i, (rank, _, _) in enumerate(candidates) if rank == 0 and grips[i] > GRIP), None)
    return wall if wall is not None else int(np.argmax(grips >= most / 2))


def freedom(points: Sequence[str], xy: Points, observations: Sequence[Observation]) -> int:
    """Returns in how many ways a figure can still be pushed out of shape; 0 where the observations fix it exactly."""
    return len(_loose(_unit(derivatives(network(points, observations), xy - xy.mean(axis=0))), xy, RANK))


def _unit(rows: Floats) -> Floats:
    """Rows of one length, so that angles and distances hold their points alike."""
    return np.asarray(rows / np.maximum(np.linalg.norm(rows, axis=1), COINCIDENT**2)[:, None], dtype=np.float64)


def _loose(rows: Floats, xy: Points, weakest: float = WEAKEST) -> Floats:
    """Directions, first wall at rest, in which points move and no row notices, (d, 2n)."""
    names = [str(i) for i in range(len(xy))]
    basis = basis_of(Datum(kind="first wall", points=("0", "1")), names, xy)
    _, sizes, directions = np.linalg.svd(rows @ basis, full_matrices=True)
    rank = int(np.count_nonzero(sizes > weakest * max(float(sizes.max(initial=0.0)), COINCIDENT)))
    return np.ascontiguousarray(directions[rank:] @ basis.T)


def pairs_to_measure(
    points: Sequence[str], outline: Outline, observations: Sequence[Observation], xy: Points, *, most: int = 0
) -> list[tuple[int, str, str]]:
    """Returns pairs not yet measured that a tape can be stretched between, each with a rank: walls 0, others 1.

    Args:
        points: all names, the outline's corners first.
        outline: as booked.
        observations: so far.
        xy: (n, 2) mm, about where the points are.
        most: only between so many of the points, evenly chosen; 0 for all.
    """
    read = {frozenset((o.a, o.b)) for o in observations if isinstance(o, Distance)}
    walls = {frozenset((name, room.neighbours(name)[1])) for room in outline.rooms for name in room.corners}
    corners = set(outline.every)
    rooms = list(zip([set(room.corners) for room in outline.rooms], outline.rings(points, xy), strict=True))
    found: list[tuple[int, str, str]] = []
    apart = -(-len(points) // most) if most else 1
    for (i, a), (j, b) in combinations(list(enumerate(points))[::apart], 2):
        pair = frozenset((a, b))
        if pair in read:
            continue
        # No tape is stretched from room to room: through which doorway it would go is not known yet.
        rings = [ring for own, ring in rooms if pair & corners <= own]
        if pair in walls or any(_is_in_sight(xy[i], xy[j], ring) for ring in rings):
            found.append((0 if pair in walls else 1, a, b))
    return found


def _is_in_sight(start: Points, end: Points, ring: Points) -> bool:
    """Whether a tape between two points stays in the room and clear of its other corners."""
    shares = (np.arange(24) + 0.5) / 24
    if not bool(np.all(is_inside_ring(start + shares[:, None] * (end - start), ring))):
        return False
    others = ring[np.any(ring != start, axis=1) & np.any(ring != end, axis=1)]
    return not len(others) or float(distance_to_segments(others, start, end).min()) > CLEAR


def telling_reading(
    figures: Sequence[Points], pairs: Sequence[tuple[int, str, str]], points: Sequence[str], sd: float, why: str
) -> Reading | None:
    """Returns the unmeasured distance that differs most between possible figures, None where none differs enough.

    Args:
        figures: each (n, 2) mm, two or more.
        pairs: see `pairs_to_measure`.
        points: names, in the order of the coordinates.
        sd: mm, of a reading.
        why: see `Reading`.
    """
    index = {name: i for i, name in enumerate(points)}
    best: Reading | None = None
    widest = TELLING * sd
    for _, a, b in pairs:
        reads = [float(np.hypot(*(xy[index[b]] - xy[index[a]]))) for xy in figures]
        apart = max(reads) - min(reads)
        if apart > widest + COINCIDENT:
            best, widest = Reading(a=a, b=b, why=why, would_read=tuple(reads)), apart
    return best


def checking_reading(
    adjustment: Adjustment, observations: Sequence[Observation], pairs: Sequence[tuple[int, str, str]], sd: float
) -> Reading | None:
    """Returns the unmeasured distance that checks most of what nothing checks yet, None where none checks any.

    Args:
        adjustment: of the observations.
        observations: in the order of its residuals.
        pairs: see `pairs_to_measure`.
        sd: mm, of the new reading.
    """
    bare = [i for i, r in enumerate(adjustment.residuals) if r.redundancy <= UNCHECKED]
    if not bare or not pairs:
        return None
    middle = adjustment.xy.mean(axis=0)
    old = derivatives(network(adjustment.points, [observations[i] for i in bare]), adjustment.xy - middle)
    made = [Distance(key=f"{a}-{b}", a=a, b=b, measured=1.0, sd=sd) for _, a, b in pairs]
    new = derivatives(network(adjustment.points, made), adjustment.xy - middle)
    sds = np.array([observations[i].sd for i in bare])
    shared = old @ adjustment.covariance @ new.T
    spread = sd**2 + np.einsum("ij,jk,ik->i", new, adjustment.covariance, new)
    # Redundancy that each new reading would give to each unchecked one (the cofactors updated by one row).
    gained = np.minimum(shared**2 / (sds[:, None] ** 2 * spread[None, :]), 1.0)
    checked = np.count_nonzero(gained > UNCHECKED, axis=0)
    best = max(range(len(pairs)), key=lambda j: (checked[j], round(float(gained[:, j].min()), 3), -j))
    _, a, b = pairs[best]
    return Reading(a=a, b=b, why="checks") if checked[best] else None


def sharpening_reading(
    adjustment: Adjustment,
    corners: Sequence[str],
    observations: Sequence[Observation],
    pairs: Sequence[tuple[int, str, str]],
) -> Reading | None:
    """Returns the unmeasured distance that leaves the worst corner best known, None where none does it much good.

    Worst is by the larger standard deviation of its x and y, a priori, on the datum of the adjustment. The new
    reading is taken to be as true as the one booked that is nearest to it in length.

    Args:
        adjustment: of what was read so far.
        corners: of the room.
        observations: so far.
        pairs: see `pairs_to_measure`.
    """
    booked = sorted((o.measured, o.sd) for o in observations if isinstance(o, Distance))
    if not pairs or not booked:
        return None
    place = dict(zip(adjustment.points, adjustment.xy, strict=True))
    made = []
    for _, a, b in pairs:
        length = float(np.hypot(*(place[b] - place[a])))
        _, sd = min(booked, key=lambda read: abs(read[0] - length))
        made.append(Distance(key=f"{a}-{b}", a=a, b=b, measured=length, sd=sd))
    rows = derivatives(network(adjustment.points, made), adjustment.xy - adjustment.xy.mean(axis=0))
    shared = rows @ adjustment.covariance
    spread = np.array([o.sd for o in made]) ** 2 + np.einsum("ij,ij->i", shared, rows)
    index = [adjustment.points.index(name) for name in corners]
    before = np.diag(adjustment.covariance).reshape(-1, 2)[index]
    # Each new reading takes a matrix of rank one off the covariance.
    after = before - (shared**2 / spread[:, None]).reshape(len(pairs), -1, 2)[:, index]
    worst = np.round(np.sqrt(np.maximum(after.max(axis=(1, 2)), 0.0)), 6)
    best, now = int(np.argmin(worst)), float(np.sqrt(before.max()))
    if worst[best] > (1.0 - WORTH) * now:
        return None
    _, a, b = pairs[best]
    corner = corners[int(np.argmax(before.max(axis=1)))]
    return Reading(a=a, b=b, why="sharpens", corner=corner, sd_before=now, sd_after=float(worst[best]))
