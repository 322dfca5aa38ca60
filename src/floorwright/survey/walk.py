"""Where a long outline settles: corner after corner by headings and lengths, as a person walks round it.

Coordinates of corners suit a small room. In a long outline they do not: bent a little at every corner, a wall swings
far across while it hardly grows, so that the least squares lie at the end of a narrow valley that winds, and steps in
coordinates leave it at once. By heading and length of every leg the walls never change length as the outline bends, the
valley is straight, and some dozen steps do.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from floorwright.geometry.region import Points
from floorwright.survey.network import Floats, Network, derivatives, residuals
from floorwright.tolerance import COINCIDENT

MOST_STEPS: Final = 80
"""Steps in which an outline settles; those of 200 corners took 30 at the most."""

DAMPING: Final = (1e-3, 1e-14, 1e12)
"""First, least and most, as a part of what holds each heading or length already."""

DONE: Final = 1e-10
"""A step that takes off no more than this part of the sum of squares (or of one) is the last."""

BEYOND: Final = 3.0
"""Standard deviations from which a reading counts less and less, where slips are looked out for."""

ROUNDS: Final = 8
"""Times that readings are weighed anew by how far they are out."""

SAME: Final = 0.1
"""Standard deviations. Misfits that change by no more from round to round have settled."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Settled:
    """Where an outline came to rest.

    Attributes:
        xy: (n, 2) mm, the first point where it was.
        misfits: (m,) readings adjusted less measured, in their standard deviations.
        converged: False when it stopped short.
    """

    xy: Points
    misfits: Floats
    converged: bool


def walk_to_rest(net: Network, start: Points, weights: Floats | None = None) -> Settled:
    """Returns where a network settles under its readings, its points taken in their order as one walk.

    Marquardt's damped Gauss-Newton (D. W. Marquardt, An algorithm for least-squares estimation of nonlinear parameters,
    1963) by heading and length of every leg. The first point rests; nothing else of the datum is held.

    Args:
        net: its points in the order of the walk; no two neighbours in one place.
        start: (n, 2) mm.
        weights: (m,) of the readings, 1 each unless given.
    """
    pull = (1.0 if weights is None else np.sqrt(weights)) / net.sd
    xy, damping = start, DAMPING[0]
    weighted = residuals(net, xy) * pull
    for _ in range(MOST_STEPS):
        legs = np.diff(xy, axis=0)
        size = float(np.median(np.hypot(legs[:, 0], legs[:, 1])))
        design = _by_legs(derivatives(net, xy) * pull[:, None], legs, size)
        normal, slope = design.T @ design, design.T @ weighted
        held = np.diag(normal) + COINCIDENT * np.diag(normal).max()
        squares = float(weighted @ weighted)
        while True:
            step = np.asarray(np.linalg.solve(normal + np.diag(damping * held), -slope))
            trial = _walked(xy[0], legs, step, size)
            out = residuals(net, trial) * pull
            if float(out @ out) < squares:
                break
            damping *= 4.0
            if damping > DAMPING[2]:
                return Settled(xy=xy, misfits=residuals(net, xy) / net.sd, converged=abs(float(slope @ step)) <= DONE)
        gained = squares - float(out @ out)
        xy, weighted, damping = trial, out, max(damping / 8.0, DAMPING[1])
        if gained <= DONE * (1.0 + squares):
            return Settled(xy=xy, misfits=residuals(net, xy) / net.sd, converged=True)
    return Settled(xy=xy, misfits=residuals(net, xy) / net.sd, converged=False)


def walk_past_slips(net: Network, start: Points) -> Settled:
    """Returns where a network settles when readings that stand out count less, so that a slip does not bend it.

    Weights 1 / (1 + (misfit / c)^2) (Cauchy's; P. J. Huber, Robust Statistics, 1981), found anew from round to round,
    with c coming down from the middle misfit of all.

    Args:
        net, start: as for `walk_to_rest`.
    """
    found = walk_to_rest(net, start)
    for _ in range(ROUNDS):
        c = max(BEYOND, float(np.median(np.abs(found.misfits))))
        before, found = found, walk_to_rest(net, found.xy, 1.0 / (1.0 + (found.misfits / c) ** 2))
        if float(np.abs(found.misfits - before.misfits).max()) <= SAME:
            break
    return found


def _by_legs(design: Floats, legs: Points, size: float) -> Floats:
    """Derivatives by heading (per `size` of arc) and by length of every leg: each moves all points after it, (m, k)."""
    moves = design.reshape(len(design), -1, 2)[:, 1:]
    after = np.cumsum(moves[:, ::-1], axis=1)[:, ::-1]
    ways = legs / np.hypot(legs[:, 0], legs[:, 1])[:, None]
    turned = (after[..., 1] * legs[:, 0] - after[..., 0] * legs[:, 1]) / size
    grown = after[..., 0] * ways[:, 0] + after[..., 1] * ways[:, 1]
    return np.hstack([turned, grown])


def _walked(first: Floats, legs: Points, step: Floats, size: float) -> Points:
    """The points after a step of headings and lengths, (n, 2) mm."""
    count = len(legs)
    heading = np.arctan2(legs[:, 1], legs[:, 0]) + step[:count] / size
    length = np.hypot(legs[:, 0], legs[:, 1]) + step[count:]
    moved = length[:, None] * np.column_stack([np.cos(heading), np.sin(heading)])
    return np.asarray(np.vstack([first, first + np.cumsum(moved, axis=0)]), dtype=np.float64)
