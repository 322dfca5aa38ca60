"""The files of a job pack, by name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.draw.sheet import Beside, Table
from floorwright.draw.view import View
from floorwright.export.csv import table_csv
from floorwright.export.dxf import floor_dxf
from floorwright.export.pdf import pack_pdf
from floorwright.export.svg import view_svg

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.draw.sheet import Block, Pack


def pack_files(pack: Pack) -> dict[str, bytes]:
    """Returns name -> content: the pack as PDF; its floor as DXF; its plans as SVG; its lists as CSV.

    Args:
        pack: all sheets. A view is drawn by the name it carries; a table is listed by its sheet's key.
    """
    files = {"pack.pdf": pack_pdf(pack)}
    for sheet in pack.sheets:
        blocks = list(_flat(sheet.blocks))
        for view in (block for block in blocks if isinstance(block, View)):
            files.setdefault(f"{view.name}.svg", view_svg(view).encode())
        tables = [block for block in blocks if isinstance(block, Table)]
        if tables:
            files[f"{sheet.key}.csv"] = "\r\n".join(table_csv(table) for table in tables).encode()
    return files


def _flat(blocks: tuple[Block, ...]) -> Iterator[Block]:
    for block in blocks:
        if isinstance(block, Beside):
            yield from _flat(block.left)
            yield from _flat(block.right)
        else:
            yield block
