"""Practice as data: the files, and of each exercise what is asked for and how it is marked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.export.data import files_data, number

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from floorwright.export.data import Data
    from floorwright.practice.exercise import Exercise, Marking


def practice_data(made: Iterable[Exercise], marking: Marking, written: Iterable[Path], kept: Iterable[Path]) -> Data:
    """Returns the files with the exercises in them."""
    data = files_data((), written, kept)
    findings = data.pop("findings")
    return {
        **data,
        "marking": {"full_mm": number(marking.full), "half_mm": number(marking.half), "marks": marking.marks},
        "exercises": [_exercise(one) for one in made],
        "findings": findings,
    }


def _exercise(one: Exercise) -> Data:
    return {
        "kind": one.kind,
        "variation": one.number,
        "title": one.title,
        "answers": [{"what": answer.what, "answer": answer.figure, "sum": answer.sum} for answer in one.answers],
        "checks": [
            {"what": check.what, "expected_mm": number(check.expected), "on_paper": check.on_paper}
            for check in one.checks
        ],
        "named": one.exact,
    }
