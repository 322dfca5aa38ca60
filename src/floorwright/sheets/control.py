"""The control lines on the plan, as they would be struck: short arcs, crosses with letters, marks on the walls."""

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import numpy as np

from floorwright.control.control import Arc, Construction, Control, ControlLine, Mark
from floorwright.draw.lettering import text_width
from floorwright.draw.sheet import Beside, Block, Column, Prose, Sheet, Table
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import Cross, Curve, Item, Line, Point, Text
from floorwright.findings import Severity
from floorwright.geometry.region import Region
from floorwright.job.solution import Solution
from floorwright.plan.room import Room
from floorwright.sheets.clear import (
    CLEAR,
    ROUND_ABOUT,
    clearance,
    clearest,
    floor_shape,
    letter_box,
    point_box,
    text_box,
)
from floorwright.sheets.coordinates import coordinates_list
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import Frame, arrange, frame
from floorwright.sheets.labels import kept_clear, spread
from floorwright.sheets.plan import (
    corner_names,
    door_side,
    floor_items,
    out_of_chord,
    outward,
    plan_box,
    wall_items,
)
from floorwright.sheets.words import listed, sentence, told

if TYPE_CHECKING:
    import shapely

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

STEPS = 40
"""Places along a line that are tried for its name, and one more."""

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
    marks_on_walls = [mark for line in control.lines for mark in line.marks]
    named = (*wall_marks(room, marks_on_walls, place, figures), *door_side(room, place, DOOR_ROW))
    named += corner_names(room, place)
    texts = [item for item in named if isinstance(item, Text)]
    crosses = _crosses(control, region, place, texts)
    view = place.view(
        "control",
        described,
        (
            *floor_items(room, region),
            *wall_items(room),
            *line_items(control),
            *_angled_items(control),
            *_arcs(control, place),
            *crosses,
            *line_names(control, region, place, crosses, texts),
            *named,
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
        lists=(("marks", _list(control, figures)), *_coordinates(solution, figures)),
    )


def _coordinates(solution: Solution, figures: Figures) -> tuple[tuple[str, Table], ...]:
    """Returns the list for a total station, where there is anything to set out."""
    return (("coordinates", coordinates_list(solution.setout, figures)),) if solution.setout is not None else ()


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


def _angled_items(control: Control) -> Iterator[Line]:
    """Yields the lines that a pattern asks for at an angle of its own, from the centre to where they are raised."""
    own = {line.name for line in control.lines}
    for made in control.constructions:
        if made.chosen and made.makes not in own:
            yield Line(points=tuple((x, y) for _, x, y in made.steps[-1].points), pen=Pen.CONTROL)


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
    length = float(np.hypot(*np.subtract(*room.ends(marks[0].on)))) - place.paper(sum(kept_clear(room, marks[0].on)))
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
    first, last = (place.paper(clear) for clear in kept_clear(room, marks[0].on))
    places = spread([along for along, _ in wanted], widths, first + widths[0] / 2, length - last - widths[-1] / 2)
    rise = place.paper(ROW)
    for (_, text), at, width in zip(wanted, places, widths, strict=True):
        up = rise + out_of_chord(room, marks[0].on, at, width)
        point = (float(start[0]) + x * at + out[0] * up, float(start[1]) + y * at + out[1] * up)
        yield Text(at=point, text=text, size=size, angle=math.atan2(y, x), halo=True)


def mark_text(mark: Mark, figures: Figures) -> str:
    """Returns a mark as it stands on the plan: `M1: 2100 from SW`."""
    return f"{mark.name}: {figures.room(mark.distance)} from {mark.start}"


def chosen_constructions(control: Control) -> list[Construction]:
    """Returns the constructions to carry out, in the order of the lines that they make."""
    by_line = {made.makes: made for made in control.constructions if made.chosen}
    own = [line.name for line in control.lines if line.name in by_line]
    return [by_line[name] for name in (*own, *(name for name in by_line if name not in own))]


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


def _crosses(control: Control, region: Region, place: Frame, texts: Sequence[Text]) -> tuple[Cross, ...]:
    """Returns a cross at every point of the chosen constructions, its letters clear of `texts`; points that coincide
    share one."""
    points = _points(control)
    floor, lines = floor_shape(region), _line_shapes(control)
    named = [text_box(text, place) for text in texts]
    crosses: list[Cross] = []
    for at, names in points:
        label = ", ".join(names)
        taken = [*named, *(point_box(other, place) for other, _ in points if other != at)]
        taken += [letter_box(cross, place) for cross in crosses]
        ways = [Cross(at=at, label=label, away=way, size=Size.TEXT) for way in _ways(at, control)]
        boxes = [letter_box(way, place) for way in ways]
        reach = place.paper(CLEAR)
        scores = [
            (min(clearance(box, taken, floor), reach), min(clearance(box, lines.values(), floor), reach / 2))
            for box in boxes
        ]
        crosses.append(ways[clearest(scores)])
    return tuple(crosses)


def _line_shapes(control: Control) -> dict[str, "shapely.LineString"]:
    """Returns the control lines from wall to wall, by name."""
    import shapely

    return {
        line.name: shapely.LineString([(line.marks[0].x, line.marks[0].y), (line.marks[-1].x, line.marks[-1].y)])
        for line in control.lines
        if len(line.marks) > 1
    }


def _ways(at: Point, control: Control) -> list[Point]:
    """Returns the directions that a letter may stand in, first those between the lines that run through its point."""
    x, y = at[0] - control.centre[0], at[1] - control.centre[1]
    if math.hypot(x, y) < 1.0:
        base, turns = control.lines[0].angle + math.pi / 8, (0.0, math.pi / 2, math.pi, -math.pi / 2)
    else:
        base, turns = math.atan2(y, x), (ASIDE, -ASIDE, math.pi - ASIDE, ASIDE - math.pi)
    return [*((math.cos(base + turn), math.sin(base + turn)) for turn in turns), *ROUND_ABOUT]


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


def line_names(
    control: Control, region: Region, place: Frame, crosses: Sequence[Cross] = (), texts: Sequence[Text] = ()
) -> Iterator[Text]:
    """Yields the name of each line, beside it where it is clear of everything and furthest from any point.

    Args:
        control: whose lines.
        region: the floor, which the names stand on.
        place: of the drawing.
        crosses, texts: that stand on it already.
    """
    floor, lines = floor_shape(region), _line_shapes(control)
    points = [control.centre, *(cross.at for cross in crosses)]
    taken = [text_box(text, place) for text in texts]
    taken += [point_box(point, place) for point in points]
    taken += [letter_box(cross, place) for cross in crosses]
    for line in control.lines:
        if line.name not in lines:
            continue
        others = [shape for name, shape in lines.items() if name != line.name]
        ends = [(line.marks[n].x, line.marks[n].y) for n in (0, -1)]
        names = [
            Text(at=at, text=line.name, size=Size.SMALL, angle=line.angle, shift=(0.0, side), halo=True)
            for side in (NAME_OVER, -NAME_OVER)
            for at in _along(*ends)
        ]
        scores = [
            (
                min(clearance(text_box(name, place), [*taken, *others], floor), place.paper(CLEAR / 2)),
                min(math.dist(name.at, point) for point in (*points, *ends)),
            )
            for name in names
        ]
        chosen = names[clearest(scores)]
        taken.append(text_box(chosen, place))
        yield chosen


def _along(start: Point, end: Point) -> list[Point]:
    """Returns places along a line at which its name may stand."""
    return [
        (start[0] + (end[0] - start[0]) * n / STEPS, start[1] + (end[1] - start[1]) * n / STEPS)
        for n in range(1, STEPS)
    ]


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
