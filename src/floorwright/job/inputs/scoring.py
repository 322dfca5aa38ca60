"""What scoring needs, taken out of a job: its pattern made with joints of no width, joints in the slab as they lie."""

from __future__ import annotations

from dataclasses import replace
from math import radians
from typing import TYPE_CHECKING

from floorwright.geometry.region import Region
from floorwright.job.inputs.inputs import misfit
from floorwright.job.inputs.patterned import can_be_laid
from floorwright.job.inputs.score_cells import cell_of, pattern_findings, turn
from floorwright.job.inputs.scored_zones import scored_areas
from floorwright.layout.border import ZoneMisfitError
from floorwright.scoring.design import Circle, Design, Frame, Limits, OldJoint, Ring, Saw, Sheet
from floorwright.scoring.rules import joint_rules
from floorwright.scoring.say import findings_of
from floorwright.scoring.scored import Scored, score
from floorwright.scoring.slab import slab_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from floorwright.control.control import Control
    from floorwright.findings import Finding
    from floorwright.job.model import Job
    from floorwright.job.model.scoring import Scoring
    from floorwright.plan.room import Room


def scored_of(
    job: Job,
    room: Room,
    region: Region,
    control: Control,
    nail: str,
    widths: Mapping[str, Mapping[str, float]] | None = None,
) -> tuple[Scored | None, tuple[Finding, ...]]:
    """Returns what there is to cut, and what there is to say of it; None where the job scores nothing, or no pattern.

    Args:
        job: as read.
        room: as adjusted.
        region: its floor: the slab.
        control: its lines: the frame lies along the first one, at the centre.
        nail: the corner that running figures are measured from.
        widths: of tiled borders of free width, as the search chose them, mm by wall.
    """
    asked = job.scoring
    if asked is None:
        return None, ()
    found = pattern_findings(job, asked, f"scoring {asked.name}")
    if not can_be_laid(found):
        return None, found
    try:
        ground, areas, zoned = scored_areas(job, room, control, widths)
    except ZoneMisfitError as fault:
        # Where there are tiled zones too, laying them has said so.
        return None, (*found, *(() if job.zones else (misfit(fault),)))
    joints = old_joints(job, room)
    # Where the floor runs on under a door its jambs are no corners of the slab.
    bare = Region(
        rings=(room.outline, *region.rings[1:]),
        edges=(tuple(room.walls[wall].name for wall, _ in room.sides), *region.edges[1:]),
    )
    slab = slab_of(bare, joints, job.slab.thickness, scanned=job.slab.scanned, mix=job.slab.mix or "")
    corner = room.corner(nail)
    first = next(line.angle for line in control.lines if line.name == "first line")
    done = score(
        design=replace(_design(job, asked, room, control), areas=areas),
        floor=region,
        ground=ground,
        tiled=bool(job.zones),
        frame=Frame(origin=control.centre, angle=first),
        joints=joints,
        nail=(nail, (corner.x, corner.y)),
    )
    done = replace(done, slab=slab)
    return done, (*found, *zoned, *joint_rules(slab, job.style), *findings_of(done, slab, job.style))


def old_joints(job: Job, room: Room) -> tuple[OldJoint, ...]:
    """Returns the joints in the slab where they lie."""
    return tuple(
        OldJoint(
            name=joint.name,
            ends=(_place(room, joint.start), _place(room, joint.to)),
            kind=joint.kind,
            depth=joint.depth,
            early=joint.sawn == "early entry",
        )
        for joint in job.slab_joints
    )


def _place(room: Room, place: str | tuple[float, float]) -> tuple[float, float]:
    if not isinstance(place, str):
        return place
    corner = room.corner(place)
    return corner.x, corner.y


def _design(job: Job, asked: Scoring, room: Room, control: Control) -> Design:
    return Design(
        name=asked.name,
        cell=cell_of(job, asked),
        angle=radians(turn(asked)),
        ends=asked.border_ends,
        sides=asked.border_sides,
        saw=Saw(name=asked.saw, blade=asked.blade, depth=asked.depth, width=asked.cut),
        circles=tuple(
            Circle(
                centre=control.centre if one.centre is None else _place(room, one.centre),
                radius=one.diameter / 2,
                plain=one.plain,
                rings=tuple(Ring(depth=ring.depth, cells=ring.cells, broken=ring.broken) for ring in one.rings),
                turn=radians(one.turn),
                colours=one.colours or tuple(filter(None, (asked.circle_colour,))),
            )
            for one in asked.circles
        ),
        limits=Limits(
            step=asked.step,
            border_least=asked.border_least,
            border_most=asked.border_most,
            size_least=asked.size_least,
        )
        if asked.pattern == "grid"
        else None,
        colours=asked.colours,
        by_size=asked.stain_by == "size",
        border_colour=asked.border_colour or "",
        stencil=None
        if asked.stencil is None
        else Sheet(width=asked.stencil.width, length=asked.stencil.length, overlap=asked.stencil.overlap),
    )
