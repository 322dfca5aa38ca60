"""The control lines on the plan, as they would be struck: short arcs, crosses with letters, marks on the walls."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from floorwright.control.control import Arc, Construction, Control, ControlLine, Mark
from floorwright.draw.lettering import text_width
from floorwright.draw.sheet import Beside, Block, Column, Prose, Sheet, Table
from floorwright.draw.style import CAP_HEIGHT, Pen, Size
from floorwright.draw.view import Cross, Curve, Item, Line, Point, Text
from floorwright.findings import Severity
from floorwright.geometry.region import Region
from floorwright.job.solution import Solution
from floorwright.plan.room import Room
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import Frame, arrange, frame
from floorwright.sheets.labels import spread
from floorwright.sheets.plan import corner_names, door_side, floor_items, outward, plan_box, wall_items
from floorwright.sheets.words import listed, sentence, told

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

OFF_POINT = 2.8
"""mm on paper from a point, past the arm of its cross, to the near side of its letter."""

CLEAR = 2.0
"""mm on paper about a letter, beyond which nothing disturbs it."""

ELSEWHERE = {"control-mid-lines", "control-square-accuracy", "control-45-accuracy"}
"""Findings that stand on the sheet of the room, and on that of the steps."""

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
            *line_names(control, place, crosses),
            *wall_marks(room, [mark for line in control.lines for mark in line.marks], place, figures),
            *door_side(room, place, DOOR_ROW),
            *corner_names(room, place),
        ),
    )
    chosen = Prose(
        lines=(
            sentence(f"First line: {control.first_how}"),
            sentence(f"Centre: {control.centre_how}"),
            _accuracy(control, figures),
        )
    )
    marks, found = _marks_table(control, figures), _found(control)
    side: tuple[Block, ...] = (chosen, marks, *found)
    if not place.beside:
        side = (Beside(left=(marks,), right=(chosen, *found), share=0.5),)
    return Sheet(
        key="control",
        title=title,
        blocks=arrange(place, view, side),
        landscape=place.landscape,
        lists=(("marks", _list(control, figures)),),
    )


def _found(control: Control) -> tuple[Prose, ...]:
    """Returns what to know before the lines are struck; doubts are marked as such."""
    here = [one for one in control.findings if one.code not in ELSEWHERE]
    doubts = tuple(told(one) for one in here if one.severity is not Severity.NOTE)
    notes = tuple(told(one) for one in here if one.severity is Severity.NOTE)
    doubt = (Prose(lines=doubts, tone="doubt"),) if doubts else ()
    return (*doubt, Prose(lines=notes)) if notes else doubt


def _accuracy(control: Control, figures: Figures) -> str:
    """Returns how true the lines come out, those that do alike told as one."""
    alike: dict[str, list[str]] = {}
    for line in control.lines:
        alike.setdefault(figures.within(_worst(line)), []).append(line.name)
    said = ", ".join(f"{listed(names)} within {within}" for within, names in alike.items())
    return sentence(f"true at the walls, two times in three: {said}")


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
    by_wall = [[mark for mark in marks if mark.on == wall] for wall in dict.fromkeys(mark.on for mark in marks)]
    # One size on all walls, but a crowded wall has the names alone.
    roomy = [_fitting(room, on_wall, place, figures) for on_wall in by_wall]
    size = Size.FIGURE if all(fits is Size.FIGURE for fits in roomy) else Size.TEXT
    for on_wall, fits in zip(by_wall, roomy, strict=True):
        items += _marks_on(
            room, on_wall, size, place, [mark_text(mark, figures) if fits else mark.name for mark in on_wall]
        )
    return tuple(items)


def _fitting(room: Room, marks: list[Mark], place: Frame, figures: Figures) -> Size | None:
    """Returns the largest size at which the marks of a wall, with their figures, find room along it."""
    length = float(np.hypot(*np.subtract(*room.ends(marks[0].on))))
    for size in (Size.FIGURE, Size.TEXT):
        if sum(place.paper(text_width(mark_text(mark, figures), size) + APART) for mark in marks) <= length:
            return size
    return None


def _marks_on(room: Room, marks: list[Mark], size: Size, place: Frame, texts: list[str]) -> Iterator[Text]:
    """Yields the texts of the marks on a wall, as near to them as they find room."""
    (x, y), out = outward(room, marks[0].on)
    start, end = room.ends(marks[0].on)
    length = float(np.hypot(*(end - start)))
    wanted = [
        (float((mark.x - start[0]) * x + (mark.y - start[1]) * y), text)
        for mark, text in zip(marks, texts, strict=True)
    ]
    wanted.sort(key=lambda one: one[0])
    widths = [place.paper(text_width(text, size) + APART) for _, text in wanted]
    places = spread([along for along, _ in wanted], widths, widths[0] / 2, length - widths[-1] / 2)
    rise = place.paper(ROW)
    for (_, text), at in zip(wanted, places, strict=True):
        point = (float(start[0]) + x * at + out[0] * rise, float(start[1]) + y * at + out[1] * rise)
        yield Text(at=point, text=text, size=size, angle=math.atan2(y, x), halo=True)


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
    letters: list[_Letter] = []
    crosses = []
    for at, names in points:
        label = ", ".join(names)
        ways = [(way, _letter(at, way, label, place)) for way in _ways(at, control)]
        others = [other for other, _ in points if other != at]
        clear = [round(_clear(letter, others, letters, region, place)) for _, letter in ways]
        away, letter = ways[clear.index(max(clear))]
        letters.append(letter)
        crosses.append(Cross(at=at, label=label, away=away, size=Size.TEXT))
    return tuple(crosses)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Letter:
    """The box that a letter takes, floor mm: its middle and its half sides."""

    x: float
    y: float
    wide: float
    high: float

    def apart(self, x: float, y: float, wide: float = 0.0, high: float = 0.0) -> float:
        """Returns how far another box, or a point, is from it; below zero where they overlap."""
        return max(abs(x - self.x) - wide - self.wide, abs(y - self.y) - high - self.high)

    def corners(self) -> list[Point]:
        return [(self.x + a * self.wide, self.y + b * self.high) for a in (-1, 1) for b in (-1, 1)]


def _letter(at: Point, away: Point, label: str, place: Frame) -> _Letter:
    """Returns about where the letters of a cross stand."""
    wide, high = text_width(label, Size.TEXT) / 2, CAP_HEIGHT[Size.TEXT] / 2
    reach = place.paper(OFF_POINT + abs(away[0]) * wide + abs(away[1]) * high)
    return _Letter(x=at[0] + away[0] * reach, y=at[1] + away[1] * reach, wide=place.paper(wide), high=place.paper(high))


def _clear(letter: _Letter, points: list[Point], letters: list[_Letter], region: Region, place: Frame) -> float:
    """Returns how far a letter stands from points, other letters and walls, as far as it matters."""
    near = [letter.apart(x, y) for x, y in points]
    near += [letter.apart(other.x, other.y, other.wide, other.high) for other in letters]
    near += [to_wall(corner, region) for corner in letter.corners()]
    return min(*near, place.paper(CLEAR), math.inf)


def _ways(at: Point, control: Control) -> list[Point]:
    """Returns the directions that a letter may stand in, between the lines that run through its point."""
    x, y = at[0] - control.centre[0], at[1] - control.centre[1]
    if math.hypot(x, y) < 1.0:
        base, turns = control.lines[0].angle + math.pi / 8, (0.0, math.pi / 2, math.pi, -math.pi / 2)
    else:
        base, turns = math.atan2(y, x), (ASIDE, -ASIDE, math.pi - ASIDE, ASIDE - math.pi)
    return [(math.cos(base + turn), math.sin(base + turn)) for turn in turns]


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


def to_wall(point: Point, region: Region) -> float:
    """Returns mm from a point to the nearest wall or obstacle; below zero where it lies in or beyond one."""
    import shapely

    floor = shapely.Polygon(region.rings[0], list(region.rings[1:]))
    off = shapely.distance(floor.boundary, shapely.Point(point))
    return float(off if shapely.contains_xy(floor, *point) else -off)


def line_names(control: Control, place: Frame, crosses: tuple[Cross, ...] = ()) -> Iterator[Item]:
    """Yields the name of each line, over it where it is furthest from any point and its letters."""
    taken = [control.centre, *(cross.at for cross in crosses)]
    for cross in crosses:
        taken += _letter(cross.at, cross.away, cross.label, place).corners()
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


def _list(control: Control, figures: Figures) -> Table:
    """Returns the marks of every line, the wall and the corner each in a column of its own."""
    return Table(
        columns=(
            *(Column(heading=heading) for heading in ("Mark", "Line", "Wall", "From")),
            Column(heading="At", unit=figures.column),
        ),
        rows=tuple(
            (mark.name, line.name, mark.on, mark.start, figures.room(mark.distance))
            for line in control.lines
            for mark in line.marks
        ),
    )


def _worst(line: ControlLine) -> float:
    return max((drift.sd for drift in line.drift), default=0.0)
