"""The rings of a zone, out of a job: goods and names resolved, and where they lie."""

from __future__ import annotations

from dataclasses import replace
from math import asin, atan2, radians
from typing import TYPE_CHECKING

from floorwright.findings import Finding, Severity
from floorwright.geometry.sector import around_disc, around_sector, disc, sector
from floorwright.layout.border import ZoneMisfitError
from floorwright.layout.zones import Outline, Rounded
from floorwright.pattern.ring import Joints, RingMisfitError, inside_of
from floorwright.pattern.rings import COPING, STONE, Rings, Wanted, rings_of
from floorwright.pattern.say_rings import findings_of_rings
from floorwright.tolerance import ARC

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.geometry.arc import Arc
    from floorwright.job import model
    from floorwright.job.model import Job
    from floorwright.pattern.cell import Size
    from floorwright.plan.room import Room

FOLLOWS = ("centre", "turn", "facing", "stone", "inside", "sweep")
"""Keys that a coping has no use for."""

BROKEN = 0.5
"""Part of a piece that joints are broken by, where nothing else is said."""


def _each(zone: model.Zone) -> Iterator[tuple[str, model.ZoneRing]]:
    """Yields every ring from the inside out, with its name."""
    every = [one for one in zone.rings for _ in range(one.times)]
    return ((f"ring {number}", one) for number, one in enumerate(every, start=1))


def goods_by_kind(job: Job, zone: model.Zone) -> dict[str, model.Goods]:
    """Returns the goods of the stone and of every ring."""
    by_name = {goods.name: goods for goods in job.goods}
    stone = {STONE: by_name[zone.stone]} if zone.stone is not None else {}
    return {**stone, **{name: by_name[one.goods or zone.goods] for name, one in _each(zone)}}


def _unit(goods: model.Goods, one: model.ZoneRing) -> Size:
    length, width = goods.size
    return (length, width) if one.lay == "along the ring" else (width, length)


def joints_of(zone: model.Zone) -> Joints:
    """Returns the joints of a zone's rings."""
    least = zone.joint if zone.joint_least is None else zone.joint_least
    return Joints(asked=zone.joint, least=least, most=zone.joint if zone.joint_most is None else zone.joint_most)


def _wanted(job: Job, zone: model.Zone) -> list[Wanted]:
    goods = goods_by_kind(job, zone)
    return [
        Wanted(
            name=name,
            unit=_unit(goods[name], one),
            taper=one.taper,
            pieces=one.pieces,
            broken=one.broken if one.broken is not None else 0.0 if zone.spokes else BROKEN,
        )
        for name, one in _each(zone)
    ]


def rings_in(job: Job, zone: model.Zone, room: Room) -> Rings:
    """Returns the rings of a zone.

    Raises:
        RingMisfitError: they cannot be made.
        ZoneMisfitError: the wall that they are to follow is straight.
    """
    wanted, joints = _wanted(job, zone), joints_of(zone)
    if zone.along_wall is not None:
        return _coping(zone, wanted, joints, _arc(zone, room))
    stone = goods_by_kind(job, zone)[STONE].size[0] if zone.stone is not None else 0.0
    return rings_of(
        wanted,
        joints,
        stone=stone,
        inside=zone.inside or 0.0,
        sweep=radians(zone.sweep),
        spokes=zone.spokes or 1,
    )


def _arc(zone: model.Zone, room: Room) -> Arc:
    assert zone.along_wall is not None
    arc = room.arc(zone.along_wall)
    if arc is None:
        raise ZoneMisfitError(
            zone.name,
            f"wall {zone.along_wall}, which it is to follow, is straight",
            "a wall that is an arc",
            'lay it as kind = "border", or book the wall under [[survey.arcs]]',
        )
    return arc


def _coping(zone: model.Zone, wanted: list[Wanted], joints: Joints, arc: Arc) -> Rings:
    """Rings along a wall: the outermost up to the gap, or where it bows in the innermost."""
    if arc.bulge < 0:
        inside, sweep = arc.radius + zone.gap + ARC, abs(arc.sweep)
        return rings_of(wanted, joints, inside=inside, sweep=sweep, spokes=zone.spokes or 1, name=COPING)
    # Off the straight edges that stand for the arc.
    reach = arc.radius - zone.gap - ARC
    # The gap at the walls beside it is theirs.
    sweep = arc.sweep - 2 * asin(min(zone.gap / reach, 1.0))
    placed: list[Wanted] = []
    of = zone.spokes or 1
    for one in reversed(wanted):
        inside = inside_of(reach, one.unit, joints, sweep=sweep, of=of, taper=one.taper, pieces=one.pieces)
        placed.insert(0, replace(one, inside=inside))
        reach = inside - joints.asked
    return rings_of(placed, joints, sweep=sweep, spokes=of, name=COPING)


def outline_in(
    job: Job, zone: model.Zone, room: Room, centre: tuple[float, float], along: float, joint: float
) -> Outline:
    """Returns what rings cover and what they leave.

    Args:
        job, zone, room: whose.
        centre: (x, y) mm, of rings that follow no wall.
        along: radians, likewise, to the first joint.
        joint: mm, to what lies around them.
    """
    rings = rings_in(job, zone, room)
    inner, outer = rings.hollow, rings.radius
    if zone.along_wall is not None:
        arc = _arc(zone, room)
        centre = arc.centre
        start = arc.start if arc.bulge > 0 else arc.end
        along = atan2(start[1] - centre[1], start[0] - centre[0])
        along += (abs(arc.sweep) - rings.sweep) / 2
        # Past the wall: what it leaves of them is theirs.
        inner, outer = (inner, arc.radius + outer) if arc.bulge > 0 else (0.0, outer)
    if rings.is_round:
        region, around = disc(centre, outer), around_disc(centre, outer + joint, zone.name)
    else:
        region = sector(centre, (inner, outer), along, rings.sweep)
        # The pieces at either side stand half a joint off it already.
        beside = max(joint - rings.joint / 2, 0.0)
        around = around_sector(
            centre, (max(inner - joint, 0.0), outer + joint), along, rings.sweep, beside, zone.name
        )  # fmt: skip
    return Outline(
        ring=region.rings[0],
        names=region.edges[0],
        along=along,
        centre=centre,
        rounded=Rounded(rings=rings, region=region, around=around),
    )


def findings(job: Job, zone: model.Zone, room: Room) -> tuple[Finding, ...]:
    """Returns what there is to say of a zone's rings before they are laid."""
    place = f"zone {zone.name}"
    try:
        rings = rings_in(job, zone, room)
    except RingMisfitError as fault:
        return (
            Finding(
                code="pattern-impossible",
                severity=Severity.ERROR,
                place=place,
                found=fault.said(job.style),
                expected="rings that can be laid",
                remedy="take other goods, another number of pieces or a larger radius",
            ),
        )
    except ZoneMisfitError:
        # Said where the floor is divided.
        return ()
    return findings_of_rings(rings, place, job.style)
