"""`solve`: every part in order over a job. Read this first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import chain
from typing import TYPE_CHECKING

from floorwright.control.set_out import set_control
from floorwright.cuts.list import cut_list
from floorwright.findings import Finding, has_error, worst_first
from floorwright.job import inputs, patterned
from floorwright.job.compare import typed_cost
from floorwright.job.solution import Solution
from floorwright.layout.lay import lay_out
from floorwright.plan.floor import floor_region
from floorwright.setout.course import courses
from floorwright.setout.set_out import set_out
from floorwright.setout.snap import snap_list
from floorwright.survey.survey import SurveyResult, survey_room
from floorwright.takeoff.count import order

if TYPE_CHECKING:
    from floorwright.job.model import Job

Progress = Callable[[str, float], None]
"""Called with what is being done and how far it is, 0 to 1."""


def silent(_what: str, _share: float) -> None:
    """Shows no progress."""


def solve(job: Job, *, findings: tuple[Finding, ...] = (), progress: Progress = silent) -> Solution:
    """Returns the result of every part, as far as the job allows.

    The readings become an adjusted plan; the plan and the person's choices become control lines; control lines carry
    the pattern; the pattern meets the walls and becomes numbered pieces; pieces come out of bought tiles.

    Args:
        job: as read.
        findings: what the reader of the job file had to say, kept with the rest.
        progress: told what is being done.
    """
    style = job.style
    progress("adjusting the readings", 0.0)
    survey = survey_room(**inputs.survey(job), style=style)
    room, placing = inputs.room(job, survey, style=style)
    # Where the file holds no outline to go by, its reader has said so, line and all.
    surveyed = survey.findings if job.survey.outline or not findings else ()
    # What does not fit a room that nobody trusts is no news.
    placed = () if has_error(survey.findings) else placing
    found = [findings, inputs.only_one_zone(job), inputs.rows_of_tiles(job), surveyed, placed]
    if room is None:
        return _measured_only(job, survey, found)
    region = floor_region(room)
    if has_error(survey.findings):
        return replace(_measured_only(job, survey, found), room=room, region=region)

    progress("setting out the control lines", 0.1)
    control = set_control(room=room, region=region, **inputs.control(job), style=style)
    found.append(control.findings)

    zones = job.zones[:1]
    without_floor = tuple(chain.from_iterable(inputs.gap(zone, region, style) for zone in zones))
    patterns = tuple(chain.from_iterable(patterned.findings(job, zone) for zone in zones))
    found += [without_floor, patterns]
    layouts = tuple(
        lay_out(room=room, control=control, **inputs.zone(job, zone, control), style=style, progress=progress)
        for zone in (() if without_floor or not patterned.can_be_laid(patterns) else zones)
    )
    found.extend(layout.findings for layout in layouts)

    progress("numbering the cuts", 0.9)
    snap = snap_list(room=room, control=control, layouts=layouts, zero=job.setout.nail)
    strips = tuple(courses(region=region, layout=layout) for layout in layouts)
    marked = set_out(
        room=room,
        region=region,
        control=control,
        layouts=layouts,
        snap=snap,
        courses=strips,
        **inputs.setout(job),
    )
    found.append(marked.findings)
    cuts = tuple(cut_list(layout, style) for layout in layouts)
    ordered = order(**inputs.order(job), layouts=layouts, cuts=cuts, room_area=survey.area) if layouts else None
    solution = Solution(
        job=job,
        style=style,
        survey=survey,
        room=room,
        region=region,
        control=control,
        layouts=layouts,
        snap=snap,
        setout=marked,
        courses=tuple(chain.from_iterable(strips)),
        cuts=cuts,
        order=ordered,
        findings=worst_first(tuple(chain.from_iterable(found))),
    )
    cost = typed_cost(solution)
    progress("done", 1.0)
    return replace(solution, findings=worst_first((*solution.findings, *cost)))


def _measured_only(job: Job, survey: SurveyResult, found: list[tuple[Finding, ...]]) -> Solution:
    """What there is when the readings fix no room, or none to trust: the readings, and what to do about them."""
    return Solution(
        job=job,
        style=job.style,
        survey=survey,
        room=None,
        region=None,
        control=None,
        layouts=(),
        snap=None,
        setout=None,
        courses=(),
        cuts=(),
        order=None,
        findings=worst_first(tuple(chain.from_iterable(found))),
    )
