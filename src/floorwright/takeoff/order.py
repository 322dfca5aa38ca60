"""The order list."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of the order: what, how many, of what unit, and the sum behind it in words."""

    code: str
    what: str
    quantity: float
    unit: str
    basis: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """The order of a job.

    Attributes:
        goods: name of the goods.
        full, cut: tiles laid full, and tiles cut (one cut piece from each).
        tiles: full + cut.
        spares: tiles kept for later repairs, apart from what is laid.
        box: tiles in a box, 0 if not known.
        boxes: to order, 0 if not known.
        left: tiles left over from the last box once spares are put by.
        laid_area: mm2 of pieces.
        floor_area: mm2 wall to wall.
        lines: the same and more as a table.
    """

    goods: str
    full: int
    cut: int
    tiles: int
    spares: int
    box: int
    boxes: int
    left: int
    laid_area: float
    floor_area: float
    lines: tuple[Line, ...]
