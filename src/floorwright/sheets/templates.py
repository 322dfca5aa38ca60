"""Tapered pieces at true size: one template for each ring, over several pages where it is larger than the paper."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from floorwright.draw.lettering import text_width
from floorwright.draw.paper import page_space
from floorwright.draw.sheet import Block, Prose, Sheet
from floorwright.draw.style import CAP_HEIGHT, Pen, Size
from floorwright.draw.view import Cross, Dimension, Item, Line, Point, Text, View
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.pattern.ring import Ring
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import counted

EDGE: Final = 11.0
"""mm on paper over and under a template, for its figures."""

SIDE: Final = 3.0
"""mm on paper beside it."""

CAPTION: Final = 7.0
"""mm on paper under it, for its name."""

FIRST_PAGE: Final = 26.0
"""mm on paper that the words above the first template take."""

LAP: Final = 20.0
"""mm that neighbouring pages of one template have in common: both show the figure up the middle."""

NAME_STEP: Final = 4.0
"""mm on paper from one place that is tried for a page's name to the next."""

NAME_CLEAR: Final = 6.0
"""mm on paper that it keeps off a cross and its letter."""

ROW: Final = 6.0
"""mm on paper from an edge to the line of its dimension."""

HOW: Final = (
    "Print at full size and measure the bar on every page before you trust it: 100 mm, or 4 in.",
    "Thick sides are sawn, thin ones are the factory's; the dashed line is the piece as it comes.",
)

TAPED: Final = "Tape pages of one template together so that the crosses of one name lie on each other."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """A page of a template: its window, and which it is of how many."""

    window: tuple[float, float, float, float]
    number: int
    count: int


def templates_sheet(solution: Solution, layout: Layout) -> Sheet | None:
    """Returns the templates of a zone of rings; None where no piece is tapered."""
    rings = layout.rings
    tapered = [(name, one) for name, one in zip(rings.names, rings.rings, strict=True) if one.tapered] if rings else []
    if not tapered:
        return None
    figures = Figures(style=solution.style)
    title = f"Taper templates of zone {layout.zone} at true size: {counted(len(tapered), 'ring')}."
    width, height = page_space(solution.job.paper, title=title)
    views = [view for name, one in tapered for view in _views(name, one, (width, height - FIRST_PAGE), figures)]
    taped = any(len(_pages(one, (width, height - FIRST_PAGE))) > 1 for _, one in tapered)
    blocks: tuple[Block, ...] = (Prose(lines=(*HOW, *((TAPED,) if taped else ())), tone="quiet"), *views)
    return Sheet(key="templates", title=title, blocks=blocks)


def _box(one: Ring) -> tuple[float, float, float, float]:
    """About the goods and their figures; the middle of the inside edge is the origin, up is outward."""
    half = max(one.unit, *one.widths) / 2
    return -half - SIDE, -EDGE - CAPTION, half + SIDE, one.depth + EDGE


def _pages(one: Ring, space: tuple[float, float]) -> list[_Page]:
    """One window where the paper holds it, else as many as it takes, lapped."""
    x0, y0, x1, y1 = _box(one)
    count = tuple(
        max(1, math.ceil((size - LAP) / (room - LAP))) for size, room in zip((x1 - x0, y1 - y0), space, strict=True)
    )
    wide, high = ((size + (n - 1) * LAP) / n for size, n in zip((x1 - x0, y1 - y0), count, strict=True))
    windows = [
        (x0 + i * (wide - LAP), y0 + j * (high - LAP), x0 + i * (wide - LAP) + wide, y0 + j * (high - LAP) + high)
        for j in reversed(range(count[1]))
        for i in range(count[0])
    ]
    return [_Page(window=window, number=n, count=len(windows)) for n, window in enumerate(windows, start=1)]


def _views(name: str, one: Ring, space: tuple[float, float], figures: Figures) -> Iterator[View]:
    items = tuple(_items(one, figures))
    pages = _pages(one, space)
    crosses = tuple(_crosses(pages))
    for page in pages:
        part = f", page {page.number} of {page.count}" if page.count > 1 else ""
        said = f"{name}, {counted(one.pieces, 'piece')}{part}"
        at = _free_place(said, page.window, one, crosses)
        caption = Text(at=at, text=said, size=Size.TEXT, anchor="start", halo=True)
        yield View(
            name=f"template {name}{f' {page.number}' if page.count > 1 else ''}",
            described=f"The tapered piece of {name} at true size{part}.",
            scale=1.0,
            window=page.window,
            items=(*items, *crosses, caption),
        )


def _free_place(said: str, window: tuple[float, float, float, float], one: Ring, crosses: Iterable[Item]) -> Point:
    """Where a page's name stands clear of the template's sides and crosses: low on the page and left, if it can."""
    import shapely

    x0, y0, x1, y1 = window
    wide, high = text_width(said, Size.TEXT), CAP_HEIGHT[Size.TEXT]
    inner, outer = (width / 2 for width in one.widths)
    half, depth = one.unit / 2, one.depth
    drawn = shapely.union_all([
        *(shapely.LineString([(x, -EDGE), (x, depth + EDGE)]) for x in (-half, -ROW, 0.0, half)),
        *(shapely.LineString([(side * inner, 0.0), (side * outer, depth)]) for side in (-1, 1)),
        *(shapely.LineString([(-half, y), (half, y)]) for y in (-ROW, 0.0, depth, depth + ROW)),
        *(shapely.Point(cross.at).buffer(NAME_CLEAR) for cross in crosses if isinstance(cross, Cross)),
    ])  # fmt: skip
    rights = [x0 + 2.0 + step * NAME_STEP for step in range(max(int((x1 - x0 - wide - 4.0) / NAME_STEP), 0) + 1)]
    ups = [y0 + 3.0 + step * NAME_STEP for step in range(max(int((y1 - y0 - high - 4.0) / NAME_STEP), 0) + 1)]
    places = [(x, y) for y in ups for x in rights]
    for x, y in places:
        box = shapely.box(x - 1.0, y - high / 2 - 1.0, x + wide + 1.0, y + high / 2 + 1.0)
        if not shapely.intersects(drawn, box):
            return x, y
    return places[0]


def _items(one: Ring, figures: Figures) -> Iterator[Item]:
    inner, outer = (width / 2 for width in one.widths)
    half, depth = one.unit / 2, one.depth
    goods = ((-half, 0.0), (half, 0.0), (half, depth), (-half, depth))
    yield Line(points=goods, pen=Pen.HIDDEN, closed=True)
    yield Line(points=((-inner, 0.0), (inner, 0.0)), pen=Pen.FACTORY)
    yield Line(points=((-outer, depth), (outer, depth)), pen=Pen.FACTORY)
    for side in (-1, 1):
        yield Line(points=((side * inner, 0.0), (side * outer, depth)), pen=Pen.SAWN)
    yield Line(points=((0.0, 0.0), (0.0, depth)), pen=Pen.CONTROL)
    # A dimension lies to the left of the way from its start to its end.
    yield Dimension(start=(-outer, depth), end=(outer, depth), offset=ROW, text=figures.cut(one.widths[1]))
    yield Dimension(start=(-inner, 0.0), end=(inner, 0.0), offset=-ROW, text=figures.cut(one.widths[0]))
    # Upright along the middle, where even a small wedge has room.
    yield Dimension(start=(0.0, 0.0), end=(0.0, depth), offset=ROW, text=figures.entered(depth))


def _crosses(pages: list[_Page]) -> Iterator[Item]:
    """Two crosses in every lap, each on both pages."""
    places: dict[tuple[float, float], None] = {}
    for n, page in enumerate(pages):
        for other in pages[:n]:
            low = tuple(max(a, b) for a, b in zip(page.window[:2], other.window[:2], strict=True))
            high = tuple(min(a, b) for a, b in zip(page.window[2:], other.window[2:], strict=True))
            wide, tall = high[0] - low[0], high[1] - low[1]
            if min(wide, tall) <= 0 or max(wide, tall) <= LAP * 1.5:
                continue
            for share in (0.25, 0.75):
                at = (low[0] + wide * share, low[1] + tall / 2) if wide > tall else (
                    low[0] + wide / 2, low[1] + tall * share
                )  # fmt: skip
                places.setdefault((round(at[0], 6), round(at[1], 6)))
    for number, at in enumerate(places):
        yield Cross(at=at, label=chr(ord("a") + number % 26))
