"""First lines side by side, as plain text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.cli.report import nothing_laid
from floorwright.cli.text import paragraph, plain, table
from floorwright.control.words import fine
from floorwright.job.compare import compare
from floorwright.layout.quick import SEARCHED
from floorwright.sheets.compared import called
from floorwright.sheets.words import sentence

if TYPE_CHECKING:
    from floorwright.job.compare import Scored
    from floorwright.job.solution import Solution
    from floorwright.units import LengthStyle


def compared_text(solution: Solution) -> str:
    """Returns every first line and centre that the room offers, best first, with the cut at every wall."""
    comparison = compare(solution)
    if comparison is None:
        return nothing_laid(solution)
    style = solution.style
    ranked = list(enumerate(comparison.candidates, start=1))
    walls = list(dict.fromkeys(cut.wall for _, one in ranked for cut in one.option.walls))
    blocks = [
        table(
            ("", "First line and centre", "joint", "narrowest", "small", "cut", "drift", "why here"),
            ((str(rank), *_row(one, style)) for rank, one in ranked),
            left=(0, 1, 7),
        )
    ]
    if walls:
        blocks.append(
            table(
                ("", *(f"cut at {wall}" for wall in walls)),
                ((str(rank), *(_cut(one, wall, style) for wall in walls)) for rank, one in ranked),
            )
        )
    blocks += [paragraph(plain(sentence(finding.found))) for finding in comparison.findings]
    blocks.append(paragraph(sentence(f"searched: {SEARCHED}")))
    return "\n\n".join(blocks)


def _row(one: Scored, style: LengthStyle) -> tuple[str, ...]:
    option = one.option
    return (
        plain(called(one)),
        style.entered_text(option.joint),
        style.text(option.worst, feet=False),
        str(option.under),
        str(option.cut),
        fine(one.drift, style),
        one.reason,
    )


def _cut(one: Scored, wall: str, style: LengthStyle) -> str:
    cut = next((cut for cut in one.option.walls if cut.wall == wall), None)
    if cut is None:
        return ""
    ends = [style.text(end, feet=False) for end in (cut.thin, cut.fat)]
    return ends[0] if ends[0] == ends[1] else " to ".join(ends)
