"""Slips of the hand: recognised where a person could have made them, and not where none fits."""

import doctest

import numpy as np
import pytest
from tests.survey.rooms import ELL, ELL_WALLS, exact, readings, survey

from floorwright.survey import slip
from floorwright.survey.slip import recognise
from floorwright.units import FOOT, IMPERIAL, INCH, METRIC


@pytest.mark.parametrize(
    ("booked", "true", "what"),
    [
        (4670.0, 4760.0, "two digits swapped"),
        (4670.5, 4760.5, "two digits swapped"),
        (4250.0, 4260.0, "a 5 for a 6"),
        (4763.0, 1763.0, None),
        (3419.0, 3479.0, "a 1 for a 7"),
        (4300.0, 4400.0, "100 mm short"),
        (4300.0, 4200.0, "100 mm too many"),
        (3000.0, 2000.0, "1 m too many"),
        (4300.0, 4357.0, None),
    ],
)
def test_metric(booked: float, true: float, what: str | None) -> None:
    found = recognise(booked, true + 0.8, 1.3, METRIC)
    assert (found.what if found else None) == what
    assert found is None or found.would_agree == true


@pytest.mark.parametrize(
    ("booked", "true", "what"),
    [
        (7 * FOOT + 3 * INCH, 8 * FOOT + 3 * INCH, "1 ft short"),
        (7 * FOOT + 3 * INCH, 7 * FOOT + 2 * INCH, "1 in too many"),
        (87 * INCH + INCH / 8, 78 * INCH + INCH / 8, "two digits swapped"),
        (12 * FOOT, 21 * FOOT, "two digits swapped"),
    ],
)
def test_feet_and_inches(booked: float, true: float, what: str) -> None:
    found = recognise(float(booked), float(true) - 0.5, 1.0, IMPERIAL)
    assert found is not None
    assert found.what == what
    assert found.would_agree == pytest.approx(float(true), abs=1e-9)


def test_a_small_slip_is_not_read_into() -> None:
    """A slip hardly larger than what the readings are good to could be anything."""
    assert recognise(4250.0, 4255.5, 6.0, METRIC) is None


def test_few_odd_slips_look_like_one_of_the_hand() -> None:
    """Of slips of any size between 20 mm and 300 mm that nobody made by hand, few are taken for one."""
    rng = np.random.default_rng(5)
    booked, slips = rng.integers(1500, 7000, 1000), rng.uniform(20, 300, 1000) * rng.choice((-1, 1), 1000)
    taken = [recognise(float(b), float(b - s), 1.5, METRIC) for b, s in zip(booked, slips, strict=True)]
    assert sum(found is not None for found in taken) < 150


def test_the_finding_says_what_was_done() -> None:
    true = exact(ELL, [*ELL_WALLS, "A-C", "B-D", "B-F", "A-E", "C-E", "D-F", "C-F", "A-D"])
    result = survey(tuple(ELL), readings(true | {"A-C": 6400.0}), inward=("D",))
    (suspect,) = [finding for finding in result.findings if finding.code == "survey-suspect"]
    assert suspect.place == "A-C"
    assert "it would agree if it read 6500: 100 mm short" in suspect.found
    (explanation,) = result.explanations
    assert explanation.recognised is not None
    assert explanation.recognised.would_agree == 6500.0


def test_a_tie_says_which_of_them_looks_like_a_slip() -> None:
    """B hangs on too little to be told from these readings, but one of the two would be off by just 100 mm."""
    true = exact(ELL, [*ELL_WALLS, "A-C", "B-D", "B-F", "A-E", "C-E", "D-F", "C-F", "A-D"])
    result = survey(tuple(ELL), readings(true | {"A-B": 6100.0}), inward=("D",))
    (tie,) = [finding for finding in result.findings if finding.code == "survey-cannot-tell"]
    assert "; A-B would agree if it read 6000: 100 mm too many" in tie.found


def test_examples() -> None:
    assert doctest.testmod(slip).failed == 0
