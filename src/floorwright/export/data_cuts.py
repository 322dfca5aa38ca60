"""What is sawn and ordered as data: the cut list and the order. `export.data` says how numbers are written."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from floorwright.cuts.frame import FOUR_SIDES
from floorwright.export.data import BULGE_DECIMALS, number, result
from floorwright.export.data_rings import tapers_data
from floorwright.export.data_scoring import saws_data
from floorwright.geometry.measure import area

if TYPE_CHECKING:
    from floorwright.cuts.schedule import ArcCut, CutPiece, SawLine, TileMark
    from floorwright.export.data import Data
    from floorwright.job.solution import Solution
    from floorwright.layout.layout import Layout
    from floorwright.takeoff.order import Order


def cuts_data(solution: Solution) -> Data:
    """Returns the cut list: one cut piece from each tile, so that the tiles are a count and not yet a plan.

    `bound` is what no plan could go under: the area of the cut pieces in tiles, rounded up. In `stock` a piece lies as
    it is marked, in the tile's own frame: x along its bottom side, from its lower left corner.
    """
    return result(
        solution,
        tiles=sum(cuts.tiles for cuts in solution.cuts),
        bound=sum(_tiles_by_area(layout) for layout in solution.layouts),
        status="one cut piece from each tile",
        boxes=sum(order.boxes for order in solution.orders),
        tapers=[taper for layout in solution.layouts for taper in tapers_data(layout)],
        stock=[_stock(cuts.zone, piece) for cuts in solution.cuts for piece in cuts.pieces],
    )


def _tiles_by_area(layout: Layout) -> int:
    tile = max(area(piece) for piece in layout.cell.pieces)
    return ceil(number(sum(piece.area for piece in layout.pieces if not piece.full) / tile))


def _stock(zone: str, piece: CutPiece) -> Data:
    return {
        "id": f"{zone}/{piece.label}",
        "pieces": [
            {
                "id": piece.id,
                "label": piece.label,
                "x_mm": 0.0,
                "y_mm": 0.0,
                "turn_deg": 0.0,
                "outline_mm": [[[number(x), number(y)] for x, y in ring] for ring in piece.outline],
                "walls": list(piece.walls),
                "kind": piece.kind,
                "cut_from": piece.cut_from,
                "thin_mm": number(piece.thin),
                "fat_mm": number(piece.fat),
                "factory": list(piece.factory),
                "same_as": piece.same_as,
            }
        ],
        "saw": [_saw(saw) for saw in piece.saws],
        "arcs": [_arc_cut(arc) for arc in piece.arcs],
        "bores": [
            {
                "wall": bore.wall,
                "centre_mm": [number(value) for value in bore.centre],
                "radius_mm": number(bore.radius),
                "length_mm": number(bore.length),
                "marks": [_tile_mark(mark) for mark in bore.marks],
            }
            for bore in piece.bores
        ],
    }


def _saw(saw: SawLine) -> Data:
    """Returns a saw line; a fence does it only where both marks are as far from one side of the tile."""
    first, last = saw.marks
    sides = [word for word in first.corner.split() if word in last.corner.split()]
    from_edge = sides[0] if first.corner != last.corner and len(sides) == 1 and sides[0] in FOUR_SIDES else None
    true = from_edge is not None and number(first.distance) == number(last.distance)
    return {
        "wall": saw.wall,
        "from_edge": from_edge,
        "fence_mm": number(first.distance) if true else None,
        "marks": [_tile_mark(mark) for mark in saw.marks],
        "start_mm": [number(value) for value in saw.start],
        "end_mm": [number(value) for value in saw.end],
        "length_mm": number(saw.length),
    }


def _arc_cut(arc: ArcCut) -> Data:
    """Returns an arc to saw; `rise_mm` is over 0 where the piece bulges out past the line between the ends."""
    return {
        "wall": arc.wall,
        "start_mm": [number(value) for value in arc.start],
        "end_mm": [number(value) for value in arc.end],
        "marks": [_tile_mark(mark) if mark else None for mark in arc.marks],
        "chord_mm": number(arc.chord),
        "rise_mm": number(arc.rise),
        "radius_mm": number(arc.radius),
        "centre_mm": [number(value) for value in arc.centre],
        "bulge": round(arc.bulge, BULGE_DECIMALS),
        "length_mm": number(arc.length),
        "offsets_mm": [[number(along), number(out)] for along, out in arc.offsets],
    }


def _tile_mark(mark: TileMark) -> Data:
    return {"side": mark.side, "corner": mark.corner, "distance_mm": number(mark.distance)}


def takeoff_data(solution: Solution) -> Data:
    """Returns the order of each kind of goods, and all their lines as one table."""
    return result(
        solution,
        goods=[_goods(order) for order in solution.orders],
        lines=[
            {
                "goods": order.goods,
                "code": line.code,
                "what": line.what,
                "quantity": number(line.quantity),
                "unit": line.unit,
                "basis": line.basis,
            }
            for order in solution.orders
            for line in order.lines
        ],
        scoring=saws_data(solution.scored),
    )


def _goods(order: Order) -> Data:
    return {
        "name": order.goods,
        "counts": {"full": order.full, "cut": order.cut, "tiles": order.tiles, "spares": order.spares},
        "boxes": order.boxes,
        "left": order.left,
    }
