"""Keys that a choice needs beside it, and keys that it has no use for."""

from collections.abc import Iterator, Mapping
from typing import TypeAlias

from floorwright.findings import Severity
from floorwright.job.model.form import fields_of
from floorwright.job.model.table import Table
from floorwright.job.read.misfit import quoted
from floorwright.job.read.positions import Path
from floorwright.job.read.problem import Problem

Needs: TypeAlias = Mapping[str, tuple[str, ...]]
"""Choice -> keys."""


def needed(path: Path, table: Table, choice: str, needs: Needs, may: Needs) -> Iterator[Problem]:
    """Yields a problem for each key that a choice needs and has not, and for each that it has no use for."""
    fields = fields_of(type(table))
    given = {key for key, name in zip(fields, type(table).model_fields, strict=True) if name in table.model_fields_set}
    for key in needs.get(choice, ()):
        if key not in given:
            yield Problem(
                path=(*path, key),
                code="job-missing-key",
                found=f"no `{key}`",
                expected=f"one, because {quoted(choice)} is chosen",
                remedy=f"add {key} = ...",
                drop=path,
            )
    for key in sorted(given & {key for keys in may.values() for key in keys} - set(may.get(choice, ()))):
        yield unused((*path, key), f"`{key}` with {quoted(choice)}")


def unused(path: Path, found: str) -> Problem:
    """Returns the doubt about a key that does nothing."""
    return Problem(
        path=path,
        code="job-unused",
        found=found,
        expected="a key that does something here",
        remedy="take it out, or look at what it stands beside",
        severity=Severity.WARNING,
    )
