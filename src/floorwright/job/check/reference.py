"""Names that a job file uses, held against the names that it gives."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from floorwright.job.read.misfit import quoted
from floorwright.job.read.problem import UNTOLD, Problem, did_you_mean, listed

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence

    from floorwright.job.read.positions import Path

MOST_LISTED: Final = 8
"""Names that a remedy lists."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """The names of one kind.

    Attributes:
        code: of the finding for a name that is none of them.
        what: the kind, in words: `a wall`.
        names: of what there is.
        also: what else it may be called.
        left_out: names in the file of things that are left out for what is wrong with them, which is told already.
        all_left_out: whether nothing of the kind could be read, so that no name can be held against it.
    """

    code: str
    what: str
    names: Collection[str]
    also: Collection[str] = ()
    left_out: Collection[str] = ()
    all_left_out: bool = False

    def check(self, path: Path, called: str, drop: Path) -> Iterator[Problem]:
        """Yields the problem with a name, if there is one."""
        if called in self.names or called in self.also:
            return
        if self.all_left_out or called in self.left_out:
            yield Problem(path=path, code=UNTOLD, found=quoted(called), drop=drop)
            return
        near = did_you_mean(called, self.names)
        if near:
            remedy = f"write {near}"
        elif self.names:
            remedy = f"write {listed(sorted(self.names)[:MOST_LISTED])}"
        else:
            remedy = f"there is none yet: add {self.what}"
        expected = f"the name of {self.what}"
        yield Problem(path=path, code=self.code, found=quoted(called), expected=expected, remedy=remedy, drop=drop)


def is_nameless(data: dict[str, Any], kind: str) -> bool:
    """Returns whether any in a list of tables of a file has no name that could be read."""
    tables = data.get(kind)
    count = len(tables) if isinstance(tables, list) else int(tables is not None)
    return len(names_in(data, kind)) < count


def names_in(data: dict[str, Any], kind: str) -> set[str]:
    """Returns the names in a list of tables of a file, whatever else is wrong with them."""
    tables = data.get(kind)
    if not isinstance(tables, list):
        return set()
    return {table["name"] for table in tables if isinstance(table, dict) and isinstance(table.get("name"), str)}


def names_of_their_own(kind: str, names: Sequence[str]) -> Iterator[Problem]:
    """Yields a problem for every table of a list that has the name of one before it."""
    for i, name in enumerate(names):
        if name in names[:i]:
            yield Problem(
                path=(kind, i, "name"),
                code="job-same-name",
                found=f"a second {quoted(name)}",
                expected="a name of its own for each",
                remedy="give it another",
                drop=(kind, i),
            )
