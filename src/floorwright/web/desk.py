"""A job on the desk: read, edited, undone and done again, with the file always the truth.

Each change goes into the book first and into the file next, and only then is it told of as saved: killed at any moment,
a saved edit is in the file, and an edit in the book alone is offered as one to do again.
"""

from __future__ import annotations

from dataclasses import dataclass
from threading import Lock
from typing import TYPE_CHECKING, Final

from floorwright.errors import FloorwrightValueError
from floorwright.export.folder import digest
from floorwright.job.write.edit import Edit, edited, merged

if TYPE_CHECKING:
    from collections.abc import Iterable

    from floorwright.web.book import Book, Entry, Line
    from floorwright.web.shelf import Kept, Shelf

FOUND: Final = "as found"
"""Label of a job's first revision."""

ELSEWHERE: Final = "changed outside this app"
"""Label of a revision that somebody else wrote into the file."""


class NothingThereError(FloorwrightValueError):
    """Nothing to undo or to do again."""


class StaleError(FloorwrightValueError):
    """An edit of a text that the book no longer holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A job as it stands.

    Attributes:
        kept: its file.
        line: where it stands among its revisions.
        merged: whether an edit was made of a text that somebody else had changed meanwhile.
    """

    kept: Kept
    line: Line
    merged: bool = False


class Desk:
    """The jobs of a folder with their history."""

    def __init__(self, shelf: Shelf, book: Book) -> None:
        """Takes the folder's shelf and book."""
        self.shelf = shelf
        self._book = book
        # Two tabs, or a phone and a laptop, take turns: each edit sees what the one before it saved.
        self._turn = Lock()

    def open(self, name: str) -> Opened:
        """Returns a job as its file holds it now."""
        with self._turn:
            return self._met(name)

    def start(self, name: str, text: str, label: str) -> Opened:
        """Returns a new job, saved under the name or, where that is taken, the name with a number."""
        with self._turn:
            free = self.shelf.free_name(name)
            self._book.add(free, text, digest(text.encode("utf-8")), label)
            return self._saved(free, text)

    def copy(self, name: str, new: str) -> Opened:
        """Returns a copy of a job under another name, with a number where that is taken."""
        return self.start(new, self.open(name).kept.text, f"copied from {name}")

    def rename(self, name: str, new: str) -> Opened:
        """Returns a job under another name, with its history."""
        with self._turn:
            self._met(name)
            kept = self.shelf.rename(name, new)
            if new != name:
                self._book.rename(name, new)
            return Opened(kept=kept, line=self._book.meet(kept, FOUND))

    def card(self, name: str) -> tuple[Opened, str | None]:
        """Returns a job, and what a list of jobs shows of it if that is known of its text."""
        with self._turn:
            opened = self._met(name)
            return opened, self._book.card(name, opened.kept.digest)

    def keep_card(self, name: str, digest: str, content: str) -> None:
        """Keeps what a list of jobs shows of a job, for the text with that digest."""
        with self._turn:
            self._book.keep_card(name, digest, content)

    def edit(self, name: str, base: str, label: str, edits: Iterable[Edit]) -> Opened:
        """Returns the job after edits.

        Args:
            name: of the job.
            base: digest of the text that the edits were made of. Where the file holds another by now, the edits are
                made of that one, as long as nobody changed the same values.
            label: what is done, in the person's words.
            edits: see `job.write.edit`.

        Raises:
            EditClashError: somebody else changed the same values.
            EditError: an edit has no place in the text.
            StaleError: nobody knows any more what the edits were made of.
        """
        with self._turn:
            now = self._met(name)
            if now.kept.digest == base:
                text = edited(now.kept.text, edits)
            else:
                before = self._book.find(name, base)
                if before is None:
                    raise StaleError(f"{name} has changed too often since: look at it as it is now, and edit that")
                text = merged(before.text, now.kept.text, edits)
            return self._change(now, text, label, merged=now.kept.digest != base)

    def write(self, name: str, base: str, label: str, text: str) -> Opened:
        """Returns the job with a whole new text, if it still holds the text that the new one was made of."""
        with self._turn:
            now = self._met(name)
            if now.kept.digest != base:
                raise StaleError(f"{name} has changed meanwhile: look at it as it is now, and edit that")
            return self._change(now, text, label, merged=False)

    def undo(self, name: str) -> Opened:
        """Returns the job as it was before its last edit."""
        return self._step(name, -1, "there is nothing to undo")

    def redo(self, name: str) -> Opened:
        """Returns the job with the edit done again that was undone last."""
        return self._step(name, 1, "there is nothing to do again")

    def _change(self, now: Opened, text: str, label: str, *, merged: bool) -> Opened:
        if text == now.kept.text:
            return now
        name = now.kept.name
        self._book.add(name, text, digest(text.encode("utf-8")), label)
        saved = self._saved(name, text)
        return Opened(kept=saved.kept, line=saved.line, merged=merged)

    def _step(self, name: str, step: int, nothing: str) -> Opened:
        with self._turn:
            self._met(name)
            entry: Entry | None = self._book.beside(name, step)
            if entry is None:
                raise NothingThereError(nothing)
            self._book.mark(name, entry.number)
            return self._saved(name, entry.text)

    def _met(self, name: str) -> Opened:
        kept = self.shelf.read(name)
        known = self._book.knows(name)
        return Opened(kept=kept, line=self._book.meet(kept, ELSEWHERE if known else FOUND))

    def _saved(self, name: str, text: str) -> Opened:
        kept = self.shelf.save(name, text)
        return Opened(kept=kept, line=self._book.line(name))
