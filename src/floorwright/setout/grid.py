"""The working grid: a few lines of the pattern that divide a floor into boxes, each within reach and set before the
mortar skins."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from floorwright.control.sight import Point, spans, step, unit
from floorwright.control.wall import opening_angle, opening_at
from floorwright.findings import Finding, Severity
from floorwright.geometry.region import Points, Region
from floorwright.layout.layout import Layout
from floorwright.plan.room import Room
from floorwright.setout.boxes import Box, boxes_in_order
from floorwright.setout.nodes import two_families
from floorwright.setout.snap import SnapLine, SnapList
from floorwright.tolerance import TOUCH
from floorwright.units import LengthStyle, area_text

PINNED_OVER: Final = 6096.0
"""mm, 20 ft: a longer chalk line is pinned in the middle and snapped in two halves (Reader's Digest, "Chalk lines")."""

FEWEST: Final = 3
"""Boxes: a floor of fewer is set without a grid (our default)."""

UNDER_PASS: Final = 0.25
"""Share of a line that the first pass of the trowel along a wall may cover before another line is taken (our default).
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class GridChoices:
    """What a person says of the grid.

    Attributes:
        wanted: whether there is to be one; None leaves it to the floor: where it takes three boxes or more.
        reach: mm, no box is wider.
        skins: mm2 that are set before the mortar skins; 0 where nobody said.
        first_pass: mm along every wall that the first pass of the trowel covers.
    """

    wanted: bool | None
    reach: float
    skins: float
    first_pass: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GridLine:
    """A line of the grid.

    Attributes:
        name: a letter along one way, a number along the other.
        line: as in the snap list, running from the nail.
        length: mm from mark to mark.
        is_pinned: whether it is so long that it is pinned in the middle.
    """

    name: str
    line: SnapLine
    length: float
    is_pinned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingGrid:
    """Attributes:
    zone: that it lies on.
    lines: in the order in which they are snapped: all letters from the nail, then all numbers.
    boxes: in the order in which they are set.
    every: lines of the pattern to a box, for the letters and for the numbers.
    size: mm, the widest box between two letters, and between two numbers.
    bounded_by: `reach`, `mortar` or `module`, where one line of the pattern is wider than either.
    way_out: name of the opening that the last box is set from; of the nail's corner where there is none.
    by_door: whether it is an opening.
    reach, skins, first_pass: as chosen.
    """

    zone: str
    lines: tuple[GridLine, ...]
    boxes: tuple[Box, ...]
    every: tuple[int, int]
    size: tuple[float, float]
    bounded_by: str
    way_out: str
    by_door: bool
    reach: float
    skins: float
    first_pass: float


def working_grid(
    *, room: Room, layouts: Sequence[Layout], snap: SnapList, choices: GridChoices, style: LengthStyle
) -> tuple[WorkingGrid | None, tuple[Finding, ...]]:
    """Returns the working grid of the field (without one, of the first zone), and what to know of it.

    Its lines are lines of the pattern, every so many of them, chosen for the fewest boxes that keep to the reach and to
    what can be set before the mortar skins, and of those for the largest smallest box. A line that the first pass of
    the trowel along a wall would cover is left out. None where none is wanted or worth it.

    Args:
        room: as adjusted.
        layouts: of the zones.
        snap: the lines to snap, all running from one nail.
        choices: of the person.
        style: how lengths print in findings.
    """
    layout = next((one for one in layouts if one.is_field), layouts[0] if layouts else None)
    if layout is None or choices.wanted is False:
        return None, ()
    prefix = f"{layout.zone} " if len(layouts) > 1 else ""
    lines = [line for line in snap.lines if line.family in {f"{prefix}{one.name}" for one in layout.cell.lines}]
    families = two_families(lines)
    if families is None:
        return None, (_no_lines(layout),) if choices.wanted else ()
    lettered, numbered = families
    sine = abs(math.sin(lettered[0].angle - numbered[0].angle))
    most = min(choices.reach, math.sqrt(choices.skins * sine)) if choices.skins > 0 else choices.reach
    first = _spaced(layout.region, lettered, most, choices.first_pass)
    left = min(choices.reach, choices.skins * sine / max(first.widest, most)) if choices.skins > 0 else choices.reach
    second = _spaced(layout.region, numbered, left, choices.first_pass)
    named = _named(room, first.lines, second.lines)
    door = room.openings[0] if room.openings else None
    boxes = boxes_in_order(
        region=layout.region,
        cuts=(_cuts(first.lines), _cuts(second.lines)),
        reach=choices.reach,
        way_out=opening_at(room, door) if door else _corner(room, snap.zero),
        along=opening_angle(room, door) if door else None,
    )
    if len(boxes) < FEWEST and not choices.wanted:
        return None, ()
    grid = WorkingGrid(
        zone=layout.zone,
        lines=named,
        boxes=boxes,
        every=(first.every, second.every),
        size=(first.widest, second.widest),
        bounded_by=_bounded(first, second, most, left, choices),
        way_out=door.name if door else snap.zero,
        by_door=door is not None,
        reach=choices.reach,
        skins=choices.skins,
        first_pass=choices.first_pass,
    )
    return grid, tuple(_told(grid, style))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spaced:
    """Lines of one family that are taken, every how many of the pattern's, and the widest strip between them, mm."""

    lines: tuple[SnapLine, ...]
    every: int
    widest: float


def _spaced(region: Region, family: Sequence[SnapLine], most: float, first_pass: float) -> _Spaced:
    """The lines of a family that divide a floor into the fewest strips no wider than `most`, the narrowest of them as
    wide as can be; where the pattern allows none so narrow, every line of it."""
    normal = unit(family[0].angle + math.pi / 2)
    ordered = sorted(family, key=lambda line: _along(line, normal))
    at = [_along(line, normal) for line in ordered]
    # A strip against a wall is as wide as the floor there, a doorway's too.
    off = region.rings[0] @ normal
    ends = float(off.min()), float(off.max())
    covered = [_is_under_pass(region, line, first_pass) for line in ordered]
    spacing = min((after - before for before, after in pairwise(at)), default=ends[1] - ends[0])
    best: tuple[tuple[float, ...], tuple[SnapLine, ...], int, float] | None = None
    for every in range(max(1, math.floor((most + TOUCH) / spacing)), 0, -1):
        for start in range(every):
            taken = [n for n in range(start, len(at), every) if not covered[n]]
            strips = [b - a for a, b in pairwise([ends[0], *(at[n] for n in taken), ends[1]])]
            over = round(max(0.0, max(strips) - most) / TOUCH)
            score = (over, len(taken), -round(min(strips) / TOUCH))
            if best is None or score < best[0]:
                best = score, tuple(ordered[n] for n in taken), every, max(strips)
    assert best is not None
    return _Spaced(lines=best[1], every=best[2], widest=best[3])


def _along(line: SnapLine, normal: Points) -> float:
    return float(np.array(_on(line)) @ normal)


def _on(line: SnapLine) -> Point:
    return line.marks[0].x, line.marks[0].y


def _is_under_pass(region: Region, line: SnapLine, first_pass: float) -> bool:
    """Whether the first pass of the trowel along a wall covers too much of a line: floor ends beside it so near."""
    here = _length(region, line, 0.0)
    if here <= 0.0 or first_pass <= 0.0:
        return False
    beside = min(_length(region, line, side * first_pass) for side in (-1, 1))
    return here - beside > UNDER_PASS * here


def _length(region: Region, line: SnapLine, beside: float) -> float:
    """How much floor a line runs over, moved square to itself, mm."""
    through = step(_on(line), line.angle + math.pi / 2, beside)
    return math.fsum(end - start for start, end in spans(region, through, line.angle))


def _cuts(lines: Sequence[SnapLine]) -> tuple[tuple[Point, float], ...]:
    return tuple((_on(line), line.angle) for line in lines)


def _named(room: Room, lettered: Sequence[SnapLine], numbered: Sequence[SnapLine]) -> tuple[GridLine, ...]:
    """The lines from the nail, those of one way by letters that no corner has, those of the other by numbers."""
    taken = {corner.name for corner in room.corners}
    letters = [letter for letter in _letters(len(lettered) + len(taken)) if letter not in taken]
    numbers = [number for number in map(str, range(1, len(numbered) + len(taken) + 1)) if number not in taken]
    found = []
    for names, lines in ((letters, lettered), (numbers, numbered)):
        in_order = sorted(lines, key=lambda line: line.running)
        for name, line in zip(names, in_order, strict=False):
            first, last = line.marks[0], line.marks[-1]
            length = math.dist((first.x, first.y), (last.x, last.y))
            found.append(GridLine(name=name, line=line, length=length, is_pinned=length > PINNED_OVER))
    return tuple(found)


def _letters(count: int) -> list[str]:
    """A, B, C ... Z, AA, AB ..., without I and O, which are read as 1 and 0."""
    alphabet = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    names: list[str] = list(alphabet)
    while len(names) < count:
        names += [f"{name}{letter}" for name in names[-len(alphabet) :] for letter in alphabet]
    return names[:count]


def _corner(room: Room, name: str) -> Point:
    corner = room.corner(name)
    return corner.x, corner.y


def _bounded(first: _Spaced, second: _Spaced, most: float, left: float, choices: GridChoices) -> str:
    """What keeps the boxes from being larger."""
    if first.widest > most + TOUCH or second.widest > left + TOUCH:
        return "module"
    return "mortar" if min(most, left) < choices.reach - TOUCH else "reach"


def _told(grid: WorkingGrid, style: LengthStyle) -> list[Finding]:
    size = " by ".join(style.text(side, unit=True) for side in grid.size)
    yours = f"a reach of {style.text(grid.reach, unit=True)}"
    if grid.skins > 0:
        yours += f" and {area_text(grid.skins, style)} set before the mortar skins"
    if grid.bounded_by == "module":
        return [
            Finding(
                code="setout-grid-wide",
                severity=Severity.WARNING,
                place=f"working grid of {grid.zone}",
                found=f"the widest box is {size}, as the pattern has no nearer lines clear of the walls",
                expected=yours,
                remedy="set such a box in two goes, and spread no more mortar than you set before it skins",
                source="yours",
            )
        ]
    return [
        Finding(
            code="setout-grid",
            severity=Severity.NOTE,
            place=f"working grid of {grid.zone}",
            found=f"{len(grid.boxes)} boxes, the widest {size}, for {yours}",
            remedy="",
            source="common practice, no source",
        )
    ]


def _no_lines(layout: Layout) -> Finding:
    return Finding(
        code="setout-no-grid",
        severity=Severity.WARNING,
        place=f"working grid of {layout.zone}",
        found=f"{layout.cell.name} has no two ways of lines that meet the walls on this floor",
        expected="lines of the pattern both ways",
        remedy="take grid out of [setout], or set from the control lines",
    )
