"""What cannot be so in the walls that may move."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.job.inputs.walls import own_name
from floorwright.job.read.misfit import quoted
from floorwright.job.read.problem import Problem

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.job.check.reference import Known
    from floorwright.job.model import Job
    from floorwright.job.read.positions import Path


def check_free(job: Job, walls: Known) -> Iterator[Problem]:
    """Yields what is wrong with the walls that may move: one unknown, named twice, or free to move nowhere."""
    seen: set[str | None] = set()
    for i, edge in enumerate(job.free):
        path: Path = ("free", i)
        unknown = list(walls.check((*path, "wall"), edge.wall, path))
        yield from unknown
        if unknown:
            continue
        name = own_name(job, edge.wall)
        if name in seen:
            yield Problem(
                path=(*path, "wall"),
                code="job-same-name",
                found=f"{quoted(edge.wall)} a second time",
                expected="each wall that may move once",
                remedy="write how far it may move, out and in, in one place",
                drop=path,
            )
        elif edge.out + edge.inward <= 0:
            yield Problem(
                path=(*path, "out"),
                code="job-missing-key",
                found="neither `out` nor `in`",
                expected="how far the wall may move",
                remedy="add out = 100, or in = 100, or both",
                drop=path,
            )
        seen.add(name)
