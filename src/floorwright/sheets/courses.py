"""One course each way, printed so that a person who adds it up meets the wall."""

import math
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from itertools import accumulate, chain
from typing import Final

from floorwright.draw.lettering import text_width
from floorwright.draw.paper import GUTTER, body_space
from floorwright.draw.scale import fit_scale
from floorwright.draw.sheet import Beside, Block, Column, Columns, Prose, Sheet, Table
from floorwright.draw.style import CAP_HEIGHT, Pen, Size, Tone
from floorwright.draw.table import table_width
from floorwright.draw.view import Fill, Item, Line, Text, View
from floorwright.job.solution import Solution
from floorwright.setout.course import Course, PrintedCourse, like_parts, printed
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import Words, words_of
from floorwright.units import typeset

TITLE: Final = "These courses add up to the walls."
REMAINDER: Final = "Only cuts are rounded; what rounding leaves over stands on the last joint."

MOST_BESIDE: Final = 22
"""Rows of tables that stand beside each other; longer ones run on from column to column."""

IN_A_BOND: Final = {"row": "course", "column": "line across"}
"""What rows and columns are called in a bond."""

REMEMBERED: Final = 4096
"""Figures kept as text: courses of one floor are much alike."""

END: Final = 2.0
"""mm on paper beyond both ends of a strip."""

HIGH: Final = 11.0
"""mm on paper, the least height of a strip; a figure that stands upright in it may need more."""

CLEAR: Final = 0.6
"""mm on paper about a figure in its tile."""


def courses_sheet(solution: Solution) -> Sheet:
    """Returns the sheet of courses; the solution must have one at least."""
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    courses = _in_trade_words(solution)
    shown = _one_each_way(courses)
    scale = _strip_scale(shown, solution.job.paper, figures.imperial)
    strips: list[tuple[Block, ...]] = []
    tables: list[Table] = []
    for course in shown:
        told = printed(course, figures.style)
        strips.append((_sum(course, told, figures, words), _strip(course, told, scale, figures)))
        tables.append(_table(course, told, figures, words))
    remainder = Prose(lines=(REMAINDER,), tone="quiet")
    half = (body_space(solution.job.paper)[0] - GUTTER) / 2
    blocks: tuple[Block, ...] = (*chain.from_iterable(strips), remainder)
    if max(map(table_width, tables)) > half:
        blocks = (*chain.from_iterable((*strip, table) for strip, table in zip(strips, tables, strict=True)), remainder)
    elif len(tables) == 2 and max(len(table.rows) for table in tables) <= MOST_BESIDE:
        blocks += (Beside(left=(tables[0],), right=(tables[1],), share=0.5),)
    else:
        blocks += (Columns(blocks=tuple(tables)),)
    listed = _list(courses, figures, words)
    return Sheet(key="courses", title=TITLE, blocks=blocks, lists=(("courses", listed),))


def _in_trade_words(solution: Solution) -> tuple[Course, ...]:
    """Returns the courses named as the pattern's lines are on the other sheets: a bond has no rows and no columns."""
    if any(line.name == "courses" for layout in solution.layouts for line in layout.cell.lines):
        return tuple(
            replace(course, name=" ".join((IN_A_BOND[kind], *number)))
            for course in solution.courses
            for kind, *number in (course.name.split(),)
        )
    return solution.courses


def _one_each_way(courses: tuple[Course, ...]) -> list[Course]:
    """Returns the middle course of each family, by the first word of its name; one that nothing parts, if there is."""
    families: dict[str, list[Course]] = {}
    for course in courses:
        families.setdefault(course.name.split()[0], []).append(course)
    through = [[course for course in family if "," not in course.name] or family for family in families.values()]
    return [family[len(family) // 2] for family in through]


def _strip(course: Course, told: PrintedCourse, scale: float, figures: Figures) -> View:
    texts = [typeset(figures.style.text(float(figure), feet=False)) for figure in told.figures]
    turned = [
        text_width(text, Size.TEXT) > part.length / scale - CLEAR
        for part, text in zip(course.parts, texts, strict=True)
    ]
    widest = max(
        (text_width(text, Size.TEXT) for text, is_turned in zip(texts, turned, strict=True) if is_turned), default=0.0
    )
    high = max(HIGH, widest + 2 * CLEAR) * scale
    items: list[Item] = []
    at = 0.0
    for part, text, is_turned in zip(course.parts, texts, turned, strict=True):
        end = at + part.length
        if part.kind in ("tile", "cut"):
            ring = ((at, 0.0), (end, 0.0), (end, high), (at, high))
            items.append(Fill(rings=(ring,), tone=Tone.TILE if part.kind == "tile" else Tone.CUT))
            items.append(Line(points=ring, pen=Pen.FACTORY, closed=True))
            if CAP_HEIGHT[Size.TEXT] < part.length / scale - CLEAR:
                angle = math.pi / 2 if is_turned else 0.0
                items.append(Text(at=((at + end) / 2, high / 2), text=text, size=Size.TEXT, angle=angle))
        at = end
    items += [Line(points=((x, -high * 0.15), (x, high * 1.15)), pen=Pen.WALL) for x in (0.0, course.length)]
    return View(
        name=course.name,
        described=f"{course.name} from wall {course.walls[0]} to wall {course.walls[1]}, each tile with its length.",
        scale=scale,
        window=(-END * scale, -high * 0.2, course.length + END * scale, high * 1.2),
        items=tuple(items),
        check_bar=False,
        is_to_scale=False,
    )


def _strip_scale(courses: list[Course], paper: str, imperial: bool) -> float:
    width, height = body_space(paper)
    return fit_scale((max(course.length for course in courses), 0.0), (width - 2 * END, height), imperial)


def _sum(course: Course, told: PrintedCourse, figures: Figures, words: Words) -> Prose:
    """Returns the sum of a course in words, like parts together."""
    named = _named(words)
    said = [
        f"{f'{count} × ' if count > 1 else ''}{_figure(figure, figures)} {named[kind]}"
        for (kind, figure), count in like_parts(course, told).items()
    ]
    total = figures.room(float(told.total), unit=True)
    return Prose(
        heading=f"{course.name.capitalize()}, from {course.walls[0]} to {course.walls[1]}",
        lines=(f"{' + '.join(said)} = {total}.",),
    )


def _named(words: Words) -> dict[str, str]:
    return {"gap": words.gap, "cut": "cut", "tile": words.full, "joint": words.joint}


@lru_cache(maxsize=REMEMBERED)
def _figure(figure: Fraction, figures: Figures, feet: bool = False) -> str:
    return typeset(figures.style.entered_text(float(figure), feet=feet))


def _table(course: Course, told: PrintedCourse, figures: Figures, words: Words) -> Table:
    """Returns where every tile starts and ends, running from the first wall."""
    rows = _rows(course, told, figures, words)
    return Table(
        heading=f"{course.name.capitalize()}, running from {course.walls[0]}",
        columns=(Column(heading="Tile"), *_figure_columns(figures)),
        rows=tuple(row for row, part in zip(rows, course.parts, strict=True) if part.kind in ("tile", "cut")),
    )


def _list(courses: Sequence[Course], figures: Figures, words: Words) -> Table:
    """Returns every course part by part, gaps and joints among them, in one list."""
    rows: list[tuple[str, ...]] = []
    for course in courses:
        start, end = course.walls
        told = printed(course, figures.style)
        rows += [(course.name, start, end, *row) for row in _rows(course, told, figures, words)]
    named = tuple(Column(heading=heading) for heading in ("Course", "Starts at", "Ends at", "Part"))
    return Table(columns=(*named, *_figure_columns(figures)), rows=tuple(rows))


def _figure_columns(figures: Figures) -> tuple[Column, ...]:
    return (
        Column(heading="Length", unit=figures.column, align="right"),
        Column(heading="from", unit=figures.column, align="right", marked=True),
        Column(heading="to", unit=figures.column, align="right", marked=True),
    )


def _rows(course: Course, told: PrintedCourse, figures: Figures, words: Words) -> list[tuple[str, ...]]:
    """Returns each part of a course with its length, where it starts and where it ends."""
    named = _named(words)
    ends = accumulate(told.figures)
    return [
        (named[part.kind], _figure(length, figures), *(_figure(at, figures, True) for at in (end - length, end)))
        for part, length, end in zip(course.parts, told.figures, ends, strict=True)
    ]
