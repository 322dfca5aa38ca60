"""Error ellipses: the axes of a covariance, and the way they point."""

from math import cos, pi, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.survey.ellipse import ellipse


def test_equal_spread_that_goes_together_lies_at_45_degrees() -> None:
    # By hand: eigenvalues of [[2, 1], [1, 2]] are 3 along (1, 1) and 1 square to it.
    found = ellipse(np.array([[2.0, 1.0], [1.0, 2.0]]))
    assert (found.major, found.minor, found.angle) == pytest.approx((3.0**0.5, 1.0, pi / 4))


def test_a_point_of_the_datum_has_none() -> None:
    found = ellipse(np.array([[0.0, 0.0], [0.0, -1e-18]]))
    assert (found.major, found.minor) == (0.0, 0.0)


def test_a_point_that_only_runs_along_x_is_a_line() -> None:
    found = ellipse(np.array([[4.0, 0.0], [0.0, 0.0]]))
    assert (found.major, found.minor, found.angle) == (2.0, 0.0, 0.0)


@given(st.floats(0.1, 20), st.floats(0.01, 1), st.floats(-1.55, 1.57))
def test_the_axes_that_made_it_come_back(major: float, ratio: float, angle: float) -> None:
    minor = major * ratio
    turn = np.array([[cos(angle), -sin(angle)], [sin(angle), cos(angle)]])
    found = ellipse(turn @ np.diag([major**2, minor**2]) @ turn.T)
    assert (found.major, found.minor) == pytest.approx((major, minor), rel=1e-6)
    if ratio < 0.99:
        assert abs(sin(found.angle - angle)) < 1e-6
