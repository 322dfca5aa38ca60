"""Results as plain text: one function a command, each from a solution to the text that is printed."""

from __future__ import annotations

from math import degrees
from typing import TYPE_CHECKING, Final

from floorwright.cli.text import paragraph, table
from floorwright.units import area_text

if TYPE_CHECKING:
    from floorwright.control.control import Mark, Step
    from floorwright.cuts.schedule import CutPiece
    from floorwright.job.solution import Solution
    from floorwright.layout.layout import Layout
    from floorwright.layout.option import Option, WallCut
    from floorwright.survey.adjustment import Residual
    from floorwright.units import LengthStyle

METRE: Final = 1000.0
NO_ROOM: Final = "The readings do not fix a room yet."
MOST_OPTIONS: Final = 8
"""Options shown in full; the rest are counted."""


def _unit(style: LengthStyle) -> str:
    return " (mm)" if style.system == "metric" else ""


def survey_text(solution: Solution) -> str:
    """Returns the adjusted readings, the corners and the size of the room."""
    survey, style = solution.survey, solution.style
    adjustment = survey.adjustment
    if adjustment is None or solution.room is None:
        return NO_ROOM
    readings = table(
        (f"Reading{_unit(style)}", "read", "adjusted", "difference", "checked", "doubt"),
        (_residual_row(residual, style) for residual in adjustment.residuals),
    )
    corners = table(
        (f"Corner{_unit(style)}", "x", "y", "good to", "angle"),
        (
            (
                corner.name,
                f"{corner.x:.1f}",
                f"{corner.y:.1f}",
                f"{max(corner.sd_x, corner.sd_y):.1f}",
                f"{degrees(corner.angle):.2f}°",
            )
            for corner in solution.room.corners
        ),
    )
    size = f"{area_text(survey.area, style)} wall to wall, {style.text(survey.perimeter, unit=True)} round."
    return f"{readings}\n\n{corners}\n\n{size}"


def _residual_row(residual: Residual, style: LengthStyle) -> tuple[str, ...]:
    if residual.kind == "square":
        shown = [f"{degrees(value):.2f}°" for value in (residual.measured, residual.adjusted, residual.residual)]
    else:
        shown = [style.text(residual.measured), style.text(residual.adjusted), f"{residual.residual:+.1f}"]
    doubt = "SUSPECT" if residual.suspect else f"{residual.standardised:.1f}"
    return residual.key, *shown, f"{100 * residual.redundancy:.0f} %", doubt


def control_text(solution: Solution) -> str:
    """Returns the control lines, the chosen constructions step by step, and the check readings."""
    control, style = solution.control, solution.style
    if control is None:
        return NO_ROOM
    blocks = [
        paragraph(f"First line: {control.first_how}. Centre: {control.centre_how}."),
        table(
            ("Line", "starts at", "ends at", "out by, per m", "at its end"),
            (
                (
                    line.name,
                    *(_mark_text(mark, style) for mark in line.marks),
                    f"{line.sd_angle * METRE:.2f} mm",
                    f"{max((drift.sd for drift in line.drift), default=0.0):.1f} mm",
                )
                for line in control.lines
            ),
            left=3,
        ),
    ]
    for construction in control.constructions:
        if construction.chosen:
            title = f"{construction.makes.capitalize()} by {construction.method}:"
            steps = [f"  {step.number}. {step_text(step, style)}" for step in construction.steps]
            blocks.append("\n".join([title, *steps]))
    blocks.append(
        table(
            ("Check from", "to", "must read", "give or take"),
            (
                (*check.between, style.text(check.expected), style.text(check.allow, ties="up"))
                for check in control.checks
            ),
            left=2,
        )
    )
    if solution.snap is not None:
        blocks.append(f"Snap these, all from the nail at corner {solution.snap.zero}:")
        blocks.append(
            table(
                ("Line", "running", "starts at", "ends at"),
                (
                    (line.name, style.text(line.running), *_two([_mark_text(mark, style) for mark in line.marks]))
                    for line in solution.snap.lines
                ),
            )
        )
    return "\n\n".join(blocks)


def _two(texts: list[str]) -> tuple[str, str]:
    return texts[0] if texts else "", texts[-1] if len(texts) > 1 else ""


def _mark_text(mark: Mark, style: LengthStyle) -> str:
    return f"{mark.on} {style.text(mark.distance)} from {mark.start}"


def step_text(step: Step, style: LengthStyle) -> str:
    """Returns one step of a construction as a sentence."""
    length = style.text(step.length, unit=True)
    return {
        "mark": f"Mark {step.end} {length} from {step.start}.",
        "arc": f"Swing an arc of {length} about {step.start}, at {step.end}.",
        "join": f"Strike the line from {step.start} to {step.end}.",
        "pull": f"Pull the tape from {step.start} to {step.end}: it must read {length}.",
    }[step.action]


def layout_text(solution: Solution) -> str:
    """Returns, for each zone, the chosen option, its walls, the proof and the ranked options."""
    if not solution.layouts:
        return NO_ROOM if solution.room is None else "The job has no zone to lay."
    return "\n\n".join(_zone_text(layout, solution.style) for layout in solution.layouts)


def _zone_text(layout: Layout, style: LengthStyle) -> str:
    chosen = layout.chosen
    lines = [
        paragraph(
            f"{layout.zone}: {layout.cell.name}, joint {style.entered_text(chosen.joint, unit=True)}: {chosen.name}. "
            f"{chosen.full + chosen.cut} pieces, {chosen.full} full and {chosen.cut} cut; "
            f"the narrowest is {style.text(chosen.worst, unit=True, feet=False)}."
        )
    ]
    for proof in layout.proofs:
        said = (
            f"proved (bound {style.text(proof.bound, unit=True, feet=False)})"
            if proof.status == "proved"
            else f"best found, {style.text(proof.shortfall, unit=True, feet=False)} short of the bound: {proof.why}"
        )
        best = style.text(proof.best, unit=True, feet=False)
        lines.append(paragraph(f"{proof.aim}, {proof.axis}: {best}, {said}."))
    walls = table(
        (f"Wall{_unit(style)}", "at its start", "at its end", "taper a tile"),
        (_wall_row(wall, style) for wall in chosen.walls),
    )
    ranked = [option for option in layout.options if not option.refused]
    options = table(
        ("", "Option", "joint", "narrowest", "under limit", "full", "cut", ""),
        (_option_row(i + 1, option, option is chosen, style) for i, option in enumerate(ranked[:MOST_OPTIONS])),
        left=2,
    )
    blocks = ["\n".join(lines), walls, options]
    if len(ranked) > MOST_OPTIONS:
        blocks.append(f"and {len(ranked) - MOST_OPTIONS} more (--json lists them)")
    refused = [paragraph(f"Refused: {option.name}: {option.refused}") for option in layout.options if option.refused]
    return "\n\n".join([*blocks, *(["\n".join(refused)] if refused else [])])


def _wall_row(wall: WallCut, style: LengthStyle) -> tuple[str, ...]:
    ends = (style.text(wall.start, feet=False), style.text(wall.end, feet=False))
    return wall.wall, *ends, f"{wall.taper:.1f} mm" if wall.taper >= 0.05 else "-"


def _option_row(rank: int, option: Option, chosen: bool, style: LengthStyle) -> tuple[str, ...]:
    return (
        str(rank),
        option.name,
        style.entered_text(option.joint),
        style.text(option.worst, feet=False),
        str(option.under),
        str(option.full),
        str(option.cut),
        "chosen" if chosen else "fragile" if option.fragile else "",
    )


def cuts_text(solution: Solution) -> str:
    """Returns the cut list in order of number."""
    if not solution.cuts:
        return "There is nothing to cut."
    style = solution.style
    return table(
        ("No.", "walls", "kind", "thin end", "fat end", "saw marks", "same as"),
        (_cut_row(piece, style) for cuts in solution.cuts for piece in cuts.pieces),
        left=3,
    )


def _cut_row(piece: CutPiece, style: LengthStyle) -> tuple[str, ...]:
    marks = "; ".join(
        " - ".join("stop" if mark is None else style.text(mark, feet=False) for mark in (saw.start_mark, saw.end_mark))
        for saw in piece.saws
    )
    return (
        piece.label,
        ", ".join(piece.walls),
        piece.kind,
        style.text(piece.thin, feet=False),
        style.text(piece.fat, feet=False),
        marks,
        "" if piece.same_as == piece.label else piece.same_as,
    )


def takeoff_text(solution: Solution) -> str:
    """Returns the order, each line with its sum."""
    order = solution.order
    if order is None:
        return "There is nothing to order."
    rows = ((line.what, f"{line.quantity:g}", line.unit, line.basis) for line in order.lines)
    return table((order.goods, "", "", "how"), ([row[0], row[1].rjust(8), row[2], row[3]] for row in rows), left=4)
