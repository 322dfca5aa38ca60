"""Things of uneven length laid one after another in one array: ranges of numbers, and rings of points."""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from floorwright.geometry.region import Points

Ints: TypeAlias = NDArray[np.intp]
Floats: TypeAlias = NDArray[np.float64]
Bools: TypeAlias = NDArray[np.bool_]


def spread(low: Floats | Ints, high: Floats | Ints) -> tuple[Ints, Ints]:
    """Returns every whole number of every range, as (which range, number); both ends belong, an empty range gives
    none."""
    first = low.astype(np.intp)
    count = np.maximum(high.astype(np.intp) - first + 1, 0)
    owner = np.repeat(np.arange(len(first)), count)
    begins = np.cumsum(count) - count
    return owner, np.arange(len(owner)) - np.repeat(begins - first, count)


def following(first: Ints) -> Ints:
    """Returns for each point of rings laid flat the index of the point after it on its ring."""
    after = np.arange(first[-1]) + 1
    after[first[1:] - 1] = first[:-1]
    return after


def areas(points: Points, first: Ints) -> Floats:
    """Returns the signed area of each ring, mm2, anticlockwise positive."""
    if len(points) == 0:
        return np.zeros(len(first) - 1)
    size = np.diff(first)
    local = points - np.repeat(points[first[:-1]], size, axis=0)
    onward = local[following(first)]
    return np.add.reduceat(local[:, 0] * onward[:, 1] - local[:, 1] * onward[:, 0], first[:-1]) / 2
