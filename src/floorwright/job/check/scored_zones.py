"""What cannot be so among the parts of a slab that are scored: two fields, zones without a size, keys of no use."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from floorwright.job.check.cells import check_cells
from floorwright.job.check.needs import unused
from floorwright.job.inputs.scored_zones import is_plain
from floorwright.job.read.misfit import quoted
from floorwright.job.read.problem import Problem

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.job.check.reference import Known
    from floorwright.job.model import Job
    from floorwright.job.model.scoring import ScoredZone, Scoring
    from floorwright.job.read.positions import Path

OF_KIND: Final = {"border": ("band", "walls", "corners"), "inset": ("size", "centre", "turn", "outline")}
"""Keys that only one kind of zone has a use for."""

CORNERS: Final = 3
"""Of an outline, at least."""


def check_scored_zones(job: Job, asked: Scoring, path: Path, walls: Known, corners: Known) -> Iterator[Problem]:
    """Yields what cannot be so among the zones of a scoring.

    Args:
        job: what is left of it.
        asked: its scoring.
        path: of it.
        walls, corners: the names known.
    """
    yield from _one_field(job, asked, path)
    yield from _outline((*path, "outline"), asked.outline, path, corners)
    taken = {asked.name, *(zone.name for zone in job.zones)}
    for i, zone in enumerate(asked.zones):
        own: Path = (*path, "zones", i)
        if zone.name in taken:
            yield Problem(
                path=(*own, "name"),
                code="job-same-name",
                found=f"a second zone called {quoted(zone.name)}",
                expected="a name that no other zone has, nor the scoring",
                remedy="give it another",
                drop=own,
            )
        taken.add(zone.name)
        if not is_plain(zone):
            yield from check_cells(job, zone, own)
        for key in sorted({key for keys in OF_KIND.values() for key in keys} - set(OF_KIND[zone.kind])):
            if key in zone.model_fields_set:
                yield unused((*own, key), f"`{key}` of a scored {zone.kind}")
        yield from _border(zone, own, walls) if zone.kind == "border" else _inset(zone, own, corners)


def _one_field(job: Job, asked: Scoring, path: Path) -> Iterator[Problem]:
    field = next((zone.name for zone in job.zones if zone.kind == "field"), None)
    if field is not None and not asked.outline:
        yield Problem(
            path=(*path, "outline"),
            code="job-two-fields",
            found=f"a slab scored all over and a tiled field, {quoted(field)}",
            expected="an outline of what is scored, or tiled zones that leave it the rest",
            remedy='add outline = [[x, y], ...], or give the tiles kind = "border" or "inset"',
            drop=path,
        )


def _border(zone: ScoredZone, path: Path, walls: Known) -> Iterator[Problem]:
    if zone.band is None:
        yield _missing(path, "band", "how wide it is", "add band = ...")
    for i, wall in enumerate(zone.walls):
        yield from walls.check((*path, "walls", i), wall, path)


def _inset(zone: ScoredZone, path: Path, corners: Known) -> Iterator[Problem]:
    if zone.size is None and not zone.outline:
        yield _missing(path, "size", "one, or an `outline`", "add size = [length, width], or outline = [...]")
    if isinstance(zone.centre, str):
        yield from corners.check((*path, "centre"), zone.centre, path)
    yield from _outline((*path, "outline"), zone.outline, path, corners)


def _outline(path: Path, outline: tuple[object, ...], drop: Path, corners: Known) -> Iterator[Problem]:
    if outline and len(outline) < CORNERS:
        yield Problem(
            path=path,
            code="job-size",
            found=f"an outline of {len(outline)}",
            expected="three corners or more",
            remedy="add the others, in order",
            drop=drop,
        )
    for i, point in enumerate(outline):
        if isinstance(point, str):
            yield from corners.check((*path, i), point, drop)


def _missing(path: Path, key: str, expected: str, remedy: str) -> Problem:
    return Problem(
        path=(*path, key),
        code="job-missing-key",
        found=f"no `{key}`",
        expected=expected,
        remedy=remedy,
        drop=path,
    )
