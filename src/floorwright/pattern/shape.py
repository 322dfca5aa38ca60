"""Outlines that patterns are made of.

Most patterns are drawn as *modules*: pieces grown by half a joint all round, which fill the floor without a gap. Set in
by half a joint they are the pieces at work size, and every joint has its width.
"""

import math
from collections.abc import Sequence

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.pattern.cell import Size


def ring(corners: Sequence[tuple[float, float]]) -> Points:
    """Returns corners as an outline, (n, 2) mm."""
    return np.array(corners, dtype=np.float64)


def rectangle(size: Size, at: tuple[float, float] = (0.0, 0.0)) -> Points:
    """Returns a rectangle of this length and width with its lower left corner at a place, anticlockwise."""
    length, width = size
    return np.array([[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]]) + at


def set_in(outline: Points, by: float) -> Points:
    """Returns an anticlockwise outline with each side moved in by so much, mm, mitred at the corners.

    Raises:
        FloorwrightValueError: if nothing is left of it.
    """
    along = np.roll(outline, -1, axis=0) - outline
    normals = np.stack([-along[:, 1], along[:, 0]], axis=1) / np.hypot(along[:, 0], along[:, 1])[:, None]
    limits = (normals * outline).sum(axis=1) + by
    before, first = np.roll(normals, 1, axis=0), np.roll(limits, 1)
    cross = before[:, 0] * normals[:, 1] - before[:, 1] * normals[:, 0]
    x = (first * normals[:, 1] - limits * before[:, 1]) / cross
    y = (before[:, 0] * limits - normals[:, 0] * first) / cross
    inside = np.stack([x, y], axis=1)
    kept = ((np.roll(inside, -1, axis=0) - inside) * along).sum(axis=1)
    if by > 0 and (kept <= 0).any():
        raise FloorwrightValueError(f"nothing is left of a piece set in by {by:g}")
    return inside


def turned(outline: Points, angle: float) -> Points:
    """Returns an outline turned anticlockwise about the origin, radians."""
    cos, sin = math.cos(angle), math.sin(angle)
    return np.asarray(outline @ np.array([[cos, sin], [-sin, cos]]))


def regular(sides: int, side: float, first: float = 0.0) -> Points:
    """Returns a regular polygon about the origin, anticlockwise, its first corner in direction `first`, radians."""
    angles = first + math.tau * np.arange(sides) / sides
    radius = side / (2 * math.sin(math.pi / sides))
    return radius * np.stack([np.cos(angles), np.sin(angles)], axis=1)


def check_goods(size: Size, joint: float) -> None:
    """Raises `FloorwrightValueError` for a size or a joint that cannot be."""
    if not (min(size) > 0 and math.isfinite(max(size))):
        raise FloorwrightValueError(f"a piece needs a length and a width, not {size[0]:g} x {size[1]:g}")
    if not (joint >= 0 and math.isfinite(joint)):
        raise FloorwrightValueError(f"a joint cannot be {joint:g} wide")
