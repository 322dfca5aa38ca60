"""The ways out of cuts that do not fit, or that taper in view: what to do, by how much, and what comes of it."""

from typing import Final

from floorwright.draw.sheet import Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option
from floorwright.layout.options import breaks_limit
from floorwright.layout.say_change import counts, how_sure, unmoved_text, what_to_change
from floorwright.layout.way_out import CLOSE, GAP, JOINTS, SHARE, TURN, WayOut
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import Words, listed, sentence, words_of

MOST: Final = 4
"""Ways out that are shown for one wall; the list beside the sheets has all."""


def ways_sheet(solution: Solution, layout: Layout) -> Sheet:
    """Returns the sheet of what could be done about the walls that are in the way or out of true."""
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    walls = list(dict.fromkeys(trouble.wall for trouble in layout.troubles if trouble.ways))
    edges = any(change.moves for change in solution.changes)
    about = f" about {'wall' if len(walls) == 1 else 'walls'} {listed(walls)}" if walls and not edges else ""
    return Sheet(
        key="ways",
        title=f"What else could be done{about}.",
        blocks=(*changes_blocks(solution), *_unmoved(solution), *ways_blocks(layout, figures, words)),
        landscape=True,
        lists=(("ways-out", _list(layout, figures, words)),) if walls else (),
    )


def changes_blocks(solution: Solution) -> tuple[Table, ...]:
    """Returns the changes of the job that would save cuts, each against the job as it is."""
    if not solution.changes:
        return ()
    style = solution.style
    columns = ("Change of the job", "What it does", "As it is", "Then", "Option", "How sure")
    rows = tuple(
        tuple(
            sentence(text)[:-1]
            for text in (
                what_to_change(change, style),
                change.aim,
                counts(change.before, style),
                counts(change.option, style),
                change.option.name,
                how_sure(change),
            )
        )
        for change in solution.changes
    )
    heading = "Change the job, not the cuts"
    return (Table(heading=heading, columns=tuple(Column(heading=text) for text in columns), rows=rows),)


def _unmoved(solution: Solution) -> tuple[Prose, ...]:
    """Returns the walls that may move and had better not."""
    lines = tuple(sentence(unmoved_text(one, solution.style)) for one in solution.unmoved)
    return (Prose(lines=lines, tone="quiet"),) if lines else ()


def ways_blocks(layout: Layout, figures: Figures, words: Words) -> tuple[Table, ...]:
    """Returns a table of ways out for each wall that needs one, those that keep the limit first."""
    return tuple(
        Table(
            heading=sentence(trouble.found)[:-1],
            columns=_columns(figures),
            rows=tuple(_row(way, layout, figures, words) for way in trouble.ways[:MOST]),
        )
        for trouble in layout.troubles
        if trouble.ways
    )


def _columns(figures: Figures) -> tuple[Column, ...]:
    return (
        Column(heading="What to do"),
        Column(heading="Narrowest", unit=figures.column, align="right"),
        Column(heading="Full", align="right"),
        Column(heading="Cut", align="right"),
        Column(heading="Cuts at the walls, start to end", unit=figures.column),
    )


def _list(layout: Layout, figures: Figures, words: Words) -> Table:
    """Returns every way out in one list, each with the name that it is chosen by."""
    return Table(
        columns=(Column(heading="Where"), *_columns(figures), Column(heading="Option")),
        rows=tuple(
            (sentence(trouble.found)[:-1], *_row(way, layout, figures, words), way.option.name)
            for trouble in layout.troubles
            for way in trouble.ways
        ),
    )


def _row(way: WayOut, layout: Layout, figures: Figures, words: Words) -> tuple[str, ...]:
    option = way.option
    notes = ["chosen"] if option.name == layout.chosen.name else []
    notes += ["under the limit"] if breaks_limit(option, layout.limit) else []
    return (
        sentence(what_to_do(way, figures, words))[:-1] + (f" ({', '.join(notes)})" if notes else ""),
        figures.cut(option.worst),
        str(option.full),
        str(option.cut),
        cuts_at_walls(option, figures),
    )


def what_to_do(way: WayOut, figures: Figures, words: Words) -> str:
    """Returns what to do and by how much: `turn the pattern left 12 mm over N (4210 mm), true to N`."""
    by = figures.cut(way.by, unit=True)
    if way.how in (JOINTS, CLOSE):
        turned = "open" if way.how == JOINTS else "close"
        what = f"{turned} the {words.joint}s by {by}, to {figures.entered(way.option.joint, unit=True)}"
    elif way.how in (TURN, SHARE):
        side = "left" if way.turn > 0 else "right"
        what = f"turn the pattern {side} {by} over {way.wall} ({figures.room(way.over)})"
    elif way.how == GAP:
        what = f"let the {words.gap} grow by {by}"
    else:
        what = f"move the pattern {by}"
    notes = [note for note in (way.note, way.needs and f"would need {way.needs}") if note]
    return ", ".join((what, *notes))


def cuts_at_walls(option: Option, figures: Figures) -> str:
    """Returns the cuts at every wall, start to end: `S 447, E 289–276.5`."""
    said = []
    for wall in option.walls:
        start, end = figures.cut(wall.start), figures.cut(wall.end)
        said.append(f"{wall.wall} {start if start == end else f'{start}–{end}'}")
    return ", ".join(said)
