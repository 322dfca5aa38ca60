"""Convex polygons of places, many at a time: which of them hold all of another polygon, and which none of it."""

from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from floorwright.geometry.region import Points
from floorwright.layout.convex import kept
from floorwright.layout.flat import Bools, Floats, Ints
from floorwright.tolerance import COINCIDENT

NO_TILES: Final = np.zeros((0, 3), dtype=np.intp)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shapes:
    """Convex polygons, each as the half planes `normals @ place <= limits`.

    Attributes:
        normals: (n, k, 2) unit; a polygon of fewer sides has its last one again.
        limits: (n, k) mm.
        owner: (n,) what each is a polygon of: a tile, counted from 0.
        owners: how many of those there are.
        tiles: (owners, 3) lattice index of each, where they are tiles.
    """

    normals: Floats
    limits: Floats
    owner: Ints
    owners: int
    tiles: Ints = field(default_factory=lambda: NO_TILES)

    def __len__(self) -> int:
        return len(self.owner)

    def against(self, which: Ints, corners: Points) -> tuple[Bools, Bools]:
        """Returns of some of the polygons whether each holds all of a convex polygon, and whether part of it only.

        One that comes within `tolerance.COINCIDENT` of holding it, or of not meeting it, does.
        """
        over = self.normals[which] @ corners.T - self.limits[which][:, :, None]
        outside = (over.min(axis=2) >= -COINCIDENT).any(axis=1)
        inside = (over.max(axis=2) <= COINCIDENT).all(axis=1)
        return inside & ~outside, ~(inside | outside)

    def of(self, tiles: Ints) -> Ints:
        """Returns the numbers of the polygons of some tiles, given as (n, 3) lattice indices."""
        wanted = {tuple(tile) for tile in tiles.tolist()}
        owners = [n for n, tile in enumerate(self.tiles.tolist()) if tuple(tile) in wanted]
        return np.flatnonzero(np.isin(self.owner, owners))

    def best_cut(self, which: Ints, corners: Points) -> tuple[float, Points, float]:
        """Returns how far inside, mm, the side of one of the polygons passes that splits a convex polygon most evenly,
        and its half plane; 0 or less where no side passes through it."""
        over = self.normals[which] @ corners.T - self.limits[which][:, :, None]
        depth = np.minimum(over.max(axis=2), -over.min(axis=2))
        n, side = np.unravel_index(int(depth.argmax()), depth.shape)
        shape = which[n]
        return float(depth[n, side]), self.normals[shape, side], float(self.limits[shape, side])


def shapes_of(polygons: NDArray[np.object_], owner: Ints, owners: int, tiles: Ints = NO_TILES) -> Shapes:
    """Returns convex shapely polygons as shapes; any that have no area are left out."""
    real = shapely.area(polygons) > 0.0
    polygons, owner = shapely.orient_polygons(polygons[real]), owner[real]
    points, ring = shapely.get_coordinates(polygons, return_index=True)
    if len(polygons) == 0:
        return Shapes(normals=np.zeros((0, 1, 2)), limits=np.zeros((0, 1)), owner=owner, owners=owners, tiles=tiles)
    # The last point of a ring is its first again: every other one begins a side.
    begins = np.flatnonzero(ring[:-1] == ring[1:])
    run = points[begins + 1] - points[begins]
    length = np.hypot(run[:, 0], run[:, 1])
    begins, run, length = begins[length > COINCIDENT], run[length > COINCIDENT], length[length > COINCIDENT]
    outward = np.stack([run[:, 1], -run[:, 0]], axis=1) / length[:, None]
    limit = (outward * points[begins]).sum(axis=1)
    count = np.bincount(ring[begins], minlength=len(polygons))
    first = np.cumsum(count) - count
    place = np.minimum(first[:, None] + np.arange(count.max()), (first + count - 1)[:, None])
    return Shapes(normals=outward[place], limits=limit[place], owner=owner, owners=owners, tiles=tiles)


def together(parts: list[Shapes]) -> Shapes:
    """Returns several sets of shapes as one, all of one owner."""
    sides = max(part.limits.shape[1] for part in parts)
    padded = [np.minimum(np.arange(sides), part.limits.shape[1] - 1) for part in parts]
    return Shapes(
        normals=np.concatenate([part.normals[:, pad] for part, pad in zip(parts, padded, strict=True)]),
        limits=np.concatenate([part.limits[:, pad] for part, pad in zip(parts, padded, strict=True)]),
        owner=np.zeros(sum(len(part) for part in parts), dtype=np.intp),
        owners=1,
    )


def split(corners: Points, normal: Points, limit: float) -> tuple[Points, Points]:
    """Returns the parts of a convex polygon on either side of a line: where `normal @ x <= limit`, and the rest."""
    return kept(corners, normal, limit), kept(corners, -normal, -limit)


def without(corners: Points, taken: Points) -> list[Points]:
    """Returns convex polygons that make up what is left of one less another that is anticlockwise."""
    left = []
    run = np.roll(taken, -1, axis=0) - taken
    length = np.hypot(run[:, 0], run[:, 1])
    for start, along, long in zip(taken, run, length, strict=True):
        if long <= COINCIDENT:
            continue
        outward = np.array([along[1], -along[0]]) / long
        corners, outside = split(corners, outward, float(outward @ start))
        if len(outside):
            left.append(outside)
        if not len(corners):
            break
    return left


def middle(corners: Points) -> Points:
    """Returns the centroid of a convex polygon; the mean of its corners where it has next to no area."""
    start, after = corners[0], np.roll(corners, -1, axis=0)
    cross = _turns(corners)
    if abs(cross.sum()) < COINCIDENT**2:
        return np.asarray(corners.mean(axis=0))
    return np.asarray(start + ((corners + after - 2 * start) * cross[:, None]).sum(axis=0) / (3 * cross.sum()))


def is_line(corners: Points) -> bool:
    """Returns whether a convex polygon is narrower than `tolerance.COINCIDENT` on the whole."""
    return abs(float(_turns(corners).sum())) / 2 <= COINCIDENT * float(np.ptp(corners, axis=0).max())


def _turns(corners: Points) -> Floats:
    """Returns twice the signed areas between the first corner and each side."""
    away = corners - corners[0]
    after = np.roll(away, -1, axis=0)
    return np.asarray(away[:, 0] * after[:, 1] - away[:, 1] * after[:, 0])
