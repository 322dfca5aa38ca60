"""The snap list: every line of the pattern, as running figures from one nail."""

import math
from collections.abc import Iterator

from floorwright.control.control import Mark
from floorwright.draw.sheet import Column, Prose, Sheet, Table
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import Item, Line, Text
from floorwright.job.solution import Solution
from floorwright.setout.snap import SnapLine
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import Frame, arrange, frame
from floorwright.sheets.plan import corner_names, door_side, floor_items, paper_angle, plan_box, wall_items
from floorwright.sheets.words import counted

MARGIN = 9.0
DOOR_ROW = 7.3
NUMBER = 2.6
"""mm on paper from the end of a line, outside its wall, to the middle of its number."""


def snap_sheet(solution: Solution) -> Sheet:
    """Returns the snap list; the solution must have one."""
    room, region, snap = solution.room, solution.region, solution.snap
    assert room is not None
    assert region is not None
    assert snap is not None
    figures = Figures(style=solution.style)
    title = f"Snap {_these(len(snap.lines))}, all from the nail at corner {snap.zero}."
    place = frame(
        plan_box(region), paper=solution.job.paper, imperial=figures.imperial, title=title, margin=MARGIN, column=100.0,
        under=120.0,
    )  # fmt: skip
    view = place.view(
        "snap",
        f"Plan with {counted(len(snap.lines), 'line')} to snap, numbered as in the list.",
        (
            *floor_items(room, region),
            *wall_items(room),
            *_lines(snap.lines, place),
            *door_side(room, place, DOOR_ROW),
            *corner_names(room, place),
        ),
    )
    why = Prose(
        lines=(
            "Every figure runs from one corner, the one that stands beside it: never add one to another.",
            "Each line is the middle of a joint.",
        ),
        tone="quiet",
    )
    blocks = arrange(place, view, (why,), _tables(snap.lines, figures))
    return Sheet(key="snap", title=title, blocks=blocks, landscape=place.landscape)


def _these(count: int) -> str:
    return "this line" if count == 1 else f"these {count} lines"


def _lines(lines: tuple[SnapLine, ...], place: Frame) -> Iterator[Item]:
    for n, line in enumerate(lines, start=1):
        if len(line.marks) < 2:
            continue
        start, end = line.marks[0], line.marks[-1]
        pen = Pen.CONTROL if line.family == "control" else Pen.DIMENSION if line.through else Pen.HIDDEN
        yield Line(points=((start.x, start.y), (end.x, end.y)), pen=pen)
        length = math.hypot(end.x - start.x, end.y - start.y)
        if not length:
            continue
        out = place.paper(NUMBER) / length
        at = (end.x + (end.x - start.x) * out, end.y + (end.y - start.y) * out)
        yield Text(at=at, text=str(n), size=Size.SMALL, angle=paper_angle(place), halo=True)


def _tables(lines: tuple[SnapLine, ...], figures: Figures) -> tuple[Table, ...]:
    """Returns one table for each family of lines, numbered right through."""
    numbered = list(enumerate(lines, start=1))
    families = dict.fromkeys(line.family for line in lines)
    return tuple(
        Table(
            heading="Control lines" if family == "control" else family.capitalize(),
            columns=(
                Column(heading="No."),
                Column(heading="Line"),
                Column(heading="Running", unit=figures.column, align="right", marked=True),
                Column(heading="Mark it at"),
                Column(heading="", unit=figures.column, align="right", marked=True),
                Column(heading="and at"),
                Column(heading="", unit=figures.column, align="right", marked=True),
            ),
            rows=tuple(
                (str(n), line.name, figures.room(line.running), *_ends(line.marks, figures))
                for n, line in numbered
                if line.family == family
            ),
            ticks=True,
        )
        for family in families
    )


def _ends(marks: tuple[Mark, ...], figures: Figures) -> tuple[str, str, str, str]:
    if len(marks) < 2:
        return "", "", "", ""
    start, end = marks[0], marks[-1]
    return (
        f"{start.on}, from {start.start}",
        figures.room(start.distance),
        f"{end.on}, from {end.start}",
        figures.room(end.distance),
    )
