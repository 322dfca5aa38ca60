"""Numbers about rings and points: areas, lengths, angles, and yes-or-no questions."""

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from floorwright.geometry.region import Points, Region


def area(ring: ArrayLike) -> float:
    """Returns the signed area of a ring, mm2: positive where it runs anticlockwise.

    Args:
        ring: (n, 2) mm, not closed. Fewer than three points have no area.
    """
    points = np.asarray(ring, dtype=np.float64).reshape(-1, 2)
    if len(points) < 3:
        return 0.0
    x, y = (points - points[0]).T
    return 0.5 * float(np.dot(x, np.roll(y, -1)) - np.dot(np.roll(x, -1), y))


def region_area(region: Region) -> float:
    """Returns the area of a region less its holes, mm2 (holes run clockwise, so theirs is negative already)."""
    return sum(area(ring) for ring in region.rings)


def edge_lengths(ring: ArrayLike) -> NDArray[np.float64]:
    """Returns the length of each edge, mm: edge i runs from point i to the next, the last one back to the first."""
    points = np.asarray(ring, dtype=np.float64).reshape(-1, 2)
    steps = np.roll(points, -1, axis=0) - points
    return np.hypot(steps[:, 0], steps[:, 1])


def perimeter(ring: ArrayLike) -> float:
    """Returns the length all round a ring, mm."""
    return float(edge_lengths(ring).sum())


def interior_angles(ring: ArrayLike) -> NDArray[np.float64]:
    """Returns the angle at each point on the left of the ring, radians in [0, 2 pi).

    For an anticlockwise ring that is the interior angle: over pi where the corner turns in. The sum over a simple
    ring of n points is (n - 2) pi.
    """
    points = np.asarray(ring, dtype=np.float64).reshape(-1, 2)
    out = np.roll(points, -1, axis=0) - points
    back = np.roll(points, 1, axis=0) - points
    angles = np.arctan2(back[:, 1], back[:, 0]) - np.arctan2(out[:, 1], out[:, 0])
    return np.asarray(np.mod(angles, 2 * math.pi), dtype=np.float64)


def turns(ring: ArrayLike) -> NDArray[np.float64]:
    """Returns the sine of the turn at each point: positive to the left, 0 where the ring runs straight on."""
    points = np.asarray(ring, dtype=np.float64).reshape(-1, 2)
    out = np.roll(points, -1, axis=0) - points
    into = points - np.roll(points, 1, axis=0)
    scale = np.hypot(out[:, 0], out[:, 1]) * np.hypot(into[:, 0], into[:, 1])
    cross = into[:, 0] * out[:, 1] - into[:, 1] * out[:, 0]
    return np.asarray(np.divide(cross, scale, out=np.zeros_like(cross), where=scale > 0), dtype=np.float64)


def is_simple(ring: ArrayLike) -> bool:
    """Returns whether no two edges of a ring touch, but for neighbours at the point they share."""
    points = np.asarray(ring, dtype=np.float64).reshape(-1, 2)
    count = len(points)
    if count < 3:
        return False
    start, end = points, np.roll(points, -1, axis=0)
    if bool(np.any(np.all(start == end, axis=1))):
        return False
    if count == 3:
        return area(points) != 0.0
    first, second = np.triu_indices(count, k=1)
    apart = (second - first > 1) & ~((first == 0) & (second == count - 1))
    if bool(np.any(_touch(start[first[apart]], end[first[apart]], start[second[apart]], end[second[apart]]))):
        return False
    # Neighbours share a point; they overlap only where the ring turns straight back on itself.
    out, back = end - start, np.roll(points, 1, axis=0) - points
    cross = out[:, 0] * back[:, 1] - out[:, 1] * back[:, 0]
    return not bool(np.any((cross == 0.0) & (np.einsum("ij,ij->i", out, back) > 0.0)))


def _side(a: Points, b: Points, c: Points) -> NDArray[np.float64]:
    """Twice the signed area of each triangle a, b, c."""
    return np.asarray(
        (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0]), dtype=np.float64
    )


def _touch(a: Points, b: Points, c: Points, d: Points) -> NDArray[np.bool_]:
    """Whether each closed segment ab meets the closed segment cd."""
    c_side, d_side = np.sign(_side(a, b, c)), np.sign(_side(a, b, d))
    a_side, b_side = np.sign(_side(c, d, a)), np.sign(_side(c, d, b))
    boxes_meet = np.all(
        (np.minimum(a, b) <= np.maximum(c, d)) & (np.minimum(c, d) <= np.maximum(a, b)),
        axis=1,
    )
    return np.asarray(boxes_meet & (c_side * d_side <= 0) & (a_side * b_side <= 0), dtype=np.bool_)


def is_inside(points: ArrayLike, region: Region) -> NDArray[np.bool_]:
    """Returns whether each point lies inside a region (so outside its holes).

    A point on an edge may be told either way; ask `distance_to_ring` where that matters.

    Args:
        points: (m, 2) or (2,) mm.
        region: see there.

    Returns:
        (m,) booleans.
    """
    inside = np.zeros(len(np.asarray(points, dtype=np.float64).reshape(-1, 2)), dtype=np.bool_)
    for ring in region.rings:
        inside ^= is_inside_ring(points, ring)
    return inside


def is_inside_ring(points: ArrayLike, ring: ArrayLike) -> NDArray[np.bool_]:
    """Returns whether each point lies inside a ring of either direction, (m,) booleans (even-odd rule)."""
    asked = np.asarray(points, dtype=np.float64).reshape(-1, 1, 2)
    start = np.asarray(ring, dtype=np.float64).reshape(-1, 2)
    end = np.roll(start, -1, axis=0)
    crosses = (start[:, 1] > asked[:, :, 1]) != (end[:, 1] > asked[:, :, 1])
    rise = end[:, 1] - start[:, 1]
    share = np.divide(asked[:, :, 1] - start[:, 1], rise, out=np.zeros_like(asked[:, :, 1] - rise), where=rise != 0)
    right = asked[:, :, 0] < start[:, 0] + share * (end[:, 0] - start[:, 0])
    return np.asarray(np.count_nonzero(crosses & right, axis=1) % 2 == 1, dtype=np.bool_)


def distance(a: ArrayLike, b: ArrayLike) -> float:
    """Returns the distance between two points, mm."""
    step = np.asarray(b, dtype=np.float64) - np.asarray(a, dtype=np.float64)
    return math.hypot(float(step[0]), float(step[1]))


def distance_to_segments(points: ArrayLike, start: ArrayLike, end: ArrayLike) -> NDArray[np.float64]:
    """Returns the distance of each point from each segment, (m, k) mm.

    Args:
        points: (m, 2) or (2,) mm.
        start, end: (k, 2) or (2,) mm. A segment of no length counts as its point.
    """
    asked = np.asarray(points, dtype=np.float64).reshape(-1, 1, 2)
    a = np.asarray(start, dtype=np.float64).reshape(-1, 2)
    along = np.asarray(end, dtype=np.float64).reshape(-1, 2) - a
    squared = np.einsum("ij,ij->i", along, along)
    dot = np.einsum("mkj,kj->mk", asked - a, along)
    share = np.clip(np.divide(dot, squared, out=np.zeros_like(dot), where=squared > 0), 0.0, 1.0)
    off = asked - a - share[:, :, None] * along
    return np.asarray(np.hypot(off[:, :, 0], off[:, :, 1]), dtype=np.float64)


def distance_to_ring(points: ArrayLike, ring: ArrayLike) -> NDArray[np.float64]:
    """Returns the distance of each point from the nearest edge of a ring, (m,) mm."""
    start = np.asarray(ring, dtype=np.float64).reshape(-1, 2)
    return np.asarray(distance_to_segments(points, start, np.roll(start, -1, axis=0)).min(axis=1), dtype=np.float64)


def ring_gap(first: ArrayLike, second: ArrayLike) -> float:
    """Returns the least distance between the edges of two rings, mm; 0 where they meet.

    One may lie inside the other.
    """
    a, c = np.asarray(first, dtype=np.float64).reshape(-1, 2), np.asarray(second, dtype=np.float64).reshape(-1, 2)
    i, j = np.divmod(np.arange(len(a) * len(c)), len(c))
    if bool(np.any(_touch(a[i], np.roll(a, -1, axis=0)[i], c[j], np.roll(c, -1, axis=0)[j]))):
        return 0.0
    return float(min(distance_to_ring(a, c).min(), distance_to_ring(c, a).min()))


def offset_from_line(points: ArrayLike, start: ArrayLike, end: ArrayLike) -> NDArray[np.float64]:
    """Returns the distance of each point from the endless line start-end, (m,) mm, positive on its left."""
    asked = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    a = np.asarray(start, dtype=np.float64)
    along = np.asarray(end, dtype=np.float64) - a
    normal = np.array([-along[1], along[0]]) / math.hypot(float(along[0]), float(along[1]))
    return np.asarray((asked - a) @ normal, dtype=np.float64)
