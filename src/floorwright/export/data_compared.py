"""First lines side by side as data."""

from __future__ import annotations

from math import degrees
from typing import TYPE_CHECKING

from floorwright.export.data import Data, findings_data, number, result
from floorwright.job.compare import compare
from floorwright.layout.quick import SEARCHED

if TYPE_CHECKING:
    from floorwright.job.compare import Scored
    from floorwright.job.solution import Solution


def compared_data(solution: Solution) -> Data:
    """Returns every first line and centre that the room offers, best first, as `candidates[]`."""
    comparison = compare(solution)
    if comparison is None:
        return result(solution, zone="", searched="", candidates=[], cost=[])
    return result(
        solution,
        zone=comparison.zone,
        searched=SEARCHED,
        candidates=[_candidate(rank, one) for rank, one in enumerate(comparison.candidates, start=1)],
        cost=findings_data(comparison.findings),
    )


def _candidate(rank: int, one: Scored) -> Data:
    option = one.option
    return {
        "rank": rank,
        "name": one.name,
        "also": list(one.others),
        "yours": one.yours,
        "how": one.how,
        "angle_deg": number(degrees(one.angle)),
        "centre": {"x_mm": number(one.centre[0]), "y_mm": number(one.centre[1])},
        "position": option.name,
        "joint_mm": number(option.joint),
        "narrowest_mm": number(option.worst),
        "under_limit": option.under,
        "limit_mm": number(one.limit),
        "counts": {"full": option.full, "cut": option.cut},
        "refused": option.refused,
        "walls": [
            {"name": cut.wall, "thin_mm": number(cut.thin), "fat_mm": number(cut.fat), "fits": cut.fits}
            for cut in option.walls
        ],
        "drift_mm": number(one.drift),
        "findings": findings_data(one.findings),
        "reason": one.reason,
    }
