"""What a text will measure on paper, and what of it our font can print. The only font is the one that we carry."""

import re
import unicodedata
from functools import cache
from typing import Final

from floorwright.draw.style import CAP_HEIGHT, Size
from floorwright.draw.widths import EM, REGULAR, SEMIBOLD

STAND_IN: Final = "□"
"""Printed for a character that the font lacks, so that its place is seen."""

INSTEAD: Final = {"⌀": "Ø", "⅔": "²⁄₃", "\t": " ", "\n": " ", "\r": " ", "\u2028": " ", "\u2029": " "}
"""Characters that the font lacks, but can say otherwise."""

NO_WIDTH: Final = "\u200b"

LONGEST_WORD: Final = 24
"""Characters; a longer word may break after each such run."""

LINE: Final = 1.9
"""Distance of lines of text, in capital heights."""


@cache
def _widths(bold: bool) -> dict[str, float]:
    """Returns each character's width, for a capital height of one."""
    rows = SEMIBOLD if bold else REGULAR
    return {character: width / 1000 for width, characters in rows.items() for character in characters}


def printable(text: str) -> str:
    """Returns the text as our font can print it, on one line: what the font lacks becomes `STAND_IN`.

    >>> printable("tab\\there \N{SLICE OF PIZZA}")
    'tab here □'
    """
    if text.isascii() and text.isprintable():
        return text
    composed = unicodedata.normalize("NFC", text)
    swapped = "".join(INSTEAD.get(character, character) for character in composed)
    known = _widths(False)
    return "".join(character if character in known else STAND_IN for character in swapped)


def breakable(text: str) -> str:
    """Returns the text with places to break, spaces of no width, in words too long for any column."""
    return re.sub(rf"\S{{{LONGEST_WORD}}}(?=\S)", lambda run: run.group() + NO_WIDTH, text)


def missing(text: str) -> str:
    """Returns the characters of the text, once each and in order, that print as `STAND_IN`."""
    composed = unicodedata.normalize("NFC", text)
    known = _widths(False)
    return "".join(dict.fromkeys(c for c in composed if c not in known and c not in INSTEAD))


def text_width(text: str, size: Size, *, bold: bool = False) -> float:
    """Returns the width in mm on paper of a text on one line, as printed; kerning, which only narrows it, left out."""
    widths = _widths(bold)
    return CAP_HEIGHT[size] * sum(widths[character] for character in printable(text))


def font_size(size: Size) -> float:
    """Returns the font size in mm that gives the size's capital height."""
    return CAP_HEIGHT[size] * EM


def shorten(text: str, width: float, size: Size, *, bold: bool = False) -> str:
    """Returns the text, ended with `…` where it would be wider than `width` mm on paper."""
    if text_width(text, size, bold=bold) <= width:
        return text
    while text and text_width(text + "…", size, bold=bold) > width:
        text = text[:-1]
    return text.rstrip() + "…"


def lines_needed(text: str, width: float, size: Size, *, bold: bool = False) -> int:
    """Returns how many lines the text takes in a column `width` mm wide, broken between words."""
    space = text_width(" ", size, bold=bold)
    lines, used = 1, 0.0
    for word in text.split():
        wide = text_width(word, size, bold=bold)
        if used and used + space + wide > width:
            lines, used = lines + 1, wide
        else:
            used += wide + (space if used else 0.0)
    return lines
