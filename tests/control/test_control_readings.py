"""Readings taken on the lines: how far out, with what probability, which mark to move, which way, by how much."""

import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from tests.control.rooms import rectangle

from floorwright.control.choices import Centre, FirstLine, Tools
from floorwright.control.control import Control
from floorwright.control.readings import Reading, Verdict, beyond, ends_of, judged, within
from floorwright.control.set_out import set_control
from floorwright.control.together import Together, all_together, told_together
from floorwright.findings import Severity
from floorwright.job.load import load
from floorwright.job.solve import solve
from floorwright.plan.floor import floor_region
from floorwright.units import METRIC

TOOLS = Tools(compass=2000, tape=8000, mark=0.2, set=0.3)
EXAMPLE = Path(__file__).parents[2] / "examples" / "training-bay.toml"


@cache
def control() -> Control:
    room = rectangle(6000, 5000)
    return set_control(
        room=room,
        region=floor_region(room),
        first=FirstLine(by="mid-points", walls=("W", "E")),
        centre=Centre(by="mid-point"),
        tools=TOOLS,
        joint=3.0,
        style=METRIC,
    )


def judge(between: tuple[str, str], reads: float, joint: float = 3.0, tools: Tools = TOOLS) -> Verdict:
    (verdict,), (told,) = judged(control(), (Reading(between=between, reads=reads),), joint, tools, METRIC)
    assert told.code == "control-reading"
    assert (told.severity is Severity.NOTE) is (verdict.says == "good")
    return verdict


QUARTERS = [("E", "N", 1), ("W", "N", -1), ("W", "S", 1), ("E", "S", -1)]


def triangle(along: str, out: str) -> tuple[tuple[str, str], float, float]:
    """The check of a quarter by its name, with its two sides."""
    for check in control().checks:
        if (
            check.legs
            and {leg.name for leg in check.legs} == {along, out}
            and check.legs[0].distance != check.legs[1].distance
        ):
            first, second = check.legs
            names = (f"{first.name} {METRIC.text(first.distance)}", f"{second.name} {METRIC.text(second.distance)}")
            return names, first.distance, second.distance
    raise AssertionError("no triangle in that quarter")


@pytest.mark.parametrize(("along", "out", "sign"), QUARTERS)
@pytest.mark.parametrize("turn", [0.002, -0.002])
def test_a_turned_line_is_read_back_from_every_quarter(along: str, out: str, sign: int, turn: float) -> None:
    names, a, b = triangle(along, out)
    reads = math.sqrt(a**2 + b**2 - 2 * a * b * math.cos(math.pi / 2 + sign * turn))
    verdict = judge(names, reads)
    assert verdict.turn == pytest.approx(turn, rel=1e-6)
    assert abs(verdict.far) == pytest.approx(0.002 * 2500, rel=1e-6)
    assert verdict.says == "out"
    # Turned anticlockwise the line's north end leans west and its south end east: each goes back the other way.
    north = " on N " in verdict.do
    assert (" towards E" in verdict.do) is (north is (turn > 0))
    assert "5 mm" in verdict.do


def test_a_true_line_is_good_and_says_with_what_probability() -> None:
    names, a, b = triangle("E", "N")
    verdict = judge(names, math.hypot(a, b))
    assert verdict.says == "good"
    assert verdict.do == ""
    assert verdict.within > 0.95


def test_a_rough_reading_cannot_tell() -> None:
    names, a, b = triangle("E", "N")
    verdict = judge(names, math.hypot(a, b) + 1, tools=replace(TOOLS, set=4.0))
    assert verdict.says == "cannot tell"
    assert "bigger triangle" in verdict.do


def test_a_rough_reading_tells_of_a_line_that_is_out_by_far_more_than_it_is_rough() -> None:
    names, a, b = triangle("E", "N")
    rough = replace(TOOLS, set=2.0)
    level = judge(names, math.hypot(a, b), tools=rough)
    assert level.far_sd > level.may
    assert level.says == "cannot tell"
    verdict = judge(names, math.hypot(a, b) + 20, tools=rough)
    assert verdict.far_sd == level.far_sd
    assert abs(verdict.far) > verdict.may + 2 * verdict.far_sd
    assert verdict.says == "out"
    assert verdict.do.startswith("move M")


def test_between_good_and_out_it_is_doubtful() -> None:
    names, a, b = triangle("E", "N")
    lever = math.hypot(a, b) / (a * b)
    reads = math.hypot(a, b) + 1.5 / 2500 / lever  # at the limit itself either is as likely
    verdict = judge(names, reads)
    assert verdict.says == "doubtful"
    assert verdict.within == pytest.approx(0.5, abs=0.02)


def test_the_probability_agrees_with_drawing_the_errors() -> None:
    rng = np.random.default_rng(12)
    true = 2.2 + 0.8 * rng.standard_normal(400_000)
    assert within(2.2, 0.8, 1.5) == pytest.approx(float(np.mean(np.abs(true) <= 1.5)), abs=0.003)


def test_a_reading_from_a_corner_within_its_allowance_is_good_and_beyond_it_is_out() -> None:
    check = next(check for check in control().checks if "corner SW" in check.between)
    assert judge(("SW", "centre"), check.expected + 0.9 * check.allow).says == "good"
    verdict = judge(("centre", "SW"), check.expected + 1.1 * check.allow)
    assert verdict.says == "out"
    assert "long" in verdict.do


def test_ends_that_no_check_has_are_told_with_those_that_it_has() -> None:
    made = control()
    verdicts, (told,) = judged(made, (Reading(between=("Q1", "Q2"), reads=2000.0),), 3.0, TOOLS, METRIC)
    assert verdicts == ()
    assert told.code == "control-reading-unknown"
    assert all(end for check in made.checks for end in ends_of(check, made, METRIC))
    assert "centre" in told.expected


def test_readings_are_read_from_the_job_file(tmp_path: Path) -> None:
    text = EXAMPLE.read_text(encoding="utf-8")
    path = tmp_path / "job.toml"
    path.write_text(text + '\n[[control.readings]]\nbetween = ["E1", "E2"]\nreads = 3330\n', encoding="utf-8")
    loaded = load(path)
    assert loaded.job is not None, loaded.findings
    solution = solve(loaded.job)
    (verdict,) = solution.verdicts
    assert verdict.expected == pytest.approx(2350 * math.sqrt(2))
    assert [one for one in solution.findings if one.code == "control-reading"]


@pytest.mark.parametrize(
    ("reading", "key"),
    [('between = ["E1"]\nreads = 3000', "between"), ('between = ["E1", "E2"]\nreads = "long"', "reads"),
     ('between = ["E1", "E2"]', "reads")],
)  # fmt: skip
def test_a_wrong_reading_gives_one_message(tmp_path: Path, reading: str, key: str) -> None:
    path = tmp_path / "job.toml"
    path.write_text(EXAMPLE.read_text(encoding="utf-8") + f"\n[[control.readings]]\n{reading}\n", encoding="utf-8")
    (wrong,) = [one for one in load(path).findings if one.code != "job-assumed"]
    assert wrong.place.endswith(key)
    assert wrong.expected


def together(out: list[float]) -> Together:
    """What readings of the four quarters say that are so much longer than a line turned by them would make them."""
    made, readings = control(), []
    for (along, up, sign), far in zip(QUARTERS, out, strict=True):
        names, a, b = triangle(along, up)
        turn = far / 2500.0
        readings.append(Reading(between=names, reads=math.sqrt(a**2 + b**2 + 2 * a * b * math.sin(sign * turn))))
    verdicts, _ = judged(made, tuple(readings), 3.0, TOOLS, METRIC)
    assert [one.code for one in told_together(made, verdicts, 3.0, TOOLS, METRIC)] == ["control-readings-together"]
    found = all_together(made, verdicts, 3.0, TOOLS, METRIC)
    assert found is not None
    return found


def test_readings_that_agree_are_one_truer_estimate() -> None:
    names, a, b = triangle("E", "N")
    alone = judge(names, math.hypot(a, b))
    found = together([2.4, 2.4, 2.4, 2.4])
    assert found.readings == 4
    assert found.far == pytest.approx(2.4, abs=1e-6)
    assert found.far_sd < alone.far_sd
    assert found.says == "out"
    assert found.do.startswith("move M3 on S 2.4 mm towards") or found.do.startswith("move M4 on N 2.4 mm towards")


def test_it_is_the_mean_weighted_by_the_inverse_variance() -> None:
    """Of a thousand sets of readings, each out by its own error, the estimate scatters as it says."""
    rng = np.random.default_rng(11)
    sd = []
    for along, up, _ in QUARTERS:
        names, a, b = triangle(along, up)
        sd.append(judge(names, math.hypot(a, b)).far_sd)
    draws = rng.normal(0.0, sd, (1000, 4))
    said = [together(row.tolist()) for row in draws[:60]]
    weights = 1 / np.square(sd)
    for row, one in zip(draws, said, strict=False):
        assert one.far == pytest.approx(float(row @ weights / weights.sum()), abs=1e-3)
    scatter = float((draws @ weights / weights.sum()).std())
    assert said[0].far_sd == pytest.approx(scatter, rel=0.06)


def test_a_reading_that_disagrees_moves_nothing() -> None:
    found = together([0.0, 0.0, 0.0, 9.0])
    assert found.says == "disagree"
    assert "again before anything is moved" in found.do


def test_one_reading_is_no_estimate_of_several() -> None:
    names, a, b = triangle("E", "N")
    assert all_together(control(), (judge(names, math.hypot(a, b)),), 3.0, TOOLS, METRIC) is None


def test_a_reading_far_rougher_than_its_limit_is_no_proof_that_a_line_is_out() -> None:
    # Within +/- 1 mm is never sure of a reading good to 40 mm, not even of one that is dead on.
    assert within(0.0, 40.0, 1.0) < 0.05
    assert beyond(0.0, 40.0, 1.0) < 0.5
    assert beyond(1.0 + 1.6449 * 40.0, 40.0, 1.0) == pytest.approx(0.95, abs=1e-4)
