"""The pattern on the floor, every cut piece numbered, and the cut at both ends of every wall."""

from collections.abc import Sequence

from floorwright.draw.sheet import Block, Column, Columns, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.layout.kinds import counts_by_kind
from floorwright.layout.layout import Layout
from floorwright.layout.option import WallCut
from floorwright.layout.rooms import SEVERAL
from floorwright.plan.room import Room
from floorwright.sheets.breaks import break_lines, break_names, breaks_told
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
from floorwright.sheets.rooms import rooms_table
from floorwright.sheets.tiles import number_items, tile_items, zone_items
from floorwright.sheets.words import Words, capital, counted, sentence, words_of
from floorwright.sheets.zones import border_widths, zone_name, zones_of

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


def layout_sheet(solution: Solution) -> Sheet:
    """Returns the sheet of the whole floor's patterns; the solution must have a room and a layout."""
    room, region, control = solution.room, solution.region, solution.control
    assert room is not None
    assert region is not None
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    title = _title(solution.layouts, figures)
    count = sum(len(cuts.pieces) for cuts in solution.cuts)
    margin = MARGIN if count < 100 else WIDE_MARGIN
    place = frame(
        plan_box(region),
        paper=solution.job.paper,
        imperial=figures.imperial,
        title=title,
        margin=margin,
        under=LEGEND_ROOM,
    )
    lines = line_items(control, ("first line", "square line")) if control else ()
    broken, names = break_lines(solution.breaks), break_names(solution.breaks, place)
    numbers = [
        number_items(layout, cuts, room, place, (*lines, *broken), names)
        for layout, cuts in zip(solution.layouts, solution.cuts, strict=True)
    ]
    view = place.view(
        "layout",
        _described(solution.layouts),
        (
            *floor_items(room, region),
            *(item for layout in solution.layouts for item in tile_items(layout)),
            *zone_items(solution.layouts),
            *broken,
            *obstacle_items(room),
            *wall_items(room),
            *lines,
            *(item for labelled in numbers for item in labelled.items),
            *names,
            *wall_names(room, place, margin - NAMES),
            *door_side(room, place, margin - DOOR),
            *corner_names(room, place),
        ),
    )
    left_out = any(labelled.left_out for labelled in numbers)
    side: tuple[Block, ...] = (
        Prose(lines=(LEGEND, *((FEWER,) if left_out else ())), tone="quiet"),
        *_patterns(solution.layouts, figures, words),
        *breaks_told(solution, figures),
        *(block for layout in solution.layouts if not layout.is_border for block in rooms_table(layout, figures)),
        *_in_columns([table for one in solution.layouts if not one.is_border for table in _walls(one, room, figures)]),
        Prose(lines=(NO_MOVEMENT_JOINTS,), tone="caution"),
    )
    return Sheet(key="layout", title=title, blocks=arrange(place, view, side), landscape=place.landscape)


def _title(layouts: Sequence[Layout], figures: Figures) -> str:
    full, cut = (sum(counts) for counts in zip(*((one.chosen.full, one.chosen.cut) for one in layouts), strict=True))
    if not cut:
        return f"Lay {counted(full, 'full tile')}; nothing is cut."
    narrowest = min(layout.chosen.worst for layout in layouts if layout.chosen.cut)
    return f"Lay {full} full and {cut} cut tiles; the narrowest is {figures.cut(narrowest)}."


def _described(layouts: Sequence[Layout]) -> str:
    said = [
        f"{layout.cell.name} in zone {layout.zone}: "
        f"{layout.chosen.full} full and {layout.chosen.cut} cut pieces, numbered"
        for layout in layouts
    ]
    return f"Plan of the {'; '.join(said)}."


def _patterns(layouts: Sequence[Layout], figures: Figures, words: Words) -> tuple[Prose, ...]:
    """Returns what is laid in each zone, the sides of a border said together."""
    zones = zones_of(layouts)
    return tuple(_pattern(zone, figures, words, several=len(zones) > 1, first=zone is zones[0]) for zone in zones)


def _pattern(zone: tuple[Layout, ...], figures: Figures, words: Words, *, several: bool, first: bool) -> Prose:
    layout = zone[0]
    least, most = layout.gap
    gap = figures.entered(least, unit=True)
    if most > least:
        gap += f" to {figures.entered(most, unit=True)}"
    joint = f"{words.joint} {figures.entered(layout.cell.joint, unit=True)}"
    at_walls = layout.part is None or any(side.wall for side in layout.part.sides)
    lines = [
        sentence(f"{words.pattern(layout.cell.name)}, {figures.goods(layout.cell)}"),
        sentence(f"{joint}, {words.gap} {gap} at the walls" if at_walls else joint),
        sentence(f"width {border_widths(zone, figures)}" if layout.is_border else layout.chosen.name),
    ]
    # The pieces of rings stand in the table of their own sheet.
    counts = counts_by_kind(layout) if layout.rings is None else ()
    lines += [f"{one.kind.capitalize()}: {one.full} full, {one.cut} cut." for one in counts]
    if first:
        lines.append("Walls run anticlockwise; taper is told for one tile.")
    return Prose(heading=capital(zone_name(layout)) if several else "", lines=tuple(lines))


def _walls(layout: Layout, room: Room, figures: Figures) -> tuple[Table, ...]:
    """The cut along each wall; of rooms that run through a table for each room."""
    divided = layout.part is not None and any(not side.wall for side in layout.part.sides)
    heading = f"{capital(layout.zone)}: cut along each side" if divided else "Cut along each wall"
    if len(layout.rooms) < SEVERAL:
        return _wall_table(heading, layout.chosen.walls, figures)
    owner = {wall.name: wall.room for wall in room.walls}
    tables: list[Table] = []
    for name in (*(one.name for one in room.rooms), ""):
        walls = tuple(wall for wall in layout.chosen.walls if owner.get(wall.wall, "") == name)
        tables += _wall_table(f"{heading}: {name}" if name else heading, walls, figures)
    return tuple(tables)


def _in_columns(tables: Sequence[Table]) -> tuple[Block, ...]:
    return (Columns(blocks=tuple(tables)),) if len(tables) > 1 else tuple(tables)


def _wall_table(heading: str, walls: tuple[WallCut, ...], figures: Figures) -> tuple[Table, ...]:
    if not walls:
        return ()
    table = Table(
        heading=heading,
        columns=(
            Column(heading="Wall"),
            Column(heading="Start", unit=figures.column, align="right"),
            Column(heading="End", unit=figures.column, align="right"),
            Column(heading="Taper", unit=figures.column, align="right"),
        ),
        rows=tuple(_wall_row(wall, figures) for wall in walls),
    )
    return (table,)


def _wall_row(wall: WallCut, figures: Figures) -> tuple[str, ...]:
    ends = [figures.cut(end) for end in (wall.start, wall.end)]
    return wall.wall, *ends, figures.taper(wall.taper)
