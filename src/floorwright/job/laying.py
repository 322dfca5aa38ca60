"""A job's floor divided among its zones, and each laid."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from floorwright.job import inputs, patterned
from floorwright.job.covers import covers
from floorwright.layout.border import ZoneMisfitError
from floorwright.layout.part import lay_part
from floorwright.layout.zones import divide

if TYPE_CHECKING:
    from collections.abc import Callable

    from floorwright.control.control import Control
    from floorwright.findings import Finding
    from floorwright.job.model import Job
    from floorwright.layout.layout import Layout
    from floorwright.plan.room import Room


def laid(
    job: Job, room: Room, control: Control, progress: Callable[[str, float], None] | None = None
) -> tuple[tuple[Layout, ...], tuple[Finding, ...]]:
    """Returns the floor divided among the zones and each laid, and what there is to say of how they fit."""
    patterns = tuple(chain.from_iterable(patterned.findings(job, zone) for zone in job.zones))
    if not patterned.can_be_laid(patterns):
        return (), patterns
    first_line = next(line.angle for line in control.lines if line.name == "first line")
    try:
        parts = divide(room=room, covers=covers(job, room, control), first_line=first_line, style=job.style)
    except ZoneMisfitError as fault:
        return (), (*patterns, inputs.misfit(fault))
    zones = {zone.name: zone for zone in job.zones}
    done = [
        lay_part(
            part=part,
            room=room,
            control=control,
            **inputs.zone(job, zones[part.zone], control),
            style=job.style,
            progress=progress,
        )
        for part in parts
    ]
    return tuple(done), patterns
