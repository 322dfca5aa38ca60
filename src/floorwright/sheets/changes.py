"""Changes since the revision that a floor was laid by: what, where, before and after."""

from collections import Counter

from floorwright.cuts.refit import BROKEN, MISFIT, NOTHING, Refit
from floorwright.cuts.say_refit import choice_text, misfit_text, misfits_by_wall, short_text, size_text
from floorwright.draw.sheet import Block, Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import counted, listed, sentence

LAID = "What is laid stays: the pattern, its joint and its lines are those of the earlier sheets."


def changes_sheet(solution: Solution, refit: Refit) -> Sheet:
    """Returns the sheet of what has changed since a floor was laid by an earlier revision."""
    figures = Figures(style=solution.style)
    return Sheet(
        key="changes",
        title=changes_title(refit),
        blocks=changes_blocks(solution, refit),
        lists=(("changes", _table(refit, figures)),) if refit.changes else (),
    )


def changes_title(refit: Refit) -> str:
    """Returns what has become of the floor, in one line."""
    if refit.verdict == NOTHING:
        return f"Nothing to do: nothing has changed since {refit.since}."
    return f"Changes since {refit.since}: {counted(len(refit.changes), 'piece')}."


def changes_blocks(solution: Solution, refit: Refit) -> tuple[Block, ...]:
    """Returns what is said and listed of the changes."""
    style, figures = solution.style, Figures(style=solution.style)
    start, end = refit.held
    tied = f"Both measurements are tied at corner {start}, in the direction of {end}."
    blocks: list[Block] = [Prose(lines=(f"{counted(len(refit.laid), 'piece')} laid. {LAID}", tied))]
    lines = tuple(sentence(misfit_text(some, style)) for some in misfits_by_wall(refit.misfits).values())
    if refit.verdict == MISFIT:
        blocks.append(Prose(heading="What is laid does not fit", lines=lines, tone="limit"))
    elif refit.misfits:
        blocks.append(Prose(heading="Gaps at what is laid", lines=lines, tone="doubt"))
    if refit.verdict == BROKEN:
        lines = tuple(sentence(choice_text(choice, style)) for choice in refit.choices)
        blocks.append(Prose(heading="The limit is broken: choose", lines=lines, tone="limit"))
    if refit.changes:
        blocks.append(_table(refit, figures))
    return tuple(blocks)


def _table(refit: Refit, figures: Figures) -> Table:
    columns = (
        Column(heading="Number"),
        Column(heading="Was"),
        Column(heading="Where"),
        Column(heading="What"),
        Column(heading="Before", unit=figures.column, align="right"),
        Column(heading="After", unit=figures.column, align="right"),
        Column(heading="If it is cut already"),
    )
    rows = Counter(
        (
            change.label,
            change.label_before,
            listed(list(change.walls)),
            sentence(change.what)[:-1],
            size_text(change.before, figures.style),
            size_text(change.after, figures.style),
            sentence(short_text(change, figures.style))[:-1],
        )
        for change in refit.changes
    )
    # Full tiles have no numbers: those that fare alike stand in one row.
    return Table(
        columns=columns,
        rows=tuple(row if many == 1 else (row[0], f"{many} full", *row[2:]) for row, many in rows.items()),
    )
