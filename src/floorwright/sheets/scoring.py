"""Cut these lines: the scored slab with every line named, its stops, the circle's pivot, and how much each saw cuts."""

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

import numpy as np

from floorwright.draw.sheet import Beside, Block, Column, Prose, Sheet, Steps, Table
from floorwright.draw.view import Point
from floorwright.geometry.region import Region
from floorwright.job.solution import Solution
from floorwright.scoring.lines import NODE, ScoreLine
from floorwright.scoring.say import DUST, IN_SLAB, searched_text
from floorwright.scoring.scored import Scored, colours
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import TALL, Box, Frame, frame
from floorwright.sheets.plan import corner_names, door_side, floor_items, plan_box, wall_items
from floorwright.sheets.score_plan import (
    cell_items,
    colour_letters,
    letter_items,
    name_items,
    pivot_items,
    pivot_name,
    running_items,
    score_items,
    stop_items,
)
from floorwright.sheets.words import counted, listed, sentence
from floorwright.tolerance import TOUCH
from floorwright.units import FOOT

NEAR: Final = 24.4
FAR: Final = 6.2
"""mm on paper about the plan: at the nail's sides for the running figures, at the others for names."""

UNDER: Final = 60.0
"""mm on paper under the plan, for what the signs mean and how much each saw cuts."""

MOST_LENGTHS: Final = 3
MOST_STOPS: Final = 4
"""Lengths of one line, and lines that it stops at, told one by one in the list."""

LEGEND: Final = (
    "Dotted: score, cut here. Double: a joint that is there, never cut again. Bar across an end: do not cut past. "
    "Score lines are decoration: only the joints control cracks."
)


def run_text(mm: float, figures: Figures) -> str:
    """Returns a length of cuts, as saws and blades are reckoned: `254.5 ft`, `77.57 m`."""
    return f"{mm / float(FOOT):.1f} ft" if figures.imperial else f"{mm / 1000:.2f} m"


def scoring_sheet(solution: Solution) -> Sheet:
    """Returns the plan of what is cut; the solution must have it."""
    room, region, scored = solution.room, solution.region, solution.scored
    assert room is not None
    assert region is not None
    assert scored is not None
    figures = Figures(style=solution.style)
    title = scoring_title(scored, figures)
    place = frame(
        plan_box(region),
        paper=solution.job.paper,
        imperial=figures.imperial,
        title=title,
        margin=(NEAR + FAR) / 2,
        under=UNDER,
        ways=(TALL,),
    )
    nail = scored.nail_at
    place = replace(place, window=_towards(nail, place, region))
    view = place.view(
        "scoring",
        f"Plan of the slab with {counted(len(scored.cut_in_order), 'line')} to cut, named, with running figures from "
        f"corner {scored.nail}, and the joints that are there.",
        (
            *floor_items(room, region),
            *wall_items(room),
            *score_items(scored),
            *stop_items(scored, place),
            *pivot_items(scored, figures, place),
            *running_items(scored, nail, region, figures),
            *name_items(scored, nail, region, place),
            *door_side(room, place, FAR - 2.0),
            *corner_names(room, place),
        ),
    )
    return Sheet(
        key="scoring",
        title=title,
        blocks=(view, *scoring_blocks(solution, scored, figures)),
        landscape=place.landscape,
        lists=(("saws", saws_table(scored, figures)),),
    )


def _towards(nail: Point, place: Frame, region: Region) -> Box:
    """Returns the window moved so that it leaves more room at the sides where the nail is."""
    middle = region.rings[0].mean(axis=0)
    more = place.paper((NEAR - FAR) / 2)
    x, y = (-math.copysign(more, middle[axis] - nail[axis]) for axis in (0, 1))
    least_x, least_y, most_x, most_y = place.window
    return least_x + x, least_y + y, most_x + x, most_y + y


def scoring_title(scored: Scored, figures: Figures) -> str:
    """Returns how much there is to cut, as a sentence."""
    lines = counted(len(scored.cut_in_order), "line")
    circles = len(scored.design.circles)
    rounds = f" and {'a circle' if circles == 1 else f'{circles} circles'}" if circles else ""
    there = sum(line.kind == "joint" for line in scored.lines)
    left = f"; {counted(there, 'line is', 'lines are')} there" if there else ""
    return f"Cut {lines}{rounds}, {run_text(scored.straight + scored.round, figures)}{left}."


def scoring_blocks(solution: Solution, scored: Scored, figures: Figures) -> tuple[Block, ...]:
    """Returns the words and tables about what is cut."""
    blocks: list[Block] = [
        Prose(lines=(LEGEND,), tone="quiet"),
        saws_table(scored, figures),
        Prose(heading="Before the saw is started", lines=(IN_SLAB, DUST), tone="caution"),
        Steps(heading="In this order", lines=tuple(_steps(scored, figures))),
    ]
    blocks += _circle_tables(scored, figures)
    if scored.search is not None and scored.search.landings:
        blocks += [_landings(scored, figures), Prose(lines=(sentence(searched_text(scored.search, solution.style)),))]
    if scored.strips is not None:
        blocks.append(_strips(scored, figures))
    return tuple(blocks)


def saws_table(scored: Scored, figures: Figures) -> Table:
    """Returns how much is cut with what."""
    saw, lines = scored.design.saw, scored.cut_in_order
    depth = f"{figures.entered(saw.depth, unit=True)} deep, {figures.entered(saw.width, unit=True)} wide"
    rows = [(f"{saw.name.capitalize()} along a straight guide", counted(len(lines), "line"), scored.straight, depth)]
    if scored.design.circles:
        count = len(scored.design.circles)
        rows.append(("Grinder on a pivot arm", counted(count, "circle"), scored.round, depth))
    if scored.stops:
        each = f"{figures.cut(scored.over_cut, unit=True)} at each, where the round blade falls short"
        rows.append(("By hand, at the stops", counted(scored.stops, "stop"), scored.stops * scored.over_cut, each))
    if scored.there:
        count = sum(bool(line.there) for line in scored.lines)
        rows.append(("There already, not cut", counted(count, "line"), scored.there, "on the joints in the slab"))
    return Table(
        columns=(
            Column(heading="With"),
            Column(heading="What"),
            Column(heading="Length", align="right", marked=True),
            Column(heading=""),
        ),
        rows=tuple((what, how_many, run_text(length, figures), note) for what, how_many, length, note in rows),
    )


def _steps(scored: Scored, figures: Figures) -> Iterator[str]:
    if scored.joints:
        yield "Measure every joint at both ends from the nail. They may lie 3/4 in (19 mm) off: where one does, ask."
    yield (
        f"Mark the running figures from corner {scored.nail} along both edges that a line runs between, and strike the "
        "lines with chalk that washes off, or pencil; only where the cut goes."
    )
    count = len(scored.design.circles)
    zero = scored.frame.local(np.asarray(scored.nail_at))
    for number, circle in enumerate(scored.design.circles, start=1):
        u, v = np.abs(scored.frame.local(np.asarray(circle.centre)) - zero)
        name = pivot_name(number, count)
        yield (
            f"Pivot {name}: {figures.room(float(u), unit=True)} along and {figures.room(float(v), unit=True)} across "
            f"from corner {scored.nail}. Set the arm to {figures.room(circle.radius, unit=True)}, to the middle of the "
            "blade. Cut the circle first: lines stop at it. Take several passes; a guided saw wanders on a tight curve."
        )
    names = [line.name for line in scored.cut_in_order if line.what == "border"]
    if names:
        yield f"Cut the border next: {listed(names)}. It is what the other lines stop at."
    yield "Cut the rest in the order of the list, each along a straight guide that is held down at both ends."
    if any(stop.on == NODE for line in scored.lines for stop in line.stops):
        yield "Where lines meet and none runs through, all of them stop: no bar stands there on the plan."
    if scored.stops:
        over = figures.cut(scored.over_cut, unit=True)
        yield (
            f"At a stop lift the blade when its edge at the surface is at the node. The last {over} at the bottom is "
            "finished by hand; never run on to make it."
        )
    if len(colours(scored)) > 1:
        yield "Stain after cutting: the colours meet at the cuts."


def _circle_tables(scored: Scored, figures: Figures) -> Iterator[Block]:
    if not scored.design.circles:
        return
    stopped = [line for line in scored.lines if line.lost]
    tables: list[Block] = []
    if stopped:
        tables.append(
            Table(
                heading=f"What stops at the circle, {run_text(scored.lost, figures)} off",
                columns=(
                    Column(heading="Line"),
                    Column(heading="comes off", unit=figures.column, align="right"),
                    Column(heading="is left", unit=figures.column, align="right"),
                ),
                rows=tuple((line.name, figures.cut(line.lost), figures.room(line.to_cut)) for line in stopped),
            )
        )
    if scored.crossings:
        tables.append(
            Table(
                heading="Joints that run on through it",
                columns=(
                    Column(heading="Joint"),
                    Column(heading="from the pivot", unit=figures.column, align="right"),
                    Column(heading="crosses, each way", unit=figures.column, align="right"),
                ),
                rows=tuple(
                    (one.joint, figures.cut(one.off) if one.off > TOUCH else "through it", figures.cut(one.half))
                    for one in scored.crossings
                ),
            )
        )
    yield Beside(left=(tables[0],), right=(tables[1],), share=0.48) if len(tables) == 2 else tables[0]


def _landings(scored: Scored, figures: Figures) -> Table:
    assert scored.search is not None
    design = scored.design

    def said(borders: tuple[float, ...]) -> str:
        return listed([figures.entered(border) for border in borders], "or")

    def is_taken(size: float, ends: tuple[float, ...], sides: tuple[float, ...]) -> bool:
        return (
            abs(size - design.cell.size[0]) <= TOUCH
            and any(abs(border - design.ends) <= TOUCH for border in ends)
            and any(abs(border - design.sides) <= TOUCH for border in sides)
        )

    return Table(
        heading="Squares and borders that land on every joint",
        columns=(
            Column(heading="Squares", unit=figures.column, align="right"),
            Column(heading="Border at the ends", unit=figures.column, align="right"),
            Column(heading="Border along the sides", unit=figures.column, align="right"),
            Column(heading=""),
        ),
        rows=tuple(
            (
                figures.entered(one.size),
                said(one.ends),
                said(one.sides),
                "taken" if is_taken(one.size, one.ends, one.sides) else "",
            )
            for one in scored.search.landings
        ),
    )


def _strips(scored: Scored, figures: Figures) -> Table:
    strips = scored.strips
    assert strips is not None
    rows = []
    for number, start in enumerate(strips.starts, start=1):
        last = number == len(strips.starts)
        over = f"its first joint over the last of strip {number - 1}" if number > 1 and strips.overlap else ""
        cut = f"{figures.cut(strips.last)} of it" if last and strips.last < strips.width - TOUCH else ""
        rows.append((str(number), figures.room(start), str(strips.sheets), "; ".join(filter(None, (over, cut)))))
    return Table(
        heading=f"Stencil, {counted(len(strips.starts), 'strip')} along the first line: lift and set again, never drag",
        columns=(
            Column(heading="Strip", align="right"),
            Column(heading="starts at", unit=figures.column, align="right", marked=True),
            Column(heading="sheets", align="right"),
            Column(heading=""),
        ),
        rows=tuple(rows),
        ticks=True,
    )


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
        blocks=(table, Prose(lines=tuple(notes), tone="quiet")),
        lists=(("score-lines", table),),
    )


def _joint_text(line: ScoreLine) -> str:
    return f"{line.name} ({', '.join(line.joints)})"


def lines_table(scored: Scored, figures: Figures) -> Table:
    """Returns the lines to cut in order: running figure, the lengths to cut, and where each cut stops."""
    rows = []
    for number, line in enumerate(scored.cut_in_order, start=1):
        what = "border" if line.what == "border" else "score"
        rows.append((str(number), line.name, what, figures.room(line.running), _cuts(line, figures), _stops(line)))
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


def _cuts(line: ScoreLine, figures: Figures) -> str:
    """Returns the lengths to cut on a line in their order, those alike counted; many that differ as a sum."""
    counts = Counter(figures.room(part.length) for part in line.parts if not part.there)
    if len(counts) > MOST_LENGTHS:
        return f"{counts.total()} cuts, {figures.room(line.to_cut)}"
    return " + ".join(length if count == 1 else f"{count} × {length}" for length, count in counts.items())


def _stops(line: ScoreLine) -> str:
    """Returns what a line's cuts stop at, a few by name."""
    names = list(dict.fromkeys(stop.on for stop in line.stops if stop.on != NODE))
    nodes = ["its nodes"] if any(stop.on == NODE for stop in line.stops) else []
    if len(names) > MOST_STOPS:
        return f"the lines that it meets{' and its nodes' if nodes else ''}"
    return ", ".join([*names, *nodes])


def stain_sheet(solution: Solution) -> Sheet:
    """Returns which cell is stained what; the solution must have colours."""
    room, region, scored = solution.room, solution.region, solution.scored
    assert room is not None
    assert region is not None
    assert scored is not None
    figures = Figures(style=solution.style)
    letters = colour_letters(scored)
    title = f"Stain {listed([f'{letter} {colour}' for colour, letter in letters.items()])}, after cutting."
    if len(letters) == 1:
        title = f"Stain it {next(iter(letters))}, and cut after the first coat of sealer."
    place = frame(
        plan_box(region), paper=solution.job.paper, imperial=figures.imperial, title=title, margin=9.0, under=70.0
    )
    view = place.view(
        "stain",
        "Plan of the slab with the letter of its stain in every cell.",
        (
            *floor_items(room, region),
            *cell_items(scored),
            *wall_items(room),
            *score_items(scored),
            *letter_items(scored, place),
            *door_side(room, place, 7.0),
            *corner_names(room, place),
        ),
    )
    table = Table(
        columns=(
            Column(heading="Letter"),
            Column(heading="Stain"),
            Column(heading="Area", align="right", marked=True),
        ),
        rows=tuple((letters[colour], colour, figures.area(area)) for colour, area in colours(scored)),
    )
    said = Prose(
        lines=(
            "Try every stain on a corner that nobody sees: concrete takes it as it likes.",
            "Acid stains burn skin, eyes and lungs: gloves, goggles, air, and the maker's sheet. Local rules govern.",
        ),
        tone="caution",
    )
    blocks: tuple[Block, ...] = (view, table, said)
    if place.beside:
        blocks = (Beside(left=(view,), right=(table, said), share=place.share),)
    return Sheet(key="stain", title=title, blocks=blocks, landscape=place.landscape, lists=(("stains", table),))
