"""Round insets on the snap list: their circles about their middles, and the words to strike them by."""

import math
from collections.abc import Iterator, Sequence

import numpy as np

from floorwright.control.control import Control
from floorwright.draw.style import Pen
from floorwright.draw.view import Cross, Curve, Item
from floorwright.layout.layout import Layout
from floorwright.sheets.figures import Figures
from floorwright.tolerance import LINES_UP


def round_insets(layouts: Sequence[Layout]) -> list[Layout]:
    """Returns the layouts whose outline is a circle that no rings fill."""
    found = []
    for layout in layouts:
        rounded = layout.part.outline.rounded if layout.part is not None and layout.part.outline is not None else None
        if rounded is not None and rounded.rings is None:
            found.append(layout)
    return found


def circle_items(layouts: Sequence[Layout]) -> Iterator[Item]:
    """Yields the circle that is struck for every round inset, and the cross in its middle."""
    for number, layout in enumerate(round_insets(layouts), start=1):
        centre, radius = _struck(layout)
        yield Curve(centre=centre, radius=radius, start=0.0, end=math.tau, pen=Pen.ARC)
        yield Cross(at=centre, label=_label(number))


def circle_lines(layouts: Sequence[Layout], control: Control, figures: Figures) -> Iterator[str]:
    """Yields how every round inset is struck: about which point, and at which radius."""
    for number, layout in enumerate(round_insets(layouts), start=1):
        centre, radius = _struck(layout)
        at = figures.room(radius, unit=True)
        yield (
            f"Strike the round edge of {layout.zone} about {_label(number)}, {_where(centre, control, figures)}, "
            f"at {at}: the middle of the joint round it."
        )


def _label(number: int) -> str:
    return "O" if number == 1 else f"O{number}"


def _struck(layout: Layout) -> tuple[tuple[float, float], float]:
    """The middle, and the radius to the middle of the joint around."""
    assert layout.part is not None
    assert layout.part.outline is not None
    rounded = layout.part.outline.rounded
    assert rounded is not None
    (own,) = rounded.region.circles.values()
    (around,) = rounded.around.circles.values()
    return own.centre, (own.radius + around.radius) / 2


def _where(centre: tuple[float, float], control: Control, figures: Figures) -> str:
    """Where a point lies from the centre of the control lines, along the first line and off it."""
    angle = next(line.angle for line in control.lines if line.name == "first line")
    cos, sin = math.cos(angle), math.sin(angle)
    along, off = (np.subtract(centre, control.centre) @ np.array([[cos, -sin], [sin, cos]])).tolist()
    parts = []
    if abs(along) > LINES_UP:
        parts.append(f"{figures.room(abs(along), unit=True)} {'on' if along > 0 else 'back'} along the first line")
    if abs(off) > LINES_UP:
        parts.append(f"{figures.room(abs(off), unit=True)} square off it to the {'left' if off > 0 else 'right'}")
    return f"{' and '.join(parts)} from the centre" if parts else "the centre"
