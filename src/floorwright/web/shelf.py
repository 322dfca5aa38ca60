"""The job files of a folder: which there are, what they hold, and saving them whole.

The file is the truth. A job goes by the stem of its file's name, and no name leads out of the folder.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from floorwright.errors import FloorwrightValueError
from floorwright.export.folder import digest, write_whole
from floorwright.job.read.syntax import LONGEST_FILE

if TYPE_CHECKING:
    from pathlib import Path

SUFFIX: Final = ".toml"

BESIDE: Final = (".dxf", ".geojson", ".json", ".csv")
"""Ends of the names of files that a job may name: outlines and coordinates."""

LARGEST_BESIDE: Final = 20_000_000
"""Bytes."""

_NAME: Final = re.compile(r"[^\W_][\w .,()+-]{0,79}")
"""A letter or figure first, so that no name is hidden, an option or a way up; no separators; at most 80 characters."""

NAMING: Final = "start with a letter or figure, and use no / or \\"

_DEVICES: Final = re.compile(r"(?i)(con|prn|aux|nul|com\d|lpt\d)(\..*)?")
"""Names that stand for a device on some systems."""


class ShelfError(FloorwrightValueError):
    """A name that no job can have, or that another has, or a file that is none of ours to read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A job file as it stands.

    Attributes:
        name: of the job.
        text: of the file.
        digest: of its bytes, which tells whether anybody changed it.
    """

    name: str
    text: str
    digest: str


@dataclass(frozen=True, slots=True)
class Shelf:
    """A folder of job files.

    Attributes:
        folder: where; links in it are followed nowhere.
    """

    folder: Path

    def names(self) -> list[str]:
        """Returns the jobs in the folder, by name."""
        found = (path for path in self.folder.glob(f"*{SUFFIX}") if path.is_file() and not path.is_symlink())
        return sorted((path.stem for path in found if is_name(path.stem)), key=str.casefold)

    def path(self, name: str) -> Path:
        """Returns where the file of a job is, or would be.

        Raises:
            ShelfError: no job can have that name.
        """
        if not is_name(name):
            raise ShelfError(f"a job cannot be called {name[:80]!r}: {NAMING}")
        path = self.folder / f"{name}{SUFFIX}"
        if path.is_symlink():
            raise ShelfError(f"{name} is a link to somewhere else, and is left alone")
        return path

    def read(self, name: str) -> Kept:
        """Returns a job file.

        Raises:
            ShelfError: there is none, or it is no text that a job could be.
        """
        try:
            with self.path(name).open("rb") as stream:
                content = stream.read(LONGEST_FILE + 1)
        except FileNotFoundError:
            raise ShelfError(f"there is no job called {name}") from None
        except OSError:
            raise ShelfError(f"the file of {name} cannot be opened") from None
        if len(content) > LONGEST_FILE:
            raise ShelfError(f"the file of {name} is over 5 MB: is it a job file?")
        try:
            text = content.decode("utf-8-sig")
        except UnicodeDecodeError:
            raise ShelfError(f"the file of {name} is no plain text in UTF-8") from None
        return Kept(name=name, text=text, digest=digest(content))

    def save(self, name: str, text: str) -> Kept:
        """Writes a job file, whole or not at all, and on to the disk before it returns."""
        content = text.encode("utf-8")
        if len(content) > LONGEST_FILE:
            raise ShelfError("a job file may be 5 MB at most")
        path = self.path(name)
        write_whole(path, content, durable=True)
        return Kept(name=name, text=text, digest=digest(content))

    def changed(self, name: str) -> float:
        """Returns when a job's file was written last, seconds since 1970; 0 where it has gone meanwhile."""
        try:
            return self.path(name).stat().st_mtime
        except OSError:
            return 0.0

    def rename(self, name: str, new: str) -> Kept:
        """Gives a job file another name, and returns it.

        Raises:
            ShelfError: there is no such job, or another has the new name.
        """
        kept = self.read(name)
        if self.free_name(new) != new and new.casefold() != name.casefold():
            raise ShelfError(f"there is a job called {new} already")
        self.path(name).rename(self.path(new))
        return Kept(name=new, text=kept.text, digest=kept.digest)

    def put_beside(self, name: str, content: bytes) -> str:
        """Writes a file for jobs to name, and returns the name that it got: with a number where that one is taken.

        Raises:
            ShelfError: no such file can be put here.
        """
        stem, dot, end = name.rpartition(".")
        if not dot or f".{end.lower()}" not in BESIDE:
            raise ShelfError(f"{name[:80]!r} is no drawing or table: its name must end in {', '.join(BESIDE)}")
        if not is_name(stem):
            raise ShelfError(
                f"a file cannot be called {name[:80]!r}: start with a letter or figure, and use no / or \\"
            )
        if len(content) > LARGEST_BESIDE:
            raise ShelfError(f"{name} is over {LARGEST_BESIDE // 1_000_000} MB")
        number, path = 1, self.folder / name
        while path.is_symlink() or (path.exists() and path.read_bytes() != content):
            number += 1
            path = self.folder / f"{stem} {number}.{end}"
        if not path.exists():
            write_whole(path, content, durable=True)
        return path.name

    def free_name(self, wanted: str) -> str:
        """Returns a name that no job has yet: the one wanted, or with the next number behind it."""
        taken = {name.casefold() for name in self.names()}
        name, number = wanted, 2
        while name.casefold() in taken:
            name, number = f"{wanted} {number}", number + 1
        return name

    def has(self, name: str) -> bool:
        """Whether there is a job of that name."""
        return is_name(name) and self.path(name).is_file()


def is_name(name: str) -> bool:
    """Whether a job can be called so."""
    return bool(_NAME.fullmatch(name)) and not name.endswith((" ", ".")) and not _DEVICES.fullmatch(name)
