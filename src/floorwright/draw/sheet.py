"""Sheets: a title that says the one idea, and blocks in the order in which they are read."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from floorwright.draw.view import View

if TYPE_CHECKING:
    from floorwright.draw.site import SiteCopy


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A table's column.

    Attributes:
        heading, unit: the unit stands once, in the head of the table.
        align: `left`, `centre`, or `right`: figures, aligned on their units (`282.5` over `7`, fractions hanging out).
        marked: figures that people mark from, printed larger.
    """

    heading: str
    unit: str = ""
    align: str = "left"
    marked: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table of texts as printed; it may break over pages, its head repeats.

    Attributes:
        rows: as many texts in each as there are columns.
        ticks: a box to tick at the start of each row.
    """

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    heading: str = ""
    ticks: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Prose:
    """Sentences, each on its own line.

    Attributes:
        tone: `plain`, `caution` (a sign and a frame), `limit` (a limit broken), `doubt`, `agrees`, `quiet`.
    """

    lines: tuple[str, ...]
    heading: str = ""
    tone: str = "plain"


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Numbered steps, each a sentence with its figure.

    Attributes:
        figures: of each line the part that people mark from, printed larger; empty where there is none. Fewer than
            there are lines: the rest have none.
    """

    lines: tuple[str, ...]
    heading: str = ""
    figures: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Blanks:
    """Lines to fill in by hand, each with its label (signature, date, readings). `columns` of them side by side."""

    labels: tuple[str, ...]
    heading: str = ""
    columns: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """Two columns of blocks, `share` of the width to the left one."""

    left: tuple["Block", ...]
    right: tuple["Block", ...]
    share: float = 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Blocks that run down one column after another, and on over pages; `count` columns, alike wide."""

    blocks: tuple["Block", ...]
    count: int = 2


Block = View | Table | Prose | Steps | Blanks | Beside | Columns


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet (it may run over several pages).

    Attributes:
        key: short name for file names: `first`, `room`, `control`, `steps`, `layout`, `options`, `aims`, `snap`,
            `ties`, `courses`, `rod`, `rings`, `templates`, `cuts`, `order`, `client`, `booking`, `compared`,
            `exercise`, `answers`, `marking`, `scoring`, `lines`, `slab`, `stain`.
        title: the one idea, as a sentence.
        blocks: in reading order.
        landscape: paper turned.
        lists: what of the sheet people use in other programs, each with a name that is plain there: `marks`, `order`.
    """

    key: str
    title: str
    blocks: tuple[Block, ...]
    landscape: bool = False
    lists: tuple[tuple[str, Table], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """Sheets with what ISO 7200 asks of a title block.

    Attributes:
        job, client, by, revision, date: as in the job file; `date` is ISO text, never read from the clock.
        units: words, such as `mm` or `feet and inches, to 1/16`.
        paper: `A4` or `Letter`.
        words: `UK` or `US`.
        sheets: in order.
        site: the copy for a phone; None while there is nothing to set out.
    """

    job: str
    client: str
    by: str
    revision: str
    date: str
    units: str
    paper: str
    words: str
    sheets: tuple[Sheet, ...]
    site: "SiteCopy | None" = None


def flat(blocks: Iterable[Block]) -> Iterator[Block]:
    """Yields blocks in reading order, those in columns one by one."""
    for block in blocks:
        match block:
            case Beside():
                yield from flat((*block.left, *block.right))
            case Columns():
                yield from flat(block.blocks)
            case _:
                yield block
