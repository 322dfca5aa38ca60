"""The ways out as plain text: what is in the way, what to do about it, and the name to choose it by."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.cli.text import paragraph, plain
from floorwright.layout.options import breaks_limit
from floorwright.layout.say_change import counts, how_sure, unmoved_text, what_to_change
from floorwright.sheets.ways import cuts_at_walls, what_to_do

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.job.solution import Solution
    from floorwright.layout.layout import Layout
    from floorwright.layout.way_out import WayOut
    from floorwright.sheets.figures import Figures
    from floorwright.sheets.words import Words


def ways_text(layout: Layout, figures: Figures, words: Words) -> Iterator[str]:
    """Yields a block for each wall that is in the way, or tapers in view, with every way out of it."""
    for trouble in layout.troubles:
        if trouble.ways:
            lines = [plain(f"Ways out where {trouble.found}:")]
            lines += [_way_text(way, layout, figures, words) for way in trouble.ways]
            yield "\n".join(lines)


def changes_text(solution: Solution) -> Iterator[str]:
    """Yields the changes of the job that would save cuts, if there are any."""
    style = solution.style
    lines = [
        f"- {what_to_change(change, style)}: {change.aim}. {counts(change.option, style)}, in place of "
        f"{counts(change.before, style)}; {how_sure(change)}. Option: {change.option.name}"
        for change in solution.changes
    ]
    lines += [f"- {unmoved_text(one, style)}." for one in solution.unmoved]
    if lines:
        yield "\n".join(["Change the job, not the cuts:", *(paragraph(line, "", "  ") for line in lines)])


def _way_text(way: WayOut, layout: Layout, figures: Figures, words: Words) -> str:
    option = way.option
    limit = ", under the limit" if breaks_limit(option, layout.limit) else ""
    said = (
        f"- {what_to_do(way, figures, words)}: {option.full} full, {option.cut} cut, the narrowest "
        f"{figures.cut(option.worst)}{limit}; {cuts_at_walls(option, figures)}"
    )
    name = "" if way.needs else "\n" + paragraph(f"Option: {option.name}", "  ", "  ")
    return paragraph(plain(said), "", "  ") + name
