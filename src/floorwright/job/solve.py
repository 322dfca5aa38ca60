"""`solve`: every part in order over a job. Read this first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import chain, compress
from typing import TYPE_CHECKING

from floorwright.control.readings import judged
from floorwright.control.set_out import set_control
from floorwright.control.together import told_together
from floorwright.cuts.list import cut_lists
from floorwright.findings import Finding, has_error, worst_first
from floorwright.job.compare import typed_cost
from floorwright.job.inputs import inputs
from floorwright.job.inputs.covers import meetings
from floorwright.job.inputs.scoring import scored_of
from floorwright.job.inputs.tape import tape_corrected
from floorwright.job.lay.changing import changes_of
from floorwright.job.lay.laying import laid
from floorwright.job.lay.refitting import laid_before, refit_of
from floorwright.job.solution import Solution
from floorwright.layout.say_change import of_changes, of_unmoved
from floorwright.plan.floor import floor_region
from floorwright.setout.course import courses
from floorwright.setout.set_out import set_out
from floorwright.setout.snap import break_lines, snap_list, zone_lines
from floorwright.survey.survey import SurveyResult, survey_room
from floorwright.takeoff.count import order

if TYPE_CHECKING:
    from floorwright.cuts.schedule import CutList
    from floorwright.job.lay.refitting import LaidBefore
    from floorwright.job.load import Loaded
    from floorwright.job.model import Job
    from floorwright.layout.layout import Layout
    from floorwright.plan.room import Room
    from floorwright.takeoff.order import Order

Progress = Callable[[str, float], None]
"""Called with what is being done and how far it is, 0 to 1."""


def silent(_what: str, _share: float) -> None:
    """Shows no progress."""


def solve(
    job: Job,
    *,
    findings: tuple[Finding, ...] = (),
    progress: Progress = silent,
    earlier: Loaded | None = None,
    lay: bool = True,
) -> Solution:
    """Returns the result of every part, as far as the job allows.

    The readings become an adjusted plan; the plan and the person's choices become control lines; control lines carry
    the pattern; the pattern meets the walls and becomes numbered pieces; pieces come out of bought tiles.

    Args:
        job: as read.
        findings: what the reader of the job file had to say, kept with the rest.
        progress: told what is being done.
        earlier: the job that a part of the floor was laid by, as `load` gives it; that part stays as it is.
        lay: whether the floor is laid. Without, there are the room and its control lines, at once.
    """
    style = job.style
    progress("adjusting the readings", 0.0)
    survey = survey_room(**inputs.survey(job), style=style)
    room, placing = inputs.room(job, survey, style=style)
    # Where the file holds no outline to go by, its reader has said so, line and all.
    surveyed = survey.findings if job.survey.outline or not findings else ()
    # What does not fit a room that nobody trusts is no news.
    placed = () if has_error(survey.findings) else placing
    found = [findings, inputs.rows_of_tiles(job), tape_corrected(job), surveyed, placed]
    if room is None:
        return _measured_only(job, survey, found)
    region = floor_region(room)
    if has_error(survey.findings):
        return replace(_measured_only(job, survey, found), room=room, region=region)

    progress("setting out the control lines", 0.1)
    control = set_control(room=room, region=region, **inputs.control(job), style=style)
    found.append(control.findings)
    taken = inputs.check_readings(job)
    verdicts, read = judged(control, **taken, style=style)
    found += [read, told_together(control, verdicts, taken["joint"], taken["tools"], style)]

    on, wrong = _laid_before(job, room, earlier, progress) if lay else (None, ())
    able = lay and (on is not None or not job.laid)
    layouts, border, zoned = laid(job, room, control, progress, on) if able else ((), None, ())
    found += [wrong, zoned]
    found.extend(layout.findings for layout in layouts)
    changed = changes_of(job, room, layouts, progress)
    found += [of_changes(changed.found, style), of_unmoved(changed.unmoved, style)]

    progress("numbering the cuts", 0.9)
    # The sides of a border are marked by their inside line alone: their tiles are spaced along it.
    breaks = meetings(job, room) if layouts else ()
    lined = tuple(layout for layout in layouts if not layout.is_border)
    snap = snap_list(
        room=room,
        control=control,
        layouts=lined,
        meetings_of_zones=(*zone_lines(layouts), *break_lines(breaks)),
        zero=job.setout.nail,
    )
    scored, said = scored_of(job, room, region, control, snap.zero, border.widths if border else None)
    found.append(said)
    strips = tuple(courses(region=layout.part.ground if layout.part else region, layout=layout) for layout in layouts)
    marked = set_out(
        room=room,
        region=region,
        control=control,
        layouts=lined,
        snap=snap,
        courses=tuple(strip for strip, layout in zip(strips, layouts, strict=True) if not layout.is_border),
        **inputs.setout(job),
        style=style,
    )
    found.append(marked.findings)
    cuts = cut_lists(layouts, style)
    ordered = _ordered(job, layouts, cuts, survey.area)
    solution = Solution(
        job=job,
        style=style,
        survey=survey,
        room=room,
        region=region,
        control=control,
        verdicts=verdicts,
        layouts=layouts,
        border=border,
        snap=snap,
        setout=marked,
        courses=tuple(chain.from_iterable(strips)),
        cuts=cuts,
        orders=ordered,
        findings=worst_first(tuple(chain.from_iterable(found))),
        changes=changed.found,
        unmoved=changed.unmoved,
        stopped=changed.stopped,
        scored=scored,
        breaks=breaks,
    )
    if on is not None:
        refit, told = refit_of(job, on, layouts, cuts, room, region, control)
        solution = replace(solution, refit=refit, findings=worst_first((*solution.findings, *told)))
    cost = typed_cost(solution)
    progress("done", 1.0)
    return replace(solution, findings=worst_first((*solution.findings, *cost)))


def _laid_before(
    job: Job, room: Room, earlier: Loaded | None, progress: Progress
) -> tuple[LaidBefore | None, tuple[Finding, ...]]:
    """What is laid already, by the earlier job solved, and what is wrong with it."""
    if job.laid is None or earlier is None or earlier.job is None:
        return None, ()
    before = solve(earlier.job, findings=earlier.findings, progress=progress, earlier=earlier.earlier)
    return laid_before(job, room, before)


def _ordered(job: Job, layouts: tuple[Layout, ...], cuts: tuple[CutList, ...], area: float) -> tuple[Order, ...]:
    """One order for each kind of goods that is laid."""
    if not layouts:
        return ()
    found = []
    for zones, counted in inputs.orders(job):
        own = [layout.part is not None and layout.part.zone in zones for layout in layouts]
        laid, sawn = tuple(compress(layouts, own)), tuple(compress(cuts, own))
        kinds = tuple(zones[layout.part.zone] for layout in laid if layout.part is not None)
        found.append(order(**counted, layouts=laid, cuts=sawn, room_area=area, kinds=kinds))
    return tuple(found)


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
        border=None,
        snap=None,
        setout=None,
        courses=(),
        cuts=(),
        orders=(),
        findings=worst_first(tuple(chain.from_iterable(found))),
    )
