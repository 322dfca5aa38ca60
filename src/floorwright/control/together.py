"""What several readings across the lines say of the square line, taken together."""

import math
from dataclasses import dataclass, replace
from typing import Final

from floorwright.control.choices import Tools
from floorwright.control.control import Control
from floorwright.control.readings import Verdict, is_for, says_of, to_do, within, yardstick
from floorwright.control.words import fine
from floorwright.findings import Finding, Severity
from floorwright.tolerance import COINCIDENT
from floorwright.units import LengthStyle

DISAGREE: Final = 3.0
"""Standard deviations that a reading may be from all of them together: one good reading in 370 is farther."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """What several readings say of the square line.

    Attributes:
        readings: how many.
        far, far_sd: mm that the line is out by at its far mark, and what they leave uncertain of that.
        may, within: as in `Verdict`.
        says: as in `Verdict`, or `disagree`.
        do: words, what to do.
    """

    readings: int
    far: float
    far_sd: float
    may: float
    within: float
    says: str
    do: str


def all_together(
    control: Control, verdicts: tuple[Verdict, ...], joint: float, tools: Tools, style: LengthStyle
) -> Together | None:
    """Returns what several readings across the lines say of the square line in one estimate; None of fewer than two.

    Each counts by the inverse of its variance, as though they shared no mark: of readings that do the estimate is a
    little less sure than it says. Readings farther from it than three of their own standard deviations disagree with
    the others, and then nothing is moved.

    Args:
        control: whose lines they were taken on.
        verdicts: of all readings; those along one line say nothing of the square.
        joint, tools, style: as they were judged by.
    """
    across = [one for one in verdicts if one.turn is not None]
    if len(across) < 2:
        return None
    check = next(one for one in control.checks if is_for(one, across[0].reading, control, style))
    weights = [1 / max(one.far_sd, COINCIDENT) ** 2 for one in across]
    far = math.fsum(weight * one.far for weight, one in zip(weights, across, strict=True)) / math.fsum(weights)
    far_sd = 1 / math.sqrt(math.fsum(weights))
    stick = replace(yardstick(check, control, joint, tools), sd=far_sd)
    share = within(far, far_sd, stick.may)
    says = says_of(stick, far, share)
    do = to_do(stick, says, far, fine(abs(far), style))
    apart = [one for one in across if abs(one.far - far) > DISAGREE * one.far_sd + COINCIDENT]
    if apart:
        ends = ", ".join(" to ".join(one.reading.between) for one in apart)
        says, do = "disagree", f"read {ends} again before anything is moved"
    return Together(readings=len(across), far=far, far_sd=far_sd, may=stick.may, within=share, says=says, do=do)


def told_together(
    control: Control, verdicts: tuple[Verdict, ...], joint: float, tools: Tools, style: LengthStyle
) -> tuple[Finding, ...]:
    """Returns the finding that says what the readings say together; none of fewer than two."""
    together = all_together(control, verdicts, joint, tools, style)
    if together is None:
        return ()
    finding = Finding(
        code="control-readings-together",
        severity=Severity.NOTE if together.says == "good" else Severity.WARNING,
        place="square line",
        found=(
            f"{together.readings} readings together: {fine(abs(together.far), style)} out at its far mark, give or "
            f"take {fine(together.far_sd, style)}; within {fine(together.may, style)} with "
            f"{100 * together.within:.0f} % probability: {together.says}"
        ),
        expected=f"within {fine(together.may, style)}",
        remedy=together.do,
        source="our default: half the joint at the far mark",
    )
    return (finding,)
