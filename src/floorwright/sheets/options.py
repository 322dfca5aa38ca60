"""The positions in which the pattern can be laid, ranked, those that cannot, and what is proved of the best."""

from math import inf, isinf

from floorwright.draw.paper import body_space, title_height
from floorwright.draw.sheet import Block, Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.layout.aims import COUNTS, NO_PIECE_UNDER
from floorwright.layout.angles import FIRST_LINE, turn_text
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option, Proof, WallCut
from floorwright.layout.sought import ALONG_AXES
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import BLOCK, HEADING_HIGH, ROW_HIGH, TABLE_HEAD, prose_height
from floorwright.sheets.words import Words, listed, sentence, told, words_of

IN_TABLES = {"layout-refused", "layout-taper", "layout-ways-out", "layout-change"}
"""Findings that the tables of this sheet, of the layout and of the ways out tell."""

MOST_WALLS = 4
"""Walls whose cuts stand in one table with the positions."""

MOST_COLUMNS = 8
"""Walls that a table of their own has room for beside each other."""

MOST_REFUSED = 4
"""Positions that cannot be laid which stand on the page; the list beside the sheets has all."""

CUTS_SHOWN = 3
"""Options whose cuts stand in a table of their own, where the walls are too many for one table."""

LEAST_SHOWN, SHOWN = 4, 12
"""Options shown, as many of them as leave room for the rest on one page; the others are counted."""


def options_sheet(solution: Solution, layout: Layout) -> Sheet:
    """Returns the sheet of one zone's positions."""
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    ranked = [option for option in layout.options if not option.refused]
    title = _title(len(ranked))
    rest: tuple[Block, ...] = (*_refused(layout), *_proofs(layout, figures))
    width, height = body_space(solution.job.paper, landscape=True)
    room = height - title_height(title, width) - prose_height(rest, width) - BLOCK - TABLE_HEAD
    # The name of the chosen one may take two lines.
    room -= ROW_HIGH
    if len(ranked) > room / ROW_HIGH:
        room -= HEADING_HIGH
    if len(layout.chosen.walls) > MOST_WALLS:
        # The walls' names over their columns may take two lines too.
        room -= BLOCK + TABLE_HEAD + HEADING_HIGH + ROW_HIGH * (1 + CUTS_SHOWN)
    shown = _shown(ranked, layout.chosen, max(LEAST_SHOWN, min(SHOWN, int(room / ROW_HIGH))))
    walls = _told_walls(shown, layout.chosen)
    return Sheet(
        key="options",
        title=title,
        blocks=(*_ranked(shown, len(ranked), layout, walls, figures, words), *rest),
        landscape=True,
        lists=(("options", _list(layout, figures, words)),),
    )


def _shown(ranked: list[Option], chosen: Option, most: int) -> list[tuple[str, Option]]:
    """Returns the best options, each with its letter, and the chosen one in place of the last if it is none of them."""
    lettered = [(chr(ord("A") + n), option) for n, option in enumerate(ranked)]
    shown = lettered[:most]
    if chosen in ranked[most:]:
        shown[-1] = lettered[ranked.index(chosen)]
    return shown


def _told_walls(shown: list[tuple[str, Option]], chosen: Option) -> list[str]:
    """Returns the walls whose cuts are told, in their order: of too many those where the chosen one is narrowest."""
    walls = list(dict.fromkeys(wall.wall for _, option in shown for wall in option.walls))
    if len(walls) <= MOST_COLUMNS:
        return walls
    thin = {wall.wall: wall.thin for wall in chosen.walls}
    narrowest = sorted(walls, key=lambda wall: thin.get(wall, inf))[:MOST_COLUMNS]
    return [wall for wall in walls if wall in narrowest]


def _title(laid: int) -> str:
    if not laid:
        return "No position can be laid as it is; the one drawn is the least bad."
    return "This position can be laid." if laid == 1 else f"These {laid} positions can be laid, best first."


def _ranked(
    shown: list[tuple[str, Option]], laid: int, layout: Layout, walls: list[str], figures: Figures, words: Words
) -> tuple[Table, ...]:
    """Returns the positions with the cut at both ends of every wall: in one table, or in two where one is too wide."""
    if not shown:
        return ()
    columns = (Column(heading=""), *_columns(figures, words))
    rows = [(letter, *_row(option, layout, figures)) for letter, option in shown]
    wall_columns = _wall_columns(walls, figures)
    cuts = [_wall_cuts(option, walls, figures) for _, option in shown]
    heading = f"{len(shown)} of {laid}" if laid > len(shown) else ""
    every = {wall.wall for _, option in shown for wall in option.walls}
    which = "every wall" if len(walls) == len(every) else f"the {len(walls)} walls with the narrowest"
    if len(walls) <= MOST_WALLS:
        both = tuple((*row, *cut) for row, cut in zip(rows, cuts, strict=True))
        return (Table(heading=heading, columns=(*columns, *wall_columns), rows=both),)
    return (
        Table(heading=heading, columns=columns, rows=tuple(rows)),
        Table(
            heading=f"Cuts of the best at both ends of {which}",
            columns=(columns[0], *wall_columns),
            rows=tuple((letter, *cut) for (letter, _), cut in zip(shown, cuts, strict=True))[:CUTS_SHOWN],
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
    heading = "Refused" if len(rows) <= MOST_REFUSED else f"Refused: {MOST_REFUSED} of {len(rows)}"
    columns = (Column(heading="Position"), Column(heading="Why"))
    return (Table(heading=heading, columns=columns, rows=rows[:MOST_REFUSED]),)


def _proofs(layout: Layout, figures: Figures) -> tuple[Prose, ...]:
    lines = proof_lines(layout, figures)
    found = tuple(told(finding) for finding in layout.findings if finding.code not in IN_TABLES)
    blocks = []
    if lines:
        tone = "agrees" if all(proof.status == "proved" for proof in layout.proofs) else "doubt"
        blocks.append(Prose(lines=lines, tone=tone))
    if found:
        blocks.append(Prose(heading="What was found", lines=found))
    return tuple(blocks)


def decided_in(rooms: tuple[str, ...]) -> str:
    """Returns which of the rooms that run through decide it; empty for a room by itself."""
    return sentence(f"{listed(list(rooms))} {'decides' if len(rooms) == 1 else 'decide'} it") if rooms else ""


def proof_lines(layout: Layout, figures: Figures) -> tuple[str, ...]:
    """Returns what is known about how good the position laid is, and in one line what is proved elsewhere.

    Elsewhere is at other joints and angles; what a search there left open has a line of its own, with why.
    """
    own = [proof for proof in layout.proofs if proof.tells_of(layout.chosen) or proof.span is not None]
    covered = {proof.joint for proof in layout.proofs if proof.span is not None}
    others: dict[tuple[float, float | None], list[Proof]] = {}
    for proof in layout.proofs:
        if proof not in own and proof.number < 0 and proof.joint not in covered:
            others.setdefault((proof.joint, proof.angle), []).append(proof)
    widest: list[str] = []
    for some in others.values():
        if all(proof.status == "proved" for proof in some):
            bound = min(proof.bound for proof in some)
            widest.append(f"{figures.cut(bound, unit=True)} {_held(some[0], layout, figures)}")
        else:
            own += [proof for proof in some if proof.status != "proved"]
    lines = [proof_text(proof, layout, figures) for proof in own]
    if widest:
        lines.append(sentence(f"elsewhere no narrowest piece is wider than {listed(widest)}: proved"))
    return tuple(lines)


def proof_text(proof: Proof, layout: Layout, figures: Figures) -> str:
    """Returns what is known about how good a position is: proved, or by how much it may fall short."""
    if proof.number >= 0:
        return _sought_text(proof, layout, figures)
    way = "" if proof.axis == "both" else f"{proof.axis}, "
    start = f"{way}{_held(proof, layout, figures)}"
    best = figures.cut(proof.best, unit=True)
    if proof.status == "proved":
        sure = f"{best}: proved"
        if proof.span is not None:
            sure = f"{figures.cut(proof.bound, unit=True)}, and {best} is found: proved"
        found = sentence(f"{start} no position leaves a narrowest piece wider than {sure}")
        return f"{found} {decided_in(proof.decides)}".rstrip()
    bound = figures.cut(proof.bound, unit=True)
    return sentence(f"{start} the widest narrowest piece found is {best}; none is wider than {bound}; {proof.why}")


def _held(proof: Proof, layout: Layout, figures: Figures) -> str:
    """What was the same at all positions that were searched."""
    joints = f"with joints of {figures.entered(proof.joint, unit=True)}"
    lines = () if layout.floor is None else layout.floor.lines
    first = next((line.angle for line in lines if line.name == FIRST_LINE), 0.0)
    if proof.span is not None:
        low, high = (turn_text(end, first).removeprefix("at ") for end in proof.span)
        return f"{joints} at any angle from {low} to {high}"
    return joints if proof.angle is None else f"{joints} {turn_text(proof.angle, first)}"


def _found_along(proof: Proof) -> str:
    """Returns whether there is a position for an aim that one has or has not."""
    before = " that keeps to the aims before it" if proof.number else ""
    if not proof.possible:
        return f"no position{before} has it: proved"
    return proof.why or f"a position{before} has it"


def _sought_text(proof: Proof, layout: Layout, figures: Figures) -> str:
    """Returns what is known of an aim that was searched for under those before it."""
    counts = proof.aim in COUNTS
    start = f"aim {proof.number + 1}, {proof.aim}, {_held(proof, layout, figures)}"
    if isinf(proof.best):
        return sentence(f"{start}: no position keeps to the aims before it")
    if proof.aim in ALONG_AXES:
        return sentence(f"{start}: {_found_along(proof)}")
    best, bound = (f"{value:.0f}" if counts else figures.cut(value, unit=True) for value in (proof.best, proof.bound))
    if proof.aim == NO_PIECE_UNDER and proof.best == proof.bound:
        return sentence(f"{start}: some position keeps it")
    better = "has fewer" if counts else "has wider"
    if proof.status == "proved":
        none = "no position that keeps to the aims before it" if proof.number else "no position"
        return sentence(f"{start}: {best}, and {none} {better}: proved")
    return sentence(f"{start}: {best} is the best found; none {better} than {bound}; {proof.why}")
