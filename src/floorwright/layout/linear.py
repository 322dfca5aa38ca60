"""The highest point, over a box, of the least of a few affine functions: many small cases at once, exactly."""

from itertools import combinations
from typing import Final

import numpy as np

from floorwright.geometry.region import Points
from floorwright.layout.walk import Floats
from floorwright.tolerance import COINCIDENT, PARALLEL

MOST: Final = 8
"""Functions taken into account; leaving one out only raises the answer, so a bound stays a bound."""

PAIRS: Final = np.array(list(combinations(range(MOST), 2)))
TRIPLES: Final = np.array(list(combinations(range(MOST), 3)))
FAR: Final = 1e9
"""Height of a function that is not there, mm."""


def highest_low(value: Floats, slope: Points, half: Points) -> tuple[Floats, Points]:
    """Returns the greatest value of min_i (value_i + slope_i x) for |x| <= half, and where it lies.

    The optimum of such a linear programme in two unknowns lies in a corner of the box, where two functions are equal on
    its rim, or where three are equal inside; all of those are tried.

    Args:
        value: (n, MOST) at the middle of the box; `FAR` where there is no function.
        slope: (n, MOST, 2).
        half: (n, 2) half the box's sides.

    Returns:
        (n,) greatest values and (n, 2) places, from the middle of the box.
    """
    places = np.concatenate([_corners(half), _on_rim(value, slope, half), _inside(value, slope)], axis=1)
    within = (np.abs(places) <= half[:, None] * (1 + COINCIDENT)).all(axis=2)
    # (n, functions, places): one plane a function keeps the arrays small.
    low = np.where(within, FAR, -np.inf)
    for i in range(value.shape[1]):
        low = np.minimum(low, value[:, i, None] + (slope[:, i, None] * places).sum(axis=2))
    best = low.argmax(axis=1)
    rows = np.arange(len(value))
    return low[rows, best], places[rows, best]


def _corners(half: Points) -> Floats:
    return np.asarray(half[:, None] * np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]]))


def _on_rim(value: Floats, slope: Points, half: Points) -> Floats:
    """Returns (n, 4 pairs, 2) the places on the four sides where two functions are equal, `FAR` away where they never
    are."""
    one, other = PAIRS.T
    rise = slope[:, one] - slope[:, other]
    fall = value[:, other] - value[:, one]
    found = []
    for fixed, free in ((0, 1), (1, 0)):
        for side in (-1.0, 1.0):
            at = np.broadcast_to(side * half[:, None, fixed], fall.shape)
            there = _divide(fall - rise[..., fixed] * at, rise[..., free])
            found.append(np.stack([at, there] if fixed == 0 else [there, at], axis=2))
    return np.concatenate(found, axis=1)


def _inside(value: Floats, slope: Points) -> Floats:
    """Returns (n, triples, 2) the places where three functions are equal."""
    i, j, k = TRIPLES.T
    a, b = slope[:, i] - slope[:, j], slope[:, i] - slope[:, k]
    p, q = value[:, j] - value[:, i], value[:, k] - value[:, i]
    cross = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    x = _divide(p * b[..., 1] - a[..., 1] * q, cross)
    y = _divide(a[..., 0] * q - p * b[..., 0], cross)
    return np.stack([x, y], axis=2)


def _divide(top: Floats, below: Floats) -> Floats:
    return np.asarray(np.divide(top, below, out=np.full(top.shape, FAR), where=np.abs(below) > PARALLEL))
