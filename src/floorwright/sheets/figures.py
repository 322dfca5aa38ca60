"""Figures as they are printed on sheets: rounded once, in the job's units, fractions set as fractions."""

from dataclasses import dataclass

from floorwright.control.words import FINE, fine, fine_bare, out_over
from floorwright.units import LengthStyle, area_text, typeset


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Turns numbers into text. All lengths mm, angles radians.

    Attributes:
        style: the job's units and graduation.
    """

    style: LengthStyle

    @property
    def column(self) -> str:
        """The unit for the head of a column: `mm`, or nothing, as feet and inches carry their own marks."""
        return "mm" if self.style.system == "metric" else ""

    @property
    def imperial(self) -> bool:
        """Whether lengths are in feet and inches."""
        return self.style.system == "imperial"

    def room(self, mm: float, *, unit: bool = False) -> str:
        """Returns a length of a room: `3612`, `10'-2 5/8"`."""
        return typeset(self.style.text(mm, unit=unit))

    def cut(self, mm: float, *, unit: bool = False) -> str:
        """Returns a length on a tile, in inches alone where it is not metric: `282.5`, `11 3/4"`."""
        return typeset(self.style.text(mm, feet=False, unit=unit))

    def entered(self, mm: float, *, unit: bool = False) -> str:
        """Returns a length that prints as it was entered: a tile, a joint, a gap."""
        return typeset(self.style.entered_text(mm, unit=unit))

    def fine(self, mm: float) -> str:
        """Returns a small length, finer than a mark can be made, with its unit."""
        return typeset(fine(mm, self.style))

    def reading(self, mm: float) -> str:
        """Returns a reading to hold a tape against, without a metric unit: `2502.4`, `12'-6 19/32"`."""
        return typeset(FINE[self.style.system].text(mm))

    def difference(self, mm: float) -> str:
        """Returns a small difference with its sign, without a metric unit; nothing at all where it prints as nought."""
        text = fine_bare(mm, self.style)
        if not text.strip("-0.\"'"):
            return "0"
        return typeset(text if text.startswith("-") else f"+{text}")

    def out(self, angle: float) -> str:
        """Returns an angle as so much out over a run."""
        return typeset(out_over(angle, self.style))

    def area(self, mm2: float) -> str:
        """Returns an area: `15.14 m²`, `162.9 sq ft`."""
        return area_text(mm2, self.style)

    def size(self, length: float, width: float) -> str:
        """Returns a tile's size: `447 x 447 mm`."""
        return f"{self.entered(length)} × {self.entered(width, unit=True)}"
