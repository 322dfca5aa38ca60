"""What cannot be so in a job though every value in it can be read: names of nothing, figures that contradict.

Each check yields problems at paths of what is left of the file; `job.read.draft` tells of them and leaves out what
they say.
"""

from collections.abc import Collection, Iterator, Mapping
from typing import Any, Final

from floorwright.findings import Severity
from floorwright.job.check.aims import check_aims
from floorwright.job.check.control import check_control
from floorwright.job.check.crossing import check_crossing
from floorwright.job.check.doubt import doubts
from floorwright.job.check.free import check_free
from floorwright.job.check.laid import check_laid
from floorwright.job.check.needs import Needs, needed
from floorwright.job.check.pattern import check_drawn, check_parameters, check_sizes
from floorwright.job.check.reference import Known, is_nameless, names_in, names_of_their_own
from floorwright.job.check.rings import check_rings
from floorwright.job.check.rooms import check_rooms
from floorwright.job.check.scoring import check_scoring
from floorwright.job.check.survey import check_survey
from floorwright.job.check.zones import check_zones
from floorwright.job.inputs.patterned import patterns_of
from floorwright.job.inputs.walls import has_lost_rooms, own_name, walls_of
from floorwright.job.model import Goods, Group, Job, Obstacle, Opening, Zone
from floorwright.job.read.misfit import quoted, value_at
from floorwright.job.read.positions import Path
from floorwright.job.read.problem import UNTOLD, Problem, did_you_mean, listed
from floorwright.pattern.entry import Pattern
from floorwright.units import LengthStyle

OBSTACLE_NEEDS: Final[Needs] = {
    "column": ("length", "width"),
    "round column": ("diameter",),
    "pipe": ("diameter",),
}

UNLIKE: Final = 0.05
"""Our default: a row of tiles may differ by this part from a length that is only nominal (3 %, ANSI A137.1 as quoted by
TCNA, and a little); by more, one of the two is wrong."""


def check(job: Job, data: dict[str, Any], original: dict[str, Any]) -> Iterator[Problem]:
    """Yields what cannot be so in a job.

    Args:
        job: what is left of it.
        data: the tables that it was read from.
        original: the tables of the file, with what was left out.
    """
    rooms = list(check_rooms(job, original))
    yield from rooms
    if any(problem.drop for problem in rooms):
        # No name of a corner or a wall can be held against rooms of which one is about to go.
        return
    survey = list(check_survey(job, original))
    yield from survey
    if any(problem.drop == ("survey", "outline") for problem in survey):
        # Nor against an outline that is.
        return
    crossing = list(check_crossing(job))
    yield from crossing
    if crossing:
        return
    yield from doubts(data)
    walls = Known(
        code="job-unknown-wall",
        what="a wall",
        names=list(walls_of(job)),
        also={f"{start}-{end}" for wall in walls_of(job).values() for start, end in (wall, wall[::-1])},
        left_out=_keys(value_at(original, ("survey", "walls"))),
        all_left_out=not job.survey.outline or has_lost_rooms(job, original),
    )
    openings = Known(
        code="job-unknown-opening",
        what="an opening",
        names=[opening.name for opening in job.openings],
        left_out=names_in(original, "openings"),
        all_left_out=is_nameless(original, "openings"),
    )
    yield from _placed(job, walls)
    yield from _goods(job)
    yield from _zones(job, original, walls, openings)
    yield from _nail(job)
    yield from check_control(job, original, walls, openings)
    yield from check_free(job, walls)
    yield from check_laid(job, original)
    yield from check_scoring(job, walls)
    for i, wall in enumerate(job.aims.hidden):
        yield from walls.check(("aims", "hidden", i), wall, ("aims", "hidden"))
    yield from check_aims(job, walls, openings)


def _nail(job: Job) -> Iterator[Problem]:
    """The nail stands in a corner of the room."""
    if job.setout.nail is not None:
        corners = Known(code="job-unknown-corner", what="a corner of the room", names=list(job.survey.outline))
        yield from corners.check(("setout", "nail"), job.setout.nail, ("setout", "nail"))


def _keys(table: object) -> set[str]:
    return set(table) if isinstance(table, dict) else set()


def _placed(job: Job, walls: Known) -> Iterator[Problem]:
    """Openings and obstacles: each with a name of its own, on a wall, measured from an end of it."""
    ends = walls_of(job)
    placed: dict[str, tuple[Opening | Obstacle, ...]] = {"openings": job.openings, "obstacles": job.obstacles}
    for kind, things in placed.items():
        yield from names_of_their_own(kind, [thing.name for thing in things])
        for i, thing in enumerate(things):
            path: Path = (kind, i)
            yield from walls.check((*path, "wall"), thing.wall, path)
            wall = own_name(job, thing.wall)
            if wall is not None:
                corners = Known(code="job-unknown-corner", what=f"a corner at an end of wall {wall}", names=ends[wall])
                yield from corners.check((*path, "from"), thing.start, path)
    for i, obstacle in enumerate(job.obstacles):
        yield from needed(("obstacles", i), obstacle, obstacle.kind, OBSTACLE_NEEDS, OBSTACLE_NEEDS)


def _goods(job: Job) -> Iterator[Problem]:
    yield from names_of_their_own("goods", [goods.name for goods in job.goods])
    for i, goods in enumerate(job.goods):
        path: Path = ("goods", i)
        if goods.length is None and goods.group is None:
            yield Problem(
                path=(*path, "length"),
                code="job-missing-key",
                found="no `length`",
                expected="the real length of a piece, or a `group`",
                remedy="measure a piece, or a row of them",
                drop=path,
            )
        if goods.group is not None:
            yield from _group(path, goods.group)
            yield from _unlike(path, goods, job.style)


def _group(path: Path, group: Group) -> Iterator[Problem]:
    if group.joints > group.tiles + 1:
        yield Problem(
            path=(*path, "group", "joints"),
            code="job-range",
            found=f"{group.joints} joints with {group.tiles} tiles",
            expected="one joint fewer than tiles, or as many, or one more",
            remedy="count them again",
            drop=path,
        )
    elif group.reads <= group.joints * group.joint:
        yield Problem(
            path=(*path, "group", "reads"),
            code="job-range",
            found="a row no longer than its joints",
            expected="tiles and joints together",
            remedy="measure the row again",
            drop=path,
        )


def _unlike(path: Path, goods: Goods, style: LengthStyle) -> Iterator[Problem]:
    if goods.length is None or not _is_sound(goods) or abs(goods.size[0] / goods.length - 1) <= UNLIKE:
        return
    yield Problem(
        path=(*path, "group", "reads"),
        code="job-doubt",
        found=f"a row that makes a piece {style.entered_text(goods.size[0], unit=True)} long",
        expected=f"about {style.entered_text(goods.length, unit=True)}, as `length` says",
        remedy="count the row and measure it again, or put `length` right",
        severity=Severity.WARNING,
    )


def _zones(job: Job, original: dict[str, Any], walls: Known, openings: Known) -> Iterator[Problem]:
    known = Known(
        code="job-unknown-goods",
        what="goods",
        names=[goods.name for goods in job.goods],
        left_out=names_in(original, "goods"),
        all_left_out=is_nameless(original, "goods"),
    )
    yield from names_of_their_own("zones", [zone.name for zone in job.zones])
    rooms = Known(
        code="job-unknown-room",
        what="a room",
        names=[job.survey.name, *(room.name for room in job.rooms)],
        left_out=names_in(original, "rooms"),
        all_left_out=is_nameless(original, "rooms"),
    )
    yield from check_zones(job, walls, openings, rooms, original)
    drawn = list(check_drawn(job, original))
    yield from drawn
    if drawn:
        # What is drawn wrong goes first; then the zones that name it are looked at.
        return
    patterns = patterns_of(job)
    for i, zone in enumerate(job.zones):
        path: Path = ("zones", i)
        yield from known.check((*path, "goods"), zone.goods, path)
        if zone.kind == "rings":
            yield from check_rings(path, zone, known, walls)
        else:
            yield from _pattern(path, zone, known, patterns, names_in(original, "patterns"))
        for least, most in (("joint", "joint_most"), ("gap", "gap_most")):
            yield from _range(path, zone, least, most, job)
        if zone.joint_least is not None and zone.joint_least > zone.joint:
            yield Problem(
                path=(*path, "joint_least"),
                code="job-range",
                found=f"{job.style.entered_text(zone.joint_least, unit=True)}",
                expected=f"no more than `joint`, {job.style.entered_text(zone.joint, unit=True)}",
                remedy="write the lesser figure as joint_least",
                drop=(*path, "joint_least"),
            )
        goods = next((goods for goods in job.goods if goods.name == zone.goods), None)
        if goods is not None and _is_sound(goods) and zone.joint >= min(goods.size):
            yield Problem(
                path=(*path, "joint"),
                code="job-doubt",
                found=f"a joint of {job.style.entered_text(zone.joint, unit=True)}",
                expected=f"less than the piece, {job.style.entered_text(min(goods.size), unit=True)}",
                remedy="look at the unit",
                severity=Severity.WARNING,
            )


def _is_sound(goods: Goods) -> bool:
    return goods.length is not None if goods.group is None else not any(_group((), goods.group))


def _pattern(
    path: Path, zone: Zone, known: Known, patterns: Mapping[str, Pattern], drawn: Collection[str]
) -> Iterator[Problem]:
    pattern = patterns.get(zone.pattern)
    if pattern is None and zone.pattern in drawn:
        yield Problem(path=(*path, "pattern"), code=UNTOLD, found=quoted(zone.pattern), drop=path)
        return
    if pattern is None:
        near = did_you_mean(zone.pattern, patterns)
        yield Problem(
            path=(*path, "pattern"),
            code="job-choice",
            found=quoted(zone.pattern),
            expected=listed(patterns),
            remedy=f'write "{near}"' if near else "write one of them",
            drop=path,
        )
        return
    yield from check_parameters(path, zone, pattern)
    yield from check_sizes(path, zone, pattern, known)


def _range(path: Path, zone: Zone, least: str, most: str, job: Job) -> Iterator[Problem]:
    low, high = getattr(zone, least), getattr(zone, most)
    if high is not None and high < low:
        yield Problem(
            path=(*path, most),
            code="job-range",
            found=f"{job.style.entered_text(high, unit=True)}",
            expected=f"no less than `{least}`, {job.style.entered_text(low, unit=True)}",
            remedy=f"write the greater figure as {most}",
            drop=(*path, most),
        )
