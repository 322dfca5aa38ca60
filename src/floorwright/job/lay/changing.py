"""The changes of a job that would save cuts: each is set out and laid anew, as the job would be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.control.set_out import set_control
from floorwright.errors import FloorwrightValueError
from floorwright.findings import has_error
from floorwright.job.inputs import inputs
from floorwright.job.lay.laying import laid
from floorwright.layout.change import changes
from floorwright.plan.floor import floor_region

if TYPE_CHECKING:
    from collections.abc import Iterable

    from floorwright.job.model import Job
    from floorwright.layout.change import Change
    from floorwright.layout.layout import Layout
    from floorwright.plan.room import Room


def changes_of(job: Job, room: Room, layouts: tuple[Layout, ...]) -> tuple[Change, ...]:
    """Returns the least changes of a job that do away with the cuts of its field, or bring every piece to the limit.

    Args:
        job: with the walls that may move and the joints that are allowed.
        room: as adjusted.
        layouts: as the job is; none where it lays nothing.
    """
    field = _field(layouts)
    if field is None or field.part is None or job.laid is not None:
        return ()
    zone = next(zone for zone in job.zones if zone.name == field.zone)
    if not (job.free or zone.joint_most is not None):
        return ()
    aims = job.aims.model_copy(update={"option": ""})
    zones = tuple(zone.model_copy(update={"option": ""}) for zone in job.zones)
    asked = job.model_copy(update={"aims": aims, "zones": zones})
    return changes(field, field.part.sides, room, inputs.free(job), zone.joint, lambda other: _relaid(asked, other))


def _field(layouts: Iterable[Layout]) -> Layout | None:
    return next((layout for layout in layouts if layout.is_field), None)


def _relaid(job: Job, room: Room) -> Layout | None:
    """Returns a job's field laid on another floor; None where nothing comes of it."""
    try:
        region = floor_region(room)
        control = set_control(room=room, region=region, **inputs.control(job), style=job.style)
        if has_error(control.findings):
            return None
        return _field(laid(job, room, control)[0])
    except FloorwrightValueError:
        return None
