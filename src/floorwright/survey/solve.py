"""Weighted least squares of a network: coordinates, their accuracy, and what every reading says about the others.

Gauss-Newton on coordinates about their middle (so that seven-figure grid coordinates lose no digits), with the step
halved where the sum of squares would grow. The singular values of the weighted design matrix at the end give the
covariance, the redundancy and the rank at once; on the way there normal equations do where they are well conditioned.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.survey.adjustment import Adjustment, Datum, Residual
from floorwright.survey.datum import basis_of, on_wall
from floorwright.survey.network import Floats, Network, angles, derivatives, kind_of, network, residuals
from floorwright.survey.observation import Observation
from floorwright.survey.walk import walk_to_rest
from floorwright.tolerance import COINCIDENT, RANK, UNCHECKED

MOST_ITERATIONS: Final = 100

LONG: Final = 20
"""Points from which an outline may be so long that it is better walked round."""

FEW_ITERATIONS: Final = 8
"""Steps in coordinates that a long outline is given; where they do not do, it is walked round to rest."""

ROUNDING: Final = 1e-9
"""A sum of squares that grows by no more than this part of itself (or of one) has not grown."""

WELL: Final = 1e-5
"""Normal equations whose least pivot is over this part of the greatest are well conditioned."""

LEAST_SHARE: Final = 2.0**-30
"""A step is halved down to this part of itself before the search gives up."""


class LoosePointsError(FloorwrightValueError):
    """The readings leave some points free to move.

    Attributes:
        points: those that move, in the order of the network.
    """

    def __init__(self, points: tuple[str, ...]) -> None:
        super().__init__(f"the readings do not fix {', '.join(points)}")
        self.points = points


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Factors:
    """Singular value decomposition of the weighted design matrix A = left diag(sizes) right at some coordinates."""

    left: Floats
    sizes: Floats
    right: Floats

    @property
    def rank(self) -> int:
        """How many directions the readings fix."""
        return int(np.count_nonzero(self.sizes > RANK * self.sizes[0])) if self.sizes.size else 0


def adjust(points: Sequence[str], start: Points, observations: Sequence[Observation], datum: Datum) -> Adjustment:
    """Returns the adjusted network, with `suspects` not yet looked for (see `survey.suspect`).

    Args:
        points: names.
        start: (n, 2) mm, a coordinate for each: near enough for Gauss-Newton (see `survey.start`), and what the datum
            refers to.
        observations: any; each point named must be among `points`.
        datum: see `survey.datum.basis_of`.

    Raises:
        LoosePointsError: the readings leave points free to move.
        FloorwrightValueError: what is passed is no network (see `survey.network.network`).

    Formulas: Ghilani, Adjustment Computations, 5th ed.: eq. 11.37 (step), 13.6 (covariance), 21.6 to 21.10 (residual
    cofactors, redundancy numbers, standardised residuals).
    """
    given = np.asarray(start, dtype=np.float64).reshape(-1, 2)
    if len(given) != len(points) or not bool(np.all(np.isfinite(given))):
        raise FloorwrightValueError("every point needs a starting coordinate")
    centre = given.mean(axis=0) if len(given) else np.zeros(2)
    net = network(points, observations, centre)
    basis = basis_of(datum, net.points, given - centre)
    walks = len(net.points) >= LONG and datum.kind == "first wall"
    xy, iterations, converged = _gauss_newton(net, given - centre, basis, FEW_ITERATIONS if walks else MOST_ITERATIONS)
    if not converged and walks:
        settled = walk_to_rest(net, xy)
        first, second = (net.points.index(name) for name in datum.points)
        xy, converged = on_wall(settled.xy, given - centre, first, second), settled.converged
    covariance, redundancy = _accuracy(net, xy, basis)
    weighted = residuals(net, xy) / net.sd
    squares, freedom = float(weighted @ weighted), len(observations) - basis.shape[1]
    return Adjustment(
        points=net.points,
        xy=xy + centre,
        covariance=covariance,
        residuals=_residuals(net, xy, observations, redundancy),
        degrees_of_freedom=freedom,
        variance_factor=squares / freedom if freedom > 0 else 1.0,
        sum_of_squares=squares,
        iterations=iterations,
        converged=converged,
    )


def _accuracy(net: Network, xy: Points, basis: Floats) -> tuple[Floats, Floats]:
    """The covariance of the coordinates, (2n, 2n), and the redundancy of every reading, (m,); raises for loose points.

    Of a long outline by normal equations where they are well conditioned: in a fifth of the time, to six digits.
    """
    design = _design(net, xy, basis)
    if len(net.points) >= LONG:
        normal = design.T @ design
        if _is_well(normal):
            inverse = np.linalg.inv(normal)
            taken = np.einsum("ij,ij->i", design @ inverse, design)
            return basis @ inverse @ basis.T, np.clip(1.0 - taken, 0.0, 1.0)
    factors = _factored(design)
    if factors.rank < basis.shape[1]:
        raise LoosePointsError(_moved_by(net, _loose_directions(factors, basis)))
    spread = basis @ (factors.right.T / factors.sizes)
    shares = 1.0 - np.einsum("ij,ij->i", factors.left, factors.left)
    return spread @ spread.T, np.clip(shares, 0.0, 1.0)


def _is_well(normal: Floats) -> bool:
    """Whether normal equations are well conditioned."""
    try:
        pivots = np.linalg.cholesky(normal).diagonal()
    except np.linalg.LinAlgError:
        return False
    return bool(pivots.size and pivots.min() > WELL * pivots.max())


def loose_points(
    points: Sequence[str], xy: Points, observations: Sequence[Observation], datum: Datum
) -> tuple[str, ...]:
    """Returns the points that the readings leave free to move at the given coordinates; none where all are fixed.

    Args as for `adjust`. A point counts where it moves in any combination that no reading notices.
    """
    net = network(points, observations)
    given = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    centred = given - given.mean(axis=0)
    basis = basis_of(datum, net.points, centred)
    return _moved_by(net, _loose_directions(_factors(net, centred, basis), basis))


def _design(net: Network, xy: Points, basis: Floats) -> Floats:
    """Derivatives of the weighted readings by what the datum leaves free, (m, k)."""
    rows = derivatives(net, xy) / net.sd[:, None]
    # Most directions that a datum leaves free are one coordinate of one point: those are picked, not multiplied out.
    single = np.count_nonzero(basis, axis=0) == 1
    at = np.argmax(np.abs(basis), axis=0)
    design = rows[:, at] * basis[at, np.arange(len(at))]
    design[:, ~single] = rows @ basis[:, ~single]
    return np.asarray(design, dtype=np.float64)


def least_squares(design: Floats, observed: Floats) -> Floats:
    """Returns what makes the sum of squares of design @ found - observed least, (k,).

    By normal equations where they are well conditioned: a step of Gauss-Newton needs no more, as the next one takes up
    what rounding left, and of 200 corners they take a tenth of the time. Else by singular values, nothing moved in
    directions that no reading notices.

    Args:
        design: (m, k).
        observed: (m,).
    """
    normal = design.T @ design
    if _is_well(normal):
        return np.asarray(np.linalg.solve(normal, design.T @ observed))
    factors = _factored(design)
    kept = factors.rank
    return np.asarray(factors.right[:kept].T @ ((factors.left[:, :kept].T @ observed) / factors.sizes[:kept]))


def _factors(net: Network, xy: Points, basis: Floats) -> Factors:
    return _factored(_design(net, xy, basis))


def _factored(weighted: Floats) -> Factors:
    if 0 in weighted.shape:
        return Factors(left=weighted[:, :0], sizes=np.empty(0), right=np.empty((0, weighted.shape[1])))
    left, sizes, right = np.linalg.svd(weighted, full_matrices=False)
    return Factors(left=left, sizes=sizes, right=right)


def _gauss_newton(net: Network, start: Points, basis: Floats, most: int) -> tuple[Points, int, bool]:
    """Coordinates at the least sum of squares, iterations, and whether it converged."""
    xy = start
    weighted = residuals(net, xy) / net.sd
    for iteration in range(1, most + 1):
        step = -(basis @ least_squares(_design(net, xy, basis), weighted)).reshape(-1, 2)
        if float(np.abs(step).max(initial=0.0)) <= COINCIDENT:
            return xy + step, iteration, True
        share, squares = 1.0, float(weighted @ weighted)
        while share >= LEAST_SHARE:
            trial = xy + share * step
            weighted = residuals(net, trial) / net.sd
            if float(weighted @ weighted) <= squares + ROUNDING * (1.0 + squares):
                break
            share /= 2.0
        else:
            return xy, iteration, False
        xy = trial
    return xy, most, False


def _loose_directions(factors: Factors, basis: Floats) -> Floats:
    """Directions of the coordinates that no reading notices, (2n, d)."""
    kept = factors.rank
    if kept == basis.shape[1]:
        return np.empty((len(basis), 0))
    fixed = factors.right[:kept]
    _, _, directions = np.linalg.svd(fixed, full_matrices=True) if kept else (None, None, np.eye(basis.shape[1]))
    return basis @ directions[kept:].T


def _moved_by(net: Network, directions: Floats) -> tuple[str, ...]:
    moves = np.abs(directions).reshape(len(net.points), 2, -1).max(axis=(1, 2), initial=0.0)
    return tuple(name for name, move in zip(net.points, moves, strict=True) if move > COINCIDENT)


def _residuals(
    net: Network, xy: Points, observations: Sequence[Observation], redundancy: Floats
) -> tuple[Residual, ...]:
    out = residuals(net, xy)
    adjusted = net.measured + out
    for row, at, a, b in (net.squares, net.angles):
        adjusted[row] = angles(xy, at, a, b)
    row, _ = net.coordinates
    adjusted[row] += net.origin[net.axes]
    checked = redundancy > UNCHECKED
    sure = np.where(checked, redundancy, 1.0)
    standardised = np.where(checked, np.abs(out) / (net.sd * np.sqrt(sure)), 0.0)
    slip = np.where(checked, -out / sure, 0.0)
    return tuple(
        Residual(
            key=observation.key,
            kind=kind_of(observation),
            measured=float(adjusted[i] - out[i]),
            adjusted=float(adjusted[i]),
            residual=float(out[i]),
            sd=observation.sd,
            redundancy=float(redundancy[i]),
            standardised=float(standardised[i]),
            slip=float(slip[i]),
        )
        for i, observation in enumerate(observations)
    )
