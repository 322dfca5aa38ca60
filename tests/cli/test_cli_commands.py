"""Every command on every example, as text and as data, and on every malformed file."""

import json
from pathlib import Path

import pytest
from tests.cli.conftest import EXAMPLES, ROOT, Run

from floorwright.cli.main import COMMANDS
from floorwright.findings import Severity

JOBS = sorted(EXAMPLES.glob("*.toml"))
MALFORMED = sorted((ROOT / "tests" / "job" / "malformed").glob("*.toml"))
ON_A_JOB = ("check", "survey", "control", "layout", "cuts", "takeoff", "pack")

SAYS = {
    "check": "note: ",
    "survey": "wall to wall",
    "control": "Snap these, all from the nail",
    "layout": "chosen",
    "cuts": "Before you saw",
    "takeoff": "To order",
    "pack": "Sheets: ",
}
"""What the text of each command has in it where there is something to lay."""


SCORED = {**SAYS, "layout": "Squares and borders", "cuts": "no zone", "takeoff": "There already, not cut"}
"""The same where there is something to score."""

BARE = {**SAYS, "check": "Nothing needs an answer", **dict.fromkeys(("layout", "cuts", "takeoff"), "no zone")}
"""The same where there is neither."""


def test_there_are_examples_and_malformed_files() -> None:
    assert len(JOBS) >= 3
    assert len(MALFORMED) >= 30
    assert {*ON_A_JOB, "new", "patterns", "practice", "schema", "demo", "serve"} == set(COMMANDS)


@pytest.mark.parametrize("command", ON_A_JOB)
@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_every_command_on_every_example(command: str, job: Path, run: Run, tmp_path: Path) -> None:
    arguments = ("-o", tmp_path / "pack") if command == "pack" else ()
    ended = run(command, job, *arguments)
    assert ended.code == 0, ended.err
    assert "Traceback" not in ended.err
    text = job.read_text(encoding="utf-8")
    says = SAYS if "[[zones]]" in text else SCORED if "[scoring]" in text else BARE
    assert says[command] in ended.out


@pytest.mark.parametrize("command", ON_A_JOB)
@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_data_is_one_object_with_what_every_result_carries(command: str, job: Path, run: Run, tmp_path: Path) -> None:
    arguments = ("-o", tmp_path / "pack") if command == "pack" else ()
    ended = run(command, job, "--json", *arguments)
    assert ended.code == 0
    data = json.loads(ended.out)
    assert data["schema"] == 1
    assert data["units"] == "mm"
    for finding in data["findings"]:
        assert list(finding) == ["code", "severity", "place", "found", "expected", "remedy", "source"]
        assert finding["severity"] in set(Severity)
    if command == "check":
        assert set(data) == {"schema", "units", "findings"}
    if command == "pack":
        assert str(tmp_path / "pack" / "pack.pdf") in data["files"]
        assert all(Path(path).is_file() for path in data["files"])


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_check_prints_every_finding_and_nothing_else(job: Path, run: Run) -> None:
    found = json.loads(run("check", job, "--json").out)["findings"]
    printed = run("check", job).out.splitlines()
    heads = [line for line in printed if line and not line.startswith(" ")]
    if not found:
        assert heads == ["Nothing needs an answer."]
        return
    assert heads[:-1] == [f"{one['severity']}: {one['place']} [{one['code']}]" for one in found]
    notes = sum(one["severity"] == "note" for one in found)
    assert heads[-1].startswith("Nothing needs an answer" if notes == len(found) else "To answer: ")
    assert heads[-1].endswith(f"; {notes} note{'s' if notes > 1 else ''}." if notes else ".")


@pytest.mark.parametrize("path", MALFORMED, ids=lambda path: path.stem)
def test_a_malformed_file_gives_findings_and_no_traceback(path: Path, run: Run) -> None:
    before = path.read_bytes()
    ended = run("check", path)
    assert ended.code in (0, 1)
    assert path.name in ended.out + ended.err
    assert "Traceback" not in ended.err
    assert "a fault of ours" not in ended.err
    assert path.read_bytes() == before


def test_a_file_that_is_no_job_is_told_of_as_text_and_as_data(run: Run) -> None:
    Path("kitchen.toml").write_text("units = [", encoding="utf-8")
    ended = run("survey", "kitchen.toml")
    assert (ended.code, ended.out) == (1, "")
    assert "kitchen.toml:1 units [job-syntax]" in ended.err
    as_data = run("survey", "kitchen.toml", "--json")
    assert as_data.code == 1
    assert [one["code"] for one in json.loads(as_data.out)["findings"]] == ["job-syntax"]


@pytest.mark.parametrize("command", ON_A_JOB)
def test_readings_that_fix_no_room_end_with_1_and_what_to_measure(command: str, run: Run) -> None:
    job = (EXAMPLES / "larch-row-kitchen.toml").read_text(encoding="utf-8")
    loose = [line for line in job.splitlines() if not line.startswith(("SW-NE", "SE-NW"))]
    Path("loose.toml").write_text("\n".join(loose), encoding="utf-8")
    ended = run(command, "loose.toml")
    assert ended.code == 1
    assert "survey-too-few" in ended.out + ended.err or command == "pack"
    data = run(command, "loose.toml", "--json")
    assert data.code == 1
    assert "survey-too-few" in [one["code"] for one in json.loads(data.out)["findings"]]


@pytest.fixture
def narrow() -> Path:
    """The kitchen without the joint that saves it: cuts under the limit, a warning of the layout's."""
    text = (EXAMPLES / "larch-row-kitchen.toml").read_text(encoding="utf-8")
    path = Path("narrow.toml")
    path.write_text(text.replace("joint_most = 5\n", ""), encoding="utf-8")
    return path


def test_a_command_before_the_layout_is_silent_about_it(narrow: Path, run: Run) -> None:
    assert "layout-under-limit" in run("layout", narrow).err
    assert run("survey", narrow).err == ""
    assert run("control", narrow).err == ""


def test_what_needs_an_answer_stands_beside_the_text_and_not_in_it(narrow: Path, run: Run) -> None:
    ended = run("takeoff", narrow)
    assert "warning: " in ended.err
    assert "warning: " not in ended.out
    assert "note: " not in ended.err


def test_the_steps_on_the_terminal_are_those_on_the_sheet(run: Run) -> None:
    from floorwright import load, solve
    from floorwright.cli.text import plain
    from floorwright.draw.sheet import Steps, flat
    from floorwright.sheets.steps import steps_sheet

    job = EXAMPLES / "larch-row-kitchen.toml"
    loaded = load(job).job
    assert loaded is not None
    told = " ".join(run("control", job).out.split())
    steps = [block for block in flat(steps_sheet(solve(loaded)).blocks) if isinstance(block, Steps)]
    assert len(steps) >= 3
    for block in steps:
        for number, line in enumerate(block.lines, 1):
            assert f"{number}. {' '.join(plain(line).split())}" in told


def test_the_schema_is_json_schema(run: Run) -> None:
    ended = run("schema")
    assert ended.code == 0
    assert json.loads(ended.out)["properties"]["survey"]
