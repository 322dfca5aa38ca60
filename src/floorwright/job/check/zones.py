"""What cannot be so among the zones of a job: two fields, keys without use for their kind, insets without a size."""

from collections.abc import Iterator, Mapping
from typing import Any, Final

from floorwright.findings import Severity
from floorwright.job.check.fields import check_fields
from floorwright.job.check.needs import unused
from floorwright.job.check.reference import Known
from floorwright.job.inputs.covers import NORTH
from floorwright.job.model import Job, Zone
from floorwright.job.read.positions import Path
from floorwright.job.read.problem import Problem
from floorwright.tolerance import STRIP

OF_KIND: Final[Mapping[str, tuple[str, ...]]] = {
    "field": ("rooms",),
    "border": ("walls", "rows", "width", "width_least", "width_most", "corners", "through", "taper", "lay"),
    "inset": ("centre", "shape", "length", "width", "turn", "facing", "outline", "outline_from"),
    "rings": (
        "centre",
        "turn",
        "facing",
        "rings",
        "stone",
        "inside",
        "sweep",
        "spokes",
        "along_wall",
    ),
}
"""The keys of a zone that only some kinds have a use for."""

ANGLES: Final = ("angle", "angles", "angle_from", "angle_to", "angle_about", "angle_walls")
NOT_OF_KIND: Final[Mapping[str, tuple[str, ...]]] = {
    "border": ("joint_most", "joint_least", "joint_step", *ANGLES),
    "rings": ("joint_step", *ANGLES, "at", "pattern", "sizes"),
}
"""A border keeps the joint asked for, and its rows run along the walls; rings lie about their centre, and are the
pattern themselves."""


def check_zones(job: Job, walls: Known, openings: Known, rooms: Known, original: dict[str, Any]) -> Iterator[Problem]:
    """Yields what cannot be so among the zones.

    Args:
        job: what is left of it.
        walls, openings, rooms: the names known.
        original: the tables of the file, with what was left out.
    """
    yield from check_fields(job, rooms, original)
    for i, zone in enumerate(job.zones):
        path: Path = ("zones", i)
        yield from _unused(path, zone)
        yield from _angles(path, zone, walls)
        if zone.kind == "border":
            yield from _border(path, zone, job, walls)
        elif zone.kind == "inset":
            yield from _inset(path, zone, job, openings)
        else:
            yield from check_facing(path, zone, job, openings)


def _unused(path: Path, zone: Zone) -> Iterator[Problem]:
    of_others = {key for keys in OF_KIND.values() for key in keys} - set(OF_KIND[zone.kind])
    for key in sorted((of_others | set(NOT_OF_KIND.get(zone.kind, ()))) & zone.model_fields_set):
        yield Problem(
            path=(*path, key),
            code="job-unused",
            found=f"`{key}` of a zone that {_a(zone.kind)}",
            expected="a key that does something here",
            remedy="take it out, or look at `kind`",
            severity=Severity.WARNING,
        )


def _angles(path: Path, zone: Zone, walls: Known) -> Iterator[Problem]:
    """Several angles, a range of them, and the walls that one may be the mean of."""
    given = zone.model_fields_set
    for i, wall in enumerate(zone.angle_walls or ()):
        yield from walls.check((*path, "angle_walls", i), wall, path)
    ends = [key for key in ("angle_from", "angle_to") if getattr(zone, key) is not None]
    if len(ends) == 1:
        missing = "angle_to" if ends == ["angle_from"] else "angle_from"
        yield _missing((*path, missing), path, f"one, because `{ends[0]}` is there", f"add {missing} = ...")
    elif zone.angle_from is not None and zone.angle_to is not None and zone.angle_to <= zone.angle_from:
        yield Problem(
            path=(*path, "angle_to"),
            code="job-range",
            found=f"a range from {zone.angle_from:g} to {zone.angle_to:g} degrees, with nothing in it",
            expected="more than `angle_from`",
            remedy="write the greater figure as angle_to",
            drop=path,
        )
    if "angles" in given and not zone.angles:
        yield Problem(
            path=(*path, "angles"),
            code="job-range",
            found="a list of angles with nothing in it",
            expected="one angle or more",
            remedy='write angles = ["first line", 45], or take it out',
            drop=path,
        )
    instead = "angles" if zone.angles else "angle_from" if ends else ""
    for key in [key for key in ("angle", "angle_from") if instead and key in given and key != instead]:
        yield Problem(
            path=(*path, key),
            code="job-unused",
            found=f"`{key}` beside `{instead}`",
            expected="one of the two",
            remedy="take one of them out",
            severity=Severity.WARNING,
        )
    means = "mean of walls" in zone.angles or zone.angle_about == "mean of walls"
    if means and zone.angle_walls is None:
        yield _missing((*path, "angle_walls"), path, "two walls to take the mean of", 'add angle_walls = ["S", "N"]')


def _a(kind: str) -> str:
    return "has rings" if kind == "rings" else f"is an {kind}" if kind == "inset" else f"is a {kind}"


def _border(path: Path, zone: Zone, job: Job, walls: Known) -> Iterator[Problem]:
    for key, names in (("walls", zone.walls), ("through", zone.through)):
        for i, wall in enumerate(names):
            yield from walls.check((*path, key, i), wall, path)
    yield from _wider_than_its_rows(path, zone, job)
    free = {"width_least", "width_most"} & zone.model_fields_set
    searched = [other for other in job.zones if other.kind == "border" and other.width_least is not None]
    if free and searched and searched[0] is not zone:
        yield Problem(
            path=(*path, "width_least"),
            code="job-range",
            found=f"a second border of free width beside {searched[0].name}",
            expected="one: the other widths decide what it has to make up",
            remedy="give one of the two a `width`",
            drop=path,
        )
    if len(free) == 1:
        (given,) = free
        missing = "width_most" if given == "width_least" else "width_least"
        yield _missing((*path, missing), path, f"one, because `{given}` is there", f"add {missing} = ...")
    elif zone.width_least is not None and zone.width_most is not None and zone.width_most < zone.width_least:
        yield Problem(
            path=(*path, "width_most"),
            code="job-range",
            found=job.style.entered_text(zone.width_most, unit=True),
            expected=f"no less than `width_least`, {job.style.entered_text(zone.width_least, unit=True)}",
            remedy="write the greater figure as width_most",
            drop=path,
        )
    if free and zone.width is not None:
        yield Problem(
            path=(*path, "width"),
            code="job-unused",
            found="`width` beside a free width",
            expected="one of the two",
            remedy="take out `width`, or `width_least` and `width_most`",
            severity=Severity.WARNING,
        )


def _wider_than_its_rows(path: Path, zone: Zone, job: Job) -> Iterator[Problem]:
    goods = next((goods for goods in job.goods if goods.name == zone.goods), None)
    if goods is None or (goods.length is None and goods.group is None):
        return
    across = goods.size[0] if zone.lay == "soldiers" else goods.size[1]
    full = zone.rows * across + (zone.rows - 1) * zone.joint
    for key, width in (("width", zone.width), ("width_most", zone.width_most)):
        if width is not None and width > full + STRIP:
            yield Problem(
                path=(*path, key),
                code="job-range",
                found=job.style.entered_text(width, unit=True),
                expected=f"no more than its rows laid full, {job.style.entered_text(full, unit=True)}",
                remedy="make it narrower, or give it more `rows`",
                drop=path,
            )


def _inset(path: Path, zone: Zone, job: Job, openings: Known) -> Iterator[Problem]:
    yield from check_facing(path, zone, job, openings)
    given = zone.model_fields_set
    if zone.outline:
        for key in sorted({"shape", "length", "width"} & given):
            yield unused((*path, key), f"`{key}` beside `outline`")
    elif "outline_from" in given:
        yield unused((*path, "outline_from"), "`outline_from` without `outline`")
    if zone.shape != "rectangle" and not zone.outline and zone.width is not None:
        yield unused((*path, "width"), f"`width` of an inset that is {zone.shape}")
    if not zone.outline and zone.length is None:
        yield _missing(
            (*path, "length"), path, "one, or an `outline`", "add length = ... and width = ..., or outline = [...]"
        )
    if zone.outline and len(zone.outline) < 3:
        yield Problem(
            path=(*path, "outline"),
            code="job-size",
            found=f"an outline of {len(zone.outline)}",
            expected="three corners or more",
            remedy="add the others, in order",
            drop=path,
        )
    named = next((i for i, point in enumerate(zone.outline) if isinstance(point, str)), None)
    if named is not None and zone.outline_from == "centre":
        yield Problem(
            path=(*path, "outline", named),
            code="job-choice",
            found=f"a corner of the room, {zone.outline[named]}, counted from the centre",
            expected="[x, y] from the centre",
            remedy='write its x and y, or outline_from = "room"',
            drop=path,
        )


def check_facing(path: Path, zone: Zone, job: Job, openings: Known) -> Iterator[Problem]:
    """Yields an opening that is none, and north where nobody has said where that is."""
    if zone.facing is None or (zone.facing == NORTH and job.control.north is not None):
        return
    if zone.facing == NORTH and NORTH not in openings.names:
        yield Problem(
            path=("control", "north"),
            code="job-missing-key",
            found="no `north`",
            expected=f"one, because zone {zone.name} faces north",
            remedy="add north = ..., degrees from the first line, anticlockwise",
            drop=path,
        )
        return
    yield from openings.check((*path, "facing"), zone.facing, path)


def _missing(path: Path, drop: Path, expected: str, remedy: str) -> Problem:
    return Problem(
        path=path,
        code="job-missing-key",
        found=f"no `{path[-1]}`",
        expected=expected,
        remedy=remedy,
        drop=drop,
    )
