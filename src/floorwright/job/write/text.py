"""A job as the text of a job file: the form's order, one fact a line, lengths in the file's own units, exact."""

import datetime as dt
import json
import re
from collections.abc import Iterator
from decimal import Decimal, localcontext
from fractions import Fraction
from typing import Any, Final

from floorwright.job.model import Centre, DrawnPattern, FirstLine, Goods, Group, Job, Survey, Zone
from floorwright.job.model.form import fields_of
from floorwright.job.model.scoring import Scoring, Stencil
from floorwright.job.model.table import Table
from floorwright.job.model.values import SQUARE_METRE, is_imperial
from floorwright.units import FINEST_INCH, IMPERIAL, INCH, MM_IN, SQUARE_FOOT, exact, parse_length

IN_LINE: Final = (FirstLine, Centre, Group)
"""Tables that are written in braces on one line."""

IN_INCHES: Final = (Goods, Group, Zone, Scoring, Stencil)
"""Tables whose imperial lengths are in inches alone, as the trade quotes tiles and joints."""

NO_LENGTHS: Final = frozenset(
    {"angle", "angle_from", "angle_to", "angles", "corner", "laser", "mitre", "north", "vary", "within_degrees"}
)
"""Keys with a number that is no length."""

AREAS: Final = frozenset({"skins"})
"""Keys with an area."""

LONGEST_DECIMAL: Final = 4
"""Decimals of an inch that are still written as inches."""

IMPERIAL_STEPS: Final = {float(step * INCH): f"{step}in" for step in (IMPERIAL.step, IMPERIAL.step / 2)}
"""mm -> how the graduation is written."""

_BARE_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")


def job_text(job: Job) -> str:
    """Returns the text of a job file that reads back as the same job.

    It holds what the job was given and no default that it was not. Written, read and written again it is the same text.
    """
    writer = _Writer(job.units)
    return "\n".join(writer.table(job, "")).strip() + "\n"


def length_text(mm: float, unit: str, *, feet: bool = True) -> str:
    """Returns a length as a TOML value in a file of a unit, exact: `3600`, `"7ft 3 1/2in"`, `"447 mm"`.

    Args:
        mm: the length.
        unit: of the file.
        feet: whether an imperial one from a foot up is in feet and inches.
    """
    written = exact(mm)
    text = _imperial(written, feet=feet) if is_imperial(unit) else _decimal(written / MM_IN[unit])
    if text and parse_length(float(text) if text[0] != '"' else json.loads(text), unit, signed=True) == mm:
        return text
    return f'"{_decimal(written)} mm"'


def _area_text(mm2: float, unit: str) -> str:
    """An area in the unit that bare numbers of it have, with as few figures as give it back."""
    size = SQUARE_FOOT if is_imperial(unit) else SQUARE_METRE
    texts = [f"{mm2 / size:.{figures}g}" for figures in range(3, 18)]
    return next((text for text in texts if float(text) * size == mm2), texts[-1])


def _decimal(number: Fraction) -> str:
    """Writes a fraction that ends, which every float over a power of ten is, with all its decimals."""
    with localcontext() as context:
        context.prec = 400
        return format((Decimal(number.numerator) / Decimal(number.denominator)).normalize(), "f")


def _imperial(mm: Fraction, *, feet: bool) -> str:
    inches = mm / INCH
    if not inches:
        return "0"
    if (inches / FINEST_INCH).denominator != 1:
        short = (inches * 10**LONGEST_DECIMAL).denominator == 1
        return f'"{_decimal(inches)}in"' if short else ""
    sign = "-" if inches < 0 else ""
    whole_feet, rest = divmod(abs(inches), 12) if feet else (0, abs(inches))
    whole, part = divmod(rest, 1)
    figures = " ".join(str(figure) for figure in (whole, part) if figure)
    ft = f"{whole_feet}ft" if whole_feet else ""
    return f'"{sign}{ft}{" " if ft and figures else ""}{figures}{"in" if figures else ""}"'


def is_in_file_beside(table: Table, name: str) -> bool:
    """Returns whether a field of a table is what a file holds that the table names, and so is not written out."""
    if isinstance(table, Survey):
        return name == "points" and bool(table.coordinates or table.traced)
    return isinstance(table, DrawnPattern) and name == "pieces" and table.traced is not None


class _Writer:
    def __init__(self, unit: str) -> None:
        self.unit = unit

    def table(self, table: Table, name: str) -> Iterator[str]:
        """Yields the lines of a table: its own keys first, then the tables in it, each after a blank line."""
        inner: list[tuple[str, Any]] = []
        for key, value in self.given(table):
            one = value[0] if isinstance(value, tuple) and value else value
            if isinstance(value, dict) or _is_table(one):
                inner.append((f"{name}.{key}".lstrip("."), value))
            else:
                yield f"{key} = {self.value(key, value, table)}"
        for header, value in inner:
            yield from self.inner(header, value)

    def inner(self, header: str, value: Any) -> Iterator[str]:
        if isinstance(value, dict):
            yield from ("", f"[{header}]")
            for key, one in value.items():
                # A distance read once is written as it was: alone.
                alone = one[0] if isinstance(one, tuple) and len(one) == 1 else one
                yield f"{_key(key)} = {self.value(key, alone, None)}"
        elif isinstance(value, tuple):
            for one in value:
                yield from ("", *_remark(one, header), f"[[{header}]]", *self.table(one, header))
        else:
            lines = list(self.table(value, header))
            own = bool(lines) and lines[0] != ""
            yield from ("", *_remark(value, header), f"[{header}]") if own else ()
            yield from lines

    def given(self, table: Table) -> Iterator[tuple[str, Any]]:
        """Yields the keys that a table was given, with their values, in the form's order."""
        for key, name in zip(fields_of(type(table)), type(table).model_fields, strict=True):
            value = getattr(table, name)
            if is_in_file_beside(table, name):
                continue
            if name in table.model_fields_set and value is not None:
                yield key, value

    def value(self, key: str, value: Any, table: Table | None) -> str:
        if isinstance(value, bool):
            return str(value).lower()
        if isinstance(value, float) and key == "rounding":
            return f'"{IMPERIAL_STEPS[value]}"' if is_imperial(self.unit) else _decimal(exact(value))
        if isinstance(value, float) and key in AREAS:
            return _area_text(value, self.unit)
        if isinstance(value, float) and key not in NO_LENGTHS:
            return length_text(value, self.unit, feet=not isinstance(table, IN_INCHES))
        if isinstance(value, int | float):
            return _decimal(exact(value))
        if isinstance(value, dt.date):
            return value.isoformat()
        if isinstance(value, str | Fraction):
            return _text(str(value))
        if isinstance(value, Table):
            pairs = ", ".join(f"{key} = {self.value(key, one, value)}" for key, one in self.given(value))
            return f"{{ {pairs} }}"
        return f"[{', '.join(self.value(key, one, table) for one in value)}]"


def _is_table(value: object) -> bool:
    return isinstance(value, Table) and not isinstance(value, IN_LINE)


def _remark(table: Table, header: str) -> tuple[str, ...]:
    """Returns the remark over a section; a table within one needs none."""
    return () if "." in header else (f"# {(type(table).__doc__ or '').splitlines()[0]}",)


def _key(name: str) -> str:
    return name if _BARE_KEY.fullmatch(name) else _text(name)


def _text(text: str) -> str:
    """Writes a text between quotes. It holds no control character: the form lets none in."""
    return json.dumps(text, ensure_ascii=False)
