"""Results as plain text: one function a command, each from a solution to the text that is printed."""

from __future__ import annotations

from math import degrees
from typing import TYPE_CHECKING, Final

from floorwright.cli.blocks import blocks_text
from floorwright.cli.refit import refit_text
from floorwright.cli.scoring import is_scored, saws_text, scoring_text
from floorwright.cli.text import paragraph, plain, table
from floorwright.cli.ways import changes_text, ways_text
from floorwright.control.words import FINE, fine, fine_bare, out_over
from floorwright.findings import has_error
from floorwright.layout.kinds import counts_by_kind
from floorwright.sheets.aims import aims_table, trade_text
from floorwright.sheets.border import border_sheet
from floorwright.sheets.breaks import breaks_told
from floorwright.sheets.cuts import cuts_sheet
from floorwright.sheets.figures import Figures
from floorwright.sheets.grid import grid_sheet
from floorwright.sheets.options import proof_lines
from floorwright.sheets.order import order_sheet
from floorwright.sheets.rings import TAPER_BLOCKS, rings_table, taper_table
from floorwright.sheets.rod import rod_sheet
from floorwright.sheets.rooms import rooms_table
from floorwright.sheets.steps import steps_sheet
from floorwright.sheets.ties import ties_sheet
from floorwright.sheets.words import words_of
from floorwright.sheets.zones import cut_zones
from floorwright.units import area_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.control.control import ControlLine, Mark
    from floorwright.job.solution import Solution
    from floorwright.layout.layout import Layout
    from floorwright.layout.option import Option, WallCut
    from floorwright.survey.adjustment import Residual
    from floorwright.survey.arcs import WallArc
    from floorwright.survey.closure import Loop
    from floorwright.survey.survey import SurveyResult
    from floorwright.units import LengthStyle

NO_ROOM: Final = "The readings do not fix a room yet."
NO_TRUST: Final = "Nothing is set out until the readings agree."
NO_ZONE: Final = "The job has no zone to lay."
NOT_LAID: Final = "Nothing is laid until what is wrong is mended."
MOST_OPTIONS: Final = 8
"""Options shown in full; the rest are counted."""


def _unit(style: LengthStyle) -> str:
    return " (mm)" if style.system == "metric" else ""


def survey_text(solution: Solution) -> str:
    """Returns the adjusted readings, the corners and the size of the room."""
    survey, style, adjustment = solution.survey, solution.style, solution.survey.adjustment
    if adjustment is None or not survey.corners:
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
                _finely(corner.x, style),
                _finely(corner.y, style),
                _finely(max(corner.sd_x, corner.sd_y), style),
                f"{degrees(corner.angle):.2f}°",
            )
            for corner in survey.corners
        ),
    )
    size = f"{area_text(survey.area, style)} wall to wall, {style.text(survey.perimeter, unit=True)} round."
    if len(survey.rooms) > 1:
        size = f"{_rooms_text(survey, style)}\n\n{area_text(survey.area, style)} wall to wall in all."
    loops = [_loop_text(loop, style) for loop in survey.loops]
    return "\n\n".join([readings, *loops, corners, *([_arcs_text(survey.arcs, style)] if survey.arcs else []), size])


def _loop_text(loop: Loop, style: LengthStyle) -> str:
    """Returns a room walked round by its walls and angles, leg by leg, as a person would work it by hand."""
    rows = zip(loop.corners, loop.lengths, loop.legs.tolist(), loop.balanced.tolist(), strict=True)
    legs = table(
        (f"From{_unit(style)}", "wall", "x", "y", "x closed", "y closed"),
        (
            *(
                (name, style.text(length), *(_finely(value, style) for value in (*leg, *closed)))
                for name, length, leg, closed in rows
            ),
            ("over", style.text(loop.perimeter), *(_finely(value, style) for value in loop.gap), "", ""),
        ),
    )
    return f"Walked round {loop.room}:\n{legs}"


def _rooms_text(survey: SurveyResult, style: LengthStyle) -> str:
    """Returns the rooms of one network of readings, each with its size."""
    return table(
        ("Room", "wall to wall", "round"),
        ((room.name, area_text(room.area, style), style.text(room.perimeter, unit=True)) for room in survey.rooms),
    )


def _arcs_text(arcs: tuple[WallArc, ...], style: LengthStyle) -> str:
    """Returns the walls that are arcs, each with its size and how true that is."""
    return table(
        (f"Arc{_unit(style)}", "bows", "chord", "rise", "good to", "radius", "good to"),
        (
            (
                one.wall,
                one.bows,
                *(
                    _finely(value, style)
                    for value in (one.arc.chord, abs(one.arc.rise), one.sd_rise, one.arc.radius, one.sd_radius)
                ),
            )
            for one in arcs
        ),
        left=(0, 1),
    )


def _finely(mm: float, style: LengthStyle) -> str:
    """Returns a length finer than the job's own graduation, without a metric unit: `4187.4`."""
    return FINE[style.system].text(mm)


def _residual_row(residual: Residual, style: LengthStyle) -> tuple[str, ...]:
    if residual.is_angle:
        shown = [f"{degrees(value):.2f}°" for value in (residual.measured, residual.adjusted, residual.residual)]
    else:
        sign = "+" if FINE[style.system].steps(residual.residual) > 0 else ""
        difference = sign + _finely(residual.residual, style)
        shown = [style.text(residual.measured), _finely(residual.adjusted, style), difference]
    doubt = "SUSPECT" if residual.suspect else f"{residual.standardised:.1f}"
    return residual.key, *shown, f"{100 * residual.redundancy:.0f} %", doubt


def control_text(solution: Solution) -> str:
    """Returns the control lines, the chosen constructions step by step, the check readings, and what to snap."""
    control, style = solution.control, solution.style
    if control is None:
        return nothing_laid(solution)
    blocks = [
        paragraph(f"First line: {control.first_how}. Centre: {control.centre_how}."),
        table(
            ("Line", "starts at", "ends at", "out by", "at its end"),
            (_line_row(line, style) for line in control.lines),
            left=(0, 1, 2),
        ),
        blocks_text(steps_sheet(solution).blocks),
        *_read(solution),
        "Ways to raise the square line that were thought of:",
        table(
            ("Way", "out by", ""),
            (
                (way.method, "" if way.sd_angle is None else out_over(way.sd_angle, style), way.why_not or "chosen")
                for way in control.considered
            ),
            left=(0, 2),
        ),
    ]
    if solution.snap is not None:
        blocks.append(f"Snap these, all from the nail at corner {solution.snap.zero}:")
        blocks.append(
            table(
                (f"Line{_unit(style)}", "running", "starts at", "ends at"),
                (
                    (line.name, style.text(line.running), *_two([_mark_text(mark, style) for mark in line.marks]))
                    for line in solution.snap.lines
                ),
                left=(0, 2, 3),
            )
        )
    return "\n\n".join([*blocks, *_set_out_text(solution)])


def _set_out_text(solution: Solution) -> Iterator[str]:
    """Yields the working grid, the ties and the gauge rods, where there are any, as their sheets have them."""
    marked = solution.setout
    if marked is not None and marked.grid is not None:
        sheet = grid_sheet(solution, marked.grid)
        yield sheet.title
        yield blocks_text(sheet.blocks)
    if marked is not None and marked.ties is not None and marked.ties.ties:
        sheet = ties_sheet(solution)
        yield sheet.title
        yield blocks_text(sheet.blocks)
    for rod in marked.rods if marked is not None else ():
        sheet = rod_sheet(solution, rod)
        yield sheet.title
        yield blocks_text(sheet.blocks)


def _read(solution: Solution) -> list[str]:
    """What the readings taken on the lines say."""
    style = solution.style
    if not solution.verdicts:
        return []
    rows = (
        (
            " to ".join(verdict.reading.between),
            fine_bare(verdict.reading.reads, style),
            fine_bare(verdict.expected, style),
            fine(verdict.far, style),
            f"{100 * verdict.within:.0f} %",
            verdict.says,
            verdict.do,
        )
        for verdict in solution.verdicts
    )
    headings = ("Reading", "reads", "should be", "out by", "within", "", "")
    return ["Readings taken on the lines:", table(headings, rows, left=(0, 5, 6))]


def _line_row(line: ControlLine, style: LengthStyle) -> tuple[str, ...]:
    drift = max((there.sd for there in line.drift), default=0.0)
    marks = _two([_mark_text(mark, style) for mark in line.marks])
    return line.name, *marks, out_over(line.sd_angle, style), fine(drift, style)


def _two(texts: list[str]) -> tuple[str, str]:
    return texts[0] if texts else "", texts[-1] if len(texts) > 1 else ""


def _mark_text(mark: Mark, style: LengthStyle) -> str:
    return f"{mark.on} {style.text(mark.distance)} from {mark.start}"


def nothing_laid(solution: Solution) -> str:
    """Returns why there is nothing to show."""
    if solution.room is None:
        return NO_ROOM
    if solution.control is None:
        return NO_TRUST
    return NOT_LAID if has_error(solution.findings) else NO_ZONE


def layout_text(solution: Solution) -> str:
    """Returns, for each zone, the chosen option, its walls, the proof and the ranked options."""
    if not solution.layouts and not is_scored(solution):
        return nothing_laid(solution)
    zones = [_zone_text(layout, solution.style, solution.job.words) for layout in solution.layouts]
    border = solution.border
    widths = [] if border is None or border.chosen is None else [blocks_text(border_sheet(solution, border).blocks)]
    told = breaks_told(solution, Figures(style=solution.style))
    breaks = [blocks_text(told)] if told else []
    after = [*changes_text(solution), *refit_text(solution), *scoring_text(solution)]
    return "\n\n".join([*widths, *zones, *breaks, *after])


def _zone_text(layout: Layout, style: LengthStyle, words: str) -> str:
    chosen, figures = layout.chosen, Figures(style=style)
    lines = [
        f"{layout.zone}: {layout.cell.name}, joint {style.entered_text(chosen.joint, unit=True)}: {chosen.name}. "
        f"{_pieces(chosen.full + chosen.cut)}, {chosen.full} full and {chosen.cut} cut; "
        f"the narrowest is {style.text(chosen.worst, unit=True, feet=False)}.",
        *(f"{one.kind}: {one.full} full and {one.cut} cut." for one in counts_by_kind(layout) if not layout.rings),
        *(plain(line) for line in proof_lines(layout, figures)),
    ]
    aims = (aims_table(layout, figures),) if layout.aims else ()
    ringed = (rings_table(layout, figures, words_of(words)),) if layout.rings is not None else ()
    blocks = list(filter(None, ["\n".join(paragraph(line) for line in lines), blocks_text((*aims, *ringed))]))
    if len(layout.trade_off) > 1:
        blocks.append(paragraph(plain(f"What more cuts buy: {trade_text(layout, figures)}.")))
    if chosen.lines_up:
        blocks.append(paragraph(f"What lines up: {'; '.join(chosen.lines_up)}."))
    if layout.rooms:
        blocks.append(blocks_text(rooms_table(layout, figures)))
    if chosen.walls:
        headings = (f"Wall{_unit(style)}", "at its start", "at its end", "taper a tile")
        blocks.append(table(headings, (_wall_row(wall, style) for wall in chosen.walls)))
    ranked = [option for option in layout.options if not option.refused]
    blocks.append(
        table(
            ("", "Option", "joint", "narrowest", "small", "full", "cut", ""),
            (_option_row(i + 1, option, option is chosen, style) for i, option in enumerate(ranked[:MOST_OPTIONS])),
            left=(0, 1, 7),
        )
    )
    if len(ranked) > MOST_OPTIONS:
        blocks.append(f"and {len(ranked) - MOST_OPTIONS} more (--json lists them)")
    refused = [paragraph(f"Refused: {option.name}: {option.refused}") for option in layout.options if option.refused]
    if len(refused) > MOST_OPTIONS:
        refused[MOST_OPTIONS:] = [f"and {len(refused) - MOST_OPTIONS} more refused (--json lists them)"]
    ways = ways_text(layout, figures, words_of(words))
    return "\n\n".join([*blocks, *(["\n".join(refused)] if refused else []), *ways])


def _pieces(count: int) -> str:
    return f"{count} piece{'' if count == 1 else 's'}"


def _wall_row(wall: WallCut, style: LengthStyle) -> tuple[str, ...]:
    ends = (style.text(wall.start, feet=False), style.text(wall.end, feet=False))
    taper = fine(wall.taper, style)
    if not taper.strip('0.m "'):
        taper = "slight"
    return wall.wall, *ends, "none" if ends[0] == ends[1] else taper


def _option_row(rank: int, option: Option, chosen: bool, style: LengthStyle) -> tuple[str, ...]:
    return (
        str(rank),
        option.name,
        style.entered_text(option.joint),
        style.text(option.worst, feet=False),
        str(option.under),
        str(option.full),
        str(option.cut),
        ", ".join([*(["chosen"] if chosen else []), *(["fragile"] if option.fragile else [])]),
    )


def cuts_text(solution: Solution) -> str:
    """Returns the cut list, wall by wall."""
    if not solution.cuts:
        return nothing_laid(solution)
    told = []
    for zone in cut_zones(solution):
        layout, cuts = zone[0]
        taper = taper_table(layout, Figures(style=solution.style))
        if taper is not None:
            told.append(blocks_text((taper, *TAPER_BLOCKS)))
        if taper is None or cuts.pieces:
            told.append(blocks_text(cuts_sheet(solution, *zone).blocks))
    return "\n\n".join([*told, *refit_text(solution)])


def takeoff_text(solution: Solution) -> str:
    """Returns the order, each line with its sum."""
    if not solution.orders and not is_scored(solution):
        return nothing_laid(solution)
    ordered = [blocks_text(order_sheet(solution).blocks)] if solution.orders else []
    return "\n\n".join([*ordered, *saws_text(solution)])
