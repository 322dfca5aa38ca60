"""Sheets and their blocks as the data that `pack.typ` sets: texts made printable, widths worked out, views drawn."""

from typing import Any, Final

from floorwright.draw.lettering import breakable, lines_needed, printable, shorten, text_width
from floorwright.draw.paper import GUTTER, body_space, paper_size, title_height
from floorwright.draw.scale import scale_text
from floorwright.draw.sheet import Beside, Blanks, Block, Columns, Pack, Prose, Sheet, Steps, Table, flat
from floorwright.draw.style import Size
from floorwright.draw.table import LEAST_SIDE, SIDE, shared_widths, split_cell, table_width, tail_width
from floorwright.draw.view import View
from floorwright.errors import FloorwrightValueError
from floorwright.export.pens import PRINT
from floorwright.export.svg import view_svg
from floorwright.tolerance import COINCIDENT

SHEET_NAMES: Final = {
    "first": "First page", "room": "Room", "control": "Control lines", "steps": "Steps", "layout": "Layout",
    "border": "Border", "options": "Positions", "aims": "Aims", "ways": "Ways out", "snap": "Snap list", "ties": "Ties",
    "grid": "Working grid", "courses": "Courses", "rod": "Gauge rod", "rings": "Rings", "templates": "Templates",
    "cuts": "Cuts", "order": "Order", "client": "Client",
    "booking": "Booking", "changes": "Changes", "compared": "First lines", "exercise": "Exercise",
    "answers": "Answers", "marking": "Marking",
    "scoring": "Scoring", "lines": "Lines to cut", "slab": "Slab", "stain": "Stains",
}  # fmt: skip

AIR: Final = 1.7
"""Over and under the text in a row of a table, mm."""
ABREAST: Final = 16
"""A narrow table of fewer rows stays in one column."""
UNBROKEN: Final = 30
"""A table of so many rows at most goes to the next page whole."""
IN_COLUMNS: Final = {"abreast": 1, "unbroken": 10}
"""The same of a table that runs down columns."""
PAGE_CELL: Final = 18.0
CELL_MOST: Final = 45.0
"""A longer value is cut short, a value that is no unit at half of that, so that the job keeps its room."""
CELL_GAP: Final = 4.0
"""In the title block, as in the template."""
Data = dict[str, Any]


def sheet_data(sheet: Sheet, pack: Pack) -> Data:
    """Returns a sheet as the template reads it.

    Raises:
        FloorwrightValueError: a view that is too big for its page.
    """
    width, height = body_space(pack.paper, sheet.landscape)
    title = printable(sheet.title)
    space = width, height - title_height(title, width)
    block = title_block(sheet, pack)
    return {
        "title": breakable(title),
        "title_width": even_width(title, width),
        "paper": paper_size(pack.paper, sheet.landscape),
        "block": block,
        "widths": [0.0, *(max(_wide(name), _wide(value)) + 0.5 for name, value in block[1:])],
        "blocks": [_block(item, space, imperial(pack)) for item in sheet.blocks],
    }


def imperial(pack: Pack) -> bool:
    """Returns whether the pack's figures are feet and inches."""
    return "inch" in pack.units or "feet" in pack.units


def title_block(sheet: Sheet, pack: Pack) -> list[tuple[str, str]]:
    """Returns the cells of the title block but the page, as (name, value); the first is the job over its people."""
    scales = sorted({view.scale for view in flat(sheet.blocks) if isinstance(view, View) and view.is_to_scale})
    shown = ", ".join(scale_text(scale, imperial(pack)) for scale in scales) or "not to scale"
    cells = [
        ("Sheet", SHEET_NAMES[sheet.key]),
        ("Scale", shown),
        ("Units", pack.units),
        *([("Date", pack.date)] if pack.date else []),
        ("Revision", pack.revision or "none"),
    ]
    cells = [
        (name, shorten(printable(value), CELL_MOST if name == "Units" else CELL_MOST / 2, Size.SMALL))
        for name, value in cells
    ]
    taken = sum(max(_wide(name), _wide(value)) + 0.5 + CELL_GAP for name, value in cells) + PAGE_CELL + CELL_GAP
    room = body_space(pack.paper, sheet.landscape)[0] - taken
    people = ", ".join(filter(None, (pack.client, pack.by)))
    return [
        (shorten(printable(pack.job), room, Size.SMALL, bold=True), shorten(printable(people), room, Size.SMALL)),
        *cells,
    ]


def even_width(title: str, width: float) -> float:
    """Returns the least width in mm at which a title takes as many lines as at `width`: it ends in no lone word."""
    lines = lines_needed(title, width, Size.TITLE, bold=True)
    if lines == 1:
        return width
    tried = range(int(width / 2), int(width))
    return next((w for w in tried if lines_needed(title, w, Size.TITLE, bold=True) == lines), width)


def _wide(text: str) -> float:
    return text_width(text, Size.SMALL)


def _text(text: str) -> str:
    return breakable(printable(text))


def _block(block: Block, space: tuple[float, float], inches: bool) -> Data:
    """Returns a block as the template reads it. space: (width, height) mm that a view may take at most."""
    match block:
        case View():
            return _view(block, space, inches)
        case Table():
            return _table(block, space[0])
        case Prose():
            return {"kind": "prose", "heading": _text(block.heading), "tone": block.tone, "lines": _texts(block.lines)}
        case Steps():
            figures = (*block.figures, *[""] * (len(block.lines) - len(block.figures)))
            lines = [_around(line, figure) for line, figure in zip(block.lines, figures, strict=True)]
            return {"kind": "steps", "heading": _text(block.heading), "lines": lines}
        case Blanks():
            labels = _texts(block.labels)
            return {"kind": "blanks", "heading": _text(block.heading), "labels": labels, "columns": block.columns}
        case Beside():
            wide = space[0] - GUTTER
            left, right = (wide * block.share, space[1]), (wide * (1 - block.share), space[1])
            return {
                "kind": "beside",
                "share": block.share,
                "left": [_block(item, left, inches) for item in block.left],
                "right": [_block(item, right, inches) for item in block.right],
            }
        case Columns():
            column = (space[0] - GUTTER * (block.count - 1)) / block.count, space[1]
            return {
                "kind": "columns",
                "count": block.count,
                # What runs down columns does not stand abreast in them once more, and leaves little of one empty.
                "blocks": [_block(item, column, inches) | IN_COLUMNS for item in block.blocks],
            }


def _texts(texts: tuple[str, ...]) -> list[str]:
    return [_text(text) for text in texts]


def _around(line: str, figure: str) -> list[str]:
    """Returns a line as what stands before its figure, the figure, and what stands after it."""
    before, found, after = line.partition(figure) if figure else (line, "", "")
    return [_text(before), printable(found), _text(after)]


def _view(view: View, space: tuple[float, float], inches: bool) -> Data:
    width, height = view.picture_size(inches)
    if width > space[0] + COINCIDENT or height > space[1] + COINCIDENT:
        raise FloorwrightValueError(
            f"the view {view.name!r} at {scale_text(view.scale, inches)} is {width:.1f} x {height:.1f} mm "
            f"with its check bar; there is {space[0]:.1f} x {space[1]:.1f} mm"
        )
    svg = view_svg(view, palette=PRINT, standalone=False, imperial=inches)
    return {"kind": "view", "svg": svg, "width": width, "height": height, "alt": _text(view.described or view.name)}


def _table(table: Table, width: float) -> Data:
    """Returns a table: cells split at their units, columns as wide as `width` mm leaves them or, if it is narrow and
    long, how many stand abreast."""
    widths = shared_widths(table, width)
    natural = table_width(table)
    # What the longest words and the figures are too wide by comes off the air between the columns.
    over = max(0.0, table_width(table, widths) - width)
    side = max(LEAST_SIDE, SIDE - over / max(2 * len(table.columns) - 1, 1))
    abreast = int((width + GUTTER) // (natural + GUTTER)) if len(table.rows) >= ABREAST else 1
    return {
        "kind": "table",
        "heading": _text(table.heading),
        "columns": [
            {
                "heading": _text(column.heading),
                "unit": _text(column.unit),
                "align": column.align,
                "marked": column.marked,
                "tail": tail_width(table, n),
                "width": widths[n] if natural > width else 0.0,
            }
            for n, column in enumerate(table.columns)
        ],
        "rows": [
            [[breakable(part) for part in split_cell(*cell)] for cell in zip(table.columns, row, strict=True)]
            for row in table.rows
        ],
        "ticks": table.ticks,
        "air": AIR,
        "side": side,
        "unbroken": UNBROKEN,
        "abreast": max(1, min(3, abreast)),
    }
