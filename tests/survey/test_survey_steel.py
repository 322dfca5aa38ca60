"""Tapes that are not true or not at 20 degrees: J. Mahun, the derived checks of the trade, and through a job file."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.findings import Severity
from floorwright.job.inputs.observations import observations
from floorwright.job.load import load_text
from floorwright.job.solve import solve
from floorwright.survey.observation import Distance
from floorwright.survey.steel import STEEL, true_length

HALL = """\
schema = 1
units = "mm"
[survey]
outline = ["A", "B", "C", "D"]
direction = "anticlockwise"
[survey.tape]
class = "EU II"
{tape}
[survey.distances]
A-B = 4000
B-C = 3000
C-D = 4000
D-A = 3000
A-C = 5000
B-D = 5000
"""


def test_mahun_standard_and_temperature() -> None:
    """S-50. J. Mahun, open-access surveying text, Taping: tape 100.004 ft long at 70 F, read at 50 F, 436.48 ft; the
    corrections as recomputed, +0.0175 and -0.0567 (its pull and sag are of a tape that hangs, and are not ours)."""
    assert true_length(436.48, reads=100.0, true=100.004) - 436.48 == pytest.approx(0.0175, abs=5e-5)
    cold = true_length(436.48, celsius=20.0 + (50 - 70) / 1.8, grows=6.5e-6 * 1.8)
    assert cold - 436.48 == pytest.approx(-0.0567, abs=5e-5)


def test_twenty_metres_fifteen_degrees_warmer() -> None:
    """S-51 (derived): steel, 20 m, +15 K: +3.5 mm. S-52: under 10 m and within 10 K less than 1.2 mm."""
    assert true_length(20_000.0, celsius=35.0) - 20_000.0 == pytest.approx(3.5, abs=0.06)
    assert true_length(10_000.0, celsius=30.0) - 10_000.0 < 1.2


@given(st.integers(1, 40), st.floats(100, 5000), st.floats(0.99, 1.01))
def test_it_adds_up_reading_by_reading(count: int, step: float, longer: float) -> None:
    """S-60: a systematic error adds as n e, where errors by chance add as sqrt(n) e: true = measured L' / L."""
    one = true_length(step, true=longer) - step
    together = true_length(count * step, true=longer) - count * step
    assert together == pytest.approx(count * one, abs=1e-6)


def test_a_job_says_what_its_tape_makes_of_it() -> None:
    loaded = load_text(HALL.format(tape='reads = "10 m"\ntrue = "10.004 m"\ncelsius = 30.0'), "hall.toml")
    assert loaded.job is not None
    assert [finding for finding in loaded.findings if finding.severity is not Severity.NOTE] == []
    lengths = [one.measured for one in observations(loaded.job) if isinstance(one, Distance)]
    assert lengths[0] == pytest.approx(4000 * 1.0004 * (1 + 10 * STEEL))
    found = solve(loaded.job)
    (said,) = [finding for finding in found.findings if finding.code == "survey-tape-corrected"]
    assert said.severity is Severity.NOTE
    assert said.found == "every distance is taken 0.5 mm per m longer than it was read"
    assert found.survey.area == pytest.approx(12e6 * (1.0004 * (1 + 10 * STEEL)) ** 2)
    assert math.degrees(found.survey.corners[0].angle) == pytest.approx(90)


def test_a_tape_that_is_far_out_is_questioned() -> None:
    loaded = load_text(HALL.format(tape='reads = "10 m"\ntrue = "9 m"'), "hall.toml")
    assert loaded.job is not None
    (said,) = [one for one in solve(loaded.job).findings if one.code == "survey-tape-corrected"]
    assert said.severity is Severity.WARNING


def test_a_true_tape_says_nothing() -> None:
    loaded = load_text(HALL.format(tape=""), "hall.toml")
    assert loaded.job is not None
    assert "survey-tape-corrected" not in {finding.code for finding in solve(loaded.job).findings}


def test_half_a_comparison_is_asked_for() -> None:
    loaded = load_text(HALL.format(tape='reads = "10 m"'), "hall.toml")
    told = [(one.code, one.remedy) for one in loaded.findings if one.severity is Severity.ERROR]
    assert told == [("job-missing-key", "add true = ..., or take reads out")]
