"""From the bytes of a job file to what TOML makes of them, or to why it makes nothing of them, in plain words."""

import re
import tomllib
from dataclasses import dataclass
from typing import Any, Final

from floorwright.findings import Finding
from floorwright.job.read.positions import positions
from floorwright.job.read.slips import LONGEST_KEY, explain, refused

LONGEST_FILE: Final = 5_000_000
"""Bytes. A job of a hundred rooms is a tenth of it."""

LONGEST_LINE: Final = 10_000
"""Characters."""

DEEPEST: Final = 16
"""Tables and arrays inside one another. The form itself needs four."""

_MANY_KEYS: Final = re.compile(rf"(?:[\w\"'-]+[ \t]*\.[ \t]*){{{2 * DEEPEST}}}")
"""A dotted key that TOML readers take a time for that grows with the square of its parts."""

_MANY_FIGURES: Final = re.compile(r"[0-9_]{1000}")
_CONTROL: Final = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Parsed:
    """What a file holds.

    Attributes:
        data: as TOML has it; None if it cannot be read.
        text: of the file, with `\\n` for its line ends.
        findings: why it cannot be read.
    """

    data: dict[str, Any] | None
    text: str
    findings: tuple[Finding, ...] = ()


def parse(content: bytes, name: str) -> Parsed:
    """Returns what the bytes of a job file hold. Whatever they are, nothing is raised.

    Args:
        content: the whole file.
        name: how the file is called in the findings.
    """
    if len(content) > LONGEST_FILE:
        size = f"{len(content) / 1e6:.1f} MB"
        return _refused(refused(name, "job-size", size, "a job file of at most 5 MB", "is it the right file?"))
    try:
        text = content.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        found = f"a character that is no UTF-8 (byte {error.start + 1})"
        remedy = "save the file as UTF-8"
        return _refused(refused(f"{name}:{line}", "job-encoding", found, "plain text in UTF-8", remedy))
    unsafe = _unsafe(text, name)
    return _refused(unsafe, text) if unsafe else _tables(text, name)


def _refused(finding: Finding, text: str = "") -> Parsed:
    return Parsed(data=None, text=text, findings=(finding,))


def _unsafe(text: str, name: str) -> Finding | None:
    """Refuses what would keep a TOML reader busy for minutes, and control characters."""
    for number, line in enumerate(text.split("\n"), 1):
        place = f"{name}:{number}"
        if len(line) > LONGEST_LINE:
            found, expected = f"a line of {len(line)} characters", f"at most {LONGEST_LINE}"
            return refused(place, "job-size", found, expected, "break it into several lines")
        if _MANY_KEYS.search(line):
            return refused(place, "job-size", "a key of very many parts", "keys of two or three parts", "shorten it")
        if control := _CONTROL.search(line):
            found = f"a control character (U+{ord(control[0]):04X})"
            return refused(place, "job-encoding", found, "plain text", "delete it")
    return None


def _tables(text: str, name: str) -> Parsed:
    try:
        data = tomllib.loads(text)
    except RecursionError:
        return _refused(_too_deep(name), text)
    except tomllib.TOMLDecodeError as error:
        return Parsed(data=None, text=text, findings=explain(text, name, str(error)))
    except ValueError:
        # tomllib lets through what `int` refuses: more figures than Python will turn into a number.
        number = next((i for i, line in enumerate(text.split("\n"), 1) if _MANY_FIGURES.search(line)), 1)
        found = "a number of too many figures"
        return _refused(refused(f"{name}:{number}", "job-syntax", found, "a number", "look for a key held down"), text)
    if not data:
        return _refused(
            refused(name, "job-empty", "nothing in the file", "a job", "start from `floorwright new`"), text
        )
    for key, value in data.items():
        if _depth(value) > DEEPEST:
            return _refused(_too_deep(f"{name}:{positions(text).line((key,)) or 1} {key[:LONGEST_KEY]}"), text)
    return Parsed(data=data, text=text)


def _too_deep(place: str) -> Finding:
    found = "lists within lists without end"
    return refused(place, "job-size", found, "lists of plain values", "look at the brackets")


def _depth(value: object) -> int:
    """Returns how deep tables and arrays lie inside one another, as far as one more than `DEEPEST`."""
    level: list[object] = [value]
    depth = 0
    while level and depth <= DEEPEST:
        inner: list[object] = []
        for item in level:
            inner.extend(item.values() if isinstance(item, dict) else item if isinstance(item, list) else ())
        level, depth = inner, depth + 1
    return depth
