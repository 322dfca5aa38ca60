"""How wide a table stands on paper, and how its columns share a width that is too small for all they say."""

import re
from collections.abc import Sequence
from typing import Final

import numpy as np

from floorwright.draw.lettering import NO_WIDTH, breakable, printable, text_width
from floorwright.draw.sheet import Column, Table
from floorwright.draw.style import Size

SIDE: Final = 2.5
"""mm on paper at both sides of a cell; none before the first of a row."""

LEAST_SIDE: Final = 1.2
"""The same where a narrow column leaves no more."""

DONE: Final = 6.1
"""Width of the column of boxes to tick, with the air beside it."""

EASE: Final = 0.1
"""mm on paper over what a text measures, so that none is broken for a rounding."""

FIGURE: Final = re.compile(r"([−-]?(?:\d+[′'][ -]?)?\d*)((?:\.\d+)?(?:[ \u2009]?[⁰¹²³⁴-⁹]+⁄[₀-₉]+)?[″\"]?)")
"""A figure: up to its units, and what hangs behind them."""


def split_cell(column: Column, text: str) -> tuple[str, str]:
    """Returns a cell's text as printed, a figure split behind its units."""
    said = printable(text)
    match = FIGURE.fullmatch(said) if column.align == "right" else None
    if match is None:
        return said, ""
    units, tail = match.groups()
    return units, tail if units or not tail else f" {tail}"


def tail_width(table: Table, column: int) -> float:
    """Returns mm on paper that what hangs behind the units takes in a column."""
    of = table.columns[column]
    return max((text_width(split_cell(of, row[column])[1], _size(of)) for row in table.rows), default=0.0)


def natural_widths(table: Table) -> list[float]:
    """Returns mm on paper that each column takes with every cell on one line, without the air beside it."""
    return [
        EASE
        + max(
            text_width(head(column), Size.SMALL),
            tail_width(table, n)
            + max((text_width(split_cell(column, row[n])[0], _size(column)) for row in table.rows), default=0.0),
        )
        for n, column in enumerate(table.columns)
    ]


def table_width(table: Table, widths: Sequence[float] = ()) -> float:
    """Returns mm on paper that a table takes, its columns as wide as given, else with every cell on one line."""
    return sum(widths or natural_widths(table)) + _air(table)


def shared_widths(table: Table, width: float) -> list[float]:
    """Returns mm on paper for each column, without the air beside it, in a table that is at most `width` mm wide.

    Columns of words give way where not all fit, the widest first, none below its longest word; figures keep their
    line. Wider than `width` only where the longest words and the figures are.
    """
    naturals = natural_widths(table)
    over = table_width(table, naturals) - width
    if over <= 0:
        return naturals
    leasts = [
        natural if column.align == "right" else least
        for column, natural, least in zip(table.columns, naturals, _longest_words(table), strict=True)
    ]

    def at_most(cap: float) -> list[float]:
        return [max(least, min(natural, cap)) for natural, least in zip(naturals, leasts, strict=True)]

    # The sum runs straight between the caps at which a column begins or ends to give way.
    caps = sorted({0.0, *naturals, *leasts})
    sums = [sum(at_most(cap)) for cap in caps]
    return at_most(float(np.interp(sum(naturals) - over, sums, caps)))


def head(column: Column) -> str:
    """Returns a column's heading with its unit."""
    return f"{column.heading}  {column.unit}" if column.unit else column.heading


def _longest_words(table: Table) -> list[float]:
    """Returns mm on paper of the longest word in each column and its heading."""
    return [
        EASE
        + max(
            text_width(word, size)
            for text, size in ((head(column), Size.SMALL), *((row[n], _size(column)) for row in table.rows))
            # Not str.split() alone: a space that does not break holds a word together.
            for word in breakable(printable(text)).replace(NO_WIDTH, " ").split(" ")
        )
        for n, column in enumerate(table.columns)
    ]


def _size(column: Column) -> Size:
    return Size.FIGURE if column.marked else Size.TEXT


def _air(table: Table) -> float:
    """Returns mm on paper beside the cells, and for the boxes to tick."""
    beside = SIDE * 2 * len(table.columns)
    return beside + DONE if table.ticks else beside - SIDE
