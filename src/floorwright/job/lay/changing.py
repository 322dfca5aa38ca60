"""The changes of a job that would save cuts: each is set out and laid anew, as the job would be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from floorwright.control.set_out import set_control
from floorwright.errors import FloorwrightValueError
from floorwright.findings import has_error
from floorwright.job.inputs import inputs
from floorwright.job.inputs.covers import full_width
from floorwright.job.lay.laying import laid
from floorwright.layout.change import Change, changes
from floorwright.layout.change_border import FreeBorder, by_border
from floorwright.layout.unmoved import Unmoved, unmoved
from floorwright.plan.floor import floor_region

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from floorwright.job import model
    from floorwright.job.model import Job
    from floorwright.layout.layout import Layout
    from floorwright.plan.room import Room

NARROWEST = 0.5
"""Of a border's full rows, what is left of them where it is made narrower (our default)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobChanges:
    """What could be changed about a job.

    Attributes:
        found: the least changes that do away with the cuts of its field, or bring every piece to the limit.
        unmoved: walls that may move, and that had better not.
        stopped: whether a person stopped it (Ctrl-C): there may be more.
    """

    found: tuple[Change, ...] = ()
    unmoved: tuple[Unmoved, ...] = ()
    stopped: bool = False


def changes_of(job: Job, room: Room, layouts: tuple[Layout, ...], progress: Callable[[str, float], None]) -> JobChanges:
    """Returns what could be changed about a job to save cuts.

    Args:
        job: with the walls that may move and the joints that are allowed.
        room: as adjusted.
        layouts: as the job is; none where it lays nothing.
        progress: told that changes are tried.
    """
    field = _field(layouts)
    if field is None or field.part is None or job.laid is not None:
        return JobChanges()
    if any(proof.stopped for layout in layouts for proof in layout.proofs):
        return JobChanges(stopped=True)
    zone = next(zone for zone in job.zones if zone.name == field.zone)
    border = _border(job)
    if not (job.free or zone.joint_most is not None or border is not None):
        return JobChanges()
    aims = job.aims.model_copy(update={"option": ""})
    zones = tuple(zone.model_copy(update={"option": ""}) for zone in job.zones)
    asked = job.model_copy(update={"aims": aims, "zones": zones})
    free = inputs.free(job)
    found: list[Change] = []

    def relaid(other: Job, changed: Room) -> Layout | None:
        progress("trying changes of the job", 0.85)
        return _relaid(other, changed)

    try:
        found += changes(field, field.part.sides, room, free, zone.joint, lambda other: relaid(asked, other))
        if border is not None:
            found += by_border(field, border, lambda width: relaid(_with_width(asked, border.zone, width), room))
    except KeyboardInterrupt:
        return JobChanges(found=tuple(found), stopped=True)
    return JobChanges(found=tuple(found), unmoved=unmoved(field, field.part.sides, room, free, found))


def _field(layouts: Iterable[Layout]) -> Layout | None:
    return next((layout for layout in layouts if layout.is_field), None)


def _border(job: Job) -> FreeBorder | None:
    """Returns the border of a given width next to the field, the last of several, as far as its goods let it change."""
    borders: Iterator[model.Zone] = (zone for zone in reversed(job.zones) if zone.kind == "border")
    zone = next(borders, None)
    if zone is None or zone.width_least is not None:
        return None
    full = full_width(job, zone)
    width = zone.width or full
    return FreeBorder(zone=zone.name, width=width, least=min(width, NARROWEST * full), most=max(width, full))


def _with_width(job: Job, name: str, width: float) -> Job:
    zones = tuple(zone.model_copy(update={"width": width}) if zone.name == name else zone for zone in job.zones)
    return job.model_copy(update={"zones": zones})


def _relaid(job: Job, room: Room) -> Layout | None:
    """Returns a job's field laid on another floor; None where nothing comes of it.

    Raises:
        KeyboardInterrupt: a person stopped it; what it had so far tells nothing.
    """
    try:
        region = floor_region(room)
        control = set_control(room=room, region=region, **inputs.control(job), style=job.style)
        if has_error(control.findings):
            return None
        field = _field(laid(job, room, control)[0])
    except FloorwrightValueError:
        return None
    if field is not None and any(proof.stopped for proof in field.proofs):
        raise KeyboardInterrupt
    return field
