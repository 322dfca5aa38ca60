"""What is wrong with a value of the job file, before it is known on which line the value stands."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Final

from floorwright.findings import Severity
from floorwright.job.read.positions import Path

SOURCE: Final = "job file"
UNTOLD: Final = ""
"""The code of a problem that only comes of another one, which is told of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing wrong.

    Attributes:
        path: of the value.
        code, found, expected, remedy, severity, source: of the finding that it becomes.
        meant: the key that was meant, where the path is a misspelling of it.
        drop: path of what has to be left out of the job because of it; None to leave all in.
    """

    path: Path
    code: str
    found: str
    expected: str = ""
    remedy: str = ""
    severity: Severity = Severity.ERROR
    source: str = SOURCE
    meant: str = ""
    drop: Path | None = None


def did_you_mean(word: str, words: Iterable[str], *, alone: bool = False) -> str | None:
    """Returns the nearest of some words; None if none is near, or if it must be `alone` and more than one is."""
    choices = sorted(words)
    folded = {choice.casefold(): choice for choice in choices}
    if word.casefold() in folded:
        return folded[word.casefold()]
    near = get_close_matches(word, choices, n=2)
    return near[0] if near and not (alone and len(near) > 1) else None


def listed(words: Iterable[str]) -> str:
    """Returns words as a person lists them: `A, B or C`."""
    *first, last = words or ("",)
    return f"{', '.join(first)} or {last}" if first else last
