"""Our chi-square against tables and scipy's."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from floorwright.errors import FloorwrightValueError
from floorwright.survey.chi_square import CLEARLY, CRITICAL, clear_difference, is_acceptable, probability, quantile


@pytest.mark.parametrize(
    ("share", "freedom", "value"),
    [(0.95, 1, 3.841), (0.95, 10, 18.307), (0.99, 5, 15.086), (0.999, 14, 36.123), (0.05, 10, 3.940), (0.5, 2, 1.386)],
)
def test_printed_table(share: float, freedom: int, value: float) -> None:
    """M. Abramowitz and I. Stegun, Handbook of Mathematical Functions (1964), table 26.8."""
    assert quantile(share, freedom) == pytest.approx(value, abs=5e-4)


@given(st.floats(1e-4, 0.9999), st.integers(1, 200))
def test_quantile_agrees_with_scipy(share: float, freedom: int) -> None:
    assert quantile(share, freedom) == pytest.approx(stats.chi2.ppf(share, freedom), rel=1e-9)


@given(st.floats(0, 400), st.integers(1, 200))
def test_probability_agrees_with_scipy(value: float, freedom: int) -> None:
    assert probability(value, freedom) == pytest.approx(stats.chi2.cdf(value, freedom), abs=1e-12)


def test_constants_are_the_quantiles_they_say() -> None:
    assert pytest.approx(stats.norm.ppf(1 - 0.0005), abs=1e-6) == CRITICAL
    assert pytest.approx(stats.chi2.ppf(0.99, 1), abs=1e-6) == CLEARLY


def test_acceptable() -> None:
    assert is_acceptable(10.8, 1)
    assert not is_acceptable(10.909, 1)
    assert is_acceptable(0.0, 0)


def test_what_is_no_probability_is_refused() -> None:
    for share, freedom in ((0.0, 1), (1.0, 1), (0.5, 0)):
        with pytest.raises(FloorwrightValueError):
            quantile(share, freedom)


@given(st.integers(1, 200))
def test_clear_difference_is_students_t_squared(freedom: int) -> None:
    assert clear_difference(freedom) == pytest.approx(stats.t.ppf(0.995, freedom) ** 2, rel=1e-9)


def test_clear_difference_runs_from_infinity_to_the_known_variance() -> None:
    assert clear_difference(0) == float("inf")
    assert clear_difference(10_000) == pytest.approx(CLEARLY, rel=1e-3)
