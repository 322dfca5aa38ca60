"""How exercises say their figures: on the floor, and on the paper."""

from floorwright.practice.bay import PAPER_SCALE, style_of
from floorwright.units import LengthStyle


def at_scale(units: str) -> str:
    """Returns the scale of the drawings in words."""
    return "1:25" if units == "mm" else "½ inch to the foot"


def paired(mm: float, units: str) -> str:
    """Returns a length on the floor, and what it is on the paper: `2450 mm (98 on paper)`."""
    style = style_of(units)
    return f"{said(mm, style)} ({style.text(mm / PAPER_SCALE[units], feet=False)} on paper)"


def said(mm: float, style: LengthStyle) -> str:
    """Returns a length with its unit."""
    return style.text(mm, unit=True)


def number_of(mm: float, style: LengthStyle) -> str:
    """Returns a length as it stands in a sum: bare, no feet."""
    return style.text(mm, feet=False)
