"""Forces and weights of the job file: text with a unit, since no unit of length stands for them."""

import re
from collections.abc import Mapping
from typing import Annotated, Final

from pydantic import BeforeValidator

from floorwright.job.model.values import FieldError
from floorwright.units import FOOT, INCH

POUND: Final = 0.45359237
"""kg (international avoirdupois pound, 1959)."""

GRAVITY: Final = 9.80665
"""m/s2 (3rd CGPM, 1901)."""

NEWTONS: Final[Mapping[str, float]] = {"N": 1.0, "kg": GRAVITY, "lb": POUND * GRAVITY}
KG_A_MM: Final[Mapping[str, float]] = {
    "g/m": 1e-6,
    "kg/m": 1e-3,
    "oz/ft": POUND / 16 / float(FOOT),
    "lb/ft": POUND / float(FOOT),
}
SQUARE_MM: Final[Mapping[str, float]] = {"mm2": 1.0, "sq mm": 1.0, "in2": float(INCH) ** 2, "sq in": float(INCH) ** 2}

WRITTEN: Final = re.compile(r"\s*([0-9]+(?:\.[0-9]*)?|\.[0-9]+)\s*([A-Za-z].*?)\s*")


def amount(text: str, units: Mapping[str, float]) -> float:
    """Returns what a text such as `15 lb` is worth in the first of the units; 0 where it is none."""
    written = WRITTEN.fullmatch(text.replace("²", "2"))
    return float(written[1]) * units.get(written[2], 0.0) if written else 0.0


def _reader(units: Mapping[str, float], what: str, example: str) -> BeforeValidator:
    def read(value: object) -> str:
        if not isinstance(value, str) or amount(value, units) <= 0.0:
            expected = f"{what} over 0 with its unit in quotes: {', '.join(units)}"
            raise FieldError("job-amount", expected, f'write "{example}"')
        return value.strip()

    return BeforeValidator(read, json_schema_input_type=str)


Force = Annotated[str, _reader(NEWTONS, "a pull", "50 N")]
"""How hard a tape is pulled, as written: `50 N`, `5 kg`, `12 lb`."""

WeightALength = Annotated[str, _reader(KG_A_MM, "a weight for a length", "16 g/m")]
"""What a length of tape weighs, as written: `16 g/m`, `0.17 oz/ft`."""

Section = Annotated[str, _reader(SQUARE_MM, "a section", "2.5 mm2")]
"""Width by thickness of a blade, as written: `2.5 mm2`, `0.004 sq in`."""
