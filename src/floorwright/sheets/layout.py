"""The pattern on the floor, every cut piece numbered; the cut at both ends of every wall; the other positions."""

from floorwright.cuts.schedule import CutList
from floorwright.draw.sheet import Block, Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option, Proof, WallCut
from floorwright.sheets.control import line_items
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import Frame, arrange, frame
from floorwright.sheets.plan import (
    corner_names,
    door_side,
    floor_items,
    obstacle_items,
    plan_box,
    wall_items,
    wall_names,
)
from floorwright.sheets.tiles import number_items, tile_items
from floorwright.sheets.words import Words, counted, sentence, told, words_of

MARGIN = 9.0
WIDE_MARGIN = 11.0
"""mm on paper about the plan, for numbers of two figures led outside and of three."""

NAMES = 1.1
"""mm on paper from the edge of the drawing to the middle of a wall's name."""

DOOR = 1.4
"""The same to the middle of the arrow at a door."""

IN_TABLES = {"layout-refused", "layout-taper"}
"""Findings that the tables of the sheet tell."""

MOST_WALLS = 4
"""Walls whose cuts stand in one table with the positions, on paper turned."""

LEGEND_ROOM = 12.0
"""mm on paper under the drawing, for one line."""

SHOWN = 12
"""Options shown; the rest are counted."""

LEGEND = "Thick sides are sawn; a hatched piece is under the limit."

FEWER = "Where pieces are too small to number, the numbers left out run on between those shown."

NO_MOVEMENT_JOINTS = "Movement joints are not placed here: ask the designer."


def layout_sheet(solution: Solution, layout: Layout, cuts: CutList) -> Sheet:
    """Returns the sheet of one zone's pattern; the solution must have a room and control."""
    room, region, control = solution.room, solution.region, solution.control
    assert room is not None
    assert region is not None
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    title = _title(layout, figures)
    margin = MARGIN if len(cuts.pieces) < 100 else WIDE_MARGIN
    place = frame(
        plan_box(region),
        paper=solution.job.paper,
        imperial=figures.imperial,
        title=title,
        margin=margin,
        under=LEGEND_ROOM,
    )
    lines = line_items(control, ("first line", "square line")) if control else ()
    numbers = number_items(layout, cuts, room, place, lines)
    view = place.view(
        f"layout-{layout.zone}",
        _described(layout),
        (
            *floor_items(room, region),
            *tile_items(layout),
            *obstacle_items(room),
            *wall_items(room),
            *lines,
            *numbers.items,
            *wall_names(room, place, margin - NAMES),
            *door_side(room, place, margin - DOOR),
            *corner_names(room, place),
        ),
    )
    side: tuple[Block, ...] = (
        Prose(lines=(LEGEND, *((FEWER,) if numbers.left_out else ())), tone="quiet"),
        _pattern(layout, figures, words),
        *_walls(layout, figures),
        Prose(lines=(NO_MOVEMENT_JOINTS,), tone="caution"),
    )
    after: tuple[Block, ...] = (*_options(layout, figures, words, place), *_refused(layout), *_proofs(layout, figures))
    return Sheet(key="layout", title=title, blocks=arrange(place, view, side, after), landscape=place.landscape)


def _title(layout: Layout, figures: Figures) -> str:
    chosen = layout.chosen
    if not chosen.cut:
        return f"Lay {counted(chosen.full, 'full tile')}; nothing is cut."
    return f"Lay {chosen.full} full and {chosen.cut} cut tiles; the narrowest is {figures.cut(chosen.worst)}."


def _described(layout: Layout) -> str:
    chosen = layout.chosen
    counts = f"{chosen.full} full and {chosen.cut} cut pieces, numbered"
    return f"Plan of the {layout.cell.name} in zone {layout.zone}: {counts}."


def _pattern(layout: Layout, figures: Figures, words: Words) -> Prose:
    least, most = layout.gap
    gap = figures.entered(least, unit=True)
    if most > least:
        gap += f" to {figures.entered(most, unit=True)}"
    return Prose(
        lines=(
            sentence(f"{words.pattern(layout.cell.name)}, {figures.size(*layout.cell.size)}"),
            sentence(f"{words.joint} {figures.entered(layout.cell.joint, unit=True)}, {words.gap} {gap} at the walls"),
            sentence(layout.chosen.name),
            "Walls run anticlockwise; taper is told for one tile.",
        )
    )


def _walls(layout: Layout, figures: Figures) -> tuple[Table, ...]:
    if not layout.chosen.walls:
        return ()
    table = Table(
        heading="Cut along each wall",
        columns=(
            Column(heading="Wall"),
            Column(heading="Start", unit=figures.column, align="right"),
            Column(heading="End", unit=figures.column, align="right"),
            Column(heading="Taper", unit=figures.column, align="right"),
        ),
        rows=tuple(_wall_row(wall, figures) for wall in layout.chosen.walls),
    )
    return (table,)


def _wall_row(wall: WallCut, figures: Figures) -> tuple[str, ...]:
    ends = [figures.cut(end) for end in (wall.start, wall.end)]
    taper = figures.reading(wall.taper)
    return wall.wall, *ends, taper if taper.strip('0."') else "none"


def _options(layout: Layout, figures: Figures, words: Words, place: Frame) -> tuple[Block, ...]:
    """Returns the positions with the cut at both ends of every wall: in one table, or in two where one is too wide."""
    ranked = [option for option in layout.options if not option.refused]
    if not ranked:
        return (Prose(lines=("No position can be laid as it is; the one drawn is the least bad.",), tone="limit"),)
    shown = ranked[:SHOWN]
    walls = list(dict.fromkeys(wall.wall for option in shown for wall in option.walls))
    more = f", {len(shown)} of {len(ranked)}" if len(ranked) > len(shown) else ""
    heading = f"Positions that can be laid, best first{more}"
    letters = [chr(ord("A") + n) for n in range(len(shown))]
    head = [
        [letter, _option_words(option, option == layout.chosen, figures)]
        for letter, option in zip(letters, shown, strict=True)
    ]
    counts = [[figures.entered(one.joint), figures.cut(one.worst), str(one.full), str(one.cut)] for one in shown]
    cuts = [_wall_cuts(option, walls, figures) for option in shown]
    first = (Column(heading=""), Column(heading="Position"))
    figure_columns = (
        Column(heading=words.joint.capitalize(), unit=figures.column, align="right"),
        Column(heading="Narrowest", unit=figures.column, align="right"),
        Column(heading="Full", align="right"),
        Column(heading="Cut", align="right"),
    )
    wall_columns = tuple(Column(heading=f"Wall {wall}", unit=figures.column, align="right") for wall in walls)
    if place.landscape and len(walls) <= MOST_WALLS and not figures.imperial:
        rows = tuple((*a, *b, *c) for a, b, c in zip(head, counts, cuts, strict=True))
        return (Table(heading=heading, columns=(*first, *figure_columns, *wall_columns), rows=rows),)
    named = Table(
        heading=heading,
        columns=(*first, *figure_columns),
        rows=tuple((*a, *b) for a, b in zip(head, counts, strict=True)),
    )
    if not walls:
        return (named,)
    along = Table(
        heading="Their cuts at both ends of every wall",
        columns=(first[0], *wall_columns),
        rows=tuple((letter, *c) for letter, c in zip(letters, cuts, strict=True)),
    )
    return named, along


def _option_words(option: Option, chosen: bool, figures: Figures) -> str:
    notes = ["chosen"] if chosen else []
    if option.under:
        notes.append(f"{option.under} under the limit")
    if option.fragile:
        notes.append(f"fragile: {figures.cut(option.shaken)} when set out a little wrong")
    return sentence(option.name)[:-1] + (f" ({', '.join(notes)})" if notes else "")


def _wall_cuts(option: Option, walls: list[str], figures: Figures) -> list[str]:
    cuts = {wall.wall: wall for wall in option.walls}
    return [_both_ends(cuts[wall], figures) if wall in cuts else "" for wall in walls]


def _both_ends(wall: WallCut, figures: Figures) -> str:
    start, end = figures.cut(wall.start), figures.cut(wall.end)
    return start if start == end else f"{start}–{end}"


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
