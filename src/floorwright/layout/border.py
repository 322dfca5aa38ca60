"""The sides of a border: along each wall a strip between the line that it starts from and its inside line.

At a corner the two strips are *mitred* (one joint on the line between the outside and the inside corner), *butted* (the
longer wall's strip, or the one named, runs through) or *woven* (each strip runs through at its end and butts at its
start). Where a wall is out of true, either the border takes the taper (its inside line is true to the first line and
its fat end has the width asked for) or the field does (the strip keeps its width along the wall).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.measure import area, is_simple
from floorwright.geometry.region import Points
from floorwright.geometry.straight import Straight, crossing, through
from floorwright.plan.room import Room
from floorwright.tolerance import ALONG, COINCIDENT, SLIVER_AREA
from floorwright.units import LengthStyle

MITRED, BUTTED, WOVEN = "mitred", "butted", "woven"


class ZoneMisfitError(FloorwrightValueError):
    """A zone that does not fit the floor.

    Attributes:
        zone: its name.
        found, expected, remedy: as in a finding.
        by_gap: whether it is the gap at the walls that leaves no floor.
    """

    def __init__(self, zone: str, found: str, expected: str, remedy: str, *, by_gap: bool = False) -> None:
        super().__init__(f"{zone}: {found}")
        self.by_gap = by_gap
        self.zone = zone
        self.found = found
        self.expected = expected
        self.remedy = remedy


@dataclass(frozen=True, slots=True, kw_only=True)
class Border:
    """A border as asked for.

    Attributes:
        widths: mm by wall, for every wall that it runs along.
        corners: `mitred`, `butted` or `woven`.
        through: walls that run through where it is butted; the longer wall does where neither or both are named.
        tapers: whether the border takes the taper of a wall that is out of true, or leaves it to the field.
        joint: mm, between its own sides.
        joint_inside: mm, between it and what it surrounds.
    """

    widths: dict[str, float]
    corners: str
    through: tuple[str, ...]
    tapers: bool
    joint: float
    joint_inside: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Edge:
    """Where a wall's floor begins for the next zone inside.

    Attributes:
        wall: its name.
        line: the wall less its gap, or the line a joint inside the border before; its normal points into the room.
        depth: mm by which the floor may reach beyond it, into the gap and into door reveals; 0 inside a border.
    """

    wall: str
    line: Straight
    depth: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strip:
    """One side of a border.

    Attributes:
        wall: the wall that it runs along.
        ring: (n, 2) mm, what it may cover of the floor, with names of its edges.
        taken: (n, 2) mm, what no other zone inside it may cover.
        inside: name of its edge there.
        inner: its inside line, the normal pointing into the field.
        joint_inside: mm, between it and what lies inside.
        thin, fat: mm, its width at both ends.
    """

    wall: str
    ring: Points
    names: tuple[str, ...]
    taken: Points
    inside: str
    inner: Straight
    joint_inside: float
    thin: float
    fat: float


def edges_of(room: Room, gap: float) -> tuple[Edge, ...]:
    """Returns where the floor begins along every wall of a room.

    Args:
        room: as adjusted.
        gap: mm, the perimeter gap.
    """
    past = max((opening.reveal for opening in room.openings), default=0.0)
    return tuple(
        Edge(wall=wall.name, line=through(*room.ends(wall.name)).moved(gap), depth=gap + past + 1.0)
        for wall in room.walls
    )


def edges_inside(edges: Sequence[Edge], strips: Sequence[Strip], joint: float) -> tuple[Edge, ...]:
    """Returns where the floor begins for what lies inside a border: a joint inside its strips."""
    inner = {strip.wall: strip.inner for strip in strips}
    return tuple(
        Edge(wall=edge.wall, line=inner[edge.wall].moved(joint), depth=0.0) if edge.wall in inner else edge
        for edge in edges
    )


def strips_of(
    zone: str, room: Room, border: Border, edges: Sequence[Edge], first_line: float, style: LengthStyle
) -> tuple[Strip, ...]:
    """Returns the sides of a border in the order of the walls.

    Args:
        zone: its name.
        room: as adjusted.
        border: as asked for.
        edges: of the room's walls in their order, as the border finds them.
        first_line: radians, direction of the first line.
        style: how lengths are written.

    Raises:
        ZoneMisfitError: a side has no room between its neighbours, or lies over another.
    """
    for wall in room.walls:
        if wall.bulge and wall.name in border.widths:
            raise ZoneMisfitError(
                zone,
                f"wall {wall.name} is an arc",
                "a border along straight walls",
                "name the others as its `walls`, and cover the arc with a zone of its own",
            )
    points = [np.array([corner.x, corner.y]) for corner in room.corners]
    corners = [_corner(edges[n - 1], edges[n], points[n]) for n in range(len(edges))]
    inner = [
        _inner(edge, border, (corners[n], corners[(n + 1) % len(edges)]), first_line)
        if edge.wall in border.widths
        else None
        for n, edge in enumerate(edges)
    ]
    runs = _Runs(room=room, border=border, edges=tuple(edges), inner=tuple(inner), corners=tuple(corners))
    strips = tuple(_strip(zone, runs, n, style) for n, line in enumerate(inner) if line is not None)
    # What they may cover of door reveals may well cross outside the room, where there is no floor.
    inside = shapely.Polygon(room.outline)
    shapes = [shapely.intersection(shapely.Polygon(strip.ring), inside) for strip in strips]
    for n, shape in enumerate(shapes):
        for other, strip in zip(shapes[:n], strips[:n], strict=True):
            if shapely.intersection(shape, other).area > SLIVER_AREA:
                raise _too_wide(zone, f"its sides along {strip.wall} and {strips[n].wall} lie over each other")
    return strips


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Runs:
    """All that a strip's two ends depend on; one entry a wall."""

    room: Room
    border: Border
    edges: tuple[Edge, ...]
    inner: tuple[Straight | None, ...]
    corners: tuple[Points, ...]


def _too_wide(zone: str, found: str) -> ZoneMisfitError:
    return ZoneMisfitError(
        zone, found, "a border that leaves a field inside it", "make it narrower, or name fewer walls"
    )


def _corner(before: Edge, after: Edge, corner: Points) -> Points:
    """Where the lines of two neighbours meet; the room's own corner where they run on straight."""
    if abs(_turn(before, after)) < math.sin(ALONG):
        return corner
    found = crossing(before.line, after.line)
    return corner if found is None else found


def _turn(before: Edge, after: Edge) -> float:
    """Sine of the turn from one wall to the next, over 0 where the corner points out of the room."""
    a, b = before.line.normal, after.line.normal
    return float(a[0] * b[1] - a[1] * b[0])


def _inner(edge: Edge, border: Border, ends: tuple[Points, Points], first_line: float) -> Straight:
    """The inside line along a wall: true to the first line where the border takes the taper, else along the wall."""
    width = border.widths[edge.wall]
    if not border.tapers:
        return edge.line.moved(width)
    quarters = (first_line + math.pi / 2 * quarter for quarter in range(4))
    normal = max((np.array([math.cos(a), math.sin(a)]) for a in quarters), key=lambda n: float(n @ edge.line.normal))
    if float(normal @ edge.line.normal) < math.cos(ALONG):
        return edge.line.moved(width)
    return Straight(normal=normal, reach=min(float(end @ normal) for end in ends) + width)


def _strip(zone: str, runs: _Runs, n: int, style: LengthStyle) -> Strip:
    edge, line = runs.edges[n], runs.inner[n]
    assert line is not None
    grown = line.moved(runs.border.joint_inside)
    start, end = _end(runs, n, at_start=True), _end(runs, n, at_start=False)
    ring = _quad(edge.line, end[0], line, start[0])
    taken = _quad(edge.line, end[1], grown, start[1])
    if ring is None or taken is None:
        width = style.text(runs.border.widths[edge.wall], unit=True, feet=False)
        raise _too_wide(zone, f"wall {edge.wall} is too short for a border {width} wide")
    ends = line.normal @ np.array([runs.corners[n], runs.corners[(n + 1) % len(runs.edges)]]).T
    widths = line.reach - ends
    wall = runs.room.ends(edge.wall)
    ring, taken = _with_recess(ring, edge, wall), _with_recess(taken, edge, wall)
    inside = f"inside of {zone}"
    names = (*(edge.wall,) * (len(ring) - 3), end[2], inside, start[2])
    return Strip(
        wall=edge.wall,
        ring=ring,
        names=names,
        taken=taken,
        inside=inside,
        inner=line,
        joint_inside=runs.border.joint_inside,
        thin=float(widths.min()),
        fat=float(widths.max()),
    )


def _with_recess(quad: Points, edge: Edge, wall: tuple[Points, Points]) -> Points:
    """A strip's ring with what lies beyond the line that it starts from, as far as its wall runs: gap and reveals."""
    if edge.depth <= 0.0:
        return quad
    normal = edge.line.normal
    along = np.array([normal[1], -normal[0]])
    first, last = (float(point @ along) for point in quad[:2])
    low, high = max(first, float(wall[0] @ along)), min(last, float(wall[1] @ along))
    if high - low <= COINCIDENT:
        return quad
    on = [normal * edge.line.reach + along * at for at in (low, high)]
    beyond = [point - edge.depth * normal for point in on]
    before = [quad[0], on[0]] if low > first else [quad[0]]
    after = [on[1], quad[1]] if high < last else [quad[1]]
    return np.array([*before, *beyond, *after, *quad[2:]])


def _quad(*lines: Straight) -> Points | None:
    """The corners of the shape between a far line, an end, an inside line and a start; None where there is none."""
    found = [point for one, other in pairwise((lines[-1], *lines)) if (point := crossing(one, other)) is not None]
    ring = np.array(found)
    if len(found) < len(lines) or not is_simple(ring) or area(ring) <= SLIVER_AREA:
        return None
    normal = lines[2].normal
    return ring if float((ring[2] - ring[3]) @ np.array([normal[1], -normal[0]])) > 0.0 else None


def _end(runs: _Runs, n: int, *, at_start: bool) -> tuple[Straight, Straight, str]:
    """Returns the line that ends a strip at one of its corners, the one that ends what it takes, and the name there."""
    count = len(runs.edges)
    m = (n - 1) % count if at_start else (n + 1) % count
    before, after = (m, n) if at_start else (n, m)
    own, other = runs.edges[n], runs.edges[m]
    line, across = runs.inner[n], runs.inner[m]
    assert line is not None
    corner = runs.corners[after]
    name = runs.room.corners[after].name
    turn = _turn(runs.edges[before], runs.edges[after])
    joint, inside = runs.border.joint, runs.border.joint_inside
    if abs(turn) < math.sin(ALONG):
        on = np.array([own.line.normal[1], -own.line.normal[0]]) * (-1 if at_start else 1)
        square = Straight(normal=on, reach=float(on @ corner))
        return (square.moved(-joint / 2) if across is not None else square), square, f"joint at {name}"
    far = other.line.moved(-other.depth)
    if across is None:
        return (far, far, other.wall) if turn > 0 else (other.line, other.line.moved(inside), f"end at {name}")
    taken = far if turn > 0 else across.moved(inside)
    if runs.border.corners == MITRED:
        meet = crossing(line, across)
        assert meet is not None
        mitre = through(corner, meet)
        away = runs.corners[n if not at_start else (n + 1) % count]
        side = 1 if float(mitre.off(away)) > 0 else -1
        return mitre.moved(side * joint / 2), taken, f"mitre at {name}"
    runs_on = _runs_through(runs, before, after) == n
    if turn > 0:
        return (far if runs_on else across.moved(joint)), taken, other.wall if runs_on else f"butt at {name}"
    return (across if runs_on else other.line.moved(-joint)), taken, f"end at {name}" if runs_on else f"butt at {name}"


def _runs_through(runs: _Runs, before: int, after: int) -> int:
    """Returns which of two neighbours runs through at the corner between them."""
    if runs.border.corners == WOVEN:
        return before
    named = [n for n in (before, after) if runs.edges[n].wall in runs.border.through]
    if len(named) == 1:
        return named[0]
    lengths = {n: math.dist(*runs.room.ends(runs.edges[n].wall)) for n in (before, after)}
    return max((before, after), key=lambda n: (round(lengths[n]), -n))
