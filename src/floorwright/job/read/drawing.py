"""What readers of drawings and of coordinates give back, and whether a unit can be meant."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from floorwright.findings import Finding, Severity
from floorwright.job.read.problem import listed
from floorwright.units import MM_IN

SMALLEST: Final = 600.0
LARGEST: Final = 60_000.0
"""mm. No floor is set out that is less, or more, across (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnArc:
    """A side of an outline that is an arc: the points at its ends, anticlockwise, and its rise, mm, over 0 outward."""

    start: str
    end: str
    rise: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """Points in order round a room, as a file holds them.

    Attributes:
        points: name, x (east) and y (north) of each, mm; none where the file cannot be meant.
        findings: what is wrong, and what was made of it.
        arcs: sides that are arcs.
    """

    points: tuple[tuple[str, float, float], ...] = ()
    findings: tuple[Finding, ...] = ()
    arcs: tuple[DrawnArc, ...] = ()


def finding(code: str, severity: Severity, place: str, found: str, expected: str = "", remedy: str = "") -> Finding:
    """Returns a finding in a file beside the job file."""
    return Finding(
        code=code, severity=severity, place=place, found=found, expected=expected, remedy=remedy, source="geometry"
    )


def refusal(code: str, place: str, found: str, expected: str, remedy: str) -> Drawn:
    """Returns what a reader gives for a file that it refuses."""
    return Drawn(findings=(finding(code, Severity.ERROR, place, found, expected, remedy),))


def units_that_fit(across: float, least: float = SMALLEST, most: float = LARGEST) -> tuple[str, ...]:
    """Returns the units in which a figure may be a size from `least` to `most` mm: without them that of a room."""
    return tuple(unit for unit, mm in MM_IN.items() if least <= across * float(mm) <= most)


def size_text(across: float, unit: str) -> str:
    """Returns a size in metres, as a person judges a room by it."""
    return f"{across * float(MM_IN[unit]) / 1000:.3g} m"


def units_text(across: float) -> str:
    """Returns the units in which a figure may be the size of a room, with that size: `mm (4.2 m)`."""
    return listed([f"{unit} ({size_text(across, unit)})" for unit in units_that_fit(across)])
