"""The earlier job file that a floor was laid by: read from beside the present one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from floorwright.errors import FloorwrightValueError
from floorwright.findings import Finding, Severity, has_error
from floorwright.job.model.values import file_name
from floorwright.job.read.syntax import LONGEST_FILE

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path as FilePath

    from floorwright.job.load import Loaded
    from floorwright.job.model import Job

MOST: Final = 20
"""Revisions that are followed back."""


def earlier_job(
    job: Job, name: str, folder: FilePath | None, later: tuple[str, ...], read: Callable[..., Loaded]
) -> tuple[Loaded | None, tuple[Finding, ...]]:
    """Returns the job that a floor was laid by, and what is wrong with the file; None and nothing where none is named.

    Args:
        job: the present one.
        name: what findings call its file.
        folder: it is in; None where it is in none.
        later: files of the jobs that were laid on since, this one among them.
        read: `job.load.load_bytes`.
    """
    if job.laid is None:
        return None, ()
    called = job.laid.earlier
    try:
        file_name(called)
    except FloorwrightValueError:
        return None, ()
    if folder is None:
        return None, (_unread(name, f"{called}, and no folder to look for it in", "read the job from a file"),)
    if called in later or len(later) > MOST:
        return None, (_unread(name, f"{called}, which was laid by this job itself", "name the earlier file"),)
    file = folder / called
    try:
        if not file.resolve().is_relative_to(folder.resolve()):
            return None, (_unread(name, f"{called}, which leads out of the folder of the job file", "copy it there"),)
        with file.open("rb") as stream:
            content = stream.read(LONGEST_FILE + 1)
    except (OSError, ValueError):
        remedy = "look at its name; keep the file of every revision beside the next"
        return None, (_unread(name, f"{called}, which cannot be opened", remedy),)
    loaded = read(content, called, file.parent, (*later, called))
    if loaded.job is None or has_error(loaded.findings):
        first = next(one for one in loaded.findings if one.severity is Severity.ERROR)
        return None, (_unread(name, f"{called}, which has an error at {first.place}: {first.found}", "put it right"),)
    return loaded, ()


def _unread(name: str, found: str, remedy: str) -> Finding:
    return Finding(
        code="job-file-beside",
        severity=Severity.ERROR,
        place=f"{name} laid.from",
        found=found,
        expected="the job file that the floor was laid by, beside this one",
        remedy=remedy,
    )
