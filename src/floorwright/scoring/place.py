"""Where the pattern of a scored slab lies: the field inside its border, and on the joints where they are near."""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from floorwright.geometry.inset import inset_parts
from floorwright.geometry.region import Points, Region
from floorwright.pattern.cell import Placement
from floorwright.scoring.clip import run_between
from floorwright.scoring.design import Design, Frame, OldJoint
from floorwright.scoring.landing import Axis, Search, search
from floorwright.scoring.stencil import Strips, strips
from floorwright.tolerance import ALONG, ONE_CUT

GRID: Final = "grid"
"""The pattern whose squares and borders are searched for."""


def field_of(design: Design, floor: Region, frame: Frame) -> Region | None:
    """What the borders leave of the slab, its largest part; None where they leave nothing."""
    gaps = dict.fromkeys((name for names in floor.edges[1:] for name in names), 0.0)
    ring = floor.rings[0]
    for start, end, name in zip(ring, np.roll(ring, -1, axis=0), floor.edges[0], strict=True):
        run = run_between(*frame.local(np.array([start, end])))
        along = abs(math.remainder(run.angle, math.pi)) < math.pi / 4
        gaps[name] = design.sides if along else design.ends
    parts = inset_parts(floor, gaps)
    return parts[0] if parts else None


def box_of(field: Region, frame: Frame) -> Points:
    ring = frame.local(field.rings[0])
    return np.array([ring.min(axis=0), ring.max(axis=0)])


def placement_of(design: Design, field: Region, frame: Frame, joints: Sequence[OldJoint]) -> Placement:
    """Where the pattern lies in the frame."""
    if abs(math.remainder(design.angle, math.pi / 2)) > ALONG:
        return Placement(origin=(0.0, 0.0), angle=design.angle)
    u, v = box_of(field, frame)[0]
    if design.cell.name != GRID or not design.limits:
        return Placement(origin=(float(u), float(v)), angle=design.angle)
    length, width = design.cell.size
    along, across = along_axes(joints, frame)
    return Placement(
        origin=(
            float(u) + _shift([at - u for at in across], length, design.limits.step),
            float(v) + _shift([at - v for at in along], width, design.limits.step),
        ),
        angle=design.angle,
    )


def strips_of(design: Design, field: Region, frame: Frame) -> Strips | None:
    sheet = design.stencil
    if sheet is None:
        return None
    low, high = box_of(field, frame)
    along, across = (float(side) for side in high - low)
    return strips(across, along, width=sheet.width, length=sheet.length, overlap=sheet.overlap)


def rest_of(design: Design, local: Placement, field: Region, frame: Frame) -> tuple[float, float]:
    """What is left of the last square each way, where it is more than two cuts would leave."""
    if design.cell.name != GRID or abs(math.remainder(local.angle, math.pi / 2)) > ALONG:
        return 0.0, 0.0
    box = box_of(field, frame)
    left = [float(box[1, axis] - local.origin[axis]) % design.cell.size[axis] for axis in (0, 1)]
    along, across = (
        rest if ONE_CUT < rest < size - ONE_CUT else 0.0 for rest, size in zip(left, design.cell.size, strict=True)
    )
    return along, across


def _shift(places: Sequence[float], size: float, step: float) -> float:
    """How far lines a size apart move to come on to the joints, if that is a trifle for each of them."""
    off = [math.remainder(place, size) for place in places]
    return sum(off) / len(off) if off and all(abs(one) <= step / 2 for one in off) else 0.0


def along_axes(joints: Sequence[OldJoint], frame: Frame) -> tuple[list[float], list[float]]:
    """Where joints run: v of those along the first line, u of those square to it; others are left out."""
    along, across = [], []
    for joint in joints:
        ends = frame.local(np.asarray(joint.ends))
        du, dv = np.abs(ends[1] - ends[0])
        if dv <= ONE_CUT:
            along.append(float(ends[:, 1].mean()))
        elif du <= ONE_CUT:
            across.append(float(ends[:, 0].mean()))
    return along, across


def out_of_line(joint: OldJoint, frame: Frame) -> float:
    """Returns how far a joint strays over its length from the first line's direction or from square to it, whichever
    is nearer, mm."""
    ends = frame.local(np.asarray(joint.ends))
    return float(np.abs(ends[1] - ends[0]).min())


def search_of(design: Design, floor: Region, frame: Frame, joints: Sequence[OldJoint]) -> Search | None:
    """Returns the search for borders and squares on a slab whose edges all run along the first line or square to it;
    None where they do not, or where nothing is to be searched. Joints that run askew are left out: nothing lands on
    them."""
    along, across = along_axes(joints, frame)
    if design.limits is None or not along + across:
        return None
    ring = frame.local(floor.rings[0])
    edges: dict[int, list[tuple[float, int]]] = {0: [], 1: []}
    for start, end in zip(ring, np.roll(ring, -1, axis=0), strict=True):
        du, dv = end - start
        if abs(dv) <= ALONG * abs(du):
            edges[1].append((float(start[1] + end[1]) / 2, 1 if du > 0 else -1))
        elif abs(du) <= ALONG * abs(dv):
            edges[0].append((float(start[0] + end[0]) / 2, 1 if dv < 0 else -1))
        else:
            return None
    ends, sides = (
        Axis(
            edges=tuple((at - min(edges[axis])[0], side) for at, side in sorted(edges[axis])),
            joints=tuple(place - min(edges[axis])[0] for place in places),
        )
        for axis, places in ((0, across), (1, along))
    )
    return search(ends, sides, design.limits)
