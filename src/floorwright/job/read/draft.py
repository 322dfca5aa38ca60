"""From what TOML holds to a job: as much of it as can be meant, and a problem for every value that cannot.

A value that is wrong is left out and the rest is read again, so that one slip hides nothing of the others. A default
takes its place; where there is none, the table that needs it goes as well, with nothing more said.
"""

import copy
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from pydantic import ValidationError

from floorwright.findings import Severity
from floorwright.job.model import Job
from floorwright.job.read.misfit import problem_of, value_at
from floorwright.job.read.positions import Path
from floorwright.job.read.problem import UNTOLD, Problem


class Draft:
    """The tables of a file, from which what is wrong is left out.

    Attributes:
        data: what is left.
        problems: what was wrong, each at its path in the file.
    """

    def __init__(self, data: dict[str, Any]) -> None:
        """Starts from the tables of a file, which stay as they are."""
        self._original = data
        self.data: dict[str, Any] = copy.deepcopy(data)
        self.problems: list[Problem] = []
        self._told: set[tuple[Path, str]] = set()
        self._places: dict[int, list[int]] = {}

    def job(self) -> Job:
        """Returns the job that is left once every value that cannot be meant is told of and left out."""
        context = {"unit": self.data.get("units", "mm")}
        while True:
            try:
                return Job.model_validate(self.data, context=context)
            except ValidationError as error:
                details = error.errors(include_url=False)
            problems = [problem_of(self.data, one) for one in details if one["type"] != "default_factory_not_called"]
            self.leave_out(_without_echoes(problems))

    def leave_out(self, problems: Iterable[Problem]) -> None:
        """Tells of problems, whose paths are of what is left, and takes out what each says to drop."""
        drops: set[Path] = set()
        for problem in problems:
            path = self._in_file(problem.path)
            if not self._is_old(path, problem.code):
                self._told.add((path, problem.code))
                self.problems.append(replace(problem, path=path))
            if problem.drop is not None:
                drops.add(problem.drop)
        # Inner ones first and from the end of each list, so that the paths of what is still to go stay true.
        for drop in sorted(drops, key=lambda path: (len(path), path), reverse=True):
            self._take_out(drop)

    def _is_old(self, path: Path, code: str) -> bool:
        """Returns whether a problem is told of already, or comes only of what was left out."""
        if code == "job-missing-key":
            return any(told == path for told, _ in self._told)
        if code == "job-assumed":
            return value_at(self._original, path) is not None
        return code == UNTOLD or (path, code) in self._told

    def _in_file(self, path: Path) -> Path:
        """Returns the path in the file of a path in what is left."""
        found: list[str | int] = []
        for end, step in enumerate(path):
            places = self._places.get(id(value_at(self.data, path[:end])))
            found.append(places[step] if places and isinstance(step, int) and step < len(places) else step)
        return tuple(found)

    def _take_out(self, path: Path) -> None:
        holder = value_at(self.data, path[:-1])
        last = path[-1]
        if isinstance(holder, dict):
            holder.pop(last, None)
        elif isinstance(holder, list) and isinstance(last, int) and last < len(holder):
            self._places.setdefault(id(holder), list(range(len(holder)))).pop(last)
            holder.pop(last)


def _without_echoes(problems: list[Problem]) -> list[Problem]:
    """Leaves out what is only missing because it is misspelt; the misspelling is then the error, and all there is."""
    missing = {problem.path for problem in problems if problem.code == "job-missing-key"}
    kept: list[Problem] = []
    misspelt: set[Path] = set()
    for problem in problems:
        meant = (*problem.path[:-1], problem.meant)
        if problem.meant and meant in missing:
            misspelt.add(meant)
            kept.append(replace(problem, severity=Severity.ERROR, drop=problem.path[:-1]))
        else:
            kept.append(problem)
    return [problem for problem in kept if problem.path not in misspelt]
