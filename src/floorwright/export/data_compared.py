"""First lines side by side as data."""

from __future__ import annotations

from math import degrees
from typing import TYPE_CHECKING

from floorwright.export.data import Data, findings_data, number, result
from floorwright.export.data_moved import drawn_data
from floorwright.job.compare import compare
from floorwright.layout.elsewhere import outlines
from floorwright.layout.quick import SEARCHED

if TYPE_CHECKING:
    from floorwright.control.choices import Centre, FirstLine
    from floorwright.job.compare import Scored
    from floorwright.job.solution import Solution

MOST_DRAWN = 900
"""Pieces of a plan as small as a stamp: more are a grey spot."""


def compared_data(solution: Solution, *, drawn: bool = False) -> Data:
    """Returns every first line and centre that the room offers, best first, as `candidates[]`.

    Args:
        solution: solved.
        drawn: whether each has its pieces with it, to be drawn small: None where it cannot be laid, or has too many.
    """
    comparison = compare(solution)
    if comparison is None:
        return result(solution, zone="", searched="", candidates=[], cost=[])
    candidates = [_candidate(rank, one) for rank, one in enumerate(comparison.candidates, start=1)]
    if drawn:
        for told, one in zip(candidates, comparison.candidates, strict=True):
            told["drawn"] = _small_plan(one)
    return result(
        solution,
        zone=comparison.zone,
        searched=SEARCHED,
        candidates=candidates,
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
        "ends_mm": [[number(value) for value in end] for end in one.marks],
        "choose": None if one.yours else {"first_line": _first_line(one.first), "centre": _centre(one.at)},
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


def _small_plan(one: Scored) -> Data | None:
    option = one.option
    if option.refused or option.full + option.cut > MOST_DRAWN:
        return None
    return drawn_data(outlines(one.floor, one.cell, option.placement))


def _first_line(first: FirstLine) -> Data:
    """The choice as `[control]` has it; two points are the person's own, and stand there already."""
    named = {
        "walls": list(first.walls),
        "opening": first.opening,
        "wall": first.wall,
        "slab_joint": first.slab_joint,
    }
    return {"by": first.by, **{key: value for key, value in named.items() if value}}


def _centre(centre: Centre) -> Data:
    """The choice as `[control]` has it; a point is the person's own, and stands there already."""
    named = {"wall": centre.wall, "opening": centre.opening}
    return {"by": centre.by, **{key: value for key, value in named.items() if value}}
