"""How control says its figures: finer than a mark can be made, because they are differences between marks."""

import math
from fractions import Fraction
from typing import Final

from floorwright.units import FOOT, LengthStyle

FINE: Final = {
    "metric": LengthStyle("metric", Fraction(1, 10)),
    "imperial": LengthStyle("imperial", Fraction(1, 32)),
}
"""A tenth of a mm, or a thirty-second."""

RUN: Final = {"metric": (1000.0, "per m"), "imperial": (float(10 * FOOT), "in 10 ft")}
"""What `so much out` is out over: the trade's word for an angle."""


def fine(mm: float, style: LengthStyle) -> str:
    """Returns a small length, finer than the job's own graduation, with its unit."""
    return FINE[style.system].text(mm, unit=True)


def fine_bare(mm: float, style: LengthStyle) -> str:
    """Returns a reading to the fine graduation, without a metric unit: `2502.4`."""
    return FINE[style.system].text(mm, feet=False)


def out_over(angle: float, style: LengthStyle) -> str:
    """Returns a small angle as so much out over a run: `0.62 mm per m`, `1/16" in 10 ft`."""
    run, words = RUN[style.system]
    out = abs(math.tan(angle)) * run
    return f"{out:.2f} mm {words}" if style.system == "metric" else f"{fine(out, style)} {words}"


def place_text(place: str | tuple[float, float], style: LengthStyle) -> str:
    """Returns a place as a person says it: a corner's name, or its two distances."""
    if isinstance(place, str):
        return place
    return f"({style.text(place[0])}, {style.text(place[1])})"
