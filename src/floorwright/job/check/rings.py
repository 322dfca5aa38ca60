"""What cannot be so in a zone of rings: no rings, no radius to begin at, keys that a coping has no use for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.job.check.needs import unused
from floorwright.job.inputs.ringed import FOLLOWS
from floorwright.job.read.problem import Problem
from floorwright.pattern.catalogue import KEYS
from floorwright.pattern.rings import STONE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.job.check.reference import Known
    from floorwright.job.model import Zone
    from floorwright.job.read.positions import Path

MANY = 100
"""Rings of a zone at the most."""

WHOLE = 360.0
"""Degrees."""


def check_rings(path: Path, zone: Zone, goods: Known, walls: Known) -> Iterator[Problem]:
    """Yields what is wrong with the rings of a zone.

    Args:
        path: of the zone.
        zone: of rings.
        goods, walls: the names known.
    """
    for i, one in enumerate(zone.rings):
        if one.goods is not None:
            yield from goods.check((*path, "rings", i, "goods"), one.goods, path)
    if zone.stone is not None:
        yield from goods.check((*path, "stone"), zone.stone, path)
    yield from _number(path, zone)
    yield from _begins(path, zone)
    for key in sorted(zone.model_fields_set & {*KEYS, "stand"}):
        yield unused((*path, key), f"`{key}` of a zone that has rings")
    if zone.along_wall is not None:
        yield from walls.check((*path, "along_wall"), zone.along_wall, path)
        for key in sorted(zone.model_fields_set & set(FOLLOWS)):
            yield unused((*path, key), f"`{key}` beside `along_wall`")


def _number(path: Path, zone: Zone) -> Iterator[Problem]:
    count = sum(one.times for one in zone.rings)
    if not count:
        yield Problem(
            path=(*path, "rings"),
            code="job-missing-key",
            found="no rings",
            expected="one ring or more, from the inside out",
            remedy="add [[zones.rings]]",
            drop=path,
        )
    elif count > MANY:
        yield Problem(
            path=(*path, "rings"),
            code="job-size",
            found=f"{count} rings",
            expected=f"at most {MANY}",
            remedy="look at `times`",
            drop=path,
        )


def _begins(path: Path, zone: Zone) -> Iterator[Problem]:
    """Where the first ring begins: outside a stone, or at a radius."""
    if zone.along_wall is not None:
        return
    if zone.stone is None and zone.inside is None:
        yield Problem(
            path=(*path, "inside"),
            code="job-missing-key",
            found="neither `inside` nor `stone`",
            expected="the radius at which the first ring begins, or a stone in the middle",
            remedy='add inside = ..., or stone = "..." with the name of its goods',
            drop=path,
        )
    elif zone.stone is not None and zone.inside is not None:
        yield unused((*path, "inside"), f"`inside` beside a {STONE}")
    if zone.stone is not None and zone.sweep < WHOLE:
        yield Problem(
            path=(*path, "stone"),
            code="job-choice",
            found="a stone in the middle of a fan",
            expected="a stone, or arcs that go round less than 360 degrees",
            remedy="take out `stone` and write inside = ..., or take out `sweep`",
            drop=path,
        )
