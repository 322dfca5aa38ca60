"""The kinds of value that a job file holds, each read from what TOML gives into what the program works with.

A reader raises `FieldError` for a value that cannot be meant; `job.read.draft` turns that into a finding.
"""

import datetime as dt
import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any, Final, Literal, TypeAlias

from pydantic import BeforeValidator, Field, PlainSerializer, ValidationInfo

from floorwright.errors import FloorwrightValueError, LengthError
from floorwright.units import FOOT, IMPERIAL, METRIC, SQUARE_FOOT, LengthStyle, examples, parse_length

UNITS: Final = ("mm", "cm", "m", "in", "ft")
SHARES: Final = ("half", "third", "fifth")
TURNS: Final = ("first line", "long wall", "mean of walls")
LONGEST_NAME: Final = 60
LONGEST_NOTE: Final = 200
SQUARE_METRE: Final = 1e6
LEAST_AREA, MOST_AREA = 0.05, 10_000


class FieldError(FloorwrightValueError):
    """A value of a job file that cannot be meant.

    Attributes:
        code: of the finding.
        expected: what would have been right.
        remedy: what to write.
        found: the value, where it is told better than by writing it out again.
    """

    def __init__(self, code: str, expected: str, remedy: str = "", found: str = "") -> None:
        super().__init__(expected)
        self.code = code
        self.expected = expected
        self.remedy = remedy
        self.found = found


@dataclass(frozen=True, slots=True)
class Fallback:
    """A length to take where a file has none: one for a metric file, one for a file in inches or feet."""

    metric: str
    imperial: str

    def describe(self, schema: dict[str, Any]) -> None:
        """Adds itself to the description in a JSON Schema, where one `default` could not be right for both."""
        schema["description"] = (
            f"{schema.get('description', '')} Without it {self.metric}, or {self.imperial}.".lstrip()
        )


def unit_of(info: ValidationInfo) -> str:
    """Returns the unit of bare numbers: the file's, or mm where a job is made in Python."""
    return str((info.context or {}).get("unit", "mm"))


def is_imperial(unit: str) -> bool:
    """Returns whether lengths in a file of that unit print in feet and inches."""
    return unit in ("in", "ft")


def read_length(value: object, unit: str, *, signed: bool = False, positive: bool = False) -> float:
    """Returns a length, mm; `FieldError` if the value is none."""
    if isinstance(value, Fallback):
        value = value.imperial if is_imperial(unit) else value.metric
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise FieldError("job-length", "a length", f"write {examples(unit)}")
    try:
        length = parse_length(value, unit, signed=signed)
    except LengthError as error:
        remedy = f"write {error.expected}"
        if isinstance(value, int | float) and unit == "m" and 1000 < value < 100_000:
            remedy = f'write "{value} mm", or the metres'
        raise FieldError("job-length", "a length", remedy, _pointed_at(error.found)) from error
    if positive and length == 0:
        raise FieldError("job-length", "a length over 0", "measure it again")
    return length


def _pointed_at(text: str) -> str:
    """Returns a text as a person would point at it, in quotes unless it is a number."""
    return text if text.removeprefix("-").replace(".", "", 1).isdecimal() else f"`{text}`"


def _length(*, signed: bool = False, positive: bool = False) -> Callable[[object, ValidationInfo], float]:
    return lambda value, info: read_length(value, unit_of(info), signed=signed, positive=positive)


def _readings(value: object, info: ValidationInfo) -> tuple[float, ...]:
    values = value if isinstance(value, list | tuple) else [value]
    if not values:
        raise FieldError("job-length", "a reading, or a list of readings", "write the reading, or take the line out")
    return tuple(read_length(item, unit_of(info), positive=True) for item in values)


def _name(value: object) -> str:
    if not isinstance(value, str):
        raise FieldError("job-type", "a name in quotes")
    if not value or value != value.strip() or len(value) > LONGEST_NAME or _has_control(value):
        expected = f"a name of 1 to {LONGEST_NAME} characters on one line, without spaces at its ends"
        raise FieldError("job-name", expected, found=_short(value))
    return value


def corner_name(value: object) -> str:
    """Returns the name of a corner or another point; `FieldError` if it cannot be one."""
    name = _name(value)
    if "-" in name or "/" in name:
        raise FieldError("job-name", "a corner's name without `-` or `/`", f"write {name.translate(_NO_DASH)}")
    return name


_NO_DASH: Final = str.maketrans({"-": "", "/": ""})


def _pair(value: object) -> str:
    names = value.split("-") if isinstance(value, str) else []
    if len(names) != 2 or not all(name and name == name.strip() for name in names):
        raise FieldError("job-name", "two corners with a dash between", "write it as SW-SE")
    return str(value)


def ends(pair: str) -> tuple[str, str]:
    """Returns the two names of a pair such as `SW-SE`."""
    start, _, end = pair.partition("-")
    return start, end


def _exactly(count: int, what: str, remedy: str) -> Callable[[object], object]:
    def read(value: object) -> object:
        if not isinstance(value, list | tuple):
            raise FieldError("job-type", what, remedy)
        if len(value) != count:
            raise FieldError("job-size", what, remedy, f"a list of {len(value)}")
        return value

    return read


def _note(value: object) -> str:
    if not isinstance(value, str):
        raise FieldError("job-type", "text in quotes")
    if len(value) > LONGEST_NOTE or _has_control(value):
        raise FieldError("job-name", f"at most {LONGEST_NOTE} characters on one line", found=_short(value))
    return value


def _has_control(text: str) -> bool:
    return any(unicodedata.category(character) in ("Cc", "Cs", "Zl", "Zp") for character in text)


def _short(text: str) -> str:
    if not text:
        return "an empty text"
    visible = " ".join(text.split())
    return f"`{visible[:40]}...`" if len(visible) > 43 else repr(text)


def file_name(value: object) -> str:
    """Returns the name of a file in the folder of the job file or under it; `FieldError` if it leads elsewhere."""
    name = _name(value)
    parts = name.replace("\\", "/").split("/")
    if ".." in parts or name.startswith(("/", "\\", "~")) or ":" in name:
        raise FieldError("job-file-name", "a file beside the job file, or in a folder beside it", "copy it there")
    return name


def _date(value: object) -> dt.date | None:
    if value is None:
        return None
    if isinstance(value, dt.date) and not isinstance(value, dt.datetime):
        return value
    if isinstance(value, str):
        try:
            return dt.date.fromisoformat(value)
        except ValueError:
            pass
    raise FieldError("job-date", "a date as year-month-day", "write date = 2026-03-02")


def _bond(value: object) -> Fraction:
    if isinstance(value, str | int | float | Fraction) and not isinstance(value, bool) and len(str(value)) < 20:
        try:
            fraction = Fraction(str(value)).limit_denominator(100)
        except (ValueError, ZeroDivisionError):
            fraction = Fraction(0)
        if 0 < fraction < 1:
            return fraction
    raise FieldError("job-number", "a fraction between 0 and 1", 'write fraction = "1/2" or "1/3"')


def _point(value: object, info: ValidationInfo) -> str | tuple[float, float]:
    if isinstance(value, str):
        return corner_name(value)
    if isinstance(value, list | tuple) and len(value) == 2:
        x, y = (read_length(item, unit_of(info), signed=True) for item in value)
        return x, y
    raise FieldError("job-type", "the name of a corner, or [x, y]")


def _sides(value: object, info: ValidationInfo) -> tuple[float, float]:
    if isinstance(value, list | tuple) and len(value) == 2:
        length, width = (read_length(item, unit_of(info), positive=True) for item in value)
        return length, width
    side = read_length(value, unit_of(info), positive=True)
    return side, side


def _laid_line(value: object, info: ValidationInfo) -> str | tuple[str | tuple[float, float], ...]:
    if isinstance(value, str):
        return _name(value)
    if isinstance(value, list | tuple) and len(value) == 2:
        return tuple(_point(item, info) for item in value)
    raise FieldError("job-type", "a control line or two points", 'write line = "first line" or [[0, 900], [3000, 900]]')


def _least_piece(value: object, info: ValidationInfo) -> str | float:
    if isinstance(value, str) and value in SHARES:
        return value
    try:
        return read_length(value, unit_of(info))
    except FieldError:
        raise FieldError("job-choice", "half, third, fifth or a length", 'write "half"') from None


def _turn(value: object) -> str | float:
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if number and -360 <= value <= 360:  # type: ignore[operator]
        return float(value)  # type: ignore[arg-type]
    if isinstance(value, str) and value in TURNS:
        return value
    raise FieldError("job-choice", "degrees, first line, long wall or mean of walls", "write angles = [0, 45]")


AREA: Final = re.compile(r"\s*([0-9]+(?:\.[0-9]*)?|\.[0-9]+)\s*(m2|m²|sq ?m|ft2|ft²|sq ?ft)\s*")


def _area(value: object, info: ValidationInfo) -> float:
    imperial = is_imperial(unit_of(info))
    remedy = 'write 20 or "20 sq ft"' if imperial else 'write 2 or "2 m2"'
    in_feet, number = imperial, value
    if isinstance(value, str) and (written := AREA.fullmatch(value)) is not None:
        number, in_feet = float(written[1]), "f" in written[2]
    if isinstance(number, bool) or not isinstance(number, int | float):
        raise FieldError("job-area", "an area", remedy)
    if not LEAST_AREA <= number <= MOST_AREA:
        raise FieldError("job-area", f"an area from {LEAST_AREA} to {MOST_AREA}", remedy)
    return number * (SQUARE_FOOT if in_feet else SQUARE_METRE)


def style_for(unit: str, rounding: float) -> LengthStyle:
    """Returns how lengths print in a file of that unit, rounded to so many mm."""
    system = IMPERIAL if is_imperial(unit) else METRIC
    whole = system.step_mm / system.step
    return LengthStyle(system.system, (Fraction(rounding) / whole).limit_denominator(64))


def _rounding(value: object, info: ValidationInfo) -> float:
    imperial = is_imperial(info.data.get("units", unit_of(info)))
    allowed = (FOOT / 12 / 16, FOOT / 12 / 32) if imperial else (Fraction(1), Fraction(1, 2))
    expected = "1/16in or 1/32in" if imperial else "1 or 0.5 mm"
    # A bare number of the step is in the unit that lengths print in: inches in a file in feet, mm in a file in metres.
    rounding = read_length(value, "in" if imperial else "mm")
    if rounding not in [float(step) for step in allowed]:
        raise FieldError("job-choice", expected, 'write rounding = "1/16in"' if imperial else "write rounding = 0.5")
    return rounding


def _fraction_text(fraction: Fraction) -> str:
    return str(fraction)


Written: TypeAlias = float | str
"""A length as the file holds it: a bare number in the file's `units`, or a text with its own unit."""

Length = Annotated[float, BeforeValidator(_length(), json_schema_input_type=Written)]
"""mm, 0 or more."""

Measure = Annotated[float, BeforeValidator(_length(positive=True), json_schema_input_type=Written)]
"""mm, over 0."""

Coordinate = Annotated[float, BeforeValidator(_length(signed=True), json_schema_input_type=Written)]
"""mm, may be under 0."""

Readings = Annotated[tuple[float, ...], BeforeValidator(_readings, json_schema_input_type=Written | list[Written])]
"""mm, each over 0; one or several of the same distance."""

Rounding = Annotated[float, BeforeValidator(_rounding, json_schema_input_type=Written)]
"""mm."""

Name = Annotated[str, BeforeValidator(_name, json_schema_input_type=str)]
CornerName = Annotated[str, BeforeValidator(corner_name, json_schema_input_type=str)]
FileName = Annotated[str, BeforeValidator(file_name, json_schema_input_type=str)]
"""Relative to the folder of the job file, and never out of it."""
Pair = Annotated[str, BeforeValidator(_pair, json_schema_input_type=str)]
CornersInLine = Annotated[
    tuple[CornerName, CornerName, CornerName],
    BeforeValidator(_exactly(3, "one end, the point and the other end", 'write points = ["A", "P", "B"]')),
]
TwoPoints = Annotated[
    tuple[CornerName, CornerName], BeforeValidator(_exactly(2, "two points", 'write it as ["A", "B"]'))
]
TwoRooms = Annotated[tuple[Name, Name], BeforeValidator(_exactly(2, "two rooms", 'write rooms = ["lounge", "hall"]'))]
TwoOpenings = Annotated[
    tuple[Name, Name],
    BeforeValidator(_exactly(2, "an opening of each room", 'write openings = ["hall side", "lounge side"]')),
]
TwoEnds = Annotated[tuple[Name, Name], BeforeValidator(_exactly(2, "two ends", 'write between = ["E1", "E2"]'))]
TwoWalls = Annotated[tuple[Name, Name], BeforeValidator(_exactly(2, "two walls", 'write walls = ["S", "N"]'))]
Note = Annotated[str, BeforeValidator(_note, json_schema_input_type=str)]
Date = Annotated[dt.date | None, BeforeValidator(_date, json_schema_input_type=dt.date)]
Bond = Annotated[
    Fraction, BeforeValidator(_bond, json_schema_input_type=Written), PlainSerializer(_fraction_text, return_type=str)
]
Sides = Annotated[
    tuple[float, float],
    BeforeValidator(
        _sides, json_schema_input_type=Written | Annotated[list[Written], Field(min_length=2, max_length=2)]
    ),
]
LaidLine = Annotated[
    str | tuple[str | tuple[float, float], str | tuple[float, float]],
    BeforeValidator(_laid_line, json_schema_input_type=str | list[str | tuple[Written, Written]]),
]
"""The name of a control line, or two points."""
Point = Annotated[
    str | tuple[float, float], BeforeValidator(_point, json_schema_input_type=str | tuple[Written, Written])
]
Area = Annotated[float, BeforeValidator(_area, json_schema_input_type=Written)]
"""mm2, over 0; written in m2, in a file in feet or inches in square feet, or as a text with its own unit."""

LeastPiece = Annotated[
    Literal["half", "third", "fifth"] | float, BeforeValidator(_least_piece, json_schema_input_type=Written)
]
Turn = Annotated[
    Literal["first line", "long wall", "mean of walls"] | float, BeforeValidator(_turn, json_schema_input_type=Written)
]
"""Degrees, or a direction by its name."""
Count = Annotated[int, Field(strict=True, ge=0, le=1_000_000)]
Positive = Annotated[int, Field(strict=True, ge=1, le=1_000_000)]
Times = Annotated[int, Field(strict=True, ge=1, le=100)]
Angle = Annotated[float, Field(strict=True, ge=-360, le=360, allow_inf_nan=False)]
InnerAngle = Annotated[float, Field(strict=True, gt=0, lt=360, allow_inf_nan=False)]
"""Degrees."""
Celsius = Annotated[float, Field(strict=True, ge=-30, le=60, allow_inf_nan=False)]
"""Degrees C in which a tape is read."""
WholeAngle = Annotated[float, Field(strict=True, ge=1, le=360, allow_inf_nan=False)]
"""Degrees."""
Degrees = Annotated[float, Field(strict=True, gt=0, le=45, allow_inf_nan=False)]
FlatAngle = Annotated[float, Field(strict=True, gt=0, lt=180, allow_inf_nan=False)]
"""Degrees."""
Share = Annotated[float, Field(strict=True, ge=0, lt=1, allow_inf_nan=False)]
LaserError = Annotated[float, Field(strict=True, ge=0, le=20, allow_inf_nan=False)]
"""mm per m."""
Flag = Annotated[bool, Field(strict=True)]
