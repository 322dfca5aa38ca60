"""What a survey has to say to the person who measured: one finding each, in their words."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

import numpy as np

from floorwright.findings import Finding, Severity
from floorwright.plan.room import Corner
from floorwright.survey.accuracy import READING
from floorwright.survey.adjustment import Adjustment
from floorwright.survey.chi_square import CRITICAL, RISK, quantile
from floorwright.survey.observation import Angle, Observation, Square, Straight
from floorwright.survey.outline import Outline
from floorwright.survey.suspect import Explanation, Suspicion, unchecked
from floorwright.survey.take import Missing, Reading
from floorwright.units import INCH, LengthStyle

OVER: Final = 1000.0
"""mm over which an angle is said where no wall gives a length."""

WEAK: Final = 5.0
"""Our default: a corner known this many times worse than the worst reading is weak."""

NEAR_SQUARE: Final = math.radians(20)
"""Our default: a corner within this of square is meant to be square."""

NOTICED: Final = 1.0
"""mm. Our default: a corner out of square by less over its shorter wall is square to anyone who measures it."""

GROSS: Final = 20.0
"""mm. Our default: where a slip may put a corner out by more than this, no floor is set out on these readings."""

LONG: Final = 24
"""Corners of an outline that no person measures by single diagonals."""

MOST_NAMED: Final = 8
"""Corners or readings that are named one by one."""

AGREEING_TOO_WELL: Final = 3
"""Degrees of freedom from which readings can be said to agree too well."""


def _finely(mm: float, style: LengthStyle) -> str:
    """An accuracy, to a tenth of a millimetre or a hundredth of an inch, as its own graduation is too coarse for it."""
    return f"{mm:.1f} mm" if style.system == "metric" else f"{mm / float(INCH):.2f} in"


def listed(names: Sequence[str], last: str = "and") -> str:
    """Returns names as a sentence has them: `A`, `A and B`, `A, B and C`."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {last} {names[-1]}"


def _first_few(names: Sequence[str]) -> str:
    """Names as words, the first of them where there are many."""
    rest = len(names) - MOST_NAMED
    return listed(names) if rest <= 0 else f"{', '.join(names[:MOST_NAMED])} and {rest} more"


def assumptions(observations: Sequence[Observation], style: LengthStyle) -> Iterator[Finding]:
    """Yields a note for everything taken as true that nobody measured, with how true it is taken to be."""
    for observation in observations:
        if isinstance(observation, Square):
            out = style.text(OVER * math.tan(observation.sd))
            yield Finding(
                code="survey-taken-as-square",
                severity=Severity.NOTE,
                place=f"corner {observation.at}",
                found=f"corner {observation.at} is taken as square between {observation.a} and {observation.b}, "
                f"to {out} over {style.text(OVER)}",
                remedy="measure the diagonal across it to know",
                source="yours",
            )
        elif isinstance(observation, Straight):
            yield Finding(
                code="survey-taken-as-straight",
                severity=Severity.NOTE,
                place=f"point {observation.at}",
                found=f"{observation.at} is taken to lie on the line from {observation.a} to {observation.b}, "
                f"to {style.text(observation.sd)}",
                remedy=f"stretch a line from {observation.a} to {observation.b} and look",
                source="yours",
            )


def too_few(missing: Missing, known: Sequence[str]) -> Finding:
    """Returns the finding that the readings do not fix the room, with the distances that would."""
    if len(known) > LONG and len(missing.loose) > MOST_NAMED:
        return _far_too_few(missing, known)
    take = listed([reading.name for reading in missing.readings]) if missing.readings else ""
    strangers = [name for name in missing.loose if name not in known]
    hint = f"; if {listed(strangers)} is a slip of the pen, put it right" if strangers else ""
    return Finding(
        code="survey-too-few",
        severity=Severity.ERROR,
        place="survey",
        found=f"the readings do not fix {listed(missing.loose)}",
        expected=_more(len(missing.readings)) if missing.readings else "a room that cannot be pushed out of shape",
        remedy=(f"measure {take}" if take else "measure the diagonals") + hint,
    )


def _far_too_few(missing: Missing, known: Sequence[str]) -> Finding:
    """Of a long outline: not every point by name, but a way to measure it."""
    return Finding(
        code="survey-too-few",
        severity=Severity.ERROR,
        place="survey",
        found=f"the readings do not fix {len(missing.loose)} of the points, {listed(missing.loose[:3])} among them",
        expected=f"{_more(len(missing.readings))} at the least",
        remedy=f"tape every corner from {_far_apart(known, 2)} as well, which lie far apart; a wall that is round is "
        "measured sooner as an arc, by its chord and rise in [[survey.arcs]]",
    )


def _far_apart(corners: Sequence[str], count: int) -> str:
    """So many corners spread over the outline, as words."""
    return listed([corners[len(corners) * i // count] for i in range(count)])


def _more(count: int) -> str:
    return "one more reading" if count == 1 else f"{count} more readings"


def no_shape() -> Finding:
    """Returns the finding that no room has these readings at all."""
    return Finding(
        code="survey-no-shape",
        severity=Severity.ERROR,
        place="survey",
        found="no room with walls that do not cross has these readings",
        expected="readings that close",
        remedy="check the order of the outline, its direction and the corners that turn in; then the largest readings",
    )


def two_shapes(tell: Reading | None, movers: Sequence[str], outline: Outline, style: LengthStyle) -> Finding:
    """Returns the finding that two different rooms have these readings, with the distance that tells which it is."""
    if tell is None:
        remedy = f"measure another distance to {movers[0] if len(movers) > MOST_NAMED else listed(movers, 'or')}"
    elif len(tell.would_read) > MOST_NAMED:
        remedy = f"measure {tell.name}, and tape every corner from {_far_apart(outline.corners, 3)}"
    else:
        reads = listed([style.text(read) for read in tell.would_read], "or")
        remedy = f"measure {tell.name}: it is {reads}"
    wrong_room = any(name in outline.every for name in movers)
    return Finding(
        code="survey-two-shapes",
        severity=Severity.ERROR if wrong_room else Severity.WARNING,
        place=f"{'corner' if wrong_room else 'point'} {movers[0]}",
        found=f"the readings fit more than one shape: {_first_few(movers)} may lie on either side",
        expected="readings that fit one shape",
        remedy=remedy,
    )


def misturned(corners: Sequence[str], outline: Outline) -> Iterator[Finding]:
    """Yields a warning for every corner that the readings turn the other way than booked."""
    for name in corners:
        turns_in = not any(name in room.inward for room in outline.rooms)
        yield Finding(
            code="survey-corner-turned",
            severity=Severity.WARNING,
            place=f"corner {name}",
            found=f"the readings agree only if {name} turns {'into the room' if turns_in else 'out'}",
            expected=f"{name} is booked as turning {'out' if turns_in else 'into the room'}",
            remedy=f"{'add' if turns_in else 'take'} {name} {'to' if turns_in else 'off'} the inward corners, or look "
            "for the reading that is wrong",
            source="yours",
        )


def suspects(
    suspicion: Suspicion,
    observations: Sequence[Observation],
    tell: Reading | None,
    style: LengthStyle,
    *,
    corners: int,
) -> Iterator[Finding]:
    """Yields what the readings say about each other: the wrong one, those that may be, or that they disagree.

    They are warnings where the room hardly feels it, and errors where a corner may be out by more than `GROSS`: then
    there is no room to trust until a reading is taken again.

    Args:
        suspicion: see there.
        observations: all.
        tell: the distance that would tell the suspects apart, if any does.
        style: how lengths print.
        corners: how many of the points, from the first, are the room's.
    """
    by_key = {observation.key: observation for observation in observations}
    severity = Severity.ERROR if _bend(suspicion, corners) > GROSS else Severity.WARNING
    if suspicion.verdict == "one suspect":
        explanation = suspicion.explanations[0]
        yield _one_suspect(explanation, by_key[explanation.key], style, severity)
        if not suspicion.rest_agrees:
            yield _disagree(explanation.rest, f"without {explanation.key} the others still disagree: ", style)
    elif suspicion.verdict == "cannot be told":
        yield _tie(suspicion, by_key, tell, style, severity)
        if not suspicion.rest_agrees:
            best = suspicion.explanations[0]
            yield _disagree(best.rest, "without the best of them the others still disagree: ", style)
    elif suspicion.verdict == "disagree":
        yield _disagree(suspicion.adjustment, "the readings disagree: ", style)


def _bend(suspicion: Suspicion, corners: int) -> float:
    """How far a suspect may put a corner of the room out, mm: by how much it moves when the reading is left out."""
    moved = [
        explanation.rest.xy[:corners] - suspicion.adjustment.xy[:corners] for explanation in suspicion.explanations
    ]
    return max((float(np.hypot(*by.T).max()) for by in moved), default=0.0)


def _one_suspect(explanation: Explanation, observation: Observation, style: LengthStyle, severity: Severity) -> Finding:
    off = _off(explanation, observation, style)
    if isinstance(observation, Square):
        found = f"corner {observation.at} is not square: the readings make it {off}"
        expected, remedy = "a square corner, as taken", "take it off the square corners"
    elif isinstance(observation, Straight):
        found = f"{observation.at} does not lie on the line from {observation.a} to {observation.b}: it is {off}"
        expected, remedy = "a straight line, as taken", f"measure {observation.at} by two distances instead"
    else:
        read, expected = (_value(value, observation, style) for value in (observation.measured, explanation.would_read))
        found = f"{observation.key} reads {read}; all the other readings make it {expected}, so it is {off}"
        if slip := explanation.recognised:
            found += f"; it would agree if it read {style.entered_text(slip.would_agree)}: {slip.what}"
        remedy = f"measure {observation.key} again"
    return Finding(
        code="survey-suspect", severity=severity, place=explanation.key, found=found, expected=expected,
        remedy=remedy, source="yours",
    )  # fmt: skip


def _tie(
    suspicion: Suspicion,
    by_key: dict[str, Observation],
    tell: Reading | None,
    style: LengthStyle,
    severity: Severity,
) -> Finding:
    keys = [explanation.key for explanation in suspicion.explanations]
    offs = listed([f"{e.key} ({_off(e, by_key[e.key], style)})" for e in suspicion.explanations], "or")
    for explanation in suspicion.explanations:
        if slip := explanation.recognised:
            offs += f"; {explanation.key} would agree if it read {style.entered_text(slip.would_agree)}: {slip.what}"
    if tell is None:
        remedy = f"measure {listed(keys, 'or')} again, until one reads otherwise"
    else:
        reads = ", ".join(
            f"{style.text(read)} if {key} is wrong" for key, read in zip(keys, tell.would_read, strict=True)
        )
        remedy = f"measure {tell.name} to tell: it is {reads}"
    return Finding(
        code="survey-cannot-tell",
        severity=severity,
        place=listed(keys, "or"),
        found=f"the readings disagree, and which one is wrong cannot be told from these readings: {offs}",
        expected="readings that agree within their accuracy",
        remedy=remedy,
        source="yours",
    )


def _value(value: float, observation: Observation, style: LengthStyle) -> str:
    return f"{math.degrees(value):.2f} degrees" if isinstance(observation, Angle) else style.text(value)


def _off(explanation: Explanation, observation: Observation, style: LengthStyle) -> str:
    """How far a reading would be wrong, as words."""
    slip = explanation.slip
    if isinstance(observation, Square | Angle):
        out = f"{style.text(OVER * math.tan(abs(slip)))} over {style.text(OVER)}"
        return (
            f"out by {out}" if isinstance(observation, Square) else f"too {'wide' if slip > 0 else 'narrow'} by {out}"
        )
    if isinstance(observation, Straight):
        return f"{style.text(abs(slip))} off"
    return f"{style.text(abs(slip))} too {'long' if slip > 0 else 'short'}"


def _disagree(adjustment: Adjustment, lead: str, style: LengthStyle) -> Finding:
    times = math.sqrt(adjustment.variance_factor)
    much = f"{times:.1f} times more than their accuracy allows" if times > 1.0 else "one stands out by itself"
    ranked = sorted(adjustment.residuals, key=lambda r: -round(r.standardised, 6))
    worst = [r for r in ranked if r.standardised > CRITICAL][:3] or ranked[:1]
    offs = listed(
        [
            f"{r.key} by {style.text(abs(r.residual))}" if not r.is_angle
            else f"{r.key} by {style.text(OVER * math.tan(abs(r.residual)))} over {style.text(OVER)}"
            for r in worst
        ]
    )  # fmt: skip
    return Finding(
        code="survey-disagree",
        severity=Severity.WARNING,
        place="survey",
        found=f"{lead}{much}, and no one reading explains it; the fit moves {offs}",
        expected="agreement within the accuracy stated for the tape and the reading",
        remedy=f"measure {listed([r.key for r in worst])} again, or state the accuracy you really have",
        source="yours",
    )


def checks(adjustment: Adjustment, check: Reading | None) -> Iterator[Finding]:
    """Yields notes on readings that nothing checks, and on readings that agree better than they can."""
    bare = [residual.key for residual in unchecked(adjustment)]
    if bare:
        every = len(bare) == len(adjustment.residuals)
        yield Finding(
            code="survey-unchecked",
            severity=Severity.NOTE,
            place="survey" if every else listed(bare),
            found=f"nothing checks {'any of the readings' if every else listed(bare)}: a slip there would not show",
            expected="every reading checked by another",
            remedy=f"measure {check.name} as a check" if check else "measure these twice, from the other end",
            source="our default",
        )
    freedom = adjustment.degrees_of_freedom
    if freedom >= AGREEING_TOO_WELL and adjustment.sum_of_squares < quantile(RISK, freedom):
        times = 1 / max(math.sqrt(adjustment.variance_factor), RISK)
        yield Finding(
            code="survey-agree-too-well",
            severity=Severity.NOTE,
            place="survey",
            found="the readings agree "
            + (f"{times:.0f} times better than the accuracy stated" if times * RISK < 1 else "to the last digit"),
            expected="readings as true as stated, no truer",
            remedy="state the accuracy you really have; if some were worked out instead of measured, leave those out",
            source="yours",
        )


def sharper(reading: Reading, style: LengthStyle) -> Finding:
    """Returns the note that one more reading would make the worst corner much better known, with the gain."""
    before, after = (_finely(value, style) for value in (reading.sd_before, reading.sd_after))
    return Finding(
        code="survey-measure-next",
        severity=Severity.NOTE,
        place=f"corner {reading.corner}",
        found=f"{reading.corner} is the corner known worst, to {before}, one standard deviation",
        expected=f"{after} for the worst corner, with {reading.name} measured as well",
        remedy=f"measure {reading.name}",
        source="our default",
    )


def corners_of(corners: Sequence[Corner], sds: Sequence[float], worst: float, style: LengthStyle) -> Iterator[Finding]:
    """Yields how far each corner is out of square over its shorter wall, and which corners are weakly fixed.

    Args:
        corners: anticlockwise.
        sds: standard deviation of the angle at each, radians.
        worst: mm, standard deviation of the worst reading or assumption.
        style: how lengths print.
    """
    most = WEAK * max(worst, READING)
    weak = [corner for corner in corners if max(corner.sd_x, corner.sd_y) > most]
    if len(weak) > MOST_NAMED:
        yield _many_weak(corners, weak, most, style)
        weak = []
    ring = [corners[-1], *corners, corners[0]]
    lengths = [math.dist((a.x, a.y), (b.x, b.y)) for a, b in pairwise(ring)]
    for i, (corner, sd) in enumerate(zip(corners, sds, strict=True)):
        square = math.pi / 2 if corner.angle < math.pi else 3 * math.pi / 2
        off, over = corner.angle - square, min(lengths[i], lengths[i + 1])
        out = over * math.sin(abs(off))
        if abs(off) < NEAR_SQUARE and out > NOTICED and abs(off) > CRITICAL * sd:
            way = "opens out" if off > 0 else "closes in"
            yield Finding(
                code="survey-out-of-square",
                severity=Severity.NOTE,
                place=f"corner {corner.name}",
                found=f"corner {corner.name} {way}: out of square by {style.text(out)} over {style.text(over)} "
                f"({math.degrees(corner.angle):.2f} degrees)",
                remedy="nothing to do: the layout is set to the room as it is",
            )
        if corner in weak:
            yield Finding(
                code="survey-weak-corner",
                severity=Severity.WARNING,
                place=f"corner {corner.name}",
                found=f"corner {corner.name} is known only to {style.text(max(corner.sd_x, corner.sd_y))}, "
                "one standard deviation",
                expected=f"{style.text(most)} or better",
                remedy=f"measure another diagonal to {corner.name}",
                source="our default",
            )


def _many_weak(corners: Sequence[Corner], weak: Sequence[Corner], most: float, style: LengthStyle) -> Finding:
    """The warning that a long outline is measured too loosely, as a whole."""
    worst = max(weak, key=lambda corner: (round(max(corner.sd_x, corner.sd_y), 6), corner.name))
    return Finding(
        code="survey-weak-corner",
        severity=Severity.WARNING,
        place=f"corner {worst.name}",
        found=f"{len(weak)} of {len(corners)} corners are known worse than {style.text(most, unit=True)}, one standard "
        f"deviation; the worst, {worst.name}, only to {style.text(max(worst.sd_x, worst.sd_y), unit=True)}",
        expected=f"{style.text(most, unit=True)} or better",
        remedy=f"tape every corner from {_far_apart([corner.name for corner in corners], 3)}, which lie far apart: "
        "readings to neighbours alone let a long outline bend",
        source="our default",
    )
