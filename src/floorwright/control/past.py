"""A line that something stands on: carried past it on a parallel and brought back behind it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from floorwright.control.choices import Tools
from floorwright.control.control import Construction, ControlLine, Step
from floorwright.control.predicted import past_shift, past_turn
from floorwright.control.sight import Point, spans, step
from floorwright.control.square import CENTRE, arc, mark, numbered
from floorwright.control.station import HAND, Station
from floorwright.control.words import fine
from floorwright.findings import Finding, Severity
from floorwright.geometry.measure import is_inside_ring
from floorwright.plan.room import Room
from floorwright.tolerance import TOUCH
from floorwright.units import LengthStyle

LEAST_APART: Final = 300.0
"""mm. Two offsets nearer to each other give no direction worth having (our default)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocked:
    """A part of a control line with something on it.

    Attributes:
        line: the control line.
        by: name of what stands there.
        before, after: the clear floor on both sides of it, mm along the line from the centre, away from which it
            counts; below 0 on the centre's other side.
        way: 1 along the line, -1 against it.
    """

    line: ControlLine
    by: str
    before: tuple[float, float]
    after: tuple[float, float]
    way: int


def past_obstacles(
    room: Room, station: Station, lines: tuple[ControlLine, ...], tools: Tools, style: LengthStyle
) -> tuple[tuple[Construction, ...], tuple[Finding, ...]]:
    """Returns how the first line and the square line are carried past what stands on them, and what to know of it.

    Args:
        room: whose obstacles are named.
        station: where the lines cross.
        lines: the control lines.
        tools: to hand.
        style: how lengths print.
    """
    made, told = [], []
    for number, blocked in enumerate(found for line in lines[:2] for found in _blocked(room, station, line)):
        construction = _carried(station, blocked, tools, 8 * number)
        if construction is not None:
            made.append(construction)
        told.append(_told(blocked, construction, tools, style))
    return tuple(made), tuple(told)


def _blocked(room: Room, station: Station, line: ControlLine) -> Iterator[Blocked]:
    """The parts of a line, from the centre out to both walls, that something stands on."""
    if len(line.marks) < 2:
        return
    for way, end in ((1, line.marks[-1]), (-1, line.marks[0])):
        reach = math.dist(line.through, (end.x, end.y))
        angle = line.angle if way > 0 else line.angle + math.pi
        clear = [
            (start, min(stop, reach))
            for start, stop in spans(station.region, line.through, angle)
            if stop > TOUCH and start < reach - TOUCH
        ]
        for before, after in pairwise(clear):
            yield Blocked(line=line, by=_named(room, line, angle, before[1]), before=before, after=after, way=way)


def _named(room: Room, line: ControlLine, angle: float, at: float) -> str:
    """What stands on a line from a distance on."""
    inside = step(line.through, angle, at + HAND / 2)
    for obstacle in room.obstacles:
        if bool(is_inside_ring(inside, obstacle.outline)[0]):
            return obstacle.name
    return "an obstacle"


def _carried(station: Station, blocked: Blocked, tools: Tools, letters: int) -> Construction | None:
    """The parallel that is nearest to the line and clear; None where none is."""
    angle = blocked.line.angle if blocked.way > 0 else blocked.line.angle + math.pi
    # Offsets as far apart as the clear floor before and behind allows, and a hand off what stands there.
    far = blocked.after[0] + HAND, blocked.after[1] - HAND
    near = max(blocked.before[0] + HAND, far[1] - tools.tape), blocked.before[1] - HAND
    if near[1] - near[0] < LEAST_APART or far[1] - far[0] < LEAST_APART:
        return None
    on_line = [step(blocked.line.through, angle, along) for along in (*near, *far)]
    for beside in sorted(station.sizes(tools.tape / 4)):
        for side in (1, -1):
            helping = [step(at, angle + side * math.pi / 2, beside) for at in on_line]
            # A line is snapped a hand clear of what stands there, not along its face.
            hand = [step(at, angle + side * math.pi / 2, beside - HAND) for at in (on_line[0], on_line[-1])]
            reaches = [*zip(on_line, helping, strict=True), (helping[0], helping[-1]), (hand[0], hand[1])]
            if station.fits([*on_line, *helping], reaches):
                return _past(blocked, on_line, helping, beside, tools, letters)
    return None


def _past(
    blocked: Blocked, on_line: list[Point], helping: list[Point], beside: float, tools: Tools, letters: int
) -> Construction:
    names = [f"P{letters + n}" for n in range(1, 9)]
    (a, b, c, d), (e, f, g, h) = names[:4], names[4:]
    at = dict(zip((a, b, e, f), on_line, strict=True)) | dict(zip((c, d, g, h), helping, strict=True))
    near, far = math.dist(at[a], at[b]), math.dist(at[e], at[f])
    tool = "compass" if beside <= tools.compass else "tape"

    def along(kind: str, start: str, end: str) -> Step:
        points = tuple((name, *at[name]) for name in (start, end))
        return Step(number=0, action=kind, tool="chalk line", start=start, end=end, length=0.0, points=points)

    def steps() -> Iterator[Step]:
        yield mark("tape", CENTRE, a, math.dist(blocked.line.through, at[a]), at[a])
        yield mark("tape", a, b, near, at[b])
        yield arc(tool, a, c, beside, at[a], at[c])
        yield arc(tool, b, d, beside, at[b], at[d])
        yield along("help", c, d)
        yield mark("tape", d, g, math.dist(at[d], at[g]), at[g])
        yield mark("tape", g, h, far, at[h])
        yield arc(tool, g, e, beside, at[g], at[e])
        yield arc(tool, h, f, beside, at[h], at[f])
        yield along("touch", e, f)

    return Construction(
        makes=f"{blocked.line.name} behind {blocked.by}",
        method="a parallel past it",
        size=beside,
        steps=numbered(steps()),
        sd_angle=math.hypot(blocked.line.sd_angle, past_turn(near, far, tools)),
        chosen=True,
        why="Both lines just touch their arcs, all swung at one setting; the farther apart the arcs, the truer.",
    )


def shift_behind(made: Construction, tools: Tools) -> float:
    """Returns how far beside itself a line is that was carried past something, one standard deviation, mm."""
    _, apart, gap, _ = (one.length for one in made.steps if one.action == "mark")
    return past_shift(apart, gap, tools)


def _told(blocked: Blocked, made: Construction | None, tools: Tools, style: LengthStyle) -> Finding:
    place = f"{blocked.line.name}, {style.text(blocked.before[1], unit=True)} from the centre"
    if made is None:
        return Finding(
            code="control-line-blocked",
            severity=Severity.WARNING,
            place=place,
            found=f"{blocked.by} stands on the {blocked.line.name}, and no parallel clears it",
            expected="a line that can be snapped",
            remedy=f"mark the {blocked.line.name} behind it from the walls, or move the centre",
        )
    return Finding(
        code="control-line-blocked",
        severity=Severity.NOTE,
        place=place,
        found=(
            f"{blocked.by} stands on the {blocked.line.name}: it is carried past on a parallel "
            f"{style.text(made.size, unit=True)} beside it, and is {fine(shift_behind(made, tools), style)} out behind "
            "it, one standard deviation"
        ),
        remedy="follow its steps before anything is measured from the line behind it",
    )
