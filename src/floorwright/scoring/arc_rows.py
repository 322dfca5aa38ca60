"""Arcs of a pattern by rows of pivots, as they are marked: one setting of the arm, and pivots along a line."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from floorwright.geometry.region import Points
from floorwright.pattern.cell import Placement
from floorwright.scoring.lines import Stop
from floorwright.scoring.swings import Swing
from floorwright.tolerance import TOUCH

ROW: Final = 0.1
"""mm: pivots that lie as far from the nail to this are in one row; rows of a pattern are far wider apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcRow:
    """Arcs of one radius whose pivots lie on a line.

    Attributes:
        number: from 1, in the order in which rows are cut.
        radius: mm.
        running: mm from the nail, square to the line of pivots.
        along: mm from the nail along that line to each pivot, by turns, the least first.
        swings: the arcs; some pivots have several where a border or a circle divides them.
        stops: ends at which the saw must stop.
    """

    number: int
    radius: float
    running: float
    along: tuple[float, ...]
    swings: tuple[Swing, ...]
    stops: int

    @property
    def spacing(self) -> float | None:
        """mm from pivot to pivot, or of a row with gaps the least that all of them are whole times apart; None where
        they are not so spaced, or there is only one."""
        steps = np.diff(self.along)
        if not len(steps):
            return None
        least = float(steps.min())
        return least if bool(np.all(np.abs(steps - least * np.round(steps / least)) <= 2 * TOUCH)) else None

    @property
    def has_gaps(self) -> bool:
        """Whether pivots of an evenly spaced row are left out, as a circle leaves them."""
        return self.spacing is not None and float(np.ptp(np.diff(self.along))) > 2 * TOUCH


def arc_rows(
    swings: Sequence[Swing],
    stops: Sequence[tuple[Stop, ...]],
    placement: Placement,
    nail: Points,
) -> tuple[ArcRow, ...]:
    """Returns arcs by rows along their pattern's own, its lowest row first: each next one's arcs end on those before.

    Args:
        swings: on the floor.
        stops: of each.
        placement: of the pattern on the floor.
        nail: (2,) floor mm.
    """
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    turn = np.array([[cos, -sin], [sin, cos]])
    rows: dict[tuple[int, int], list[int]] = {}
    pivots = np.array([swing.pivot for swing in swings]).reshape(-1, 2)
    local = (pivots - nail) @ turn
    for number, (swing, (_, v)) in enumerate(zip(swings, local, strict=True)):
        rows.setdefault((round(float(v) / ROW), round(swing.radius / ROW)), []).append(number)
    found = []
    for number, key in enumerate(sorted(rows), start=1):
        members = rows[key]
        along = np.sort(np.unique(np.round(local[members, 0] / TOUCH)) * TOUCH)
        found.append(
            ArcRow(
                number=number,
                radius=swings[members[0]].radius,
                running=abs(float(local[members, 1].mean())),
                along=tuple(along.tolist()),
                swings=tuple(swings[one] for one in members),
                stops=sum(len(stops[one]) for one in members),
            )
        )
    return tuple(found)
