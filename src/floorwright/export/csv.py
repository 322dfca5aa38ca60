"""A table as CSV by RFC 4180."""

import re
from typing import Final

from floorwright.draw.sheet import Table
from floorwright.export.plain import plain

FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "−")
"""What a spreadsheet takes a formula to begin with."""
NUMBER: Final = re.compile(r"[+-]?\d+(?:\.\d+)?")


def table_csv(table: Table) -> str:
    """Returns the table as text: commas, CRLF, a head with the units in brackets; write it as UTF-8.

    A cell that a spreadsheet would run as a formula (it begins with `=`, `+`, `-` or `@` and is not a number) gets an
    apostrophe before it, which spreadsheets take for the mark of plain text. Figures keep the signs that they are
    printed with: `7 11/16″` in raised and lowered figures is written `7 11/16"`.

    >>> from floorwright.draw.sheet import Column
    >>> heads = Column(heading="Cut", unit="mm"), Column(heading="Note")
    >>> print(table_csv(Table(columns=heads, rows=(("87.5", "=1+1"), ("90", "wall N, by the door")))))
    Cut (mm),Note\r
    87.5,'=1+1\r
    90,"wall N, by the door"\r
    <BLANKLINE>
    """
    head = [f"{column.heading} ({column.unit})" if column.unit else column.heading for column in table.columns]
    return "".join(",".join(map(_cell, row)) + "\r\n" for row in (head, *table.rows))


def _cell(text: str) -> str:
    said = plain(text)
    if said.startswith(FORMULA) and not NUMBER.fullmatch(said):
        said = f"'{said}"
    return f'"{said.replace(chr(34), chr(34) * 2)}"' if re.search(r'[",\r\n]', said) else said
