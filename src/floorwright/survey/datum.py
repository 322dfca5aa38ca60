"""What fixes a network on the floor, as the directions in which its points may still move.

Readings between points say nothing of where the figure lies or which way it is turned. A datum closes that with no
reading: the coordinates are x = start + basis p, and only p is solved for, so every datum is the same sum.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.survey.adjustment import Adjustment, Datum
from floorwright.survey.network import Floats
from floorwright.tolerance import COINCIDENT

KINDS: Final = ("first wall", "fixed points", "inner constraints", "coordinates")


def basis_of(datum: Datum, points: Sequence[str], start: Points) -> Floats:
    """Returns the columns in which the coordinates may move, (2n, k), x and y of each point in turn.

    `first wall`: the first point rests and the second moves only along the ray from it. `fixed points`: those named
    rest. `inner constraints`: no net shift and no net turn of the points that take part (S-transformation of Baarda,
    as in Krumm, Geodetic Network Adjustment Examples): the columns are the null space of those three conditions.
    `coordinates`: nothing rests, for coordinates that were read fix it all.

    Args:
        datum: see there.
        points: names in the order of the coordinates.
        start: (n, 2) mm, starting coordinates.

    Raises:
        FloorwrightValueError: an unknown kind or point, or points that cannot fix anything.
    """
    unknown = [name for name in datum.points if name not in points]
    if unknown:
        raise FloorwrightValueError(f"the datum names the unknown point {unknown[0]}")
    index = [list(points).index(name) for name in datum.points]
    if datum.kind == "first wall":
        return _first_wall(index, start)
    if datum.kind == "fixed points":
        if not index:
            raise FloorwrightValueError("no fixed points are named")
        free = np.ones(2 * len(points), dtype=np.bool_)
        for i in index:
            free[2 * i : 2 * i + 2] = False
        return np.eye(2 * len(points))[:, free]
    if datum.kind == "inner constraints":
        return _inner(index or list(range(len(points))), start)
    if datum.kind == "coordinates":
        return np.eye(2 * len(points))
    raise FloorwrightValueError(f"no datum {datum.kind!r}: write one of {', '.join(KINDS)}")


def on_first_wall(xy: Points, first: int = 0, second: int = 1) -> Points:
    """Returns a figure moved and turned so that one point is (0, 0) and another lies along x from it.

    A figure with both in one place is only moved.
    """
    moved = xy - xy[first]
    x, y = moved[second]
    length = math.hypot(x, y)
    turn = np.array([[x, -y], [y, x]]) / length if length > COINCIDENT else np.eye(2)
    return np.asarray(moved @ turn, dtype=np.float64)


def on_wall(xy: Points, held: Points, first: int, second: int) -> Points:
    """Returns a figure moved and turned so that one point lies where `held` has it, and the ray to another as there."""
    x, y = held[second] - held[first]
    length = max(math.hypot(x, y), COINCIDENT)
    turned = on_first_wall(xy, first, second) @ np.array([[x, y], [-y, x]]) / length
    return np.asarray(held[first] + turned, dtype=np.float64)


def carried_over(adjustment: Adjustment, datum: Datum) -> Adjustment:
    """Returns an adjusted figure on another datum, without adjusting it again: its shape stays, its accuracy follows.

    The S-transformation of Baarda: errors are split into those that the datum lets happen and a shift and a turn of the
    whole, which are taken out. A first wall moves the figure to its two points.

    Args:
        adjustment: on any datum, `coordinates` among them.
        datum: any but `coordinates`.
    """
    xy = adjustment.xy
    if datum.kind == "first wall":
        xy = on_first_wall(xy, *(adjustment.points.index(name) for name in datum.points))
    turn = _turn_between(adjustment.xy, xy)
    covariance = np.kron(np.eye(len(xy)), turn) @ adjustment.covariance @ np.kron(np.eye(len(xy)), turn.T)
    centred = xy - xy.mean(axis=0)
    basis = basis_of(datum, adjustment.points, centred)
    rigid = np.zeros((xy.size, 3))
    rigid[0::2, 0] = rigid[1::2, 1] = 1.0
    rigid[:, 2] = np.column_stack([-centred[:, 1], centred[:, 0]]).ravel() / max(float(np.abs(centred).max()), 1.0)
    kept = basis @ np.linalg.inv(np.hstack([basis, rigid]))[: basis.shape[1]]
    return replace(adjustment, xy=xy, covariance=kept @ covariance @ kept.T)


def _turn_between(old: Points, new: Points) -> Floats:
    """The turn that takes one figure to the same figure elsewhere, (2, 2)."""
    first, second = old - old.mean(axis=0), new - new.mean(axis=0)
    cosine, sine = float((first * second).sum()), float((first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]).sum())
    size = math.hypot(cosine, sine)
    return np.array([[cosine, -sine], [sine, cosine]]) / size


def _first_wall(index: Sequence[int], start: Points) -> Floats:
    if len(index) != 2 or index[0] == index[1]:
        raise FloorwrightValueError("a first wall has two points")
    first, second = index
    ray = start[second] - start[first]
    length = math.hypot(float(ray[0]), float(ray[1]))
    if length <= COINCIDENT:
        raise FloorwrightValueError("the two points of the first wall start in one place")
    held = {2 * first, 2 * first + 1, 2 * second, 2 * second + 1}
    free = [column for column in range(start.size) if column not in held]
    basis = np.zeros((start.size, 1 + len(free)))
    basis[2 * second : 2 * second + 2, 0] = ray / length
    basis[free, np.arange(1, 1 + len(free))] = 1.0
    return basis


def _inner(index: Sequence[int], start: Points) -> Floats:
    if len(index) < 2:
        raise FloorwrightValueError("inner constraints take two points or more")
    centred = start - start[index].mean(axis=0)
    conditions = np.zeros((3, start.size))
    for i in index:
        conditions[0, 2 * i] = conditions[1, 2 * i + 1] = 1.0
        conditions[2, 2 * i : 2 * i + 2] = (-centred[i, 1], centred[i, 0])
    conditions /= np.linalg.norm(conditions, axis=1)[:, None]
    _, sizes, directions = np.linalg.svd(conditions, full_matrices=True)
    if sizes[-1] <= COINCIDENT:
        raise FloorwrightValueError("the points of the inner constraints start in one place")
    return np.ascontiguousarray(directions[3:].T)
