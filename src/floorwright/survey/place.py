"""Places for every point, built one after another from readings, as a person would with two tapes.

Each new point takes two readings to points that have a place, and usually falls on either of two sides. All sides are
followed at once, the likeliest few of them (a beam). What counts is the sum of misfits in standard deviations with a
cap on each, so that a place built from good readings beats one that a slip was built into, whatever the slip's size.
"""

import math
from collections.abc import Mapping, Sequence
from itertools import combinations
from typing import Final

import numpy as np

from floorwright.geometry.measure import area, is_inside_ring
from floorwright.geometry.region import Points
from floorwright.survey.datum import on_first_wall
from floorwright.survey.loci import Place, locus, locus_may_tell, meet
from floorwright.survey.network import kind_of, names_of
from floorwright.survey.observation import Angle, Coordinate, Distance, Observation, Offset, Square, Straight
from floorwright.survey.outline import Outline, is_misturned

BEAM: Final = 24
"""Part-built figures that are kept at each step."""

CAP: Final = 30.0
"""Standard deviations. A misfit over this counts as this: it is a slip, and its size says nothing about the rest."""

SAME: Final = 8.0
"""Standard deviations. Places nearer to each other than this are one place."""

AGREED: Final = 1.5
"""Standard deviations. A figure whose readings misfit by less than this on average needs no other to begin from."""

WORSE: Final = 2.0
"""Caps by which a figure may misfit more than the best and still be looked at: one slip either way."""

SIDES: Final = 6
"""Places that are kept for one point of one figure."""

MOST: Final = 8
"""Built figures that are handed on."""

TOLD_BY: Final = 4
"""Readings, about, that say where else a point may lie."""

BASES: Final = 8
"""Distances that a figure is begun from."""

Figure = dict[str, Place]


def build(
    points: Sequence[str], outline: Outline, observations: Sequence[Observation], *, turned: bool
) -> list[Points]:
    """Returns the built figures that misfit least, at most `MOST`; none where no order of points builds one.

    Args:
        points: all names, the outline's corners first.
        outline: as booked.
        observations: see `survey.observation`.
        turned: whether every corner must turn the way it is booked.

    Returns:
        each (n, 2) mm in the order of `points`, from the first corner with the next along x, outline anticlockwise.
    """
    ordered = sorted(observations, key=lambda o: (names_of(o), o.key))
    at = {name: [o for o in ordered if name in names_of(o)] for name in points}
    grown: list[tuple[float, Figure]] = []
    for base in _bases(outline, ordered):
        grown += _grow(base, outline, at, turned=turned)
        if any(misfit <= AGREED * len(ordered) for misfit, _ in grown):
            break
    grown.sort(key=lambda item: round(item[0], 3))
    grown = [item for item in grown if item[0] <= grown[0][0] + WORSE * CAP]
    found: list[Points] = []
    for _, figure in grown:
        xy = np.array([figure[name] for name in points])
        if area(xy[: len(outline.corners)]) < 0.0:
            xy = xy * np.array([1.0, -1.0])
        xy = on_first_wall(xy)
        if not any(_is_same(xy, other, ordered) for other in found):
            found.append(xy)
            if len(found) == MOST:
                break
    return found


def places_elsewhere(
    points: Sequence[str], xy: Points, outline: Outline, observations: Sequence[Observation]
) -> list[Points]:
    """Returns the figures in which one point lies elsewhere and its readings fit about as well, each (n, 2) mm.

    Args:
        points, outline, observations: as for `build`; every corner turns the way it is booked.
        xy: (n, 2) mm, a figure.
    """
    figure: Figure = {name: (float(x), float(y)) for name, (x, y) in zip(points, xy, strict=True)}
    tied: dict[str, list[Observation]] = {name: [] for name in points}
    for o in observations:
        for name in names_of(o):
            tied[name].append(o)
    near = SAME * _largest(observations)
    found: list[Points] = []
    for i, (name, own) in enumerate(tied.items()):
        # Where a point may be, a few of its readings tell; whether it is there, all of them.
        few = own[:: max(1, len(own) // TOLD_BY)]
        others = {other: place for other, place in figure.items() if other != name}
        for _, place in _places(name, few, outline, others, turned=True):
            there = others | {name: place}
            if math.dist(place, figure[name]) > near and sum(_misfit(o, there) for o in own) <= AGREED * len(own):
                moved = xy.copy()
                moved[i] = place
                found.append(on_first_wall(moved))
    return found


def _bases(outline: Outline, observations: Sequence[Observation]) -> list[Distance]:
    """Distances to begin from: walls first, spread over the outline."""
    distances = [o for o in observations if isinstance(o, Distance)]
    walls = set()
    for name in outline.corners:
        walls |= {(name, other) for other in outline.neighbours(name)}
    ranked = sorted(distances, key=lambda o: ((o.a, o.b) not in walls, names_of(o), o.key))
    step = max(1, len(ranked) // BASES)
    return ranked[::step][:BASES] if len(ranked) > BASES else ranked


def _grow(
    base: Distance, outline: Outline, at: Mapping[str, Sequence[Observation]], *, turned: bool
) -> list[tuple[float, Figure]]:
    """Whole figures with their misfits, begun from one distance.

    Args:
        base: the distance.
        outline: as booked.
        at: the observations of every point, by its name, in the order of the points.
        turned: as for `build`.
    """
    ties = {name: _ties(name, observations) for name, observations in at.items()}
    beam: list[tuple[float, Figure]] = [(0.0, {base.a: (0.0, 0.0), base.b: (base.measured, 0.0)})]
    while len(beam[0][1]) < len(at):
        # Every figure of the beam has the same points, so one choice of the next serves them all.
        name = _next_point(outline, ties, beam[0][1])
        if name is None:
            return []
        grown = [
            (cost + extra, figure | {name: place})
            for cost, figure in beam
            for extra, place in _places(name, at[name], outline, figure, turned=turned)
        ]
        if not grown:
            return []
        grown.sort(key=lambda item: round(item[0], 3))
        beam = grown[:BEAM]
    return beam


def _ties(name: str, observations: Sequence[Observation]) -> list[frozenset[str]]:
    """The points that each reading ties a point to; repeats count once."""
    ties = {(_way(o), frozenset(names_of(o)) - {name}) for o in observations if locus_may_tell(o, name)}
    return [others for _, others in ties]


def _next_point(
    outline: Outline, ties: Mapping[str, Sequence[frozenset[str]]], placed: Mapping[str, Place]
) -> str | None:
    """The point with most readings to placed ones, two or more; corners before other points."""
    ready: list[tuple[bool, int, int, str]] = []
    for order, (name, tied_to) in enumerate(ties.items()):
        if name not in placed:
            tied = sum(all(other in placed for other in others) for others in tied_to)
            if tied >= 2:
                ready.append((name not in outline.corners, -tied, order, name))
    return min(ready)[3] if ready else None


def _way(observation: Observation) -> str:
    """The kind of an observation; a straight and an offset from one line say the same of a point."""
    return "offset" if isinstance(observation, Straight) else kind_of(observation)


def _places(
    name: str, observations: Sequence[Observation], outline: Outline, figure: Figure, *, turned: bool
) -> list[tuple[float, Place]]:
    """Places for a point with what each adds to the misfit, one for each cluster."""
    tied = [(o, where) for o in observations if (where := locus(o, name, figure)) is not None]
    if len(tied) < 2:
        return []
    pairs = list(combinations([where for _, where in tied], 2))
    candidates = [place for first, second in pairs for place in meet(first, second)]
    near = SAME * max(_length_sd(o, figure) for o, _ in tied)
    ranked: list[tuple[float, Place]] = []
    grown = dict(figure)
    for place in candidates:
        grown[name] = place
        if not turned or not _turns_wrong(name, outline, grown):
            ranked.append((sum(_misfit(o, grown) for o, _ in tied), place))
    ranked.sort(key=lambda item: round(item[0], 3))
    kept: list[tuple[float, Place]] = []
    for cost, place in ranked:
        if all(math.dist(place, other) > near for _, other in kept):
            kept.append((cost, place))
    return _inside_first(name, outline, figure, kept[:SIDES])


def _inside_first(
    name: str, outline: Outline, figure: Figure, places: list[tuple[float, Place]]
) -> list[tuple[float, Place]]:
    """A point off the outline is in the room: places outside it are left out where there is one inside as good."""
    if len(places) < 2 or name in outline.corners or any(corner not in figure for corner in outline.corners):
        return places
    ring = np.array([figure[corner] for corner in outline.corners])
    inside = is_inside_ring([place for _, place in places], ring)
    within = [item for item, is_in in zip(places, inside, strict=True) if is_in]
    return within if within and within[0][0] <= places[0][0] + CAP / 2 else places


def _turns_wrong(name: str, outline: Outline, figure: Figure) -> bool:
    """Whether a corner turns the other way than booked, of those that the newly placed point completes."""
    if name not in outline.corners:
        return False
    for corner in (name, *outline.neighbours(name)):
        before, after = outline.neighbours(corner)
        if corner in figure and before in figure and after in figure:
            (ax, ay), (bx, by), (cx, cy) = figure[before], figure[corner], figure[after]
            into, out = (bx - ax, by - ay), (cx - bx, cy - by)
            scale = math.hypot(*into) * math.hypot(*out)
            if scale > 0.0 and is_misturned(outline, corner, (into[0] * out[1] - into[1] * out[0]) / scale):
                return True
    return False


def _misfit(observation: Observation, figure: Mapping[str, Place]) -> float:
    """How far an observation is from true, in standard deviations, at most `CAP`."""
    if isinstance(observation, Distance):
        off = math.dist(figure[observation.a], figure[observation.b]) - observation.measured
        return min(abs(off) / observation.sd, CAP)
    if isinstance(observation, Coordinate):
        return 0.0
    (ax, ay), (bx, by), (px, py) = (figure[name] for name in (observation.a, observation.b, observation.at))
    if isinstance(observation, Square | Angle):
        turned = math.atan2(by - py, bx - px) - math.atan2(ay - py, ax - px)
        if isinstance(observation, Square):
            off = math.remainder(turned - math.pi / 2, math.pi)
        else:
            off = math.remainder(turned - observation.measured, 2 * math.pi)
        return min(abs(off) / observation.sd, CAP)
    length = math.hypot(bx - ax, by - ay)
    if length == 0.0:
        return CAP
    off = ((bx - ax) * (py - ay) - (by - ay) * (px - ax)) / length
    along = ((bx - ax) * (px - ax) + (by - ay) * (py - ay)) / length
    if isinstance(observation, Straight):
        # A point on a wall is between its ends: one beyond them fits the line but not the words.
        beyond = CAP / 2 if not 0.0 <= along <= length else 0.0
        return min(abs(off) / observation.sd, CAP) + beyond
    read = off if isinstance(observation, Offset) else along
    return min(abs(read - observation.measured) / observation.sd, CAP)


def _length_sd(observation: Observation, figure: Mapping[str, Place]) -> float:
    """What an observation's standard deviation is as a length, mm."""
    if not isinstance(observation, Square | Angle):
        return observation.sd
    placed = [figure[name] for name in names_of(observation) if name in figure]
    return observation.sd * math.dist(placed[0], placed[1])


def _is_same(first: Points, second: Points, observations: Sequence[Observation]) -> bool:
    return float(np.abs(first - second).max()) <= SAME * _largest(observations)


def _largest(observations: Sequence[Observation]) -> float:
    """The largest standard deviation of those that are lengths, mm."""
    return max((o.sd for o in observations if not isinstance(o, Square | Angle)), default=1.0)
