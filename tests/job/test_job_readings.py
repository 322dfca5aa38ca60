"""Check readings through the job file: judged one by one and together, and printed where their blanks are."""

from pathlib import Path

from floorwright.draw.sheet import Prose, Table, flat
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.sheets.steps import steps_sheet

BAY = (Path(__file__).parents[2] / "examples" / "training-bay.toml").read_text()


def solved(*readings: tuple[str, str, float]) -> Solution:
    more = "".join(f'[[control.readings]]\nbetween = ["{a}", "{b}"]\nreads = {reads}\n' for a, b, reads in readings)
    loaded = load_text(BAY + more, "bay.toml")
    assert loaded.job is not None
    return solve(loaded.job, findings=loaded.findings)


def cells(solution: Solution) -> list[str]:
    tables = [block for block in flat(steps_sheet(solution).blocks) if isinstance(block, Table)]
    return [row[-1] for table in tables for row in table.rows]


def test_blanks_where_nothing_was_read() -> None:
    solution = solved()
    assert set(cells(solution)) == {""}
    tones = [block.tone for block in flat(steps_sheet(solution).blocks) if isinstance(block, Prose)]
    assert "agrees" not in tones


def test_what_was_read_stands_in_its_row_and_is_told_together() -> None:
    blanks = solved()
    assert blanks.control is not None
    first, second = [check for check in blanks.control.checks if check.legs][:2]
    ends = [tuple(f"{leg.name} {blanks.style.text(leg.distance)}" for leg in check.legs) for check in (first, second)]
    readings = [(*pair, round(check.expected, 1)) for pair, check in zip(ends, (first, second), strict=True)]
    solution = solved(*readings)  # type: ignore[arg-type]
    assert len(solution.verdicts) == 2
    filled = [cell for cell in cells(solution) if cell]
    assert len(filled) == 2
    assert all(verdict.says in cell for verdict, cell in zip(solution.verdicts, filled, strict=True))
    [told] = [one for one in solution.findings if one.code == "control-readings-together"]
    assert told.found.startswith("2 readings together")
    prose = [line for block in flat(steps_sheet(solution).blocks) if isinstance(block, Prose) for line in block.lines]
    assert any("2 readings together" in line for line in prose)
