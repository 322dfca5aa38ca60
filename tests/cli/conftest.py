"""Runs commands as the program does, in this process: what `main` prints and how it ends."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

import floorwright.job.solve
from floorwright.__main__ import main
from floorwright.job.model import Job
from floorwright.job.solution import Solution
from floorwright.job.solve import Progress, silent

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "src" / "floorwright" / "examples"


@dataclass(frozen=True, slots=True)
class Ended:
    """How a command ended, and what it printed."""

    code: int
    out: str
    err: str


Run = Callable[..., Ended]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    def ended(*arguments: object) -> Ended:
        with pytest.raises(SystemExit) as ending:
            main([str(argument) for argument in arguments])
        out, err = capsys.readouterr()
        assert isinstance(ending.value.code, int)
        return Ended(ending.value.code, out, err)

    return ended


@pytest.fixture(scope="session")
def _solved_before() -> Iterator[None]:
    """Solves each job once: the same job gives the same solution, which nothing changes."""
    solve, solutions = floorwright.job.solve.solve, dict[str, Solution]()

    def remembered(job: Job, *, progress: Progress = silent, **given: Any) -> Solution:
        key = f"{job.model_dump_json()} {given}"
        if key not in solutions:
            solutions[key] = solve(job, progress=progress, **given)
        return solutions[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("floorwright.job.solve.solve", remembered)
        yield


@pytest.fixture(autouse=True)
def _in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, _solved_before: None) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "100")
    monkeypatch.delenv("FLOORWRIGHT_TRACEBACK", raising=False)
