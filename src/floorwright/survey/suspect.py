"""Which reading is wrong, where the readings can tell; the honest set of those that may be, where they cannot.

A slip in one reading pulls at all the others. Each reading whose standardised residual is too large is therefore left
out in turn and the rest adjusted again: if the rest then agree, that slip alone explains everything. Two slips that
explain it about as well cannot be told apart by these readings, however large the numbers are.

Words: the *limit* is 3.29, which a good reading exceeds once in a thousand (W. Baarda, A testing procedure for use in
geodetic networks, 1968), and of more than fifty readings what one in a good survey of twenty exceeds; an *explanation*
is one reading taken as wrong.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from floorwright.geometry.region import Points
from floorwright.survey.adjustment import Adjustment, Datum, Residual
from floorwright.survey.chi_square import CLEARLY, CRITICAL, RISK, clear_difference, is_acceptable, quantile
from floorwright.survey.network import derivatives, network, residuals
from floorwright.survey.observation import Distance, Observation
from floorwright.survey.slip import Recognised, recognise
from floorwright.survey.solve import LoosePointsError, adjust
from floorwright.tolerance import UNCHECKED
from floorwright.units import LengthStyle

Verdict = Literal["agree", "one suspect", "cannot be told", "disagree"]

FAMILY: Final = 0.05
"""Our default: a survey of many good readings has one over the limit once in twenty times."""

MANY: Final = 12
"""Readings over the limit from which not all are tried."""

NEAR: Final = 0.6
"""Part of the largest standardised residual from which one of many is tried."""

MOSTLY: Final = 0.1
"""Our default: where the rest disagree, one slip still is what is wrong if it leaves this part of the variance."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Explanation:
    """One reading taken as wrong.

    Attributes:
        key: of the reading.
        slip: how much too long (or too wide) it was read, mm or radians: measured less what the others make it.
        would_read: what the others make it, mm or radians.
        sd: standard deviation of the difference between what was read and what the others make it, where nobody slips.
        rest: the adjustment of the others.
        recognised: the slip of the hand that it looks like, for a distance; looked for by `with_recognised`.
    """

    key: str
    slip: float
    would_read: float
    sd: float
    rest: Adjustment
    recognised: Recognised | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Suspicion:
    """What the readings say about each other.

    Attributes:
        verdict: `agree`; `one suspect` (and only that one); `cannot be told` (one of those in `explanations`);
            `disagree` (no single slip stands out: several are wrong, or the accuracy stated is too good).
        adjustment: the one judged, its suspects marked; none marked where the verdict is `agree` or `disagree`.
        explanations: the suspects, the best first.
        rest_agrees: whether the other readings agree once a suspect is left out.
    """

    verdict: Verdict
    adjustment: Adjustment
    explanations: tuple[Explanation, ...] = ()
    rest_agrees: bool = True


def suspicion(
    adjustment: Adjustment,
    observations: Sequence[Observation],
    datum: Datum,
    *,
    starts: Sequence[Points] = (),
    fits: Callable[[Points], bool] = lambda _: True,
) -> Suspicion:
    """Returns which reading is wrong, if the readings tell.

    Args:
        adjustment: of the observations.
        observations: as adjusted, in their order.
        datum: as adjusted.
        starts: each (n, 2) mm, where re-adjustments start; the adjusted coordinates unless given. Figures built from a
            few readings are better where a slip is large: one of them is free of it.
        fits: whether coordinates make the room that was booked; an explanation that makes another room is none.
    """
    worst = max((r.standardised for r in adjustment.residuals), default=0.0)
    agree = is_acceptable(adjustment.sum_of_squares, adjustment.degrees_of_freedom)
    limit = limit_of(len(adjustment.residuals))
    if agree and worst <= limit:
        return Suspicion(verdict="agree", adjustment=adjustment)
    explanations = _explanations(adjustment, observations, datum, starts or (adjustment.xy,), fits, limit)
    if not explanations:
        return Suspicion(verdict="disagree", adjustment=adjustment, rest_agrees=False)
    best = explanations[0].rest
    rest_agrees = is_acceptable(best.sum_of_squares, best.degrees_of_freedom)
    # Where the rest still disagree, only their own unrest says how large a difference means anything.
    margin = CLEARLY if rest_agrees else best.variance_factor * clear_difference(best.degrees_of_freedom)
    alike = tuple(e for e in explanations if e.rest.sum_of_squares <= best.sum_of_squares + margin)
    explains = best.variance_factor <= MOSTLY * adjustment.variance_factor
    if len(alike) > 1 and not rest_agrees and not explains:
        return Suspicion(verdict="disagree", adjustment=adjustment, rest_agrees=False)
    keys = {explanation.key for explanation in alike}
    marked = replace(
        adjustment,
        residuals=tuple(replace(r, suspect=r.key in keys) for r in adjustment.residuals),
        suspects=tuple(explanation.key for explanation in alike),
    )
    verdict: Verdict = "one suspect" if len(alike) == 1 else "cannot be told"
    return Suspicion(verdict=verdict, adjustment=marked, explanations=alike, rest_agrees=rest_agrees)


def limit_of(count: int) -> float:
    """Returns the limit of a standardised residual among so many readings."""
    risk = FAMILY / max(count, 1)
    return CRITICAL if risk >= RISK else math.sqrt(quantile(1.0 - risk, 1))


def with_recognised(suspicion: Suspicion, observations: Sequence[Observation], style: LengthStyle) -> Suspicion:
    """Returns a suspicion whose explanations say which slip of the hand they look like, where they do.

    Args:
        suspicion: of the observations.
        observations: as adjusted.
        style: how the tape is read.
    """
    lengths = {o.key: o.measured for o in observations if isinstance(o, Distance)}
    return replace(
        suspicion,
        explanations=tuple(
            replace(e, recognised=recognise(lengths[e.key], e.would_read, e.sd, style)) if e.key in lengths else e
            for e in suspicion.explanations
        ),
    )


def unchecked(adjustment: Adjustment) -> tuple[Residual, ...]:
    """Returns the readings that no other checks: a slip in one of them would not show."""
    return tuple(r for r in adjustment.residuals if r.redundancy <= UNCHECKED)


def _explanations(
    adjustment: Adjustment,
    observations: Sequence[Observation],
    datum: Datum,
    starts: Sequence[Points],
    fits: Callable[[Points], bool],
    limit: float,
) -> list[Explanation]:
    """Readings over the limit as explanations, the one that leaves least sum of squares first.

    To first order leaving one out takes the square of its standardised residual off the sum of squares: of many, only
    those are left out and the rest adjusted again that may come near the largest.
    """
    found: list[Explanation] = []
    over = [i for i, residual in enumerate(adjustment.residuals) if residual.standardised > limit]
    if len(over) > MANY:
        most = max(adjustment.residuals[i].standardised for i in over)
        over = [i for i in over if adjustment.residuals[i].standardised >= NEAR * most]
    for i in over:
        residual = adjustment.residuals[i]
        others = [*observations[:i], *observations[i + 1 :]]
        rests = [rest for start in starts if (rest := _rest(adjustment.points, start, others, datum, fits)) is not None]
        if rests:
            rest = min(rests, key=lambda rest: rest.sum_of_squares)
            centre = rest.xy.mean(axis=0)
            alone, xy = network(rest.points, [observations[i]], centre), rest.xy - centre
            slip, row = -float(residuals(alone, xy)[0]), derivatives(alone, xy)[0]
            sd = math.hypot(residual.sd, math.sqrt(max(0.0, float(row @ rest.covariance @ row))))
            would_read = residual.measured - slip
            found.append(Explanation(key=residual.key, slip=slip, would_read=would_read, sd=sd, rest=rest))
    # Rounded, and then in the order of the readings, so that machines agree on ties.
    return sorted(found, key=lambda e: float(np.round(e.rest.sum_of_squares, 6)))


def _rest(
    points: Sequence[str],
    start: Points,
    others: Sequence[Observation],
    datum: Datum,
    fits: Callable[[Points], bool],
) -> Adjustment | None:
    """The adjustment of the other readings, where they make the room that was booked."""
    try:
        rest = adjust(points, start, others, datum)
    except LoosePointsError:
        return None
    return rest if rest.converged and fits(rest.xy) else None
