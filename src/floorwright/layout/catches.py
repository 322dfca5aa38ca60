"""Where a pattern that is moved by hand catches: what a setter would bring a joint or the middle of a tile on to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from floorwright.layout.floor_lines import JOINT, TILE, runs_along
from floorwright.layout.options import CENTRED, Line, lines_of, phrase, ways_of
from floorwright.tolerance import ALONG

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.geometry.region import Points
    from floorwright.layout.floor_lines import FloorLine
    from floorwright.layout.score import Floor
    from floorwright.pattern.cell import LineFamily, UnitCell


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Catch:
    """A place on one direction of the floor where the pattern's origin may lie so that something lines up.

    Attributes:
        words: what lines up: `a joint on the first line`, `full tile at S`, `balanced across`.
        direction: (2,) unit, floor frame.
        at: mm along the direction; the next ones follow every `pitch`.
        pitch: mm.
    """

    words: str
    direction: Points
    at: float
    pitch: float


def catches(floor: Floor, cell: UnitCell, angle: float) -> tuple[Catch, ...]:
    """Returns what a pattern at an angle may be brought on to, control lines first.

    A pattern of equal rectangles in rows catches with its joints and the middles of its tiles, and at walls; any other
    with its working lines.

    Args:
        floor: to lay.
        cell: the pattern at its joint.
        angle: radians.
    """
    lines = lines_of(floor, cell, angle)
    if lines:
        return tuple(catch for line in lines for catch in _of_rows(floor, line))
    return tuple(catch for family in cell.lines for catch in _of_family(floor, family, angle + family.angle))


def _of_rows(floor: Floor, line: Line) -> Iterator[Catch]:
    axis = line.axis
    for seen in floor.lines:
        if not seen.words or not runs_along(seen, axis):
            continue
        for what in (JOINT,) if seen.joints_only else (JOINT, TILE):
            words = f"a joint {seen.words}" if what == JOINT else f"the middle of a tile {seen.words}"
            at = float(seen.point @ axis.direction) - (0.0 if what == JOINT else axis.pitch / 2)
            for phase in axis.phases:
                yield Catch(words=words, direction=axis.direction, at=at - phase, pitch=axis.pitch)
    for way in ways_of(floor, line):
        if way.fits and way.position.name not in CENTRED:
            words, at = phrase(way.position, axis), way.low - axis.joint / 2
            yield Catch(words=words, direction=axis.direction, at=at, pitch=axis.pitch)


def _of_family(floor: Floor, family: LineFamily, angle: float) -> Iterator[Catch]:
    normal = np.array([-np.sin(angle), np.cos(angle)])
    for seen in floor.lines:
        if seen.words and not seen.joints_only and _parallel(seen, normal):
            at = float(seen.point @ normal) - family.offset
            words = f"{family.name} {seen.words}"
            yield Catch(words=words, direction=normal, at=at, pitch=family.spacing)


def _parallel(line: FloorLine, normal: Points) -> bool:
    along = np.array([np.cos(line.angle), np.sin(line.angle)])
    return bool(abs(along @ normal) <= np.sin(ALONG))
