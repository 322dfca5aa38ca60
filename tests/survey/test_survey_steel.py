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
from floorwright.survey.steel import GRAVITY, STEEL, Pull, droop, sag, stretch, true_length

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
    corrections as recomputed, +0.0175 and -0.0567."""
    assert true_length(436.48, reads=100.0, true=100.004) - 436.48 == pytest.approx(0.0175, abs=5e-5)
    cold = true_length(436.48, celsius=20.0 + (50 - 70) / 1.8, grows=6.5e-6 * 1.8)
    assert cold - 436.48 == pytest.approx(-0.0567, abs=5e-5)


FOOT, POUND = 304.8, 0.45359237
MAHUN = {
    "pull": 15 * POUND * GRAVITY,
    "made_for": 23 * POUND * GRAVITY,
    "section": 0.004 * 25.4**2,
    "mass": 2.2 * POUND / (102 * FOOT),
    "bay": 100 * FOOT,
}
"""S-50: 15 lb on a tape made for 23, 0.004 sq in across, 2.2 lb in 102 ft; held at its ends, every 100 ft."""


def test_mahun_pull_and_sag() -> None:
    """S-50, V-25, the same source: pull -0.0301 (29 000 000 psi), sag -(2 x 0.08615 + 0.00418) over two bays of 100 ft
    and one of 36.48; with the two above 436.234 ft in all."""
    held = Pull(**MAHUN)
    pulled = stretch(436.48 * FOOT, held) / FOOT
    sagged = sag(236.48 * FOOT, held) / FOOT
    assert pulled == pytest.approx(-0.0301, abs=5e-5)
    assert sag(100 * FOOT, held) / FOOT == pytest.approx(0.08615, abs=1e-5)
    assert sag(36.48 * FOOT, held) / FOOT == pytest.approx(0.00418, abs=1e-5)
    assert sagged == pytest.approx(0.1765, abs=5e-5)
    reads = true_length(436.48, reads=100.0, true=100.004, celsius=20.0 + (50 - 70) / 1.8, grows=6.5e-6 * 1.8)
    assert reads + pulled - sagged == pytest.approx(436.234, abs=1e-3)


def test_a_string_hangs_down() -> None:
    """S-42 (mechanics): w L^2 / 8 T; 1 g a metre over 10 m at 20 N is 6.1 mm, all of it downwards."""
    assert droop(10_000.0, 1e-6, 20.0) == pytest.approx(6.1, abs=0.05)


@given(st.floats(500, 30_000), st.floats(30, 150), st.floats(5e-6, 5e-5))
def test_sag_is_what_a_catenary_takes(span: float, pull: float, mass: float) -> None:
    """The chord of a hanging tape by the exact curve, s = 2 a sinh(c / 2 a), a = T / w, T at its lowest point."""
    a = pull / (mass * GRAVITY)
    chord = 2 * a * math.asinh(span / (2 * a))
    assert sag(span, Pull(pull=pull, mass=mass)) == pytest.approx(span - chord, rel=0.02, abs=1e-6)


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


MAHUN_JOB = """\
schema = 1
units = "ft"
[survey]
outline = ["A", "B", "C", "D"]
[survey.tape]
reads = "100 ft"
true = 100.004
pull = "15 lb"
made_for = "23 lb"
section = "0.004 sq in"
weight = "0.0215686 lb/ft"
hung = ["B-A"]
held_every = "100 ft"
[survey.distances]
A-B = 236.48
B-C = 200
C-D = 236.48
D-A = 200
A-C = 309.7
B-D = 309.7
"""


def test_a_job_takes_pull_and_sag() -> None:
    """S-50 through a job file, but for its cold: 236.48 ft hung in three bays and 200 ft on the ground, in all +0.0175,
    -0.0301 and -0.1765 ft."""
    loaded = load_text(MAHUN_JOB, "yard.toml")
    assert loaded.job is not None
    assert [one.code for one in loaded.findings if one.severity is not Severity.NOTE] == []
    lengths = {one.key: one.measured / FOOT for one in observations(loaded.job) if isinstance(one, Distance)}
    assert lengths["A-B"] + lengths["B-C"] == pytest.approx(436.48 + 0.0175 - 0.0301 - 0.1765, abs=1e-4)
    # The other long side lay on the ground.
    assert lengths["C-D"] - lengths["A-B"] == pytest.approx(0.1765, abs=5e-5)
    told = {one.code: one.found for one in solve(loaded.job).findings}
    assert told["survey-tape-hung"] == (
        'the tape hung over 1 of the distances; over the longest, A-B, it reads 2 1/8" too long, and hangs 1\'-9 9/16" '
        "down half way from support to support"
    )
    assert "shorter" in told["survey-tape-corrected"]


def test_what_prints_as_nothing_is_not_told_as_a_correction() -> None:
    tape = 'pull = "52 N"\nsection = "2.5 mm2"\nweight = "16 g/m"\nhung = ["A-C"]'
    loaded = load_text(HALL.format(tape=tape), "hall.toml")
    assert loaded.job is not None
    told = {one.code: one.found for one in solve(loaded.job).findings}
    assert "survey-tape-corrected" not in told
    assert "A-C, it reads hardly too long, and hangs 9.5 mm down" in told["survey-tape-hung"]
