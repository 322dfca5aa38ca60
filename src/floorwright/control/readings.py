"""What a check reading says once the lines are down: how far out, whether it may be, and which mark to move."""

import math
from collections.abc import Callable
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

NEVER: Final = 10.0
"""Standard deviations that no reading is out by."""

HALVINGS: Final = 60
"""Of an interval: no float is left between its ends."""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Yardstick:
    """What a check reading is held against.

    Attributes:
        check: the reading to take.
        sd: mm, what the reading itself leaves uncertain of how far out it says the line is.
        may: mm that it may be out.
        arms: of a reading across the cross, mm from the centre along both lines; none of any other, and then what
            follows does not count.
        way: 1 where a reading too long turns the square line anticlockwise, else -1.
        at: mm from the centre to the far mark.
        mark: the far mark of the square line.
        towards: walls that it is to be moved towards: where the line is turned anticlockwise, and clockwise.
    """

    check: Check
    sd: float
    may: float
    arms: tuple[float, float] | tuple[()] = ()
    way: int = 1
    at: float = 0.0
    mark: Mark | None = None
    towards: tuple[str, str] = ("", "")

    @property
    def is_rough(self) -> bool:
        """Whether the reading is no truer than what it should prove."""
        return self.sd > self.may


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
        check = next((one for one in control.checks if is_for(one, reading, control, style)), None)
        if check is None:
            findings.append(_unknown(reading, control, style))
            continue
        verdict = _verdict(yardstick(check, control, joint, tools), reading, style)
        verdicts.append(verdict)
        findings.append(_told(verdict, style))
    return tuple(verdicts), tuple(findings)


def within(off: float, sd: float, may: float) -> float:
    """Returns the probability that what was read `off`, with a standard deviation, is truly within +/- `may`."""
    root = sd * math.sqrt(2)
    if root == 0.0:
        return float(abs(off) <= may)
    return (math.erf((may - off) / root) + math.erf((may + off) / root)) / 2


def beyond(off: float, sd: float, may: float) -> float:
    """Returns the probability that what was read `off` is truly out by more than `may` on the side that it reads.

    A reading far rougher than `may` is hardly ever within it, however good the line is: so only this tells that a line
    is out.
    """
    root = sd * math.sqrt(2)
    if root == 0.0:
        return float(abs(off) > may)
    return (1 + math.erf((abs(off) - may) / root)) / 2


def ends_of(check: Check, control: Control, style: LengthStyle) -> tuple[frozenset[str], frozenset[str]]:
    """Returns what each end of a check may be called, as on the sheet."""
    if check.legs:
        first, second = (_leg_names(leg, control, style) for leg in check.legs)
        return first, second
    first, second = (frozenset({end, end.removeprefix("corner ").split(" on ")[0]}) for end in check.between)
    return first, second


def called(check: Check, control: Control, style: LengthStyle) -> tuple[str, str]:
    """Returns how each end of a check is called on the sheet of the steps, shortly: what a reading of it names."""
    first, second = (min(end, key=lambda name: (len(name), name)) for end in ends_of(check, control, style))
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


def is_for(check: Check, reading: Reading, control: Control, style: LengthStyle) -> bool:
    """Returns whether a reading is that of a check: both ends called as on the sheet, either way round."""
    first, second = ends_of(check, control, style)
    a, b = reading.between
    return (a in first and b in second) or (b in first and a in second)


def yardstick(check: Check, control: Control, joint: float, tools: Tools) -> Yardstick:
    """Returns what a reading of a check is held against; the arguments are those of `judged`."""
    if not check.legs:
        return Yardstick(check=check, sd=check.allow / 3, may=check.allow)
    first, square = control.lines[0], control.lines[1]
    legs = {leg.on: leg for leg in check.legs}
    along, out = legs[first.name], legs[square.name]
    a, b = along.distance, out.distance
    ahead = 1 if along.name == first.marks[-1].on else -1
    up = 1 if out.name == square.marks[-1].on else -1
    mark = max(square.marks, key=lambda one: math.dist(control.centre, (one.x, one.y)))
    at = math.dist(control.centre, (mark.x, mark.y))
    # Turned anticlockwise the far end of the line leans back along the first line, the near end on.
    towards = (first.marks[-1].on, first.marks[0].on)
    return Yardstick(
        check=check,
        sd=math.sqrt(2 * tools.set**2 + 2 * tools.mark**2) * math.hypot(a, b) / (a * b) * at,
        may=joint / 2 if joint > 0 else check.allow * math.hypot(a, b) / (a * b) * at,
        arms=(a, b),
        way=ahead * up,
        at=at,
        mark=mark,
        towards=towards if mark is square.marks[-1] else towards[::-1],
    )


def turned(stick: Yardstick, reads: float) -> float | None:
    """Returns the radians that the square line is turned anticlockwise by a reading across the cross: the angle between
    the lines, from three lengths. None for any other reading."""
    if not stick.arms:
        return None
    a, b = stick.arms
    cosine = (a**2 + b**2 - reads**2) / (2 * a * b)
    return stick.way * (math.acos(max(-1.0, min(1.0, cosine))) - math.pi / 2)


def limits(stick: Yardstick) -> tuple[float, float]:
    """Returns the mm out up to which a reading is good (under 0 where none is), and from which it is out."""
    if not stick.arms:
        return stick.may, stick.may
    good = -1.0
    if within(0.0, stick.sd, stick.may) >= SURE:
        good = _least_off(stick, lambda off: within(off, stick.sd, stick.may) <= SURE)
    return good, _least_off(stick, lambda off: beyond(off, stick.sd, stick.may) >= SURE)


def _least_off(stick: Yardstick, holds: Callable[[float], bool]) -> float:
    """The least mm out from which on something holds."""
    low, high = 0.0, stick.may + NEVER * stick.sd
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if holds(middle) else (middle, high)
    return (low + high) / 2


def to_do(stick: Yardstick, says: str, far: float, amount: str) -> str:
    """Returns what to do about a reading, nothing where it is good.

    Args:
        stick: that it was held against.
        says: of it.
        far: mm out, of which the sign is what counts.
        amount: how far out, in words.
    """
    if says == "good":
        return ""
    if not stick.arms or stick.mark is None:
        way = "long" if far > 0 else "short"
        stands = "if it stands, a mark is wrong or the room is not what was measured"
        return f"it is {amount} {way}: read it again; {stands}"
    if says == "cannot tell":
        return "the reading is no truer than what it should prove: take a bigger triangle"
    towards = stick.towards[0 if far > 0 else 1]
    move = f"move {stick.mark.name} on {stick.mark.on} {amount} towards {towards}, and strike the line anew"
    return move if says == "out" else f"read it again, or take a bigger triangle; if it stands, {move}"


def _verdict(stick: Yardstick, reading: Reading, style: LengthStyle) -> Verdict:
    turn = turned(stick, reading.reads)
    far = reading.reads - stick.check.expected if turn is None else turn * stick.at
    share = within(far, stick.sd, stick.may)
    says = says_of(stick, far, share)
    expected = reading_across(*stick.arms, math.pi / 2) if stick.arms else stick.check.expected
    return Verdict(
        reading=reading,
        expected=expected,
        allow=stick.check.allow,
        turn=turn,
        far=far,
        far_sd=stick.sd,
        may=stick.may,
        within=share,
        says=says,
        do=to_do(stick, says, far, fine(abs(far), style)),
    )


def says_of(stick: Yardstick, far: float, share: float) -> str:
    """Returns what a reading says that is `far` mm out, within what may be with the probability `share`."""
    if not stick.arms:
        return "good" if abs(far) <= stick.may else "out"
    if share >= SURE:
        return "good"
    if beyond(far, stick.sd, stick.may) >= SURE:
        return "out"
    return "cannot tell" if stick.is_rough else "doubtful"


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
    known = [" to ".join(called(one, control, style)) for one in control.checks]
    return Finding(
        code="control-reading-unknown",
        severity=Severity.WARNING,
        place=f"reading {' to '.join(reading.between)}",
        found="no check reading of this cross has these ends",
        expected="one of " + ", ".join(known),
        remedy="write both ends as on the sheet of the steps",
        source="yours",
    )
