"""What cannot be so in the scoring of a slab: joints of no length, a blade too small, limits
turned round."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.job.check.cells import check_cells
from floorwright.job.check.needs import unused
from floorwright.job.check.reference import Known
from floorwright.job.check.scored_zones import check_scored_zones
from floorwright.job.inputs.walls import corners_of
from floorwright.job.read.misfit import quoted
from floorwright.job.read.problem import Problem
from floorwright.tolerance import TOUCH

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.job.model import Job
    from floorwright.job.model.scoring import ScoredCircle, Scoring
    from floorwright.job.read.positions import Path

PATH: Path = ("scoring",)


def check_scoring(job: Job, walls: Known) -> Iterator[Problem]:
    """Yields what cannot be so in the slab and its scoring.

    Args:
        job: what is left of it.
        walls: the names known.
    """
    thickness = job.slab.thickness
    for i, joint in enumerate(job.slab_joints):
        own = [key for key in ("depth", "sawn") if getattr(joint, key) is not None]
        if own and joint.kind != "contraction":
            for key in own:
                yield unused(("slab_joints", i, key), f"`{key}` of a joint of kind {quoted(joint.kind)}")
        elif joint.depth is not None and thickness is not None and joint.depth >= thickness:
            yield _over(("slab_joints", i, "depth"), joint.depth, "the slab's `thickness`", thickness, job)
        if not isinstance(joint.start, str) and joint.start == joint.to:
            yield Problem(
                path=("slab_joints", i, "to"),
                code="job-range",
                found="a joint of no length",
                expected="two points apart",
                remedy="write where its other end is",
                drop=("slab_joints", i),
            )
    asked = job.scoring
    if asked is None:
        return
    yield from check_cells(job, asked, PATH)
    yield from _figures(job, asked, thickness)
    corners = Known(
        code="job-unknown-corner", what="a corner", names=corners_of(job), all_left_out=not job.survey.outline
    )
    yield from check_scored_zones(job, asked, PATH, walls, corners)
    for i, circle in enumerate(asked.circles):
        yield from _rings(job, circle, (*PATH, "circles", i))
        if isinstance(circle.centre, str):
            yield from corners.check((*PATH, "circles", i, "centre"), circle.centre, PATH)


def _figures(job: Job, asked: Scoring, thickness: float | None) -> Iterator[Problem]:
    if asked.depth >= asked.blade / 2:
        yield _over((*PATH, "depth"), asked.depth, "half the `blade`", asked.blade / 2, job)
    elif thickness is not None and asked.depth >= thickness:
        yield _over((*PATH, "depth"), asked.depth, "the slab's `thickness`", thickness, job)
    if asked.border_most < asked.border_least:
        yield Problem(
            path=(*PATH, "border_most"),
            code="job-range",
            found=job.style.entered_text(asked.border_most, unit=True),
            expected=f"no less than `border_least`, {job.style.entered_text(asked.border_least, unit=True)}",
            remedy="write the greater figure as border_most",
            drop=(*PATH, "border_most"),
        )
    sheet = asked.stencil
    if sheet is not None and sheet.overlap >= min(sheet.width, sheet.length):
        path = (*PATH, "stencil", "overlap")
        yield _over(path, sheet.overlap, "a sheet's smaller side", min(sheet.width, sheet.length), job)
    if len(set(asked.colours)) < len(asked.colours):
        yield Problem(
            path=(*PATH, "colours"),
            code="job-same-name",
            found="a colour that stands twice",
            expected="colours that differ",
            remedy="take one of them out, or write another",
            drop=(*PATH, "colours"),
        )


def _rings(job: Job, circle: ScoredCircle, path: Path) -> Iterator[Problem]:
    deep = sum(ring.depth for ring in circle.rings)
    if deep > circle.diameter / 2 + TOUCH:
        yield Problem(
            path=(*path, "rings"),
            code="job-range",
            found=f"rings {job.style.entered_text(deep, unit=True)} deep together",
            expected=f"no more than the radius, {job.style.entered_text(circle.diameter / 2, unit=True)}",
            remedy="make them narrower, or the circle larger",
            drop=PATH,
        )
    elif circle.rings and not circle.plain:
        yield unused((*path, "rings"), "`rings` of a circle that lines run through")


def _over(path: Path, found: float, than: str, most: float, job: Job) -> Problem:
    return Problem(
        path=path,
        code="job-range",
        found=job.style.entered_text(found, unit=True),
        expected=f"less than {than}, {job.style.entered_text(most, unit=True)}",
        remedy="look at the unit, and measure again",
        drop=path if path[0] == "slab_joints" else PATH,
    )
