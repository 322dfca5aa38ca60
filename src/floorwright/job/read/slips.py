"""What people write where TOML reads nothing, told in plain words: what was found, what was expected, what to do."""

import re
import tomllib
from typing import Final

from floorwright.errors import LengthError
from floorwright.findings import Finding, Severity
from floorwright.job.read.positions import positions
from floorwright.job.read.problem import SOURCE
from floorwright.units import parse_exact

MOST_AT_ONCE: Final = 30
"""Lines with broken quotes that are told of in one go."""

LONGEST_KEY: Final = 60
"""Characters of a key that are worth showing."""

_PLACE: Final = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)$")
_REPEATED: Final = ("Cannot overwrite", "Cannot declare", "Cannot mutate", "Duplicate inline")

_SLIPS: Final = (
    (r"=\s*\[?\s*[0-9]+,[0-9]+\s*(?:#|$)", "a number with a comma", "a point for decimals", "write 3.6, not 3,6"),
    (r"=\s*[0-9]{1,4}-[0-9]{1,2}-[0-9]{1,2}", "a date that does not exist", "a date", "write date = 2026-03-02"),
    (r"=\s*[“”‘’]", "curly quotes", "straight quotes", 'write "..." with the plain key'),
    (r"=\s*(?:True|False|TRUE|FALSE|yes|no)\b", "yes or no in other words", "true or false", "write true or false"),
    (r"=\s*0[0-9]+\s*(?:#|$)", "a number with a nought before it", "a number", "take the nought out"),
    (r"=\s*(?:#|$)", "nothing after the =", "a value", "write the value, or put # before the line"),
    (r"^\s*[\w-]+\s*:", "a colon", "an equals sign", "write key = value"),
    (r"^\s*[\w-]+(?:\s+[\w-]+)+\s*=", "a key with a space in it", "a key in one word", "write it with - or _"),
    (r"^\s*//", "a remark after //", "a remark after #", "put # before it"),
)
"""What people write most often where TOML reads nothing: pattern of the line, found, expected, remedy."""

_MEANINGS: Final = (
    ("Expected '=' after a key", "a line that is no `key = value`", "give it a value after =, or put # before it"),
    ("Expected newline or end of", "more after the end of the value", "put text between quotes, a comment after #"),
    ("Expected ']", "a [table] name that is not closed", "write [name], or [[name]] for one of several"),
    ("Illegal character", "a text that is not closed on its line", "close it with the quote that it starts with"),
    ("Unterminated string", "a text that is not closed", "close it with the quotes that it starts with"),
    ("Expected \"'", "a text that is not closed", "close it with the quotes that it starts with"),
    ("Unclosed array", "a list that is not closed, or a missing comma in it", "put commas between and ] at the end"),
    ("Unclosed inline table", "a { that is not closed", "put commas between and } at the end"),
    ("Invalid value", "a value that cannot be read", "put text between quotes; a number has a point for decimals"),
    ("Unescaped", "a \\ in a text", "put the text between single quotes"),
    ("Invalid hex value", "a \\ in a text", "put the text between single quotes"),
    ("Escaped character", "a \\ in a text", "put the text between single quotes"),
    ("Invalid statement", "a line that is no `key = value`", "put # before a remark"),
    ("Invalid initial character", "a key that cannot be read", "keys are letters, figures, - and _"),
)
"""How a message of `tomllib` starts, found, remedy."""


def refused(place: str, code: str, found: str, expected: str, remedy: str) -> Finding:
    """Returns the finding for a file, or a line of it, that cannot be read at all."""
    return Finding(
        code=code, severity=Severity.ERROR, place=place, found=found, expected=expected, remedy=remedy, source=SOURCE
    )


def explain(text: str, name: str, message: str) -> tuple[Finding, ...]:
    """Returns what is wrong with the first line that TOML stumbles over.

    Every line whose quotes broke on inch marks is told of at once: who writes one so writes them all so.

    Args:
        text: of the file.
        name: how the file is called.
        message: of `tomllib`.
    """
    lines = text.split("\n")
    findings: list[Finding] = []
    while (number := _line_number(message)) and not message.startswith(_REPEATED) and len(findings) < MOST_AT_ONCE:
        line = lines[number - 1]
        broken = _broken_length(line)
        if broken is None:
            break
        findings.append(refused(f"{name}:{number}{_key_of(line)}", "job-quotes", *broken))
        lines[number - 1] = ""
        try:
            tomllib.loads("\n".join(lines))
            break
        except (ValueError, RecursionError) as error:
            message = str(error)
    return tuple(findings) or (_slip(lines, name, message),)


def _line_number(message: str) -> int | None:
    place = _PLACE.search(message)
    return int(place[1]) if place and place[1] else None


def _key_of(line: str) -> str:
    key, equals, _ = line.partition("=")
    return f" {key.strip()}" if equals and 0 < len(key.strip()) < LONGEST_KEY else ""


def _broken_length(line: str) -> tuple[str, str, str] | None:
    """Returns what was found, expected and is to do where a length on a line broke its own quotes, or has none."""
    value = line.partition("=")[2] or line
    for chunk in re.split(r"[,\[\]]|\s#", value):
        written = chunk.strip()
        if _is_length(written) and not re.search(r"['\"]", written):
            return written, "a length with its unit between quotes", f'write "{written}"'
        opened = len(written) - len(written.lstrip("\"'"))
        for closed in range(4):
            length = written[opened : len(written) - closed].strip()
            if _is_length(length):
                remedy = f"write \"{_in_letters(length)}\", or put it between three single quotes: '''{length}'''"
                return written, "a length whose foot and inch marks do not end the text", remedy
    return None


def _is_length(text: str) -> bool:
    """Returns whether a text is a length with its own unit."""
    try:
        parse_exact(text)
    except LengthError:
        return False
    return re.search(r"['\"a-zA-Z]", text) is not None


def _in_letters(length: str) -> str:
    """Writes foot and inch marks as `ft` and `in`."""
    letters = length.replace("''", '"').replace("'", "ft ").replace('"', "in")
    return re.sub(r"ft[\s-]+", "ft ", letters).strip()


def _slip(lines: list[str], name: str, message: str) -> Finding:
    number = _line_number(message)
    if number is None or message.startswith("Unclosed"):
        number = _opening(lines[:number])
    line = lines[number - 1]
    place = f"{name}:{number}{_key_of(line)}"
    if message.startswith(_REPEATED):
        return _repeat(lines[:number], name)
    for pattern, *slip in _SLIPS:
        if re.search(pattern, line):
            return refused(place, "job-syntax", *slip)
    told = _PLACE.sub("", message)
    meanings = ((found, remedy) for start, found, remedy in _MEANINGS if message.startswith(start))
    found, remedy = next(meanings, (told, "look at the line and the one before it"))
    return refused(place, "job-syntax", found, "TOML", remedy)


def _opening(lines: list[str]) -> int:
    """Returns the line of the last value that opens a list or a long text: TOML misses its end only later."""
    opening = [number for number, line in enumerate(lines, 1) if re.search(r"=\s*(?:\[|\{|\"\"\"|''')", line)]
    return opening[-1] if opening else len(lines)


def _repeat(lines: list[str], name: str) -> Finding:
    """Names the key or table that stands for a second time on the last of some lines, and where it stood first."""
    repeats = positions("\n".join(lines)).repeats
    if not repeats:
        place, found = f"{name}:{len(lines)}{_key_of(lines[-1])}", "a key or table that is there already"
        return refused(place, "job-duplicate", found, "each key once", "take one out")
    path, first, again = repeats[0]
    key = ".".join(str(part) for part in path if isinstance(part, str))
    if path[:2] == ("survey", "distances"):
        remedy = f"put all readings of one distance in a list: {path[-1]} = [..., ...]"
    elif lines[again - 1].lstrip().startswith("["):
        remedy = f"put all of it under one [{key}], or write [[{key}]] for each of several"
    else:
        remedy = "take one out"
    found = f"`{key}` again (first on line {first})"
    return refused(f"{name}:{again} {key}", "job-duplicate", found, "each key once", remedy)
