"""Walls that are arcs: their rise from what was booked of them, with what follows from it and how true it all is.

The chord of such a wall is the distance between its corners, which the network adjusts. Its rise is found after that:
every reading of it, and every point on it, gives the rise once; the mean of these, weighted by their covariance, is
the least squares estimate (the best linear unbiased one, to first order). The corners are not moved by it.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.findings import Finding, Severity
from floorwright.geometry.arc import Arc, by_rise, rise_of_radius, rise_through
from floorwright.survey.adjustment import Adjustment
from floorwright.survey.network import Floats
from floorwright.tolerance import COINCIDENT, TOUCH
from floorwright.units import LengthStyle

NUDGE: Final = 0.01
"""mm by which points are moved to see what a figure does: sums of doubles hold it to a millionth."""

CRITICAL: Final = 3.29
"""A reading further off than this, in its own standard deviations, is doubted: one good one in a thousand is."""

MOST_TOLD: Final = 6
"""Arcs whose sizes are told one by one."""

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcReading:
    """One figure booked of an arc.

    Attributes:
        kind: `rise` or `radius`.
        measured: mm, over 0.
        sd: a-priori standard deviation, mm.
    """

    kind: str
    measured: float
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BookedArc:
    """What was booked of a wall that is an arc.

    Attributes:
        wall: its name.
        start, end: its corners, anticlockwise.
        out: whether it bows out of the room; None where its points say so.
        over_half: whether it is more than half a circle, for a radius.
        readings: see there.
        points: names of points on it.
        sd: mm, how far a point on it may lie off the true arc: one standard deviation.
    """

    wall: str
    start: str
    end: str
    out: bool | None = True
    over_half: bool = False
    readings: tuple[ArcReading, ...] = ()
    points: tuple[str, ...] = ()
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcResidual:
    """What one reading of an arc says of its rise.

    Attributes:
        key: `rise`, `radius`, or the name of a point.
        rise: mm that it gives by itself.
        off: mm, the adjusted rise less that.
        sd: mm, of that rise.
        standardised: |off| over its standard deviation; 0 where nothing checks it.
    """

    key: str
    rise: float
    off: float
    sd: float
    standardised: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WallArc:
    """A wall that is an arc, as adjusted.

    Attributes:
        wall: its name.
        start, end: its corners, anticlockwise.
        arc: it. The room is on its left: with a rise over 0 it bows out.
        sd_chord, sd_rise, sd_radius: a-priori standard deviations, mm.
        sd_centre: mm, of the centre's x and y.
        residuals: one for each reading and point.
    """

    wall: str
    start: str
    end: str
    arc: Arc
    sd_chord: float
    sd_rise: float
    sd_radius: float
    sd_centre: Point
    residuals: tuple[ArcResidual, ...]

    @property
    def bows(self) -> str:
        """`out` of the room or `in`."""
        return "out" if self.arc.rise > 0.0 else "in"


def fit_arcs(
    booked: Sequence[BookedArc], adjustment: Adjustment, style: LengthStyle
) -> tuple[tuple[WallArc, ...], tuple[Finding, ...]]:
    """Returns the arcs that what was booked gives, and what is wrong with the others, whose walls stay straight.

    Args:
        booked: one for a wall, its corners in the adjustment.
        adjustment: of the network, with covariances.
        style: how lengths print in findings.
    """
    found: list[WallArc] = []
    findings: list[Finding] = []
    for one in booked:
        try:
            fitted = _fitted(one, adjustment)
        except FloorwrightValueError as fault:
            findings.append(_none(one, str(fault)))
            continue
        found.append(fitted)
        findings += _disagree(fitted, style)
    sizes = [_size(one, style) for one in found] if len(found) <= MOST_TOLD else [_many(found)]
    return tuple(found), (*sizes, *findings)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Estimate:
    """The rise by one reading: its value, its change with all coordinates, and its own standard deviation."""

    key: str
    rise: float
    change: Floats
    sd: float


def _fitted(booked: BookedArc, adjustment: Adjustment) -> WallArc:
    estimates = list(_estimates(booked, adjustment))
    rises = np.array([one.rise for one in estimates])
    if len({rise > 0.0 for rise in rises.tolist()}) > 1:
        raise FloorwrightValueError("some of its readings and points make it bow out of the room and some into it")
    changes = np.array([one.change for one in estimates])
    own = np.array([one.sd for one in estimates])
    covariance = changes @ adjustment.covariance @ changes.T + np.diag(own**2)
    inverse = np.linalg.inv(covariance + TOUCH**2 * np.eye(len(own)))
    weights = inverse.sum(axis=0) / inverse.sum()
    rise = float(weights @ rises)
    a, b = (_place(adjustment, name) for name in (booked.start, booked.end))
    arc = by_rise(a, b, rise)
    off = rise - rises
    # The covariance of what is left over is that of the readings less that of their mean.
    left = np.diag(covariance) - float(weights @ covariance @ weights)
    checked = left > 1e-2 * np.diag(covariance) if len(own) > 1 else np.zeros(len(own), dtype=bool)
    shares = np.where(checked, np.abs(off) / np.sqrt(np.where(checked, left, 1.0)), 0.0)
    residuals = tuple(
        ArcResidual(key=one.key, rise=one.rise, off=float(o), sd=float(s), standardised=float(t))
        for one, o, s, t in zip(estimates, off, np.sqrt(np.diag(covariance)), shares, strict=True)
    )
    sds = _spread(booked, adjustment, rise, weights @ changes, float(np.hypot.reduce(weights * own)))
    return WallArc(
        wall=booked.wall, start=booked.start, end=booked.end, arc=arc, sd_chord=sds[0], sd_rise=sds[1],
        sd_radius=sds[2], sd_centre=(sds[3], sds[4]), residuals=residuals,
    )  # fmt: skip


def _estimates(booked: BookedArc, adjustment: Adjustment) -> Iterator[_Estimate]:
    ends = (booked.start, booked.end)
    for name in booked.points:
        if name not in adjustment.points:
            raise FloorwrightValueError(f"no reading fixes point {name}")
        three = (booked.start, name, booked.end)
        rise = rise_through(*(_place(adjustment, point) for point in three))
        if abs(rise) <= COINCIDENT:
            raise FloorwrightValueError(f"{name} lies in line with {booked.start} and {booked.end}")
        if booked.out is not None and (rise > 0.0) != booked.out:
            said, lies = ("out", "in the room") if booked.out else ("in", "outside the line of its corners")
            raise FloorwrightValueError(f"it is booked to bow {said}, and {name} lies {lies}")
        change = _change(rise_through, three, adjustment)
        # What a point is off the arc square to it moves the rise by as much as the rise moves it.
        shift = _across(*(_place(adjustment, point) for point in three))
        yield _Estimate(key=name, rise=rise, change=change, sd=booked.sd * shift)
    sign = -1.0 if booked.out is False else 1.0
    if booked.out is None and booked.points:
        sign = math.copysign(1.0, rise_through(*(_place(adjustment, p) for p in (ends[0], booked.points[0], ends[1]))))
    for reading in booked.readings:
        if reading.kind == "rise":
            yield _Estimate(
                key="rise", rise=sign * reading.measured, change=np.zeros(2 * len(adjustment.points)), sd=reading.sd
            )
        else:
            yield _by_radius(booked, reading, sign, adjustment)


def _by_radius(booked: BookedArc, reading: ArcReading, sign: float, adjustment: Adjustment) -> _Estimate:
    ends = (booked.start, booked.end)

    def rise(a: Point, b: Point, radius: float) -> float:
        # A half circle may read a little too small for its chord.
        return sign * rise_of_radius(min(math.dist(a, b), 2.0 * radius), radius, over_half=booked.over_half)

    a, b = (_place(adjustment, name) for name in ends)
    if math.dist(a, b) > 2.0 * (reading.measured + CRITICAL * reading.sd):
        raise FloorwrightValueError("its radius is less than half of its chord, and no circle is so small")
    change = _change(lambda a, b: rise(a, b, reading.measured), ends, adjustment)
    # Over a standard deviation, since next to a half circle the rise changes with the root of the radius.
    apart = rise(a, b, reading.measured + reading.sd) - rise(a, b, max(reading.measured - reading.sd, COINCIDENT))
    return _Estimate(key="radius", rise=rise(a, b, reading.measured), change=change, sd=abs(apart) / 2.0)


def _across(start: Point, middle: Point, end: Point) -> float:
    """How much the rise changes for each mm that a point on the arc moves out from it."""
    arc = by_rise(start, end, rise_through(start, middle, end))
    cx, cy = arc.centre
    out = math.dist(middle, (cx, cy))
    x, y = (middle[0] - cx) / out, (middle[1] - cy) / out
    moved = [rise_through(start, (middle[0] + way * x, middle[1] + way * y), end) for way in (NUDGE, -NUDGE)]
    return abs(moved[0] - moved[1]) / (2.0 * NUDGE)


def _change(figure: Callable[..., float], names: Sequence[str], adjustment: Adjustment) -> Floats:
    """How a figure of some points changes with x and y of every point of the network, by central differences."""
    places = [_place(adjustment, name) for name in names]
    change = np.zeros(2 * len(adjustment.points))
    for n, name in enumerate(names):
        for axis in (0, 1):
            ends = []
            for way in (NUDGE, -NUDGE):
                moved = [list(place) for place in places]
                moved[n][axis] += way
                ends.append(figure(*(tuple(place) for place in moved)))
            change[2 * adjustment.points.index(name) + axis] = (ends[0] - ends[1]) / (2.0 * NUDGE)
    return change


def _spread(booked: BookedArc, adjustment: Adjustment, rise: float, change: Floats, own: float) -> list[float]:
    """Standard deviations of chord, rise, radius, and the centre's x and y, all from the points' and the readings'."""
    ends = (booked.start, booked.end)
    a, b = (_place(adjustment, name) for name in ends)
    figures: tuple[Callable[[Arc], float], ...] = (
        lambda arc: arc.chord,
        lambda arc: arc.rise,
        lambda arc: arc.radius,
        lambda arc: arc.centre[0],
        lambda arc: arc.centre[1],
    )
    sds = []
    for figure in figures:
        apart = figure(by_rise(a, b, rise + NUDGE)) - figure(by_rise(a, b, rise - NUDGE))
        by_rise_alone = apart / (2.0 * NUDGE)
        at_rest = _change(lambda a, b, figure=figure: figure(by_rise(a, b, rise)), ends, adjustment)
        row = at_rest + by_rise_alone * change
        sds.append(math.sqrt(max(float(row @ adjustment.covariance @ row), 0.0) + (by_rise_alone * own) ** 2))
    return sds


def _place(adjustment: Adjustment, name: str) -> Point:
    x, y = adjustment.xy[adjustment.points.index(name)]
    return float(x), float(y)


def _none(booked: BookedArc, fault: str) -> Finding:
    return Finding(
        code="survey-arc",
        severity=Severity.ERROR,
        place=f"wall {booked.wall}",
        found=f"wall {booked.wall} is booked as an arc, and none comes of it: {fault}",
        expected="a rise, a radius or a point on it, clear of the line between its corners",
        remedy=f"stretch a string from {booked.start} to {booked.end} and measure how far the wall is off its middle",
        source="yours",
    )


def _many(fitted: Sequence[WallArc]) -> Finding:
    return Finding(
        code="survey-arc-wall",
        severity=Severity.NOTE,
        place="survey",
        found=f"{len(fitted)} walls are arcs",
        remedy="look at them on the sheet of the room",
    )


def _size(fitted: WallArc, style: LengthStyle) -> Finding:
    arc = fitted.arc
    half = ", more than half a circle" if abs(arc.bulge) > 1.0 else ""
    return Finding(
        code="survey-arc-wall",
        severity=Severity.NOTE,
        place=f"wall {fitted.wall}",
        found=f"wall {fitted.wall} is an arc that bows {fitted.bows}: {style.text(abs(arc.rise), unit=True)} over a "
        f"chord of {style.text(arc.chord, unit=True)}, radius {style.text(arc.radius, unit=True)} give or take "
        f"{style.text(max(fitted.sd_radius, style.mm(1)), unit=True)}{half}",
        remedy="nothing to do: area, gap and cuts follow the arc",
    )


def _disagree(fitted: WallArc, style: LengthStyle) -> Iterator[Finding]:
    """Yields readings of an arc that disagree: which one is wrong three or more can tell, two cannot.

    The chord is the distance of the corners, which the network holds; where that is wrong every figure of the arc is.
    """
    doubted = [one for one in fitted.residuals if one.standardised > CRITICAL]
    if not doubted:
        return
    chord = f"{fitted.start}-{fitted.end}"
    worst = max(doubted, key=lambda one: round(one.standardised, 6))
    if len(fitted.residuals) > 2:
        says = (
            f"by {worst.key} it rises {style.text(abs(worst.rise), unit=True)}, by all together "
            f"{style.text(abs(fitted.arc.rise), unit=True)}"
        )
        again = worst.key
    else:
        says = " and ".join(f"by {one.key} it rises {style.text(abs(one.rise), unit=True)}" for one in fitted.residuals)
        says += f", and one of them is wrong, or the chord {chord} is"
        again = ", ".join(dict.fromkeys([*(one.key for one in fitted.residuals), f"the chord {chord}"]))
    yield Finding(
        code="survey-arc-disagree",
        severity=Severity.WARNING,
        place=f"wall {fitted.wall}",
        found=f"what was read of the arc of wall {fitted.wall} disagrees: {says}",
        expected="agreement within the accuracy stated, or a wall that is no arc",
        remedy=f"measure {again} again; if it stays, book the wall as corners from point to point",
        source="yours",
    )
