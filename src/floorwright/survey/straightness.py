"""How far a wall is out of straight, where points along it were read from a string between its ends."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from floorwright.errors import FloorwrightValueError
from floorwright.findings import Finding, Severity
from floorwright.geometry.circle import fit_circle
from floorwright.geometry.measure import distance, offset_from_line
from floorwright.geometry.region import Points
from floorwright.survey.adjustment import Adjustment
from floorwright.survey.outline import Run
from floorwright.survey.remarks import listed
from floorwright.units import LengthStyle

NOTICED: Final = 1.0
"""mm. Our default: a wall that strays less from its string is straight to anyone who lays along it."""

SMALL_PART: Final = 0.1
"""Our default: an arc that leaves less than this of a bow is the better way to say it."""

FEWEST: Final = 4
"""Points that tell whether an arc fits: through three there always is one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Straightness:
    """How far one wall strays from the string between its ends.

    Attributes:
        start, end: corners that the string runs between, anticlockwise.
        at: the point that strays furthest.
        out: mm that it lies into the room; under 0 behind the string.
        over: mm, length of the string.
        between: the points that were read, in order.
        radius: mm, of the circle that fits the ends and the points best; None where fewer than two points were read, or
            all lie in line.
        off_circle: mm, how far ends and points lie off that circle, root mean square; 0 without one.
        off_string: mm, likewise off the string.
    """

    start: str
    end: str
    at: str
    out: float
    over: float
    between: tuple[str, ...] = ()
    radius: float | None = None
    off_circle: float = 0.0
    off_string: float = 0.0

    @property
    def is_arc(self) -> bool:
        """Whether the circle fits as well as the points are known, or leaves a small part of the bow."""
        if self.radius is None or self.radius < self.over / 2.0:
            return False
        return self.off_circle <= max(NOTICED, SMALL_PART * self.off_string)


def straightness(runs: Sequence[Run], adjustment: Adjustment) -> tuple[Straightness, ...]:
    """Returns how far each run of corners strays from the line between its ends, as adjusted."""
    place = dict(zip(adjustment.points, adjustment.xy, strict=True))
    found = []
    for run in runs:
        ends = place[run.start], place[run.end]
        outs = offset_from_line([place[name] for name in run.between], *ends)
        furthest = int(np.argmax(np.round(np.abs(outs), 6)))
        radius, off_circle = _circle(np.array([ends[0], *(place[name] for name in run.between), ends[1]]))
        found.append(
            Straightness(
                start=run.start, end=run.end, at=run.between[furthest], out=float(outs[furthest]), over=distance(*ends),
                between=run.between, radius=radius, off_circle=off_circle, off_string=_rms(np.array([0.0, *outs, 0.0])),
            )
        )  # fmt: skip
    return tuple(found)


def _circle(points: Points) -> tuple[float | None, float]:
    """The radius of the circle that fits points best and how far they lie off it; no radius where none is told."""
    if len(points) < FEWEST:
        return None, 0.0
    try:
        centre, radius = fit_circle(points)
    except FloorwrightValueError:
        return None, 0.0
    return radius, _rms(np.hypot(*(points - centre).T) - radius)


def _rms(values: NDArray[np.float64]) -> float:
    return float(np.sqrt(np.mean(values**2)))


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
                f"over {style.text(wall.over)}, most at {wall.at}{_fit(wall, style)}",
                remedy=_remedy(wall),
            )


def _fit(wall: Straightness, style: LengthStyle) -> str:
    """What is said of the arc through the points, where there are enough of them to tell."""
    if wall.radius is None:
        return ""
    off = style.text(max(wall.off_circle, style.mm(1)))
    if wall.is_arc:
        return f"; its points lie on an arc of radius {style.text(wall.radius)} within {off}"
    return f"; the best arc leaves it {off} off, so it stays from point to point"


def _remedy(wall: Straightness) -> str:
    plain = "nothing to do: it is laid to as a wall from point to point"
    if not wall.is_arc:
        return plain
    points = ", ".join(f'"{name}"' for name in wall.between)
    return (
        f"{plain}; to lay to the arc take {listed(wall.between)} out of the outline and write [[survey.arcs]] with "
        f'wall = "{wall.start}-{wall.end}", points = [{points}]'
    )
