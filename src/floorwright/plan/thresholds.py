"""The lines across doorways and mouths between rooms, where a floor may break."""

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence

import numpy as np
import shapely

from floorwright.findings import Finding, Severity
from floorwright.geometry.measure import distance
from floorwright.geometry.region import Points
from floorwright.plan.links import Bridge, Stretch
from floorwright.plan.room import Corner, Link, Room, Threshold
from floorwright.tolerance import AT_CORNER, COINCIDENT
from floorwright.units import LengthStyle

Ends = Mapping[tuple[int, str], Sequence[tuple[float, float, str, str]]]
"""Of every wall that is open somewhere: from, to (mm along it) and the names of the corners there."""


def thresholds_of(
    links: Sequence[Link],
    bridges: Sequence[Bridge],
    open_walls: Ends,
    corners: Mapping[str, Corner],
    run: Room,
    style: LengthStyle,
) -> tuple[tuple[Threshold, ...], tuple[Finding, ...]]:
    """Returns the line across each bridge, and what is wrong with where a person wants it.

    Args:
        links: that the bridges are of.
        bridges: in their order.
        open_walls: see there.
        corners: of the run by name.
        run: the rooms made one.
        style: how lengths print in findings.
    """
    by_name = {link.name: link for link in links}
    count = Counter(bridge.name for bridge in bridges)
    seen: defaultdict[str, int] = defaultdict(int)
    found: list[Threshold] = []
    findings: list[Finding] = []
    for bridge in bridges:
        link = by_name[bridge.name]
        seen[link.name] += 1
        name = link.name if count[link.name] == 1 else f"{link.name} {seen[link.name]}"
        near, far = (_ends(side, open_walls, corners) for side in (bridge.near, bridge.far))
        line = _in_doorway(link, near, far) if bridge.is_doorway else _in_mouth(link, near, run)
        if line is None:
            findings.append(_beyond(link, near, far, bridge.is_doorway, style))
        else:
            found.append(Threshold(name=name, link=link.name, rooms=link.rooms, start=line[0], end=line[1]))
    return tuple(found), tuple(findings)


def _ends(side: Stretch, open_walls: Ends, corners: Mapping[str, Corner]) -> tuple[Points, Points]:
    """The two corners of a stretch, from its wall's start."""
    cut = next(cut for cut in open_walls[side.room, side.wall] if cut[0] == side.start)
    first, last = (corners[name] for name in cut[2:])
    return np.array([first.x, first.y]), np.array([last.x, last.y])


def _depth(near: tuple[Points, Points], far: tuple[Points, Points]) -> float:
    """How thick the wall is that a doorway leads through, mm, in the middle of it."""
    return float(np.hypot(*(far[0] + far[1] - near[0] - near[1]))) / 2


def _in_doorway(link: Link, near: tuple[Points, Points], far: tuple[Points, Points]) -> tuple[Points, Points] | None:
    """The line from jamb to jamb; None where it is wanted beyond the wall."""
    depth = _depth(near, far)
    at = depth / 2 if link.at is None else link.at
    if at > depth + AT_CORNER:
        return None
    # The stretches face each other: the start of the one lies across from the end of the other.
    if at >= depth - COINCIDENT:
        return far[1], far[0]
    share = at / depth
    return near[0] + share * (far[1] - near[0]), near[1] + share * (far[0] - near[1])


def _in_mouth(link: Link, near: tuple[Points, Points], run: Room) -> tuple[Points, Points] | None:
    """The line along the mouth, or so far into the second room; None where that is no longer in it."""
    if not link.at:
        return near
    along = (near[1] - near[0]) / distance(*near)
    middle = (near[0] + near[1]) / 2 + link.at * np.array([along[1], -along[0]])
    far_room = next(room for room in run.rooms if room.name == link.rooms[1])
    if not shapely.Polygon(far_room.outline).contains(shapely.Point(middle)):
        return None
    reach = float(np.hypot(*np.ptp(run.outline, axis=0)))
    across = shapely.LineString([middle - reach * along, middle + reach * along])
    parts = shapely.get_parts(shapely.intersection(shapely.Polygon(run.outline), across))
    on_floor = min(parts, key=lambda part: part.distance(shapely.Point(middle)))
    start, end = shapely.get_coordinates(on_floor)[[0, -1]]
    return (start, end) if float((end - start) @ along) > 0.0 else (end, start)


def _beyond(
    link: Link, near: tuple[Points, Points], far: tuple[Points, Points], is_doorway: bool, style: LengthStyle
) -> Finding:
    depth = style.text(_depth(near, far), unit=True)
    first, second = link.rooms
    return Finding(
        code="plan-break-beyond",
        severity=Severity.ERROR,
        place=f"doorway {link.name}" if is_doorway else f"rooms {first} and {second}",
        found=f"the floor is to break {style.entered_text(link.at or 0.0, unit=True)} from the face in {first}",
        expected=f"a line in the doorway, which is {depth} deep" if is_doorway else f"a line in {second}",
        remedy="measure `at` from the face of the first room's wall, or leave it out for the middle of the doorway",
        source="yours",
    )
