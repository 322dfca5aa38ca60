"""What cannot be so in what is said to be laid."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from floorwright.job.check.reference import Known
from floorwright.job.read.misfit import quoted, value_at
from floorwright.job.read.problem import UNTOLD, Problem

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.job.model import Job
    from floorwright.job.read.positions import Path

LINES: Final = ("first line", "square line")
"""Control lines that a floor may be laid up to."""


def check_laid(job: Job, original: dict[str, Any]) -> Iterator[Problem]:
    """Yields what is wrong with what is laid: nothing said of it, a line without a side, a name of nothing.

    Args:
        job: what is left of it.
        original: the tables of the file, with what was left out.
    """
    laid = job.laid
    if laid is None:
        return
    path: Path = ("laid",)
    for key in ("pieces", "line", "side"):
        if value_at(original, (*path, key)) is not None and not getattr(laid, key):
            # What is wrong with that key is told already, and without it nothing is known to be laid.
            yield Problem(path=(*path, key), code=UNTOLD, found=key, drop=path)
            return
    if not laid.pieces and laid.line is None:
        yield _missing("pieces", 'pieces = ["floor:0,0,0"], or a line and the side of it that is laid')
    if laid.line is not None and laid.side is None:
        yield _missing("side", 'side = "left" or side = "right", as one looks along the line')
    if laid.side is not None and laid.line is None:
        yield _missing("line", 'line = "first line", or line = [[0, 1500], [4000, 1500]]')
    if isinstance(laid.line, str) and laid.line not in LINES:
        yield Problem(
            path=(*path, "line"),
            code="job-choice",
            found=quoted(laid.line),
            expected="first line or square line, or two points",
            remedy='write "first line"',
            drop=path,
        )
    corners = Known(
        code="job-unknown-corner", what="a corner", names=job.survey.outline, all_left_out=not job.survey.outline
    )
    for i, corner in enumerate(laid.hold or ()):
        yield from corners.check((*path, "hold", i), corner, path)
    if laid.hold is not None and laid.hold[0] == laid.hold[1]:
        yield Problem(
            path=(*path, "hold"),
            code="job-range",
            found=f"{laid.hold[0]} twice",
            expected="two corners that have not moved",
            remedy="write another for one of them",
            drop=path,
        )
    if isinstance(laid.line, tuple):
        for i, at in enumerate(laid.line):
            if isinstance(at, str):
                yield from corners.check((*path, "line", i), at, path)


def _missing(key: str, remedy: str) -> Problem:
    return Problem(
        path=("laid", key),
        code="job-missing-key",
        found=f"no `{key}`",
        expected="which pieces are laid",
        remedy=f"add {remedy}",
        drop=("laid",),
    )
