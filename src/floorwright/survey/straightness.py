"""How far a wall is out of straight, where points along it were read from a string between its ends."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from floorwright.findings import Finding, Severity
from floorwright.geometry.measure import distance, offset_from_line
from floorwright.survey.adjustment import Adjustment
from floorwright.survey.outline import Run
from floorwright.units import LengthStyle

NOTICED: Final = 1.0
"""mm. Our default: a wall that strays less from its string is straight to anyone who lays along it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Straightness:
    """How far one wall strays from the string between its ends.

    Attributes:
        start, end: corners that the string runs between, anticlockwise.
        at: the point that strays furthest.
        out: mm that it lies into the room; under 0 behind the string.
        over: mm, length of the string.
    """

    start: str
    end: str
    at: str
    out: float
    over: float


def straightness(runs: Sequence[Run], adjustment: Adjustment) -> tuple[Straightness, ...]:
    """Returns how far each run of corners strays from the line between its ends, as adjusted."""
    place = dict(zip(adjustment.points, adjustment.xy, strict=True))
    found = []
    for run in runs:
        ends = place[run.start], place[run.end]
        outs = offset_from_line([place[name] for name in run.between], *ends)
        furthest = int(np.argmax(np.round(np.abs(outs), 6)))
        found.append(
            Straightness(
                start=run.start, end=run.end, at=run.between[furthest], out=float(outs[furthest]), over=distance(*ends)
            )
        )  # fmt: skip
    return tuple(found)


def straightness_findings(walls: Sequence[Straightness], style: LengthStyle) -> Iterator[Finding]:
    """Yields how far each wall is out of straight over its length, where anyone would notice."""
    for wall in walls:
        if abs(wall.out) > NOTICED:
            way = "bows into the room" if wall.out > 0 else "bows out"
            yield Finding(
                code="survey-out-of-straight",
                severity=Severity.NOTE,
                place=f"wall {wall.start}-{wall.end}",
                found=f"the wall from {wall.start} to {wall.end} {way}: out of straight by {style.text(abs(wall.out))} "
                f"over {style.text(wall.over)}, most at {wall.at}",
                remedy="nothing to do: it is laid to as a wall from point to point",
            )
