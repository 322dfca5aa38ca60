"""The working grid: which lines to snap, and the boxes between them in the order in which they are set."""

from collections.abc import Iterator, Sequence

import numpy as np

from floorwright.draw.lettering import text_width
from floorwright.draw.paper import body_space
from floorwright.draw.sheet import Block, Column, Prose, Sheet, Table
from floorwright.draw.style import CAP_HEIGHT, Pen, Size
from floorwright.draw.view import Item, Line, Text
from floorwright.geometry.inset import inset
from floorwright.geometry.region import Region
from floorwright.job.solution import Solution
from floorwright.plan.room import Room
from floorwright.setout.grid import PINNED_OVER, GridLine, WorkingGrid
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import BLOCK, Frame, arrange, beside_or_under, prose_height
from floorwright.sheets.labels import Label, outside
from floorwright.sheets.plan import corner_names, door_side, floor_items, outward, paper_angle, plan_box, wall_items
from floorwright.sheets.snap import drawn, ends_texts, labels_of
from floorwright.sheets.words import counted, listed, sentence, told

MARGIN = 9.0
DOOR_ROW = 7.7
LIST_WIDTH = {False: 128.0, True: 140.0}
"""mm on paper that the list takes, in mm and in feet and inches."""


MOST_UNDER = 170.0
"""mm on paper that the list and the words may take under the plan."""

FIGURES_HIGHER = 0.6
"""mm on paper by which a row of figures that people mark from is higher than one of words."""

SIZES = (Size.FIGURE, Size.TEXT, Size.SMALL)


def grid_sheet(solution: Solution, grid: WorkingGrid) -> Sheet:
    """Returns the sheet of the working grid."""
    room, region, snap, marked = solution.room, solution.region, solution.snap, solution.setout
    assert room is not None
    assert region is not None
    assert snap is not None
    assert marked is not None
    figures = Figures(style=solution.style)
    title = f"Snap {counted(len(grid.lines), 'line')}, then set {counted(len(grid.boxes), 'box', 'boxes')} in order."
    table = _table(grid, labels_of(snap), figures)
    why = Prose(lines=tuple(_why(grid, snap.zero, figures)), tone="quiet")
    doubts = tuple(told(one) for one in marked.findings if one.code == "setout-grid-wide")
    doubt: tuple[Block, ...] = (Prose(lines=doubts, tone="doubt"),) if doubts else ()
    side = (table, *doubt, why)
    place = beside_or_under(
        plan_box(region),
        side,
        paper=solution.job.paper,
        imperial=figures.imperial,
        title=title,
        margin=MARGIN,
        under=prose_height(side, body_space(solution.job.paper)[0]) + 2 * BLOCK + len(table.rows) * FIGURES_HIGHER,
        columns=(LIST_WIDTH[figures.imperial],),
        most_under=MOST_UNDER,
    )
    view = place.view(
        "grid",
        f"Plan with {counted(len(grid.boxes), 'box', 'boxes')} numbered in the order in which they are set.",
        (
            *floor_items(room, region),
            *_first_pass(region, grid),
            *wall_items(room),
            *drawn([one.line for one in grid.lines], region),
            *_names(grid.lines, room, place),
            *_numbers(grid, place),
            *door_side(room, place, DOOR_ROW),
            *corner_names(room, place),
        ),
    )
    return Sheet(
        key="grid",
        title=title,
        blocks=arrange(place, view, side),
        landscape=place.landscape,
        lists=(("grid", _list(grid, figures)),),
    )


def _first_pass(region: Region, grid: WorkingGrid) -> Iterator[Line]:
    """Yields how far the first pass of the trowel comes out from the walls."""
    if grid.first_pass > 0:
        for ring in inset(region, grid.first_pass).rings:
            yield Line(points=tuple((float(x), float(y)) for x, y in ring), pen=Pen.HIDDEN, closed=True)


def _names(lines: Sequence[GridLine], room: Room, place: Frame) -> Iterator[Item]:
    """Yields the name of each line outside the walls at both its ends."""
    by_wall: dict[str, list[Label]] = {}
    for one in lines:
        for mark in (one.line.marks[0], one.line.marks[-1]):
            start, _ = room.ends(mark.on)
            (x, y), _ = outward(room, mark.on)
            along = float((mark.x - start[0]) * x + (mark.y - start[1]) * y)
            by_wall.setdefault(mark.on, []).append(Label(text=one.name, along=along))
    for wall, named in by_wall.items():
        yield from outside(named, wall, room, place, size=Size.TEXT).items


def _numbers(grid: WorkingGrid, place: Frame) -> Iterator[Text]:
    """Yields the number of each box in it, as large as the box has room for."""
    for box in grid.boxes:
        wide, high = (float(side) / place.scale for side in np.ptp(box.rings[0], axis=0))
        sizes = [size for size in SIZES if text_width(str(box.number), size) < wide and CAP_HEIGHT[size] < high]
        yield Text(
            at=box.at, text=str(box.number), size=sizes[0] if sizes else SIZES[-1], angle=paper_angle(place), halo=True
        )


def _why(grid: WorkingGrid, nail: str, figures: Figures) -> Iterator[str]:
    """Yields what the boxes are cut by, how to set them, and which lines to pin."""
    size = f"{figures.room(grid.size[0])} × {figures.room(grid.size[1], unit=True)}"
    bounds = [f"a reach of {figures.entered(grid.reach, unit=True)}"]
    if grid.skins > 0:
        bounds.append(f"{figures.area(grid.skins)} set before the mortar skins")
    yield sentence(f"No box is wider than {size}: {listed(bounds)}")
    if grid.skins == 0:
        yield (
            "Nobody said what is set before the mortar skins: spread no more than you set, and less in heat or wind. "
            "Write skins under [setout.grid], and the boxes keep to it."
        )
    way = f"{grid.way_out}, the way out" if grid.by_door else f"corner {grid.way_out}; no door is booked"
    yield sentence(f"Box 1 first, box {len(grid.boxes)} last, at {way}: nobody walks over a fresh box")
    yield f"Every figure runs from the nail at {nail} or the corner beside it: never add one to another."
    pinned = [one.name for one in grid.lines if one.is_pinned]
    if pinned:
        longer = figures.entered(PINNED_OVER, unit=True)
        yield sentence(
            f"Pin {listed(pinned)} in the middle and snap both halves, two people at the ends: over {longer} a chalk "
            'line bows (Reader\'s Digest, "Chalk lines")'
        )
    if grid.first_pass > 0:
        yield sentence(
            f"Dashed: the first pass of the trowel, {figures.entered(grid.first_pass, unit=True)} along the walls, "
            "kept clear of lines. Spread up to a line, not over it"
        )


def _table(grid: WorkingGrid, labels: dict[str, str], figures: Figures) -> Table:
    return Table(
        columns=(
            Column(heading="Line"),
            Column(heading="is"),
            Column(heading="Running", unit=figures.column, align="right", marked=True),
            Column(heading="On, from"),
            Column(heading="at", unit=figures.column, align="right", marked=True),
            Column(heading="and on, from"),
            Column(heading="at", unit=figures.column, align="right", marked=True),
        ),
        rows=tuple(
            (
                one.name,
                labels[one.line.name],
                figures.room(one.line.running),
                *ends_texts(one.line.marks, figures),
            )
            for one in grid.lines
        ),
        ticks=True,
    )


def _list(grid: WorkingGrid, figures: Figures) -> Table:
    """Returns the boxes in the order in which they are set."""
    return Table(
        columns=(
            Column(heading="Box"),
            Column(heading="Middle, x", unit=figures.column, align="right"),
            Column(heading="Middle, y", unit=figures.column, align="right"),
            Column(heading="Floor", align="right"),
        ),
        rows=tuple(
            (str(box.number), figures.room(box.at[0]), figures.room(box.at[1]), figures.area(box.area))
            for box in grid.boxes
        ),
    )
