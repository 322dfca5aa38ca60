"""A scored slab as plain text, as its sheets have it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.cli.blocks import blocks_text
from floorwright.cli.text import paragraph, plain
from floorwright.draw.sheet import Prose
from floorwright.sheets.figures import Figures
from floorwright.sheets.score_lines import lines_sheet
from floorwright.sheets.score_slab import slab_blocks
from floorwright.sheets.scoring import LEGEND, saws_table, scoring_blocks, scoring_title

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.job.solution import Solution


def is_scored(solution: Solution) -> bool:
    """Returns whether a job has lines to cut."""
    return solution.scored is not None and solution.scored.is_cut


def scoring_text(solution: Solution) -> Iterator[str]:
    """Yields how much is cut with what, in which order, and every line."""
    scored, figures = solution.scored, Figures(style=solution.style)
    if scored is None or not scored.is_cut:
        return
    yield paragraph(plain(f"{scored.design.name}: {scoring_title(scored, figures)}"))
    blocks = (*scoring_blocks(scored, figures), *slab_blocks(scored, figures))
    yield blocks_text(block for block in blocks if not (isinstance(block, Prose) and LEGEND in block.lines))
    if scored.cut_in_order:
        yield blocks_text(lines_sheet(solution).blocks)


def saws_text(solution: Solution) -> Iterator[str]:
    """Yields how much is cut with what."""
    if solution.scored is not None and solution.scored.is_cut:
        yield blocks_text((saws_table(solution.scored, Figures(style=solution.style)),))
