"""Results as data, for `--json` and for the web API: lengths in mm, angles in degrees, the unit in every key.

Numbers are rounded to 1e-4 mm, so that last-bit differences between machines change nothing.
"""

from __future__ import annotations

import json
from math import degrees, isfinite
from typing import TYPE_CHECKING, Any, Final

from floorwright.survey.ellipse import ellipse

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from floorwright.control.control import Construction, ControlLine, Mark, Step
    from floorwright.findings import Finding
    from floorwright.job.solution import Solution
    from floorwright.survey.adjustment import Residual
    from floorwright.survey.arcs import WallArc
    from floorwright.survey.booking import Booking
    from floorwright.survey.closure import Loop
    from floorwright.survey.ellipse import Ellipse
    from floorwright.survey.suspect import Explanation
    from floorwright.survey.take import Reading

SCHEMA: Final = 1
DECIMALS: Final = 4
M2: Final = 1e-6
BULGE_DECIMALS: Final = 9
"""Of the tangent of a quarter of an arc's angle: over a 10 m chord 1e-9 is 1e-5 mm."""
ARCSEC: Final = 3600.0

Data = dict[str, Any]


def number(value: float) -> float:
    """Returns a value rounded as every number here, with no negative zero."""
    return round(float(value), DECIMALS) + 0.0


def as_json(data: Data) -> str:
    """Returns the text of a result: keys in the order in which they were made, two spaces, a line end.

    Raises:
        ValueError: a number that JSON has no word for.
    """
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def as_line(data: Data) -> str:
    """Returns the text of a result for a program: what `as_json` says, on one line and with no spaces.

    A floor of many thousand pieces takes a quarter of the time and a third of the bytes so.

    Raises:
        ValueError: a number that JSON has no word for.
    """
    return json.dumps(data, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def findings_data(findings: Iterable[Finding]) -> list[dict[str, str]]:
    """Returns findings as objects."""
    return [finding.as_dict() for finding in findings]


def _with_findings(findings: Iterable[Finding], **keys: Any) -> Data:
    return {"schema": SCHEMA, "units": "mm", **keys, "findings": findings_data(findings)}


def result(solution: Solution, **keys: Any) -> Data:
    """Returns the data of a result, with all that was found."""
    return _with_findings(solution.findings, **keys)


def unread_data(findings: Iterable[Finding]) -> Data:
    """Returns why a file cannot be read as a job."""
    return _with_findings(findings)


def check_data(solution: Solution) -> Data:
    """Returns the findings of everything and nothing else."""
    return result(solution)


def files_data(findings: Iterable[Finding], written: Iterable[Path], kept: Iterable[Path] = ()) -> Data:
    """Returns the files that a command wrote, and those that it left alone."""
    return _with_findings(findings, files=[str(path) for path in written], kept=[str(path) for path in kept])


def booking_data(booking: Booking) -> Data:
    """Returns a blank booking: which distances to take, and what they will give."""
    return _with_findings(
        (),
        corners=list(booking.corners),
        readings=[
            {"key": blank.name, "from": blank.start, "to": blank.end, "why": blank.why} for blank in booking.readings
        ],
        sd_corner_mm=number(booking.sd_corner),
        least_redundancy=number(booking.least_redundancy),
        wall_mm=number(booking.side),
        tape=booking.tape,
    )


def survey_data(solution: Solution) -> Data:
    """Returns the adjusted readings."""
    adjustment = solution.survey.adjustment
    if adjustment is None:
        return result(
            solution,
            points={},
            observations=[],
            suspects=[],
            explanations=[],
            to_measure=[_to_measure(reading) for reading in solution.survey.to_measure],
            straightness=[],
            arcs=[],
            loops=[],
            corners=[],
            area_m2=None,
            perimeter_mm=None,
        )
    spread = adjustment.variance_factor**0.5
    variances = adjustment.covariance.diagonal().reshape(-1, 2)
    points: Data = {}
    for name, (x, y), (variance_x, variance_y) in zip(adjustment.points, adjustment.xy, variances, strict=True):
        sd_x, sd_y = max(variance_x, 0.0) ** 0.5, max(variance_y, 0.0) ** 0.5
        points[name] = {"x_mm": number(x), "y_mm": number(y), "sd_x_mm": number(sd_x), "sd_y_mm": number(sd_y)}
        at = 2 * len(points) - 2
        points[name]["ellipse"] = _ellipse(ellipse(adjustment.covariance[at : at + 2, at : at + 2]))
        if adjustment.degrees_of_freedom:
            points[name] |= {
                "sd_a_posteriori_x_mm": number(sd_x * spread),
                "sd_a_posteriori_y_mm": number(sd_y * spread),
            }
    residuals = {residual.key: residual for residual in adjustment.residuals}
    observations = []
    for residual in adjustment.residuals:
        scale, unit = (degrees(1.0), "deg") if residual.is_angle else (1.0, "mm")
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
    return result(
        solution,
        points=points,
        observations=observations,
        degrees_of_freedom=adjustment.degrees_of_freedom,
        variance_factor=number(adjustment.variance_factor),
        suspects=list(adjustment.suspects),
        explanations=[_explanation(e, residuals[e.key]) for e in solution.survey.explanations],
        to_measure=[_to_measure(reading) for reading in solution.survey.to_measure],
        straightness=[
            {
                "from": wall.start,
                "to": wall.end,
                "at": wall.at,
                "out_mm": number(wall.out),
                "over_mm": number(wall.over),
                "radius_mm": None if wall.radius is None else number(wall.radius),
                "off_circle_mm": number(wall.off_circle),
                "is_arc": wall.is_arc,
            }
            for wall in solution.survey.straightness
        ],
        arcs=[_arc(one) for one in solution.survey.arcs],
        loops=[_loop(loop) for loop in solution.survey.loops],
        corners=[
            {"name": corner.name, "angle_deg": number(degrees(corner.angle))} for corner in solution.survey.corners
        ],
        rooms=[
            {
                "name": room.name,
                "area_m2": number(room.area * M2),
                "perimeter_mm": number(room.perimeter),
                "corners": [corner.name for corner in room.corners],
                "walls": [wall.name for wall in room.walls],
            }
            for room in solution.survey.rooms
        ],
        area_m2=number(solution.survey.area * M2),
        perimeter_mm=number(solution.survey.perimeter),
    )


def _ellipse(found: Ellipse) -> Data:
    """One standard deviation, a priori; the angle is that of the major semi-axis from x, anticlockwise."""
    return {
        "major_mm": number(found.major),
        "minor_mm": number(found.minor),
        "angle_deg": number(degrees(found.angle)),
    }


def _loop(loop: Loop) -> Data:
    """A room walked round by its walls and angles alone: each leg as walked, and by the compass rule."""
    return {
        "room": loop.room,
        "linear_mm": number(loop.linear),
        "ratio": number(loop.ratio) if isfinite(loop.ratio) else None,
        "sd_mm": number(loop.sd),
        "angle_deg": None if loop.angle is None else number(degrees(loop.angle)),
        "legs": [
            {
                "from": start,
                "length_mm": number(length),
                "x_mm": number(x),
                "y_mm": number(y),
                "balanced_x_mm": number(balanced_x),
                "balanced_y_mm": number(balanced_y),
            }
            for start, length, (x, y), (balanced_x, balanced_y) in zip(
                loop.corners, loop.lengths, loop.legs.tolist(), loop.balanced.tolist(), strict=True
            )
        ],
    }


def _arc(one: WallArc) -> Data:
    """A wall that is an arc: `rise_mm` is over 0 where it bows out of the room, under 0 where it bows in."""
    arc = one.arc
    return {
        "wall": one.wall,
        "from": one.start,
        "to": one.end,
        "bows": one.bows,
        "chord_mm": number(arc.chord),
        "rise_mm": number(arc.rise),
        "radius_mm": number(arc.radius),
        "centre_mm": [number(value) for value in arc.centre],
        "bulge": round(arc.bulge, BULGE_DECIMALS),
        "length_mm": number(arc.length),
        "sd_chord_mm": number(one.sd_chord),
        "sd_rise_mm": number(one.sd_rise),
        "sd_radius_mm": number(one.sd_radius),
        "sd_centre_mm": [number(value) for value in one.sd_centre],
        "readings": [
            {
                "key": residual.key,
                "rise_mm": number(residual.rise),
                "off_mm": number(residual.off),
                "sd_mm": number(residual.sd),
                "standardised": number(residual.standardised),
            }
            for residual in one.residuals
        ],
    }


def _to_measure(reading: Reading) -> Data:
    """A distance to take: why, what it would read in each possibility that it tells apart, what it sharpens."""
    return {
        "key": reading.name,
        "from": reading.a,
        "to": reading.b,
        "why": reading.why,
        "would_read_mm": [number(read) for read in reading.would_read],
        "corner": reading.corner,
        "sd_before_mm": number(reading.sd_before) if reading.corner else None,
        "sd_after_mm": number(reading.sd_after) if reading.corner else None,
    }


def _explanation(explanation: Explanation, residual: Residual) -> Data:
    """One suspect: what it would read by all the others, and the slip of the hand that it looks like, if any."""
    scale, unit = (degrees(1.0), "deg") if residual.is_angle else (1.0, "mm")
    slip = explanation.recognised
    return {
        "key": explanation.key,
        "unit": unit,
        "slip": number(explanation.slip * scale),
        "would_read": number(explanation.would_read * scale),
        "would_agree_mm": number(slip.would_agree) if slip else None,
        "looks_like": slip.what if slip else "",
    }


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


def _step(made: Construction, step: Step) -> Data:
    return {
        "makes": made.makes,
        "method": made.method,
        "chosen": made.chosen,
        "step": step.number,
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
        return result(solution, centre=None, lines=[], considered=[], construction=[], checks=[], readings=[], snap=[])
    return result(
        solution,
        centre={"x_mm": number(control.centre[0]), "y_mm": number(control.centre[1]), "how": control.centre_how},
        first_line=control.first_how,
        lines=[_line(line) for line in control.lines],
        ways=[
            {
                "makes": made.makes,
                "method": made.method,
                "chosen": made.chosen,
                "size_mm": number(made.size),
                "sd_angle_arcsec": number(degrees(made.sd_angle) * ARCSEC),
                "why": made.why,
            }
            for made in control.constructions
        ],
        considered=[
            {
                "makes": way.makes,
                "method": way.method,
                "sd_angle_arcsec": None if way.sd_angle is None else number(degrees(way.sd_angle) * ARCSEC),
                "why_not": way.why_not,
            }
            for way in control.considered
        ],
        construction=[_step(made, step) for made in control.constructions for step in made.steps],
        checks=[
            {
                "between": list(check.between),
                "expected_mm": number(check.expected),
                "allow_mm": number(check.allow),
                "legs": [_mark(leg) for leg in check.legs],
                "why": check.why,
            }
            for check in control.checks
        ],
        readings=[
            {
                "between": list(verdict.reading.between),
                "reads_mm": number(verdict.reading.reads),
                "expected_mm": number(verdict.expected),
                "allow_mm": number(verdict.allow),
                "turn_arcsec": None if verdict.turn is None else number(degrees(verdict.turn) * ARCSEC),
                "out_mm": number(verdict.far),
                "sd_out_mm": number(verdict.far_sd),
                "may_mm": number(verdict.may),
                "probability_within": number(verdict.within),
                "says": verdict.says,
                "do": verdict.do,
            }
            for verdict in solution.verdicts
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
