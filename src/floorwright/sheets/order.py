"""What to order: tiles, boxes, and the spares apart, each with its sum."""

from typing import Final

from floorwright.draw.sheet import Blanks, Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import Words, counted, sentence, words_of
from floorwright.takeoff.order import Order

ARRIVED = ("Supplier", "Date", "Lot on every box", "Boxes counted", "Tiles broken", "Checked by")

ONE_EACH = (
    "Each cut piece takes a tile of its own. A plan that re-uses offcuts comes later; it can only need fewer tiles."
)


ONE_OF: Final = {"tiles": "tile", "boxes": "box"}
"""Units of the order as they are said of one."""


def order_sheet(solution: Solution) -> Sheet:
    """Returns the order list; the solution must have an order."""
    order = solution.order
    assert order is not None
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    goods = [one for one in solution.job.goods if one.name == order.goods]
    size = f"{order.goods}: {figures.size(*goods[0].size)}." if goods else f"{order.goods}."
    counted_up = _table(order, words)
    return Sheet(
        key="order",
        title=_title(order, words),
        blocks=(
            Prose(
                lines=(size, f"{figures.area(order.floor_area)} of floor, {figures.area(order.laid_area)} of it tile.")
            ),
            counted_up,
            Blanks(heading="When it comes", labels=ARRIVED, columns=2),
            Prose(
                lines=(ONE_EACH, "One lot for the whole floor: check that every box carries the same number."),
                tone="quiet",
            ),
        ),
        lists=(("order", counted_up),),
    )


def _title(order: Order, words: Words) -> str:
    tiles = counted(order.tiles, "tile")
    spares = f" and {words.kept(order.spares)}" if order.spares else ""
    if order.boxes:
        return f"Order {counted(order.boxes, 'box', 'boxes')}: {tiles} to lay{spares}."
    return f"Order {counted(order.tiles + order.spares, 'tile')}: {order.tiles} to lay{spares}."


def _table(order: Order, words: Words) -> Table:
    return Table(
        columns=(
            Column(heading="What"),
            Column(heading="How many", align="right", marked=True),
            Column(heading=""),
            Column(heading="How it was counted"),
        ),
        rows=tuple(
            (
                sentence(_trade(line.what, words))[:-1],
                f"{line.quantity:g}",
                ONE_OF.get(line.unit, line.unit) if line.quantity == 1 else line.unit,
                sentence(_trade(line.basis, words)),
            )
            for line in order.lines
        ),
    )


def _trade(text: str, words: Words) -> str:
    return text.replace("spares", words.spares).replace(" x ", " × ").replace(" - ", " − ")
