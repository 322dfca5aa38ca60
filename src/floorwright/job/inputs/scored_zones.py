"""The parts of a slab that are scored: what each zone of the scoring covers beside the tiled ones, and its pattern."""

from __future__ import annotations

from math import atan2, radians
from typing import TYPE_CHECKING

import numpy as np

from floorwright.findings import Finding, Severity
from floorwright.job.inputs.covers import covers, fields_of
from floorwright.job.inputs.patterned import can_be_laid
from floorwright.job.inputs.score_cells import cell_of, pattern_findings, turn
from floorwright.layout.border import Border
from floorwright.layout.insets import outline_of, rectangle
from floorwright.layout.zones import Cover, Outline, divide
from floorwright.pattern.cell import Placement
from floorwright.scoring.design import Area
from floorwright.scoring.fit import fit_in

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from floorwright.control.control import Control
    from floorwright.geometry.region import Region
    from floorwright.job.model import Job
    from floorwright.job.model.scoring import ScoredZone
    from floorwright.layout.zones import Part
    from floorwright.pattern.cell import Size, UnitCell
    from floorwright.plan.room import Room
    from floorwright.scoring.fit import Fitted

WHOLE = "grid"
"""The pattern whose cells are made to come out whole."""


def scored_covers(job: Job, room: Room, lines: Control) -> tuple[Cover, ...]:
    """Returns what the scoring asks to cover of a floor that has zones; nothing where it scores all of it alike."""
    asked = job.scoring
    if asked is None or not (job.zones or asked.zones):
        return ()
    joint = max((zone.joint for zone in fields_of(job)), default=0.0)
    outline = None
    if asked.outline:
        outline = outline_of(np.array([_at(point, room) for point in asked.outline]), _first(lines))
    return (
        *(_cover(zone, room, lines) for zone in asked.zones),
        Cover(zone=asked.name, gap=0.0, joint=joint if outline else 0.0, outline=outline),
    )


def _cover(zone: ScoredZone, room: Room, lines: Control) -> Cover:
    if zone.kind == "inset":
        return Cover(zone=zone.name, gap=0.0, outline=_outline(zone, room, lines))
    assert zone.band is not None, "job.check lets no scored border without a width through"
    walls = [
        wall.name
        for wall in room.walls
        if not zone.walls or {wall.name, f"{wall.start}-{wall.end}", f"{wall.end}-{wall.start}"} & set(zone.walls)
    ]
    border = Border(
        widths=dict.fromkeys(walls, zone.band),
        corners=zone.corners,
        through=(),
        tapers=True,
        joint=0.0,
        joint_inside=0.0,
    )
    return Cover(zone=zone.name, gap=0.0, border=border)


def _outline(zone: ScoredZone, room: Room, lines: Control) -> Outline:
    along = _first(lines) + radians(zone.turn)
    if zone.outline:
        return outline_of(np.array([_at(point, room) for point in zone.outline]), along)
    assert zone.size is not None, "job.check lets no scored inset without a size through"
    centre = lines.centre if zone.centre is None else _at(zone.centre, room)
    return rectangle(centre, *zone.size, along)


def scored_areas(
    job: Job, room: Room, lines: Control, widths: Mapping[str, Mapping[str, float]] | None
) -> tuple[Region | None, tuple[Area, ...], tuple[Finding, ...]]:
    """Returns what the field of the scoring takes of the floor (None for all of it), the other scored parts, and what
    there is to say of them.

    Args:
        job: as read; it scores something.
        room: as adjusted.
        lines: control lines.
        widths: of tiled borders of free width, as the search chose them.

    Raises:
        ZoneMisfitError: a zone does not fit.
    """
    asked = job.scoring
    own = scored_covers(job, room, lines)
    if asked is None or not own:
        return None, (), ()
    parts = divide(
        room=room, covers=(*covers(job, room, lines, widths), *own), first_line=_first(lines), style=job.style
    )
    zones = {zone.name: zone for zone in asked.zones}
    found: list[Finding] = [
        one for zone in asked.zones if not is_plain(zone) for one in pattern_findings(job, zone, f"scoring {zone.name}")
    ]
    if not can_be_laid(tuple(found)):
        zones = {}
    areas = []
    for part in parts:
        zone = zones.get(part.zone)
        if zone is not None:
            area, fitted = _area(job, zone, part)
            areas.append(area)
            found += _changed(job, part, fitted) if fitted else ()
    ground = next(part.region for part in parts if part.zone == asked.name)
    return ground, tuple(areas), tuple(found)


def is_plain(zone: ScoredZone) -> bool:
    """Returns whether a zone is left plain between its own lines."""
    return zone.length is None and "pattern" not in zone.model_fields_set


def _area(job: Job, zone: ScoredZone, part: Part) -> tuple[Area, Fitted | None]:
    if part.strip is not None:
        inward = part.strip.inner.normal
        along = atan2(-inward[0], inward[1])
    else:
        assert part.outline is not None, "a scored zone is a side of a border or has an outline"
        along = part.outline.along
    if is_plain(zone):
        area = Area(
            zone=part.zone,
            name=part.name,
            region=part.region,
            cell=None,
            placement=Placement(origin=(0.0, 0.0), angle=along),
            colours=zone.colours,
        )
        return area, None
    length = zone.length or 0.0
    width = zone.width or (zone.band if part.strip is not None and zone.band else length)

    def make(size: Size) -> UnitCell:
        return cell_of(job, zone.model_copy(update={"length": size[0], "width": size[1]}))

    fitted = fit_in(
        part.region,
        along,
        make,
        (length, width),
        turn=radians(turn(zone)),
        band=part.strip is not None,
        whole=zone.pattern == WHOLE,
    )
    area = Area(
        zone=part.zone,
        name=part.name,
        region=part.region,
        cell=fitted.cell,
        placement=fitted.placement,
        colours=zone.colours,
        by_size=zone.stain_by == "size",
    )
    return area, fitted


def _changed(job: Job, part: Part, fitted: Fitted) -> Iterator[Finding]:
    if fitted.is_changed:
        size, asked = (
            " x ".join(job.style.text(side, unit=True, feet=False) for side in sides)
            for sides in (fitted.size, fitted.asked)
        )
        yield Finding(
            code="scoring-fitted",
            severity=Severity.NOTE,
            place=f"scoring {part.name}",
            found=f"cells of {asked} come out whole at {size}",
            remedy="choose another length, or another width of the zone, for another size",
        )


def _first(lines: Control) -> float:
    return next(line.angle for line in lines.lines if line.name == "first line")


def _at(point: str | tuple[float, float], room: Room) -> tuple[float, float]:
    if isinstance(point, str):
        corner = room.corner(point)
        return corner.x, corner.y
    return point
