"""What cannot be so in a list of aims: keys that do not go together, walls and lines that are none."""

from collections.abc import Iterator
from typing import Final

from floorwright.job.check.needs import Needs, needed
from floorwright.job.check.reference import Known
from floorwright.job.inputs.walls import own_name
from floorwright.job.model import Aim, Job
from floorwright.job.read.positions import Path
from floorwright.job.read.problem import Problem
from floorwright.layout.aims import (
    AT_WALLS,
    BALANCED_CUTS,
    COUNTS,
    FIRM,
    FULL_TILE,
    JOINT_AS_ASKED,
    JOINT_ON,
    LEAST_SMALL_EDGE,
    LEAST_TAPER,
    LIMITED,
    LINED_UP,
    NO_THIN_TRIM,
    TILE_ON,
    WIDEST,
)

AIM_NEEDS: Final[Needs] = {FULL_TILE: ("walls",), JOINT_ON: ("on",), TILE_ON: ("on",)}
WITHIN: Final = frozenset({WIDEST, LEAST_SMALL_EDGE, BALANCED_CUTS, FULL_TILE, JOINT_ON, TILE_ON, LEAST_TAPER})
"""Aims with a figure in mm of which a part may be given away."""


def _may(aim: str) -> tuple[str, ...]:
    """Returns the keys that do something beside an aim."""
    return (
        *(("under",) if aim in LIMITED else ()),
        *(("at_most", "within_count") if aim in COUNTS - {NO_THIN_TRIM} else ()),
        *(("within",) if aim in WITHIN else ()),
        *(("walls",) if aim in AT_WALLS | {BALANCED_CUTS, FULL_TILE, LEAST_TAPER} else ()),
        *(("visible",) if aim in AT_WALLS | {LEAST_TAPER} else ()),
        *(("on",) if aim in {JOINT_ON, TILE_ON} else ()),
    )


ALL: Final = (*sorted(AT_WALLS | COUNTS | WITHIN), FIRM, JOINT_AS_ASKED, LINED_UP)
AIM_MAY: Final[Needs] = {aim: _may(aim) for aim in ALL}

CONTROL_LINES: Final = ("first line", "square line")


def check_aims(job: Job, walls: Known, openings: Known) -> Iterator[Problem]:
    """Yields what cannot be so in the list of aims."""
    lines = Known(
        code="job-unknown-line",
        what="a line",
        names=[*CONTROL_LINES, *openings.names, *walls.names],
        also=walls.also,
        left_out={*openings.left_out, *walls.left_out},
        all_left_out=walls.all_left_out or openings.all_left_out,
    )
    for i, aim in enumerate(job.aims.order):
        path: Path = ("aims", "order", i)
        yield from needed(path, aim, aim.aim, AIM_NEEDS, AIM_MAY)
        for n, wall in enumerate(aim.walls):
            yield from walls.check((*path, "walls", n), wall, path)
        if aim.on is not None:
            yield from lines.check((*path, "on"), aim.on, path)
        yield from _contradiction(job, path, aim)


def _contradiction(job: Job, path: Path, aim: Aim) -> Iterator[Problem]:
    count = {BALANCED_CUTS: 2, FULL_TILE: 1}.get(aim.aim)
    if aim.walls and count is not None and len({own_name(job, wall) for wall in aim.walls}) != count:
        yield Problem(
            path=(*path, "walls"),
            code="job-size",
            found=f"a list of {len(aim.walls)}",
            expected="one wall" if count == 1 else "two walls that face each other",
            remedy='write walls = ["S"]' if count == 1 else 'write walls = ["S", "N"]',
            drop=path,
        )
    under = job.aims.least if aim.under is None else aim.under
    if aim.aim in LIMITED and under == 0:
        yield Problem(
            path=(*path, "under"),
            code="job-missing-key",
            found="no width under which a piece is small",
            expected="one, because `least_piece` is 0",
            remedy='add under = "third"',
            drop=path,
        )
