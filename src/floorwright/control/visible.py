"""What is seen from a door, and the middle of it."""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from floorwright.control.sight import Point, step
from floorwright.control.wall import opening_angle, opening_at
from floorwright.geometry.measure import area, is_inside
from floorwright.geometry.region import Points, Region
from floorwright.plan.room import Opening, Room
from floorwright.tolerance import COINCIDENT, LOOK_PAST

EYES: Final = 9
"""Points across a door that the floor is looked at from."""

EYE_EDGE: Final = 0.05
"""Share of the door's width that the outermost eyes stand in from its sides."""

EYE_IN: Final = 1.0
"""mm inside the face of the wall, so that the wall itself hides nothing."""


def visual_centre(room: Room, region: Region, opening: Opening) -> Point | None:
    """Returns the middle of what is seen from a door: the centroid of the floor in sight, mm.

    The mean over `EYES` points across the opening, each weighted by the area seen from it, so that floor seen from
    the whole door counts for more than floor seen from one side of it. None where the opening is blocked.
    The point may fall outside the room or in an obstacle.
    """
    inward = opening_angle(room, opening) + math.pi / 2
    shares = np.linspace(EYE_EDGE, 1 - EYE_EDGE, EYES)
    eyes = [step(opening_at(room, opening, float(share)), inward, EYE_IN) for share in shares]
    seen = [visible_ring(region, eye) for eye in eyes if bool(is_inside(eye, region)[0])]
    return centroid(seen) if seen else None


def visible_ring(region: Region, eye: Point) -> Points:
    """Returns the outline of what is seen from a point inside a region, (n, 2) mm, anticlockwise.

    Looks at every corner and just past it on both sides (`tolerance.LOOK_PAST`); what is seen runs straight between.
    """
    start = np.vstack(region.rings) - np.asarray(eye)
    edge = np.vstack([np.roll(ring, -1, axis=0) - ring for ring in region.rings])
    looks = np.arctan2(start[:, 1], start[:, 0])
    looks = np.unique(np.concatenate([looks - LOOK_PAST, looks, looks + LOOK_PAST]))
    ray = np.column_stack([np.cos(looks), np.sin(looks)])
    across = ray[:, None, 0] * edge[:, 1] - ray[:, None, 1] * edge[:, 0]
    length = start[:, 0] * edge[:, 1] - start[:, 1] * edge[:, 0]
    off = start[:, 0] * ray[:, None, 1] - start[:, 1] * ray[:, None, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        away, share = length / across, off / across
    slack = COINCIDENT / np.maximum(np.hypot(edge[:, 0], edge[:, 1]), COINCIDENT)
    hit = (away > COINCIDENT) & (share >= -slack) & (share <= 1 + slack)
    nearest = np.where(hit, away, np.inf).min(axis=1)
    seen = np.isfinite(nearest)
    return np.asarray(np.asarray(eye) + ray[seen] * nearest[seen, None], dtype=np.float64)


def centroid(rings: Sequence[Points]) -> Point:
    """Returns the centroid of rings together, mm; a hole runs clockwise, so that it counts against."""
    base = rings[0][0]
    total, moment = 0.0, np.zeros(2)
    for ring in rings:
        here = ring - base
        beyond = np.roll(here, -1, axis=0)
        twice = here[:, 0] * beyond[:, 1] - here[:, 1] * beyond[:, 0]
        moment += ((here + beyond) * twice[:, None]).sum(axis=0) / 6
        total += area(ring)
    return float(base[0] + moment[0] / total), float(base[1] + moment[1] / total)
