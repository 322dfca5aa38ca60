"""A blank sheet to book a room's readings on, in the order in which they are taken."""

import math

import numpy as np

from floorwright.draw.sheet import Beside, Blanks, Block, Column, Prose, Sheet, Table
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import Cross, Item, Line, Text, View
from floorwright.geometry.region import Points
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import counted
from floorwright.survey.accuracy import TAPES
from floorwright.survey.booking import Booking
from floorwright.units import LengthStyle

SKETCH = 88.0
"""mm on paper, the side of the sketch."""

TURN_IN = 0.72
"""How far a corner of the sketch that turns in is drawn towards the middle."""

HOW = (
    "Name the corners anticlockwise, seen from above; walk with the wall on your right.",
    "Read every distance corner to corner, along the floor, tape tight. Book what you read, even if it looks wrong.",
    "Then each door: from a corner to its near side, its width, how far the floor runs into it.",
)


def booking_sheet(booking: Booking, style: LengthStyle, inward: tuple[str, ...] = ()) -> Sheet:
    """Returns a blank booking sheet: a sketch with the corners named, and a line for every reading.

    Args:
        booking: which readings to take.
        style: how lengths print.
        inward: corners that turn into the room, for the sketch.
    """
    figures = Figures(style=style)
    walls = [blank for blank in booking.readings if blank.why == "wall"]
    across = [blank for blank in booking.readings if blank.why != "wall"]
    title = f"Take {counted(len(walls), 'wall')} and {counted(len(across), 'diagonal')}; book them as you read them."
    expect = (
        f"With {_tape(booking.tape)} and walls of about {figures.room(booking.side, unit=True)} a corner is then "
        f"known within {figures.within(booking.sd_corner)} two times in three.",
    )
    head: Block = Beside(
        left=(_sketch(booking, inward),), right=(Prose(lines=HOW), Prose(lines=expect, tone="quiet")), share=0.54
    )
    return Sheet(
        key="booking",
        title=title,
        blocks=(head, _table(booking, figures), Blanks(labels=("Room", "Taken by", "Tape", "Date"), columns=4)),
    )


def _tape(name: str) -> str:
    """Returns a tape by its class; one that its owner knows better has none."""
    return f"a tape of class {name}" if name in TAPES else "your tape"


def _table(booking: Booking, figures: Figures) -> Table:
    why = {"wall": "wall", "fixes the shape": "diagonal: fixes the shape", "checks": "diagonal: checks the others"}
    return Table(
        columns=(
            Column(heading="Reading", marked=True),
            Column(heading="Tape's zero at"),
            Column(heading="Read at"),
            Column(heading="It is a"),
            Column(heading="You read", unit=figures.column),
            Column(heading="Again, if in doubt", unit=figures.column),
        ),
        rows=tuple(
            (blank.name, blank.start, blank.end, why.get(blank.why, blank.why), "", "") for blank in booking.readings
        ),
        ticks=True,
    )


def _sketch(booking: Booking, inward: tuple[str, ...]) -> View:
    """Returns a made-up room with so many corners: not the shape, only the names and what runs between them."""
    names = booking.corners
    ring = _ring(len(names), [name in inward for name in names])
    at = dict(zip(names, [(float(x), float(y)) for x, y in ring], strict=True))
    items: list[Item] = [
        Line(points=(at[blank.start], at[blank.end]), pen=Pen.READING)
        for blank in booking.readings
        if blank.why != "wall"
    ]
    items.append(Line(points=tuple(at.values()), pen=Pen.WALL, closed=True))
    for name, point in at.items():
        length = math.hypot(*point)
        items.append(Cross(at=point, label=name, away=(point[0] / length, point[1] / length), size=Size.FIGURE))
    items.append(Text(at=(0.0, -SKETCH / 2 + 3.0), text="not to scale: names only", size=Size.SMALL))
    half = SKETCH / 2
    return View(
        name="sketch",
        described=f"A room with corners {', '.join(names)}, its walls, and the diagonals to take.",
        scale=1.0,
        window=(-half, -half, half, half),
        items=tuple(items),
        check_bar=False,
        is_to_scale=False,
    )


def _ring(count: int, turned_in: list[bool]) -> Points:
    """(n, 2) mm about the middle, anticlockwise, the first corner at the lower left."""
    turn = math.tau * np.arange(count) / count - math.pi * (0.5 + 1.0 / count)
    radius = np.where(turned_in, 1.0 - TURN_IN, 1.0) * (SKETCH / 2 - 10.0)
    return np.asarray(np.column_stack([np.cos(turn), np.sin(turn)]) * radius[:, None])
