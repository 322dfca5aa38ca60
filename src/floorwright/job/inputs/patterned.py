"""The pattern of a zone with what the job says of it: goods by the pattern's own names, parameters, turn."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from floorwright.findings import Finding, Severity, has_error
from floorwright.job.inputs import ringed
from floorwright.layout.angles import LONG_WALL, MEAN_OF_WALLS
from floorwright.pattern.answer import STANDS, UNDECIDED, answer
from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.custom import custom_pattern
from floorwright.pattern.entry import Asked

if TYPE_CHECKING:
    from collections.abc import Callable

    from floorwright.job import model
    from floorwright.job.model import Job
    from floorwright.pattern.cell import Size, UnitCell
    from floorwright.pattern.entry import Pattern
    from floorwright.plan.room import Room

DIAGONAL: Final = 45.0
"""Degrees that a pattern is turned by to stand diagonal to the wall."""

KEPT: Final = 64
"""Cells of a zone kept, one for each joint that is tried."""


def patterns_of(job: Job) -> dict[str, Pattern]:
    """Returns every pattern that a zone of the job may name: the catalogue's and those that are drawn in it."""
    drawn = (_drawn(one) for one in job.patterns)
    return {**{pattern.name: pattern for pattern in drawn if pattern is not None}, **PATTERNS}


def _drawn(one: model.DrawnPattern) -> Pattern | None:
    """A drawn pattern; None of one without pieces or repeat, of which `check_pattern` tells."""
    if not one.pieces or one.across is None or one.along is None:
        return None
    pieces = tuple((piece.name, np.array(piece.corners)) for piece in one.pieces)
    return custom_pattern(one.name, pieces, np.array([one.across, one.along]), one.drawn)


def pattern_of(job: Job, laid: model.Zone) -> Pattern:
    """Returns the entry of a zone's pattern."""
    return patterns_of(job)[laid.pattern]


def goods_by_kind(job: Job, laid: model.Zone) -> dict[str, model.Goods]:
    """Returns the goods of every kind of piece of a zone's pattern, in the pattern's order."""
    if laid.kind == "rings":
        return ringed.goods_by_kind(job, laid)
    by_name = {goods.name: goods for goods in job.goods}
    return {kind.name: by_name[laid.sizes.get(kind.name, laid.goods)] for kind in pattern_of(job, laid).kinds}


def sizes(job: Job, laid: model.Zone) -> dict[str, Size]:
    """Returns the size of every kind of piece as it lies in the zone's pattern, mm: soldiers across their border."""
    found = {kind: goods.size for kind, goods in goods_by_kind(job, laid).items()}
    if laid.kind == "border" and laid.lay == "soldiers":
        return {kind: (width, length) for kind, (length, width) in found.items()}
    return found


def values(job: Job, laid: model.Zone) -> dict[str, Any]:
    """Returns the parameters of a zone's pattern, its defaults where the zone has none."""
    parameters = pattern_of(job, laid).parameters
    given = {one.key: getattr(laid, one.key) for one in parameters if one.key in laid.model_fields_set}
    defaults = {one.key: one.default for one in parameters}
    return {**defaults, **{key: value for key, value in given.items() if value is not None}}


def cell_maker(job: Job, laid: model.Zone) -> Callable[[float], UnitCell]:
    """Returns the function that makes the zone's pattern at a joint; it makes each only once.

    Pieces of several lengths are called by them.
    """
    pattern, size_of, chosen = pattern_of(job, laid), sizes(job, laid), values(job, laid)
    known = {kind.name for kind in pattern.kinds}

    @lru_cache(maxsize=KEPT)
    def make(joint: float) -> UnitCell:
        cell = pattern.cell(size_of, joint, chosen)
        lengths = {one.name: job.style.entered_text(one.size[0], unit=True) for one in cell.sizes}
        return cell.renamed({name: text for name, text in lengths.items() if name not in known})

    return make


def turn(laid: model.Zone) -> float:
    """Returns the degrees from the first line to the pattern's rows."""
    return laid.angle + (DIAGONAL if laid.stand == STANDS[1] else 0.0)


def findings(job: Job, laid: model.Zone, room: Room) -> tuple[Finding, ...]:
    """Returns what there is to say of a zone's pattern before it is laid."""
    if laid.kind == "rings":
        return ringed.findings(job, laid, room)
    asked = Asked(
        place=f"zone {laid.name}", sizes=sizes(job, laid), joint=laid.joint, values=values(job, laid), style=job.style
    )
    return (*answer(pattern_of(job, laid), asked, laid.stand), *_without_straight_walls(laid, room))


def _without_straight_walls(laid: model.Zone, room: Room) -> tuple[Finding, ...]:
    """Returns that an angle is to be that of walls, and these are arcs."""
    asked = set(laid.angles) if laid.angles else {laid.angle_about} if laid.angle_from is not None else set()
    straight = {wall.name for wall in room.walls if not wall.bulge}
    missing = [
        (word, expected)
        for word, has, expected in (
            (LONG_WALL, bool(straight), "a room with a straight wall"),
            (MEAN_OF_WALLS, straight >= set(laid.angle_walls or ()), "two straight walls"),
        )
        if word in asked and not has
    ]
    return tuple(
        Finding(
            code="layout-no-straight-wall",
            severity=Severity.ERROR,
            place=f"zone {laid.name}",
            found=f"an angle of the {word}, where an arc has none",
            expected=expected,
            remedy='name the degrees from the first line, or "first line"',
        )
        for word, expected in missing
    )


def can_be_laid(found: tuple[Finding, ...]) -> bool:
    """Returns whether a pattern can be laid, if only to be looked at."""
    return not has_error(tuple(finding for finding in found if finding.code != UNDECIDED))


def is_decided(found: tuple[Finding, ...]) -> bool:
    """Returns whether nothing about the pattern is left for the client to decide."""
    return all(finding.code != UNDECIDED for finding in found)
