"""A job pack as PDF, set by typst from one JSON text, in our own font only."""

import json
from datetime import UTC, date, datetime
from functools import cache
from importlib.resources import as_file, files
from typing import TYPE_CHECKING

from floorwright.draw.lettering import font_size, printable
from floorwright.draw.paper import FOOT, GUTTER, LEFT, RIGHT, TITLE_GAP, TOP
from floorwright.draw.sheet import Pack
from floorwright.draw.style import Size
from floorwright.errors import FloorwrightError, FloorwrightValueError
from floorwright.export.blocks import Data, sheet_data
from floorwright.export.pens import PRINT
from floorwright.export.svg import FAMILY

if TYPE_CHECKING:
    import typst

UNDATED = date(1970, 1, 1)

REGIONS = {"UK": "GB", "US": "US"}


def pack_pdf(pack: Pack) -> bytes:
    """Returns the pack as a tagged PDF (PDF/UA-1), the same bytes for the same pack.

    Views stand at their exact scale. The time in the file is the pack's date at midnight UTC, or the start of 1970 for
    a pack without one: the clock is never read.

    Raises:
        FloorwrightValueError: a view that is too big for its page, named; a paper that there is not.
    """
    made = datetime.combine(_date(pack.date), datetime.min.time(), UTC)
    compiler = _compiler()
    written, warnings = compiler.compile_with_warnings(
        files("floorwright.export").joinpath("pack.typ").read_bytes(),
        format="pdf",
        sys_inputs={"pack": json.dumps(_pack_data(pack), ensure_ascii=False)},
        pdf_standards=["ua-1"],
        timestamp=made,
    )
    if warnings:
        raise FloorwrightError("; ".join(f"{warning.message} {warning.diagnostic}" for warning in warnings))
    assert isinstance(written, bytes)
    return written


@cache
def _compiler() -> "typst.Compiler":
    """Returns a compiler that knows our font and no other."""
    import typst

    with as_file(files("floorwright.export").joinpath("fonts")) as folder:
        fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder)])
    return typst.Compiler(font_paths=fonts)


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text) if text else UNDATED
    except ValueError as error:
        raise FloorwrightValueError(f"a pack's date is written 2026-03-02, not {text!r}") from error


def _pack_data(pack: Pack) -> Data:
    """Returns all that the template prints."""
    made = _date(pack.date)
    return {
        "job": printable(pack.job),
        "by": printable(pack.by),
        "date": {"year": made.year, "month": made.month, "day": made.day},
        "region": REGIONS.get(pack.words, "GB"),
        "family": FAMILY,
        "colours": PRINT.as_dict(),
        "sizes": {str(size): font_size(size) for size in Size},
        "margins": {"left": LEFT, "right": RIGHT, "top": TOP, "foot": FOOT, "title": TITLE_GAP, "gutter": GUTTER},
        "sheets": [sheet_data(sheet, pack) for sheet in pack.sheets],
    }
