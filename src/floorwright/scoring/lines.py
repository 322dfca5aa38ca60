"""The lines of a scored slab: what is cut, what is there already, and where the saw has to stop."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import compress
from typing import Any, Final, Literal, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from floorwright.geometry.region import Points, Region
from floorwright.scoring.design import Circle, Frame, OldJoint, Point
from floorwright.scoring.runs import SAME_WAY, Run
from floorwright.tolerance import ALONG, COINCIDENT, ONE_CUT, TOUCH

Shapes: TypeAlias = NDArray[Any]

BORDER: Final = "border"
PATTERN: Final = "pattern"
NODE: Final = "a node"
"""Where lines meet and none runs through: all of them stop."""

LETTERS: Final = "DEFGHIJKLMNOPQSTUVWXYZ"
"""Of directions that are neither rows nor columns."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """Where a cut has to stop: do not run past.

    Attributes:
        at: floor mm.
        on: the line that it stops at, `the circle`, or `a node` where others meet and none runs through.
    """

    at: Point
    on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A straight stretch of a line.

    Attributes:
        start, end: floor mm.
        there: the slab joint that is there already; empty where it is to cut.
        stops: at its ends; none at the slab's edge, and none of what is there.
    """

    start: Point
    end: Point
    there: str = ""
    stops: tuple[Stop, ...] = ()

    @property
    def length(self) -> float:
        """mm."""
        return math.dist(self.start, self.end)


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoreLine:
    """All of the pattern that lies on one straight line.

    Attributes:
        name: `R3` for a row, `C4` for a column, else a letter for each direction, numbered from the nail.
        what: `border` or `pattern`.
        kind: `score` is decoration; `joint` is one where the slab is cut to crack: those that are there.
        running: mm from the nail, square to it.
        angle: radians from the floor's x, in [0, pi).
        parts: in order along it, those that are there among them.
        lost: mm that come off it because it stops at circles.
    """

    name: str
    what: str
    kind: Literal["score", "joint"]
    running: float
    angle: float
    parts: tuple[Part, ...]
    lost: float = 0.0

    @property
    def to_cut(self) -> float:
        """mm."""
        return math.fsum(part.length for part in self.parts if not part.there)

    @property
    def there(self) -> float:
        """mm of it that are there already."""
        return math.fsum(part.length for part in self.parts if part.there)

    @property
    def joints(self) -> tuple[str, ...]:
        """The slab joints that lie on it."""
        return tuple(dict.fromkeys(part.there for part in self.parts if part.there))

    @property
    def stops(self) -> tuple[Stop, ...]:
        """Of all that is to cut."""
        return tuple(stop for part in self.parts for stop in part.stops)


def edge_runs(field: Region, frame: Frame) -> tuple[Run, ...]:
    """Returns the edges of a field, or of a slab, as straight runs in the frame, in the order of its outline."""
    rings = [frame.local(ring) for ring in field.rings]
    return tuple(
        run_between(start, end) for ring in rings for start, end in zip(ring, np.roll(ring, -1, axis=0), strict=True)
    )


def run_between(start: Points, end: Points) -> Run:
    """Returns the run between two points."""
    angle = math.atan2(end[1] - start[1], end[0] - start[0]) % math.pi
    if angle > math.pi - SAME_WAY:
        angle = 0.0
    direction = np.array([math.cos(angle), math.sin(angle)])
    low, high = sorted((float(start @ direction), float(end @ direction)))
    off = float((start + end) @ np.array([-direction[1], direction[0]])) / 2
    return Run(angle=angle, off=off, start=low, end=high)


def cut_lines(
    *,
    runs: Sequence[Run],
    border: Sequence[Run],
    field: Region,
    floor: Region,
    frame: Frame,
    joints: Sequence[OldJoint],
    circles: Sequence[Circle],
    nail: Point,
) -> tuple[ScoreLine, ...]:
    """Returns every line, rows first, then columns, then the other directions, each from the nail on.

    Pattern within `tolerance.ONE_CUT` of the border's line, or on a joint that is there, is no cut of its own, and
    along the slab's edge nothing is cut. A circle that is left plain takes what lies in it, but never of a joint that
    is there.

    Args:
        runs: of the pattern, in the frame.
        border: its line; none where there is no border.
        field: inside it.
        floor: the slab.
        frame: along the first line.
        joints: there already.
        circles: to cut.
        nail: floor mm.
    """
    edges = edge_runs(floor, frame)
    rim = _uncovered(border, edges)
    inside = _uncovered(tuple(_within(runs, field, frame)), (*rim, *edges))
    kept = [(BORDER, run) for run in rim] + [(PATTERN, run) for run in inside]
    zero = frame.local(np.asarray(nail))
    groups: dict[tuple[int, int, int], list[tuple[str, Run]]] = {}
    for what, run in sorted(kept, key=lambda one: _order(one[1], zero)):
        groups.setdefault(_line_of(run, groups), []).append((what, run))
    old = [(joint, run_between(*frame.local(np.asarray(joint.ends)))) for joint in joints]
    plain = [circle for circle in circles if circle.plain]
    lines: list[ScoreLine] = []
    count: dict[str, int] = {}
    letters = _letters([run for _, run in kept])
    for members in groups.values():
        letter = letters[_family(members[0][1])]
        count[letter] = count.get(letter, 0) + 1
        lines.append(_line(f"{letter}{count[letter]}", members, zero, old, plain, frame))
    return _stopped(lines, floor, plain)


def _order(run: Run, zero: Points) -> tuple[int, int, int]:
    return _family(run), round(abs(_running(run, zero)) / TOUCH), round(run.start / TOUCH)


def _family(run: Run) -> int:
    """A number for the direction of a run: 0 along the first line, 1 square to it, else by degrees."""
    for number, angle in enumerate((0.0, math.pi / 2)):
        if abs(math.remainder(run.angle - angle, math.pi)) <= ALONG:
            return number
    return 2 + round(math.degrees(run.angle))


def _letters(runs: Sequence[Run]) -> dict[int, str]:
    others = sorted({_family(run) for run in runs} - {0, 1})
    named = {family: LETTERS[number % len(LETTERS)] for number, family in enumerate(others)}
    return {0: "R", 1: "C", **named}


def _line_of(run: Run, groups: dict[tuple[int, int, int], list[tuple[str, Run]]]) -> tuple[int, int, int]:
    """The key of the line that a run lies on: the one before it if it is that, else a new one."""
    for key in reversed(groups):
        other = groups[key][0][1]
        if abs(other.off - run.off) <= TOUCH and abs(other.angle - run.angle) <= SAME_WAY:
            return key
        break
    return len(groups), 0, 0


def _running(run: Run, zero: Points) -> float:
    """mm from the nail to the middle of a run, square to it."""
    return run.off - float(zero @ np.array([-math.sin(run.angle), math.cos(run.angle)]))


def _within(runs: Sequence[Run], field: Region, frame: Frame) -> Iterator[Run]:
    """The runs as far as they lie in the field."""
    rings = [frame.local(ring) for ring in field.rings]
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


def _uncovered(runs: Sequence[Run], lines: Sequence[Run]) -> tuple[Run, ...]:
    """The runs but those that lie on a line all along, so near that two cuts would leave a sliver between them."""
    if not runs:
        return ()
    ends = np.array([run.ends for run in runs])
    free = np.ones(len(runs), dtype=bool)
    for line in lines:
        direction = np.array([math.cos(line.angle), math.sin(line.angle)])
        off, along = ends @ np.array([-direction[1], direction[0]]) - line.off, ends @ direction
        near = np.all(np.abs(off) <= ONE_CUT, axis=1)
        free &= ~(near & (along.min(axis=1) >= line.start - ONE_CUT) & (along.max(axis=1) <= line.end + ONE_CUT))
    return tuple(compress(runs, free.tolist()))


def _line(
    name: str,
    members: Sequence[tuple[str, Run]],
    zero: Points,
    old: Sequence[tuple[OldJoint, Run]],
    circles: Sequence[Circle],
    frame: Frame,
) -> ScoreLine:
    parts: list[Part] = []
    lost = 0.0
    for _, run in members:
        for start, end, there in _split(run, old):
            pieces = [(start, end)]
            if not there:
                pieces = _outside(run, start, end, circles, frame)
                lost += (end - start) - math.fsum(b - a for a, b in pieces)
            for low, high in pieces:
                ends = frame.floor(np.array([run.point(low), run.point(high)]))
                parts.append(Part(start=_point(ends[0]), end=_point(ends[1]), there=there))
    first = members[0][1]
    return ScoreLine(
        name=name,
        what=members[0][0],
        kind="joint" if all(part.there for part in parts) and not lost else "score",
        running=abs(_running(first, zero)),
        angle=(first.angle + frame.angle) % math.pi,
        parts=tuple(parts),
        lost=lost if lost > TOUCH else 0.0,
    )


def _split(run: Run, old: Sequence[tuple[OldJoint, Run]]) -> Iterator[tuple[float, float, str]]:
    """Stretches of a run, in order: from, to, and the joint that is there."""
    stretches: list[tuple[float, float, str]] = []
    for joint, line in old:
        over = overlap(run, line)
        if over is not None:
            stretches.append((*over, joint.name))
    at = run.start
    for start, end, name in sorted(stretches):
        if start - at > ONE_CUT:
            yield at, start, ""
        if end > max(at, start):
            yield max(at, start), end, name
        at = max(at, end)
    if run.end - at > ONE_CUT or not stretches:
        yield at, run.end, ""


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


def _outside(run: Run, start: float, end: float, circles: Sequence[Circle], frame: Frame) -> list[tuple[float, float]]:
    """What circles leave of a stretch of a run."""
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


def _stopped(lines: Sequence[ScoreLine], floor: Region, circles: Sequence[Circle]) -> tuple[ScoreLine, ...]:
    """The lines with the stops at the ends of what is to cut."""
    every = [(line, part) for line in lines for part in line.parts]
    ends = [(number, at) for number, (_, part) in enumerate(every) if not part.there for at in (part.start, part.end)]
    if not ends:
        return tuple(lines)
    points = np.array([at for _, at in ends])
    places = shapely.points(points)
    edge = shapely.MultiLineString([shapely.LinearRing(ring) for ring in floor.rings])
    shapely.prepare(edge)
    runs_off = np.asarray(shapely.dwithin(edge, places, ONE_CUT))
    on_circle = np.zeros(len(ends), dtype=bool)
    for circle in circles:
        on_circle |= np.abs(np.hypot(*(points - circle.centre).T) - circle.radius) <= ONE_CUT
    met = _met(every, ends, points, np.asarray(places, dtype=object))
    stops: dict[int, list[Stop]] = {}
    for index, (number, at) in enumerate(ends):
        if not runs_off[index]:
            stops.setdefault(number, []).append(Stop(at=at, on="the circle" if on_circle[index] else met[index]))
    stopped = iter(replace(part, stops=tuple(stops.get(number, ()))) for number, (_, part) in enumerate(every))
    return tuple(replace(line, parts=tuple(next(stopped) for _ in line.parts)) for line in lines)


def _met(
    every: Sequence[tuple[ScoreLine, Part]], ends: Sequence[tuple[int, Point]], points: Points, places: Shapes
) -> list[str]:
    """Of each end the line that it stops at: one that runs through there, else one of the border, else a node."""
    segments = np.array([(part.start, part.end) for _, part in every])
    tree = shapely.STRtree(np.asarray(shapely.linestrings(segments), dtype=object))
    end, part = tree.query(places, predicate="dwithin", distance=ONE_CUT)
    near = np.hypot(*np.moveaxis(segments[part] - points[end][:, None], 2, 0)).min(axis=1)
    through: dict[int, str] = {}
    beside: dict[int, str] = {}
    for index, other, distance in sorted(zip(end.tolist(), part.tolist(), near.tolist(), strict=True)):
        line = every[other][0]
        if line.name == every[ends[index][0]][0].name:
            continue
        if distance > ONE_CUT:
            through.setdefault(index, line.name)
        elif line.what == BORDER:
            beside.setdefault(index, line.name)
    return [through.get(index) or beside.get(index) or NODE for index in range(len(ends))]


def _point(array: Points) -> Point:
    return float(array[0]), float(array[1])
