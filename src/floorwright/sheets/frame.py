"""How a sheet's drawing stands on its paper: which way round, at what scale, alone or beside its figures."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from floorwright.draw.lettering import lines_needed
from floorwright.draw.paper import GUTTER, body_space, page_space, title_height
from floorwright.draw.scale import fit_scale
from floorwright.draw.sheet import Beside, Blanks, Block, Prose, Table
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import CHECK_BAR, CHECK_BAR_LENGTH, Item, Line, Text, View
from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.tolerance import COINCIDENT

Box = tuple[float, float, float, float]
"""x least, y least, x most, y most; floor mm."""

COLUMN: Final = 56.0
"""mm on paper, the least width that a column of figures beside a drawing can do with."""

COLUMNS: Final = (COLUMN, 70.0, 88.0)
"""mm on paper, widths that words beside a drawing may have where they need them."""

MOST_UNDER: Final = 110.0
"""mm on paper that words may take under a drawing; what is over goes to the next page."""

COARSEST: Final = 100.0
"""Beyond the usual scales a drawing is a picture, at the next round hundred."""

BAR_TICK: Final = 1.5

SIGN: Final = 7.0
LINE_HIGH: Final = 5.0
PARAGRAPH: Final = 0.9
PROSE_END: Final = 3.4
HEADING_HIGH: Final = 7.5
BLOCK: Final = 7.0
TABLE_HEAD: Final = 5.6
ROW_HIGH: Final = 6.0
BLANK_HIGH: Final = 12.6
"""mm on paper that blocks take, as the template sets them: for a sign before prose, a line, more between paragraphs,
less after the last, a heading, between blocks, a table's head, its row, and a line to fill in."""

Way = tuple[bool, bool]
"""Whether the paper is turned, and whether the drawing stands beside its figures."""

TALL_BESIDE: Final[Way] = (False, True)
TALL: Final[Way] = (False, False)
WIDE_BESIDE: Final[Way] = (True, True)
WAYS: Final = (TALL_BESIDE, TALL, WIDE_BESIDE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """A drawing's place on its sheet.

    Attributes:
        scale: 20 for 1:20.
        landscape: paper turned.
        share: of the sheet's width, for the drawing as the left column of two; 1 where it stands alone.
        window: floor mm, with the margin and, where it stands upright beside the drawing, the check bar.
        imperial: for the check bar: 4 in, else 100 mm.
        turn: quarter turns of the floor on the paper.
        free: a picture as large as there is room, at no scale that anybody is told, and so with no bar.
    """

    scale: float
    landscape: bool
    share: float
    window: Box
    imperial: bool
    turn: int = 0
    free: bool = False

    @property
    def beside(self) -> bool:
        """Whether the drawing shares the width with a column of figures."""
        return self.share < 1.0

    def paper(self, mm: float) -> float:
        """Returns a length on paper as floor mm."""
        return mm * self.scale

    def view(self, name: str, described: str, items: tuple[Item, ...]) -> View:
        """Returns the view, its check bar under it or, where the height is dear, upright at its right."""
        upright = self.beside and self.landscape and not self.free
        return View(
            name=name,
            described=described,
            scale=self.scale,
            window=self.window,
            items=items,
            turn=self.turn,
            check_bar=not upright and not self.free,
            aside=self._upright_bar() if upright else (),
            is_to_scale=not self.free,
        )

    def _upright_bar(self) -> tuple[Item, ...]:
        length = CHECK_BAR_LENGTH[self.imperial]
        corner = View(name="", described="", scale=self.scale, window=self.window, items=(), turn=self.turn)
        right = corner.width - BAR_TICK
        half = BAR_TICK / 2
        low = min(1.0, corner.height - length)

        def line(*points: tuple[float, float]) -> Line:
            return Line(points=tuple(corner.on_floor(point) for point in points), pen=Pen.MARK)

        return (
            line((right, low), (right, low + length)),
            line((right - half, low), (right + half, low)),
            line((right - half, low + length), (right + half, low + length)),
            line((right - half, low + length / 2), (right, low + length / 2)),
            Text(
                at=corner.on_floor((right - 2.6, low + length / 2)),
                text="must measure 4 in" if self.imperial else "must measure 100 mm",
                size=Size.SMALL,
                angle=np.pi / 2 * (1 - self.turn),
            ),
        )


def box_of(points: Points) -> Box:
    """Returns the box about points, mm."""
    least, most = points.min(axis=0), points.max(axis=0)
    return float(least[0]), float(least[1]), float(most[0]), float(most[1])


def arrange(place: Frame, view: View, side: tuple[Block, ...], after: tuple[Block, ...] = ()) -> tuple[Block, ...]:
    """Returns a drawing with the figures that belong beside it, and what comes after both, as blocks of a sheet.

    Args:
        place: of the drawing.
        view: the drawing.
        side: beside it, or under it where it stands alone.
        after: full width.
    """
    if not place.beside:
        return (view, *side, *after)
    return (Beside(left=(view,), right=side, share=place.share), *after)


def prose_height(blocks: tuple[Block, ...], width: float) -> float:
    """Returns about how high prose, tables and blanks stand in a column, mm on paper; a table's rows on one line."""
    high = 0.0
    for block in blocks:
        match block:
            case Prose():
                wide = width if block.tone in ("plain", "quiet") else width - SIGN
                lines = [lines_needed(line, wide, Size.TEXT) for line in block.lines]
                high += sum(lines) * LINE_HIGH + len(lines) * PARAGRAPH - PROSE_END
            case Table():
                high += TABLE_HEAD + ROW_HIGH * len(block.rows)
            case Blanks():
                high += BLANK_HIGH * -(-len(block.labels) // block.columns)
            case _:
                continue
        high += (HEADING_HIGH if block.heading else 0.0) + BLOCK
    return high - BLOCK


def beside_or_under(
    box: Box,
    side: tuple[Block, ...],
    *,
    paper: str,
    imperial: bool,
    title: str,
    margin: float,
    under: float,
    turn: int = 0,
    free: bool = False,
    columns: tuple[float, ...] = COLUMNS,
    most_under: float = MOST_UNDER,
) -> Frame:
    """Returns the place at which a drawing is largest with all its words on the same page, beside it or under it.

    Args:
        box, paper, imperial, title, margin, turn, free: as for `frame`.
        side: the words that may stand beside it.
        under: mm on paper that they need where they stand under it.
        columns: mm on paper, widths that they may have beside it.
        most_under: mm on paper that they may take under it.
    """

    def place(way: Way, column: float, below: float = 0.0) -> Frame:
        return frame(
            box,
            paper=paper,
            imperial=imperial,
            title=title,
            margin=margin,
            column=column,
            under=below,
            turn=turn,
            ways=(way,),
            free=free,
        )

    def fits(place: Frame) -> bool:
        width, height = body_space(paper, place.landscape)
        return prose_height(side, (width - GUTTER) * (1 - place.share)) <= height - title_height(title, width)

    beside = [place(way, column) for way in (TALL_BESIDE, WIDE_BESIDE) for column in columns]
    return min([*filter(fits, beside), place(TALL, COLUMN, min(under, most_under))], key=lambda one: one.scale)


def frame(
    box: Box,
    *,
    paper: str,
    imperial: bool,
    title: str,
    margin: float,
    column: float = COLUMN,
    under: float = 0.0,
    turn: int = 0,
    ways: tuple[Way, ...] = WAYS,
    free: bool = False,
) -> Frame:
    """Returns the place at which a drawing is largest; of places at one scale the first way is taken.

    On paper upright the check bar stands under the drawing; on paper turned, where the height is dear, at its right.

    Args:
        box: what is drawn, floor mm.
        paper: `A4` or `Letter`.
        imperial: architects' scales and a bar of 4 in.
        title: of the sheet.
        margin: mm on paper about the box, for names and figures.
        column: mm on paper for the column beside it.
        under: mm on paper to leave below it on paper upright.
        turn: quarter turns of the floor on the paper.
        ways: to try.
        free: a picture as large as there is room, at no usual scale.
    """
    room = (column, under)
    places = [
        _place(box, way, paper=paper, imperial=imperial, title=title, margin=margin, room=room, turn=turn, free=free)
        for way in ways
    ]
    return min(places, key=lambda place: place.scale)


def _place(
    box: Box,
    way: Way,
    *,
    paper: str,
    imperial: bool,
    title: str,
    margin: float,
    room: tuple[float, float],
    turn: int,
    free: bool,
) -> Frame:
    """Returns the place in one way. room: mm on paper to leave beside the drawing, and below it on paper upright."""
    landscape, beside = way
    across, up = box[2] - box[0], box[3] - box[1]
    if turn % 2:
        across, up = up, across
    upright = landscape and beside and not free
    bar = CHECK_BAR if upright else 0.0
    body_width, body_height = body_space(paper, landscape)
    width, height = page_space(paper, landscape, title=title)
    if upright or free:
        height = body_height - title_height(title, body_width)
    if beside:
        width = body_width - GUTTER - room[0]
    if not landscape:
        height -= room[1]
    space = (width - 2 * margin - bar, height - 2 * margin)
    scale = _filling((across, up), space) if free else _scale((across, up), space, imperial)
    edge = margin * scale
    window = (box[0] - edge, box[1] - edge, box[2] + edge, box[3] + edge)
    if upright:
        window = _taller(window, max(0.0, (CHECK_BAR_LENGTH[imperial] + 2) * scale - (up + 2 * edge)), turn)
        window = _wider(window, bar * scale, turn)
    used = across / scale + 2 * margin + bar
    if not (upright or free):
        # The bar stands under the drawing: its window is no narrower.
        least = CHECK_BAR_LENGTH[imperial] + 1.5
        window = _taller(window, max(0.0, (least - used) * scale), turn + 1)
        used = max(used, least)
    return Frame(
        scale=scale,
        landscape=landscape,
        share=used / (body_width - GUTTER) if beside else 1.0,
        window=window,
        imperial=imperial,
        turn=turn,
        free=free,
    )


def _filling(extent: tuple[float, float], space: tuple[float, float]) -> float:
    """Returns the scale at which a drawing fills its space."""
    return max(extent[0] / space[0], extent[1] / space[1]) * (1 + COINCIDENT) if min(space) > 0 else float("inf")


def _scale(extent: tuple[float, float], space: tuple[float, float], imperial: bool) -> float:
    if min(space) <= 0:
        return float("inf")
    try:
        return fit_scale(extent, space, imperial)
    except FloorwrightValueError:
        need = max(extent[0] / space[0], extent[1] / space[1])
        return -(-need // COARSEST) * COARSEST


def _wider(window: Box, more: float, turn: int) -> Box:
    """Returns the window with more of it at the right of the paper."""
    x0, y0, x1, y1 = window
    return ((x0, y0, x1 + more, y1), (x0, y0 - more, x1, y1), (x0 - more, y0, x1, y1), (x0, y0, x1, y1 + more))[
        turn % 4
    ]


def _taller(window: Box, more: float, turn: int) -> Box:
    """Returns the window with more of it at the foot and the head of the paper alike; a quarter turn on, at its left
    and its right."""
    x0, y0, x1, y1 = window
    half = more / 2
    return (x0 - half, y0, x1 + half, y1) if turn % 2 else (x0, y0 - half, x1, y1 + half)
