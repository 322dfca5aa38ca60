"""The observations of a network as arrays: what each should read at given coordinates, and how that changes.

A residual is adjusted minus measured, as everywhere in the survey. What a square corner measures is a right angle on
whichever side it now lies nearer to (90 or 270 degrees); what a straight measures is no offset.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.survey.observation import Distance, Observation, Square, Straight

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Network:
    """Points and observations, indexed once.

    Attributes:
        points: names, in the order of all coordinates.
        measured: (m,) mm, of the distances; 0 in the rows of squares and straights.
        sd: (m,) a-priori standard deviations, mm or radians.
        distances: row, a, b of each; (3, k).
        squares: row, at, a, b of each; (4, k).
        straights: row, a, at, b of each; (4, k).
    """

    points: tuple[str, ...]
    measured: Floats
    sd: Floats
    distances: Indices
    squares: Indices
    straights: Indices


def network(points: Sequence[str], observations: Sequence[Observation]) -> Network:
    """Returns the network of some points and observations.

    Raises:
        FloorwrightValueError: a point is named twice or unknown, an observation uses a point twice, a standard
            deviation is not over zero, or a distance is not.
    """
    index = {name: i for i, name in enumerate(points)}
    if len(index) != len(points):
        raise FloorwrightValueError("two points of one name")
    for observation in observations:
        _check(observation, index)
    kinds = [
        [(row, *(index[name] for name in names_of(o))) for row, o in enumerate(observations) if isinstance(o, kind)]
        for kind in (Distance, Square, Straight)
    ]
    distances, squares, straights = (
        np.array(rows, dtype=np.intp).reshape(-1, width).T for rows, width in zip(kinds, (3, 4, 4), strict=True)
    )
    return Network(
        points=tuple(points),
        measured=np.array([o.measured if isinstance(o, Distance) else 0.0 for o in observations], dtype=np.float64),
        sd=np.array([o.sd for o in observations], dtype=np.float64),
        distances=distances,
        squares=squares,
        straights=straights,
    )


def names_of(observation: Observation) -> tuple[str, ...]:
    """Returns the points of an observation: a, b of a distance; at, a, b of a square; a, at, b of a straight."""
    if isinstance(observation, Distance):
        return (observation.a, observation.b)
    if isinstance(observation, Square):
        return (observation.at, observation.a, observation.b)
    return (observation.a, observation.at, observation.b)


def kind_of(observation: Observation) -> str:
    """Returns `distance`, `square` or `straight`."""
    return type(observation).__name__.lower()


def _check(observation: Observation, known: Iterable[str]) -> None:
    names = names_of(observation)
    for name in names:
        if name not in known:
            raise FloorwrightValueError(f"{observation.key} names the unknown point {name}")
    if len(set(names)) != len(names):
        raise FloorwrightValueError(f"{observation.key} names one point twice")
    if not (math.isfinite(observation.sd) and observation.sd > 0.0):
        raise FloorwrightValueError(f"{observation.key} has no standard deviation over zero")
    if isinstance(observation, Distance) and not (math.isfinite(observation.measured) and observation.measured > 0.0):
        raise FloorwrightValueError(f"{observation.key} is no distance over zero")


def residuals(net: Network, xy: Points) -> Floats:
    """Returns adjusted less measured of every observation at the given coordinates, (m,) mm or radians."""
    out = np.empty(len(net.sd))
    row, a, b = net.distances
    along = xy[b] - xy[a]
    out[row] = np.hypot(along[:, 0], along[:, 1]) - net.measured[row]
    row, at, a, b = net.squares
    out[row] = np.mod(angles(xy, at, a, b), math.pi) - math.pi / 2
    row, a, at, b = net.straights
    out[row] = _offsets(xy, a, at, b)
    return out


def angles(xy: Points, at: Indices, a: Indices, b: Indices) -> Floats:
    """Returns the angles at `at` from the rays to `a` anticlockwise to the rays to `b`, radians in [0, 2 pi)."""
    first, second = xy[a] - xy[at], xy[b] - xy[at]
    turned = np.arctan2(second[:, 1], second[:, 0]) - np.arctan2(first[:, 1], first[:, 0])
    return np.asarray(np.mod(turned, 2 * math.pi), dtype=np.float64)


def _offsets(xy: Points, a: Indices, at: Indices, b: Indices) -> Floats:
    """How far `at` lies to the left of the line from `a` to `b`."""
    along, out = xy[b] - xy[a], xy[at] - xy[a]
    length = np.hypot(along[:, 0], along[:, 1])
    return np.asarray((along[:, 0] * out[:, 1] - along[:, 1] * out[:, 0]) / _not_zero(length), dtype=np.float64)


def derivatives(net: Network, xy: Points) -> Floats:
    """Returns the change of every observation with x and y of every point in turn, (m, 2n).

    Distance: unit vector along the line (Ghilani, Adjustment Computations, 5th ed., eq. 14.9). Square: the turn of each
    ray, 1 / length across it (eq. 15.18). Straight: the unit normal at the point, shared out to the ends.
    """
    out = np.zeros((len(net.sd), 2 * len(net.points)))
    row, a, b = net.distances
    along = xy[b] - xy[a]
    unit = along / _not_zero(np.hypot(along[:, 0], along[:, 1]))[:, None]
    _add(out, row, b, unit)
    _add(out, row, a, -unit)
    row, at, a, b = net.squares
    for end, sign in ((a, -1.0), (b, 1.0)):
        ray = xy[end] - xy[at]
        squared = _not_zero(np.einsum("ij,ij->i", ray, ray))
        turn = sign * np.column_stack([-ray[:, 1], ray[:, 0]]) / squared[:, None]
        _add(out, row, end, turn)
        _add(out, row, at, -turn)
    row, a, at, b = net.straights
    along, offset = xy[b] - xy[a], xy[at] - xy[a]
    length = _not_zero(np.hypot(along[:, 0], along[:, 1]))
    unit = along / length[:, None]
    normal = np.column_stack([-unit[:, 1], unit[:, 0]])
    share = (np.einsum("ij,ij->i", unit, offset) / length)[:, None]
    _add(out, row, at, normal)
    _add(out, row, b, -share * normal)
    _add(out, row, a, (share - 1.0) * normal)
    return out


def _add(out: Floats, row: Indices, point: Indices, change: Floats) -> None:
    """Adds a change with x and y of a point to its rows (each row meets a point once)."""
    out[row, 2 * point] += change[:, 0]
    out[row, 2 * point + 1] += change[:, 1]


def _not_zero(values: Floats) -> Floats:
    """The values, with the least positive number for zero: points that coincide have no direction yet."""
    return np.maximum(values, np.finfo(np.float64).tiny)
