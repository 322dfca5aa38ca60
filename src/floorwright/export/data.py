"""Results as data, for `--json` and for the web API: lengths in mm, angles in degrees, the unit in every key.

Numbers are rounded to 1e-4 mm, so that last-bit differences between machines change nothing.
"""

from __future__ import annotations

import json
from math import degrees
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Iterable

    from floorwright.control.control import ControlLine, Mark, Step
    from floorwright.findings import Finding
    from floorwright.geometry.region import Points
    from floorwright.job.solution import Solution
    from floorwright.layout.layout import Layout
    from floorwright.layout.option import Option, Proof, WallCut

SCHEMA: Final = 1
DECIMALS: Final = 4
ARCSEC: Final = 3600.0
M2: Final = 1e-6

Data = dict[str, Any]


def number(value: float) -> float:
    """Returns a value rounded as every number here, with no negative zero."""
    return round(float(value), DECIMALS) + 0.0


def as_json(data: Data) -> str:
    """Returns the text of a result: sorted as made, two spaces, a line end."""
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"


def findings_data(findings: Iterable[Finding]) -> list[dict[str, str]]:
    """Returns findings as objects."""
    return [finding.as_dict() for finding in findings]


def _result(solution: Solution, **keys: Any) -> Data:
    return {"schema": SCHEMA, "units": "mm", **keys, "findings": findings_data(solution.findings)}


def check_data(solution: Solution) -> Data:
    """Returns the findings of everything and nothing else."""
    return _result(solution)


def survey_data(solution: Solution) -> Data:
    """Returns the adjusted readings."""
    adjustment = solution.survey.adjustment
    if adjustment is None:
        return _result(solution, points={}, observations=[], suspects=[], corners=[])
    spread = adjustment.variance_factor**0.5
    variances = adjustment.covariance.diagonal().reshape(-1, 2)
    points = {}
    for name, (x, y), (variance_x, variance_y) in zip(adjustment.points, adjustment.xy, variances, strict=True):
        sd_x, sd_y = max(variance_x, 0.0) ** 0.5, max(variance_y, 0.0) ** 0.5
        points[name] = {"x_mm": number(x), "y_mm": number(y), "sd_x_mm": number(sd_x), "sd_y_mm": number(sd_y)}
        if adjustment.degrees_of_freedom:
            points[name] |= {
                "sd_a_posteriori_x_mm": number(sd_x * spread),
                "sd_a_posteriori_y_mm": number(sd_y * spread),
            }
    observations = []
    for residual in adjustment.residuals:
        angle = residual.kind == "square"
        scale, unit = (degrees(1.0), "deg") if angle else (1.0, "mm")
        observations.append(
            {
                "key": residual.key,
                "kind": residual.kind,
                "unit": unit,
                "measured": number(residual.measured * scale),
                "adjusted": number(residual.adjusted * scale),
                "residual": number(residual.residual * scale),
                "sd": number(residual.sd * scale),
                "redundancy": number(residual.redundancy),
                "standardised": number(residual.standardised),
                "slip": number(residual.slip * scale),
                "suspect": residual.suspect,
            }
        )
    return _result(
        solution,
        points=points,
        observations=observations,
        degrees_of_freedom=adjustment.degrees_of_freedom,
        variance_factor=number(adjustment.variance_factor),
        suspects=list(adjustment.suspects),
        corners=[
            {"name": corner.name, "angle_deg": number(degrees(corner.angle))}
            for corner in (solution.room.corners if solution.room else ())
        ],
        area_m2=number(solution.survey.area * M2),
        perimeter_mm=number(solution.survey.perimeter),
    )


def _mark(mark: Mark) -> Data:
    return {
        "name": mark.name,
        "on": mark.on,
        "from": mark.start,
        "distance_mm": number(mark.distance),
        "x_mm": number(mark.x),
        "y_mm": number(mark.y),
        "sd_mm": number(mark.sd),
    }


def _line(line: ControlLine) -> Data:
    return {
        "name": line.name,
        "angle_deg": number(degrees(line.angle)),
        "marks": [_mark(mark) for mark in line.marks],
        "sd_angle_arcsec": number(degrees(line.sd_angle) * ARCSEC),
        "drift": [{"at_mm": number(drift.at), "sd_mm": number(drift.sd)} for drift in line.drift],
    }


def _step(step: Step) -> Data:
    return {
        "number": step.number,
        "action": step.action,
        "tool": step.tool,
        "from": step.start,
        "to": step.end,
        "radius_mm" if step.action == "arc" else "length_mm": number(step.length),
        "points": {name: {"x_mm": number(x), "y_mm": number(y)} for name, x, y in step.points},
    }


def control_data(solution: Solution) -> Data:
    """Returns the control lines, constructions, checks and the snap list."""
    control = solution.control
    if control is None:
        return _result(solution, lines=[], constructions=[], checks=[])
    return _result(
        solution,
        centre={"x_mm": number(control.centre[0]), "y_mm": number(control.centre[1]), "how": control.centre_how},
        first_line=control.first_how,
        lines=[_line(line) for line in control.lines],
        constructions=[
            {
                "makes": construction.makes,
                "method": construction.method,
                "size_mm": number(construction.size),
                "sd_angle_arcsec": number(degrees(construction.sd_angle) * ARCSEC),
                "chosen": construction.chosen,
                "steps": [_step(step) for step in construction.steps],
            }
            for construction in control.constructions
        ],
        checks=[
            {
                "between": list(check.between),
                "expected_mm": number(check.expected),
                "allow_mm": number(check.allow),
                "why": check.why,
            }
            for check in control.checks
        ],
        snap=[
            {
                "name": line.name,
                "running_mm": number(line.running),
                "angle_deg": number(degrees(line.angle)),
                "through": line.through,
                "marks": [_mark(mark) for mark in line.marks],
            }
            for line in (solution.snap.lines if solution.snap else ())
        ],
        zero=solution.snap.zero if solution.snap else "",
    )


def _wall(wall: WallCut) -> Data:
    return {
        "name": wall.wall,
        "start_mm": number(wall.start),
        "end_mm": number(wall.end),
        "tile_mm": number(wall.tile),
        "taper_mm_per_tile": number(wall.taper),
        "fits": wall.fits,
        "over_mm": number(wall.over),
    }


def _option(option: Option) -> Data:
    return {
        "name": option.name,
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
        "refused": option.refused,
        "walls": [_wall(wall) for wall in option.walls],
    }


def _proof(proof: Proof) -> Data:
    unit = "count" if proof.aim.startswith("fewest") else "mm"
    return {
        "status": proof.status,
        "aim": proof.aim,
        "axis": proof.axis,
        "joint_mm": number(proof.joint),
        f"best_{unit}": number(proof.best),
        f"bound_{unit}": number(proof.bound),
        "shortfall": number(proof.shortfall),
        "tolerance": number(proof.tolerance),
        "why": proof.why,
    }


def _ring(ring: Points) -> list[list[float]]:
    return [[number(x), number(y)] for x, y in ring]


def _zone(layout: Layout, labels: dict[str, str]) -> Data:
    return {
        "name": layout.zone,
        "pattern": layout.cell.name,
        **{key: value for key, value in _option(layout.chosen).items() if key not in {"refused", "walls"}},
        "gap_mm": {"least": number(layout.gap[0]), "most": number(layout.gap[1])},
        "limit_mm": number(layout.limit),
        "pieces": [
            {
                "id": piece.id,
                "label": labels.get(piece.id, ""),
                "full": piece.full,
                "outline_mm": [_ring(ring) for ring in piece.rings],
                "area_mm2": number(piece.area),
                "narrowest_mm": number(piece.narrowest),
            }
            for piece in layout.pieces
        ],
        "proof": [_proof(proof) for proof in layout.proofs],
        "options": [_option(option) for option in layout.options],
        "walls": [_wall(wall) for wall in layout.chosen.walls],
    }


def layout_data(solution: Solution) -> Data:
    """Returns every zone: counts, pieces, proof, options and the cut at both ends of every wall."""
    labels = {piece.id: piece.label for cuts in solution.cuts for piece in cuts.pieces}
    return _result(solution, zones=[_zone(layout, labels) for layout in solution.layouts])


def cuts_data(solution: Solution) -> Data:
    """Returns the cut list: one cut piece from a tile, so the number of tiles is a count and not a plan."""
    return _result(
        solution,
        tiles=sum(cuts.tiles for cuts in solution.cuts),
        status="one cut piece from each tile",
        boxes=solution.order.boxes if solution.order else 0,
        pieces=[
            {
                "id": piece.id,
                "label": piece.label,
                "walls": list(piece.walls),
                "kind": piece.kind,
                "thin_mm": number(piece.thin),
                "fat_mm": number(piece.fat),
                "factory": list(piece.factory),
                "same_as": piece.same_as,
                "saw": [
                    {
                        "wall": saw.wall,
                        "from_mm": [number(value) for value in saw.start],
                        "to_mm": [number(value) for value in saw.end],
                        "from_mark_mm": None if saw.start_mark is None else number(saw.start_mark),
                        "to_mark_mm": None if saw.end_mark is None else number(saw.end_mark),
                        "length_mm": number(saw.length),
                    }
                    for saw in piece.saws
                ],
            }
            for cuts in solution.cuts
            for piece in cuts.pieces
        ],
    )


def takeoff_data(solution: Solution) -> Data:
    """Returns the order as a table."""
    order = solution.order
    if order is None:
        return _result(solution, lines=[])
    return _result(
        solution,
        goods=order.goods,
        counts={"full": order.full, "cut": order.cut, "tiles": order.tiles, "spares": order.spares},
        boxes=order.boxes,
        left=order.left,
        lines=[
            {
                "code": line.code,
                "what": line.what,
                "quantity": number(line.quantity),
                "unit": line.unit,
                "basis": line.basis,
            }
            for line in order.lines
        ],
    )
