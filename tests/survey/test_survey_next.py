"""What to measure next: the gain promised is the gain that comes."""

import numpy as np
import pytest
from tests.survey.rooms import KITCHEN, KITCHEN_OUTLINE, codes, exact, readings, survey

from floorwright.survey.survey import SurveyResult

HALL = {
    "A": (0.0, 0.0), "B": (3000.0, 0.0), "C": (6000.0, 300.0), "D": (9000.0, 500.0), "E": (9000.0, 3000.0),
    "F": (6000.0, 3100.0), "G": (3000.0, 3200.0), "H": (0.0, 3000.0),
}  # fmt: skip
FIRST = ["A-B", "B-C", "C-D", "D-E", "E-F", "F-G", "G-H", "H-A", "A-G", "B-G", "C-G", "C-F", "D-F"]
"""A long hall held by a chain of single diagonals."""


def measured(*more: str) -> SurveyResult:
    return survey(tuple(HALL), readings(exact(HALL, [*FIRST, *more])), inward=("C",))


def worst(result: SurveyResult) -> float:
    return max(max(corner.sd_x, corner.sd_y) for corner in result.corners)


def test_the_gain_is_what_comes_of_it() -> None:
    """But for the new reading's own accuracy, taken from the booked one nearest to it in length."""
    before = measured()
    (sharper,) = [reading for reading in before.to_measure if reading.corner]
    assert sharper.sd_before == pytest.approx(worst(before), rel=1e-9)
    after = measured(sharper.name)
    assert worst(after) == pytest.approx(sharper.sd_after, rel=0.03)
    assert worst(after) < 0.9 * worst(before)
    (said,) = [finding for finding in before.findings if finding.code == "survey-measure-next"]
    assert said.remedy == f"measure {sharper.name}"
    assert f"{sharper.sd_before:.1f} mm" in said.found
    assert f"{sharper.sd_after:.1f} mm" in said.expected


def test_no_other_reading_gains_more() -> None:
    before = measured()
    (sharper,) = [reading for reading in before.to_measure if reading.corner]
    others = [pair for pair in ("A-D", "B-E", "B-F", "C-E", "D-G", "B-H") if pair != sharper.name]
    gains = [worst(measured(pair)) for pair in others]
    assert np.min(gains) > 0.95 * sharper.sd_after


def test_nothing_where_everything_is_measured() -> None:
    result = survey(KITCHEN_OUTLINE, readings(KITCHEN))
    assert "survey-measure-next" not in codes(result)
    assert result.to_measure == ()
