"""A scored slab on site: what to mind, then every circle, line and arc in the order in which they are cut, to tick."""

from collections.abc import Iterator

import numpy as np

from floorwright.draw.site import SiteSteps, SiteTask
from floorwright.job.solution import Solution
from floorwright.scoring.cautions import DUST, IN_SLAB, SAW
from floorwright.scoring.lines import ScoreLine
from floorwright.scoring.scored import Scored
from floorwright.scoring.spokes import Spokes
from floorwright.sheets.figures import Figures
from floorwright.sheets.score_lines import cuts_text, stops_text
from floorwright.sheets.score_plan import pivot_name
from floorwright.sheets.score_rounds import arms
from floorwright.sheets.words import counted


def site_score(solution: Solution) -> tuple[SiteSteps, ...]:
    """Returns what is cut into the slab, in order; nothing where the job scores nothing."""
    scored = solution.scored
    if scored is None or not scored.is_cut:
        return ()
    figures = Figures(style=solution.style)
    groups = (
        ("Before the saw is started", tuple(_told(text) for text in (IN_SLAB, DUST, SAW))),
        (
            "Circles, on a pivot",
            (*_circles(scored, figures), *(_spokes(one, scored, figures) for one in scored.spokes)),
        ),
        ("Straight lines, along a guide", tuple(_line(line, scored, figures) for line in scored.cut_in_order)),
        ("Arcs, row by row", tuple(_arcs(scored, figures))),
    )
    over = figures.cut(scored.over_cut, unit=True)
    why = (
        f"Stop with the blade's edge at the node: the last {over} at the bottom is finished by hand."
        if scored.stops
        else ""
    )
    return tuple(
        SiteSteps(heading=heading, tasks=tasks, why=why if n else "")
        for n, (heading, tasks) in enumerate(groups)
        if tasks
    )


def _told(text: str) -> SiteTask:
    return SiteTask(name="", text=text, figures=())


def _circles(scored: Scored, figures: Figures) -> Iterator[SiteTask]:
    zero = scored.frame.local(np.asarray(scored.nail_at))
    count = len(scored.design.circles)
    for number, circle in enumerate(scored.design.circles, start=1):
        u, v = np.abs(scored.frame.local(np.asarray(circle.centre)) - zero)
        name = pivot_name(number, count)
        yield SiteTask(
            name=name,
            text="Lines stop at it, so it is cut first. Several passes." if circle.plain else "Several passes.",
            figures=(
                (f"along, from corner {scored.nail}", figures.room(float(u), unit=True)),
                (f"across, from corner {scored.nail}", figures.room(float(v), unit=True)),
                ("arm", arms(circle, figures)),
            ),
            points=((name, circle.centre),),
        )


def _spokes(spokes: Spokes, scored: Scored, figures: Figures) -> SiteTask:
    name = pivot_name(spokes.circle, len(scored.design.circles))
    return SiteTask(
        name=f"{name}, ring {spokes.ring}",
        text=f"Step off {counted(spokes.count, 'cell')} on the outer circle before a spoke is cut.",
        figures=(("step off", figures.room(spokes.chord, unit=True)),),
        lines=spokes.lines,
    )


def _line(line: ScoreLine, scored: Scored, figures: Figures) -> SiteTask:
    stops = stops_text(line)
    return SiteTask(
        name=line.name,
        text=f"Do not cut past {stops}." if stops else "Runs off the slab.",
        figures=(
            (f"running, from {scored.nail}", figures.room(line.running, unit=True)),
            ("to cut", cuts_text(line, figures)),
        ),
        points=tuple(("", stop.at) for stop in line.stops),
        lines=tuple((part.start, part.end) for part in line.parts if not part.there),
    )


def _arcs(scored: Scored, figures: Figures) -> Iterator[SiteTask]:
    for row in scored.arcs:
        every = row.spacing
        gaps = ", with gaps" if row.has_gaps else ""
        step = (("then every", figures.room(every, unit=True) + gaps),) if every else ()
        yield SiteTask(
            name=f"Row {row.number}",
            text=f"{counted(len(row.along), 'pivot')}; each arc ends on the row before.",
            figures=(
                ("arm", figures.room(row.radius, unit=True)),
                (f"row, from {scored.nail}", figures.room(row.running, unit=True)),
                ("first pivot", figures.room(row.along[0], unit=True)),
                *step,
            ),
            points=tuple(("", pivot) for pivot in dict.fromkeys(swing.pivot for swing in row.swings)),
        )
