"""What a job's own tape makes of every distance: a tape that is not true, or was not read at 20 degrees C."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from floorwright.control.words import RUN, fine
from floorwright.findings import Finding, Severity
from floorwright.survey.steel import true_length

if TYPE_CHECKING:
    from floorwright.job.model import Job, Survey

MOST_CORRECTED: Final = 0.003
"""A tape that is out by more than this part of a length is broken, or was compared wrongly (our default)."""


def corrected(read: float, booked: Survey) -> float:
    """Returns the true length of a distance read with the survey's tape, mm."""
    tape = booked.tape
    if tape.reads is None or tape.true is None:
        return true_length(read, celsius=tape.celsius)
    return true_length(read, reads=tape.reads, true=tape.true, celsius=tape.celsius)


def tape_corrected(job: Job) -> tuple[Finding, ...]:
    """Returns what was made of every distance, where its tape makes anything of it."""
    share = corrected(1.0, job.survey) - 1.0
    if share == 0.0 or not job.survey.distances:
        return ()
    over, words = RUN[job.style.system]
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
    )
