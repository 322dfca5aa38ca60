"""The job book: every revision of every job in a folder, so that each edit can be undone and done again.

It is an SQLite file beside the jobs. Deleting it loses the history and no job: the files hold those.

A job's revisions are a line of texts with a marker on the one in force. Undo and redo move the marker; an edit cuts off
what was undone and adds a text. A text that somebody else wrote into the file joins the line like an edit.
"""

from __future__ import annotations

import sqlite3
import zlib
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from floorwright.web.shelf import Kept

BOOK_NAME: Final = ".floorwright-book.sqlite3"

LONGEST_LINE: Final = 500
"""Revisions kept of a job; older ones go first."""

_FORM: Final = """
create table if not exists revision (
    job text not null,
    number integer not null,
    digest text not null,
    label text not null,
    content blob not null,
    primary key (job, number)
) strict;
create table if not exists marker (
    job text primary key,
    number integer not null
) strict;
create table if not exists card (
    job text primary key,
    digest text not null,
    content text not null
) strict;
"""

_RENAMINGS: Final = (
    ("delete from revision where job = ?", "update revision set job = ? where job = ?"),
    ("delete from marker where job = ?", "update marker set job = ? where job = ?"),
    ("delete from card where job = ?", "update card set job = ? where job = ?"),
)
"""For each table: how its rows of a name go, and how those of another get that name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A revision of a job.

    Attributes:
        number: its place in the line.
        digest: of the text.
        label: what was done, in the person's words: `joint 4`.
        text: of the job file.
    """

    number: int
    digest: str
    label: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """Where a job stands in its line of revisions.

    Attributes:
        number: of the revision in force.
        undo: what undoing would take back, None where there is nothing.
        redo: what redoing would do again, None where there is nothing.
    """

    number: int
    undo: str | None
    redo: str | None


class Book:
    """The revisions of the jobs in a folder."""

    def __init__(self, folder: Path) -> None:
        """Opens the book, or starts one; a damaged one is put aside and a new one started."""
        self._path = folder / BOOK_NAME
        try:
            self._link = self._open()
        except sqlite3.DatabaseError:
            self._path.replace(self._path.with_suffix(".damaged"))
            self._link = self._open()

    def _open(self) -> sqlite3.Connection:
        # Transactions are begun and ended by name; one thread at a time uses it, whichever that is.
        link = sqlite3.connect(self._path, isolation_level=None, check_same_thread=False, timeout=10.0)
        try:
            link.execute("pragma journal_mode = wal")
            link.execute("pragma synchronous = normal")
            link.executescript(_FORM)
        except sqlite3.DatabaseError:
            link.close()
            raise
        return link

    def close(self) -> None:
        """Closes the file."""
        self._link.close()

    @contextmanager
    def _change(self) -> Iterator[sqlite3.Connection]:
        self._link.execute("begin immediate")
        try:
            yield self._link
        except BaseException:
            self._link.execute("rollback")
            raise
        self._link.execute("commit")

    def meet(self, kept: Kept, label: str) -> Line:
        """Returns where a job stands, after a look at its file.

        A file that holds the text in force changes nothing; one that holds the revision next to it, as after a crash
        between the book and the file, moves the marker; any other text was written by somebody else and is added.
        """
        number = self._marker(kept.name)
        if number is None or self._digest(kept.name, number) != kept.digest:
            near = [] if number is None else [number - 1, number + 1]
            known = next((one for one in near if self._digest(kept.name, one) == kept.digest), None)
            if known is None:
                self.add(kept.name, kept.text, kept.digest, label)
            else:
                self.mark(kept.name, known)
        return self.line(kept.name)

    def knows(self, job: str) -> bool:
        """Whether the book has met a job."""
        return self._marker(job) is not None

    def add(self, job: str, text: str, digest: str, label: str) -> None:
        """Adds a revision behind the one in force, cutting off what was undone, and puts it in force."""
        number = self._marker(job)
        new = 0 if number is None else number + 1
        with self._change() as link:
            link.execute("delete from revision where job = ? and number >= ?", (job, new))
            link.execute("delete from revision where job = ? and number < ?", (job, new - LONGEST_LINE + 1))
            row = (job, new, digest, label, zlib.compress(text.encode("utf-8")))
            link.execute("insert into revision values (?, ?, ?, ?, ?)", row)
            link.execute("insert or replace into marker values (?, ?)", (job, new))

    def line(self, job: str) -> Line:
        """Returns where a job that the book has met stands."""
        number = self._marker(job)
        assert number is not None, f"the book has not met {job}"
        has_before = self._digest(job, number - 1) is not None
        return Line(
            number=number,
            undo=self._label(job, number) if has_before else None,
            redo=self._label(job, number + 1),
        )

    def beside(self, job: str, step: int) -> Entry | None:
        """Returns the revision that many steps from the one in force, None where the line ends before."""
        number = self._marker(job)
        return None if number is None else self.entry(job, number + step)

    def entry(self, job: str, number: int) -> Entry | None:
        """Returns a revision."""
        query = "select digest, label, content from revision where job = ? and number = ?"
        row = self._link.execute(query, (job, number)).fetchone()
        if row is None:
            return None
        return Entry(number=number, digest=row[0], label=row[1], text=zlib.decompress(row[2]).decode("utf-8"))

    def find(self, job: str, digest: str) -> Entry | None:
        """Returns the latest revision with a digest, None where there is none (any more)."""
        query = "select max(number) from revision where job = ? and digest = ?"
        number = self._link.execute(query, (job, digest)).fetchone()[0]
        return None if number is None else self.entry(job, number)

    def rename(self, job: str, name: str) -> None:
        """Gives a job's revisions another name, in place of what the book knew by that one."""
        with self._change() as link:
            for gone, named in _RENAMINGS:
                link.execute(gone, (name,))
                link.execute(named, (name, job))

    def card(self, job: str, digest: str) -> str | None:
        """Returns what a list of jobs shows of a job, as kept of that text; None where none is."""
        query = "select content from card where job = ? and digest = ?"
        row = self._link.execute(query, (job, digest)).fetchone()
        return None if row is None else str(row[0])

    def keep_card(self, job: str, digest: str, content: str) -> None:
        """Keeps what a list of jobs shows of a job."""
        with self._change() as link:
            link.execute("insert or replace into card values (?, ?, ?)", (job, digest, content))

    def mark(self, job: str, number: int) -> None:
        """Puts a revision in force."""
        with self._change() as link:
            link.execute("insert or replace into marker values (?, ?)", (job, number))

    def _marker(self, job: str) -> int | None:
        row = self._link.execute("select number from marker where job = ?", (job,)).fetchone()
        return None if row is None else int(row[0])

    def _digest(self, job: str, number: int) -> str | None:
        query = "select digest from revision where job = ? and number = ?"
        row = self._link.execute(query, (job, number)).fetchone()
        return None if row is None else str(row[0])

    def _label(self, job: str, number: int) -> str | None:
        query = "select label from revision where job = ? and number = ?"
        row = self._link.execute(query, (job, number)).fetchone()
        return None if row is None else str(row[0])
