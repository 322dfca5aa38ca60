"""What is printed: results to stdout and talk to stderr, in the characters that the terminal has; data as UTF-8."""

from __future__ import annotations

import sys
import unicodedata
from typing import Any, Final

import click

IN_ASCII: Final = {
    "²": "2",
    "°": " deg",
    "×": "x",
    "±": "+/-",
    "–": "-",
    "—": "-",
    "‘": "'",
    "’": "'",
    "“": '"',
    "”": '"',
}
"""What our own texts hold beyond ASCII, as a terminal without it can show them."""


def say(text: str) -> None:
    """Prints a result, or a part of one."""
    click.echo(readable(text, sys.stdout.encoding), file=sys.stdout)


def warn(text: str) -> None:
    """Prints what is no result: what needs an answer, what was left alone."""
    click.echo(readable(text, sys.stderr.encoding), file=sys.stderr)


def say_data(data: dict[str, Any]) -> None:
    """Prints a result as JSON, which is UTF-8 wherever it goes."""
    from floorwright.export.data import as_json

    click.echo(as_json(data).encode(), nl=False)


def readable(text: str, encoding: str | None) -> str:
    """Returns a text with each character that an encoding lacks as the nearest that it has, or `?`."""
    encoding = encoding or "utf-8"
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        return "".join(_nearest(character, encoding) for character in text)
    return text


def _nearest(character: str, encoding: str) -> str:
    bare = unicodedata.normalize("NFKD", character).encode("ascii", "ignore").decode()
    for choice in (character, IN_ASCII.get(character, bare)):
        try:
            choice.encode(encoding)
        except UnicodeEncodeError:
            continue
        if choice:
            return choice
    return "?"
