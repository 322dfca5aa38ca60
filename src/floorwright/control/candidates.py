"""First lines and centres that a setter would think of, to be held side by side."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import Final

from floorwright.control.choices import Centre, FirstLine, SlabJoint
from floorwright.control.sight import clear_run, is_clear, step
from floorwright.control.wall import opening_at, wall_angle, wall_middle
from floorwright.geometry.measure import distance
from floorwright.geometry.region import Region
from floorwright.plan.room import Opening, Room
from floorwright.tolerance import ALONG, TOUCH

PAIRS: Final = 3
"""Pairs of walls across from each other that are thought of, the longest first (our default)."""

LOOKS: Final = 9
"""Places along a wall that are looked at from a door, to tell how much of it is seen."""

OFF_WALL: Final = 1.0
"""mm in front of a wall at which it is looked at, so that the wall itself hides nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A first line and a centre.

    Attributes:
        name: in trade words.
        first, centre: as a person would choose them.
    """

    name: str
    first: FirstLine
    centre: Centre


def candidates(room: Room, region: Region, slab_joints: tuple[SlabJoint, ...] = ()) -> tuple[Candidate, ...]:
    """Returns the first lines and centres that a room offers, each in trade words.

    Thought of are the longest wall in sight, with its own middle and with the middle of what is seen; the middles of
    walls across from each other, joined; such walls' mean; the axis of every door; the sight line from the entrance,
    which is the first door booked; and every joint in the slab.

    Args:
        room: as adjusted.
        region: its floor with holes.
        slab_joints: that are there already.
    """
    return tuple(_candidates(room, region, slab_joints))


def _candidates(room: Room, region: Region, slab_joints: tuple[SlabJoint, ...]) -> Iterator[Candidate]:
    middle, seen = Centre(by="mid-point"), Centre(by="visual")
    long = longest_in_sight(room, region)
    along = FirstLine(by="parallel", wall=long)
    yield Candidate(name=f"parallel to {long}, centred on it", first=along, centre=middle)
    yield Candidate(name=f"parallel to {long}, centred on what is seen", first=along, centre=seen)
    for start, end in across(room, region):
        line = FirstLine(by="mid-points", walls=(start, end))
        yield Candidate(name=f"middle of {start} to middle of {end}", first=line, centre=middle)
        mean = FirstLine(by="mean", walls=(start, end))
        yield Candidate(name=f"mean of {start} and {end}", first=mean, centre=middle)
    for opening in room.openings:
        axis = FirstLine(by="opening", opening=opening.name)
        yield Candidate(name=f"in line with {opening.name}", first=axis, centre=middle)
    for opening in room.openings[:1]:
        sight = FirstLine(by="sight", opening=opening.name)
        yield Candidate(name=f"sight line from {opening.name}", first=sight, centre=seen)
    for joint in slab_joints:
        in_slab = FirstLine(by="slab joint", points=joint.ends, slab_joint=joint.name)
        yield Candidate(name=f"along {joint.name}", first=in_slab, centre=middle)


def longest_in_sight(room: Room, region: Region) -> str:
    """Returns the wall of which the greatest length is seen from the first door; the longest where there is no door."""
    lengths = {wall.name: distance(*room.ends(wall.name)) for wall in room.walls}
    if room.openings:
        door = room.openings[0]
        lengths = {wall: length * _share_seen(room, region, wall, door) for wall, length in lengths.items()}
    return max(lengths, key=lambda wall: round(lengths[wall] / TOUCH))


def _share_seen(room: Room, region: Region, wall: str, door: Opening) -> float:
    """How much of a wall is seen from the middle of a door, 0 to 1; of the door's own wall all that is in front of it
    counts, as a person looks along it when they come in."""
    inward = wall_angle(room, door.wall) + math.pi / 2
    eye = step(opening_at(room, door), inward, OFF_WALL)
    (x, y), (u, v) = room.ends(wall)
    out = wall_angle(room, wall) + math.pi / 2
    shares = [(number + 0.5) / LOOKS for number in range(LOOKS)]
    looks = [step((float(x + share * (u - x)), float(y + share * (v - y))), out, OFF_WALL) for share in shares]
    return sum(is_clear(region, eye, look) for look in looks) / LOOKS


def across(room: Room, region: Region) -> tuple[tuple[str, str], ...]:
    """Returns pairs of walls that face each other across clear floor, within 5 degrees, those of most length first."""
    found = []
    for first, second in combinations([wall.name for wall in room.walls], 2):
        lean = math.remainder(wall_angle(room, first) - wall_angle(room, second) - math.pi, math.tau)
        if abs(lean) > ALONG or not _faces(room, region, first, second):
            continue
        found.append((round((distance(*room.ends(first)) + distance(*room.ends(second))) / TOUCH), first, second))
    found.sort(key=lambda pair: -pair[0])
    return tuple((first, second) for _, first, second in found[:PAIRS])


def _faces(room: Room, region: Region, first: str, second: str) -> bool:
    """Whether square out from the middle of the one wall, the other's line is reached over clear floor."""
    out = wall_angle(room, first) + math.pi / 2
    base = wall_middle(room, first)
    (x, y), _ = room.ends(second)
    gap = (float(x) - base[0]) * math.cos(out) + (float(y) - base[1]) * math.sin(out)
    ahead = clear_run(region, step(base, out, OFF_WALL), out) + OFF_WALL
    return gap > 0 and ahead >= gap * math.cos(ALONG) * (1 - math.tan(ALONG))
