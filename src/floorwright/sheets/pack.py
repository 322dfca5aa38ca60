"""The pack: every sheet that the solution has figures for, in the order in which they are used."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from floorwright.draw.sheet import Pack, Sheet
from floorwright.job.compare import compare
from floorwright.job.inputs.patterned import is_decided
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.scoring.scored import colours
from floorwright.sheets.aims import aims_sheet
from floorwright.sheets.border import border_sheet
from floorwright.sheets.changes import changes_sheet
from floorwright.sheets.client import client_sheet
from floorwright.sheets.compared import compared_sheet
from floorwright.sheets.control import control_sheet
from floorwright.sheets.courses import courses_sheet
from floorwright.sheets.cuts import cuts_sheet
from floorwright.sheets.first import first_sheet
from floorwright.sheets.grid import grid_sheet
from floorwright.sheets.layout import layout_sheet
from floorwright.sheets.options import options_sheet
from floorwright.sheets.order import order_sheet
from floorwright.sheets.rings import rings_sheet
from floorwright.sheets.rod import rod_sheet
from floorwright.sheets.room import room_sheet
from floorwright.sheets.score_lines import lines_sheet
from floorwright.sheets.score_slab import has_slab, slab_sheet
from floorwright.sheets.scoring import scoring_sheet
from floorwright.sheets.site import site_copy
from floorwright.sheets.snap import pattern_lines, snap_sheet
from floorwright.sheets.stain import stain_sheet
from floorwright.sheets.steps import steps_sheet
from floorwright.sheets.templates import templates_sheet
from floorwright.sheets.ties import ties_sheet
from floorwright.sheets.ways import ways_sheet
from floorwright.sheets.zones import cut_zones
from floorwright.units import LengthStyle, typeset

if TYPE_CHECKING:
    from floorwright.cuts.schedule import CutList


def pack(solution: Solution) -> Pack:
    """Returns the sheets of a job, as far as it came: at least the first page and the room."""
    job = solution.job
    return Pack(
        job=job.title or "Floor",
        client=job.client,
        by=job.by,
        revision=job.revision,
        date=job.date.isoformat() if job.date else "",
        units=units_text(solution.style),
        paper=job.paper,
        words=job.words,
        sheets=tuple(_sheets(solution)),
        site=site_copy(solution),
    )


def units_text(style: LengthStyle) -> str:
    """Returns the units in words: `mm, to 0.5`, `feet and inches, to 1/16`."""
    step = style.step
    if style.system == "metric":
        return f"mm, to {float(step):g}"
    return typeset(f"feet and inches, to {step}")


def _sheets(solution: Solution) -> Iterator[Sheet]:
    yield first_sheet(solution)
    yield room_sheet(solution)
    if solution.room is None or solution.region is None:
        return
    if solution.control is not None:
        yield control_sheet(solution)
        yield steps_sheet(solution)
    yield from _scored(solution)
    if solution.layouts:
        yield layout_sheet(solution)
    yield from _positions(solution)
    compared = compare(solution)
    if compared is not None:
        yield compared_sheet(solution, compared)
    if solution.snap is not None and pattern_lines(solution.snap):
        yield snap_sheet(solution)
    if solution.setout is not None and solution.setout.grid is not None:
        yield grid_sheet(solution, solution.setout.grid)
    if solution.setout is not None and solution.setout.ties is not None and solution.setout.ties.ties:
        yield ties_sheet(solution)
    if solution.courses:
        yield courses_sheet(solution)
    for rod in solution.setout.rods if solution.setout is not None else ():
        yield rod_sheet(solution, rod)
    yield from _cuts(solution)
    if solution.refit is not None:
        yield changes_sheet(solution, solution.refit)
    if solution.orders:
        yield order_sheet(solution)
    if solution.layouts and is_decided(solution.findings):
        yield client_sheet(solution)


def _scored(solution: Solution) -> Iterator[Sheet]:
    """Yields what is cut into the slab, in which order, and what is stained how."""
    scored = solution.scored
    if scored is None or not scored.is_cut:
        return
    yield scoring_sheet(solution)
    if scored.cut_in_order:
        yield lines_sheet(solution)
    if has_slab(scored):
        yield slab_sheet(solution)
    if colours(scored):
        yield stain_sheet(solution)


def _positions(solution: Solution) -> Iterator[Sheet]:
    """Yields the widths of a border of free width, then for each zone but borders and rings the positions tried and
    why the one laid was taken."""
    if solution.border is not None and solution.border.chosen is not None:
        yield border_sheet(solution, solution.border)
    for layout in solution.layouts:
        goes_on = solution.refit is not None and not layout.aims
        if layout.is_border or layout.rings is not None or goes_on:
            continue
        yield options_sheet(solution, layout)
        yield aims_sheet(solution, layout)
        changed = (solution.changes or solution.unmoved) and layout.is_field
        if changed or any(trouble.ways for trouble in layout.troubles):
            yield ways_sheet(solution, layout)


def _cuts(solution: Solution) -> Iterator[Sheet]:
    """Yields what is sawn: of zones of one kind of piece together, of any other by itself; of rings that meet no wall
    all of it stands with them."""
    together: list[tuple[Layout, CutList]] = []
    for zone in cut_zones(solution):
        layout, cuts = zone[0]
        yield from _rings(solution, layout)
        if layout.rings is not None or layout.cell.kinds:
            if cuts.pieces or layout.rings is None:
                yield cuts_sheet(solution, *zone)
        else:
            together += zone
    if together:
        yield cuts_sheet(solution, *together)


def _rings(solution: Solution, layout: Layout) -> Iterator[Sheet]:
    """Yields the sheets of a zone of rings: how they go round, and what to taper their pieces to."""
    if layout.rings is None:
        return
    yield rings_sheet(solution, layout)
    templates = templates_sheet(solution, layout)
    if templates is not None:
        yield templates
