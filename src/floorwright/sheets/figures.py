"""Figures as they are printed on sheets: rounded once, in the job's units, fractions set as fractions."""

import math
from dataclasses import dataclass
from itertools import groupby

from floorwright import tolerance
from floorwright.control.words import out_over
from floorwright.pattern.cell import Sized, UnitCell
from floorwright.sheets.words import listed
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

    def within(self, mm: float, *, unit: bool = True) -> str:
        """Returns what a length may be out by, up to the next graduation: never less than it is."""
        steps = math.ceil(mm / float(self.style.step_mm) - tolerance.COINCIDENT)
        return self.room(self.style.mm(steps), unit=unit)

    def difference(self, mm: float) -> str:
        """Returns a small difference with its sign, without a metric unit; nought has none."""
        return f"+{self.cut(mm)}" if self.style.steps(mm) > 0 else self.cut(mm)

    def taper(self, mm: float) -> str:
        """Returns what a tile loses to the next; what is less than the graduation shows is told as less than that."""
        if mm < tolerance.COINCIDENT:
            return "none"
        step = self.style.mm(1)
        return f"under {self.cut(step)}" if mm < step / 2 else self.cut(mm)

    def out(self, angle: float) -> str:
        """Returns an angle as so much out over a run."""
        return typeset(out_over(angle, self.style))

    def area(self, mm2: float) -> str:
        """Returns an area: `15.14 m²`, `162.9 sq ft`."""
        return area_text(mm2, self.style)

    def size(self, length: float, width: float) -> str:
        """Returns a tile's size: `447 x 447 mm`."""
        return f"{self.entered(length)} × {self.entered(width, unit=True)}"

    def goods(self, cell: UnitCell) -> str:
        """Returns the sizes of a pattern's pieces: `447 x 447 mm`, `octagon 200 mm across the flats and dot ...`."""
        if len({self.sized(sized) for sized in cell.goods}) == 1:
            return self.sized(cell.goods[0])
        if all(sized.name == self.entered(sized.size[0], unit=True) for sized in cell.goods):
            # Called by their lengths: the width once for all of them.
            lengths = listed([self.entered(sized.size[0]) for sized in cell.goods])
            return f"{lengths} × {self.entered(cell.size[1], unit=True)}"
        sizes = []
        for size, alike in groupby(cell.goods, key=self.sized):
            names = [sized.name for sized in alike]
            sizes.append(f"{' to '.join(dict.fromkeys((names[0], names[-1])))} {size}".strip())
        return " and ".join(filter(None, (", ".join(sizes[:-1]), sizes[-1])))

    def sized(self, sized: Sized) -> str:
        """Returns the size of a kind of piece: `447 x 447 mm`, `200 mm across the flats`."""
        if sized.measured:
            return f"{self.entered(sized.size[0], unit=True)} {sized.measured}"
        return self.size(*sized.size)
