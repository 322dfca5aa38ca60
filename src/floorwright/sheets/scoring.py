"""Cut these lines: the scored slab with every line named, its stops, the circle's pivot, and how much each saw cuts."""

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

import numpy as np

from floorwright.draw.sheet import Block, Column, Prose, Sheet, Steps, Table
from floorwright.draw.view import Point
from floorwright.geometry.region import Region
from floorwright.job.solution import Solution
from floorwright.scoring.cautions import DUST, IN_SLAB, SAW
from floorwright.scoring.scored import Scored, colours
from floorwright.scoring.stops import NODE
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import TALL, Box, Frame, frame
from floorwright.sheets.plan import corner_names, door_side, floor_items, plan_box, wall_items
from floorwright.sheets.score_plan import (
    name_items,
    pivot_items,
    pivot_name,
    running_items,
    score_items,
    stop_items,
)
from floorwright.sheets.score_rounds import arc_arms, arms, round_cuts, round_tables, run_text
from floorwright.sheets.words import counted, listed
from floorwright.tolerance import TOUCH

NEAR: Final = 24.4
FAR: Final = 6.2
"""mm on paper about the plan: at the nail's sides for the running figures, at the others for names."""

UNDER: Final = 60.0
"""mm on paper under the plan, for what the signs mean and how much each saw cuts."""

LEGEND: Final = (
    "Dotted: score, cut here. Double: a joint that is there, never cut again. Bar across an end: do not cut past. "
    "Score lines are decoration: only the joints control cracks."
)


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
        blocks=(view, *scoring_blocks(scored, figures)),
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
    parts = [counted(len(scored.cut_in_order), "line")] if scored.cut_in_order else []
    spokes = sum(len(one.lines) for one in scored.spokes)
    parts += [counted(spokes, "spoke")] if spokes else []
    parts += round_cuts(scored)
    there = sum(line.kind == "joint" for line in scored.lines)
    left = f"; {counted(there, 'line is', 'lines are')} there" if there else ""
    return f"Cut {listed(parts)}, {run_text(scored.straight + scored.round, figures)}{left}."


def scoring_blocks(scored: Scored, figures: Figures) -> tuple[Block, ...]:
    """Returns the words and tables about what is cut."""
    blocks: list[Block] = [
        Prose(lines=(LEGEND,), tone="quiet"),
        saws_table(scored, figures),
        Prose(heading="Before the saw is started", lines=(IN_SLAB, DUST, SAW), tone="caution"),
        Steps(heading="In this order", lines=tuple(_steps(scored, figures))),
    ]
    blocks += round_tables(scored, figures)
    if scored.strips is not None:
        blocks.append(_strips(scored, figures))
    return tuple(blocks)


def saws_table(scored: Scored, figures: Figures) -> Table:
    """Returns how much is cut with what."""
    saw, lines = scored.design.saw, scored.cut_in_order
    depth = f"{figures.entered(saw.depth, unit=True)} deep, {figures.entered(saw.width, unit=True)} wide"
    rows = []
    if scored.straight:
        spokes = sum(len(one.lines) for one in scored.spokes)
        what = listed([counted(len(lines), "line")] + ([counted(spokes, "spoke")] if spokes else []))
        rows.append((f"{saw.name.capitalize()} along a straight guide", what, scored.straight, depth))
    if scored.round:
        rows.append(("Grinder on a pivot arm", listed(round_cuts(scored)), scored.round, depth))
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
            f"from corner {scored.nail}. Set the arm to {arms(circle, figures)}, to the middle of the blade. Cut the "
            "circle first: lines stop at it. Take several passes; a guided saw wanders on a tight curve."
        )
    if scored.spokes:
        yield (
            "Step the spokes off round each ring with a compass before any is cut, and share out what is left over; "
            "then cut them from circle to circle."
        )
    names = [line.name for line in scored.cut_in_order if line.what == "border"]
    if names:
        yield f"Cut the border next: {listed(names)}. It is what the other lines stop at."
    if any(line.what != "border" for line in scored.cut_in_order):
        yield "Cut the rest in the order of the list, each along a straight guide that is held down at both ends."
    if scored.arcs:
        yield (
            f"Cut the arcs row by row in the order of their table, the arm at {arc_arms(scored, figures)}: the figures "
            f"are from corner {scored.nail}, square to the row and along it."
        )
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
        heading=f"Stencil, {counted(len(strips.starts), 'strip')} along the first line: edges straight and square "
        "first; lift and set again, never drag",
        columns=(
            Column(heading="Strip", align="right"),
            Column(heading="starts at", unit=figures.column, align="right", marked=True),
            Column(heading="sheets", align="right"),
            Column(heading=""),
        ),
        rows=tuple(rows),
        ticks=True,
    )
