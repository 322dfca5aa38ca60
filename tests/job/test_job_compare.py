"""First lines side by side, through the job file: what each costs, and what a typed one costs against the best."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from floorwright.cli.main import commands
from floorwright.job.compare import Comparison, compare
from floorwright.job.load import load
from floorwright.job.solution import Solution
from floorwright.job.solve import solve

KITCHEN = Path(__file__).parents[2] / "examples" / "larch-row-kitchen.toml"
PARALLEL = 'first_line = { by = "parallel", wall = "S" }'
MID_POINT = 'centre = { by = "mid-point", wall = "S" }'


def solved(folder: Path, first: str = PARALLEL, centre: str = MID_POINT, more: str = "") -> Solution:
    text = KITCHEN.read_text(encoding="utf-8").replace(PARALLEL, first).replace(MID_POINT, centre) + more
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    loaded = load(path)
    assert loaded.job is not None, loaded.findings
    return solve(loaded.job, findings=loaded.findings)


def compared(solution: Solution) -> Comparison:
    found = compare(solution)
    assert found is not None
    return found


def test_the_own_choice_costs_what_the_whole_search_says(tmp_path: Path) -> None:
    solution = solved(tmp_path)
    own, chosen = compared(solution).yours.option, solution.layouts[0].chosen
    assert (own.worst, own.cut, own.joint) == pytest.approx((chosen.worst, chosen.cut, chosen.joint))


def test_candidates_are_ranked_and_each_says_why(tmp_path: Path) -> None:
    found = compared(solved(tmp_path))
    assert len(found.candidates) >= 6
    assert found.candidates[0].reason.startswith("best")
    keeps = [not one.under_limit and not one.option.refused for one in found.candidates]
    assert keeps == sorted(keeps, reverse=True)
    assert all(one.reason for one in found.candidates)
    assert all(one.drift > 0 for one in found.candidates)


def test_typed_points_are_kept_and_their_cost_is_told(tmp_path: Path) -> None:
    solution = solved(
        tmp_path,
        'first_line = { by = "points", from = [0, 600], to = [4200, 700] }',
        'centre = { by = "point", x = 2000, y = 648 }',
    )
    assert solution.control is not None
    assert solution.control.first_how == "through (0, 600) and (4200, 700)"
    (told,) = [one for one in solution.findings if one.code == "job-first-line-cost"]
    best = compared(solution).candidates[0]
    assert not best.yours
    assert best.name in told.found
    assert "under the limit" in told.found


def test_nothing_is_told_where_nothing_is_typed(tmp_path: Path) -> None:
    assert not [one for one in solved(tmp_path).findings if one.code == "job-first-line-cost"]


@pytest.mark.parametrize(
    ("first", "how"),
    [
        ('first_line = { by = "mean", walls = ["S", "N"] }', "mean of S and N"),
        ('first_line = { by = "sight", opening = "door" }', "sight line from door"),
        ('first_line = { by = "slab joint", slab_joint = "saw cut" }', "along saw cut"),
    ],
)
def test_every_way_is_read_from_the_job_file(tmp_path: Path, first: str, how: str) -> None:
    more = '\n[[slab_joints]]\nname = "saw cut"\nfrom = "SW"\nto = ["4.2 m", 1500]\n'
    solution = solved(tmp_path, first, 'centre = { by = "visual" }', more)
    assert solution.control is not None
    assert solution.control.first_how == how
    assert "along saw cut" in [name for one in compared(solution).candidates for name in (one.name, *one.others)] + (
        [how] if how == "along saw cut" else []
    )


@pytest.mark.parametrize(
    ("first", "more", "code", "key"),
    [
        ('first_line = { by = "slab joint" }', "", "job-missing-key", "slab_joint"),
        ('first_line = { by = "slab joint", slab_joint = "cut" }', "", "job-unknown-slab-joint", "slab_joint"),
        ('first_line = { by = "mean" }', "", "job-missing-key", "walls"),
        ('first_line = { by = "sight" }', "", "job-missing-key", "opening"),
        (PARALLEL, '\n[[slab_joints]]\nname = "cut"\nfrom = "XX"\nto = "SE"\n', "job-unknown-corner", "from"),
        (PARALLEL, '\n[[slab_joints]]\nname = "cut"\nfrom = "SW"\n', "job-missing-key", "to"),
        (
            PARALLEL,
            '\n[[slab_joints]]\nname = "cut"\nfrom = "SW"\nto = "NE"\n'
            '\n[[slab_joints]]\nname = "cut"\nfrom = "SE"\nto = "NW"\n',
            "job-same-name",
            "name",
        ),
    ],
)
def test_a_wrong_choice_gives_one_message(tmp_path: Path, first: str, more: str, code: str, key: str) -> None:
    path = tmp_path / "job.toml"
    path.write_text(KITCHEN.read_text(encoding="utf-8").replace(PARALLEL, first) + more, encoding="utf-8")
    (wrong,) = [one for one in load(path).findings if one.code != "job-assumed"]
    assert wrong.code == code
    assert wrong.place.endswith(key)
    assert wrong.remedy


def test_the_command_prints_candidates_as_text_and_as_data() -> None:
    text = CliRunner().invoke(commands, ["control", str(KITCHEN), "--compare"])
    assert text.exit_code == 0
    assert "Sight line from" in text.stdout
    data = json.loads(CliRunner().invoke(commands, ["control", str(KITCHEN), "--compare", "--json"]).stdout)
    assert [one["rank"] for one in data["candidates"]] == list(range(1, len(data["candidates"]) + 1))
    assert sum(one["yours"] for one in data["candidates"]) == 1
    assert {wall["name"] for wall in data["candidates"][0]["walls"]} == {"S", "E", "N", "W"}
    assert data["searched"]
