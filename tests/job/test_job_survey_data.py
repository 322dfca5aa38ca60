"""What a survey says as data beyond its readings: explanations, what to measure, straightness, coordinates."""

from typing import Any

import pytest

from floorwright.export.data import survey_data
from floorwright.job.load import load_text
from floorwright.job.solve import solve

WALLS = """\
schema = 1
units = "mm"
[survey]
outline = ["A", "B", "C", "D"]
"""


def data(text: str) -> dict[str, Any]:
    job = load_text(WALLS + text).job
    assert job is not None
    return survey_data(solve(job))


def test_a_suspect_with_its_slip() -> None:
    readings = "A-B = [4000, 4000]\nB-C = [3000, 3000]\nC-D = [4000, 4000]\nD-A = [3000, 3000]\nA-C = [5100, 5000]\n"
    made = data(f"[survey.distances]\n{readings}B-D = [5000, 5000]\n")
    assert made["suspects"] == ["A-C"]
    (explanation,) = made["explanations"]
    assert (explanation["key"], explanation["unit"]) == ("A-C", "mm")
    assert explanation["slip"] == pytest.approx(100.0, abs=0.1)
    assert explanation["would_read"] == pytest.approx(5000.0, abs=0.1)
    assert (explanation["would_agree_mm"], explanation["looks_like"]) == (5000.0, "100 mm too many")


def test_what_to_measure() -> None:
    made = data("[survey.distances]\nA-B = 4000\nB-C = 3000\nC-D = 4000\nD-A = 3000\nA-C = 5000\n")
    (reading,) = made["to_measure"]
    assert (reading["key"], reading["from"], reading["to"], reading["why"]) == ("B-D", "B", "D", "checks")
    assert reading["sd_after_mm"] is None or reading["sd_after_mm"] < reading["sd_before_mm"]
    unfixed = data("[survey.distances]\nA-B = 4000\nB-C = 3000\nC-D = 4000\nD-A = 3000\n")
    assert [one["why"] for one in unfixed["to_measure"]] == ["fixes the shape"]


def test_readings_of_every_kind_with_their_unit() -> None:
    made = data(
        "[survey.distances]\nA-B = 4000\n[survey.points]\nA = [0, 0]\nB = [4000, 0]\nC = [4000, 3000]\nD = [0, 3000]\n"
        '[[survey.angles]]\ncorner = "B"\nangle = 90.1\n'
        '[[survey.offsets]]\npoint = "D"\nline = ["A", "B"]\nalong = 3\nout = 3001\n'
    )
    kinds = {(one["kind"], one["unit"]) for one in made["observations"]}
    assert kinds == {("distance", "mm"), ("coordinate", "mm"), ("angle", "deg"), ("along", "mm"), ("offset", "mm")}
    angle = next(one for one in made["observations"] if one["kind"] == "angle")
    assert angle["measured"] == pytest.approx(90.1)
    assert angle["sd"] == pytest.approx(0.5)
    assert made["straightness"] == []
