"""Lengths as people write and read them: any common notation in, exact; the nearest graduation out.

Inside the program a length is a float in mm. Reading goes through `Fraction`, so that sixteenths stay exact, and
nothing is rounded before it becomes text.
"""

import math
import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from floorwright import tolerance
from floorwright.errors import FloorwrightValueError, LengthError

System = Literal["metric", "imperial"]
Ties = Literal["even", "up", "down"]

INCH: Final = Fraction(254, 10)
"""mm, exactly (the 1959 agreement; the survey foot is never used)."""

FOOT: Final = 12 * INCH

MM_IN: Final = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": INCH, "ft": FOOT}
"""mm in each unit that a bare number may be in."""

SQUARE_FOOT: Final = float(FOOT * FOOT)
LONGEST: Final = Fraction(1_000_000)
"""mm. A length over 1 km is a slip of the keys."""

SHORTEST: Final = Fraction(1, 1_000_000)
"""mm. A length under a millionth of a mm and over 0 is another."""

LONGEST_TEXT: Final = 60
"""Characters. No length needs more, and a number of thousands of digits is not worth reading."""

FINEST_INCH: Final = Fraction(1, 64)
"""Inches. The finest fraction that is printed for a length as entered."""

FINEST_MM: Final = Fraction(1, 100)
"""mm. The finest decimal that is printed for a length as entered."""


UNIT_NAMES: Final = {
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "cm": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
    "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    '"': "in", "in": "in", "inch": "in", "inches": "in",
    "'": "ft", "ft": "ft", "foot": "ft", "feet": "ft",
}  # fmt: skip
"""Every name of a unit that is read, in small letters."""

_PLAIN: Final = str.maketrans(
    dict.fromkeys("″”“„‟", '"') | dict.fromkeys("′’‘‛´`", "'") | dict.fromkeys("‐‑‒–—−", "-") | dict.fromkeys("⁄∕", "/")
)

_NUMBER: Final = r"[0-9]+\.?[0-9]*|\.[0-9]+"
_MIXED: Final = rf"(?:(?:[0-9]+(?:\s+|\s*-\s*))?[0-9]+\s*/\s*[0-9]+|{_NUMBER})"
_ONE: Final = re.compile(rf"({_MIXED})\s*([a-z]+|['\"])?\.?")
_FEET_INCHES: Final = re.compile(
    rf"([0-9]+)\s*(?:'|(?:ft|foot|feet)\b\.?|(?:ft|foot|feet)(?=[0-9]))[\s-]*({_MIXED})\s*(?:\"|inches|inch|in)?\.?"
)
_RUN_TOGETHER: Final = re.compile(r"[0-9]+-[0-9]+-[0-9]+")


def parse_length(text: str | float, unit: str = "mm", *, signed: bool = False) -> float:
    """Returns a length in mm.

    Args:
        text: `3.6 m`, `3600`, `360 cm`, `7' 3 1/2"`, `7'-3 1/2"`, `7ft 3.5in`, `40 1/2"`, with `½` and primes as well.
        unit: what a bare number is in: mm, cm, m, in or ft.
        signed: whether it may be under zero (a coordinate may, a length may not).

    Raises:
        LengthError: it is no length, is under zero, or is one that nobody measures (over 1 km, under a nanometre).
    """
    return float(parse_exact(text, unit, signed=signed))


def parse_exact(text: str | float, unit: str = "mm", *, signed: bool = False) -> Fraction:
    """Returns a length in mm as an exact fraction; else as `parse_length`."""
    if unit not in MM_IN:
        raise FloorwrightValueError(f"no unit {unit!r}; there are {', '.join(MM_IN)}")
    if isinstance(text, bool):
        raise LengthError(str(text).lower(), examples(unit))
    if isinstance(text, str):
        length = _parse_text(text, unit)
    elif isinstance(text, float) and math.isnan(text):
        raise LengthError("nan", examples(unit))
    elif abs(text) > LONGEST:
        raise _too_long(_shown(text))
    else:
        length = exact(text) * MM_IN[unit]
    if length < 0 and not signed:
        raise LengthError(_shown(text), "0 or more")
    if 0 < abs(length) < SHORTEST:
        raise LengthError(_shown(text), "0, or a length that a tape can show")
    if abs(length) > LONGEST:
        raise _too_long(_shown(text))
    return length


def exact(value: float) -> Fraction:
    """Returns the decimal that a person would have written for a float: 0.1 is one tenth."""
    return Fraction(repr(float(value)))


def examples(unit: str) -> str:
    """Returns lengths to write in a file of that unit, as a phrase."""
    if unit in ("in", "ft"):
        return '"7ft 3 1/2in", "40 1/2 in" or ' + ("40.5" if unit == "in" else "3.375")
    metres = {"mm": "3600", "cm": "360", "m": "3.6"}[unit]
    return f'{metres}, "3.6 m" or "7ft 3 1/2in"'


def _shown(text: str | float) -> str:
    if isinstance(text, int) and abs(text) > LONGEST:
        return "a number of too many figures"
    shown = str(text)
    return shown if len(shown) <= LONGEST_TEXT else shown[: LONGEST_TEXT - 3] + "..."


def _too_long(found: str) -> LengthError:
    return LengthError(found, "a length under 1 km")


def _parse_text(text: str, unit: str) -> Fraction:
    if len(text) > LONGEST_TEXT:
        raise LengthError(_shown(text), examples(unit))
    plain = _plain(text)
    negative = plain.startswith("-")
    plain = plain.removeprefix("-").removeprefix("+").lstrip()
    length = _parse_plain(plain, text, unit)
    return -length if negative else length


def _parse_plain(plain: str, text: str, unit: str) -> Fraction:
    if both := _FEET_INCHES.fullmatch(plain):
        inches = _mixed(both[2], text)
        if inches >= 12:
            raise LengthError(text, "less than 12 inches after the feet, or all of it in inches")
        return int(both[1]) * FOOT + inches * INCH
    one = _ONE.fullmatch(plain)
    if one and (one[2] is None or one[2] in UNIT_NAMES):
        if "/" in one[1] and one[2] is None and unit not in ("in", "ft"):
            raise LengthError(text, f'the unit after a fraction, such as "{one[1]} in"')
        return _mixed(one[1], text) * MM_IN[UNIT_NAMES[one[2]] if one[2] else unit]
    if _RUN_TOGETHER.fullmatch(plain):
        raise LengthError(text, 'feet, inches and sixteenths apart, such as "3ft 4 1/2in"')
    if "," in plain:
        raise LengthError(text, 'a point for decimals and nothing between thousands, such as "3.6 m" or 3600')
    raise LengthError(text, examples(unit))


def _mixed(text: str, whole_text: str) -> Fraction:
    """Reads `3`, `3.5`, `1/2`, `3 1/2` or `3-1/2`."""
    if "/" not in text:
        return Fraction(text)
    *before, last = re.split(r"(?<=[0-9])[\s-]+(?=[0-9]+\s*/)", text)
    numerator, denominator = (int(part) for part in last.split("/"))
    if denominator == 0 or (before and numerator >= denominator):
        raise LengthError(whole_text, 'a fraction under one, such as "3 1/2 in"')
    return int(before[0] if before else 0) + Fraction(numerator, denominator)


def _plain(text: str) -> str:
    """Returns a text with its fraction characters, raised and lowered figures, primes and dashes in plain ASCII."""
    apart: list[str] = []
    for before, character in zip(" " + text, text, strict=False):
        if (_is_small(before) and character.isdecimal()) or (before.isdecimal() and _is_raised(character)):
            apart.append(" ")
        apart.append(character)
    plain = unicodedata.normalize("NFKC", "".join(apart).translate(_PLAIN)).translate(_PLAIN)
    return " ".join(plain.replace("''", '"').lower().split())


def _is_raised(character: str) -> bool:
    return unicodedata.decomposition(character).startswith(("<fraction>", "<super>"))


def _is_small(character: str) -> bool:
    return unicodedata.decomposition(character).startswith(("<fraction>", "<super>", "<sub>"))


@dataclass(frozen=True, slots=True)
class LengthStyle:
    """How lengths are printed.

    Attributes:
        system: `metric` prints plain mm, `imperial` feet, inches and a reduced fraction.
        step: the graduation that lengths are rounded to: mm (1 or 1/2) or inches (1/16 or 1/32).
    """

    system: System
    step: Fraction

    @property
    def step_mm(self) -> Fraction:
        """The graduation in mm, exact."""
        return self.step if self.system == "metric" else self.step * INCH

    def steps(self, mm: float, *, ties: Ties = "even") -> int:
        """Returns the nearest graduation as a number of steps.

        Args:
            mm: the length.
            ties: a reading midway between two graduations takes the even one (NIST Handbook 44, 10.3), or `up` for a
                least gap, or `down` for a piece that must fit (common practice, no source). What is within
                `tolerance.TIE` of midway is midway.
        """
        if not math.isfinite(mm):
            raise FloorwrightValueError(f"not a length to print: {mm}")
        below, part = divmod(Fraction(mm) / self.step_mm, 1)
        beyond = (part - Fraction(1, 2)) * self.step_mm
        if abs(beyond) > tolerance.TIE:
            return below + 1 if beyond > 0 else below
        if ties == "even":
            return below + below % 2
        return below + 1 if ties == "up" else below

    def mm(self, steps: int) -> float:
        """Returns the length of a number of steps, mm."""
        return float(steps * self.step_mm)

    def text(self, mm: float, *, ties: Ties = "even", unit: bool = False, feet: bool = True) -> str:
        """Returns a length at the nearest graduation: `282.5`, `447`, `6'-9 3/16"`, `4 1/2"`.

        Args:
            mm: the length.
            ties: see `steps`.
            unit: whether a metric one says `mm` (an imperial one always carries its marks).
            feet: whether an imperial one from a foot up is in feet and inches. The trade quotes rooms so, but cuts and
                tiles in inches alone: `79 3/4"`.
        """
        return self._printed(self.steps(mm, ties=ties) * self.step_mm, unit=unit, feet=feet)

    def entered(self, mm: float) -> Fraction:
        """Returns what is printed, mm, for a length that prints as it was entered: a tile, a joint, a gap.

        That is the length itself as far as decimals of a mm or sixty-fourths go; the graduation plays no part.
        """
        written = exact(mm)
        if self.system == "imperial":
            nearest = round(written / INCH / FINEST_INCH) * FINEST_INCH * INCH
            if abs(nearest - written) <= FINEST_MM / 2:
                return nearest
        return round(written / FINEST_MM) * FINEST_MM

    def entered_text(self, mm: float, *, unit: bool = False, feet: bool = False) -> str:
        """Returns a length as it was entered: `447`, `298.45`, `11 3/4"`.

        In an imperial job a length that is on no sixty-fourth was entered in mm, and prints so: `447 mm`.
        """
        return self._printed(self.entered(mm), unit=unit, feet=feet)

    def _printed(self, mm: Fraction, *, unit: bool, feet: bool) -> str:
        sign = "-" if mm < 0 else ""
        if self.system == "metric":
            return sign + _decimal(abs(mm)) + (" mm" if unit else "")
        inches = abs(mm) / INCH
        if inches.denominator > FINEST_INCH.denominator:
            return f"{sign}{_decimal(abs(mm))} mm"
        return sign + _feet_inches(inches, feet=feet)


METRIC: Final = LengthStyle("metric", Fraction(1, 2))
IMPERIAL: Final = LengthStyle("imperial", Fraction(1, 16))


def _decimal(mm: Fraction) -> str:
    """Writes a positive number of hundredths without trailing zeros."""
    whole, hundredths = divmod(round(mm * 100), 100)
    return f"{whole}.{hundredths:02}".rstrip("0").rstrip(".")


def _feet_inches(inches: Fraction, *, feet: bool) -> str:
    whole_feet, rest = divmod(inches, 12) if feet else (0, inches)
    whole, part = divmod(rest, 1)
    figures = [str(whole)] if whole or whole_feet or not part else []
    figures += [str(part)] if part else []
    return (f"{whole_feet}'-" if whole_feet else "") + " ".join(figures) + '"'


def area_text(mm2: float, style: LengthStyle) -> str:
    """Returns an area: `15.14 m²` or `162.9 sq ft`."""
    if style.system == "metric":
        return f"{mm2 / 1e6:.2f} m²"
    return f"{mm2 / SQUARE_FOOT:.1f} sq ft"


_FRACTION: Final = re.compile(r"(?:(?<=[0-9]) )?(?<![0-9/])([0-9]+)/([0-9]+)(?![0-9/])")
_RAISED: Final = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_LOWERED: Final = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
_MINUS: Final = re.compile(r"(?<![0-9A-Za-z'\"])-(?=[0-9])")


def typeset(text: str) -> str:
    """Returns a text for a drawing: `7 11/16"` with raised and lowered figures about U+2044, and a true minus.

    The space before a fraction becomes one that no line breaks at. `parse_length` reads the result.
    """

    def small(match: re.Match[str]) -> str:
        space = "\N{NO-BREAK SPACE}" if match[0].startswith(" ") else ""
        return f"{space}{match[1].translate(_RAISED)}\N{FRACTION SLASH}{match[2].translate(_LOWERED)}"

    return _MINUS.sub("\N{MINUS SIGN}", _FRACTION.sub(small, text))


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosedSum:
    """The printed figures of lengths that add up to a printed total.

    Attributes:
        parts: what is printed for each length, mm, exact.
        total: what is printed for the total, mm, exact.
        remainder: `total` less the sum of `parts`: at most one graduation either way; show it on the last joint.
    """

    parts: tuple[Fraction, ...]
    total: Fraction
    remainder: Fraction


def close_sum(
    lengths: Sequence[float], total: float, style: LengthStyle, rounded: Sequence[bool], *, ties: Ties = "even"
) -> ClosedSum:
    """Returns printed figures for lengths along one line, so that a person who adds them up meets the total.

    Each rounded length goes to its nearest graduation. Only where the figures would then miss the total by more than
    one graduation does the length nearest to midway go to its other neighbour, until they do not.

    Args:
        lengths: mm, in order, adding up to `total`.
        total: mm.
        style: how lengths are printed.
        rounded: for each length whether it is rounded (a cut) or printed as entered (a tile, a joint, a gap).
        ties: see `LengthStyle.steps`.

    Raises:
        FloorwrightValueError: the lengths do not add up to the total (to `tolerance.STRIP`).
    """
    if abs(math.fsum(lengths) - total) > tolerance.STRIP:
        raise FloorwrightValueError(f"parts add up to {math.fsum(lengths)} mm, not {total} mm")
    step = style.step_mm
    printed_total = style.steps(total, ties=ties) * step
    parts = [
        style.steps(length, ties=ties) * step if is_cut else style.entered(length)
        for length, is_cut in zip(lengths, rounded, strict=True)
    ]
    remainder = printed_total - sum(parts)
    excess = [
        (round(abs(lengths[i] - parts[i]) / tolerance.RANK_STEP), i) for i, is_cut in enumerate(rounded) if is_cut
    ]
    for _, i in sorted(excess, key=lambda item: (-item[0], item[1])):
        if abs(remainder) <= step:
            break
        change = step if remainder > 0 else -step
        if (lengths[i] - parts[i]) * change > 0:
            parts[i] += change
            remainder -= change
    return ClosedSum(parts=tuple(parts), total=printed_total, remainder=remainder)
