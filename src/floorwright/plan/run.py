"""Rooms that run through, made one: a single outline round the floor of them all.

The outline walks the walls of every room. Where two rooms are open to each other it steps from the wall of the one to
the wall of the other: straight over in an open mouth, along the jambs in a doorway. What is left of a wall that is
divided so is called after it, `N left` and `N right`, as seen from its room. A ring of rooms leaves walls in its
middle: they are carried as an obstacle whose edges keep the walls' names.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import atan2, tau

import numpy as np

from floorwright.findings import Finding, Severity, has_error
from floorwright.geometry.measure import area, distance, interior_angles, is_simple
from floorwright.geometry.region import Points
from floorwright.plan.links import Bridge, Stretch, bridges_of
from floorwright.plan.room import Corner, Link, Obstacle, Opening, Room, Wall
from floorwright.plan.run_check import apart, crowded, overlaps
from floorwright.plan.thresholds import thresholds_of
from floorwright.tolerance import AT_CORNER, COINCIDENT
from floorwright.units import LengthStyle

INNER_WALLS = "inner walls"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Edge:
    """A part of the outline, from one corner to the next.

    Attributes:
        start, end: names of its corners.
        wall: as it is called in the run.
    """

    start: str
    end: str
    wall: Wall


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """What is left of a wall between two stretches that are open: from where to where along it, mm."""

    start: float
    end: float
    first: str
    last: str


def run_of_rooms(
    name: str, rooms: Sequence[Room], links: Sequence[Link], style: LengthStyle
) -> tuple[Room | None, tuple[Finding, ...]]:
    """Returns the rooms made one, and what is wrong with them; None where they do not make one floor.

    Frame and first corner are those of the first room. An opening that is linked is no opening of the run: its jambs
    are walls there. Others keep their walls, and what is left of those is where they are in.

    Args:
        name: of the run.
        rooms: each as adjusted, with its openings and obstacles, in one frame.
        links: between them, by names that are there.
        style: how lengths print in findings.
    """
    overlapping = tuple(overlaps(rooms, style))
    if overlapping:
        return None, overlapping
    bridges, trouble = bridges_of(rooms, links, style)
    findings = (*trouble, *apart(rooms, links), *crowded(rooms, bridges))
    if has_error(findings):
        return None, findings
    corners, cuts = _corners(rooms, bridges)
    edges, parts = _edges(rooms, bridges, corners, cuts)
    rings = _rings(edges, corners)
    outer = [ring for ring in rings if area(_places(ring, corners)) > 0.0]
    crossing = [ring for ring in rings if not is_simple(_places(ring, corners))]
    if len(outer) != 1 or crossing:
        return None, (_no_run(crossing or outer),)
    openings, lost = _openings(rooms, links, parts, corners)
    if lost:
        return None, lost
    first = next((n for n, edge in enumerate(outer[0]) if edge.start == rooms[0].corners[0].name), 0)
    ring = (*outer[0][first:], *outer[0][:first])
    inner = [one for one in rings if one is not outer[0]]
    angles = interior_angles(_places(ring, corners))
    run = Room(
        name=name,
        corners=tuple(replace(corners[edge.start], angle=float(at)) for edge, at in zip(ring, angles, strict=True)),
        walls=tuple(edge.wall for edge in ring),
        openings=openings,
        obstacles=(*(obstacle for room in rooms for obstacle in room.obstacles), *_inner_walls(inner, corners)),
        rooms=tuple(rooms),
    )
    # Arcs may cross where straight lines between their ends do not.
    if not is_simple(run.outline):
        return None, (_no_run([ring]),)
    thresholds, beyond = thresholds_of(links, bridges, cuts, corners, run, style)
    return replace(run, thresholds=thresholds), (*findings, *beyond)


Cuts = dict[tuple[int, str], list[tuple[float, float, str, str]]]
"""Of every wall that is open somewhere: from, to (mm along it) and the names of the corners there."""


def _corners(rooms: Sequence[Room], bridges: Sequence[Bridge]) -> tuple[dict[str, Corner], Cuts]:
    """The corners of the run by name, some under two names, and where the walls are open between them.

    In a mouth the corner of one room stands in the wall of the other, or on a corner of it: then the first room's is
    taken. A doorway has its own four, `<opening> right` and `<opening> left` as seen from the room of the opening.
    """
    corners = {corner.name: corner for room in reversed(rooms) for corner in room.corners}
    cuts: Cuts = defaultdict(list)
    for bridge in bridges:
        near, far = bridge.near, bridge.far
        if bridge.is_doorway:
            ends = [_jamb_corners(rooms[side.room], side, corners) for side in (near, far)]
            # With no wall between, the corners of both openings are the same two.
            for own, other in ((ends[0][0], ends[1][1]), (ends[0][1], ends[1][0])):
                if distance(_place(corners[own]), _place(corners[other])) <= COINCIDENT:
                    _make_one(corners, own, other)
        else:
            first = _mouth_corner(rooms, (near, near.start), (far, far.end), corners)
            last = _mouth_corner(rooms, (near, near.end), (far, far.start), corners)
            ends = [(first, last), (last, first)]
        for side, (start, end) in zip((near, far), ends, strict=True):
            cuts[side.room, side.wall].append((side.start, side.end, start, end))
    return corners, cuts


def _mouth_corner(
    rooms: Sequence[Room], near: tuple[Stretch, float], far: tuple[Stretch, float], corners: dict[str, Corner]
) -> str:
    """The corner at one end of a mouth."""
    own, other = (_corner_at(rooms[side.room], side.wall, at) for side, at in (near, far))
    if own and other:
        _make_one(corners, own, other)
    found = own or other
    assert found, "one of two walls ends where they stop facing each other"
    return found


def _make_one(corners: dict[str, Corner], kept: str, other: str) -> None:
    """Has the second corner, and all that it is one with already, stand for the first."""
    gone = corners[other]
    for name in [name for name, corner in corners.items() if corner is gone]:
        corners[name] = corners[kept]


def _corner_at(room: Room, wall: str, at: float) -> str:
    """The corner of a wall that stands at a place along it, or an empty name."""
    found, length = room.wall(wall), distance(*room.ends(wall))
    if at <= AT_CORNER:
        return found.start
    return found.end if at >= length - AT_CORNER else ""


def _jamb_corners(room: Room, side: Stretch, corners: dict[str, Corner]) -> tuple[str, str]:
    """The two corners of an opening, from its wall's start; one that stands in the room's corner is that corner."""
    wall, (start, end) = room.wall(side.wall), room.ends(side.wall)
    length = distance(start, end)
    names = []
    for at, name in ((side.start, f"{side.opening} right"), (side.end, f"{side.opening} left")):
        if at <= COINCIDENT or at >= length - COINCIDENT:
            names.append(wall.start if at <= COINCIDENT else wall.end)
            continue
        x, y = start + at / length * (end - start)
        ends = (room.corner(wall.start), room.corner(wall.end))
        corners[name] = Corner(
            name=name,
            x=float(x),
            y=float(y),
            sd_x=max(corner.sd_x for corner in ends),
            sd_y=max(corner.sd_y for corner in ends),
        )
        names.append(name)
    return names[0], names[1]


def _place(corner: Corner) -> Points:
    return np.array([corner.x, corner.y])


def _places(ring: Sequence[_Edge], corners: dict[str, Corner]) -> Points:
    return np.array([(corners[edge.start].x, corners[edge.start].y) for edge in ring])


Parts = dict[tuple[int, str], list[tuple[_Part, Wall]]]
"""What is left of every wall, from its start on, and the wall that each part is in the run."""


def _edges(
    rooms: Sequence[Room], bridges: Sequence[Bridge], corners: dict[str, Corner], cuts: Cuts
) -> tuple[list[_Edge], Parts]:
    taken = {wall.name for room in rooms for wall in room.walls}
    edges: list[_Edge] = []
    kept: Parts = {}
    for i, room in enumerate(rooms):
        for wall in room.walls:
            parts = _parts(wall, room.length(wall.name), cuts.get((i, wall.name), []), corners)
            names = _names(wall, parts, taken)
            kept[i, wall.name] = [
                (part, replace(wall, name=name, start=part.first, end=part.last))
                for part, name in zip(parts, names, strict=True)
            ]
            edges += [_Edge(start=one.start, end=one.end, wall=one) for _, one in kept[i, wall.name]]
    for bridge in bridges:
        if bridge.is_doorway:
            edges += _jambs(rooms, bridge, corners, cuts)
    return edges, kept


def _parts(
    wall: Wall, length: float, cuts: list[tuple[float, float, str, str]], corners: dict[str, Corner]
) -> list[_Part]:
    """What the open stretches of a wall leave of it, from its start on."""
    left: list[_Part] = []
    at, corner = 0.0, wall.start
    for start, end, first, last in [*sorted(cuts), (length, length, wall.end, wall.end)]:
        names = corners[corner].name, corners[first].name
        if names[0] != names[1]:
            left.append(_Part(start=at, end=start, first=names[0], last=names[1]))
        at, corner = end, last
    return left


def _names(wall: Wall, parts: list[_Part], taken: set[str]) -> list[str]:
    """Names of the parts of a wall, left and right as seen from the room; more than two are counted from the left."""
    if len(parts) == 1:
        return [wall.name]
    count = len(parts)
    words = ["right", "left"] if count == 2 else [str(count - n) for n in range(count)]
    names = [f"{wall.name} {word}" for word in words]
    return [f"{part.first}-{part.last}" if name in taken else name for name, part in zip(names, parts, strict=True)]


def _jambs(rooms: Sequence[Room], bridge: Bridge, corners: dict[str, Corner], cuts: Cuts) -> Iterator[_Edge]:
    """The two jambs of a doorway; they belong to the first of its rooms."""
    near, far = (
        next(cut for cut in cuts[side.room, side.wall] if cut[0] == side.start) for side in (bridge.near, bridge.far)
    )
    for word, start, end in (("right", near[2], far[3]), ("left", far[2], near[3])):
        first, last = corners[start].name, corners[end].name
        if first != last:
            name = f"{bridge.name} jamb {word}"
            wall = Wall(name=name, start=first, end=last, room=rooms[bridge.near.room].name)
            yield _Edge(start=first, end=last, wall=wall)


def _rings(edges: Sequence[_Edge], corners: dict[str, Corner]) -> list[tuple[_Edge, ...]]:
    """The edges joined end to start. Where several leave one corner, the next is the first on the floor's side."""
    leaving: defaultdict[str, list[_Edge]] = defaultdict(list)
    for edge in edges:
        leaving[edge.start].append(edge)

    def way(edge: _Edge) -> float:
        step = _place(corners[edge.end]) - _place(corners[edge.start])
        return atan2(step[1], step[0])

    rings = []
    walked: set[_Edge] = set()
    for edge in edges:
        ring: list[_Edge] = []
        while edge not in walked:
            walked.add(edge)
            ring.append(edge)
            back = way(edge) + tau / 2
            # The floor lies left of every edge: turning clockwise from where one came, what comes first bounds it.
            edge = min(leaving[edge.end], key=lambda one: (back - way(one)) % tau or tau)
        if ring:
            rings.append(tuple(ring))
    return rings


def _no_run(rings: Sequence[tuple[_Edge, ...]]) -> Finding:
    walls = [edge.wall.name for edge in rings[0]] if rings else []
    crossing = len(rings) == 1
    return Finding(
        code="plan-run-crosses",
        severity=Severity.ERROR,
        place="rooms that run through",
        found=f"the outline round them crosses itself, along {', '.join(walls)}"
        if crossing
        else f"their links leave {len(rings)} floors that do not meet",
        expected="one outline round the floor of all rooms",
        remedy="look at the doorways: each must lie between its own two rooms, clear of the walls of others",
        source="yours",
    )


def _openings(
    rooms: Sequence[Room], links: Sequence[Link], parts: Parts, corners: dict[str, Corner]
) -> tuple[tuple[Opening, ...], tuple[Finding, ...]]:
    """The openings that no link uses, each in what is left of its wall; and those that stand where no wall is."""
    linked = {name for link in links for name in link.openings or ()}
    kept: list[Opening] = []
    lost: list[Finding] = []
    for i, room in enumerate(rooms):
        for opening in room.openings:
            if opening.name in linked:
                continue
            end = opening.start + opening.width
            part = next(
                (one for one in parts[i, opening.wall]
                 if one[0].start <= opening.start + AT_CORNER and end - AT_CORNER <= one[0].end),
                None,
            )  # fmt: skip
            if part is None:
                lost.append(_in_mouth(opening, room))
                continue
            whole, left = room.ends(opening.wall), part[1]
            if part[0].start == 0.0:
                kept.append(replace(opening, wall=left.name))
                continue
            length = distance(_place(corners[left.start]), _place(corners[left.end]))
            near = whole[0] + opening.start / distance(*whole) * (whole[1] - whole[0])
            along = float((near - _place(corners[left.start])) @ (whole[1] - whole[0])) / distance(*whole)
            start = min(max(along, 0.0), max(length - opening.width, 0.0))
            kept.append(replace(opening, wall=left.name, start=start))
    return tuple(kept), tuple(lost)


def _in_mouth(opening: Opening, room: Room) -> Finding:
    return Finding(
        code="plan-opening-in-mouth",
        severity=Severity.ERROR,
        place=f"opening {opening.name}",
        found=f"{opening.name} stands where wall {opening.wall} of {room.name} is open to another room",
        expected="an opening in a wall",
        remedy="take the opening out, or measure it again; for a doorway name it in the `openings` of the link",
        source="yours",
    )


def _inner_walls(rings: Sequence[tuple[_Edge, ...]], corners: dict[str, Corner]) -> Iterator[Obstacle]:
    """What stands inside a ring of rooms, as an obstacle."""
    for n, ring in enumerate(rings):
        name = INNER_WALLS if len(rings) == 1 else f"{INNER_WALLS} {n + 1}"
        names = [edge.wall.name for edge in ring]
        outline = _places(ring, corners)[::-1].copy()
        x, y = outline.mean(axis=0)
        yield Obstacle(
            name=name,
            kind="walls",
            outline=outline,
            centre=(float(x), float(y)),
            edges=(*names[-2::-1], names[-1]),
        )
