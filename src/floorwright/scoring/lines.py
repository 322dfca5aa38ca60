"""The lines of a scored slab: what is cut, what is there already, and where the saw has to stop."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from floorwright.geometry.region import Points
from floorwright.scoring.clip import outside_circles, overlap, run_between
from floorwright.scoring.design import Circle, Frame, OldJoint, Point
from floorwright.scoring.runs import SAME_WAY, Run
from floorwright.tolerance import ALONG, ONE_CUT, TOUCH

BORDER: Final = "border"
PATTERN: Final = "pattern"
LETTERS: Final = "DEFGHIJKLMNOPQSTUVWXYZ"
"""Of directions that are neither rows nor columns."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """Where a cut has to stop: do not run past.

    Attributes:
        at: floor mm.
        on: the line that it stops at, `the circle`, `an arc`, `the tiles`, or `a node` where others meet and none runs
            through.
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


def lines_of(
    runs: Sequence[tuple[str, Run]],
    *,
    frame: Frame,
    joints: Sequence[OldJoint],
    circles: Sequence[Circle],
    nail: Point,
) -> tuple[ScoreLine, ...]:
    """Returns every line, rows first, then columns, then the other directions, each from the nail on.

    A circle that is left plain takes what lies in it, but never of a joint that is there. The lines know of no stops
    yet: see `stops`.

    Args:
        runs: what each is (`border` or `pattern`), and the run in the frame; none lies on another.
        frame: along the first line.
        joints: there already.
        circles: that are left plain.
        nail: floor mm.
    """
    zero = frame.local(np.asarray(nail))
    groups: dict[tuple[int, int, int], list[tuple[str, Run]]] = {}
    for what, run in sorted(runs, key=lambda one: _order(one[1], zero)):
        groups.setdefault(_line_of(run, groups), []).append((what, run))
    old = [(joint, run_between(*frame.local(np.asarray(joint.ends)))) for joint in joints]
    lines: list[ScoreLine] = []
    count: dict[str, int] = {}
    letters = _letters([run for _, run in runs])
    for members in groups.values():
        letter = letters[_family(members[0][1])]
        count[letter] = count.get(letter, 0) + 1
        lines.append(_line(f"{letter}{count[letter]}", members, zero, old, circles, frame))
    return tuple(lines)


def _order(run: Run, zero: Points) -> tuple[int, int, bool, int]:
    running = round(_running(run, zero) / TOUCH)
    return _family(run), abs(running), running < 0, round(run.start / TOUCH)


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
    for run in _end_to_end([run for _, run in members]):
        for start, end, there in _split(run, old):
            pieces = [(start, end)]
            if not there:
                pieces = outside_circles(run, start, end, circles, frame)
                lost += (end - start) - math.fsum(b - a for a, b in pieces)
            for low, high in pieces:
                ends = frame.floor(np.array([run.point(low), run.point(high)]))
                parts.append(Part(start=_point(ends[0]), end=_point(ends[1]), there=there))
    first = members[0][1]
    return ScoreLine(
        name=name,
        what=BORDER if any(what == BORDER for what, _ in members) else PATTERN,
        kind="joint" if all(part.there for part in parts) and not lost else "score",
        running=abs(_running(first, zero)),
        angle=(first.angle + frame.angle) % math.pi,
        parts=tuple(parts),
        lost=lost if lost > TOUCH else 0.0,
    )


def _end_to_end(runs: Sequence[Run]) -> list[Run]:
    """Runs of one line in order along it, with those that meet end to end as one: the saw does not stop between."""
    found: list[Run] = []
    for run in sorted(runs, key=lambda one: one.start):
        if found and run.start - found[-1].end <= ONE_CUT:
            found[-1] = replace(found[-1], end=max(found[-1].end, run.end))
        else:
            found.append(run)
    return found


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


def _point(array: Points) -> Point:
    return float(array[0]), float(array[1])
