"""Shapes that readings allow, found with no help: built up from points, else settled from made-up rooms."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

import numpy as np

from floorwright.geometry.region import Points
from floorwright.survey.adjustment import Adjustment, Datum
from floorwright.survey.chi_square import CRITICAL, is_acceptable
from floorwright.survey.datum import on_first_wall
from floorwright.survey.network import derivatives, network, residuals
from floorwright.survey.observation import Angle, Distance, Observation, Square
from floorwright.survey.outline import Outline, are_rooms, count_outside, misturned, template
from floorwright.survey.place import build
from floorwright.survey.solve import LoosePointsError, adjust
from floorwright.tolerance import COINCIDENT

APART: Final = 10.0
"""Standard deviations of the worst reading. Shapes with all points nearer than this are one shape."""

SETTLING: Final = 80
"""Steps in which a made-up room settles."""

DAMPING: Final = (1e-3, 1e-9, 1e9)
"""First, least and most, as a part of the strongest pull on a point."""

MADE_UP: Final = tuple(product((1.0, 1.6, 0.6), (0.15, 0.4), (0.0, 0.35)))
"""Stretch, dent and unevenness of the made-up rooms tried."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shape:
    """One figure that the readings allow.

    Attributes:
        rank: among the figures built, 0 the one that misfits least with every misfit capped: a slip that pulls the
            adjustment to another shape does not change this.
        built: (n, 2) mm, as built from a few of the readings, before all were adjusted together.
        adjustment: of all readings, first wall as datum.
        misturned: corners that turn the other way than booked.
        outside: how many of the points off the outlines lie outside the rooms.
    """

    rank: int
    built: Points
    adjustment: Adjustment
    misturned: tuple[str, ...]
    outside: int

    @property
    def is_acceptable(self) -> bool:
        """Whether the readings agree on it within their accuracy."""
        return is_acceptable(self.adjustment.sum_of_squares, self.adjustment.degrees_of_freedom)


def first_wall(outline: Outline) -> Datum:
    """Returns the datum of a room: its first corner at rest, the wall to the next along x, the room on its left."""
    return Datum(kind="first wall", points=outline.corners[:2])


def built_shapes(
    points: Sequence[str], outline: Outline, observations: Sequence[Observation], *, turned: bool
) -> tuple[Shape, ...]:
    """Returns the different shapes built point by point, the one that the readings agree on best first.

    None where no order of points builds one, which is no proof that the readings fix none.

    Args:
        points: all names, the outline's corners first.
        outline: as booked.
        observations: see `survey.observation`.
        turned: whether every corner must turn the way it is booked; walls never cross either way.
    """
    figures = build(points, outline, observations, turned=turned)
    return different(adjusted_shapes(figures, points, outline, observations, turned=turned), observations)


def settled_shapes(
    points: Sequence[str], outline: Outline, observations: Sequence[Observation], *, turned: bool
) -> tuple[Shape, ...]:
    """Returns the different shapes that made-up rooms settle into; args and order as for `built_shapes`.

    For readings that fix a room only all together, such as six walls and the three longest diagonals.
    """
    figures = _settled(points, outline, observations)
    return different(adjusted_shapes(figures, points, outline, observations, turned=turned), observations)


def different(found: Iterator[Shape], observations: Sequence[Observation]) -> tuple[Shape, ...]:
    """Returns the shapes that differ by more than the accuracy of the readings, the one they agree on best first."""
    kept: list[Shape] = []
    for shape in found:
        # In the order of rank, so that of one shape the figure that misfits least is kept.
        if not any(is_same_shape(shape.adjustment.xy, other.adjustment.xy, observations) for other in kept):
            kept.append(shape)
    return tuple(sorted(kept, key=lambda shape: round(shape.adjustment.sum_of_squares, 6)))


def is_same_shape(first: Points, second: Points, observations: Sequence[Observation]) -> bool:
    """Returns whether two figures in one frame differ by no more than the readings' accuracy allows."""
    worst = max((o.sd for o in observations if not isinstance(o, Square | Angle)), default=1.0)
    return float(np.abs(first - second).max()) <= APART * worst


def adjusted_shapes(
    figures: Sequence[Points],
    points: Sequence[str],
    outline: Outline,
    observations: Sequence[Observation],
    *,
    turned: bool = True,
    bent: bool = False,
) -> Iterator[Shape]:
    """Yields the figures that make rooms once all readings are adjusted together.

    Args:
        figures: each (n, 2) mm, the likeliest first.
        points, outline, observations: as for `built_shapes`.
        turned: whether every corner must turn the way it is booked, once adjusted.
        bent: for long outlines. Corners count as turned otherwise only where that is clear of their accuracy; and where
            the readings disagree, figures that turn as booked are enough: then it is a slip that turned a corner of
            the adjusted room, and no news of the booking.
    """
    for rank, built in enumerate(figures):
        if float(np.hypot(*(built[1] - built[0]))) <= COINCIDENT:
            continue
        try:
            adjustment = adjust(points, built, observations, first_wall(outline))
        except LoosePointsError:
            continue
        wrong = misturned(outline, points, adjustment.xy)
        if bent and wrong and is_acceptable(adjustment.sum_of_squares, adjustment.degrees_of_freedom):
            wrong = tuple(name for name in wrong if _is_clear(name, outline, adjustment))
        elif bent:
            wrong = misturned(outline, points, built)
        if are_rooms(outline, points, adjustment.xy) and not (turned and wrong):
            outside = count_outside(outline, points, adjustment.xy)
            yield Shape(rank=rank, built=built, adjustment=adjustment, misturned=wrong, outside=outside)


def _is_clear(name: str, outline: Outline, adjustment: Adjustment) -> bool:
    """Whether a corner turns this way by more than its accuracy may be out."""
    room = next(one for one in outline.rooms if name in one.corners)
    before, after = room.neighbours(name)
    net = network(adjustment.points, [Square(key=name, at=name, a=after, b=before, sd=1.0)])
    row = derivatives(net, adjustment.xy - adjustment.xy.mean(axis=0))[0]
    straight = abs(math.remainder(float(residuals(net, adjustment.xy)[0]) + math.pi / 2, math.pi))
    return straight > CRITICAL * math.sqrt(max(0.0, float(row @ adjustment.covariance @ row)))


def _settled(points: Sequence[str], outline: Outline, observations: Sequence[Observation]) -> list[Points]:
    """Figures that made-up rooms settle into, in the frame of the first wall, each once."""
    found: list[Points] = []
    for stretch, dent, uneven in MADE_UP:
        begun = made_up(points, outline, observations, stretch=stretch, dent=dent)
        xy = on_first_wall(settle(points, begun, observations, uneven))
        if not any(is_same_shape(xy, other, observations) for other in found):
            found.append(xy)
    return found


def made_up(
    points: Sequence[str],
    outline: Outline,
    observations: Sequence[Observation],
    *,
    stretch: float = 1.0,
    dent: float = 0.2,
) -> Points:
    """Returns a made-up room (see `survey.outline.template`) about as large as the distances read, (n, 2) mm."""
    lengths = [o.measured for o in observations if isinstance(o, Distance)]
    side = float(np.median(lengths)) if lengths else 1000.0
    return template(outline, points[len(outline.corners) :], side=side, stretch=stretch, dent=dent)


def settle(points: Sequence[str], start: Points, observations: Sequence[Observation], uneven: float = 0.0) -> Points:
    """Returns where a figure settles when every reading pulls at it, (n, 2) mm; readings need not fix it.

    Levenberg's damped Gauss-Newton (K. Levenberg, A method for the solution of certain non-linear problems, 1944), so
    that what no reading pulls at stays where it is.

    Args:
        points, observations: of the network.
        start: (n, 2) mm.
        uneven: part of the figure's size by which its points are first shifted, each its own way, the same every time.
    """
    net = network(points, observations)
    size = float(np.ptp(start, axis=0).max())
    # Golden angles: no two points shift alike, and no random numbers are drawn.
    shift = 2.399963 * np.arange(1, len(start) + 1)
    xy = start + uneven * size * np.column_stack([np.cos(shift), np.sin(shift)]) / 2
    damping = DAMPING[0]
    weighted = residuals(net, xy) / net.sd
    for _ in range(SETTLING):
        design = derivatives(net, xy) / net.sd[:, None]
        normal, pull = design.T @ design, design.T @ weighted
        scale = float(np.diag(normal).max())
        if scale == 0.0:
            return xy
        step = np.linalg.solve(normal + damping * scale * np.eye(len(normal)), -pull).reshape(-1, 2)
        trial = residuals(net, xy + step) / net.sd
        if float(trial @ trial) < float(weighted @ weighted):
            xy, weighted, damping = xy + step, trial, max(damping / 5, DAMPING[1])
        else:
            damping *= 4
        if float(np.abs(step).max()) <= COINCIDENT or damping > DAMPING[2]:
            break
    return xy
