"""The bay that exercises stand in, as a job like any other, and what `solve` makes of it."""

from math import dist
from typing import Any, Final

from floorwright.errors import FloorwrightError
from floorwright.job.model import Job
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.units import IMPERIAL, METRIC, LengthStyle

PAPER_SCALE: Final = {"mm": 25.0, "in": 24.0}
"""1:25, which the trade uses, or half an inch to the foot."""

STYLES: Final = {"mm": METRIC, "in": IMPERIAL}

Corners = dict[str, tuple[float, float]]


def style_of(units: str) -> LengthStyle:
    """Returns how lengths print: to half a mm, or to a sixteenth."""
    return STYLES[units]


def rectangle(length: float, width: float) -> Corners:
    """Returns the corners of a bay with square corners, anticlockwise from the near left one, mm."""
    return {"A": (0.0, 0.0), "B": (length, 0.0), "C": (length, width), "D": (0.0, width)}


def readings(corners: Corners, pairs: tuple[str, ...]) -> dict[str, str]:
    """Returns what a tape reads between pairs of corners such as `A-B`, each with its unit, exactly."""
    found = {}
    for pair in pairs:
        start, end = pair.split("-")
        found[pair] = f"{dist(corners[start], corners[end]):.4f} mm"
    return found


def all_pairs(corners: Corners) -> tuple[str, ...]:
    """Returns walls in order, then every distance across."""
    names = list(corners)
    walls = [f"{a}-{b}" for a, b in zip(names, [*names[1:], names[0]], strict=True)]
    across = [
        f"{a}-{b}" for i, a in enumerate(names) for b in names[i + 1 :] if {f"{a}-{b}", f"{b}-{a}"}.isdisjoint(walls)
    ]
    return (*walls, *across)


def solved(units: str, corners: Corners, tables: dict[str, Any], distances: dict[str, str] | None = None) -> Solution:
    """Returns what `solve` makes of a bay.

    Args:
        units: `mm` or `in`.
        corners: of the bay.
        tables: of the job file, beside the survey.
        distances: as booked; every one as it is where none are given.
    """
    data = {
        "units": units,
        "survey": {
            "outline": list(corners),
            "distances": distances or readings(corners, all_pairs(corners)),
            "tape": {"class": "EU II" if units == "mm" else "US metal"},
        },
        **tables,
    }
    return solve(Job.model_validate(data, context={"unit": units}))


def sound(solution: Solution) -> Solution:
    """Returns a solution that must have come as far as its control lines: an exercise of ours is sound or a fault."""
    if solution.control is None:
        raise FloorwrightError("a bay for practice that cannot be set out")
    return solution
