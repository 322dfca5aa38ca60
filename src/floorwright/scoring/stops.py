"""Where cuts stop: at the border, at another line, at a circle or an arc, or at a node where none runs through."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from floorwright.geometry.region import Points, Region
from floorwright.scoring.design import Circle, Point
from floorwright.scoring.lines import BORDER, Part, ScoreLine, Stop
from floorwright.scoring.swings import Swing
from floorwright.tolerance import ONE_CUT

Shapes: TypeAlias = NDArray[Any]

NODE: Final = "a node"
"""Where lines meet and none runs through: all of them stop."""

CIRCLE: Final = "the circle"
ARC: Final = "an arc"
TILES: Final = "the tiles"


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What cuts may stop at beside each other.

    Attributes:
        slab: where the saw runs off, and nothing stops.
        scored: all that is scored: where its rim is not the slab's, tiles lie beside it.
        circles: that are left plain.
        swings: arcs that are cut.
    """

    slab: Region
    scored: shapely.Geometry
    circles: Sequence[Circle]
    swings: Sequence[Swing]


def stopped(lines: Sequence[ScoreLine], around: Around) -> tuple[tuple[ScoreLine, ...], tuple[tuple[Stop, ...], ...]]:
    """Returns the lines with the stops at the ends of what is to cut, and the stops of every arc."""
    every = [(line, part) for line in lines for part in line.parts]
    ends = [(number, at) for number, (_, part) in enumerate(every) if not part.there for at in (part.start, part.end)]
    arc_ends = [(number, at) for number, swing in enumerate(around.swings) for at in swing.ends]
    on = _stops_on(every, ends, around, [every[number][0].name for number, _ in ends])
    arc_on = _stops_on(every, arc_ends, around, None)
    of_part = _gathered(ends, on, len(every))
    by_part = iter(replace(part, stops=stops) for (_, part), stops in zip(every, of_part, strict=True))
    return (
        tuple(replace(line, parts=tuple(next(by_part) for _ in line.parts)) for line in lines),
        tuple(_gathered(arc_ends, arc_on, len(around.swings))),
    )


def _gathered(ends: Sequence[tuple[int, Point]], on: Iterable[str], count: int) -> list[tuple[Stop, ...]]:
    found: list[list[Stop]] = [[] for _ in range(count)]
    for (number, at), name in zip(ends, on, strict=True):
        if name:
            found[number].append(Stop(at=at, on=name))
    return [tuple(stops) for stops in found]


def _stops_on(
    every: Sequence[tuple[ScoreLine, Part]],
    ends: Sequence[tuple[int, Point]],
    around: Around,
    names: Sequence[str] | None,
) -> list[str]:
    """What each end stops at; empty where it runs off the slab.

    Args:
        every: part of every line.
        ends: number of a part or an arc, and where it ends.
        around: what else there is.
        names: of the line that each end is of; None for ends of arcs.
    """
    if not ends:
        return []
    points = np.array([at for _, at in ends])
    places = np.asarray(shapely.points(points), dtype=object)
    slab = shapely.MultiLineString([shapely.LinearRing(ring) for ring in around.slab.rings])
    rim = shapely.boundary(around.scored)
    for edge in (slab, rim):
        shapely.prepare(edge)
    runs_off, at_rim = (np.asarray(shapely.dwithin(edge, places, ONE_CUT)).tolist() for edge in (slab, rim))
    on_circle = np.zeros(len(ends), dtype=bool)
    for circle in around.circles:
        on_circle |= np.abs(np.hypot(*(points - circle.centre).T) - circle.radius) <= ONE_CUT
    own = [number for number, _ in ends] if names is None else [-1] * len(ends)
    on_arc = _on_arcs(points, around.swings, own)
    met = _met(every, points, places, names or [""] * len(ends))
    found = []
    for index in range(len(ends)):
        if runs_off[index]:
            found.append("")
        elif on_circle[index]:
            found.append(CIRCLE)
        else:
            tiles = TILES if at_rim[index] else ""
            found.append(met[index] or tiles or (ARC if on_arc[index] else NODE))
    return found


def _on_arcs(points: Points, swings: Sequence[Swing], own: Sequence[int]) -> list[bool]:
    """Whether a point lies on an arc that runs through there, other than the one of its own number."""
    if not swings:
        return [False] * len(points)
    pivots = np.array([swing.pivot for swing in swings])
    radii, starts, sweeps = (
        np.array([getattr(swing, key) for swing in swings]) for key in ("radius", "start", "sweep")
    )
    found = []
    for point, number in zip(points, own, strict=True):
        away = point - pivots
        near = np.flatnonzero(np.abs(np.hypot(*away.T) - radii) <= ONE_CUT)
        along = (np.arctan2(away[near, 1], away[near, 0]) - starts[near]) % np.float64(2 * np.pi)
        slack = ONE_CUT / radii[near]
        through = (along > slack) & (along < sweeps[near] - slack) & (near != number)
        found.append(bool(through.any()))
    return found


def _met(every: Sequence[tuple[ScoreLine, Part]], points: Points, places: Shapes, names: Sequence[str]) -> list[str]:
    """Of each end the line that it stops at: one that runs through there, else one of the border, else none."""
    if not every:
        return [""] * len(points)
    segments = np.array([(part.start, part.end) for _, part in every])
    tree = shapely.STRtree(np.asarray(shapely.linestrings(segments), dtype=object))
    end, part = tree.query(places, predicate="dwithin", distance=ONE_CUT)
    near = np.hypot(*np.moveaxis(segments[part] - points[end][:, None], 2, 0)).min(axis=1)
    through: dict[int, str] = {}
    beside: dict[int, str] = {}
    for index, other, distance in sorted(zip(end.tolist(), part.tolist(), near.tolist(), strict=True)):
        line = every[other][0]
        if line.name == names[index]:
            continue
        if distance > ONE_CUT:
            through.setdefault(index, line.name)
        elif line.what == BORDER:
            beside.setdefault(index, line.name)
    return [through.get(index) or beside.get(index) or "" for index in range(len(points))]
