"""Counting what to order: by pieces laid, never by area and a percentage."""

import math
from collections import Counter
from collections.abc import Iterator, Sequence

from floorwright.cuts.schedule import CutList
from floorwright.errors import FloorwrightValueError
from floorwright.layout.layout import Layout
from floorwright.takeoff.order import Line, Order


def order(
    *,
    goods_name: str,
    layouts: Sequence[Layout],
    cuts: Sequence[CutList],
    room_area: float,
    box: int,
    spares: int,
    kinds: Sequence[frozenset[str]] = (),
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
        kinds: of each layout, the kinds of piece in its pattern that are these goods; empty where all are.
    """
    of = tuple(kinds) or (frozenset(),) * len(layouts)
    pieces = [
        (layout.cell.kind(piece.index[2]), piece)
        for layout, own in zip(layouts, of, strict=True)
        for piece in layout.pieces
        if not own or layout.cell.kind(piece.index[2]) in own
    ]
    full = sum(piece.full for _, piece in pieces)
    cut = sum(
        sum(piece.cut_from in own for piece in listed.pieces) if own else listed.tiles
        for listed, own in zip(cuts, of, strict=True)
    )
    laid = Counter(kind for kind, _ in pieces)
    kinds_of = ((*(one.name for one in layout.cell.goods), *layout.cell.kinds) for layout in layouts)
    in_order = dict.fromkeys(kind for kinds in kinds_of for kind in kinds if kind in laid)
    boxes, left = boxes_for(full + cut + spares, box)
    laid_area = math.fsum(piece.area for _, piece in pieces)
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
        lines=(
            *_lines(full, cut, spares, box, boxes, left),
            *_kind_lines(laid, tuple(in_order)),
            *_taper_lines(sum(laid[kind] for kind in _tapered(layouts))),
        ),
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


def _kind_lines(laid: Counter[str], kinds: tuple[str, ...]) -> list[Line]:
    """Returns how many of each kind, where these goods come in several: left-hand and right-hand ones, shades."""
    if len(kinds) < 2:
        return []
    return [_line("kind", f"of these {kind}", laid[kind], "tiles", "full and cut, to lay") for kind in kinds]


def _tapered(layouts: Sequence[Layout]) -> Iterator[str]:
    """The rings whose pieces are sawn to a wedge."""
    for rings in (layout.rings for layout in layouts):
        if rings is not None:
            yield from (name for name, one in zip(rings.names, rings.rings, strict=True) if one.tapered)


def _taper_lines(count: int) -> list[Line]:
    return [_line("taper", "sawn to a wedge", count, "tiles", "of those to lay")] if count else []


def _for(left: int) -> str:
    return "for breakages" if left else "nothing for breakages but the spares"


def _line(code: str, what: str, quantity: float, unit: str, basis: str) -> Line:
    return Line(code=code, what=what, quantity=quantity, unit=unit, basis=basis)
