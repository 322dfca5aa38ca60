"""What a person did who booked a wrong reading, where its size gives that away: a unit lost, digits swapped.

A tape is read a whole unit off far more often than by some odd length, and a number is written down with two digits
swapped or one taken for another that looks like it. Where such a slip leaves a reading that agrees with all the others,
it is very likely the one. Which slips are looked for is common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from floorwright.survey.chi_square import CRITICAL
from floorwright.tolerance import TIE
from floorwright.units import FOOT, INCH, LengthStyle

ALIKE: Final = ("56", "17", "38", "69")
"""Digits that are taken for each other, by eye or by ear."""

UNITS: Final = {
    "metric": (("100 mm", 100.0), ("1 m", 1000.0)),
    "imperial": (("1 ft", float(FOOT)), ("1 in", float(INCH))),
}
"""Whole units that are lost on a tape, by the system that it is read in: name and mm."""

TELLING: Final = 0.5
"""Our default: a recognised slip must explain the reading to within this part of itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recognised:
    """A slip of a kind that people make.

    Attributes:
        would_agree: what the tape must have read, mm.
        what: what was done, as it follows a colon: `two digits swapped`, `a 5 for a 6`, `100 mm short`.
    """

    would_agree: float
    what: str


def recognise(measured: float, would_read: float, sd: float, style: LengthStyle) -> Recognised | None:
    """Returns the slip that turns one reading into another, None where none of the kinds that people make does.

    Args:
        measured: mm, as booked.
        would_read: mm, what all the other readings make it.
        sd: mm, standard deviation of the difference between the two where nobody slips.
        style: how the tape is read: digits are those of millimetres, or of feet and inches.

    >>> from floorwright.units import METRIC
    >>> recognise(4670, 4761.2, 1.5, METRIC)
    Recognised(would_agree=4760.0, what='two digits swapped')
    """
    widest = min(CRITICAL * sd, TELLING * abs(measured - would_read))
    near = [slip for slip in _slips(measured, style) if abs(slip.would_agree - would_read) <= widest]
    # The first of those that lie alike near: a kind that says more about the hand comes before one that says less.
    return min(near, key=lambda slip: round(abs(slip.would_agree - would_read), 3), default=None)


def _slips(measured: float, style: LengthStyle) -> Iterator[Recognised]:
    for digits, unit, rest in _numbers(measured, style):
        for wrong, what in _wrong_digits(digits):
            yield Recognised(would_agree=int(wrong) * unit + rest, what=what)
    for name, size in UNITS[style.system]:
        yield Recognised(would_agree=measured + size, what=f"{name} short")
        if measured > size:
            yield Recognised(would_agree=measured - size, what=f"{name} too many")


def _numbers(measured: float, style: LengthStyle) -> Iterator[tuple[str, float, float]]:
    """Whole numbers that a reading is written with: digits, the mm that one of them stands for, and what is left."""
    if style.system == "metric":
        whole = int(measured + TIE)
        yield str(whole), 1.0, measured - whole
        return
    inches = Fraction(measured + TIE) / INCH
    feet, over = divmod(int(inches), 12)
    for number, unit in ((int(inches), INCH), (feet, FOOT), (over, INCH)):
        yield str(number), float(unit), measured - float(number * unit)


def _wrong_digits(digits: str) -> Iterator[tuple[str, str]]:
    """Numbers that are booked as these digits by mistake, with what was done."""
    for i in range(len(digits) - 1):
        swapped = digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :]
        if swapped not in (digits, "0" * len(digits)):
            yield swapped, "two digits swapped"
    for i, digit in enumerate(digits):
        for pair in ALIKE:
            if digit in pair:
                other = pair.replace(digit, "")
                yield digits[:i] + other + digits[i + 1 :], f"{_a(digit)} for {_a(other)}"


def _a(digit: str) -> str:
    return f"an {digit}" if digit == "8" else f"a {digit}"
