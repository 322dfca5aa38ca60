"""What a job's own tape makes of every distance: not true, not read at 20 degrees C, pulled hard, or hung."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from floorwright.control.words import FINE, RUN, fine
from floorwright.findings import Finding, Severity
from floorwright.job.model.forces import KG_A_MM, NEWTONS, SQUARE_MM, amount
from floorwright.job.model.values import ends
from floorwright.survey.steel import Pull, droop, sag, stretch, true_length

if TYPE_CHECKING:
    from floorwright.job.model import Job, Survey

MOST_CORRECTED: Final = 0.003
"""A tape that is out by more than this part of a length is broken, or was compared wrongly (our default)."""


def corrected(read: float, booked: Survey, key: str = "") -> float:
    """Returns the true length of a distance read with the survey's tape, mm.

    Args:
        read: mm.
        booked: the survey.
        key: of the distance, as booked; a tape that hung over it sagged.
    """
    tape = booked.tape
    reads, true = (tape.reads, tape.true) if tape.reads and tape.true else (1.0, 1.0)
    length = true_length(read, reads=reads, true=true, celsius=tape.celsius)
    held = held_by(booked)
    if held is None:
        return length
    return length + stretch(read, held) - (sag(read, held) if key in hung_over(booked) else 0.0)


def held_by(booked: Survey) -> Pull | None:
    """Returns how the tape was held while it was read; None where nobody says."""
    tape = booked.tape
    if tape.pull is None:
        return None
    return Pull(
        pull=amount(tape.pull, NEWTONS),
        made_for=amount(tape.made_for, NEWTONS),
        section=amount(tape.section or "", SQUARE_MM),
        mass=amount(tape.weight or "", KG_A_MM),
        bay=tape.held_every or math.inf,
    )


def hung_over(booked: Survey) -> tuple[str, ...]:
    """Returns the distances, as booked, over which the tape hung, whichever way round it is said."""
    said = {frozenset(ends(pair)) for pair in booked.tape.hung}
    return tuple(pair for pair in booked.distances if frozenset(ends(pair)) in said)


def tape_corrected(job: Job) -> tuple[Finding, ...]:
    """Returns what was made of every distance, where its tape makes anything of it."""
    share = corrected(1.0, job.survey) - 1.0
    hung = _hung(job)
    over, words = RUN[job.style.system]
    if not FINE[job.style.system].steps(share * over):
        # Over a room it may tell what over a metre it does not.
        over, words = max(((reads[0], f"in {key}") for key, reads in job.survey.distances.items()), default=(0.0, ""))
    if not FINE[job.style.system].steps(share * over) or not job.survey.distances:
        return hung
    is_much = abs(share) > MOST_CORRECTED
    way = "longer" if share > 0 else "shorter"
    return (
        Finding(
            code="survey-tape-corrected",
            severity=Severity.WARNING if is_much else Severity.NOTE,
            place="tape",
            found=f"every distance is taken {fine(abs(share) * over, job.style)} {words} {way} than it was read",
            expected="a tape that is true to 3 mm in a metre" if is_much else "",
            remedy="compare the tape again" if is_much else "nothing, if that is meant",
            source="yours",
        ),
        *hung,
    )


def _hung(job: Job) -> tuple[Finding, ...]:
    """How much a tape that hung has taken off, and how far down it hung, so that a person can look."""
    booked, style, held = job.survey, job.style, held_by(job.survey)
    over = [(booked.distances[key][0], key) for key in hung_over(booked)]
    if held is None or held.mass == 0.0 or not over:
        return ()
    longest, key = max(over)
    short = sag(longest, held)
    reads = f"{fine(short, style)} too long" if FINE[style.system].steps(short) else "hardly too long"
    half_way = droop(min(longest, held.bay), held.mass, held.pull)
    return (
        Finding(
            code="survey-tape-hung",
            severity=Severity.NOTE,
            place="tape",
            found=f"the tape hung over {len(over)} of the distances; over the longest, {key}, it reads {reads}, and "
            f"hangs {style.text(half_way, unit=True)} down half way from support to support",
            remedy="look whether it hangs so far down; if not, the pull or the weight is another",
            source="yours",
        ),
    )
