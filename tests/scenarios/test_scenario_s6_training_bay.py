"""S6, the training bay: a 90 and a 45 at the middle of a 6 m line, each length good to 1 mm (our own calculation)."""

from math import sqrt
from pathlib import Path

import pytest

import floorwright
from floorwright.job.solution import Solution

EXAMPLE = Path(floorwright.__file__).parent / "examples" / "training-bay.toml"


@pytest.fixture(scope="module")
def bay() -> Solution:
    loaded = floorwright.load(EXAMPLE)
    assert loaded.job is not None
    return floorwright.solve(loaded.job, findings=loaded.findings)


def test_a_job_without_tiles_is_a_job(bay: Solution) -> None:
    assert bay.layouts == ()
    assert bay.orders == ()
    assert bay.control is not None
    assert bay.control.centre == pytest.approx((3000, 2500), abs=0.5)


def test_the_compass_is_opened_for_arcs_that_cross_square(bay: Solution) -> None:
    assert bay.control is not None
    square = next(
        made for made in bay.control.constructions if made.makes == "square line" and made.method == "compass"
    )
    arcs = [step.length for step in square.steps if step.action == "arc"]
    assert len(arcs) == 4
    assert set(arcs) == {2850}
    assert square.size / 2850 == pytest.approx(1 / sqrt(2), rel=0.03)
    # Feet 2 m, arcs 2.83 m, both sides: 0.35 mm/m (0.354); a little more reach is a little better.
    assert square.sd_angle * 1000 == pytest.approx(sqrt(1 / 2.05**2 + 1 / (2.85**2 - 2.05**2)) / 2, rel=0.01)
    assert square.sd_angle * 1000 < 0.36


def test_the_four_chords_are_all_the_same(bay: Solution) -> None:
    assert bay.control is not None
    arm = next(made.size for made in bay.control.constructions if made.method == "four equal marks")
    chords = [check for check in bay.control.checks if check.expected == pytest.approx(arm * sqrt(2), abs=0.01)]
    assert len(chords) == 4
