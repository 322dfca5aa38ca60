"""What a person says of the outlines before any reading: the order of the corners, and which of them turn in."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import shapely

from floorwright.geometry.measure import area, is_inside_ring, is_simple, turns
from floorwright.geometry.region import Points
from floorwright.survey.observation import Observation, Offset, Straight
from floorwright.tolerance import ALONG, AT_CORNER, SLIVER_AREA


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """The outline as booked.

    Attributes:
        corners: names, anticlockwise.
        inward: those that turn into the room.
        straight: those taken to lie on the line through their neighbours: they may turn either way by a little.
        name: of the room.
        more: outlines of further rooms whose readings are of the same network; they may share corners.
    """

    corners: tuple[str, ...]
    inward: frozenset[str]
    straight: frozenset[str]
    name: str = ""
    more: tuple["Outline", ...] = ()

    @property
    def rooms(self) -> tuple["Outline", ...]:
        """The outline of every room, this one first."""
        return (self, *self.more)

    @property
    def every(self) -> tuple[str, ...]:
        """The corners of every room, each once, those of this one first."""
        return tuple(dict.fromkeys(name for room in self.rooms for name in room.corners))

    def rings(self, names: Sequence[str], xy: Points) -> list[Points]:
        """Returns the outline of every room, each (n, 2) mm, out of the places of all points."""
        index = {name: i for i, name in enumerate(names)}
        return [xy[[index[name] for name in room.corners]] for room in self.rooms]

    def wanted(self, name: str) -> int:
        """Returns which way a corner should turn: 1 to the left, -1 into the room, 0 where either will do."""
        return 0 if name in self.straight else -1 if name in self.inward else 1

    def neighbours(self, name: str) -> tuple[str, str]:
        """Returns the corners before and after one."""
        i = self.corners.index(name)
        return self.corners[i - 1], self.corners[(i + 1) % len(self.corners)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Booked:
    """A further room as booked: what `survey.survey.survey_room` is told of the first.

    Attributes:
        name: of the room.
        outline: corner names in the order walked.
        anticlockwise: whether it was walked so, seen from above.
        inward: corners that turn into the room.
    """

    name: str
    outline: tuple[str, ...]
    anticlockwise: bool = True
    inward: tuple[str, ...] = ()


def outline_of(
    corners: Sequence[str],
    *,
    anticlockwise: bool,
    inward: Sequence[str],
    observations: Sequence[Observation],
    name: str = "",
    more: Sequence[Booked] = (),
) -> Outline:
    """Returns the outline anticlockwise. Of one booked clockwise the first corner stays first."""
    ordered = tuple(corners) if anticlockwise else (corners[0], *reversed(corners[1:]))
    straight = frozenset(name for run in runs_of(ordered, observations) for name in run.between)
    further = tuple(
        outline_of(
            room.outline,
            anticlockwise=room.anticlockwise,
            inward=room.inward,
            observations=observations,
            name=room.name,
        )
        for room in more
    )
    return Outline(corners=ordered, inward=frozenset(inward), straight=straight, name=name, more=further)


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Corners of one crooked wall, each read out from the line between its ends.

    Attributes:
        start, end: the ends, anticlockwise.
        between: the corners on the way.
    """

    start: str
    end: str
    between: tuple[str, ...]


def runs_of(ordered: Sequence[str], observations: Sequence[Observation]) -> tuple[Run, ...]:
    """Returns the runs of corners that all are read from the line through the corners before and after the run.

    Args:
        ordered: corners, anticlockwise.
        observations: straights and offsets count.
    """
    by_line: dict[frozenset[str], set[str]] = {}
    for o in observations:
        if isinstance(o, Straight | Offset):
            by_line.setdefault(frozenset((o.a, o.b)), set()).add(o.at)
    found: list[Run] = []
    for line, read in by_line.items():
        if line <= set(ordered):
            first, second = sorted(ordered.index(name) for name in line)
            ways = (
                (first, second, ordered[first + 1 : second]),
                (second, first, (*ordered[second + 1 :], *ordered[:first])),
            )
            found += [
                Run(start=ordered[start], end=ordered[end], between=tuple(run))
                for start, end, run in ways
                if run and set(run) <= read
            ]
    return tuple(found)


def misturned(outline: Outline, names: Sequence[str], xy: Points) -> tuple[str, ...]:
    """Returns the corners that turn the other way than booked, in order; one that hardly turns counts as neither.

    Args:
        outline: as booked, with the further rooms.
        names: of all points.
        xy: (n, 2) mm, their places.
    """
    wrong = (
        name
        for room, ring in zip(outline.rooms, outline.rings(names, xy), strict=True)
        for name, turn in zip(room.corners, turns(ring), strict=True)
        if is_misturned(room, name, float(turn))
    )
    return tuple(dict.fromkeys(wrong))


def is_misturned(outline: Outline, name: str, sine: float) -> bool:
    """Returns whether a corner whose turn has this sine turns the other way than booked."""
    return outline.wanted(name) * sine < 0.0 and abs(sine) > ALONG


def fits(outline: Outline, names: Sequence[str], xy: Points) -> bool:
    """Returns whether points make rooms as booked: in none a wall crosses another, and every corner turns its way."""
    return all(is_simple(ring) for ring in outline.rings(names, xy)) and not misturned(outline, names, xy)


def are_rooms(outline: Outline, names: Sequence[str], xy: Points) -> bool:
    """Returns whether points make rooms at all: walked anticlockwise, no wall of a room across another of its own."""
    return all(is_simple(ring) and area(ring) > 0.0 for ring in outline.rings(names, xy))


def count_outside(outline: Outline, names: Sequence[str], xy: Points) -> int:
    """Returns how much is where it should not be: points that are no corners and in no room, rooms over each other."""
    corners, rings = set(outline.every), outline.rings(names, xy)
    others = xy[[i for i, name in enumerate(names) if name not in corners]]
    outside = int(np.count_nonzero(~np.any([is_inside_ring(others, ring) for ring in rings], axis=0)))
    if len(rings) == 1:
        return outside
    # Readings of one wall from both sides may differ by a little.
    cores = [shapely.Polygon(ring).buffer(-AT_CORNER / 2) for ring in rings]
    return outside + sum(shapely.intersection(one, other).area > SLIVER_AREA for one, other in combinations(cores, 2))


def template(outline: Outline, others: Sequence[str], *, side: float, stretch: float, dent: float) -> Points:
    """Returns a made-up room with the outline's turns, (n, 2) mm: corners in order, then the other points.

    Corners lie round an oval, those that turn in behind the line between their neighbours; other points lie about the
    middle. Further rooms lie beside it, each round an oval of its own.
    It is where a search starts, and what a design is reckoned on before anything is measured.

    Args:
        outline: as booked.
        others: names of points off the outline, corners of further rooms among them.
        side: mm, of an even outline.
        stretch: of the oval, length over width.
        dent: how far a corner that turns in lies behind that line, as a part of the oval's radius.
    """
    ring, radius = _oval(outline, side, stretch, dent)
    inside = 2.4 * np.arange(len(others), dtype=np.float64)
    out = 0.1 * radius * np.sqrt(1.0 + inside)
    spiral = np.column_stack([out * np.cos(inside), out * np.sin(inside)])
    made = np.vstack([ring, spiral + ring.mean(axis=0)])
    index = {name: len(ring) + i for i, name in enumerate(others)}
    far = 0.0
    for room in outline.more:
        beside, width = _oval(room, side, stretch, dent)
        far += (2.0 * stretch + 1.0) * max(radius, width)
        for name, place in zip(room.corners, beside, strict=True):
            if name in index:
                made[index.pop(name)] = [place[0] + far, place[1]]
    return made


def _oval(outline: Outline, side: float, stretch: float, dent: float) -> tuple[Points, float]:
    """The corners of one room round an oval, (n, 2) mm, and the oval's radius."""
    count = len(outline.corners)
    around = 2 * np.pi * (np.arange(count) - (count - 1) / 2) / count - np.pi / 2
    radius = side / (2 * np.sin(np.pi / count))
    behind = np.cos(2 * np.pi / count) - dent
    pulled = np.array([behind if name in outline.inward else 1.0 for name in outline.corners])
    return radius * np.column_stack([stretch * pulled * np.cos(around), pulled * np.sin(around)]), float(radius)
