"""What has become of a floor that is partly laid, as plain text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.cli.blocks import blocks_text
from floorwright.sheets.changes import changes_blocks, changes_title

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.job.solution import Solution


def refit_text(solution: Solution) -> Iterator[str]:
    """Yields what has changed since the revision that the floor was laid by, where some of it is laid."""
    if solution.refit is not None:
        yield changes_title(solution.refit)
        yield blocks_text(changes_blocks(solution, solution.refit))
