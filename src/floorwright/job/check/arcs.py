"""What cannot be so in what was booked of walls that are arcs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from floorwright.findings import Severity
from floorwright.job.inputs.walls import own_name, walls_of
from floorwright.job.read.misfit import quoted, value_at
from floorwright.job.read.problem import UNTOLD, Problem

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.job.check.reference import Known
    from floorwright.job.model import ArcWall, Job
    from floorwright.job.read.positions import Path


FIGURES: Final = ("rise", "radius", "points")
"""Keys of which an arc needs one."""


def check_arcs(job: Job, points: Known, walls: Known, original: dict[str, Any]) -> Iterator[Problem]:
    """Yields what is wrong with the arcs of a job.

    Args:
        job: what is left of it.
        points: that may be named.
        walls: likewise.
        original: the tables of the file, with what was left out.
    """
    booked = value_at(original, ("survey", "arcs"))
    bare = isinstance(booked, list) and any(not set(FIGURES) & set(one) for one in booked if isinstance(one, dict))
    taken: set[str] = set()
    for i, arc in enumerate(job.survey.arcs):
        path: Path = ("survey", "arcs", i)
        yield from walls.check((*path, "wall"), arc.wall, path)
        for place, name in enumerate(arc.points):
            yield from points.check((*path, "points", place), name, path)
        wall = own_name(job, arc.wall)
        if wall is None:
            continue
        if wall in taken:
            yield Problem(
                path=(*path, "wall"),
                code="job-wall",
                found=f"a second arc for wall {wall}",
                expected="one for each wall",
                remedy="book all its readings in one; put a corner where two arcs meet",
                drop=path,
            )
            continue
        taken.add(wall)
        yield from _readings(path, arc, walls_of(job)[wall], is_told=not bare)


def _readings(path: Path, arc: ArcWall, corners: tuple[str, str], *, is_told: bool) -> Iterator[Problem]:
    """Says of one arc what is wrong; is_told: whether a figure that is missing was left out as one that cannot be."""
    if not (arc.rise or arc.radius or arc.points):
        yield Problem(
            path=path,
            code=UNTOLD if is_told else "job-missing-key",
            found="no `rise`, no `radius` and no `points`",
            expected="one of them: without it nobody knows how far the wall bows",
            remedy="write rise = ..., how far it is off a string between its corners at the most",
            drop=path,
        )
    for place, name in enumerate(arc.points):
        if name in corners or name in arc.points[:place]:
            at = "is a corner of this wall" if name in corners else "comes twice"
            yield Problem(
                path=(*path, "points", place),
                code="job-distance",
                found=f"{quoted(name)}, which {at}",
                expected="points between the corners of the wall, each once",
                remedy="take it out",
                drop=path,
            )
            break
    if arc.over_half and not arc.radius:
        yield Problem(
            path=(*path, "over_half"),
            code="job-unused",
            found="`over_half` without a `radius`",
            expected="a key that does something here",
            remedy="take it out: a rise over half the chord says so by itself",
            severity=Severity.WARNING,
        )
