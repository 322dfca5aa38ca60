"""What lies on the floor as data: the layout, the cuts and the order. `export.data` says how numbers are written."""

from __future__ import annotations

from math import ceil, degrees
from typing import TYPE_CHECKING

from floorwright.cuts.frame import FOUR_SIDES
from floorwright.export.data import BULGE_DECIMALS, M2, number, result
from floorwright.export.data_refit import refit_data
from floorwright.export.data_rings import rings_data, tapers_data
from floorwright.export.data_scoring import saws_data, scoring_data
from floorwright.export.data_sums import sums_data
from floorwright.geometry.measure import area
from floorwright.layout.kinds import counts_by_kind

if TYPE_CHECKING:
    from floorwright.cuts.schedule import ArcCut, CutPiece, SawLine, TileMark
    from floorwright.export.data import Data
    from floorwright.geometry.region import Points
    from floorwright.geometry.restore import Outline
    from floorwright.job.lay.bordered import Bordered
    from floorwright.job.solution import Solution
    from floorwright.layout.aims import Reached
    from floorwright.layout.change import Change
    from floorwright.layout.layout import Layout
    from floorwright.layout.option import Option, Proof, WallCut
    from floorwright.layout.trade_off import Trade
    from floorwright.layout.way_out import Trouble, WayOut
    from floorwright.takeoff.order import Order


def wall_data(wall: WallCut) -> Data:
    """Returns the cut at both ends of a wall."""
    return {
        "name": wall.wall,
        "start_mm": number(wall.start),
        "end_mm": number(wall.end),
        "tile_mm": number(wall.tile),
        "taper_mm_per_tile": number(wall.taper),
        "fits": wall.fits,
        "over_mm": number(wall.over),
    }


def scores_data(option: Option) -> Data:
    """Returns where an option lies and what its pieces come to."""
    return {
        "origin_mm": [number(value) for value in option.placement.origin],
        "angle_deg": number(degrees(option.placement.angle)),
        "joint_mm": number(option.joint),
        "counts": {"full": option.full, "cut": option.cut},
        "narrowest_mm": number(option.worst),
        "narrowest_piece": option.worst_piece,
        "thinnest_end_mm": number(option.worst_thin),
        "under_limit": option.under,
        "shaken_mm": number(option.shaken),
        "fragile": option.fragile,
    }


def _option(layout: Layout, option: Option) -> Data:
    return {
        "zone": layout.zone,
        "name": option.name,
        "chosen": option is layout.chosen,
        "refused": option.refused,
        **scores_data(option),
        "aims": [_figure(value) for value in option.figures],
        "lines_up": list(option.lines_up),
        "decides": list(option.decides),
        "walls": [wall_data(wall) for wall in option.walls],
    }


def _way_out(layout: Layout, trouble: Trouble, way: WayOut) -> Data:
    return {
        "zone": layout.zone,
        "wall": way.wall,
        "position": way.position,
        "found": trouble.found,
        "how": way.how,
        "by_mm": number(way.by),
        "over_mm": number(way.over),
        "turn_deg": number(degrees(way.turn)),
        "needs": way.needs,
        "note": way.note,
        "option": way.option.name,
        **scores_data(way.option),
        "walls": [wall_data(wall) for wall in way.option.walls],
    }


def _figure(value: float | None) -> float | None:
    return None if value is None else number(value)


def _trade(trade: Trade) -> Data:
    return {
        "cut": trade.cut,
        "narrowest_mm": number(trade.worst),
        "least_mm": number(trade.least),
        "origin_mm": [number(value) for value in trade.placement.origin],
        "status": trade.status,
    }


def _reached(reached: Reached) -> Data:
    """Returns an aim with its status; figures are mm, or a number where the aim is one."""
    aim = reached.aim
    return {
        "aim": aim.name,
        "unit": aim.unit,
        "under_mm": number(aim.limit),
        "at_most": aim.at_most,
        "within": number(aim.within),
        "walls": list(aim.walls),
        "visible": aim.visible,
        "on": aim.on,
        "source": "yours" if aim.own else "our default",
        "reached": _figure(reached.value),
        "best_option": _figure(reached.best),
        "kept": reached.kept,
        "status": reached.status,
        "bound": _figure(reached.bound),
        "tolerance": number(reached.tolerance),
        "why": reached.why,
        "decided": reached.decided,
        "ruled_out": reached.ruled_out,
    }


def _change(change: Change) -> Data:
    return {
        "aim": change.aim,
        "moves": [{"wall": wall, "out_mm": number(by)} for wall, by in change.moves],
        "joint_mm": None if change.joint is None else number(change.joint),
        "border": None if change.border is None else {"zone": change.border[0], "width_mm": number(change.border[1])},
        "exact": change.exact,
        "option": change.option.name,
        "before": scores_data(change.before),
        "after": scores_data(change.option),
    }


def _proof(proof: Proof) -> Data:
    unit = "count" if proof.aim.startswith("fewest") else "mm"
    return {
        "status": proof.status,
        "aim": proof.aim,
        "joint_mm": number(proof.joint),
        "angle_deg": None if proof.angle is None else number(degrees(proof.angle)),
        "span_deg": None if proof.span is None else [number(degrees(end)) for end in proof.span],
        "axis": proof.axis,
        f"best_{unit}": number(proof.best),
        f"bound_{unit}": number(proof.bound),
        "shortfall": number(proof.shortfall),
        "tolerance": number(proof.tolerance),
        "why": proof.why,
        "walls": list(proof.walls),
        "decides": list(proof.decides),
        "possible": proof.possible,
    }


def _proof_of(layout: Layout) -> Data | None:
    """Returns what is proved of the joint that is laid; the narrower axis tells, where each has a proof of its own."""
    proofs = [proof for proof in layout.proofs if proof.tells_of(layout.chosen) and proof.number < 0]
    return _proof(min(proofs, key=lambda proof: (proof.best, proof.axis))) if proofs else None


def _ring(ring: Points) -> list[list[float]]:
    return [[number(x), number(y)] for x, y in ring]


def _curved(outline: Outline) -> list[list[float]]:
    """A ring with its true arcs: x, y and, for the side that starts there, its bulge."""
    points = zip(outline.points, outline.bulges, strict=True)
    return [[number(x), number(y), round(bulge, BULGE_DECIMALS)] for (x, y), bulge in points]


def _zone(layout: Layout, labels: dict[str, str]) -> Data:
    return {
        "name": layout.zone,
        "kind": layout.part.kind if layout.part else "field",
        "zone": layout.part.zone if layout.part else layout.zone,
        "pattern": layout.cell.name,
        "kinds": [{"name": one.kind, "counts": {"full": one.full, "cut": one.cut}} for one in counts_by_kind(layout)],
        "option": layout.chosen.name,
        **scores_data(layout.chosen),
        "gap_mm": {"least": number(layout.gap[0]), "most": number(layout.gap[1])},
        "limit_mm": number(layout.limit),
        "region_mm": [_ring(ring) for ring in layout.region.rings],
        "repeat_mm": _ring(layout.cell.repeat),
        "repeat_pieces_mm": [_ring(piece) for piece in layout.cell.pieces],
        "pieces": [
            {
                "id": piece.id,
                "label": labels.get(piece.id, ""),
                "full": piece.full,
                "kind": layout.cell.kind(piece.index[2]),
                "outline_mm": [_ring(ring) for ring in piece.rings],
                **({"curved_mm": [_curved(outline) for outline in piece.outlines]} if piece.outlines else {}),
                "area_mm2": number(piece.area),
                "narrowest_mm": number(piece.narrowest),
            }
            for piece in layout.pieces
        ],
        "aims": [_reached(reached) for reached in layout.aims],
        "lines_up": list(layout.chosen.lines_up),
        "rooms": [
            {
                "name": part.room,
                "area_m2": number(part.area * M2),
                "counts": {"full": part.full, "cut": part.cut},
                "narrowest_mm": number(part.worst),
                "narrowest_piece": part.worst_piece,
                "decides": part.decides,
            }
            for part in layout.rooms
        ],
        "trade_off": [_trade(trade) for trade in layout.trade_off],
        "rings": rings_data(layout),
        "proof": _proof_of(layout),
        "proofs": [_proof(proof) for proof in layout.proofs],
    }


def layout_data(solution: Solution) -> Data:
    """Returns every zone with its pieces and proof, all options ranked, and the cut at both ends of every wall."""
    labels = {piece.id: piece.label for cuts in solution.cuts for piece in cuts.pieces}
    return result(
        solution,
        zones=[_zone(layout, labels) for layout in solution.layouts],
        options=[_option(layout, option) for layout in solution.layouts for option in layout.options],
        walls=[{"zone": layout.zone, **wall_data(wall)} for layout in solution.layouts for wall in layout.chosen.walls],
        sums=sums_data(solution),
        ways_out=[
            _way_out(layout, trouble, way)
            for layout in solution.layouts
            for trouble in layout.troubles
            for way in trouble.ways
        ],
        changes=[_change(change) for change in solution.changes],
        refit=None if solution.refit is None else refit_data(solution.refit),
        border=_border(solution.border) if solution.border else None,
        scoring=scoring_data(solution.scored),
        breaks=[
            {
                "name": meeting.threshold.name,
                "zones": list(meeting.zones),
                "rooms": list(meeting.threshold.rooms),
                "line_mm": [[number(x), number(y)] for x, y in (meeting.threshold.start, meeting.threshold.end)],
                "kept_free_mm": number(meeting.width),
                "strip": meeting.is_strip,
            }
            for meeting in solution.breaks
        ],
    )


def _border(border: Bordered) -> Data:
    """Returns what there is to choose from for a border of free width."""
    found = border.found
    return {
        "zone": border.zone,
        "finishes_on": found.what if found else "",
        "spacing_mm": [number(mm) for mm in found.spacing] if found else [],
        "apart": [{"joint_mm": number(at), "apart_mm": number(mm)} for at, mm in found.apart.items()] if found else [],
        "choices": [
            {
                "name": choice.name,
                "chosen": choice is border.chosen,
                "finishes": choice.finishes,
                "widths_mm": {wall: number(mm) for wall, mm in choice.widths.items()},
                "miss_mm": {wall: number(mm) for wall, mm in choice.miss.items()},
                "moved_mm": number(choice.moved),
            }
            for choice in (found.choices if found else ())
        ],
    }


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
