"""Bare numbers that can hardly be meant in the file's unit: `3.6` for a wall in a file in millimetres."""

from collections.abc import Iterator
from typing import Any, Final

from floorwright.findings import Severity
from floorwright.job.read.misfit import shown, value_at
from floorwright.job.read.positions import Path
from floorwright.job.read.problem import Problem, listed
from floorwright.units import MM_IN

LEAST: Final[dict[tuple[str, str], float]] = {
    ("openings", "width"): 100.0,
    ("goods", "length"): 5.0,
    ("goods", "width"): 5.0,
    ("control", "compass"): 100.0,
    ("control", "tape"): 300.0,
}
"""mm. What is measured there is never less (common practice, no source)."""

LEAST_DISTANCE: Final = 50.0
"""mm. Nobody tapes a wall or a diagonal of less (common practice, no source)."""

MOST_DISTANCE: Final = 100_000.0
"""mm. No tape reaches so far (common practice, no source)."""


_OTHERS: Final = {
    "mm": ("m", "cm"),
    "cm": ("m", "mm"),
    "m": ("mm", "cm"),
    "in": ("ft", "mm"),
    "ft": ("in", "mm"),
}
"""The units that a person may have had in mind instead, likeliest first."""


def doubts(data: dict[str, Any]) -> Iterator[Problem]:
    """Yields a question for each bare number that can hardly be in the file's unit.

    Args:
        data: the tables of a file, of which nothing else is wrong.
    """
    unit = data.get("units", "mm")
    for pair, reading in (value_at(data, ("survey", "distances")) or {}).items():
        for value in reading if isinstance(reading, list) else [reading]:
            yield from _doubt(("survey", "distances", pair), value, unit, LEAST_DISTANCE, MOST_DISTANCE)
    for (table, key), least in LEAST.items():
        held = data.get(table, ())
        for i, one in enumerate(held if isinstance(held, list) else [held]):
            path: Path = (table, i, key) if isinstance(held, list) else (table, key)
            if key in one:
                yield from _doubt(path, one[key], unit, least, MOST_DISTANCE)


def _doubt(path: Path, value: object, unit: str, least: float, most: float) -> Iterator[Problem]:
    if not isinstance(value, int | float):
        return
    figure = shown(value)
    mm = value * float(MM_IN[unit])
    # Nought is no slip of the unit: where it may stand it says that there is none, and elsewhere it is an error.
    if value == 0 or least <= mm <= most:
        return
    others = [f'"{figure} {other}"' for other in _OTHERS[unit] if least <= value * float(MM_IN[other]) <= most]
    meant = f"write {listed(others)}; if" if others else "if"
    yield Problem(
        path=path,
        code="job-doubt",
        found=f"{figure} {unit}?",
        expected=f"a length that is likelier here: a bare number is {unit} in this file",
        remedy=f'{meant} it is right, write "{figure} {unit}"',
        severity=Severity.WARNING,
    )
