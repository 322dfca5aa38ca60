"""The snap list: every line of the pattern, as running figures from one nail."""

import math
from collections.abc import Iterator, Sequence

from floorwright.control.control import Mark
from floorwright.draw.sheet import Beside, Block, Column, Prose, Sheet, Table
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import Item, Line
from floorwright.job.solution import Solution
from floorwright.plan.room import Room
from floorwright.setout.snap import SnapLine, SnapList
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import TALL, WIDE_BESIDE, Frame, frame
from floorwright.sheets.labels import OFF_WALL, Label, outside
from floorwright.sheets.plan import corner_names, door_side, floor_items, plan_box, wall_items
from floorwright.sheets.words import counted, listed, sentence

MARGIN = 9.0
DOOR_ROW = 7.7
CROSS = ("first line", "square line")
"""The control lines that are shown among the others."""

ROW = 2.6
"""mm on paper between two rows of names."""

LIST_WIDTH = 136.0
"""mm on paper that the list takes."""

MOST_BESIDE = 20
"""Lines of a list that stands beside its plan on one page."""

WHY = (
    "Every figure runs from the corner that stands beside it: never add one to another.",
    "Each line is the middle of a joint. The control lines are struck first, from their own sheet.",
)


def snap_sheet(solution: Solution) -> Sheet:
    """Returns the snap list; the solution must have one."""
    room, region, snap = solution.room, solution.region, solution.snap
    assert room is not None
    assert region is not None
    assert snap is not None
    figures = Figures(style=solution.style)
    lines = pattern_lines(snap)
    struck = [line for line in snap.lines if line.name in CROSS]
    labels = labelled(lines)
    title = f"Snap {_these(len(lines))}, all from the nail at corner {snap.zero}."
    short = len(lines) <= MOST_BESIDE
    place = frame(
        plan_box(region),
        paper=solution.job.paper,
        imperial=figures.imperial,
        title=title,
        margin=MARGIN,
        column=LIST_WIDTH,
        ways=(WIDE_BESIDE,) if short else (TALL,),
    )
    view = place.view(
        "snap",
        f"Plan with {counted(len(lines), 'line')} to snap, named as in the list.",
        (
            *floor_items(room, region),
            *wall_items(room),
            *_drawn((*lines, *struck)),
            *_names(lines, labels, room, place),
            *door_side(room, place, DOOR_ROW),
            *corner_names(room, place),
        ),
    )
    why = Prose(lines=(_legend(lines), *WHY), tone="quiet")
    table = _table(lines, labels, figures)
    if short:
        blocks: tuple[Block, ...] = (Beside(left=(view, why), right=(table,), share=place.share),)
    else:
        blocks = (view, why, table)
    return Sheet(key="snap", title=title, blocks=blocks, landscape=place.landscape)


def pattern_lines(snap: SnapList) -> list[SnapLine]:
    """Returns the lines to snap that are not control lines, in order."""
    return [line for line in snap.lines if line.family != "control"]


def _these(count: int) -> str:
    return "this line" if count == 1 else f"these {count} lines"


def labelled(lines: Sequence[SnapLine]) -> list[str]:
    """Returns the letter of each line's family and its number in it: `R1`, `C12`."""
    seen: dict[str, int] = {}
    labels = []
    for line in lines:
        seen[line.family] = seen.get(line.family, 0) + 1
        labels.append(f"{line.family[0].upper()}{seen[line.family]}")
    return labels


def _legend(lines: Sequence[SnapLine]) -> str:
    families = dict.fromkeys(line.family for line in lines)
    said = sentence(listed([f"{family[0].upper()}: {family}" for family in families]))
    broken = dict.fromkeys(line.family for line in lines if not line.through)
    return f"{said} {sentence(f'{listed(list(broken))} do not run through')}" if broken else said


def _drawn(lines: Sequence[SnapLine]) -> Iterator[Item]:
    for line in lines:
        if len(line.marks) > 1:
            start, end = line.marks[0], line.marks[-1]
            pen = Pen.CONTROL if line.family == "control" else Pen.DIMENSION if line.through else Pen.HIDDEN
            yield Line(points=((start.x, start.y), (end.x, end.y)), pen=pen)


def _names(lines: Sequence[SnapLine], labels: Sequence[str], room: Room, place: Frame) -> Iterator[Item]:
    """Yields the name of each line outside the wall that it ends at, each family in a row of its own where two meet."""
    by_wall: dict[str, dict[str, list[Label]]] = {}
    for line, label in zip(lines, labels, strict=True):
        for mark in line.marks[-1:]:
            start, _ = room.ends(mark.on)
            along = math.dist(start, (mark.x, mark.y))
            by_wall.setdefault(mark.on, {}).setdefault(line.family, []).append(Label(text=label, along=along))
    for wall, families in by_wall.items():
        for n, named in enumerate(families.values()):
            yield from outside(named, wall, room, place, size=Size.SMALL, off=OFF_WALL + n * ROW).items


def _table(lines: Sequence[SnapLine], labels: Sequence[str], figures: Figures) -> Table:
    return Table(
        columns=(
            Column(heading="Line"),
            Column(heading="Running", unit=figures.column, align="right", marked=True),
            Column(heading="Mark it on"),
            Column(heading="at", unit=figures.column, align="right", marked=True),
            Column(heading="and on"),
            Column(heading="at", unit=figures.column, align="right", marked=True),
        ),
        rows=tuple(
            (label, figures.room(line.running), *_ends(line.marks, figures))
            for line, label in zip(lines, labels, strict=True)
        ),
        ticks=True,
    )


def _ends(marks: tuple[Mark, ...], figures: Figures) -> tuple[str, str, str, str]:
    if len(marks) < 2:
        return "no wall to mark", "", "", ""
    start, end = marks[0], marks[-1]
    return (
        f"{start.on}, from {start.start}",
        figures.room(start.distance),
        f"{end.on}, from {end.start}",
        figures.room(end.distance),
    )
