"""Figures of setting out that are printed in manuals or follow from their geometry.

S-01 to S-06: FAO irrigation manual, R7021E ch. 4, and open survey notes; S-10, S-17, S-20, S-60: geometry, derived. The
limits of S-60 are those of Directive 2014/32/EU MI-008 (UK SI 2016/1153 sched. 1I), class II.
"""

from math import degrees, hypot, pi, sqrt

import pytest

from floorwright.control.accuracy import drift, reading_across, triangle_square
from floorwright.control.choices import Tools
from floorwright.geometry.arc import by_rise
from floorwright.setout.ties import WEAK, crossing_angle, tie_point
from floorwright.survey.accuracy import EU_II, error_limit

ARCSEC = 3600.0
INCH = 25.4
ONE = Tools(compass=0, tape=50_000, mark=0.0, set=1.0)


def turned(along: float, out: float, slip: float) -> float:
    """The angle that a triangle stands open by when its long side reads so much too long, radians: the engine's own
    reading across the lines, turned round."""
    low, high = pi / 2, pi / 2 + 0.1
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if reading_across(along, out, middle) < hypot(along, out) + slip else (low, middle)
    return low - pi / 2


@pytest.mark.parametrize(
    ("along", "out", "slip", "arcsec", "drift_of_ten"),
    [
        (1500.0, 2000.0, 1.0, 172, 8.3),
        (3000.0, 4000.0, 1.0, 86, 4.2),
        (6000.0, 8000.0, 1.0, 43, 2.1),
        (9000.0, 12_000.0, 1.0, 29, 1.4),
    ],
)
def test_a_slip_in_the_long_side_of_a_triangle(
    along: float, out: float, slip: float, arcsec: float, drift_of_ten: float
) -> None:
    """S-20, V-26 (derived): angle = c e / (a b), and how far out it is after 10 m."""
    angle = turned(along, out, slip)
    assert degrees(angle) * ARCSEC == pytest.approx(arcsec, abs=0.55)
    assert drift(angle, 10_000.0, ONE) == pytest.approx(drift_of_ten, abs=0.05)


@pytest.mark.parametrize(("feet", "angle_deg", "inches_in_ten_feet"), [(1, 0.124, 0.26), (2, 0.062, 0.13)])
def test_a_sixteenth_in_feet(feet: int, angle_deg: float, inches_in_ten_feet: float) -> None:
    """S-20: 3-4-5 and 6-8-10 ft with the long side 1/16 in long."""
    angle = turned(feet * 36 * INCH, feet * 48 * INCH, INCH / 16)
    assert degrees(angle) == pytest.approx(angle_deg, abs=6e-4)
    assert drift(angle, 120 * INCH, ONE) / INCH == pytest.approx(inches_in_ten_feet, abs=0.006)


def test_v26_to_its_digits() -> None:
    """V-26: 3-4-5 m with +1 mm: 86 arcsec, 4.17 mm per 10 m."""
    assert drift(turned(3000.0, 4000.0, 1.0), 10_000.0, ONE) == pytest.approx(4.17, abs=0.005)


def test_three_good_readings_make_the_same_triangle_root_two_worse_for_each_further_one() -> None:
    """One slip of e turns it by c e / (a b); three lengths, each out by e, by sqrt(2) c e / (a b)."""
    assert triangle_square(3000.0, 4000.0, ONE) == pytest.approx(sqrt(2) * turned(3000.0, 4000.0, 1.0), rel=1e-3)


@pytest.mark.parametrize("unit", [1000.0, 2000.0, 3000.0])
def test_multiples_of_three_four_five_are_square(unit: float) -> None:
    """S-01: 3-4-5 and its multiples 6-8-10 and 9-12-15."""
    assert reading_across(3 * unit, 4 * unit, pi / 2) == pytest.approx(5 * unit)


def test_diagonal_of_a_unit_square() -> None:
    """S-08 (geometry): 1000 mm gives 1414.2 mm, 4 ft 67.88 in."""
    assert reading_across(1000.0, 1000.0, pi / 2) == pytest.approx(1414.2, abs=0.05)
    assert reading_across(48 * INCH, 48 * INCH, pi / 2) / INCH == pytest.approx(67.88, abs=0.005)


def test_radius_from_chord_and_rise() -> None:
    """S-14 (geometry): R = c^2 / 8h + h / 2; chord 2000, rise 150: 3408.3."""
    assert by_rise((0.0, 0.0), (2000.0, 0.0), 150.0).radius == pytest.approx(3408.3, abs=0.05)


def test_chord_for_so_many_divisions() -> None:
    """S-15 (geometry): 2 R sin(pi / N); R 1500 in 12 parts: 776.5."""
    assert reading_across(1500.0, 1500.0, 2 * pi / 12) == pytest.approx(776.5, abs=0.05)


def test_an_angle_under_thirty_is_weak_and_a_tie_comes_back() -> None:
    """S-17: the limit of 30 degrees is practice; the point is geometry."""
    assert degrees(WEAK) == pytest.approx(30)
    at = tie_point((0.0, 0.0), (4000.0, 0.0), (2500.0, 3000.0))
    assert at is not None
    x, y = at
    assert x == pytest.approx((2500.0**2 - 3000.0**2 + 4000.0**2) / 8000.0)
    assert hypot(x, y) == pytest.approx(2500.0)
    assert hypot(x - 4000.0, y) == pytest.approx(3000.0)
    assert crossing_angle(at, (0.0, 0.0), (4000.0, 0.0)) > WEAK


def test_ten_steps_are_worse_than_one_reading() -> None:
    """S-60, S-61: ten steps of 600 mm may be out by 10 (0.3 + 0.2) = 5.0, one reading of 6 m by 0.3 + 0.2 6 = 1.5."""
    assert 10 * error_limit(600.0, EU_II) == pytest.approx(5.0)
    assert error_limit(6000.0, EU_II) == pytest.approx(1.5)
