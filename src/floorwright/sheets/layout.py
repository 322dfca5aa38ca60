"""The pattern on the floor, every cut piece numbered, and the cut at both ends of every wall."""

from floorwright.cuts.schedule import CutList
from floorwright.draw.sheet import Block, Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.layout.option import WallCut
from floorwright.sheets.control import line_items
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import arrange, frame
from floorwright.sheets.plan import (
    corner_names,
    door_side,
    floor_items,
    obstacle_items,
    plan_box,
    wall_items,
    wall_names,
)
from floorwright.sheets.tiles import number_items, tile_items
from floorwright.sheets.words import Words, counted, sentence, words_of

MARGIN = 9.0
WIDE_MARGIN = 11.0
"""mm on paper about the plan, for numbers of two figures led outside and of three."""

NAMES = 1.1
"""mm on paper from the edge of the drawing to the middle of a wall's name."""

DOOR = 1.4
"""The same to the middle of the arrow at a door."""

LEGEND_ROOM = 12.0
"""mm on paper under the drawing, for one line."""

LEGEND = "Thick sides are sawn; a hatched piece is under the limit."

FEWER = "Where pieces are too small to number, the numbers left out run on between those shown."

NO_MOVEMENT_JOINTS = "Movement joints are not placed here: ask the designer."


def layout_sheet(solution: Solution, layout: Layout, cuts: CutList) -> Sheet:
    """Returns the sheet of one zone's pattern; the solution must have a room and control."""
    room, region, control = solution.room, solution.region, solution.control
    assert room is not None
    assert region is not None
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    title = _title(layout, figures)
    margin = MARGIN if len(cuts.pieces) < 100 else WIDE_MARGIN
    place = frame(
        plan_box(region),
        paper=solution.job.paper,
        imperial=figures.imperial,
        title=title,
        margin=margin,
        under=LEGEND_ROOM,
    )
    lines = line_items(control, ("first line", "square line")) if control else ()
    numbers = number_items(layout, cuts, room, place, lines)
    view = place.view(
        "layout",
        _described(layout),
        (
            *floor_items(room, region),
            *tile_items(layout),
            *obstacle_items(room),
            *wall_items(room),
            *lines,
            *numbers.items,
            *wall_names(room, place, margin - NAMES),
            *door_side(room, place, margin - DOOR),
            *corner_names(room, place),
        ),
    )
    side: tuple[Block, ...] = (
        Prose(lines=(LEGEND, *((FEWER,) if numbers.left_out else ())), tone="quiet"),
        _pattern(layout, figures, words),
        *_walls(layout, figures),
        Prose(lines=(NO_MOVEMENT_JOINTS,), tone="caution"),
    )
    return Sheet(key="layout", title=title, blocks=arrange(place, view, side), landscape=place.landscape)


def _title(layout: Layout, figures: Figures) -> str:
    chosen = layout.chosen
    if not chosen.cut:
        return f"Lay {counted(chosen.full, 'full tile')}; nothing is cut."
    return f"Lay {chosen.full} full and {chosen.cut} cut tiles; the narrowest is {figures.cut(chosen.worst)}."


def _described(layout: Layout) -> str:
    chosen = layout.chosen
    counts = f"{chosen.full} full and {chosen.cut} cut pieces, numbered"
    return f"Plan of the {layout.cell.name} in zone {layout.zone}: {counts}."


def _pattern(layout: Layout, figures: Figures, words: Words) -> Prose:
    least, most = layout.gap
    gap = figures.entered(least, unit=True)
    if most > least:
        gap += f" to {figures.entered(most, unit=True)}"
    return Prose(
        lines=(
            sentence(f"{words.pattern(layout.cell.name)}, {figures.size(*layout.cell.size)}"),
            sentence(f"{words.joint} {figures.entered(layout.cell.joint, unit=True)}, {words.gap} {gap} at the walls"),
            sentence(layout.chosen.name),
            "Walls run anticlockwise; taper is told for one tile.",
        )
    )


def _walls(layout: Layout, figures: Figures) -> tuple[Table, ...]:
    if not layout.chosen.walls:
        return ()
    table = Table(
        heading="Cut along each wall",
        columns=(
            Column(heading="Wall"),
            Column(heading="Start", unit=figures.column, align="right"),
            Column(heading="End", unit=figures.column, align="right"),
            Column(heading="Taper", unit=figures.column, align="right"),
        ),
        rows=tuple(_wall_row(wall, figures) for wall in layout.chosen.walls),
    )
    return (table,)


def _wall_row(wall: WallCut, figures: Figures) -> tuple[str, ...]:
    ends = [figures.cut(end) for end in (wall.start, wall.end)]
    return wall.wall, *ends, figures.taper(wall.taper)
