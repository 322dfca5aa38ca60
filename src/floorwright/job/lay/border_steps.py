"""A border of free width whose field finishes on nothing: widths are tried step by step, each by the field's search."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, radians
from typing import TYPE_CHECKING, Final

import numpy as np

from floorwright.job.inputs import patterned
from floorwright.job.inputs.covers import border_walls, covers, meetings
from floorwright.layout.axis import axes_of
from floorwright.layout.border import ZoneMisfitError
from floorwright.layout.positions import WIDEST
from floorwright.layout.rectilinear import best_on_axis, is_rectilinear
from floorwright.layout.search import search
from floorwright.layout.zones import divide
from floorwright.tolerance import COINCIDENT, RANK_STEP

if TYPE_CHECKING:
    from floorwright.control.control import Control
    from floorwright.geometry.region import Region
    from floorwright.job import model
    from floorwright.job.model import Job
    from floorwright.pattern.cell import UnitCell
    from floorwright.plan.room import Room

MOST_TRIED: Final = 12
"""Widths tried; more are spread out. Our default: each is a search."""

WORK: Final = 400
"""Positions that each search may try: enough to rank widths by; the one that is laid is searched in full."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BySteps:
    """The width that leaves the field the widest worst piece, of those tried.

    Attributes:
        width: mm.
        worst: mm, the narrowest piece of the field there.
        step: mm, from one width tried to the next.
        tried: widths that fit.
    """

    width: float
    worst: float
    step: float
    tried: int


def by_steps(job: Job, room: Room, lines: Control, zone: model.Zone, field: model.Zone) -> BySteps | None:
    """Returns the best width by trying; None where no width fits. Of equals the narrowest border.

    Args:
        job: as read.
        room: as adjusted.
        lines: control lines.
        zone: the border, of free width.
        field: inside it.
    """
    assert zone.width_least is not None
    assert zone.width_most is not None
    unit = job.style.mm(1)
    first, last = ceil(zone.width_least / unit - COINCIDENT), floor(zone.width_most / unit + COINCIDENT)
    stride = max(1, ceil((last - first) / (MOST_TRIED - 1)))
    cell = patterned.cell_maker(job, field)(field.joint)
    first_line = next(line.angle for line in lines.lines if line.name == "first line")
    spare = 0.0 if field.gap_most is None else field.gap_most - field.gap
    found: list[tuple[float, float]] = []
    for number in range(first, last + 1, stride):
        width = number * unit
        widths = {zone.name: dict.fromkeys(border_walls(zone, room), width)}
        try:
            asked = covers(job, room, lines, widths)
            parts = divide(
                room=room, covers=asked, first_line=first_line, style=job.style, meetings=meetings(job, room)
            )
        except ZoneMisfitError:
            continue
        region = next(part.region for part in parts if part.zone == field.name)
        angle = first_line + radians(patterned.turn(field))
        found.append((width, _worst(region, cell, angle, lines.centre, spare)))
    if not found:
        return None
    width, worst = max(found, key=lambda one: (round(one[1] / RANK_STEP), -one[0]))
    return BySteps(width=width, worst=worst, step=stride * unit, tried=len(found))


def _worst(region: Region, cell: UnitCell, angle: float, centre: tuple[float, float], spare: float) -> float:
    """The narrowest piece at the best position of the field, mm; 0 where every position leaves a strip."""
    if is_rectilinear(region, cell, angle):
        best = [
            best_on_axis(region, axis, float(np.array(centre) @ axis.direction), spare, WIDEST)
            for axis in axes_of(cell, angle)
        ]
        return min(0.0 if one is None else one.worst for one in best)
    found = search(region, cell, angle=angle, centre=centre, spare=spare, aim=WIDEST, allowance=WORK)
    return found.narrowest if found.placement is not None else 0.0
