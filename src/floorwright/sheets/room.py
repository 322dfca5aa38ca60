"""The room as measured: its adjusted walls, and every reading held against them."""

import math
from collections.abc import Collection, Iterator

import numpy as np

from floorwright.draw.paper import GUTTER, body_space
from floorwright.draw.sheet import Beside, Block, Column, Prose, Sheet, Table
from floorwright.draw.style import Pen
from floorwright.draw.view import Cross, Item, Line, Point, View
from floorwright.findings import Severity
from floorwright.geometry.region import Region
from floorwright.job.solution import Solution
from floorwright.plan.room import Room, Wall
from floorwright.sheets.arcs import arc_blocks
from floorwright.sheets.clear import CLEAR, ROUND_ABOUT, clearance, clearest, floor_shape, letter_box
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import BLOCK, TALL, TALL_BESIDE, Frame, arrange, frame, prose_height
from floorwright.sheets.plan import (
    arc_sizes,
    corner_names,
    door_side,
    floor_items,
    plan_box,
    wall_items,
    wall_lengths,
)
from floorwright.sheets.rooms import areas_table, room_names
from floorwright.sheets.words import counted, sentence, told
from floorwright.survey.adjustment import Adjustment, Residual
from floorwright.tolerance import LITTLE_CHECKED, UNCHECKED

MARGIN = 14.0
OFFSET = 6.0
"""mm on paper from a wall to its dimension."""

HEAD = 21.0
ROW = 6.1
"""mm on paper that a table takes without its rows, and for each of them."""

MOST_UNDER = 125.0
MOST_UNDER_ROOMS = 50.0
"""The same under a plan of several rooms: a long plan needs the page, and so many readings run over it anyway."""

IN_TABLES = {"survey-out-of-square"}
"""Findings that the tables of the sheet tell."""

OF_THE_ROOM = {"control-mid-lines"}
"""Findings of control that come of the room's own shape."""

DOOR_ROW = 12.0
"""mm on paper from a wall to the middle of its door's name, outside its dimension."""


def room_sheet(solution: Solution) -> Sheet:
    """Returns the sheet of the room as measured; without a room, what is still to be measured."""
    room, region, adjustment = solution.room, solution.region, solution.survey.adjustment
    if room is None or region is None or adjustment is None:
        return _unfixed(solution)
    figures = Figures(style=solution.style)
    title = _title(adjustment, figures)
    areas = areas_table(solution.survey, figures)
    beside: tuple[Block, ...] = (_size(solution, figures), *areas, *_verdict(adjustment, solution))
    half = (body_space(solution.job.paper)[0] - GUTTER) / 2
    most = MOST_UNDER_ROOMS if room.rooms else MOST_UNDER
    readings, square = _readings(adjustment, figures), _corners(room, adjustment.points, figures)
    high, low = _high(len(readings.rows)), _high(len(square.rows))
    places = [
        frame(
            plan_box(region),
            paper=solution.job.paper,
            imperial=figures.imperial,
            title=title,
            margin=MARGIN,
            under=min(most, high + (low if way == TALL_BESIDE else max(low, BLOCK + prose_height(beside, half)))),
            ways=(way,),
        )
        for way in (TALL_BESIDE, TALL)
    ]
    place = min(places, key=lambda one: one.scale)
    view = _view(room, solution, adjustment, place, figures)
    # Of corners that all lie at arcs none is square or out of it.
    corners = (square,) if square.rows else ()
    round_walls = tuple(arc_blocks(solution, figures))
    blocks: tuple[Block, ...] = (view, Beside(left=beside, right=corners, share=0.5), readings, *round_walls)
    if place.beside:
        blocks = arrange(place, view, beside, (readings, *corners, *round_walls))
    return Sheet(key="room", title=title, blocks=blocks, landscape=place.landscape, lists=(("readings", readings),))


def _high(rows: int) -> float:
    """Returns about how high a table stands, mm on paper, with the space over it."""
    return HEAD + ROW * rows


def _unfixed(solution: Solution) -> Sheet:
    needs = [told(finding) for finding in solution.findings if finding.severity is Severity.ERROR]
    return Sheet(
        key="room",
        title="The readings do not fix the room yet.",
        blocks=(Prose(lines=tuple(needs) or ("Measure every wall and both diagonals.",), tone="limit"),),
    )


def _title(adjustment: Adjustment, figures: Figures) -> str:
    if adjustment.suspects:
        word = "one reading does not fit" if len(adjustment.suspects) == 1 else "some readings do not fit"
        return f"The room as measured: {word}."
    if adjustment.degrees_of_freedom <= 0:
        return "The room as measured, with nothing to check the readings by."
    worst = max((abs(one.residual) for one in adjustment.residuals if one.kind == "distance"), default=0.0)
    if worst < figures.style.mm(1) / 2:
        return "The room as measured: the readings agree."
    return f"The room as measured: the readings agree within {figures.within(worst)}."


def _view(room: Room, solution: Solution, adjustment: Adjustment, place: Frame, figures: Figures) -> View:
    assert solution.region is not None
    items: tuple[Item, ...] = (
        *floor_items(room, solution.region),
        *_reading_lines(adjustment, room, suspect=False),
        *wall_items(room),
        *_reading_lines(adjustment, room, suspect=True),
        *wall_lengths(room, figures, place, OFFSET),
        *arc_sizes(room, figures, place),
        *room_names(room),
        *door_side(room, place, DOOR_ROW),
        *corner_names(room, place, inside=True),
        *_points(room, solution.region, adjustment, place),
    )
    described = (
        f"Outline of {room.name or 'the room'} with the adjusted length of each wall and the lines that were taped."
    )
    return place.view("room", described, items)


def _points(room: Room, region: Region, adjustment: Adjustment, place: Frame) -> Iterator[Cross]:
    """Yields the points that were taped to and are no corners, each with its letters off the lines that meet in it."""
    import shapely

    at = {name: (float(x), float(y)) for name, (x, y) in zip(adjustment.points, adjustment.xy, strict=True)}
    taped = [ends for one in adjustment.residuals if (ends := _ends(one, at))]
    lines = [shapely.LineString([at[end] for end in ends]) for ends in taped]
    floor, reach = floor_shape(region), place.paper(CLEAR)
    corners = {corner.name for corner in room.corners}
    for name in adjustment.points:
        if name in corners:
            continue
        ways = [Cross(at=at[name], label=name, away=way) for way in ROUND_ABOUT]
        scores = [
            (min(clearance(box, (), floor), reach), min(clearance(box, lines, floor), reach))
            for box in (letter_box(way, place) for way in ways)
        ]
        yield ways[clearest(scores)]


def _reading_lines(adjustment: Adjustment, room: Room, *, suspect: bool) -> tuple[Item, ...]:
    """Returns the taped lines across the floor, or else the suspect ones, walls among them."""
    at = {name: (float(x), float(y)) for name, (x, y) in zip(adjustment.points, adjustment.xy, strict=True)}
    walls = {frozenset((wall.start, wall.end)) for wall in room.walls}
    lines: list[Item] = []
    for one in adjustment.residuals:
        ends = _ends(one, at)
        if ends is None or one.suspect != suspect or (frozenset(ends) in walls and not suspect):
            continue
        lines.append(Line(points=tuple(at[end] for end in ends), pen=Pen.SUSPECT if suspect else Pen.READING))
    return tuple(lines)


def _ends(one: Residual, at: dict[str, Point]) -> tuple[str, str] | None:
    """Returns the points that a distance runs between, from its key `A-B` or `A-B/2`."""
    if one.kind != "distance":
        return None
    ends = tuple(one.key.split("/")[0].split("-"))
    return (ends[0], ends[1]) if len(ends) == 2 and all(end in at for end in ends) else None


def _size(solution: Solution, figures: Figures) -> Prose:
    survey, room = solution.survey, solution.room
    around = survey.perimeter if room is None else room.perimeter
    return Prose(
        heading="Size",
        lines=(
            f"{figures.area(survey.area)} wall to wall.",
            f"{figures.room(around, unit=True)} round the walls.",
        ),
    )


def _corners(room: Room, measured: Collection[str], figures: Figures) -> Table:
    """Returns how far each corner is out of square; jambs of a doorway are no corners that anybody measured."""
    return Table(
        heading="Out of square",
        columns=(
            Column(heading="Corner"),
            Column(heading="Out by", unit=figures.column, align="right"),
            Column(heading="over", unit=figures.column, align="right"),
            Column(heading="Wall"),
            Column(heading="Corner is"),
        ),
        rows=tuple(
            _corner_row(room, n, figures)
            for n in range(len(room.corners))
            if room.corners[n].name in measured and not any(wall.bulge for wall in _walls_at(room, n))
        ),
    )


def _corner_row(room: Room, n: int, figures: Figures) -> tuple[str, ...]:
    """How far the shorter of the two walls at a corner leaves the square, over its own length."""
    corner = room.corners[n]
    over, wall = min((float(np.hypot(*np.subtract(*room.ends(one.name)))), one.name) for one in _walls_at(room, n))
    turn = math.remainder(corner.angle, math.pi / 2)
    by = abs(math.tan(turn)) * over
    state = "true" if by < figures.style.mm(1) / 2 else "open" if turn > 0 else "closed"
    return corner.name, figures.room(by), figures.room(over), wall, f"{state}, {math.degrees(corner.angle):.2f}°"


def _walls_at(room: Room, n: int) -> tuple[Wall, Wall]:
    return room.walls[n - 1], room.walls[n]


def _coordinates(adjustment: Adjustment, figures: Figures) -> Table:
    """Returns coordinates that nothing checks, a row for each point: that no slip would show stands over the sheet."""
    read: dict[str, dict[str, str]] = {}
    for one in adjustment.residuals:
        point, _, axis = one.key.rpartition(" ")
        read.setdefault(point, {})[axis] = figures.room(one.measured)
    return Table(
        heading="Coordinates as read",
        columns=(
            Column(heading="Point"),
            Column(heading="East", unit=figures.column, align="right"),
            Column(heading="North", unit=figures.column, align="right"),
        ),
        rows=tuple((point, axes["x"], axes["y"]) for point, axes in read.items()),
    )


def _readings(adjustment: Adjustment, figures: Figures) -> Table:
    if all(one.kind == "coordinate" and one.redundancy <= UNCHECKED for one in adjustment.residuals):
        return _coordinates(adjustment, figures)
    return Table(
        heading="Readings",
        columns=(
            Column(heading="Reading"),
            Column(heading="Read", unit=figures.column, align="right"),
            Column(heading="Adjusted", unit=figures.column, align="right"),
            Column(heading="Difference", unit=figures.column, align="right"),
            Column(heading="Would a slip show?"),
        ),
        rows=tuple(_reading_row(one, figures) for one in adjustment.residuals),
    )


def _reading_row(one: Residual, figures: Figures) -> tuple[str, ...]:
    if one.is_angle:
        values = [f"{math.degrees(value):.2f}°" for value in (one.measured, one.adjusted)]
        values.append(f"{math.degrees(one.residual):+.2f}°")
    elif one.kind == "straight":
        values = ["", figures.room(one.adjusted), figures.difference(one.residual)]
    else:
        values = [figures.room(one.measured), figures.room(one.adjusted), figures.difference(one.residual)]
    return (_key(one), *values, _checked(one))


def _key(one: Residual) -> str:
    return (
        f"{one.key}, taken as {one.kind}" if one.kind in ("square", "straight") and one.kind not in one.key else one.key
    )


def _checked(one: Residual) -> str:
    """Returns in words how far the other readings would show a slip in this one."""
    if one.suspect:
        return "does not fit: take it again"
    if one.redundancy <= UNCHECKED:
        return "no: nothing checks it"
    if one.redundancy < LITTLE_CHECKED:
        return "a little"
    return "yes"


def _verdict(adjustment: Adjustment, solution: Solution) -> tuple[Prose, ...]:
    """Returns the survey's findings (suspects, honest ties, corners taken as square) and how the mid-lines run."""
    survey = solution.survey.findings
    doubts = [one for one in survey if one.severity is not Severity.NOTE]
    notes = [one for one in survey if one.severity is Severity.NOTE and one.code not in IN_TABLES]
    shape = [one for one in (solution.control.findings if solution.control else ()) if one.code in OF_THE_ROOM]
    blocks = []
    if doubts:
        blocks.append(Prose(lines=tuple(map(told, doubts)), tone="doubt"))
    elif adjustment.degrees_of_freedom > 0:
        spare = counted(adjustment.degrees_of_freedom, "reading")
        blocks.append(Prose(lines=(f"{sentence(spare)[:-1]} to spare, and nothing points at a slip.",), tone="agrees"))
    if shape:
        crooked = any(one.severity is not Severity.NOTE for one in shape)
        blocks.append(Prose(lines=tuple(map(told, shape)), tone="doubt" if crooked else "quiet"))
    if notes:
        blocks.append(Prose(lines=tuple(map(told, notes)), tone="quiet"))
    return tuple(blocks)
