"""What cannot be so in the pattern that is scored: one that no saw cuts, sizes it has not, keys of another pattern."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.job.check.needs import unused
from floorwright.job.check.pattern import out_of_range
from floorwright.job.inputs.score_cells import is_drawn, scored_patterns, sizes
from floorwright.job.read.misfit import quoted
from floorwright.job.read.problem import Problem, did_you_mean, listed
from floorwright.pattern.catalogue import KEYS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.job.model import Job
    from floorwright.job.model.scoring import Cells
    from floorwright.job.read.positions import Path
    from floorwright.pattern.entry import Pattern

OF_SIZE = ("length", "width", "sizes")
"""Keys that a drawn pattern has in its corners."""


def check_cells(job: Job, asked: Cells, path: Path) -> Iterator[Problem]:
    """Yields what cannot be so in the pattern of a scored part.

    Args:
        job: what is left of it.
        asked: the part.
        path: of its table; it is dropped with what cannot be mended.
    """
    fitting = scored_patterns(job)
    if asked.pattern not in fitting:
        near = did_you_mean(asked.pattern, fitting)
        yield Problem(
            path=(*path, "pattern"),
            code="job-choice",
            found=quoted(asked.pattern),
            expected=f"a pattern whose lines can be cut: {listed(list(fitting))}",
            remedy=f'write "{near}"' if near else "write one of them",
            drop=path,
        )
        return
    pattern = fitting[asked.pattern]
    yield from _keys(asked, pattern, path)
    yield from _sizes(job, asked, pattern, path)


def _keys(asked: Cells, pattern: Pattern, path: Path) -> Iterator[Problem]:
    given = asked.model_fields_set & {*KEYS, "stand", *OF_SIZE}
    own = {one.key for one in pattern.parameters} | ({"stand"} if pattern.stands else set())
    own |= set() if is_drawn(asked) else set(OF_SIZE)
    for key in sorted(given - own):
        yield unused((*path, key), f"`{key}` with {quoted(asked.pattern)}")
    if asked.stain_by == "size" and len(pattern.kinds) == 1:
        yield unused((*path, "stain_by"), f'`stain_by = "size"` with {quoted(asked.pattern)}, which has one')
    for parameter in pattern.parameters:
        value = getattr(asked, parameter.key, None)
        if parameter.key in given and value is not None and not parameter.allows(value):
            yield out_of_range((*path, parameter.key), parameter, value, path)


def _sizes(job: Job, asked: Cells, pattern: Pattern, path: Path) -> Iterator[Problem]:
    if is_drawn(asked):
        return
    if asked.length is None:
        yield Problem(
            path=(*path, "length"),
            code="job-missing-key",
            found="no `length`",
            expected="one, of a cell from line to line",
            remedy="add length = ...",
            drop=path,
        )
        return
    others = [kind.name for kind in pattern.kinds[1:]]
    for name in asked.sizes:
        if name not in others:
            near = did_you_mean(name, others) if others else None
            yield Problem(
                path=(*path, "sizes", name),
                code="job-choice",
                found=f"a size called {quoted(name)}",
                expected=f"{listed(others)}; `length` and `width` are those of the {pattern.kinds[0].name}"
                if others
                else f"no sizes: {quoted(pattern.name)} has one, `length` and `width`",
                remedy=f"write {near}" if near else "take it out",
                drop=path,
            )
            return
    missing = [name for name in others if name not in sizes(job, asked)]
    if missing:
        yield Problem(
            path=(*path, "sizes"),
            code="job-missing-key",
            found=f"no size of the {listed(missing)} of {quoted(pattern.name)}",
            expected=f"one for each; `length` and `width` are those of the {pattern.kinds[0].name}",
            remedy="write sizes = { " + ", ".join(f"{name} = ..." for name in missing) + " }",
            drop=path,
        )
