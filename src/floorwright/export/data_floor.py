"""What lies on the floor as data: the layout, its options and its proof. `export.data` says how numbers are written."""

from __future__ import annotations

from math import degrees
from typing import TYPE_CHECKING

from floorwright.export.data import BULGE_DECIMALS, M2, number, result
from floorwright.export.data_refit import refit_data
from floorwright.export.data_rings import rings_data
from floorwright.export.data_scoring import scoring_data
from floorwright.export.data_sums import sums_data
from floorwright.layout.kinds import counts_by_kind

if TYPE_CHECKING:
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
