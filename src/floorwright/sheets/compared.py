"""Every first line that the room offers, side by side: small plans of the best, and what each costs at every wall."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from floorwright.draw.lettering import text_width
from floorwright.draw.paper import body_space
from floorwright.draw.sheet import Column, Prose, Sheet, Table
from floorwright.draw.style import CAP_HEIGHT, Pen, Size, Tone
from floorwright.draw.view import Cross, Fill, Item, Line, Point, Text, View
from floorwright.geometry.region import Points
from floorwright.job.compare import Comparison, Scored
from floorwright.job.solution import Solution
from floorwright.layout.quick import SEARCHED
from floorwright.plan.room import Room
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import box_of
from floorwright.sheets.plan import outward, wall_items
from floorwright.sheets.words import Words, listed, sentence, words_of

SHOWN: Final = 4
"""Small plans side by side; the person's own choice is always among them."""

LISTED: Final = 8
"""First lines in the table on the sheet, the person's own among them; the list for other programs has them all."""

TALLEST: Final = 38.0
"""mm on paper that a small plan may be high."""

EDGE: Final = 6.5
"""mm on paper about a small plan, for the cuts at its walls."""

HEAD: Final = 6.0
"""mm on paper over a small plan, for its letter."""

ROW: Final = 3.2
"""mm on paper from a wall to the middle of the figures of its cut."""


def compared_sheet(solution: Solution, comparison: Comparison) -> Sheet:
    """Returns the sheet of first lines side by side; the solution must have a room."""
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    lettered = [(chr(ord("A") + place), one) for place, one in enumerate(comparison.candidates)]
    shown = lettered[:SHOWN]
    if not any(one.yours for _, one in shown):
        shown[-1] = next(pair for pair in lettered if pair[1].yours)
    count = len(lettered)
    title = (
        f"These {count} first lines were compared, best first." if count > 1 else "No other first line offers itself."
    )
    said = (
        sentence(f"compared by zone {comparison.zone}{_others(solution, comparison)}, {SEARCHED}"),
        "At the walls: the cuts there, thin end to fat end. Drift: how far out the square line may be at the far wall, "
        "one standard deviation.",
    )
    return Sheet(
        key="compared",
        title=title,
        blocks=(
            _plans(shown, solution, figures),
            _table(_listed(lettered), figures, words),
            Prose(lines=tuple(sentence(finding.found) for finding in comparison.findings)),
            Prose(lines=said, tone="quiet"),
        ),
        landscape=True,
        lists=(("first-lines", _list(lettered, figures, words)),),
    )


def _others(solution: Solution, comparison: Comparison) -> str:
    """Says which zones a first line was not scored by."""
    others = list(dict.fromkeys(zone.name for zone in solution.job.zones if zone.name != comparison.zone))
    return f" alone and not by {listed(others)}" if others else ""


def _plans(shown: Sequence[tuple[str, Scored]], solution: Solution, figures: Figures) -> View:
    room, region = solution.room, solution.region
    assert room is not None
    assert region is not None
    width, _ = body_space(solution.job.paper, landscape=True)
    cell = width / SHOWN
    x0, y0, x1, y1 = box_of(region.rings[0])
    scale = max((x1 - x0) / (cell - 2 * EDGE), (y1 - y0) / TALLEST)
    high = (y1 - y0) + (2 * EDGE + HEAD) * scale
    items: list[Item] = []
    for place, (letter, one) in enumerate(shown):
        shift = (place + 0.5) * cell * scale - (x0 + x1) / 2, EDGE * scale - y0
        items += moved(_small_plan(one, solution, scale, figures), shift)
        left = (place + 0.5) * cell * scale - (x1 - x0) / 2
        head = f"{letter}{', yours' if one.yours else ''}"
        items.append(
            Text(at=(left, high - CAP_HEIGHT[Size.FIGURE] * scale), text=head, size=Size.FIGURE, anchor="start")
        )
    names = ", ".join(letter for letter, _ in shown)
    return View(
        name=f"compared-{shown[0][0]}",
        described=f"Small plans of the first lines {names}, each with its centre and the cut at every wall.",
        scale=scale,
        window=(0.0, 0.0, width * scale, high),
        items=tuple(items),
        check_bar=False,
        is_to_scale=False,
    )


def _small_plan(one: Scored, solution: Solution, scale: float, figures: Figures) -> Iterator[Item]:
    room, region = solution.room, solution.region
    assert room is not None
    assert region is not None
    yield Fill(rings=tuple(_points(ring) for ring in region.rings), tone=Tone.SLAB)
    for obstacle in room.obstacles:
        yield Fill(rings=(_points(obstacle.outline),), tone=Tone.OBSTACLE)
    yield from (item for item in wall_items(room) if isinstance(item, Line))
    if len(one.marks) > 1:
        yield Line(points=one.marks, pen=Pen.CONTROL)
    yield Cross(at=one.centre, label="")
    yield from _wall_cuts(one, room, scale, figures)


def _wall_cuts(one: Scored, room: Room, scale: float, figures: Figures) -> Iterator[Text]:
    """The cuts at the walls, thinnest first; one that finds no room along its wall, or off another's, is left out."""
    taken: list[tuple[Point, float]] = []
    walls = {wall.name for wall in room.walls}
    at_walls = [cut for cut in one.option.walls if cut.wall in walls]
    for cut in sorted(at_walls, key=lambda cut: (cut.thin, cut.wall)):
        (x, y), out = outward(room, cut.wall)
        start, end = room.ends(cut.wall)
        text = _range(cut.thin, cut.fat, figures)
        half = text_width(text, Size.SMALL) * scale / 2
        middle = (start + end) / 2 + np.array(out) * ROW * scale
        at = float(middle[0]), float(middle[1])
        if 2 * half > math.dist(start, end) or any(math.dist(at, other) < half + reach for other, reach in taken):
            continue
        taken.append((at, half))
        yield Text(at=at, text=text, size=Size.SMALL, angle=math.atan2(y, x))


def _points(ring: Points) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in ring)


def moved(items: Iterator[Item], shift: Point) -> Iterator[Item]:
    """Yields lines, fills, texts and crosses of one small plan where it stands among the others."""

    def there(point: Point) -> Point:
        return point[0] + shift[0], point[1] + shift[1]

    for item in items:
        match item:
            case Line():
                yield replace(item, points=tuple(map(there, item.points)))
            case Fill():
                yield replace(item, rings=tuple(tuple(map(there, ring)) for ring in item.rings))
            case Text() | Cross():
                yield replace(item, at=there(item.at))
            case _:
                raise AssertionError("a small plan has lines, fills, texts and crosses alone")


def _range(thin: float, fat: float, figures: Figures) -> str:
    low, high = figures.cut(thin), figures.cut(fat)
    return low if low == high else f"{low}–{high}"


def _listed(lettered: Sequence[tuple[str, Scored]]) -> list[tuple[str, Scored]]:
    """Returns those that stand on the sheet."""
    kept = list(lettered[:LISTED])
    if not any(one.yours for _, one in kept):
        kept[-1] = next(pair for pair in lettered if pair[1].yours)
    return kept


def _table(lettered: Sequence[tuple[str, Scored]], figures: Figures, words: Words) -> Table:
    return Table(
        columns=(Column(heading=""), *_columns(figures, words), Column(heading="Why here")),
        rows=tuple((letter, *_row(one, figures), sentence(one.reason)) for letter, one in lettered),
    )


def _list(lettered: Sequence[tuple[str, Scored]], figures: Figures, words: Words) -> Table:
    """Returns every first line with its position and the cut at every wall, in one list."""
    walls = list(dict.fromkeys(cut.wall for _, one in lettered for cut in one.option.walls))

    def cuts(one: Scored) -> tuple[str, ...]:
        at = {cut.wall: _range(cut.thin, cut.fat, figures) for cut in one.option.walls}
        return tuple(at.get(wall, "") for wall in walls)

    return Table(
        columns=(
            *_columns(figures, words),
            Column(heading="Position"),
            *(Column(heading=f"Wall {wall}", unit=figures.column, align="right") for wall in walls),
            Column(heading="Why here"),
        ),
        rows=tuple(
            (*_row(one, figures), sentence(one.option.name)[:-1], *cuts(one), sentence(one.reason))
            for _, one in lettered
        ),
    )


def _columns(figures: Figures, words: Words) -> tuple[Column, ...]:
    return (
        Column(heading="First line and centre"),
        Column(heading=words.joint.capitalize(), unit=figures.column, align="right"),
        Column(heading="Narrowest", unit=figures.column, align="right"),
        Column(heading="Under limit", align="right"),
        Column(heading="Cut", align="right"),
        Column(heading="Drift", unit=figures.column, align="right"),
    )


def _row(one: Scored, figures: Figures) -> tuple[str, ...]:
    option = one.option
    return (
        called(one),
        figures.entered(option.joint),
        figures.cut(option.worst),
        str(option.under or ""),
        str(option.cut),
        figures.within(one.drift, unit=False),
    )


def called(one: Scored) -> str:
    """Returns what a candidate is called, with its other names, and that it is the person's own if it is."""
    named = [name for name in (one.name, *one.others) if not (one.yours and name == one.name)]
    own = [f"Yours: {one.how}"] if one.yours else []
    return sentence("; also ".join([*own, *named]))[:-1]
