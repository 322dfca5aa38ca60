"""What a check reading says once the lines are down: how far out, whether it may be, and which mark to move."""

import math
from dataclasses import dataclass
from typing import Final

from floorwright.control.accuracy import reading_across
from floorwright.control.choices import Tools
from floorwright.control.control import Check, Control, Mark
from floorwright.control.words import fine, fine_bare, out_over
from floorwright.findings import Finding, Severity
from floorwright.tolerance import TOUCH
from floorwright.units import LengthStyle

SURE: Final = 0.95
"""Share of cases in which a verdict must be right before it is given (our default)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A check reading as taken.

    Attributes:
        between: the two ends as the sheet names them: `E1`, `N 1500`, `centre`, a corner, a mark on a wall.
        reads: mm.
    """

    between: tuple[str, str]
    reads: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What a reading says.

    Attributes:
        reading: as taken.
        expected, allow: mm, of the check that it is.
        turn: radians that the square line is turned anticlockwise by it; None for a reading along one line.
        far: mm that the line is out by at its far mark, or that the reading is out by where there is no turn.
        far_sd: mm, what the reading itself leaves uncertain of that.
        may: mm that it may be out there.
        within: probability that it is within `may`.
        says: `good`, `out`, `doubtful` or `cannot tell`.
        do: words, what to do.
    """

    reading: Reading
    expected: float
    allow: float
    turn: float | None
    far: float
    far_sd: float
    may: float
    within: float
    says: str
    do: str


def judged(
    control: Control, readings: tuple[Reading, ...], joint: float, tools: Tools, style: LengthStyle
) -> tuple[tuple[Verdict, ...], tuple[Finding, ...]]:
    """Returns what each reading says, and a finding for each; one that no check asks for is told of.

    Args:
        control: with its checks.
        readings: as taken.
        joint: mm; the square line may be half of it out at its far mark. 0 where there is none: then its check's own
            allowance is taken there.
        tools: that the reading was taken with.
        style: how lengths print.
    """
    verdicts, findings = [], []
    for reading in readings:
        check = next((one for one in control.checks if _is_for(one, reading, control, style)), None)
        if check is None:
            findings.append(_unknown(reading, control, style))
            continue
        verdict = _across(check, reading, control, joint, tools, style) if check.legs else _along(check, reading, style)
        verdicts.append(verdict)
        findings.append(_told(verdict, style))
    return tuple(verdicts), tuple(findings)


def within(off: float, sd: float, may: float) -> float:
    """Returns the probability that what was read `off`, with a standard deviation, is truly within +/- `may`."""
    root = sd * math.sqrt(2)
    if root == 0.0:
        return float(abs(off) <= may)
    return (math.erf((may - off) / root) + math.erf((may + off) / root)) / 2


def ends_of(check: Check, control: Control, style: LengthStyle) -> tuple[frozenset[str], frozenset[str]]:
    """Returns what each end of a check may be called, as on the sheet."""
    if check.legs:
        first, second = (_leg_names(leg, control, style) for leg in check.legs)
        return first, second
    first, second = (frozenset({end, end.removeprefix("corner ").split(" on ")[0]}) for end in check.between)
    return first, second


def _leg_names(leg: Mark, control: Control, style: LengthStyle) -> frozenset[str]:
    letters = {
        name
        for made in control.constructions
        if made.chosen
        for step in made.steps
        for name, x, y in step.points
        if math.dist((x, y), (leg.x, leg.y)) < TOUCH
    }
    return frozenset({f"{leg.name} {style.text(leg.distance)}", *letters})


def _is_for(check: Check, reading: Reading, control: Control, style: LengthStyle) -> bool:
    first, second = ends_of(check, control, style)
    a, b = reading.between
    return (a in first and b in second) or (b in first and a in second)


def _across(
    check: Check, reading: Reading, control: Control, joint: float, tools: Tools, style: LengthStyle
) -> Verdict:
    """A triangle across the cross: the angle between the lines, from three lengths."""
    first, square = control.lines[0], control.lines[1]
    legs = {leg.on: leg for leg in check.legs}
    along, out = legs[first.name], legs[square.name]
    a, b = along.distance, out.distance
    cosine = (a**2 + b**2 - reading.reads**2) / (2 * a * b)
    opened = math.acos(max(-1.0, min(1.0, cosine))) - math.pi / 2
    ahead = 1 if along.name == first.marks[-1].on else -1
    up = 1 if out.name == square.marks[-1].on else -1
    turn = ahead * up * opened
    sd = math.sqrt(2 * tools.set**2 + 2 * tools.mark**2) * math.hypot(a, b) / (a * b)
    mark = max(square.marks, key=lambda one: math.dist(control.centre, (one.x, one.y)))
    at = math.dist(control.centre, (mark.x, mark.y))
    may = joint / 2 if joint > 0 else check.allow * math.hypot(a, b) / (a * b) * at
    far, far_sd = turn * at, sd * at
    # Turned anticlockwise the far end of the line leans back along the first line, the near end on.
    ahead_end = mark is square.marks[-1]
    towards = first.marks[-1 if (turn > 0) is ahead_end else 0].on
    share = within(far, far_sd, may)
    move = f"move {mark.name} on {mark.on} {fine(abs(far), style)} towards {towards}, and strike the line anew"
    says, do = _says(share, far_sd, may, move)
    return Verdict(
        reading=reading,
        expected=reading_across(a, b, math.pi / 2),
        allow=check.allow,
        turn=turn,
        far=far,
        far_sd=far_sd,
        may=may,
        within=share,
        says=says,
        do=do,
    )


def _along(check: Check, reading: Reading, style: LengthStyle) -> Verdict:
    """A distance wall to wall, or from a corner to the centre: it may be out by what its own marks and corners are."""
    off, sd = reading.reads - check.expected, check.allow / 3
    inside = abs(off) <= check.allow
    way = "long" if off > 0 else "short"
    mend = (
        f"it is {fine(abs(off), style)} {way}: read it again; if it stands, a mark is wrong or the room is not "
        "what was measured"
    )
    return Verdict(
        reading=reading,
        expected=check.expected,
        allow=check.allow,
        turn=None,
        far=off,
        far_sd=sd,
        may=check.allow,
        within=within(off, sd, check.allow),
        says="good" if inside else "out",
        do="" if inside else mend,
    )


def _says(share: float, sd: float, may: float, move: str) -> tuple[str, str]:
    if sd > may:
        return "cannot tell", "the reading is no truer than what it should prove: take a bigger triangle"
    if share >= SURE:
        return "good", ""
    if share <= 1 - SURE:
        return "out", move
    return "doubtful", f"read it again, or take a bigger triangle; if it stands, {move}"


def _told(verdict: Verdict, style: LengthStyle) -> Finding:
    ends, bad = " to ".join(verdict.reading.between), verdict.says != "good"
    reads = f"reads {fine_bare(verdict.reading.reads, style)}, should be {fine_bare(verdict.expected, style)}"
    if verdict.turn is None:
        found = f"{reads}: {verdict.says}"
    else:
        found = (
            f"{reads}: the square line is {out_over(verdict.turn, style)} out, {fine(abs(verdict.far), style)} at its "
            f"far mark, give or take {fine(verdict.far_sd, style)}; within {fine(verdict.may, style)} with "
            f"{100 * verdict.within:.0f} % probability: {verdict.says}"
        )
    return Finding(
        code="control-reading",
        severity=Severity.WARNING if bad else Severity.NOTE,
        place=f"reading {ends}",
        found=found,
        expected=f"within {fine(verdict.allow if verdict.turn is None else verdict.may, style)}",
        remedy=verdict.do,
        source="our default: half the joint at the far mark" if verdict.turn is not None else "geometry",
    )


def _unknown(reading: Reading, control: Control, style: LengthStyle) -> Finding:
    known = [" to ".join(min(end, key=len) for end in ends_of(one, control, style)) for one in control.checks]
    return Finding(
        code="control-reading-unknown",
        severity=Severity.WARNING,
        place=f"reading {' to '.join(reading.between)}",
        found="no check reading of this cross has these ends",
        expected="one of " + ", ".join(known),
        remedy="write both ends as on the sheet of the steps",
        source="yours",
    )
