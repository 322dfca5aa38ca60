"""What each zone of a job asks to cover, for `layout.zones.divide`: names resolved, widths and outlines made plain."""

from __future__ import annotations

from math import atan2, radians
from typing import TYPE_CHECKING, Final

import numpy as np

from floorwright.job.inputs import patterned
from floorwright.job.inputs.inputs import links_of
from floorwright.job.inputs.ringed import outline_in
from floorwright.job.inputs.walls import rooms_of
from floorwright.layout.border import Border
from floorwright.layout.grounds import Meeting
from floorwright.layout.insets import outline_of, placed, rectangle, regular, round_inset
from floorwright.layout.zones import Cover, Outline

if TYPE_CHECKING:
    from collections.abc import Mapping

    from floorwright.control.control import Control
    from floorwright.job import model
    from floorwright.job.model import Job
    from floorwright.plan.room import Room


NORTH: Final = "north"
"""What an inset may face besides an opening."""

SIDES: Final = {"octagon": 8, "hexagon": 6}


def covers(
    job: Job, room: Room, lines: Control, widths: Mapping[str, Mapping[str, float]] | None = None
) -> tuple[Cover, ...]:
    """Returns what the zones ask to cover, in their order.

    Args:
        job: as read.
        room: as adjusted.
        lines: control lines; insets are turned from the first and lie on the centre unless they say where.
        widths: mm by wall, of borders of free width, by zone, as the search chose them.
    """
    return tuple(_cover(job, zone, room, lines, (widths or {}).get(zone.name)) for zone in job.zones)


def meetings(job: Job, room: Room) -> tuple[Meeting, ...]:
    """Returns where two fields meet, each with what is kept free between them."""
    owner = {name: field for field in fields_of(job) for name in rooms_of_field(job, field)}
    by_name = {link.name: (link, booked) for link, booked in zip(links_of(job), job.links, strict=True)}
    found = []
    for threshold in room.thresholds:
        link, booked = by_name[threshold.link]
        first, second = (owner.get(name) for name in link.rooms)
        if first is None or second is None or first is second:
            continue
        found.append(
            Meeting(
                threshold=threshold,
                zones=(first.name, second.name),
                width=booked.strip or _joint_between(first, second),
                is_strip=booked.strip is not None,
            )
        )
    return tuple(found)


def fields_of(job: Job) -> tuple[model.Zone, ...]:
    """Returns the fields of a job, in the order of the zones."""
    return tuple(zone for zone in job.zones if zone.kind == "field")


def rooms_of_field(job: Job, field: model.Zone) -> tuple[str, ...]:
    """Returns the rooms that a field covers: those that it names, or all that no other names."""
    if field.rooms:
        return field.rooms
    named = {name for other in fields_of(job) for name in other.rooms}
    return tuple(room.name for room in rooms_of(job) if room.name not in named)


def _joint_between(first: model.Zone, second: model.Zone) -> float:
    """The joint where two fields meet, mm: the wider that is said of them, else the wider of their joints."""
    said = [zone.joint_beside for zone in (first, second) if zone.joint_beside is not None]
    return max(said) if said else max(first.joint, second.joint)


def _cover(job: Job, zone: model.Zone, room: Room, lines: Control, widths: Mapping[str, float] | None) -> Cover:
    return Cover(
        zone=zone.name,
        gap=zone.gap,
        joint=_joint_to(zone, fields_of(job)),
        border=border_of(job, zone, room, widths) if zone.kind == "border" else None,
        outline=_outline_of(job, zone, room, lines),
        rooms=rooms_of_field(job, zone) if zone.kind == "field" and len(fields_of(job)) > 1 else (),
    )


def _joint_to(zone: model.Zone, others: tuple[model.Zone, ...]) -> float:
    """The joint between a zone and what it lies beside, mm: the one said of it, else the widest of theirs."""
    if zone.joint_beside is not None:
        return zone.joint_beside
    return max((zone.joint, *(other.joint for other in others)))


def border_walls(zone: model.Zone, room: Room) -> tuple[str, ...]:
    """Returns the walls that a border runs along, in the room's order."""
    return tuple(
        wall.name
        for wall in room.walls
        if not zone.walls or {wall.name, f"{wall.start}-{wall.end}", f"{wall.end}-{wall.start}"} & set(zone.walls)
    )


def full_width(job: Job, zone: model.Zone) -> float:
    """Returns the width of a border's rows laid full, mm."""
    (_, width), *_ = patterned.sizes(job, zone).values()
    return zone.rows * width + (zone.rows - 1) * zone.joint


def joint_inside(job: Job, zone: model.Zone) -> float:
    """Returns the joint between a border and what lies inside it, mm."""
    borders = [other for other in job.zones if other.kind == "border"]
    after = borders[borders.index(zone) + 1 :]
    return _joint_to(zone, (after[0],) if after else fields_of(job))


def border_of(job: Job, zone: model.Zone, room: Room, widths: Mapping[str, float] | None = None) -> Border:
    """Returns a border as asked for; where its width is free and not yet chosen, at the most that is allowed."""
    plain = zone.width or zone.width_most or full_width(job, zone)
    return Border(
        widths={wall: widths[wall] if widths else plain for wall in border_walls(zone, room)},
        corners=zone.corners,
        through=zone.through,
        tapers=zone.taper == "border",
        joint=zone.joint,
        joint_inside=joint_inside(job, zone),
    )


def _outline_of(job: Job, zone: model.Zone, room: Room, lines: Control) -> Outline | None:
    if zone.kind == "inset":
        return _outline(job, zone, room, lines, _joint_to(zone, fields_of(job)))
    if zone.kind == "rings":
        centre = lines.centre if zone.centre is None else _at(zone.centre, room)
        return outline_in(job, zone, room, centre, _along(job, zone, room, lines), _joint_to(zone, fields_of(job)))
    return None


def _along(job: Job, zone: model.Zone, room: Room, lines: Control) -> float:
    """The direction of an inset's length, or of the first joint of rings, radians."""
    along = next(line.angle for line in lines.lines if line.name == "first line") + radians(zone.turn)
    if zone.facing == NORTH and job.control.north is not None:
        return along + radians(job.control.north)
    if zone.facing is not None:
        opening = next(opening for opening in room.openings if opening.name == zone.facing)
        start, end = room.ends(opening.wall)
        along = atan2(*(end - start)[::-1]) + radians(zone.turn)
    return along


def _outline(job: Job, zone: model.Zone, room: Room, lines: Control, joint: float) -> Outline:
    along = _along(job, zone, room, lines)
    centre = lines.centre if zone.centre is None else _at(zone.centre, room)
    if zone.outline:
        corners = np.array([_at(point, room) for point in zone.outline])
        own = zone.outline_from == "centre"
        return outline_of(placed(corners, centre, along) if own else corners, along, centre if own else None)
    assert zone.length is not None, "job.check lets no inset without a size through"
    if zone.shape == "round":
        return round_inset(zone.name, centre, zone.length, along, joint)
    if zone.shape in SIDES:
        return regular(centre, zone.length, SIDES[zone.shape], along)
    return rectangle(centre, zone.length, zone.width or zone.length, along)


def _at(point: str | tuple[float, float], room: Room) -> tuple[float, float]:
    if isinstance(point, str):
        corner = room.corner(point)
        return corner.x, corner.y
    return point
