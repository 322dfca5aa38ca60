"""The cut along each wall, at both ends, and whether it can be cut at all."""

import math
from dataclasses import dataclass

import numpy as np

from floorwright.geometry.region import Points
from floorwright.layout.axis import Axis, Face, most_left, thin_end
from floorwright.layout.option import WallCut
from floorwright.tolerance import STRIP


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What nothing fills at a face: either the gap is too wide there, or a piece too thin to be one is wanted.

    Attributes:
        name: of the wall or edge.
        thin, fat: what would be needed at its two ends, mm.
        tile: the tile's size across it, mm.
        over: mm left over at the fat end by a tile and its joint; 0 where the end lies in the joint.
    """

    name: str
    thin: float
    fat: float
    tile: float
    over: float


def wall_cut(
    face: Face, axis: Axis, other: Axis, origin: Points, spare: float, faces: tuple[Face, ...] = ()
) -> WallCut:
    """Returns the cut along a wall.

    Where the courses of a bond leave different cuts, each end is of the course that leaves the thinnest. Where another
    wall cuts the same tile from the other side, it is what the two leave between them.

    Args:
        face: the wall, its gap taken off.
        axis, other: the one it is square to, and the one that it runs along.
        origin: (2,) mm, a crossing of joint centres of the placed pattern.
        spare: mm by which the gap may be wider than it is.
        faces: all walls that the axis is square to.
    """
    strip = strip_at(face, axis, other, origin, spare)
    if strip is not None:
        thin, fat = strip.thin, strip.fat
    else:
        ends = ends_by_row(face, axis, other, origin)
        thin, fat = (min(axis.size, min(end)) for end in zip(*ends, strict=True))
    start, end = (thin, fat) if face.start <= face.end else (fat, thin)
    at_start, at_end = (face.low, face.high) if face.sign > 0 else (face.high, face.low)
    return WallCut(
        wall=face.name,
        start=min(start, _between(face, face.start, at_start, faces, other.pitch)),
        end=min(end, _between(face, face.end, at_end, faces, other.pitch)),
        tile=axis.size,
        taper=face.rise / face.length * other.pitch,
        fits=strip is None,
        over=0.0 if strip is None else strip.over,
    )


def _between(face: Face, reach: float, at: float, faces: tuple[Face, ...], near: float) -> float:
    """How far a face is from the nearest one across from it, mm, at a place along it; infinite where there is none.

    Args:
        face: which.
        reach: its own, there.
        at: mm along the other axis.
        faces: all.
        near: mm by which a face that lies across from this one may end short of the place: corners seldom stand square
            across from each other.
    """
    across = [
        reach + facing.reach_at(at)
        for facing in faces
        if facing.sign != face.sign
        and min(face.high, facing.high) - max(face.low, facing.low) > STRIP
        and facing.low - near < at < facing.high + near
    ]
    return min((gap for gap in across if gap > 0), default=math.inf)


def strip_at(face: Face, axis: Axis, other: Axis, origin: Points, spare: float) -> Strip | None:
    """Returns the strip that nothing fills at this face, or None where every row's cut fits.

    A wall inside a joint leaves a strip between the gap and the last tile. It is allowed for as far as the gap may be
    wider (`spare`); beyond that nothing fills it. The courses of a bond end one by one at a wall that is not true to
    them, and leave no strip along it.
    """
    if _ends_one_by_one(face, axis):
        return None
    thin, fat = max(ends_by_row(face, axis, other, origin), key=lambda row: row[1])
    if fat <= most_left(axis.size, axis.joint, face.spare(spare)) + face.slack + STRIP:
        return None
    over = fat - axis.pitch
    return Strip(name=face.name, thin=thin, fat=fat, tile=axis.size, over=over if over > STRIP else 0.0)


def ends_by_row(face: Face, axis: Axis, other: Axis, origin: Points) -> list[tuple[float, float]]:
    """Returns (thin, fat) of the cut in each kind of row that meets the face; one kind where joints run through."""
    low = float(origin @ axis.direction) + axis.joint / 2
    ends = []
    for phase in _phases_met(face, axis, other, origin):
        thin = float(thin_end(face, low + phase, axis.size, axis.pitch))
        if _ends_one_by_one(face, axis):
            fat = float(thin_end(face, low + phase - face.sign * face.rise, axis.size, axis.pitch))
        else:
            fat = thin + face.rise
        ends.append((thin, fat))
    return ends


def _ends_one_by_one(face: Face, axis: Axis) -> bool:
    return not axis.through and face.rise > axis.joint


def _phases_met(face: Face, axis: Axis, other: Axis, origin: Points) -> tuple[float, ...]:
    """Returns the phases of the rows that a face meets."""
    turns = len(axis.phases)
    if axis.through:
        return axis.phases
    # `low` and `high` are measured along the axis turned left, which for `across` is the direction of `along`.
    zero = float(origin @ np.array([-axis.direction[1], axis.direction[0]]))
    first = math.floor((face.low - zero + STRIP) / other.pitch)
    last = math.floor((face.high - zero - STRIP) / other.pitch)
    if last - first + 1 >= turns:
        return axis.phases
    return tuple(axis.phases[row % turns] for row in range(first, max(last, first) + 1))
