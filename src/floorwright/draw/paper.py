"""Sheets of paper, their margins, and the space on them that a view may take."""

from typing import Final

from floorwright.draw.lettering import LINE, lines_needed
from floorwright.draw.style import CAP_HEIGHT, Size
from floorwright.draw.view import CHECK_BAR
from floorwright.errors import FloorwrightValueError

PAPERS: Final = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""(width, height) mm, upright: ISO 216, and the ANSI A size."""

LEFT: Final = 20.0
"""Filing margin, ISO 5457."""
RIGHT: Final = 12.0
TOP: Final = 12.0
FOOT: Final = 25.0
"""The title block and the margin under it."""
TITLE_GAP: Final = 5.0
"""Under a sheet's title."""
GUTTER: Final = 8.0
"""Between two columns of blocks."""


def paper_size(paper: str, landscape: bool = False) -> tuple[float, float]:
    """Returns (width, height) in mm.

    Raises:
        FloorwrightValueError: a paper other than `A4` and `Letter`.
    """
    if paper not in PAPERS:
        raise FloorwrightValueError(f"no paper named {paper!r}; there are {', '.join(PAPERS)}")
    width, height = PAPERS[paper]
    return (height, width) if landscape else (width, height)


def body_space(paper: str, landscape: bool = False) -> tuple[float, float]:
    """Returns (width, height) in mm between the margins, above the title block."""
    width, height = paper_size(paper, landscape)
    return width - LEFT - RIGHT, height - TOP - FOOT


def title_height(title: str, width: float) -> float:
    """Returns the height in mm that a sheet's title takes, with the gap under it."""
    lines = lines_needed(title, width, Size.TITLE, bold=True)
    return CAP_HEIGHT[Size.TITLE] * (1 + (lines - 1) * LINE) + TITLE_GAP


def page_space(paper: str, landscape: bool = False, *, title: str = "", share: float = 1.0) -> tuple[float, float]:
    """Returns (width, height) in mm that a view, without its check bar, may take on a page under the sheet's title.

    Args:
        paper: `A4` or `Letter`.
        landscape: paper turned.
        title: of the sheet; room for a title of two lines is kept where none is given.
        share: of the width, for the left column of `Beside`; for the right one, one less the share.
    """
    width, height = body_space(paper, landscape)
    above = title_height(title, width) if title else CAP_HEIGHT[Size.TITLE] * (1 + LINE) + TITLE_GAP
    wide = width if share == 1.0 else (width - GUTTER) * share
    return wide, height - above - CHECK_BAR
