"""The pattern that lines score into a slab, out of a job: sizes by the pattern's own names, lines without width."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from floorwright.job.inputs.patterned import DIAGONAL, patterns_of
from floorwright.pattern.answer import STANDS, answer
from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.entry import Asked
from floorwright.pattern.fitted import fitted

if TYPE_CHECKING:
    from floorwright.findings import Finding
    from floorwright.job.model import Job
    from floorwright.job.model.scoring import Cells
    from floorwright.pattern.cell import Size, UnitCell
    from floorwright.pattern.entry import Pattern

NO_CELLS: Final = ("mosaic sheets",)
"""Patterns of what hangs together, not of what lines divide."""

NO_WIDTH: Final = 0.0
"""mm, of a line: cells reach to its middle."""


def scored_patterns(job: Job) -> dict[str, Pattern]:
    """Returns every pattern whose lines can be cut: the catalogue's and those that are drawn in the job."""
    return {name: pattern for name, pattern in patterns_of(job).items() if name not in NO_CELLS}


def is_drawn(cells: Cells) -> bool:
    """Returns whether the pattern is the person's own, which has its sizes in its corners."""
    return cells.pattern not in PATTERNS


def sizes(job: Job, cells: Cells) -> dict[str, Size]:
    """Returns the size of every kind of cell, mm: as given, as it closes, or as its main one; those that are none of
    these are left out."""
    pattern = scored_patterns(job)[cells.pattern]
    if is_drawn(cells):
        drawn = pattern.make({}, NO_WIDTH)
        return (
            {one.name: one.size for one in drawn.goods}
            if drawn.sizes
            else {kind.name: drawn.size for kind in pattern.kinds}
        )
    assert cells.length is not None, "job.check_scoring lets no pattern of the catalogue without a length through"
    first, *others = pattern.kinds
    main = (cells.length, cells.length if cells.width is None else cells.width)
    closing = fitted(pattern.name, main)
    if cells.width is None:
        main = closing.get(first.name, main)
    own = {kind.name: None if kind.own else main for kind in others}
    found = {kind: cells.sizes.get(kind) or closing.get(kind) or size for kind, size in own.items()}
    return {first.name: main, **{kind: size for kind, size in found.items() if size is not None}}


def pattern_findings(job: Job, cells: Cells, place: str) -> tuple[Finding, ...]:
    """Returns what does not close in the pattern, and what is still to be chosen of it."""
    # Whoever turns it by an angle has said how it stands.
    stand = cells.stand or (STANDS[0] if "angle" in cells.model_fields_set else None)
    return answer(scored_patterns(job)[cells.pattern], _asked(job, cells, place), stand)


def cell_of(job: Job, cells: Cells) -> UnitCell:
    """Returns the unit cell, its pieces touching."""
    asked = _asked(job, cells, "")
    return scored_patterns(job)[cells.pattern].cell(asked.sizes, asked.joint, asked.values)


def turn(cells: Cells) -> float:
    """Returns the degrees from the first line to the pattern's rows."""
    return cells.angle + (DIAGONAL if cells.stand == STANDS[1] else 0.0)


def _asked(job: Job, cells: Cells, place: str) -> Asked:
    parameters = scored_patterns(job)[cells.pattern].parameters
    given: dict[str, Any] = {
        one.key: getattr(cells, one.key)
        for one in parameters
        if one.key in cells.model_fields_set and getattr(cells, one.key) is not None
    }
    return Asked(
        place=place,
        sizes=sizes(job, cells),
        joint=NO_WIDTH,
        values={**{one.key: one.default for one in parameters}, **given},
        style=job.style,
    )
