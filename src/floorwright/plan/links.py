"""Where two rooms meet: the stretches of their walls that are open to each other.

A stretch is measured along each of the two walls from its own start. The walls face each other, so the start of the
stretch on the one lies across from its end on the other.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from floorwright.findings import Finding, Severity
from floorwright.geometry.measure import distance
from floorwright.geometry.region import Points
from floorwright.plan.room import Link, Opening, Room
from floorwright.tolerance import ALONG, AT_CORNER, COINCIDENT
from floorwright.units import LengthStyle

THICKEST: Final = 1500.0
"""mm. Openings farther apart than this are not the two sides of one wall. Our default: common practice, no source."""

FACING: Final = 0.5
"""Part of the narrower of two openings that must lie across from the other for a floor to run through."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A part of one wall.

    Attributes:
        room: index of its room.
        wall: its name.
        start, end: mm along the wall.
        opening: that it is, for a doorway.
    """

    room: int
    wall: str
    start: float
    end: float
    opening: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bridge:
    """Two stretches that are open to each other.

    Attributes:
        name: of the link.
        near, far: of its first and its second room.
    """

    name: str
    near: Stretch
    far: Stretch

    @property
    def is_doorway(self) -> bool:
        """Whether there is a wall's thickness between the two."""
        return bool(self.near.opening)


def bridges_of(
    rooms: Sequence[Room], links: Sequence[Link], style: LengthStyle
) -> tuple[tuple[Bridge, ...], tuple[Finding, ...]]:
    """Returns where rooms are open to each other, and what is wrong with the links that say so.

    Args:
        rooms: in one frame.
        links: between rooms and openings that are there.
        style: how lengths print.
    """
    index = {room.name: i for i, room in enumerate(rooms)}
    found: list[Bridge] = []
    findings: list[Finding] = []
    for link in links:
        i, j = (index[name] for name in link.rooms)
        if link.openings is None:
            mouths = _mouths(link.name, rooms, i, j)
            found += mouths
            findings += [] if mouths else [_no_mouth(rooms[i], rooms[j], style)]
        else:
            doorway = _doorway(link, rooms, (i, j), style)
            if isinstance(doorway, Finding):
                findings.append(doorway)
            else:
                found.append(doorway)
    return tuple(found), tuple(findings)


def _mouths(name: str, rooms: Sequence[Room], i: int, j: int) -> list[Bridge]:
    """Every stretch where a wall of one room and a wall of the other lie face to face on one line."""
    mouths = []
    for near in rooms[i].walls:
        for far in rooms[j].walls:
            if near.bulge or far.bulge:
                continue
            found = _overlap(rooms[i].ends(near.name), rooms[j].ends(far.name))
            if found is None or found[1] - found[0] <= AT_CORNER or abs(found[4]) > AT_CORNER:
                continue
            start, end, far_start, far_end, _ = found
            mouths.append(
                Bridge(
                    name=name,
                    near=Stretch(room=i, wall=near.name, start=start, end=end),
                    far=Stretch(room=j, wall=far.name, start=far_start, end=far_end),
                )
            )
    return mouths


def _overlap(
    near: tuple[Points, Points], far: tuple[Points, Points]
) -> tuple[float, float, float, float, float] | None:
    """The part of a wall that another lies across from: from, to, the same on the other, and the widest between them.

    All mm; outward of the first wall counts positive. None where they do not run against each other within 5 degrees
    (`tolerance.ALONG`).
    """
    length, other = distance(*near), distance(*far)
    along, back = (near[1] - near[0]) / length, (far[1] - far[0]) / other
    outward = np.array([along[1], -along[0]])
    if float(along @ back) > -np.cos(ALONG):
        return None
    first, last = float((far[1] - near[0]) @ along), float((far[0] - near[0]) @ along)
    start, end = max(0.0, first), min(length, last)
    # How far along the other wall those places are, counted from its own start.
    far_start, far_end = ((last - place) / (last - first) * other for place in (end, start))
    apart = [float((far[0] + at * back - near[0]) @ outward) for at in (far_start, far_end)]
    return start, end, far_start, far_end, max(apart, key=abs)


def _doorway(link: Link, rooms: Sequence[Room], pair: tuple[int, int], style: LengthStyle) -> Bridge | Finding:
    assert link.openings is not None
    openings = [_opening(rooms[i], name) for i, name in zip(pair, link.openings, strict=True)]
    sides = [_side(rooms[i], opening) for i, opening in zip(pair, openings, strict=True)]
    found = _overlap(sides[0], sides[1])
    first, second = link.openings
    trouble = ""
    if any(rooms[i].wall(opening.wall).bulge for i, opening in zip(pair, openings, strict=True)):
        trouble = f"{first} or {second} is in a wall that is an arc"
    elif found is None:
        trouble = f"the walls of {first} and {second} do not run side by side"
    elif found[4] < -AT_CORNER:
        trouble = f"{second} lies {style.text(-found[4], unit=True)} inside {link.rooms[0]}, not across the wall"
    elif found[4] > THICKEST:
        trouble = f"{first} and {second} are {style.text(found[4], unit=True)} apart"
    elif found[1] - found[0] < FACING * min(opening.width for opening in openings):
        facing = max(found[1] - found[0], 0.0)
        trouble = f"only {style.text(facing, unit=True)} of {first} lies across from {second}"
    if trouble:
        return Finding(
            code="plan-link-not-facing",
            severity=Severity.ERROR,
            place=f"doorway {link.name}",
            found=trouble,
            expected="the two sides of one doorway, face to face through the wall",
            remedy="look at which wall and corner each opening is measured from, and measure a tie through the doorway",
            source="yours",
        )
    near, far = (
        Stretch(room=i, wall=opening.wall, start=opening.start, end=opening.start + opening.width, opening=opening.name)
        for i, opening in zip(pair, openings, strict=True)
    )
    return Bridge(name=link.name, near=near, far=far)


def _opening(room: Room, name: str) -> Opening:
    return next(opening for opening in room.openings if opening.name == name)


def _side(room: Room, opening: Opening) -> tuple[Points, Points]:
    start, end = room.ends(opening.wall)
    along = (end - start) / max(distance(start, end), COINCIDENT)
    near = start + opening.start * along
    return near, near + opening.width * along


def _no_mouth(near: Room, far: Room, style: LengthStyle) -> Finding:
    found = [_overlap(near.ends(a.name), far.ends(b.name)) for a in near.walls for b in far.walls]
    apart = [abs(one[4]) for one in found if one is not None and one[1] - one[0] > AT_CORNER]
    nearest = f"; the nearest are {style.text(min(apart), unit=True)} apart" if apart else ""
    return Finding(
        code="plan-no-mouth",
        severity=Severity.ERROR,
        place=f"rooms {near.name} and {far.name}",
        found=f"no wall of {near.name} lies on a wall of {far.name}{nearest}",
        expected=f"walls within {style.text(AT_CORNER, unit=True)} of one line where the rooms are open to each other",
        remedy="tie the corners of the mouth to both rooms, or give the link the two `openings` of a doorway",
        source="yours",
    )
