"""Weighted least squares of a network of points, by Gauss-Newton with analytic derivatives."""

from dataclasses import dataclass

from floorwright.geometry.region import Points


@dataclass(frozen=True, slots=True, kw_only=True)
class Datum:
    """What fixes the network on the floor.

    Attributes:
        kind: `first wall` (first point at rest, the ray to the second keeps its direction), `fixed points` (those
            named keep their starting coordinates), or `inner constraints` (no net shift or turn of the starting
            coordinates), or `coordinates` (those that were read).
        points: the names it needs: two for `first wall`, any for `fixed points`, those that take part for
            `inner constraints` (empty: all).
    """

    kind: str
    points: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Residual:
    """One observation after the adjustment. Lengths mm and angles radians, by `kind`.

    Attributes:
        key, kind: of the observation (`distance`, `square`, `straight`, `angle`, `offset`, `along`, `coordinate`).
        measured, adjusted: values.
        residual: adjusted minus measured.
        sd: a-priori standard deviation of the observation.
        redundancy: part of an error that shows in the residual, 0 to 1; the sum is the degrees of freedom.
        standardised: |residual| / (sd sqrt(redundancy)); 0 where the redundancy is nil.
        slip: the error that would explain it all if this reading alone were wrong: -residual / redundancy (so that
            measured - slip is what it would have read); 0 where the redundancy is nil.
        suspect: whether the readings point at this one.
    """

    key: str
    kind: str
    measured: float
    adjusted: float
    residual: float
    sd: float
    redundancy: float
    standardised: float
    slip: float
    suspect: bool = False

    @property
    def is_angle(self) -> bool:
        """Whether its values are radians."""
        return self.kind in ("square", "angle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Adjustment:
    """The adjusted network.

    Attributes:
        points: names, in the order of `xy` and of the covariance.
        xy: (n, 2) mm.
        covariance: (2n, 2n) mm2, a priori (variance factor 1), x and y of each point in turn.
        residuals: one per observation, in their order.
        degrees_of_freedom: observations (and datum) less unknowns.
        variance_factor: sum of squares of residual / sd over the degrees of freedom; 1 where there are none.
        sum_of_squares: T = sum of (residual / sd)^2, held against chi-square.
        iterations: of Gauss-Newton.
        converged: False when it stopped short.
        suspects: keys pointed at; more than one means that they cannot be told apart.
    """

    points: tuple[str, ...]
    xy: Points
    covariance: Points
    residuals: tuple[Residual, ...]
    degrees_of_freedom: int
    variance_factor: float
    sum_of_squares: float
    iterations: int
    converged: bool
    suspects: tuple[str, ...] = ()
