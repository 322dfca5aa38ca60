"""The snap list: every line of the pattern, as running figures from one nail."""

import math
from collections.abc import Iterator, Sequence

from floorwright.control.control import Mark
from floorwright.draw.sheet import Beside, Block, Column, Prose, Sheet, Table
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import Item, Line
from floorwright.geometry.region import Region
from floorwright.job.solution import Solution
from floorwright.plan.room import Room
from floorwright.setout.snap import SnapLine, SnapList
from floorwright.sheets.control import line_names
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import TALL, WIDE_BESIDE, Frame, frame
from floorwright.sheets.labels import Label, outside
from floorwright.sheets.plan import corner_names, door_side, floor_items, outward, plan_box, wall_items
from floorwright.sheets.round_insets import circle_items, circle_lines
from floorwright.sheets.words import counted, listed, sentence

STRAIGHT_WITHIN = math.radians(0.5)
MARGIN = 9.0
DOOR_ROW = 7.7
LIST_WIDTH = 136.0
"""mm on paper that the list takes."""

MOST_BESIDE = 21
"""Lines of a list that stands beside its plan on one page."""

WHY = (
    "Every figure runs from the corner that stands beside it: never add one to another. The running figure is square "
    "to the line, from the nail.",
    "The control lines are struck first, from their own sheet.",
)
STRAIGHT = "This floor is laid straight: the 45s are there to prove the cross, or for a diagonal floor."


NO_WALL = "no wall to mark"


def snap_sheet(solution: Solution) -> Sheet:
    """Returns the snap list; the solution must have one."""
    room, region, snap = solution.room, solution.region, solution.snap
    assert room is not None
    assert region is not None
    assert snap is not None
    assert solution.control is not None
    figures = Figures(style=solution.style)
    lines = pattern_lines(snap)
    control = [line for line in snap.lines if line.family == "control"]
    labels = labelled(lines)
    what = "joint" if all(line.joint for line in lines) else "pattern line"
    title = f"Snap {len(control)} control lines and {counted(len(lines), what)}, from the nail at {snap.zero}."
    short = len(snap.lines) <= MOST_BESIDE
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
        f"Plan with {counted(len(snap.lines), 'line')} to snap, named as in the list.",
        (
            *floor_items(room, region),
            *wall_items(room),
            *drawn((*lines, *control), region),
            *circle_items(solution.layouts),
            *line_names(solution.control, region, place),
            *_names(lines, labels, room, place),
            *door_side(room, place, DOOR_ROW),
            *corner_names(room, place),
        ),
    )
    straight = (STRAIGHT,) if _is_straight(solution) else ()
    circles = circle_lines(solution.layouts, solution.control, figures)
    why = Prose(lines=(legend(lines), *circles, *WHY, *straight), tone="quiet")
    named = [*((line.name.removesuffix(" line"), line) for line in control), *zip(labels, lines, strict=True)]
    table = _table(named, figures)
    if short:
        blocks: tuple[Block, ...] = (Beside(left=(view, why), right=(table,), share=place.share),)
    else:
        blocks = (view, why, table)
    return Sheet(
        key="snap", title=title, blocks=blocks, landscape=place.landscape, lists=(("snap-list", _list(named, figures)),)
    )


def _is_straight(solution: Solution) -> bool:
    """Returns whether every pattern runs along the first line or square to it."""
    assert solution.control is not None
    first = solution.control.lines[0].angle
    turns = [math.remainder(layout.chosen.placement.angle - first, math.pi / 2) for layout in solution.layouts]
    return all(abs(turn) < STRAIGHT_WITHIN for turn in turns)


def pattern_lines(snap: SnapList) -> list[SnapLine]:
    """Returns the lines to snap that are not control lines, in order."""
    return [line for line in snap.lines if line.family != "control"]


def labelled(lines: Sequence[SnapLine]) -> list[str]:
    """Returns the letter of each line's family and its number in it: `R1`, `C12`."""
    seen: dict[str, int] = {}
    labels = []
    for line in lines:
        seen[line.family] = seen.get(line.family, 0) + 1
        labels.append(f"{letters(line.family)}{seen[line.family]}")
    return labels


def letters(family: str) -> str:
    """Returns what the lines of a family are called by: `R` for rows, `FR` for the rows of the field.

    >>> letters("field rows")
    'FR'
    """
    return "".join(word[0] for word in family.split()).upper()


def labels_of(snap: SnapList) -> dict[str, str]:
    """Returns line name -> label as it stands in the snap list."""
    lines = pattern_lines(snap)
    return {line.name: label for line, label in zip(lines, labelled(lines), strict=True)}


def legend(lines: Sequence[SnapLine]) -> str:
    """Returns what the letters of lines stand for, and what lies on them."""
    families = dict.fromkeys(line.family for line in lines)
    told = [sentence(listed([f"{letters(family)}: {family}" for family in families]))]
    broken = dict.fromkeys(line.family for line in lines if line.joint and not line.through)
    off = dict.fromkeys(line.family for line in lines if not line.joint)
    if broken:
        told.append(sentence(f"{listed(list(broken))} do not run through"))
    if off:
        told.append(sentence(f"{listed(list(off))} are no joints: they run on corners or middles of pieces"))
    told.append("All others are the middle of a joint." if off else "All are the middle of a joint.")
    return " ".join(told[:-1] if len(off) == len(families) else told)


def drawn(lines: Sequence[SnapLine], region: Region) -> Iterator[Item]:
    """Yields lines as they are snapped: between their marks, where there is floor."""
    import shapely

    floor = shapely.Polygon(region.rings[0], list(region.rings[1:]))
    for line in lines:
        if len(line.marks) > 1:
            start, end = line.marks[0], line.marks[-1]
            pen = Pen.CONTROL if line.family == "control" else Pen.DIMENSION if line.through else Pen.HIDDEN
            on_floor = shapely.intersection(floor, shapely.LineString([(start.x, start.y), (end.x, end.y)]))
            for part in shapely.get_parts(on_floor):
                if isinstance(part, shapely.LineString):
                    yield Line(points=tuple((x, y) for x, y in part.coords), pen=pen)


def _names(lines: Sequence[SnapLine], labels: Sequence[str], room: Room, place: Frame) -> Iterator[Item]:
    """Yields the name of each line outside the wall that it ends at."""
    by_wall: dict[str, list[Label]] = {}
    for line, label in zip(lines, labels, strict=True):
        for mark in line.marks[-1:]:
            start, _ = room.ends(mark.on)
            (x, y), _ = outward(room, mark.on)
            along = float((mark.x - start[0]) * x + (mark.y - start[1]) * y)
            by_wall.setdefault(mark.on, []).append(Label(text=label, along=along))
    for wall, named in by_wall.items():
        yield from outside(named, wall, room, place, size=Size.SMALL).items


def _table(named: Sequence[tuple[str, SnapLine]], figures: Figures) -> Table:
    return Table(
        columns=(
            Column(heading="Line"),
            Column(heading="Running", unit=figures.column, align="right", marked=True),
            Column(heading="On, from"),
            Column(heading="at", unit=figures.column, align="right", marked=True),
            Column(heading="and on, from"),
            Column(heading="at", unit=figures.column, align="right", marked=True),
        ),
        rows=tuple((name, running_text(line, figures), *ends_texts(line.marks, figures)) for name, line in named),
        ticks=True,
    )


def _list(named: Sequence[tuple[str, SnapLine]], figures: Figures) -> Table:
    """Returns the lines with the wall, the corner and the figure of each end in columns of their own."""
    end = (Column(heading="Wall"), Column(heading="From"), Column(heading="At", unit=figures.column))
    return Table(
        columns=(Column(heading="Line"), Column(heading="Running", unit=figures.column), *end, *end),
        rows=tuple(
            (name, running_text(line, figures), *(part for mark in _both(line.marks) for part in _end(mark, figures)))
            for name, line in named
        ),
    )


def running_text(line: SnapLine, figures: Figures) -> str:
    """Returns how far a line is from the nail; nothing for a 45, as nobody would mark it so."""
    return "" if line.family == "control" and line.name.startswith("45") else figures.room(line.running)


def _both(marks: tuple[Mark, ...]) -> tuple[Mark | None, Mark | None]:
    return (marks[0], marks[-1]) if len(marks) > 1 else (None, None)


def _end(mark: Mark | None, figures: Figures) -> tuple[str, str, str]:
    return (mark.on, mark.start, figures.room(mark.distance)) if mark else ("", "", "")


def ends_texts(marks: tuple[Mark, ...], figures: Figures) -> tuple[str, str, str, str]:
    """Returns the wall, the corner and the figure of both ends of a line, as in the list."""
    start, end = _both(marks)
    if start is None or end is None:
        return NO_WALL, "", "", ""
    return (
        f"{start.on}, {start.start}",
        figures.room(start.distance),
        f"{end.on}, {end.start}",
        figures.room(end.distance),
    )
