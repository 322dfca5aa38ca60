"""What a repeat really comes to, measured on its outlines: joints, overlaps, what is left open, straight joints."""

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely

from floorwright.geometry.region import Points
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import COINCIDENT, RANK_STEP

SLANT: Final = 0.02
"""Two sides at a sine under this lie along each other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """Two pieces side by side.

    Attributes:
        piece, other: numbers of the two in the repeat.
        least, most: mm, the width of the joint where they lie side by side.
        overlap: mm2 that they have in common.
    """

    piece: int
    other: int
    least: float
    most: float
    overlap: float


def beside(cell: UnitCell, reach: float) -> tuple[Beside, ...]:
    """Returns every two pieces that lie side by side, each pair once from either of them.

    A joint is measured square to every side of the piece, in the middle and near both ends of what lies against it.

    Args:
        cell: the repeat.
        reach: mm within which a neighbour is looked for.
    """
    around = _around(cell, reach)
    shapes = [shapely.Polygon(outline) for _, outline in around]
    tree = shapely.STRtree(shapes)
    found = []
    for k, outline in enumerate(cell.pieces):
        shape = shapely.Polygon(outline)
        for at in sorted(tree.query(shape.buffer(reach)).tolist()):
            other, ring = around[at]
            if other == k and np.allclose(ring, outline, atol=COINCIDENT):
                continue
            overlap = float(shape.intersection(shapes[at]).area)
            widths = [width for start, end in _sides(outline) for width in _widths(start, end, ring, reach)]
            if widths or overlap > COINCIDENT:
                found.append(
                    Beside(
                        piece=k,
                        other=other,
                        least=min(widths, default=0.0),
                        most=max(widths, default=0.0),
                        overlap=overlap,
                    )
                )
    return tuple(found)


def _around(cell: UnitCell, reach: float) -> list[tuple[int, Points]]:
    """Returns the pieces of every repeat that may come near the one in the middle, with their numbers."""
    corners = np.concatenate(cell.pieces)
    wide, high = np.ptp(corners, axis=0) + reach
    box = np.array([[wide, high], [wide, -high]]) @ np.linalg.inv(cell.repeat)
    i_most, j_most = np.ceil(np.abs(box).max(axis=0)).astype(int).tolist()
    return [
        (k, outline + i * cell.a + j * cell.b)
        for k, outline in enumerate(cell.pieces)
        for i in range(-i_most - 1, i_most + 2)
        for j in range(-j_most - 1, j_most + 2)
    ]


def _sides(outline: Points) -> list[tuple[Points, Points]]:
    return list(zip(outline, np.roll(outline, -1, axis=0), strict=True))


def _widths(start: Points, end: Points, ring: Points, reach: float) -> list[float]:
    """Returns how far sides of a ring that run along a side lie outside it, mm, where they lie against it."""
    run = end - start
    length = math.hypot(*run)
    along, out = run / length, np.array([run[1], -run[0]]) / length
    widths = []
    for one, two in _sides(ring):
        opposite = two - one
        if abs(along[0] * opposite[1] - along[1] * opposite[0]) > SLANT * math.hypot(*opposite):
            continue
        low, high = sorted((float((one - start) @ along), float((two - start) @ along)))
        low, high = max(low, 0.0), min(high, length)
        off = [float((one - start) @ out), float((two - start) @ out)]
        if high - low > COINCIDENT and float(along @ opposite) < 0 and -COINCIDENT <= min(off) <= reach:
            widths += off
    return widths


def open_area(cell: UnitCell, joint: float) -> float:
    """Returns the area of a repeat that is neither piece nor within half a joint of one, mm2: a gap of its own."""
    parts = [
        shapely.Polygon(outline).buffer(joint / 2 + RANK_STEP, join_style="mitre")
        for _, outline in _around(cell, joint)
    ]
    rim = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]]) @ cell.repeat + cell.pieces[0].mean(axis=0)
    return float(shapely.Polygon(rim).difference(shapely.union_all(parts)).area)


def longest_run(cell: UnitCell) -> float:
    """Returns the longest straight joint along the pattern's x or y, mm, of a pattern of rectangles; infinite where a
    joint runs through.

    It is the length of the joint's centre line: from the middle of the joint that stops it at one end to that at the
    other.
    """
    span = max(math.hypot(*cell.a), math.hypot(*cell.b))
    laps = 4
    longest = 0.0
    for axis in (0, 1):
        rows: dict[int, list[tuple[float, float]]] = {}
        for outline in cell.pieces:
            low, high = outline.min(axis=0) - cell.joint / 2, outline.max(axis=0) + cell.joint / 2
            for i in range(-laps, laps + 1):
                for j in range(-laps, laps + 1):
                    shift = i * cell.a + j * cell.b
                    for level in (low, high):
                        key = round(float(level[1 - axis] + shift[1 - axis]) / max(cell.joint, 1.0))
                        rows.setdefault(key, []).append(
                            (float(low[axis] + shift[axis]), float(high[axis] + shift[axis]))
                        )
        for parts in rows.values():
            longest = max(longest, _longest(parts, max(cell.joint, 1.0)))
    return math.inf if longest >= laps * span else longest


def _longest(parts: list[tuple[float, float]], slack: float) -> float:
    begin, longest, end = -math.inf, 0.0, -math.inf
    for low, high in sorted(parts):
        if low > end + slack:
            begin = low
        end = max(end, high)
        longest = max(longest, end - begin)
    return longest
