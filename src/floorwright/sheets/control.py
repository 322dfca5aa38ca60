"""The control lines on the plan, as they would be struck: short arcs, crosses with letters, marks on the walls."""

import math
from collections.abc import Iterator

import numpy as np

from floorwright.control.control import Arc, Construction, Control, ControlLine, Mark
from floorwright.draw.lettering import text_width
from floorwright.draw.sheet import Column, Prose, Sheet, Table
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import Cross, Curve, Item, Line, Point, Text
from floorwright.job.solution import Solution
from floorwright.plan.room import Room
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import Frame, arrange, frame
from floorwright.sheets.plan import corner_names, door_side, floor_items, outward, plan_box, wall_items
from floorwright.sheets.tiles import spread
from floorwright.sheets.words import sentence

MARGIN = 9.0
ROW = 4.2
"""mm on paper from a wall to the middle of the figures of its marks."""

DOOR_ROW = 7.4
HALF_ARC = 4.0
"""mm on paper, half of an arc as it is struck."""

NAME_IN = 16.0
"""mm on paper from a wall to the middle of a line's name."""

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
    view = place.view(
        "control",
        described,
        (
            *floor_items(room, region),
            *wall_items(room),
            *line_items(control),
            *_arcs(control, place),
            *_crosses(control),
            *_line_names(control, place),
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
    side = (chosen, _marks_table(control, figures), _accuracy_table(control, figures))
    return Sheet(key="control", title=title, blocks=arrange(place, view, side), landscape=place.landscape)


def line_items(control: Control, names: tuple[str, ...] = ()) -> tuple[Item, ...]:
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
        along, out = outward(room, wall)
        start, end = room.ends(wall)
        length = float(np.hypot(*(end - start)))
        here = [mark for mark in marks if mark.on == wall]
        here.sort(key=lambda mark: (mark.x - start[0]) * along[0] + (mark.y - start[1]) * along[1])
        said = [mark_text(mark, figures) for mark in here]
        wide = [place.paper(text_width(text, Size.FIGURE) + 3.0) for text in said]
        wanted = []
        for mark, width in zip(here, wide, strict=True):
            at = (mark.x - start[0]) * along[0] + (mark.y - start[1]) * along[1]
            wanted.append(min(max(at, width / 2), max(length - width / 2, width / 2)))
        places = spread(wanted, max(wide))
        for text, at in zip(said, places, strict=True):
            x, y = start[0] + along[0] * at, start[1] + along[1] * at
            rise = place.paper(ROW)
            items.append(
                Text(
                    at=(float(x + out[0] * rise), float(y + out[1] * rise)),
                    text=text,
                    size=Size.FIGURE,
                    angle=math.atan2(along[1], along[0]),
                    halo=True,
                )
            )
    return tuple(items)


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


def _crosses(control: Control) -> Iterator[Item]:
    """Yields a cross at every point of the chosen constructions; points that coincide share one."""
    on_walls = {mark.name for line in control.lines for mark in line.marks}
    named: dict[tuple[int, int], tuple[Point, list[str]]] = {}
    for made in chosen_constructions(control):
        for step in made.steps:
            for name, x, y in step.points:
                _, names = named.setdefault((round(x), round(y)), ((x, y), []))
                if name not in names:
                    names.append(name)
    corners = {name for line in control.lines for name in (mark.start for mark in line.marks)}
    for at, names in named.values():
        shown = [name for name in names if name not in on_walls and name not in corners]
        if shown:
            yield Cross(at=at, label=", ".join(shown), away=_away(at, control), size=Size.TEXT)


def _away(at: Point, control: Control) -> Point:
    """Returns the direction in which a letter stands clear of the lines through its point."""
    x, y = at[0] - control.centre[0], at[1] - control.centre[1]
    at_centre = math.hypot(x, y) < 1.0
    angle = control.lines[0].angle + math.pi / 8 if at_centre else math.atan2(y, x) + ASIDE
    return math.cos(angle), math.sin(angle)


def _line_names(control: Control, place: Frame) -> Iterator[Item]:
    for line in control.lines:
        if len(line.marks) < 2:
            continue
        end = line.marks[-1]
        back = place.paper(NAME_IN)
        at = (end.x - math.cos(line.angle) * back, end.y - math.sin(line.angle) * back)
        yield Text(at=at, text=line.name, size=Size.SMALL, angle=line.angle, halo=True)


def _marks_table(control: Control, figures: Figures) -> Table:
    rows = [
        (mark.name, mark.on, mark.start, figures.room(mark.distance)) for line in control.lines for mark in line.marks
    ]
    return Table(
        heading="Marks on the walls",
        columns=(
            Column(heading="Mark"),
            Column(heading="Wall"),
            Column(heading="From"),
            Column(heading="At", unit=figures.column, align="right", marked=True),
        ),
        rows=tuple(rows),
        ticks=True,
    )


def _accuracy_table(control: Control, figures: Figures) -> Table:
    return Table(
        heading="How true to expect it",
        columns=(Column(heading="Line"), Column(heading="Out at its end, two times in three", align="right")),
        rows=tuple((line.name, figures.fine(_worst(line))) for line in control.lines),
    )


def _worst(line: ControlLine) -> float:
    return max((drift.sd for drift in line.drift), default=0.0)
