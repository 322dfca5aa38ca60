"""A job's floor divided among its zones, and each laid."""

from __future__ import annotations

from dataclasses import replace
from itertools import chain
from typing import TYPE_CHECKING

from floorwright.job.inputs import inputs, patterned
from floorwright.job.inputs.covers import covers, meetings
from floorwright.job.inputs.scored_zones import scored_covers
from floorwright.job.lay.bordered import bordered
from floorwright.layout.border import ZoneMisfitError
from floorwright.layout.part import lay_part
from floorwright.layout.random_rows import rows_said
from floorwright.layout.refit import laid_on
from floorwright.layout.score import Floor
from floorwright.layout.zones import divide

if TYPE_CHECKING:
    from collections.abc import Callable

    from floorwright.control.control import Control
    from floorwright.findings import Finding
    from floorwright.job import model
    from floorwright.job.lay.bordered import Bordered
    from floorwright.job.lay.refitting import LaidBefore
    from floorwright.job.model import Job
    from floorwright.layout.layout import Layout
    from floorwright.layout.zones import Part
    from floorwright.plan.room import Room


def laid(
    job: Job,
    room: Room,
    control: Control,
    progress: Callable[[str, float], None] | None = None,
    on: LaidBefore | None = None,
) -> tuple[tuple[Layout, ...], Bordered | None, tuple[Finding, ...]]:
    """Returns the floor divided among the zones and each laid, what there is to choose from for a border's width, and
    what there is to say of how they fit."""
    patterns = tuple(chain.from_iterable(patterned.findings(job, zone, room) for zone in job.zones))
    if not patterned.can_be_laid(patterns):
        return (), None, patterns
    first_line = next(line.angle for line in control.lines if line.name == "first line")
    try:
        border = bordered(job, room, control)
        asked = (
            *covers(job, room, control, border.widths if border else None),
            *(scored_covers(job, room, control) if job.zones else ()),
        )
        parts = divide(room=room, covers=asked, first_line=first_line, style=job.style, meetings=meetings(job, room))
    except ZoneMisfitError as fault:
        return (), None, (*patterns, inputs.misfit(fault))
    zones = {zone.name: zone for zone in job.zones}
    parts = tuple(part for part in parts if part.zone in zones)
    done = [
        _part_laid(job, zones[part.zone], part, room, control, progress, on, _finish(border, part)) for part in parts
    ]
    done = [replace(one, findings=(*one.findings, *rows_said(one, job.style))) for one in done]
    return tuple(done), border, (*patterns, *(border.findings if border else ()))


def _finish(border: Bordered | None, part: Part) -> tuple[tuple[str, tuple[float, float]], ...]:
    """The positions that a part's border was made for."""
    return border.positions if border and border.field == part.zone else ()


def _part_laid(
    job: Job,
    zone: model.Zone,
    part: Part,
    room: Room,
    control: Control,
    progress: Callable[[str, float], None] | None,
    on: LaidBefore | None,
    finish: tuple[tuple[str, tuple[float, float]], ...],
) -> Layout:
    """Returns a part laid on from what is laid of it, or laid as its kind asks for where nothing is."""
    given = {**inputs.zone(job, zone, control), "finish": finish}
    before = None if on is None else on.layout(part.name)
    if on is None or before is None:
        return lay_part(part=part, room=room, control=control, **given, style=job.style, progress=progress)
    floor = Floor(
        zone=part.name,
        region=part.region,
        sides=part.sides,
        gap=given["gap"],
        limit=given["limit"],
        centre=control.centre,
        shift_sd=given["shift_sd"],
        turn_sd=given["turn_sd"],
        style=job.style,
        joint=before.cell.joint,
    )
    return laid_on(floor, part, before, on.tied, on.ids)
