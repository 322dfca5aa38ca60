"""The exact search where walls and tiles are square to each other: each axis is solved, and proved, on its own.

With the joint fixed, what a wall leaves of its row of tiles rises and falls with the position like a saw tooth: at
slope -1 for a wall at the far side, +1 at the near side. The best of the least of such teeth lies where one tooth
breaks (a full tile at that wall) or where a rising and a falling one meet (the cuts at two walls equal). Those are
finitely many positions; all are tried.
"""

from dataclasses import dataclass

import numpy as np

from floorwright.geometry.region import Region
from floorwright.layout.axis import Axis, Face, axes_of, base_of, most_left, region_faces
from floorwright.layout.flat import Floats
from floorwright.layout.option import Proof
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import COINCIDENT, RANK_STEP, TOUCH


@dataclass(frozen=True, slots=True, kw_only=True)
class AxisBest:
    """The best position on one axis.

    Attributes:
        low: where a tile begins along the axis, mm.
        worst: the narrowest cut at any wall square to the axis, the tile's size where none is cut; mm.
        proof: that no position does better.
    """

    low: float
    worst: float
    proof: Proof


def is_rectilinear(region: Region, cell: UnitCell, angle: float) -> bool:
    """Returns whether every edge of the region is true to one axis or the other of a pattern in unbroken rows."""
    axes = axes_of(cell, angle)
    if not axes or any(len(axis.phases) > 1 for axis in axes):
        return False
    for ring in region.rings:
        run = np.roll(ring, -1, axis=0) - ring
        off = [np.abs(run @ axis.direction) for axis in axes]
        if (np.minimum(*off) > TOUCH).any():
            return False
    return True


def best_on_axis(region: Region, axis: Axis, centre: float, spare: float, aim: str) -> AxisBest | None:
    """Returns the position with the widest narrowest cut, or None where every position leaves a strip at some wall.

    Among positions that are equal to `tolerance.RANK_STEP` the one with the most full tiles at walls is taken, then the
    one that moves least from a joint on the centre.

    Args:
        region: less the gap, its edges true to the axes.
        axis: one whose joints run through.
        centre: mm along the axis.
        spare: mm by which the gap may be wider than it is.
        aim: what the proof says was searched for.
    """
    faces = region_faces(region, axis)
    lows = candidates(faces, axis, spare)
    worst, full = scores(faces, axis, lows, spare)
    if not np.isfinite(worst).any():
        return None
    away = np.mod(lows - centre - axis.joint / 2 + axis.pitch / 2, axis.pitch) - axis.pitch / 2
    rank = np.lexsort((lows, np.round(np.abs(away) / RANK_STEP), -full, -np.round(worst / RANK_STEP)))
    best = int(rank[0])
    top = float(worst.max())
    return AxisBest(
        low=float(lows[best]),
        worst=float(worst[best]),
        proof=Proof(
            status="proved",
            aim=aim,
            best=float(worst[best]),
            bound=top,
            tolerance=0.0,
            joint=axis.joint,
            axis=axis.name,
            walls=_tight(faces, axis, float(lows[best]), float(worst[best])),
        ),
    )


def _tight(faces: tuple[Face, ...], axis: Axis, low: float, worst: float) -> tuple[str, ...]:
    """The walls at which the cut is the narrowest."""
    left = _left(faces, axis, np.array([low]))[:, 0]
    return tuple(
        dict.fromkeys(face.name for face, cut in zip(faces, left, strict=True) if abs(cut - worst) <= RANK_STEP)
    )


def _left(faces: tuple[Face, ...], axis: Axis, lows: Floats) -> Floats:
    """Returns (faces, positions): what each face leaves of its row, mm, as `axis.thin_end` does."""
    near = np.array([face.near for face in faces])[:, None]
    far_side = np.array([face.sign > 0 for face in faces], dtype=bool)[:, None]
    left = np.mod(near - np.where(far_side, lows, -(lows + axis.size)), axis.pitch)
    return np.asarray(np.where(left < TOUCH, left + axis.pitch, left))


def candidates(faces: tuple[Face, ...], axis: Axis, spare: float) -> Floats:
    """Returns the positions among which the best must be: where a tile begins along the axis, mm, in [0, pitch)."""
    if not faces:
        return np.zeros(1)
    # A full tile, and one with all of the joint that the gap may take over, bound the stretch where nothing is cut.
    flush = [
        base_of(face.sign, face.near - left, axis.size)
        for face in faces
        for left in (axis.size, most_left(axis.size, axis.joint, face.spare(spare)))
    ]
    far = np.array([face.near for face in faces if face.sign > 0])
    near = np.array([face.near for face in faces if face.sign < 0])
    meet = ((far[:, None] - near[None, :] - axis.size) / 2).ravel()
    every = np.concatenate([np.array(flush), meet, meet + axis.pitch / 2])
    return np.unique(np.round(np.mod(every, axis.pitch) / COINCIDENT)) * COINCIDENT


def scores(faces: tuple[Face, ...], axis: Axis, lows: Floats, spare: float) -> tuple[Floats, Floats]:
    """Returns of each position the narrowest cut (minus infinity where a strip is left) and how many walls need
    none."""
    left = _left(faces, axis, lows)
    most = np.array([most_left(axis.size, axis.joint, face.spare(spare)) for face in faces])[:, None]
    over = left > most + TOUCH
    flush = (left >= axis.size - TOUCH) & ~over
    cut = np.where(over, -np.inf, np.where(flush, axis.size, left))
    return cut.min(axis=0, initial=axis.size), flush.sum(axis=0).astype(np.float64)
