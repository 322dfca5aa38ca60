"""A file beside a job file, named by one of its keys: read, and never looked for outside its folder."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from floorwright.findings import Severity
from floorwright.job.read.problem import Problem

if TYPE_CHECKING:
    from pathlib import Path as FilePath

    from floorwright.job.read.positions import Path

LARGEST: Final = 20_000_000
"""Bytes of a drawing that are read."""


def content_beside(name: str, folder: FilePath | None, path: Path) -> tuple[bytes | None, Problem | None]:
    """Returns the bytes of a file beside the job file, or why it cannot be read.

    Args:
        name: of the file.
        folder: of the job file; None where it is in none.
        path: of the key that names it.
    """
    if folder is None:
        return None, _unread(path, f"{name}, and no folder to look for it in", "read the job from a file")
    file = folder / name
    try:
        if not file.resolve().is_relative_to(folder.resolve()):
            return None, _unread(path, f"{name}, which leads out of the folder of the job file", "copy the file there")
        with file.open("rb") as stream:
            content = stream.read(LARGEST + 1)
    except (OSError, ValueError):
        return None, _unread(path, f"{name}, which cannot be opened", "look at its name; it goes beside the job file")
    if len(content) > LARGEST:
        return None, _unread(path, f"{name}, of more than {LARGEST // 1_000_000} MB", "keep only what is needed in it")
    return content, None


def _unread(path: Path, found: str, remedy: str) -> Problem:
    return Problem(path=path, code="job-file-beside", found=found, expected="a file beside the job file", remedy=remedy)


def unused_beside(path: Path, found: str) -> Problem:
    """Returns the doubt about a key that does nothing beside a file that is used."""
    return Problem(
        path=path,
        code="job-unused",
        found=found,
        expected="one of them",
        remedy="take one out: the file is used",
        severity=Severity.WARNING,
    )
