"""Cut these lines in this order: the list that hangs by the saw."""

from collections import Counter
from typing import Final

from floorwright.draw.sheet import Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.scoring.cautions import BRIEFLY
from floorwright.scoring.lines import ScoreLine
from floorwright.scoring.scored import Scored
from floorwright.scoring.stops import NODE
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import counted, listed

MOST_LENGTHS: Final = 3
MOST_STOPS: Final = 4
"""Lengths of one line, and lines that it stops at, told one by one in the list."""


def lines_sheet(solution: Solution) -> Sheet:
    """Returns the list of lines in the order in which they are cut; the solution must have them."""
    scored = solution.scored
    assert scored is not None
    figures = Figures(style=solution.style)
    table = lines_table(scored, figures)
    there = [line for line in scored.lines if line.kind == "joint"]
    notes = [f"Running figures are square to the line, from corner {scored.nail}: never add one to another."]
    if there:
        notes.append(f"Not cut, they are joints: {listed([_joint_text(line) for line in there])}.")
    return Sheet(
        key="lines",
        title=f"Cut {counted(len(scored.cut_in_order), 'line')} in this order, from corner {scored.nail}.",
        blocks=(Prose(lines=(BRIEFLY,), tone="caution"), table, Prose(lines=tuple(notes), tone="quiet")),
        lists=(("score-lines", table),),
    )


def _joint_text(line: ScoreLine) -> str:
    return f"{line.name} ({', '.join(line.joints)})"


def lines_table(scored: Scored, figures: Figures) -> Table:
    """Returns the lines to cut in order: running figure, the lengths to cut, and where each cut stops."""
    rows = []
    for number, line in enumerate(scored.cut_in_order, start=1):
        what = "border" if line.what == "border" else "score"
        rows.append(
            (str(number), line.name, what, figures.room(line.running), cuts_text(line, figures), stops_text(line))
        )
    return Table(
        columns=(
            Column(heading="Cut", align="right"),
            Column(heading="Line"),
            Column(heading="What"),
            Column(heading="Running", unit=figures.column, align="right", marked=True),
            Column(heading="Length", unit=figures.column, align="right", marked=True),
            Column(heading="Do not cut past"),
        ),
        rows=tuple(rows),
        ticks=True,
    )


def cuts_text(line: ScoreLine, figures: Figures) -> str:
    """Returns the lengths to cut on a line in their order, those alike counted; many that differ as a sum."""
    counts = Counter(figures.room(part.length) for part in line.parts if not part.there)
    if len(counts) > MOST_LENGTHS:
        return f"{counts.total()} cuts, {figures.room(line.to_cut)}"
    return " + ".join(length if count == 1 else f"{count} × {length}" for length, count in counts.items())


def stops_text(line: ScoreLine) -> str:
    """Returns what a line's cuts stop at, a few by name."""
    names = list(dict.fromkeys(stop.on for stop in line.stops if stop.on != NODE))
    nodes = ["its nodes"] if any(stop.on == NODE for stop in line.stops) else []
    if len(names) > MOST_STOPS:
        return f"the lines that it meets{' and its nodes' if nodes else ''}"
    return ", ".join([*names, *nodes])
