"""Counting what to order: by pieces laid, never by area and a percentage."""

import math
from collections.abc import Sequence

from floorwright.cuts.schedule import CutList
from floorwright.errors import FloorwrightValueError
from floorwright.layout.layout import Layout
from floorwright.takeoff.order import Line, Order


def order(
    *, goods_name: str, layouts: Sequence[Layout], cuts: Sequence[CutList], room_area: float, box: int, spares: int
) -> Order:
    """Returns the order of one kind of goods.

    Every cut piece takes a tile of its own; a plan that takes several from one tile comes with its solver.

    Args:
        goods_name: as the person calls them.
        layouts: of the zones laid in these goods.
        cuts: their cut lists.
        room_area: mm2 of floor, wall to wall.
        box: tiles in a box, 0 if not known.
        spares: tiles to keep for later repairs.
    """
    full = sum(piece.full for layout in layouts for piece in layout.pieces)
    cut = sum(cut_list.tiles for cut_list in cuts)
    boxes, left = boxes_for(full + cut + spares, box)
    laid_area = math.fsum(piece.area for layout in layouts for piece in layout.pieces)
    return Order(
        goods=goods_name,
        full=full,
        cut=cut,
        tiles=full + cut,
        spares=spares,
        box=box,
        boxes=boxes,
        left=left,
        laid_area=laid_area,
        floor_area=room_area,
        lines=_lines(full, cut, spares, box, boxes, left),
    )


def boxes_for(tiles: int, box: int) -> tuple[int, int]:
    """Returns how many boxes hold so many tiles, and the tiles left over from the last one; 0, 0 without a box size.

    >>> boxes_for(320, 12)
    (27, 4)
    """
    if tiles < 0 or box < 0:
        raise FloorwrightValueError(f"cannot order {tiles} tiles in boxes of {box}")
    if not box:
        return 0, 0
    boxes = -(-tiles // box)
    return boxes, boxes * box - tiles


def _lines(full: int, cut: int, spares: int, box: int, boxes: int, left: int) -> tuple[Line, ...]:
    tiles = full + cut
    lines = [
        _line("full", "laid full", full, "tiles", "as they come"),
        _line("cut", "cut", cut, "tiles", "one cut piece from each tile"),
        _line("tiles", "to lay", tiles, "tiles", f"{full} full + {cut} cut, one cut piece from each tile"),
        _line("spares", "spares", spares, "tiles", "kept for later repairs, not laid"),
        _line("order", "to order", tiles + spares, "tiles", f"{tiles} to lay + {spares} spares"),
    ]
    if box:
        basis = f"{tiles + spares} in boxes of {box}, rounded up"
        lines += [
            _line("boxes", "boxes", boxes, "boxes", basis),
            _line("left", "left over", left, "tiles", f"{boxes} x {box} - {tiles + spares}: {_for(left)}"),
        ]
    return tuple(lines)


def _for(left: int) -> str:
    return "for breakages" if left else "nothing for breakages but the spares"


def _line(code: str, what: str, quantity: float, unit: str, basis: str) -> Line:
    return Line(code=code, what=what, quantity=quantity, unit=unit, basis=basis)
