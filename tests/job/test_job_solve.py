"""`solve` over jobs that stop half way: what there is comes back, and the reason is said once."""

from dataclasses import fields
from pathlib import Path

import pytest

import floorwright
from floorwright.findings import Finding, Severity
from floorwright.job.load import load_text
from floorwright.job.model import Job
from floorwright.job.solution import Solution
from floorwright.job.solve import solve

KITCHEN = (Path(floorwright.__file__).parent / "examples" / "larch-row-kitchen.toml").read_text(encoding="utf-8")


def solved(text: str) -> Solution:
    loaded = load_text(text, "job.toml")
    assert loaded.job is not None
    return solve(loaded.job, findings=loaded.findings)


def errors(solution: Solution) -> list[Finding]:
    return [finding for finding in solution.findings if finding.severity is Severity.ERROR]


def test_an_outline_that_cannot_be_is_said_once() -> None:
    solution = solved(KITCHEN.replace('outline = ["SW", "SE", "NE", "NW"]', 'outline = ["SW"]'))
    assert solution.room is None
    assert len([finding for finding in errors(solution) if "outline" in finding.code]) == 1


def test_a_job_made_in_python_without_an_outline_is_told_so() -> None:
    solution = solve(Job.model_validate({}))
    assert [finding.code for finding in errors(solution)] == ["survey-outline"]


def test_a_gap_that_leaves_no_floor_keeps_the_control_lines() -> None:
    solution = solved(KITCHEN.replace("gap = 5", "gap = 1900"))
    assert [finding.code for finding in errors(solution)] == ["job-gap"]
    assert solution.control is not None
    assert solution.layouts == ()
    assert solution.orders == ()


def test_a_second_field_is_pointed_out_and_the_first_laid() -> None:
    second = KITCHEN + '\n[[zones]]\nname = "border"\ngoods = "Porcelain 450 nominal"\njoint = 3\n'
    solution = solved(second)
    assert [finding.code for finding in errors(solution)] == ["job-two-fields"]
    assert [layout.zone for layout in solution.layouts] == ["floor"]


def test_progress_runs_from_nothing_to_done() -> None:
    shares: list[float] = []
    loaded = load_text(KITCHEN, "job.toml")
    assert loaded.job is not None
    solve(loaded.job, progress=lambda _what, share: shares.append(share))
    assert shares[0] == 0.0
    assert shares[-1] == 1.0
    assert all(0.0 <= share <= 1.0 for share in shares)


@pytest.mark.parametrize("field", [field.name for field in fields(Solution) if field.name != "findings"])
def test_the_same_job_gives_the_same_result(field: str) -> None:
    one, other = solved(KITCHEN), solved(KITCHEN)
    assert repr(getattr(one, field)) == repr(getattr(other, field))


def test_a_row_of_tiles_gives_their_size_and_says_so() -> None:
    row = "group = { tiles = 10, joints = 9, joint = 3, reads = 3027 }"
    solution = solved(KITCHEN.replace("length = 447\nwidth = 447", f"{row}\nwidth = 300"))
    assert solution.layouts[0].cell.size == (300.0, 300.0)
    finding = next(finding for finding in solution.findings if finding.code == "survey-row-of-tiles")
    assert "300" in finding.found
    assert "3027" in finding.found


def with_reading(pair: str, read: float) -> Solution:
    lines = [f"{pair} = {read}" if line.startswith(f"{pair} =") else line for line in KITCHEN.splitlines()]
    return solved("\n".join(lines))


def test_nothing_is_set_out_on_readings_that_contradict_each_other() -> None:
    slipped = with_reading("SE-NW", 5591)
    assert [finding.code for finding in errors(slipped)] == ["survey-cannot-tell"]
    assert slipped.room is not None
    assert slipped.region is not None
    assert slipped.control is None
    assert slipped.layouts == ()
    assert not [finding for finding in slipped.findings if finding.code == "survey-out-of-square"]


def test_a_slip_that_the_room_hardly_feels_is_a_warning() -> None:
    slipped = with_reading("SE-NW", 5553)
    assert errors(slipped) == []
    assert "survey-cannot-tell" in [finding.code for finding in slipped.findings if finding.severity == "warning"]
    assert slipped.layouts


def test_a_row_that_contradicts_the_length_is_questioned() -> None:
    row = "group = { tiles = 10, joints = 9, joint = 3, reads = 2000 }"
    loaded = load_text(KITCHEN.replace("thickness = 10", f"thickness = 10\n{row}"), "job.toml")
    (doubt,) = [finding for finding in loaded.findings if finding.severity is Severity.WARNING]
    assert doubt.code == "job-doubt"
    assert "group.reads" in doubt.place
    assert "197.3 mm" in doubt.found
    assert "447 mm" in doubt.expected
