"""What cannot be so in the control of a job: keys that a choice needs, names of nothing."""

from collections.abc import Iterator
from typing import Any, Final

from floorwright.job.check.needs import Needs, needed
from floorwright.job.check.reference import Known, is_nameless, names_in, names_of_their_own
from floorwright.job.inputs.walls import corners_of
from floorwright.job.model import Centre, FirstLine, Job
from floorwright.job.read.positions import Path
from floorwright.job.read.problem import Problem

FIRST_LINE_NEEDS: Final[Needs] = {
    "mid-points": ("walls",),
    "opening": ("opening",),
    "points": ("from", "to"),
    "mean": ("walls",),
    "sight": ("opening",),
    "slab joint": ("slab_joint",),
}
FIRST_LINE_MAY: Final[Needs] = {**FIRST_LINE_NEEDS, "parallel": ("wall",)}
CENTRE_NEEDS: Final[Needs] = {"opening": ("opening",), "point": ("x", "y")}
CENTRE_MAY: Final[Needs] = {**CENTRE_NEEDS, "mid-point": ("wall",), "visual": ("opening",)}


def check_control(job: Job, original: dict[str, Any], walls: Known, openings: Known) -> Iterator[Problem]:
    """Yields what cannot be so in the control of a job, and in the slab joints that its first line may run along.

    Args:
        job: what is left of it.
        original: the tables of the file, with what was left out.
        walls, openings: of the room.
    """
    corners = Known(
        code="job-unknown-corner", what="a corner", names=corners_of(job), all_left_out=not job.survey.outline
    )
    yield from names_of_their_own("slab_joints", [joint.name for joint in job.slab_joints])
    for i, joint in enumerate(job.slab_joints):
        for key, point in (("from", joint.start), ("to", joint.to)):
            if isinstance(point, str):
                yield from corners.check(("slab_joints", i, key), point, ("slab_joints", i))
    yield from _first_line(job, original, corners, walls, openings)
    centre, path = job.control.centre, ("control", "centre")
    yield from needed(path, centre, centre.by, CENTRE_NEEDS, CENTRE_MAY)
    yield from _line_or_centre(path, centre, walls, openings)


def _first_line(job: Job, original: dict[str, Any], corners: Known, walls: Known, openings: Known) -> Iterator[Problem]:
    line, path = job.control.first_line, ("control", "first_line")
    yield from needed(path, line, line.by, FIRST_LINE_NEEDS, FIRST_LINE_MAY)
    for i, wall in enumerate(line.walls or ()):
        yield from walls.check((*path, "walls", i), wall, path)
    for key, point in (("from", line.start), ("to", line.to)):
        if isinstance(point, str):
            yield from corners.check((*path, key), point, path)
    if line.slab_joint is not None:
        joints = Known(
            code="job-unknown-slab-joint",
            what="a slab joint",
            names=[joint.name for joint in job.slab_joints],
            left_out=names_in(original, "slab_joints"),
            all_left_out=is_nameless(original, "slab_joints"),
        )
        yield from joints.check((*path, "slab_joint"), line.slab_joint, path)
    yield from _line_or_centre(path, line, walls, openings)


def _line_or_centre(path: Path, chosen: FirstLine | Centre, walls: Known, openings: Known) -> Iterator[Problem]:
    if chosen.wall is not None:
        yield from walls.check((*path, "wall"), chosen.wall, path)
    if chosen.opening is not None:
        yield from openings.check((*path, "opening"), chosen.opening, path)
