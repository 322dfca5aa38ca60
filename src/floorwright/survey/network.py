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
from floorwright.survey.observation import Along, Angle, Coordinate, Distance, Observation, Offset, Square, Straight

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Network:
    """Points and observations, indexed once.

    Attributes:
        points: names, in the order of all coordinates.
        measured: (m,) mm or radians; 0 in the rows of squares and straights. Coordinates are less the origin.
        sd: (m,) a-priori standard deviations, mm or radians.
        distances: row, a, b of each; (3, k).
        squares, angles: row, at, a, b of each; (4, k).
        offsets: row, a, at, b of each, the straights among them; (4, k).
        alongs: row, a, at, b of each; (4, k).
        coordinates: row, point of each; (2, k).
        axes: (k,) of the coordinates.
        origin: (2,) mm, what coordinates are counted from.
    """

    points: tuple[str, ...]
    measured: Floats
    sd: Floats
    distances: Indices
    squares: Indices
    angles: Indices
    offsets: Indices
    alongs: Indices
    coordinates: Indices
    axes: Indices
    origin: Floats


def network(points: Sequence[str], observations: Sequence[Observation], origin: Floats | None = None) -> Network:
    """Returns the network of some points and observations.

    Args:
        points: names.
        observations: any.
        origin: (2,) mm, what the coordinates that it is looked at with are counted from; (0, 0) without one.

    Raises:
        FloorwrightValueError: a point is named twice or unknown, an observation uses a point twice, a standard
            deviation is not over zero, a distance is not, or another reading is not finite.
    """
    index = {name: i for i, name in enumerate(points)}
    if len(index) != len(points):
        raise FloorwrightValueError("two points of one name")
    for observation in observations:
        _check(observation, index)

    def rows(*kinds: type[Observation]) -> Indices:
        found = [
            (row, *(index[name] for name in names_of(o))) for row, o in enumerate(observations) if isinstance(o, kinds)
        ]
        width = {Distance: 3, Coordinate: 2}.get(kinds[0], 4)
        return np.array(found, dtype=np.intp).reshape(-1, width).T

    zero = np.zeros(2) if origin is None else origin
    return Network(
        points=tuple(points),
        measured=np.array([_measured(o, zero) for o in observations], dtype=np.float64),
        sd=np.array([o.sd for o in observations], dtype=np.float64),
        distances=rows(Distance),
        squares=rows(Square),
        angles=rows(Angle),
        offsets=rows(Straight, Offset),
        alongs=rows(Along),
        coordinates=rows(Coordinate),
        axes=np.array([o.axis for o in observations if isinstance(o, Coordinate)], dtype=np.intp),
        origin=zero,
    )


def _measured(observation: Observation, origin: Floats) -> float:
    if isinstance(observation, Square | Straight):
        return 0.0
    if isinstance(observation, Coordinate):
        return observation.measured - float(origin[observation.axis])
    return observation.measured


def names_of(observation: Observation) -> tuple[str, ...]:
    """Returns the points of an observation.

    a, b of a distance; at, a, b of a square or an angle; a, at, b of a straight, an offset or an along; the point of a
    coordinate.
    """
    if isinstance(observation, Distance):
        return (observation.a, observation.b)
    if isinstance(observation, Coordinate):
        return (observation.point,)
    if isinstance(observation, Square | Angle):
        return (observation.at, observation.a, observation.b)
    return (observation.a, observation.at, observation.b)


def kind_of(observation: Observation) -> str:
    """Returns `distance`, `square`, `straight`, `angle`, `offset`, `along` or `coordinate`."""
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
    if isinstance(observation, Angle) and not 0.0 < observation.measured < 2 * math.pi:
        raise FloorwrightValueError(f"{observation.key} is no angle between nothing and a full turn")
    if isinstance(observation, Offset | Along | Coordinate) and not math.isfinite(observation.measured):
        raise FloorwrightValueError(f"{observation.key} is no length")


def residuals(net: Network, xy: Points) -> Floats:
    """Returns adjusted less measured of every observation at the given coordinates, (m,) mm or radians."""
    out = np.empty(len(net.sd))
    row, a, b = net.distances
    along = xy[b] - xy[a]
    out[row] = np.hypot(along[:, 0], along[:, 1]) - net.measured[row]
    row, at, a, b = net.squares
    out[row] = np.mod(angles(xy, at, a, b), math.pi) - math.pi / 2
    row, at, a, b = net.angles
    out[row] = np.mod(angles(xy, at, a, b) - net.measured[row] + math.pi, 2 * math.pi) - math.pi
    row, a, at, b = net.offsets
    out[row] = _on_line(xy, a, at, b)[1] - net.measured[row]
    row, a, at, b = net.alongs
    out[row] = _on_line(xy, a, at, b)[0] - net.measured[row]
    row, point = net.coordinates
    out[row] = xy[point, net.axes] - net.measured[row]
    return out


def angles(xy: Points, at: Indices, a: Indices, b: Indices) -> Floats:
    """Returns the angles at `at` from the rays to `a` anticlockwise to the rays to `b`, radians in [0, 2 pi)."""
    first, second = xy[a] - xy[at], xy[b] - xy[at]
    turned = np.arctan2(second[:, 1], second[:, 0]) - np.arctan2(first[:, 1], first[:, 0])
    return np.asarray(np.mod(turned, 2 * math.pi), dtype=np.float64)


def _on_line(xy: Points, a: Indices, at: Indices, b: Indices) -> tuple[Floats, Floats]:
    """How far along the line from `a` to `b` the foot of `at` lies, and how far `at` lies to its left."""
    unit, _ = _directions(xy, a, b)
    out = xy[at] - xy[a]
    return np.einsum("ij,ij->i", unit, out), unit[:, 0] * out[:, 1] - unit[:, 1] * out[:, 0]


def _directions(xy: Points, a: Indices, b: Indices) -> tuple[Floats, Floats]:
    """Unit vectors from `a` to `b`, and the distances."""
    along = xy[b] - xy[a]
    length = _not_zero(np.hypot(along[:, 0], along[:, 1]))
    return along / length[:, None], length


def derivatives(net: Network, xy: Points) -> Floats:
    """Returns the change of every observation with x and y of every point in turn, (m, 2n).

    Distance: unit vector along the line (Ghilani, Adjustment Computations, 5th ed., eq. 14.9). Square and angle: the
    turn of each ray, 1 / length across it (eq. 15.18). Offset and along: the unit vector across or along the line at
    the point; what the line's own turn does to it is shared out to the ends.
    """
    out = np.zeros((len(net.sd), 2 * len(net.points)))
    row, a, b = net.distances
    unit, _ = _directions(xy, a, b)
    _add(out, row, b, unit)
    _add(out, row, a, -unit)
    for row, at, a, b in (net.squares, net.angles):
        for end, sign in ((a, -1.0), (b, 1.0)):
            ray = xy[end] - xy[at]
            squared = _not_zero(np.einsum("ij,ij->i", ray, ray))
            turn = sign * np.column_stack([-ray[:, 1], ray[:, 0]]) / squared[:, None]
            _add(out, row, end, turn)
            _add(out, row, at, -turn)
    for (row, a, at, b), across in ((net.offsets, True), (net.alongs, False)):
        unit, length = _directions(xy, a, b)
        normal = np.column_stack([-unit[:, 1], unit[:, 0]])
        along, left = _on_line(xy, a, at, b)
        own = normal if across else unit
        swung = (-along if across else left) / length
        _add(out, row, at, own)
        _add(out, row, b, swung[:, None] * normal)
        _add(out, row, a, -own - swung[:, None] * normal)
    row, point = net.coordinates
    out[row, 2 * point + net.axes] = 1.0
    return out


def _add(out: Floats, row: Indices, point: Indices, change: Floats) -> None:
    """Adds a change with x and y of a point to its rows (each row meets a point once)."""
    out[row, 2 * point] += change[:, 0]
    out[row, 2 * point + 1] += change[:, 1]


def _not_zero(values: Floats) -> Floats:
    """The values, with the least positive number for zero: points that coincide have no direction yet."""
    return np.maximum(values, np.finfo(np.float64).tiny)
