"""What to order: tiles, boxes, and the spares apart, each with its sum."""

from collections.abc import Sequence
from typing import Final

from floorwright.draw.sheet import Blanks, Block, Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import Words, counted, listed, sentence, words_of
from floorwright.takeoff.order import Order

ARRIVED = ("Supplier", "Date", "Lot on every box", "Boxes counted", "Tiles broken", "Checked by")

ONE_EACH = (
    "Each cut piece takes a tile of its own. A plan that re-uses offcuts comes later; it can only need fewer tiles."
)


MANY: Final = 3
"""From so many kinds of goods on they stand in one table; the lists beside the sheets have the sums."""

ONE_OF: Final = {"tiles": "tile", "boxes": "box"}
"""Units of the order as they are said of one."""


def order_sheet(solution: Solution) -> Sheet:
    """Returns the order list, one table for each kind of goods; the solution must have an order."""
    assert solution.orders
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    blocks: list[Block] = []
    if len(solution.orders) >= MANY:
        blocks = [
            Prose(lines=tuple(_size(solution, one, figures) for one in solution.orders)),
            _together(solution, words),
        ]
    for order in solution.orders if not blocks else ():
        lines = (_size(solution, order, figures), _areas(order, figures, alone=len(solution.orders) == 1))
        blocks += [Prose(lines=lines), _table(order, words)]
    alone = len(solution.orders) == 1
    lot = "One lot for the whole floor" if alone else "One lot of each"
    return Sheet(
        key="order",
        title=_title(solution.orders, words),
        blocks=(
            *blocks,
            Blanks(heading="When it comes", labels=ARRIVED, columns=2),
            Prose(lines=(ONE_EACH, f"{lot}: check that every box carries the same number."), tone="quiet"),
        ),
        lists=tuple(
            ("order" if alone else f"order-{number}", _table(order, words))
            for number, order in enumerate(solution.orders, start=1)
        ),
    )


def _size(solution: Solution, order: Order, figures: Figures) -> str:
    goods = [one for one in solution.job.goods if one.name == order.goods]
    if not goods:
        return f"{order.goods}."
    sized = [one for layout in solution.layouts for one in layout.cell.goods if one.size == goods[0].size]
    return f"{order.goods}: {figures.sized(sized[0]) if sized else figures.size(*goods[0].size)}."


def _areas(order: Order, figures: Figures, *, alone: bool) -> str:
    if not alone:
        return f"{figures.area(order.laid_area)} laid in these."
    return f"{figures.area(order.floor_area)} of floor, {figures.area(order.laid_area)} of it tile."


def _title(orders: Sequence[Order], words: Words) -> str:
    if len(orders) > 1:
        return f"Order {listed([_bought(order) for order in orders])}."
    (order,) = orders
    tiles = counted(order.tiles, "tile")
    spares = f" and {words.kept(order.spares)}" if order.spares else ""
    if order.boxes:
        return f"Order {counted(order.boxes, 'box', 'boxes')}: {tiles} to lay{spares}."
    return f"Order {counted(order.tiles + order.spares, 'tile')}: {order.tiles} to lay{spares}."


def _bought(order: Order) -> str:
    bought = counted(order.boxes, "box", "boxes") if order.boxes else str(order.tiles + order.spares)
    return f"{bought} of {order.goods}"


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


def _together(solution: Solution, words: Words) -> Table:
    """Returns the orders of all goods in one table, a column for each."""
    lines = [line for order in solution.orders for line in order.lines]
    # What is said of all kinds of rings in one line comes after the lines of each.
    what = dict.fromkeys(line.what for line in sorted(lines, key=lambda one: one.code == "taper"))
    counts = [{line.what: f"{line.quantity:g}" for line in order.lines} for order in solution.orders]
    return Table(
        columns=(
            Column(heading="What"),
            *(Column(heading=order.goods, align="right", marked=True) for order in solution.orders),
        ),
        rows=tuple((sentence(_trade(one, words))[:-1], *(count.get(one, "") for count in counts)) for one in what),
    )


def _trade(text: str, words: Words) -> str:
    return text.replace("spares", words.spares).replace(" x ", " × ").replace(" - ", " − ")
