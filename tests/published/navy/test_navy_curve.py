"""A worked railway curve: radius, middle ordinate and arc of a 7 degree curve.

United States Navy, Engineering Aid training course, chapter on horizontal curves, as quoted by "Length of curve
formula in surveying", mathformula5.netlify.app (the page drops the decimal points; the digits are the course's).
Degree of curve 7 by the arc of 100 ft, central angle 63.2594 degrees: R = 818.51 ft, M = 121.6 ft, L = 903.7 ft.
"""

import math

import pytest

from floorwright.geometry.arc import by_rise, rise_of_radius

FOOT = 304.8
ANGLE = math.radians(63.2594)
RADIUS, ORDINATE, LENGTH = 818.51, 121.6, 903.7


def test_chord_and_middle_ordinate_give_radius_and_length() -> None:
    radius = 100 / math.radians(7)
    assert round(radius, 2) == RADIUS
    chord = 2 * radius * math.sin(ANGLE / 2)
    rise = rise_of_radius(chord * FOOT, radius * FOOT) / FOOT
    assert round(rise, 1) == ORDINATE
    arc = by_rise((0.0, 0.0), (chord * FOOT, 0.0), rise * FOOT)
    assert round(arc.radius / FOOT, 2) == RADIUS
    assert round(arc.length / FOOT, 1) == LENGTH
    assert arc.sweep == pytest.approx(ANGLE, abs=1e-9)


def test_radius_by_the_formula_of_chord_and_rise() -> None:
    # r = (4 h^2 + c^2) / (8 h): Math Central, University of Regina, QQ 09.06; chord 11, height 1.4 gives 11.503 57.
    assert by_rise((0.0, 0.0), (11_000.0, 0.0), 1400.0).radius == pytest.approx(11_503.57, abs=0.005)
