"""The files of a job pack: each format makes its own, by name."""

import re
from collections.abc import Callable, Iterator
from typing import Final

from floorwright.draw.sheet import Pack, flat
from floorwright.draw.view import View
from floorwright.export.blocks import imperial
from floorwright.export.csv import table_csv
from floorwright.export.dxf import floor_dxf
from floorwright.export.html import site_html
from floorwright.export.pdf import pack_pdf
from floorwright.export.svg import view_svg

Maker = Callable[[Pack], dict[str, bytes]]

FORMATS: Final[dict[str, Maker]] = {}
"""Format -> function from a pack to its files in that format, name -> content."""

ON_THE_FLOOR: Final = ("room", "control", "layout", "scoring")
"""Keys of the sheets whose views are laid over each other in the drawing of the floor."""

PLANS: Final = ("first", "room", "control", "layout", "snap", "ties", "scoring", "stain", "client")
"""Keys of the sheets whose views are plans of the floor: each makes a file; strips and small pictures make none."""


def register(name: str, make: Maker) -> None:
    """Adds a format, or replaces one of that name."""
    FORMATS[name] = make


def pack_files(pack: Pack) -> dict[str, bytes]:
    """Returns name -> content of a pack in every format, in the order of `FORMATS`."""
    files: dict[str, bytes] = {}
    for make in FORMATS.values():
        files |= make(pack)
    return files


def pdf_files(pack: Pack) -> dict[str, bytes]:
    """Returns the whole pack as one PDF."""
    return {"pack.pdf": pack_pdf(pack)}


def dxf_files(pack: Pack) -> dict[str, bytes]:
    """Returns the floor as one DXF, the views of the room, its control lines and its layout laid over each other."""
    views = [view for key, view in _views(pack) if key in ON_THE_FLOOR]
    return {"floor.dxf": floor_dxf(views, imperial=imperial(pack))} if views else {}


def svg_files(pack: Pack) -> dict[str, bytes]:
    """Returns each plan as an SVG by its name; a second one of a name gets a number."""
    files: dict[str, bytes] = {}
    for key, view in _views(pack):
        if key in PLANS:
            svg = view_svg(view, imperial=imperial(pack)).encode("utf-8")
            files[_free(re.sub(r"[^a-z0-9]+", "-", view.name.lower()).strip("-") or "view", "svg", files)] = svg
    return files


def csv_files(pack: Pack) -> dict[str, bytes]:
    """Returns the lists of the sheets as CSV by their names; a second one of a name gets a number."""
    files: dict[str, bytes] = {}
    for sheet in pack.sheets:
        for name, table in sheet.lists:
            files[_free(name, "csv", files)] = table_csv(table).encode("utf-8")
    return files


def site_files(pack: Pack) -> dict[str, bytes]:
    """Returns the copy for a phone, where there is anything to set out."""
    return {"site.html": site_html(pack, pack.site)} if pack.site is not None else {}


def _free(stem: str, ending: str, taken: dict[str, bytes]) -> str:
    """Returns a file name that is not taken yet."""
    name, number = f"{stem}.{ending}", 1
    while name in taken:
        number += 1
        name = f"{stem}-{number}.{ending}"
    return name


def _views(pack: Pack) -> Iterator[tuple[str, View]]:
    """Yields the views of a pack with the keys of their sheets."""
    for sheet in pack.sheets:
        for block in flat(sheet.blocks):
            if isinstance(block, View):
                yield sheet.key, block


BUILT_IN: Final = (("pdf", pdf_files), ("dxf", dxf_files), ("svg", svg_files), ("csv", csv_files), ("site", site_files))
for _name, _make in BUILT_IN:
    register(_name, _make)
