"""The control lines on the plan, as they would be struck: short arcs, crosses with letters, marks on the walls."""

import math
from collections.abc import Iterator

import numpy as np

from floorwright.control.control import Arc, Construction, Control, ControlLine, Mark
from floorwright.draw.lettering import text_width
from floorwright.draw.sheet import Beside, Block, Column, Prose, Sheet, Table
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import Cross, Curve, Item, Line, Point, Text
from floorwright.geometry.region import Region
from floorwright.job.solution import Solution
from floorwright.plan.room import Room
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import Frame, arrange, frame
from floorwright.sheets.labels import spread
from floorwright.sheets.plan import corner_names, door_side, floor_items, outward, plan_box, wall_items
from floorwright.sheets.words import sentence

MARGIN = 9.0
ROW = 3.8
"""mm on paper from a wall to the middle of the figures of its marks."""

DOOR_ROW = 7.9
HALF_ARC = 4.0
"""mm on paper, half of an arc as it is struck."""

APART = 3.0
"""mm on paper between the texts of two marks."""

NAME_OVER = 2.0
"""mm on paper from a line to the middle of its name."""

LETTER = 4.0
"""mm on paper from a point to its letter."""

LETTERS_APART = 2.5
"""mm on paper more between two letters than between a letter and a point, as both are wide."""

ASIDE = math.radians(52)
"""A letter stands this far round from the line that its point lies on."""


def control_sheet(solution: Solution) -> Sheet:
    """Returns the sheet of the control lines; the solution must have control."""
    room, region, control = solution.room, solution.region, solution.control
    assert room is not None
    assert region is not None
    assert control is not None
    figures = Figures(style=solution.style)
    title = "Strike the first line, square off it at the centre."
    place = frame(
        plan_box(region), paper=solution.job.paper, imperial=figures.imperial, title=title, margin=MARGIN, under=70.0
    )
    described = (
        f"Plan with the control lines through the centre and their marks on the walls of {room.name or 'the room'}."
    )
    crosses = _crosses(control, region, place)
    view = place.view(
        "control",
        described,
        (
            *floor_items(room, region),
            *wall_items(room),
            *line_items(control),
            *_arcs(control, place),
            *crosses,
            *_line_names(control, crosses, place),
            *wall_marks(room, [mark for line in control.lines for mark in line.marks], place, figures),
            *door_side(room, place, DOOR_ROW),
            *corner_names(room, place),
        ),
    )
    chosen = Prose(
        lines=(
            sentence(f"First line: {control.first_how}"),
            sentence(f"Centre: {control.centre_how}"),
        )
    )
    marks, accuracy = _marks_table(control, figures), _accuracy_table(control, figures)
    side: tuple[Block, ...] = (chosen, marks, accuracy)
    if not place.beside:
        side = (Beside(left=(marks,), right=(chosen, accuracy), share=0.5),)
    return Sheet(key="control", title=title, blocks=arrange(place, view, side), landscape=place.landscape)


def line_items(control: Control, names: tuple[str, ...] = ()) -> tuple[Line, ...]:
    """Returns the control lines from wall to wall, those named, else all."""
    return tuple(
        Line(points=((line.marks[0].x, line.marks[0].y), (line.marks[-1].x, line.marks[-1].y)), pen=Pen.CONTROL)
        for line in control.lines
        if len(line.marks) > 1 and (not names or line.name in names)
    )


def wall_marks(room: Room, marks: list[Mark], place: Frame, figures: Figures) -> tuple[Item, ...]:
    """Returns a cross at each mark on a wall, and outside it, along the wall, its name and running figure."""
    items: list[Item] = [Cross(at=(mark.x, mark.y), label="") for mark in marks]
    for wall in dict.fromkeys(mark.on for mark in marks):
        items += _marks_on(room, wall, [mark for mark in marks if mark.on == wall], place, figures)
    return tuple(items)


def _marks_on(room: Room, wall: str, marks: list[Mark], place: Frame, figures: Figures) -> Iterator[Text]:
    """Yields the texts of the marks on a wall: as large as they find room, the name alone where there is none."""
    (x, y), out = outward(room, wall)
    start, end = room.ends(wall)
    length = float(np.hypot(*(end - start)))

    def along(mark: Mark) -> float:
        return float((mark.x - start[0]) * x + (mark.y - start[1]) * y)

    ordered = sorted(marks, key=along)
    for size, say in ((Size.FIGURE, mark_text), (Size.TEXT, mark_text), (Size.TEXT, _name)):
        texts = [say(mark, figures) for mark in ordered]
        widths = [place.paper(text_width(text, size) + APART) for text in texts]
        if sum(widths) <= length:
            break
    places = spread([along(mark) for mark in ordered], widths, widths[0] / 2, length - widths[-1] / 2)
    rise = place.paper(ROW)
    for text, at in zip(texts, places, strict=True):
        point = (float(start[0]) + x * at + out[0] * rise, float(start[1]) + y * at + out[1] * rise)
        yield Text(at=point, text=text, size=size, angle=math.atan2(y, x), halo=True)


def _name(mark: Mark, _figures: Figures) -> str:
    return mark.name


def mark_text(mark: Mark, figures: Figures) -> str:
    """Returns a mark as it stands on the plan: `M1: 2100 from SW`."""
    return f"{mark.name}: {figures.room(mark.distance)} from {mark.start}"


def chosen_constructions(control: Control) -> list[Construction]:
    """Returns the constructions to carry out, in the order of the lines that they make."""
    by_line = {made.makes: made for made in control.constructions if made.chosen}
    return [by_line[line.name] for line in control.lines if line.name in by_line]


def _arcs(control: Control, place: Frame) -> Iterator[Item]:
    seen: set[tuple[float, ...]] = set()
    for made in chosen_constructions(control):
        for step in made.steps:
            for arc in step.arcs:
                key = (*(round(value) for value in (*arc.centre, *arc.near)), round(arc.radius))
                if key not in seen:
                    seen.add(key)
                    yield _short_arc(arc, place)


def _short_arc(arc: Arc, place: Frame) -> Curve:
    towards = math.atan2(arc.near[1] - arc.centre[1], arc.near[0] - arc.centre[0])
    half = min(place.paper(HALF_ARC) / arc.radius, math.pi / 6)
    return Curve(centre=arc.centre, radius=arc.radius, start=towards - half, end=towards + half, pen=Pen.ARC)


def _crosses(control: Control, region: Region, place: Frame) -> tuple[Cross, ...]:
    """Returns a cross at every point of the chosen constructions; points that coincide share one."""
    points = _points(control)
    letters: list[Point] = []
    crosses = []
    for at, names in points:
        away = _away(at, [other for other, _ in points if other != at], letters, control, region, place)
        letters.append(_letter(at, away, place))
        crosses.append(Cross(at=at, label=", ".join(names), away=away, size=Size.TEXT))
    return tuple(crosses)


def _letter(at: Point, away: Point, place: Frame) -> Point:
    """Returns about where the letters of a cross stand."""
    reach = place.paper(LETTER)
    return at[0] + away[0] * reach, at[1] + away[1] * reach


def _points(control: Control) -> list[tuple[Point, list[str]]]:
    """Returns the points on the floor, each with its letters; marks on walls and corners have theirs outside."""
    elsewhere = {name for line in control.lines for mark in line.marks for name in (mark.name, mark.start)}
    found: dict[tuple[int, int], tuple[Point, list[str]]] = {}
    for made in chosen_constructions(control):
        for step in made.steps:
            for name, x, y in step.points:
                if name in elsewhere:
                    continue
                _, names = found.setdefault((round(x), round(y)), ((x, y), []))
                if name not in names:
                    names.append(name)
    return list(found.values())


def _away(
    at: Point, others: list[Point], letters: list[Point], control: Control, region: Region, place: Frame
) -> Point:
    """Returns the direction in which a letter stands clearest: between the lines, off walls, points and letters."""
    x, y = at[0] - control.centre[0], at[1] - control.centre[1]
    if math.hypot(x, y) < 1.0:
        base, turns = control.lines[0].angle + math.pi / 8, (0.0, math.pi / 2, math.pi, -math.pi / 2)
    else:
        base, turns = math.atan2(y, x), (ASIDE, -ASIDE, math.pi - ASIDE, ASIDE - math.pi)
    ways = [(math.cos(base + turn), math.sin(base + turn)) for turn in turns]

    def clear(way: Point) -> float:
        letter = _letter(at, way, place)
        near = [math.dist(letter, other) for other in others]
        near += [math.dist(letter, other) - place.paper(LETTERS_APART) for other in letters]
        return min(*near, to_wall(letter, region), place.paper(LETTER), math.inf)

    return max(ways, key=lambda way: round(clear(way)))


def to_wall(point: Point, region: Region) -> float:
    """Returns mm from a point to the nearest wall or obstacle; below zero where it lies in or beyond one."""
    import shapely

    floor = shapely.Polygon(region.rings[0], list(region.rings[1:]))
    off = shapely.distance(floor.boundary, shapely.Point(point))
    return float(off if shapely.contains_xy(floor, *point) else -off)


def _line_names(control: Control, crosses: tuple[Cross, ...], place: Frame) -> Iterator[Item]:
    """Yields the name of each line, over it where it is furthest from any point and its letters."""
    taken = [cross.at for cross in crosses]
    for cross in crosses:
        x, y = _letter(cross.at, cross.away, place)
        half = place.paper(text_width(cross.label, cross.size)) / 2
        taken += [(x - half, y), (x + half, y)]
    for line in control.lines:
        if len(line.marks) < 2:
            continue
        end = line.marks[-1]
        (x, y), dx, dy = line.through, end.x - line.through[0], end.y - line.through[1]
        places = [(x + dx * 0.05 * n, y + dy * 0.05 * n) for n in range(3, 18)]
        others = [*taken, (end.x, end.y)]
        at = max(places, key=lambda one: round(min(math.dist(one, other) for other in others)))
        yield Text(at=at, text=line.name, size=Size.SMALL, angle=line.angle, shift=(0.0, NAME_OVER), halo=True)


def _marks_table(control: Control, figures: Figures) -> Table:
    return Table(
        heading="Marks on the walls",
        columns=(
            Column(heading="Mark"),
            Column(heading="On wall"),
            Column(heading="At", unit=figures.column, align="right", marked=True),
        ),
        rows=tuple(
            (mark.name, f"{mark.on}, from {mark.start}", figures.room(mark.distance))
            for line in control.lines
            for mark in line.marks
        ),
    )


def _accuracy_table(control: Control, figures: Figures) -> Table:
    return Table(
        heading="True two times in three",
        columns=(Column(heading="Line"), Column(heading="At its end, within", align="right")),
        rows=tuple((line.name, figures.fine(_worst(line))) for line in control.lines),
    )


def _worst(line: ControlLine) -> float:
    return max((drift.sd for drift in line.drift), default=0.0)
