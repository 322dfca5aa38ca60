"""Rings: how many pieces each has, how wide its joints are, what to taper them to, and how all of it is set out."""

import math
from collections.abc import Iterator
from typing import Final

from floorwright.draw.sheet import Block, Column, Columns, Prose, Sheet, Steps, Table
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import Cross, Curve, Item, Line, Text
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.layout.zones import Outline
from floorwright.pattern.ring import Ring
from floorwright.pattern.rings import COPING, Rings
from floorwright.setout.ring_marks import RingMarks, ring_marks
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import Frame, arrange, box_of, frame
from floorwright.sheets.plan import paper_angle
from floorwright.sheets.tiles import tile_items
from floorwright.sheets.words import Words, capital, counted, sentence, words_of

MARGIN: Final = 8.0
"""mm on paper about the plan."""

ABREAST: Final = 3
"""Columns that the lists of marks run down."""

MOST_MARKS: Final = 30
"""Marks of a ring on the sheet; of more, every second, fifth or tenth is there, and the list has them all."""

STEPS: Final = (1, 2, 5, 10, 20, 50)

RADIUS_IN: Final = 0.72
"""Of a ring's depth: where its number stands from the inside."""

JOINTS_TOLD: Final = (
    "Joints inside and outside are told along the arc, as the trade reckons them. A spacer between two pieces finds "
    "what stands under it, inside and outside.",
)

CAUTION: Final = (
    "Dust: cut wet or with extraction, and wear a mask.",
    "A wedge has no square end to hold: clamp it in a jig with a stop, both hands clear of the blade, and let the saw "
    "stop before you reach for it.",
)
"""Common practice, no source."""

TAPER_HOW: Final = (
    "Both sides are sawn alike: mark so much in from either corner at the outside and at the inside edge, join the "
    "marks, and saw one piece. Lay it dry against its template before you saw the rest.",
)

TAPER_BLOCKS: Final = (Prose(lines=TAPER_HOW), Prose(heading="Before you saw", lines=CAUTION, tone="caution"))
"""What stands with the table of tapered pieces."""


def rings_sheet(solution: Solution, layout: Layout) -> Sheet:
    """Returns the sheet of a zone of rings; the layout must be of rings."""
    rings, part = layout.rings, layout.part
    assert rings is not None
    assert part is not None
    assert part.outline is not None
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    title = _title(layout, rings)
    marks = ring_marks(layout, solution.job.control.compass, imperial=figures.imperial)
    place = frame(
        box_of(part.region.rings[0]),
        paper=solution.job.paper,
        imperial=figures.imperial,
        title=title,
        margin=MARGIN,
        under=60.0,
    )
    view = place.view(
        f"rings of {layout.zone}",
        f"Plan of {counted(len(rings.rings), 'ring')} with their numbers, the centre and the first joint.",
        (*tile_items(layout), *_circles(rings, part.outline), *_named(rings, part.outline, place)),
    )
    table = rings_table(layout, figures, words)
    side: tuple[Block, ...] = (Prose(lines=_middle(layout, rings, figures)),)
    tapers = taper_table(layout, figures)
    return Sheet(
        key="rings",
        title=title,
        blocks=(
            *arrange(place, view, side),
            table,
            Prose(lines=JOINTS_TOLD, tone="quiet"),
            *((tapers, *TAPER_BLOCKS) if tapers else ()),
            _steps(marks, rings, figures, words),
            *_mark_tables(marks, figures),
        ),
        landscape=place.landscape,
        lists=(("rings", table), ("ring-marks", _list(marks, figures))),
    )


def _title(layout: Layout, rings: Rings) -> str:
    pieces = sum(one.pieces for one in rings.rings)
    sawn = sum(one.pieces for one in rings.rings if one.tapered)
    what = counted(len(rings.rings), "course" if rings.name == COPING else "ring" if rings.is_round else "arc")
    taper = f"; {sawn} are tapered" if 0 < sawn < pieces else "; all are tapered" if sawn else "; none is tapered"
    return f"{capital(layout.zone)}: lay {counted(pieces, 'piece')} in {what}{taper}."


def rings_table(layout: Layout, figures: Figures, words: Words) -> Table:
    """Returns one row for each ring: pieces, goods, radius, and joints inside and outside, both ways they are told."""
    rings = layout.rings
    assert rings is not None

    def column(heading: str, *, marked: bool = False) -> Column:
        return Column(heading=heading, unit=figures.column, align="right", marked=marked)

    def row(number: int, one: Ring) -> tuple[str, ...]:
        along, out = rings.units[number]
        return (
            str(number + 1),
            str(one.pieces),
            f"{figures.entered(along)} × {figures.entered(out)}",
            figures.room(one.inside),
            *(figures.cut(joint) for joint in one.joints),
            " and ".join(dict.fromkeys(figures.cut(joint) for joint in one.across)),
            "tapered" if one.tapered else "whole",
        )

    return Table(
        heading="Rings, from the inside out",
        columns=(
            Column(heading="Ring"),
            Column(heading="How many", align="right", marked=True),
            Column(heading="Along × out", unit=figures.column, align="right"),
            column("Radius", marked=True),
            column(f"{words.joint.capitalize()} inside"),
            column("outside"),
            column("by spacer"),
            Column(heading="Pieces"),
        ),
        rows=tuple(row(number, one) for number, one in enumerate(rings.rings)),
    )


def taper_table(layout: Layout, figures: Figures) -> Table | None:
    """Returns the two widths that each ring's pieces are sawn to, once per ring; None where all stay whole."""
    rings = layout.rings
    tapered = [(name, one) for name, one in zip(rings.names, rings.rings, strict=True) if one.tapered] if rings else []
    if not tapered:
        return None

    def column(heading: str, *, marked: bool = False) -> Column:
        return Column(heading=heading, unit=figures.column, align="right", marked=marked)

    return Table(
        heading="Tapered pieces",
        columns=(
            Column(heading="Ring"),
            Column(heading="Saw", align="right", marked=True),
            column("Wide outside", marked=True),
            column("inside", marked=True),
            column("Deep"),
            column("Off a corner: outside"),
            column("inside"),
        ),
        rows=tuple(
            (
                name,
                str(one.pieces),
                figures.cut(one.widths[1]),
                figures.cut(one.widths[0]),
                figures.entered(one.depth),
                figures.cut((one.unit - one.widths[1]) / 2),
                figures.cut((one.unit - one.widths[0]) / 2),
            )
            for name, one in tapered
        ),
        ticks=True,
    )


def _circles(rings: Rings, outline: Outline) -> Iterator[Item]:
    """The circles to strike, and the line of the first joint."""
    x, y = outline.centre
    for one in rings.rings:
        if rings.is_round:
            ends = ((x + one.inside, y), (x - one.inside, y))
            yield Line(points=ends, pen=Pen.ARC, closed=True, bulges=(1.0, 1.0))
        else:
            end = outline.along + rings.sweep
            yield Curve(centre=outline.centre, radius=one.inside, start=outline.along, end=end, pen=Pen.ARC)
    near = 0.0 if rings.is_round else rings.hollow
    cos, sin = math.cos(outline.along), math.sin(outline.along)
    side = tuple((x + radius * cos, y + radius * sin) for radius in (near, rings.radius))
    yield Line(points=side, pen=Pen.CONTROL)


def _named(rings: Rings, outline: Outline, place: Frame) -> Iterator[Item]:
    """The centre, and the number of each ring on the first piece to the left of the first joint."""
    yield Cross(at=outline.centre, label="O")
    for number, one in enumerate(rings.rings, start=1):
        turn = outline.along + one.first + one.step / 2
        radius = one.inside + one.depth / 2
        at = outline.centre[0] + radius * math.cos(turn), outline.centre[1] + radius * math.sin(turn)
        yield Text(at=at, text=str(number), size=Size.TEXT, angle=paper_angle(place), halo=True)


def _middle(layout: Layout, rings: Rings, figures: Figures) -> tuple[str, ...]:
    """What lies in the middle, and the circle round all of it."""
    stone = f"the stone in the middle is {figures.entered(rings.stone, unit=True)} across" if rings.stone else ""
    around = f"the whole of it lies within {figures.room(rings.radius, unit=True)} of the centre"
    chosen = layout.chosen
    counts = f"{chosen.full} pieces stay clear of the walls, {chosen.cut} are cut there" if chosen.cut else ""
    joint = figures.entered(rings.joint, unit=True)
    between = f"between rings lie {joint} where a corner comes nearest" if len(rings.rings) > 1 else ""
    return tuple(sentence(said) for said in (stone, around, between, counts) if said)


def _steps(marks: tuple[RingMarks, ...], rings: Rings, figures: Figures, words: Words) -> Steps:
    first = marks[0]
    lines = ["Put a nail at the centre O, and strike the line to the first joint (long and short dashes)."]
    struck = [mark for mark in marks if mark.reachable]
    if len(struck) == len(marks):
        lines.append("Strike the inside circle of every ring from the nail, with the trammel set to its radius.")
    elif first.offsets:
        lines[0] = "The centre is out of reach: mark both ends of every arc, and stretch a string between them."
        lines.append("Mark the inside circle square out from the string, and bend a batten through the marks.")
    else:
        lines.append("Strike the inside circles from the nail; the outer ones want a longer trammel than yours.")
    lines += [
        "Every piece touches its circle with the middle of its inside edge.",
        f"Mark the {words.joint}s on it from the first one, each chord from that one start: never from mark to mark.",
    ]
    if first.both and rings.is_round:
        lines.append("The figures hold to both hands of the first joint, half way round.")
    elif first.both:
        lines.append("The figures hold from either side of the arc.")
    whole = [mark for mark in marks if mark.both and rings.is_round]
    if whole:
        across = figures.room(2 * whole[-1].ring.inside, unit=True)
        lines.append(f"Check: straight across the circle of {whole[-1].name} through O is {across}.")
    elif first.marks:
        last = marks[-1]
        chord = figures.room(last.ring.chord(last.ring.pieces), unit=True)
        lines.append(f"Check: from the first side of {last.name} straight to its last side is {chord}.")
    return Steps(heading="Setting it out", lines=tuple(map(sentence, lines)))


def _mark_tables(marks: tuple[RingMarks, ...], figures: Figures) -> Iterator[Block]:
    tables: list[Block] = []
    for one in marks:
        step = next((step for step in STEPS if len(one.marks) / step <= MOST_MARKS), STEPS[-1])
        kept = [mark for mark in one.marks if mark.number % step == 0]
        tables.append(
            Table(
                heading=f"{capital(one.name)}: radius {figures.room(one.ring.inside)}",
                columns=(
                    Column(heading=_ordinal(step), align="right"),
                    Column(heading="Angle", unit="°", align="right"),
                    Column(heading="Chord", unit=figures.column, align="right", marked=True),
                ),
                rows=tuple(
                    (str(mark.number), f"{math.degrees(mark.angle):.2f}", figures.room(mark.chord)) for mark in kept
                ),
            )
        )
        if one.offsets:
            tables.append(_offsets(one, figures))
    yield Columns(blocks=tuple(tables), count=ABREAST)


def _ordinal(step: int) -> str:
    return "Joint" if step == 1 else f"Joint, every {step}th" if step > 3 else "Joint, every other"


def _offsets(one: RingMarks, figures: Figures) -> Table:
    return Table(
        heading=f"{capital(one.name)}: inside circle off its string",
        columns=(
            Column(heading="From the first side", unit=figures.column, align="right", marked=True),
            Column(heading="Out", unit=figures.column, align="right", marked=True),
        ),
        rows=tuple((figures.room(along), figures.room(out)) for along, out in one.offsets),
    )


def _list(marks: tuple[RingMarks, ...], figures: Figures) -> Table:
    """Returns every mark of every ring in one list."""
    return Table(
        columns=(
            Column(heading="Ring"),
            Column(heading="Joint", align="right"),
            Column(heading="Angle", unit="°", align="right"),
            Column(heading="Chord", unit=figures.column, align="right"),
            Column(heading="Along the circle", unit=figures.column, align="right"),
        ),
        rows=tuple(
            (
                one.name,
                str(mark.number),
                f"{math.degrees(mark.angle):.3f}",
                figures.room(mark.chord),
                figures.room(mark.along),
            )
            for one in marks
            for mark in one.marks
        ),
    )
