"""The positions in which the pattern can be laid, ranked, those that cannot, and what is proved of the best."""

from floorwright.draw.sheet import Block, Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option, Proof, WallCut
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import Words, sentence, told, words_of

IN_TABLES = {"layout-refused", "layout-taper"}
"""Findings that the tables of this sheet and of the layout tell."""

MOST_WALLS = 4
"""Walls whose cuts stand in one table with the positions."""

SHOWN = 12
"""Options shown; the rest are counted."""


def options_sheet(solution: Solution, layout: Layout) -> Sheet:
    """Returns the sheet of one zone's positions."""
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    ranked = [option for option in layout.options if not option.refused]
    walls = list(dict.fromkeys(wall.wall for option in ranked[:SHOWN] for wall in option.walls))
    blocks: tuple[Block, ...] = (
        *_ranked(ranked[:SHOWN], len(ranked), layout, walls, figures, words),
        *_refused(layout),
        *_proofs(layout, figures),
    )
    return Sheet(
        key="options",
        title=_title(len(ranked)),
        blocks=blocks,
        landscape=True,
        lists=(("options", _list(layout, figures, words)),),
    )


def _title(laid: int) -> str:
    if not laid:
        return "No position can be laid as it is; the one drawn is the least bad."
    return "This position can be laid." if laid == 1 else f"These {laid} positions can be laid, best first."


def _ranked(
    shown: list[Option], laid: int, layout: Layout, walls: list[str], figures: Figures, words: Words
) -> tuple[Table, ...]:
    """Returns the positions with the cut at both ends of every wall: in one table, or in two where one is too wide."""
    if not shown:
        return ()
    letters = [chr(ord("A") + n) for n in range(len(shown))]
    columns = (Column(heading=""), *_columns(figures, words))
    rows = [(letter, *_row(option, layout, figures)) for letter, option in zip(letters, shown, strict=True)]
    wall_columns = _wall_columns(walls, figures)
    cuts = [_wall_cuts(option, walls, figures) for option in shown]
    heading = f"The best {len(shown)}, of {laid}" if laid > len(shown) else ""
    if len(walls) <= MOST_WALLS:
        both = tuple((*row, *cut) for row, cut in zip(rows, cuts, strict=True))
        return (Table(heading=heading, columns=(*columns, *wall_columns), rows=both),)
    return (
        Table(heading=heading, columns=columns, rows=tuple(rows)),
        Table(
            heading="Their cuts at both ends of every wall",
            columns=(columns[0], *wall_columns),
            rows=tuple((letter, *cut) for letter, cut in zip(letters, cuts, strict=True)),
        ),
    )


def _columns(figures: Figures, words: Words) -> tuple[Column, ...]:
    return (
        Column(heading="Position"),
        Column(heading=words.joint.capitalize(), unit=figures.column, align="right"),
        Column(heading="Narrowest", unit=figures.column, align="right"),
        Column(heading="Under limit", align="right"),
        Column(heading="Full", align="right"),
        Column(heading="Cut", align="right"),
    )


def _row(option: Option, layout: Layout, figures: Figures) -> tuple[str, ...]:
    notes = ["chosen"] if option == layout.chosen else []
    if option.fragile:
        notes.append(f"fragile: {figures.cut(option.shaken)} when set out a little wrong")
    return (
        sentence(option.name)[:-1] + (f" ({', '.join(notes)})" if notes else ""),
        figures.entered(option.joint),
        figures.cut(option.worst),
        str(option.under or ""),
        str(option.full),
        str(option.cut),
    )


def _wall_columns(walls: list[str], figures: Figures) -> tuple[Column, ...]:
    return tuple(Column(heading=f"Wall {wall}", unit=figures.column, align="right") for wall in walls)


def _wall_cuts(option: Option, walls: list[str], figures: Figures) -> tuple[str, ...]:
    cuts = {wall.wall: wall for wall in option.walls}
    return tuple(_both_ends(cuts[wall], figures) if wall in cuts else "" for wall in walls)


def _both_ends(wall: WallCut, figures: Figures) -> str:
    start, end = figures.cut(wall.start), figures.cut(wall.end)
    return start if start == end else f"{start}–{end}"


def _list(layout: Layout, figures: Figures, words: Words) -> Table:
    """Returns every position, those refused last, each with why, in one list."""
    walls = list(dict.fromkeys(wall.wall for option in layout.options for wall in option.walls))
    return Table(
        columns=(*_columns(figures, words), *_wall_columns(walls, figures), Column(heading="Refused")),
        rows=tuple(
            (*_row(option, layout, figures), *_wall_cuts(option, walls, figures), sentence(option.refused))
            for option in layout.options
        ),
    )


def _refused(layout: Layout) -> tuple[Table, ...]:
    rows = tuple((sentence(option.name)[:-1], sentence(option.refused)) for option in layout.options if option.refused)
    if not rows:
        return ()
    return (Table(heading="Refused", columns=(Column(heading="Position"), Column(heading="Why")), rows=rows),)


def _proofs(layout: Layout, figures: Figures) -> tuple[Prose, ...]:
    lines = tuple(proof_text(proof, figures) for proof in layout.proofs)
    found = tuple(told(finding) for finding in layout.findings if finding.code not in IN_TABLES)
    blocks = []
    if lines:
        tone = "agrees" if all(proof.status == "proved" for proof in layout.proofs) else "doubt"
        blocks.append(Prose(lines=lines, tone=tone))
    if found:
        blocks.append(Prose(heading="What was found", lines=found))
    return tuple(blocks)


def proof_text(proof: Proof, figures: Figures) -> str:
    """Returns what is known about how good a position is: proved, or by how much it may fall short."""
    way = "" if proof.axis == "both" else f"{proof.axis}, "
    start = f"{way}with joints of {figures.entered(proof.joint, unit=True)}"
    best = figures.cut(proof.best, unit=True)
    if proof.status == "proved":
        return sentence(f"{start} no position leaves a narrowest piece wider than {best}: proved")
    bound = figures.cut(proof.bound, unit=True)
    return sentence(f"{start} the widest narrowest piece found is {best}; none is wider than {bound}; {proof.why}")
