"""Limits of error of tapes, as printed, and the standard deviation of a reading."""

import math

import pytest

from floorwright.errors import FloorwrightValueError
from floorwright.survey.accuracy import (
    EU_I,
    EU_II,
    EU_III,
    FOOT,
    INCH,
    TAPES,
    US_METAL,
    Tape,
    error_limit,
    own_limit,
    sd,
)


@pytest.mark.parametrize(
    ("metres", "tape", "limit"),
    [
        (10, EU_I, 1.1), (10, EU_II, 2.3), (10, EU_III, 4.6),
        (3, EU_I, 0.4), (3, EU_II, 0.9), (3, EU_III, 1.8),
        (5, EU_I, 0.6), (5, EU_II, 1.3), (5, EU_III, 2.6),
        (8, EU_I, 0.9), (8, EU_II, 1.9), (8, EU_III, 3.8),
        (7.2, EU_II, 1.9),
    ],
)  # fmt: skip
def test_european_classes(metres: float, tape: Tape, limit: float) -> None:
    """S-30, S-33, V-24: Directive 2014/32/EU MI-008 (UK SI 2016/1153 sched. 1I): +/-(a + b L), L a whole metre up."""
    assert error_limit(1000 * metres, tape) == pytest.approx(limit, abs=1e-12)


@pytest.mark.parametrize(("tape", "hook"), [(EU_I, 0.1), (EU_II, 0.2), (EU_III, 0.3)])
def test_reading_from_the_hook(tape: Tape, hook: float) -> None:
    """S-31, same source: c = 0.1, 0.2, 0.3 mm where the reading starts at the end hook; V-24: 7.2 m class II 2.1."""
    assert error_limit(5000, tape, hook=True) - error_limit(5000, tape) == pytest.approx(hook)
    assert error_limit(7200, EU_II, hook=True) == pytest.approx(2.1, abs=1e-12)


@pytest.mark.parametrize(
    ("feet", "inches"),
    [(1, 1 / 32), (6, 1 / 32), (7, 1 / 16), (30, 1 / 16), (31, 1 / 8), (55, 1 / 8), (56, 3 / 16), (80, 3 / 16),
     (81, 1 / 4), (100, 1 / 4)],
)  # fmt: skip
def test_us_metal_tapes(feet: int, inches: float) -> None:
    """S-34: NIST Handbook 44, 5.52 (to 6 ft 1/32; 7-30 1/16; 31-55 1/8; 56-80 3/16; 81-100 1/4 in)."""
    assert error_limit(feet * FOOT, US_METAL) == pytest.approx(inches * INCH)


def test_between_the_printed_feet_the_longer_counts_and_past_the_end_the_tape_is_laid_again() -> None:
    assert error_limit(6.5 * FOOT, US_METAL) == pytest.approx(INCH / 16)
    assert error_limit(105 * FOOT, US_METAL) == pytest.approx(INCH / 4 + INCH / 32)
    assert error_limit(200 * FOOT, US_METAL) == pytest.approx(INCH / 2)
    assert error_limit(0.0, US_METAL) == pytest.approx(INCH / 32)


def test_own_limit_is_the_same_at_any_length() -> None:
    """S-36: makers of laser meters state about +/-1 mm to 10 m; typed as a limit of one's own."""
    assert error_limit(200.0, own_limit(1.0)) == error_limit(9000.0, own_limit(1.0)) == 1.0


def test_sd_is_the_rectangular_limit_and_the_reading_together() -> None:
    assert sd(7200, EU_II, reading=0.0) == pytest.approx(1.9 / math.sqrt(3))
    assert sd(7200, EU_II, hook=True, reading=0.5) == pytest.approx(math.sqrt(2.1**2 / 3 + 0.25))


def test_every_class_has_a_name_and_a_source() -> None:
    assert list(TAPES) == ["EU I", "EU II", "EU III", "US metal"]
    assert all(tape.source for tape in TAPES.values())


def test_what_is_no_length_is_refused() -> None:
    for bad in (-1.0, math.nan, math.inf):
        with pytest.raises(FloorwrightValueError):
            error_limit(bad, EU_II)
        with pytest.raises(FloorwrightValueError):
            own_limit(bad)
        with pytest.raises(FloorwrightValueError):
            sd(1000, EU_II, reading=bad)
