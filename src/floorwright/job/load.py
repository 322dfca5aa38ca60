"""Reading a job file: as much of the job as there is, and a finding for all that is wrong with it."""

from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any

from floorwright.findings import Finding, has_error
from floorwright.job.check.assumed import assumed
from floorwright.job.check.job import check
from floorwright.job.inputs.walls import call_by_own_names
from floorwright.job.model import Job
from floorwright.job.read.beside import with_files_beside
from floorwright.job.read.draft import Draft
from floorwright.job.read.earlier import earlier_job
from floorwright.job.read.misfit import choice
from floorwright.job.read.positions import Path, positions
from floorwright.job.read.problem import Problem
from floorwright.job.read.slips import refused
from floorwright.job.read.syntax import LONGEST_FILE, Parsed, parse
from floorwright.units import MM_IN

LONGEST_PLACE = 120
"""Characters of a key that a finding's place shows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """A job file as read.

    Attributes:
        job: as much of it as can be meant; None where the file cannot be read at all.
        findings: what is wrong, and what was assumed, in the order of the file.
        text: of the file, with `\\n` for its line ends.
        earlier: the job that a part of the floor was laid by; None where none is named or can be read.
    """

    job: Job | None
    findings: tuple[Finding, ...]
    text: str = ""
    earlier: "Loaded | None" = None

    @property
    def is_sound(self) -> bool:
        """Whether there is a job and nothing in it is an error."""
        return self.job is not None and not has_error(self.findings)


def load(path: str | FilePath) -> Loaded:
    """Returns the job in a file. Whatever the file holds, nothing is raised and the file stays as it is.

    A place in the findings is `file.toml:12 goods.length`: file, line and key.

    Args:
        path: of the file. One that is not there, or is a folder, is a finding too.
    """
    file = FilePath(path)
    try:
        # One byte more than is read at most tells that the file is longer, without reading all of it.
        with file.open("rb") as stream:
            content = stream.read(LONGEST_FILE + 1)
    except (OSError, ValueError) as error:
        return Loaded(job=None, findings=(_unopened(file, error),))
    return load_bytes(content, file.name, file.parent)


def load_text(text: str, name: str = "job.toml", folder: FilePath | None = None) -> Loaded:
    """Returns the job in a text, as `load` does; `name` is what its findings call the file.

    Args:
        text: of a job file.
        name: see above.
        folder: where files that it names are; without one they are not read, and that is an error.
    """
    return load_bytes(text.encode("utf-8", "surrogatepass"), name, folder)


def load_bytes(
    content: bytes, name: str = "job.toml", folder: FilePath | None = None, later: tuple[str, ...] = ()
) -> Loaded:
    """Returns the job in the bytes of a file, as `load` does; `folder` is where files that it names are.

    Args:
        content, name, folder: see above.
        later: names of the files that were laid on from this one, the last first.
    """
    parsed = parse(content, name)
    if parsed.data is None:
        return Loaded(job=None, findings=parsed.findings, text=parsed.text)
    unit = parsed.data.get("units", "mm")
    if not isinstance(unit, str) or unit not in MM_IN:
        # Without the unit no length means anything, and all of them would be told of for nothing.
        problem = choice(("units",), unit, ("units",))
        return Loaded(job=None, findings=_findings([problem], parsed, name), text=parsed.text)
    beside = with_files_beside(parsed.data, folder)
    job, problems = _read(beside.data)
    findings = (*_findings([*beside.problems, *problems], parsed, name), *beside.findings)
    earlier, problems_there = earlier_job(job, name, folder, (*later, name), load_bytes)
    return Loaded(job=job, findings=(*findings, *problems_there), text=parsed.text, earlier=earlier)


def _unopened(file: FilePath, error: OSError | ValueError) -> Finding:
    found, remedy = "a file that cannot be opened", "look at its name and who may read it"
    if isinstance(error, FileNotFoundError):
        found, remedy = "no such file", f"look at the name, or start one with `floorwright new {file.name}`"
    elif isinstance(error, IsADirectoryError):
        found, remedy = "a folder", "name the job file in it"
    elif isinstance(error, PermissionError):
        found = "a file that you may not read"
    return refused(str(file), "job-file", found, "a job file", remedy)


def _read(original: dict[str, Any]) -> tuple[Job, list[Problem]]:
    draft = Draft(original)
    job = draft.job()
    while True:
        problems = list(check(job, draft.data, original))
        draft.leave_out(problems)
        if all(problem.drop is None for problem in problems):
            break
        job = draft.job()
    draft.leave_out(assumed(job, draft.data))
    call_by_own_names(draft.data, job)
    return draft.job(), draft.problems


def _findings(problems: list[Problem], parsed: Parsed, name: str) -> tuple[Finding, ...]:
    if not problems:
        return ()
    where = positions(parsed.text)
    placed = [(where.line(problem.path), problem) for problem in problems]
    # What stands nowhere in the file (a table that is missing) comes first.
    placed.sort(key=lambda item: item[0] or 0)
    return tuple(
        Finding(
            code=problem.code,
            severity=problem.severity,
            place=_place(name, line, problem.path),
            found=problem.found,
            expected=problem.expected,
            remedy=problem.remedy,
            source=problem.source,
        )
        for line, problem in placed
    )


def _place(name: str, line: int | None, path: Path) -> str:
    keys = ".".join(" ".join(step.split()) for step in path if isinstance(step, str))
    keys = keys if len(keys) <= LONGEST_PLACE else keys[:LONGEST_PLACE] + "..."
    return f"{name}:{line} {keys}" if line else f"{name} {keys}"
