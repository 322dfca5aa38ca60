"""What cannot be so in what was booked of a room."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any, Final

from floorwright.findings import Severity
from floorwright.job.check.arcs import check_arcs
from floorwright.job.check.reference import MOST_LISTED, Known
from floorwright.job.inputs.walls import corners_of, has_lost_rooms, own_name, rooms_of, walls_of
from floorwright.job.model.values import ends
from floorwright.job.read.misfit import quoted, value_at
from floorwright.job.read.problem import UNTOLD, Problem, did_you_mean, listed

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from floorwright.job.model import Job, Survey
    from floorwright.job.read.positions import Path

FEWEST_CORNERS: Final = 3
CORNERS_IN_ORDER: Final = 'write outline = ["SW", "SE", "NE", "NW"] with the corners in order'
TIES: Final = 2
"""Readings that fix a point which is no corner."""


def check_survey(job: Job, original: dict[str, Any]) -> Iterator[Problem]:
    """Yields what is wrong with the survey of a job.

    Args:
        job: what is left of it.
        original: the tables of the file, with what was left out.
    """
    survey, outlines = job.survey, corners_of(job)
    outline = list(_outline(survey, original))
    yield from outline
    if outline or not survey.outline:
        return
    lost = has_lost_rooms(job, original)
    points = Known(code="job-unknown-corner", what="a corner", names={*outlines, *_tie_points(job)}, all_left_out=lost)
    corners = Known(code="job-unknown-corner", what="a corner", names=outlines, all_left_out=lost)
    own = Known(code="job-unknown-corner", what="a corner", names=survey.outline)
    yield from _tape(survey)
    yield from _walls(job, corners, UNTOLD if lost else "job-wall")
    yield from _distances(job, points)
    for i, inward in enumerate(survey.inward):
        yield from own.check(("survey", "inward", i), inward, ("survey", "inward"))
    for i, square in enumerate(survey.square):
        yield from corners.check(("survey", "square", i, "corner"), square.corner, ("survey", "square", i))
    yield from _straight(survey, points)
    yield from _angles(survey, points, corners)
    yield from _offsets(job, points, original)
    yield from check_arcs(job, points, _known_walls(job, original), original)


def _outline(survey: Survey, original: dict[str, Any]) -> Iterator[Problem]:
    path: Path = ("survey", "outline")
    outline = survey.outline
    if not outline and any(value_at(original, ("survey", key)) for key in ("coordinates", "traced")):
        # What is wrong with that file is told already.
        return
    if not outline and not value_at(original, path) and isinstance(original.get("survey", {}), dict):
        yield Problem(
            path=path,
            code="job-outline",
            found="no outline",
            expected="the corners round the room",
            remedy=CORNERS_IN_ORDER,
        )
    elif outline:
        yield from outline_problems(path, outline, path)


def outline_problems(path: Path, outline: tuple[str, ...], drop: Path) -> Iterator[Problem]:
    """Yields what is wrong with the corners of one room, given at a path of the file."""
    if (twice := _first_repeat(outline)) is not None:
        yield Problem(
            path=(*path, twice),
            code="job-outline",
            found=f"{outline[twice]} a second time",
            expected="each corner once, the first not again at the end",
            remedy="take one out, or give it a name of its own",
            drop=drop,
        )
    elif len(outline) < FEWEST_CORNERS:
        yield Problem(
            path=path,
            code="job-outline",
            found=f"{len(outline)} of them",
            expected="three corners or more",
            remedy=CORNERS_IN_ORDER,
            drop=drop,
        )


def _first_repeat(names: tuple[str, ...]) -> int | None:
    return next((i for i, name in enumerate(names) if name in names[:i]), None)


def _tie_points(job: Job) -> set[str]:
    """Returns the points that are no corners but that enough readings fix, and no corner misspelt."""
    survey = job.survey
    readings = Counter(name for pair in {frozenset(ends(pair)) for pair in survey.distances} for name in pair)
    readings.update(name for line in survey.straight for name in set(line.points))
    for offset in survey.offsets:
        readings[offset.point] += 1 if offset.along is None else TIES
        readings.update(offset.line or ())
    readings.update(name for angle in survey.angles for name in {angle.corner, *(angle.between or ())})
    for name in survey.points:
        readings[name] += TIES
    corners = {corner.casefold() for corner in corners_of(job)}
    return {name for name, count in readings.items() if count >= TIES and name.casefold() not in corners}


def _tape(survey: Survey) -> Iterator[Problem]:
    if {"tape_class", "limit"} <= survey.tape.model_fields_set:
        yield Problem(
            path=("survey", "tape", "limit"),
            code="job-unused",
            found="a class and a limit of your own",
            expected="one of them",
            remedy="take out the class: the limit is used",
            severity=Severity.WARNING,
        )
    for key, other in (("reads", "true"), ("true", "reads")):
        if getattr(survey.tape, key) is not None and getattr(survey.tape, other) is None:
            yield Problem(
                path=("survey", "tape", key),
                code="job-missing-key",
                found=f"`{key}` without `{other}`",
                expected="what the tape reads over a known length, and what that length is",
                remedy=f"add {other} = ..., or take {key} out",
                drop=("survey", "tape", key),
            )
    yield from _held(survey)


def _held(survey: Survey) -> Iterator[Problem]:
    """What is missing to make anything of a tape's pull and its sag."""
    tape = survey.tape
    path: Path = ("survey", "tape")
    if tape.pull is not None and tape.section is None and not tape.hung:
        yield Problem(
            path=(*path, "pull"),
            code="job-unused",
            found="a `pull` alone",
            expected="the `section` of the tape, or the distances over which it `hung`",
            remedy='add section = "2.5 mm2" (width by thickness), or take pull out',
            severity=Severity.WARNING,
        )
    known = {frozenset(ends(pair)) for pair in survey.distances}
    for i, pair in enumerate(tape.hung):
        if frozenset(ends(pair)) not in known:
            yield Problem(
                path=(*path, "hung", i),
                code="job-unknown-distance",
                found=quoted(pair),
                expected="a distance that is booked",
                remedy=f"write {listed(list(survey.distances)[:MOST_LISTED])}",
                drop=(*path, "hung"),
            )
    for key in ("pull", "weight"):
        if tape.hung and getattr(tape, key) is None:
            yield Problem(
                path=(*path, "hung"),
                code="job-missing-key",
                found=f"`hung` without `{key}`",
                expected="how hard the tape was pulled, and what it weighs for its length",
                remedy=f"add {key} = ..., or take hung out",
                drop=(*path, "hung"),
            )


def _walls(job: Job, corners: Known, code: str) -> Iterator[Problem]:
    sides = {frozenset(wall) for wall in walls_of(job).values()}
    named: dict[frozenset[str], str] = {}
    for name, pair in job.survey.walls.items():
        path: Path = ("survey", "walls", name)
        wall = frozenset(ends(pair))
        if unknown := [problem for corner in ends(pair) for problem in corners.check(path, corner, path)]:
            yield unknown[0]
        elif wall not in sides:
            yield Problem(
                path=path,
                code=code,
                found=f"{quoted(pair)}, which are no neighbours in the outline",
                expected="the two corners of one wall",
                remedy="look at the outline's order",
                drop=path,
            )
        elif wall in named:
            yield Problem(
                path=path,
                code="job-wall",
                found=f"a second name for wall {named[wall]}",
                expected="one name for each wall",
                remedy="take one out",
                drop=path,
            )
        named.setdefault(wall, name)


def _distances(job: Job, points: Known) -> Iterator[Problem]:
    for pair in job.survey.distances:
        path: Path = ("survey", "distances", pair)
        start, end = ends(pair)
        if start == end:
            yield Problem(
                path=path,
                code="job-distance",
                found=f"a distance from {start} to itself",
                expected="two different points",
                remedy="write the point at the other end of the tape",
                drop=path,
            )
            continue
        unknown = [(name, problem) for name in (start, end) for problem in points.check(path, name, path)]
        for name, problem in unknown[:1]:
            yield _lone(problem, name, pair, corners_of(job))


def _lone(problem: Problem, name: str, pair: str, corners: Sequence[str]) -> Problem:
    """Says of a point with one reading that it may be a corner misspelt, or a point that needs another."""
    meant = "-".join(did_you_mean(end, corners) or end for end in ends(pair))
    if meant != pair:
        remedy = f"write {meant}, or book a second distance to {name}"
    else:
        remedy = f"add {name} to the outline, or book a second distance to it"
    return Problem(
        path=problem.path,
        code=problem.code,
        found=f"{quoted(name)} with this one reading alone",
        expected="a corner of the outline, or a point with two distances to it",
        remedy=remedy,
        drop=problem.drop,
    )


def _straight(survey: Survey, points: Known) -> Iterator[Problem]:
    for i, line in enumerate(survey.straight):
        path: Path = ("survey", "straight", i, "points")
        if len(set(line.points)) < len(line.points):
            yield Problem(
                path=path,
                code="job-distance",
                found="-".join(line.points),
                expected="three different points",
                remedy="write one end, the point, the other end",
                drop=path[:-1],
            )
            continue
        for place, name in enumerate(line.points):
            yield from points.check((*path, place), name, path[:-1])


def _angles(survey: Survey, points: Known, corners: Known) -> Iterator[Problem]:
    for i, angle in enumerate(survey.angles):
        path: Path = ("survey", "angles", i)
        known = corners if angle.between is None else points
        yield from known.check((*path, "corner"), angle.corner, path)
        for place, name in enumerate(angle.between or ()):
            yield from points.check((*path, "between", place), name, path)
        if angle.between is not None and len({angle.corner, *angle.between}) < 3:
            yield _twice((*path, "between"), "-".join((angle.between[0], angle.corner, angle.between[1])), path)


def _offsets(job: Job, points: Known, original: dict[str, Any]) -> Iterator[Problem]:
    ends_of = walls_of(job)
    walls = _known_walls(job, original)
    for i, offset in enumerate(job.survey.offsets):
        path: Path = ("survey", "offsets", i)
        yield from points.check((*path, "point"), offset.point, path)
        if (offset.wall is None) == (offset.line is None):
            yield Problem(
                path=(*path, "line"),
                code="job-missing-key" if offset.wall is None else "job-range",
                found="no `wall` and no `line`" if offset.wall is None else "a `wall` and a `line`",
                expected="one of them: what the point is measured from",
                remedy='write wall = "S", or line = ["A", "B"]',
                drop=path,
            )
            continue
        line = offset.line or ()
        for place, name in enumerate(line):
            yield from points.check((*path, "line", place), name, path)
        if offset.wall is not None:
            yield from walls.check((*path, "wall"), offset.wall, path)
            wall = own_name(job, offset.wall)
            line = ends_of[wall] if wall else ()
            if wall and offset.start is not None:
                corners = Known(code="job-unknown-corner", what=f"a corner at an end of wall {wall}", names=line)
                yield from corners.check((*path, "from"), offset.start, path)
        ring = {offset.point, *(offset.line or ("",))}
        if offset.held is not None and not any(ring <= set(room.outline) for room in rooms_of(job)):
            yield Problem(
                path=(*path, "held"),
                code="job-range",
                found="`held` without a `line` from corner to corner, past a corner between",
                expected="a string along one crooked wall",
                remedy="take `held` out, and write how far the point lies out from the line",
                drop=path,
            )
        if line and len({offset.point, *line}) < 3:
            yield _twice((*path, "point"), f"{offset.point} from {'-'.join(line)}", path)


def _known_walls(job: Job, original: dict[str, Any]) -> Known:
    ends_of = walls_of(job)
    return Known(
        code="job-unknown-wall",
        what="a wall",
        names=list(ends_of),
        also={f"{start}-{end}" for wall in ends_of.values() for start, end in (wall, wall[::-1])},
        left_out=set(value_at(original, ("survey", "walls")) or ()),
        all_left_out=has_lost_rooms(job, original),
    )


def _twice(path: Path, found: str, drop: Path) -> Problem:
    return Problem(
        path=path,
        code="job-distance",
        found=found,
        expected="three different points",
        remedy="write the point, and two others to measure it from",
        drop=drop,
    )
