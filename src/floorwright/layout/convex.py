"""Convex polygons: cut by a line, and the ones that make up a polygon that is not convex."""

import numpy as np

from floorwright.geometry.region import Points
from floorwright.tolerance import COINCIDENT, PARALLEL


def kept(corners: Points, normal: Points, limit: float) -> Points:
    """Returns the corners of the part of a convex polygon where `normal @ x <= limit`; none if nothing is left."""
    over = corners @ normal - limit
    found: list[Points] = []
    for n in range(len(corners)):
        here, there = over[n - 1], over[n]
        if (here <= 0) != (there <= 0):
            found.append(corners[n - 1] + here / (here - there) * (corners[n] - corners[n - 1]))
        if there <= 0:
            found.append(corners[n])
    return np.array(found) if len(found) > 2 else np.zeros((0, 2))


def within(corners: Points, normals: Points, limits: Points) -> Points:
    """Returns the corners of the part of a convex polygon where `normals @ x <= limits` in every row.

    Args:
        corners: (n, 2) mm, anticlockwise.
        normals: (m, 2) unit.
        limits: (m,) mm.
    """
    while len(corners):
        over = (corners @ normals.T - limits).max(axis=0, initial=-np.inf)
        worst = int(over.argmax()) if len(over) else 0
        if len(over) == 0 or over[worst] <= PARALLEL:
            break
        corners = kept(corners, normals[worst], float(limits[worst]))
    return corners


def is_convex(corners: Points) -> bool:
    """Returns whether a simple anticlockwise polygon turns left, or goes straight on, at every corner."""
    return bool((_turns(corners) >= -COINCIDENT).all())


def convex_parts(corners: Points) -> tuple[Points, ...]:
    """Returns convex polygons that together are a simple anticlockwise polygon and do not overlap.

    Ears are cut off one by one, and each is put back on to its neighbour where the two make a convex polygon.
    """
    if is_convex(corners):
        return (corners,)
    left = list(range(len(corners)))
    parts: list[list[int]] = []
    while len(left) > 3:
        for n in range(len(left)):
            a, b, c = left[n - 1], left[n], left[(n + 1) % len(left)]
            others = [q for q in left if q not in (a, b, c)]
            if _area(corners[[a, b, c]]) > COINCIDENT and not _any_in(corners[others], corners[[a, b, c]]):
                parts.append([a, b, c])
                left.pop(n)
                break
        else:
            # Only corners that lie straight on are left over: they bound nothing.
            break
    if len(left) == 3 and _area(corners[left]) > COINCIDENT:
        parts.append(left)
    return tuple(corners[part] for part in _merged(parts, corners))


def _merged(parts: list[list[int]], corners: Points) -> list[list[int]]:
    """Returns the polygons with every two joined, while there are any, that share a side and are convex together."""
    for one in range(len(parts)):
        for other in range(one + 1, len(parts)):
            joined = _joined(parts[one], parts[other])
            if joined is not None and is_convex(corners[joined]):
                rest = [part for n, part in enumerate(parts) if n not in (one, other)]
                return _merged([*rest, joined], corners)
    return parts


def _joined(one: list[int], other: list[int]) -> list[int] | None:
    """Returns the polygon of two that share a side; None where they share none."""
    for n, a in enumerate(one):
        b = one[(n + 1) % len(one)]
        if a in other and other[other.index(a) - 1] == b:
            at = other.index(a)
            return one[: n + 1] + [other[(at + step) % len(other)] for step in range(1, len(other) - 1)] + one[n + 1 :]
    return None


def _turns(corners: Points) -> Points:
    along = np.roll(corners, -1, axis=0) - corners
    before = np.roll(along, 1, axis=0)
    return np.asarray(before[:, 0] * along[:, 1] - before[:, 1] * along[:, 0])


def _area(triangle: Points) -> float:
    (ax, ay), (bx, by) = triangle[1] - triangle[0], triangle[2] - triangle[0]
    return float(ax * by - ay * bx) / 2


def _any_in(points: Points, triangle: Points) -> bool:
    """Returns whether a point lies in a triangle or on its rim."""
    along = np.roll(triangle, -1, axis=0) - triangle
    away = points[:, None] - triangle[None]
    left = along[None, :, 0] * away[..., 1] - along[None, :, 1] * away[..., 0]
    return bool((left >= 0).all(axis=1).any())
