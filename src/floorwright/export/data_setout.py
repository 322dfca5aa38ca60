"""What is marked on the floor as data: nodes, ties, gauge rods, the working grid and coordinates."""

from __future__ import annotations

from math import degrees
from typing import TYPE_CHECKING

from floorwright.control.accuracy import drift
from floorwright.control.readings import called
from floorwright.export.data import control_data, number
from floorwright.export.data_steps import steps_data
from floorwright.job.inputs.inputs import tools

if TYPE_CHECKING:
    from floorwright.control.choices import Tools
    from floorwright.control.control import Control
    from floorwright.export.data import Data
    from floorwright.job.solution import Solution
    from floorwright.setout.grid import WorkingGrid
    from floorwright.setout.rod import EndCut, Rod
    from floorwright.setout.ties import Leg, Tie


def lines_data(solution: Solution) -> Data:
    """Returns the control lines and all that is set out from them."""
    data = control_data(solution)
    findings = data.pop("findings")
    control = solution.control
    if control is not None:
        for told, check in zip(data["checks"], control.checks, strict=True):
            told["ends"] = list(called(check, control, solution.style))
        _far(data, control, tools(solution.job))
    marked = solution.setout
    ties = marked.ties if marked is not None else None
    return {
        **data,
        "steps": steps_data(control, solution.style) if control is not None else [],
        "points": [
            {"name": point.name, "x_mm": number(point.x), "y_mm": number(point.y), "what": point.what}
            for point in (marked.points if marked is not None else ())
        ],
        "frame": marked.frame if marked is not None else "",
        "ties": [_tie(tie) for tie in (ties.ties if ties is not None else ())],
        "tie_checks": [
            {
                "between": list(diagonal.between),
                "expected_mm": number(diagonal.expected),
                "allow_mm": number(diagonal.allow),
            }
            for diagonal in (ties.diagonals if ties is not None else ())
        ],
        "rods": [_rod(rod) for rod in (marked.rods if marked is not None else ())],
        "grid": _grid(marked.grid) if marked is not None and marked.grid is not None else None,
        "findings": findings,
    }


def _grid(grid: WorkingGrid) -> Data:
    return {
        "zone": grid.zone,
        "every": list(grid.every),
        "widest_mm": [number(side) for side in grid.size],
        "bounded_by": grid.bounded_by,
        "way_out": grid.way_out,
        "lines": [
            {
                "name": one.name,
                "line": one.line.name,
                "running_mm": number(one.line.running),
                "length_mm": number(one.length),
                "pinned": one.is_pinned,
            }
            for one in grid.lines
        ],
        "boxes": [
            {
                "number": box.number,
                "x_mm": number(box.at[0]),
                "y_mm": number(box.at[1]),
                "area_m2": number(box.area / 1e6),
            }
            for box in grid.boxes
        ],
    }


def _far(data: Data, control: Control, to_hand: Tools) -> None:
    """Adds how far out the square line may be at its far wall by each way to raise it, one standard deviation, mm."""
    away = max(there.at for there in control.lines[1].drift)
    data["far_at_mm"] = number(away)
    for told, way in zip(data["considered"], control.considered, strict=True):
        told["far_mm"] = None if way.sd_angle is None else number(drift(way.sd_angle, away, to_hand))


def _tie(tie: Tie) -> Data:
    return {
        "node": tie.node.name,
        "zone": tie.node.zone,
        "what": tie.node.what,
        "x_mm": number(tie.node.x),
        "y_mm": number(tie.node.y),
        "legs": [_leg(leg) for leg in tie.legs],
        "crossing_deg": number(degrees(tie.angle)),
        "weak": tie.weak,
        "sd_mm": number(tie.sd),
        "check": _leg(tie.check) if tie.check is not None else None,
        "allow_mm": number(tie.allow),
    }


def _leg(leg: Leg) -> Data:
    return {"from": leg.held, "reads_mm": number(leg.reads)}


def _rod(rod: Rod) -> Data:
    return {
        "name": rod.name,
        "zone": rod.zone,
        "zero": rod.zero,
        "phases": rod.phases,
        "joints": [
            {
                "line": joint.line,
                "start_mm": number(joint.start),
                "end_mm": number(joint.end),
                "phase": joint.phase,
            }
            for joint in rod.joints
        ],
        "before": _end_cut(rod.before),
        "after": _end_cut(rod.after),
    }


def _end_cut(cut: EndCut | None) -> Data | None:
    return {"wall": cut.wall, "least_mm": number(cut.least), "most_mm": number(cut.most)} if cut is not None else None
