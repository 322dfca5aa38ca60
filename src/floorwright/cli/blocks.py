"""The blocks of a sheet as plain text, so that a terminal and the paper say the same in the same words."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from floorwright.cli.text import paragraph, plain, table
from floorwright.draw.sheet import Prose, Steps, Table, flat
from floorwright.draw.view import View

if TYPE_CHECKING:
    from collections.abc import Iterable

    from floorwright.draw.sheet import Block


def blocks_text(blocks: Iterable[Block]) -> str:
    """Returns the words, steps and tables of a sheet. Pictures go, and so do words that only name one, and blanks."""
    told = list(flat(blocks))
    shown = [one for one, after in pairwise([*told, None]) if not (isinstance(one, Prose) and isinstance(after, View))]
    return "\n\n".join(text for text in map(_block_text, shown) if text)


def _block_text(block: Block | None) -> str:
    if isinstance(block, Table):
        return _titled(block.heading, _table_text(block))
    if isinstance(block, Steps):
        numbered = (paragraph(f"{n}. {plain(line)}", "  ", "     ") for n, line in enumerate(block.lines, 1))
        return _titled(block.heading, "\n".join(numbered))
    if isinstance(block, Prose):
        return _titled(block.heading, "\n".join(paragraph(plain(line)) for line in block.lines))
    return ""


def _titled(heading: str, text: str) -> str:
    return f"{plain(heading).rstrip(':')}:\n{text}" if heading else text


def _table_text(block: Table) -> str:
    """Returns a table without the columns that are there to be filled in by hand."""
    filled = [n for n in range(len(block.columns)) if any(row[n] for row in block.rows)]
    columns = [block.columns[n] for n in filled]
    return table(
        [f"{column.heading} ({column.unit})" if column.unit else column.heading for column in columns],
        ([plain(row[n]) for n in filled] for row in block.rows),
        left=[n for n, column in enumerate(columns) if column.align != "right"],
    )
