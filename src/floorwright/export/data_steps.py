"""The steps of setting out as data: each as a sentence, with the marks, arcs and lines that it makes."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from floorwright.export.data import number
from floorwright.sheets.figures import Figures
from floorwright.sheets.steps import done_together, steps_heading, steps_told

if TYPE_CHECKING:
    from floorwright.control.control import Control, Step
    from floorwright.export.data import Data
    from floorwright.units import LengthStyle


def steps_data(control: Control, style: LengthStyle) -> list[Data]:
    """Returns what to do, in order, as the sheet of the steps tells it, for a screen that shows one step at a time."""
    figures = Figures(style=style)
    return [
        {"heading": steps_heading(together), "text": text, "figure": figure, **_made(steps)}
        for together in done_together(control)
        for (text, figure), steps in steps_told(together, control, figures).items()
    ]


def _made(steps: tuple[Step, ...]) -> Data:
    arcs = {(arc.centre, arc.radius, arc.near): arc for step in steps for arc in step.arcs}
    return {
        "points": {
            name: {"x_mm": number(x), "y_mm": number(y)}
            for name, x, y in chain.from_iterable(step.points for step in steps)
        },
        "taped": [_ends(step) for step in steps if step.action in ("mark", "pull", "extend")],
        "struck": [_ends(step) for step in steps if step.action == "join"],
        "arcs": [
            {
                "centre_mm": [number(value) for value in arc.centre],
                "radius_mm": number(arc.radius),
                "near_mm": [number(value) for value in arc.near],
            }
            for arc in arcs.values()
        ],
    }


def _ends(step: Step) -> Data:
    return {"from": step.start, "to": step.end}
