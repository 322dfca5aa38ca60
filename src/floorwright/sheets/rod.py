"""The gauge rod: strips at true size to cut out and tape to a lath, and the same joints as a table."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from floorwright.draw.lettering import text_width
from floorwright.draw.paper import page_space
from floorwright.draw.sheet import Beside, Block, Column, Prose, Sheet, Table
from floorwright.draw.style import Pen, Size, Tone
from floorwright.draw.view import Fill, Item, Line, Text, View
from floorwright.job.solution import Solution
from floorwright.setout.rod import EndCut, Rod, RodJoint
from floorwright.sheets.figures import Figures
from floorwright.sheets.snap import labelled, pattern_lines
from floorwright.sheets.words import Words, sentence, words_of
from floorwright.units import typeset

STRIP: Final = 24.0
"""mm on paper, the height of a strip."""

PITCH: Final = 28.0
"""From strip to strip."""

LAP: Final = 12.0
"""mm on paper that a strip has over its join, to be stuck under the next one."""

BEFORE: Final = 14.0
"""mm of lath before the zero."""

AFTER: Final = 14.0
"""mm of lath past the last tile edge."""

LEAST: Final = 120.0
"""mm on paper, the least length of a strip."""

MOST_BESIDE: Final = 18
"""Joints in a table that stands beside its words."""

TICK: Final = 12.0
"""mm on paper, a tile edge on the strip."""

AIR: Final = 1.5
"""mm on paper between two figures."""

UPRIGHT: Final = math.pi / 2

COURSES: Final = "abcdefgh"
"""What the courses of a bond are called whose joints fall in different places."""

HOW = (
    "Print at full size and measure the bar on every page before you trust it. Cut the strips out, lap each over the "
    "one before up to its join, and tape them to a straight lath.",
    "Hold the zero to the line named there. The hatched parts are the joints; tiles lie between them.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Strip:
    """A part of a rod: from where to where on it, mm from its zero, and which it is of how many."""

    start: float
    end: float
    number: int
    count: int


def rod_sheet(solution: Solution, rod: Rod) -> Sheet:
    """Returns the sheet of one gauge rod: its strips at true size on paper turned, then its joints as a table."""
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    assert solution.snap is not None
    lines = pattern_lines(solution.snap)
    labels = {line.name: label for line, label in zip(lines, labelled(lines), strict=True)}
    whose = f" of {rod.zone}" if len(solution.layouts) > 1 else ""
    title = f"Gauge rod for the {rod.name}{whose}, at true size: zero on line {labels[rod.zero]}."
    space = page_space(solution.job.paper, landscape=True, title=title)
    strips = _strips(rod, space[0])
    a_page = max(1, int(space[1] // PITCH))
    views = [
        _page(rod, strips[first : first + a_page], space[0], labels, figures) for first in range(0, len(strips), a_page)
    ]
    table = _table(rod, labels, figures, words)
    facts = Prose(lines=(*HOW, *_ends(rod, figures, words)), tone="quiet")
    return Sheet(
        key="rod",
        title=title,
        blocks=(*views, *_figures(table, facts)),
        landscape=True,
        lists=((f"gauge-rod-{rod.name}", table),),
    )


def _figures(table: Table, facts: Prose) -> tuple[Block, ...]:
    """A short table with the words beside it; a long one after them, several columns abreast."""
    if len(table.rows) <= MOST_BESIDE:
        return (Beside(left=(table,), right=(facts,), share=0.5),)
    return facts, table


def _strips(rod: Rod, width: float) -> list[_Strip]:
    """The rod in lengths that fit the paper's width with their lap."""
    first, last = -BEFORE, rod.length + AFTER
    step = width - LAP - 1.0
    count = max(1, -int(-(last - first) // step))
    # The last is long enough for its words.
    last = max(last, first + (count - 1) * step + LEAST)
    return [
        _Strip(start=first + n * step, end=min(last, first + (n + 1) * step), number=n + 1, count=count)
        for n in range(count)
    ]


def _page(rod: Rod, strips: Sequence[_Strip], width: float, labels: dict[str, str], figures: Figures) -> View:
    """A page of strips, one under another, in paper mm."""
    high = PITCH * len(strips)
    items: list[Item] = []
    for row, strip in enumerate(strips):
        items += _drawn(rod, strip, high - PITCH * (row + 1) + (PITCH - STRIP) / 2, labels, figures)
    first, last = strips[0].number, strips[-1].number
    return View(
        name=f"gauge rod {rod.name} {first}",
        described=f"Strips {first} to {last} of the gauge rod for the {rod.name}, at true size.",
        scale=1.0,
        window=(0.0, 0.0, width, high),
        items=tuple(items),
    )


def _drawn(rod: Rod, strip: _Strip, low: float, labels: dict[str, str], figures: Figures) -> Iterator[Item]:
    """A strip: its edges, its lap, the tile edges with their figures along the upper edge, and its number."""
    top, end = low + STRIP, strip.end - strip.start
    lap = end + LAP if strip.number < strip.count else end
    yield Line(points=((0.0, low), (lap, low), (lap, top), (0.0, top)), pen=Pen.FACTORY, closed=True)
    if lap > end:
        yield Line(points=((end, low), (end, top)), pen=Pen.HIDDEN)
        yield Text(at=(end + LAP / 2, (low + top) / 2), text=f"lap {strip.number + 1}", size=Size.SMALL, angle=UPRIGHT)
    yield Text(at=(end - AIR, low + 3.0), text=_caption(rod, strip, figures), size=Size.SMALL, anchor="end")
    free = 0.0
    for joint in rod.joints:
        at = joint.start - strip.start, joint.end - strip.start
        if at[1] < 0 or at[0] > lap:
            continue
        is_zero = joint.line == rod.zero
        yield from _joint(at, (low, top), lap, is_zero)
        said = _said(joint, rod, labels, figures)
        half = text_width(said, Size.FIGURE) / 2
        wanted = at[1] + AIR + half if is_zero else sum(at) / 2
        middle = min(max(wanted, half + AIR), end - half - AIR)
        if sum(at) / 2 <= end and middle - half >= free:
            yield Text(at=(middle, top - TICK - 3.0), text=said, size=Size.FIGURE, halo=True)
            free = middle + half + AIR


def _caption(rod: Rod, strip: _Strip, figures: Figures) -> str:
    """Which strip it is, and on the first and the last what lies beyond the rod."""
    said = [f"{rod.name}, strip {strip.number} of {strip.count}"]
    if strip.number == 1 and rod.before is not None:
        said.append(f"before it the cut to {rod.before.wall}: {_from_to(rod.before, figures)}")
    if strip.number == strip.count and rod.after is not None:
        said.append(f"after it the cut to {rod.after.wall}: {_from_to(rod.after, figures)}")
    return "; ".join(said)


def _joint(at: tuple[float, float], edges: tuple[float, float], most: float, is_zero: bool) -> Iterator[Item]:
    """A joint: both tile edges, the joint between them dark; the zero right down the strip."""
    low, top = edges
    start, end = max(at[0], 0.0), min(at[1], most)
    foot = low if is_zero else top - TICK
    if end > start:
        yield Fill(rings=(((start, foot), (end, foot), (end, top), (start, top)),), tone=Tone.OBSTACLE)
    for edge in at:
        if 0.0 <= edge <= most:
            yield Line(points=((edge, foot), (edge, top)), pen=Pen.MARK)


def _said(joint: RodJoint, rod: Rod, labels: dict[str, str], figures: Figures) -> str:
    """A joint as it stands on the rod: its line, and the running figure of its middle."""
    phase = f" {COURSES[joint.phase % len(COURSES)]}" if rod.phases > 1 else ""
    if joint.line == rod.zero:
        return f"0 on {labels[joint.line]}{phase}"
    return f"{labels[joint.line]}{phase}: {figures.room((joint.start + joint.end) / 2)}"


def _table(rod: Rod, labels: dict[str, str], figures: Figures, words: Words) -> Table:
    return Table(
        heading=f"The {words.joint}s on the rod, running from line {labels[rod.zero]}",
        columns=(
            Column(heading="Line"),
            *((Column(heading="Course"),) if rod.phases > 1 else ()),
            Column(heading="tile ends", unit=figures.column, align="right", marked=True),
            Column(heading="middle", unit=figures.column, align="right"),
            Column(heading="tile begins", unit=figures.column, align="right", marked=True),
        ),
        rows=tuple(
            (
                labels[joint.line],
                *((COURSES[joint.phase % len(COURSES)],) if rod.phases > 1 else ()),
                typeset(figures.style.text(joint.start)),
                figures.room((joint.start + joint.end) / 2),
                figures.room(joint.end),
            )
            for joint in rod.joints
        ),
    )


def _ends(rod: Rod, figures: Figures, words: Words) -> Iterator[str]:
    """Says what lies beyond both ends of the rod."""
    if rod.phases > 1:
        yield sentence(f"courses take the marks in turn, {', '.join(COURSES[: rod.phases])}, and so on again")
    for cut, where in ((rod.before, "before its first joint"), (rod.after, "after its last joint")):
        if cut is None:
            yield sentence(f"{where} the cuts differ too much for one figure: see the cut list")
        else:
            yield sentence(f"{where} lies the cut to {cut.wall}: {_from_to(cut, figures)}, and the {words.gap}")


def _from_to(cut: EndCut, figures: Figures) -> str:
    least, most = figures.cut(cut.least), figures.cut(cut.most)
    return f"{figures.cut(cut.least, unit=True)}" if least == most else f"{least} to {figures.cut(cut.most, unit=True)}"
