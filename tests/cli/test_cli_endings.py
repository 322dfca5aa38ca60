"""Exit codes, and one clear line for every way to end that is no result."""

import subprocess
import sys
from pathlib import Path
from typing import NoReturn

import pytest
from tests.cli.conftest import EXAMPLES, Run

KITCHEN = EXAMPLES / "larch-row-kitchen.toml"


@pytest.mark.parametrize(
    ("arguments", "line"),
    [
        (["surve", "x"], "There is no command `surve`. Did you mean `survey`? (`floorwright --help` shows how.)"),
        (["xyzzy"], "There is no command `xyzzy`. `floorwright --help` lists them. (`floorwright --help` shows how.)"),
        (["--loud"], "No such option '--loud'. (`floorwright --help` shows how.)"),
        (["check"], "Missing argument 'JOB.toml'. (`floorwright check --help` shows how.)"),
        (
            ["check", "a.toml", "b.toml"],
            "Got unexpected extra argument (b.toml) (`floorwright check --help` shows how.)",
        ),
        (["check", "a.toml", "--jsn"], "No such option '--jsn'. Did you mean '--json'?"),
        (["survey"], "Give a job file, or --plan N for a room of N corners that is still to be measured."),
        (["survey", "a.toml", "--plan", "4"], "--plan is for a room without a job file: leave one of them out."),
        (["survey", "a.toml", "-o", "b.pdf"], "--inward, --imperial and --output go with --plan."),
        (["survey", "a.toml", "--imperial"], "--inward, --imperial and --output go with --plan."),
        (["survey", "--plan", "2"], "Invalid value for '--plan': 2 is not in the range 3<=x<=20."),
        (["survey", "--plan", "some"], "Invalid value for '--plan': 'some' is not a valid integer range."),
        (["survey", "--plan", "5", "--inward", "Q"], "--inward Q: the corners are A to E."),
        (
            ["survey", "--plan", "4", "--inward", "A", "--inward", "B", "--inward", "C"],
            "--inward: at least 3 corners of a room do not turn in.",
        ),
    ],
    ids=" ".join,
)
def test_a_wrong_option_or_argument_ends_with_2_and_one_line(arguments: list[str], line: str, run: Run) -> None:
    ended = run(*arguments)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith(f"floorwright: {line}")
    assert ended.err.count("\n") == 1


def test_pack_into_a_file_ends_with_2(run: Run) -> None:
    Path("there").write_text("mine", encoding="utf-8")
    ended = run("pack", KITCHEN, "-o", "there")
    assert ended.code == 2
    assert "'there' is a file" in ended.err


def stopped(*_: object, **__: object) -> NoReturn:
    raise KeyboardInterrupt


def broken(*_: object, **__: object) -> NoReturn:
    raise RuntimeError("two\nlines")


@pytest.mark.parametrize("command", ["check", "layout", "pack"])
def test_ctrl_c_ends_with_130(command: str, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("floorwright.job.solve.solve", stopped)
    ended = run(command, KITCHEN)
    assert (ended.code, ended.out, ended.err) == (130, "", "Stopped.\n")


def test_a_fault_of_ours_ends_with_3_without_a_traceback(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("floorwright.job.solve.solve", broken)
    ended = run("check", KITCHEN)
    assert (ended.code, ended.out) == (3, "")
    assert ended.err.startswith("floorwright: a fault of ours, not of your job (RuntimeError: two lines).")
    assert ended.err.count("\n") == 1


def test_a_fault_of_ours_can_be_traced(monkeypatch: pytest.MonkeyPatch) -> None:
    from floorwright.__main__ import main

    monkeypatch.setattr("floorwright.job.solve.solve", broken)
    monkeypatch.setenv("FLOORWRIGHT_TRACEBACK", "1")
    with pytest.raises(RuntimeError, match="two"):
        main(["check", str(KITCHEN)])


def test_a_full_disk_ends_with_3_and_says_so(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object, **__: object) -> NoReturn:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("floorwright.export.folder.write_files", full)
    ended = run("pack", KITCHEN, "-o", "there")
    assert (ended.code, ended.out) == (3, "")
    assert ended.err == "floorwright: the disk refuses: No space left on device\n"


def test_a_file_where_a_folder_should_be_ends_with_3(run: Run) -> None:
    Path("there").write_text("mine", encoding="utf-8")
    ended = run("new", "there/kitchen.toml")
    assert ended.code == 3
    assert ended.err.startswith("floorwright: the disk refuses: there")
    assert ended.err.count("\n") == 1


def test_a_refused_write_names_the_file_and_not_its_temporary(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object, **__: object) -> NoReturn:
        raise PermissionError(13, "Permission denied", "shut/.kitchen.toml.x7f3k")

    monkeypatch.setattr("tempfile.mkstemp", refused)
    ended = run("new", "kitchen.toml")
    assert (ended.code, ended.err) == (3, "floorwright: the disk refuses: kitchen.toml: Permission denied\n")


def test_a_reader_that_goes_away_is_no_fault() -> None:
    script = "from floorwright.__main__ import main; main()"
    long = subprocess.Popen(
        [sys.executable, "-c", script, "schema"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert long.stdout is not None
    assert long.stderr is not None
    with long:
        long.stdout.close()
        assert long.stderr.read() == ""
        assert long.wait(60) == 0


def test_the_module_runs_as_the_command_does() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "floorwright", "check", "nothing.toml"], capture_output=True, text=True, check=False
    )
    assert done.returncode == 1
    assert "nothing.toml [job-file]" in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("command", ["layout", "pack"])
def test_ctrl_c_in_the_search_prints_the_best_so_far(command: str, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    # A title of its own: jobs that were solved before are remembered.
    job = Path("stopped.toml")
    job.write_text(KITCHEN.read_text(encoding="utf-8").replace("Larch Row", f"Stopped {command}"), encoding="utf-8")
    monkeypatch.setattr("floorwright.layout.search.try_at", stopped)
    ended = run(command, job)
    assert ended.code == 130
    assert "stopped by hand" in ended.out
    assert "none is wider than" in ended.out
    assert "Stopped: this is the best found till then" in ended.err
    assert not Path("stopped").exists()
