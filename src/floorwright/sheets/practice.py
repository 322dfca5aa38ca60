"""Practice on paper: the exercises at true scale, then their answers with every sum, then how they are marked."""

import math
from collections.abc import Iterator, Sequence
from typing import Final

from floorwright.draw.paper import GUTTER, body_space
from floorwright.draw.sheet import Beside, Blanks, Block, Column, Pack, Prose, Sheet, Steps, Table
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import Cross, Curve, Item, Line, Point, View
from floorwright.practice.exercise import Check, Exercise, Marking, Picture, Stroke, Struck
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import sentence
from floorwright.units import typeset

LEAST_BESIDE: Final = 66.0
"""mm on paper, the least width for words beside a drawing."""

LEAST_VIEW: Final = 104.0
"""mm on paper that a view's check bar takes."""

HALF_ARC: Final = 5.0
"""mm on paper, half of an arc as it is struck."""

ASLANT: Final = math.radians(52)
"""A name stands this far round from the line that its point lies on."""

ON_LINE: Final = 5.0
"""mm of floor. A point nearer to a line than this lies on it on the drawing."""

PENS: Final = {
    "wall": Pen.WALL, "line": Pen.CONTROL, "joint": Pen.JOINT, "reading": Pen.READING, "suspect": Pen.SUSPECT,
}  # fmt: skip


def practice_pack(exercises: Sequence[Exercise], marking: Marking, *, paper: str, units: str) -> Pack:
    """Returns exercises, then answers, then marking sheets, each on pages of its own.

    Args:
        exercises: in order.
        marking: how far out earns what.
        paper: `A4` or `Letter`.
        units: of the figures, in words.
    """
    return Pack(
        job="Practice",
        client="",
        by="",
        revision="",
        date="",
        units=units,
        paper=paper,
        words="US" if "inch" in units else "UK",
        sheets=(
            *(_exercise(one, paper) for one in exercises),
            *(_answers(one, paper) for one in exercises),
            *(_marking(one, marking) for one in exercises),
        ),
    )


def _exercise(one: Exercise, paper: str) -> Sheet:
    """The exercise alone: nothing of its answer."""
    blocks: list[Block] = [Steps(lines=tuple(sentence(line) for line in one.task))]
    if one.table is not None:
        blocks.insert(0, _given(one))
    view = picture_view(one.given, f"{one.kind} {one.number}", f"What the exercise starts from: {one.title}.")
    return Sheet(
        key="exercise",
        title=f"{one.title}. Variation {one.number}.",
        blocks=_beside(view, blocks, paper),
        landscape=True,
    )


def _answers(one: Exercise, paper: str) -> Sheet:
    """The answer drawn, its figures, every sum, and what there is to learn."""
    sums = [f"{answer.what}: {answer.sum}" for answer in one.answers if answer.sum]
    blocks: list[Block] = [
        Table(
            columns=(Column(heading="Asked for"), Column(heading="Answer")),
            rows=tuple((typeset(answer.what), typeset(answer.figure)) for answer in one.answers),
        ),
        Prose(heading="How it is worked out", lines=tuple(map(sentence, sums))),
        Prose(lines=tuple(map(sentence, one.why)), tone="quiet"),
    ]
    view = picture_view(one.solved, f"{one.kind} {one.number} answer", f"The answer drawn: {one.title}.")
    return Sheet(
        key="answers",
        title=f"Answers to {one.number}: {_small(one.title)}.",
        blocks=_beside(view, blocks, paper),
        landscape=True,
    )


def _marking(one: Exercise, marking: Marking) -> Sheet:
    figures = Figures(style=one.style)
    rows = [_check_row(check, figures) for check in one.checks]
    if one.exact:
        rows.insert(0, (f"named: {one.exact}", "named or not", "", ""))
    most = marking.marks * len(rows)
    rule = (
        f"Within {_fine(marking.full, figures)} earns {marking.marks} marks, within {_fine(marking.half, figures)} "
        f"half of them, beyond that none; {most} marks in all. What is named is right or wrong."
    )
    return Sheet(
        key="marking",
        title=f"Marking of {one.number}: {_small(one.title)}.",
        blocks=(
            Table(
                columns=(
                    Column(heading="Check"),
                    Column(heading="must read", align="right", marked=True),
                    Column(heading="it reads"),
                    Column(heading=f"marks of {marking.marks}"),
                ),
                rows=tuple(rows),
                ticks=True,
            ),
            Prose(lines=(rule,), tone="quiet"),
            Blanks(labels=("Variation", "Marks", "Marked by", "Date"), columns=4),
        ),
    )


def _check_row(check: Check, figures: Figures) -> tuple[str, str, str, str]:
    where = "on paper: " if check.on_paper else ""
    return sentence(f"{where}{check.what}")[:-1], figures.cut(check.expected, unit=True), "", ""


def _fine(mm: float, figures: Figures) -> str:
    return figures.entered(mm, unit=True)


def _given(one: Exercise) -> Table:
    assert one.table is not None
    return Table(
        columns=tuple(Column(heading=heading) for heading in one.table.headings),
        rows=tuple(tuple(map(typeset, row)) for row in one.table.rows),
    )


def _beside(view: View, blocks: list[Block], paper: str) -> tuple[Block, ...]:
    """A drawing with its words beside it where the paper is wide enough, else under it."""
    width = body_space(paper, landscape=True)[0] - GUTTER
    taken = max(view.width, LEAST_VIEW)
    if width - taken < LEAST_BESIDE:
        return (view, *blocks)
    return (Beside(left=(view,), right=tuple(blocks), share=taken / width),)


def picture_view(picture: Picture, name: str, described: str) -> View:
    """Returns a picture of an exercise, or of its answer, as it is drawn."""
    edge = picture.margin * picture.scale
    x0, y0, x1, y1 = picture.box
    return View(
        name=name,
        described=described,
        scale=picture.scale,
        window=(x0 - edge, y0 - edge, x1 + edge, y1 + edge),
        items=tuple(_items(picture)),
    )


def _items(picture: Picture) -> Iterator[Item]:
    for stroke in picture.strokes:
        yield Line(points=stroke.points, pen=PENS[stroke.as_])
    for arc in picture.arcs:
        yield _short(arc, picture.scale)
    for name, at in picture.points:
        yield Cross(at=at, label=name, away=_away(at, picture), size=Size.TEXT)


def _away(at: Point, picture: Picture) -> Point:
    """The direction from a point to its name: away from the middle, but aslant where a line runs that way."""
    x, y = at[0] - (picture.box[0] + picture.box[2]) / 2, at[1] - (picture.box[1] + picture.box[3]) / 2
    outward = math.atan2(y, x)
    aslant = any(stroke.as_ == "line" and _is_on(at, stroke) for stroke in picture.strokes)
    turned = outward + ASLANT if aslant else outward
    return math.cos(turned), math.sin(turned)


def _is_on(at: Point, stroke: Stroke) -> bool:
    (x0, y0), (x1, y1) = stroke.points
    return abs((x1 - x0) * (at[1] - y0) - (y1 - y0) * (at[0] - x0)) < math.dist((x0, y0), (x1, y1)) * ON_LINE


def _short(arc: Struck, scale: float) -> Curve:
    towards = math.atan2(arc.near[1] - arc.centre[1], arc.near[0] - arc.centre[0])
    half = min(HALF_ARC * scale / arc.radius, math.pi / 6)
    return Curve(centre=arc.centre, radius=arc.radius, start=towards - half, end=towards + half, pen=Pen.ARC)


def _small(title: str) -> str:
    return title[0].lower() + title[1:]
