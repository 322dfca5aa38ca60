"""What each of several fields may cover, where the floor breaks between rooms.

The floor is cut along the lines where two fields meet, and each part goes to the field of the room that most of it lies
in. Half of what is kept free between the two comes off either side.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np
import shapely

from floorwright.geometry.inset import inset_parts
from floorwright.geometry.measure import distance
from floorwright.geometry.region import Points, Region
from floorwright.geometry.subtract import split
from floorwright.layout.sides import Side, sides_of_region, sides_of_room
from floorwright.plan.room import Room, Threshold

PAST: Final = 1.0
"""Mm by which a line is carried on past the jambs that it runs between, so that rounding leaves no hair uncut."""


Grounds: TypeAlias = dict[str, tuple[Region, ...]]
"""The parts of each field's ground, by its name."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Meeting:
    """A line where two fields meet.

    Attributes:
        threshold: where it lies.
        zones: on its left and on its right, seen from its start.
        width: mm, what is kept free between them: the joint, or a threshold strip.
        is_strip: whether it is a strip.
    """

    threshold: Threshold
    zones: tuple[str, str]
    width: float
    is_strip: bool

    @property
    def name(self) -> str:
        """What it is called as an edge of either field."""
        return f"threshold {self.threshold.name}"


def grounds(floor: Region, room: Room, fields: Mapping[str, Sequence[str]], meetings: Sequence[Meeting]) -> Grounds:
    """Returns what each field may cover, wall to wall and up to the lines; several parts where its rooms lie apart.

    Args:
        floor: of all rooms.
        room: the rooms made one.
        fields: the rooms of each, by its name.
        meetings: of the fields.
    """
    owner = {name: field for field, names in fields.items() for name in names}
    outlines = [shapely.Polygon(one.outline) for one in room.rooms]
    found: dict[str, list[Region]] = {field: [] for field in fields}
    for part in split(floor, [(_longer(meeting.threshold), meeting.name) for meeting in meetings]):
        shape = shapely.Polygon(part.rings[0], part.rings[1:])
        most = int(np.argmax([round(shapely.intersection(shape, outline).area) for outline in outlines]))
        found[owner[room.rooms[most].name]].append(part)
    return {field: tuple(parts) for field, parts in found.items()}


def _longer(threshold: Threshold) -> Points:
    past = PAST * (threshold.end - threshold.start) / distance(threshold.start, threshold.end)
    return np.array([threshold.start - past, threshold.start, threshold.end, threshold.end + past])


def kept_off(ground: Region, meetings: Sequence[Meeting], gap: float) -> tuple[Region, ...]:
    """Returns what is left of a ground with a gap at the walls, and half of what is kept free at the lines.

    Args:
        ground: of one field.
        meetings: all of them.
        gap: mm; 0 for wall to wall.
    """
    half = {meeting.name: meeting.width / 2 for meeting in meetings}
    return inset_parts(ground, {name: half.get(name, gap) for names in ground.edges for name in names})


def sides_of_ground(ground: Region, region: Region, room: Room, gap: float, elsewhere: Sequence[Region]) -> list[Side]:
    """Returns the walls that bound a field, from corner to corner or as far as its ground goes, and its thresholds.

    Args:
        ground: of the field, wall to wall.
        region: what it covers.
        room: the rooms made one.
        gap: mm, the least perimeter gap.
        elsewhere: the grounds of the other fields.
    """
    own = {name for names in ground.edges for name in names}
    shared = own & {name for other in elsewhere for names in other.edges for name in names}
    walls = {wall.name: wall.hidden for wall in room.walls}
    ends = {side.name: side for side in sides_of_region(ground, walls)}
    lines = [side for side in sides_of_region(region, walls) if not side.wall and side.name in shared]
    whole = [side for side in sides_of_room(room, gap) if side.name in own]
    cut = {
        side.name: Side(name=side.name, start=end.start, end=end.end, gap=gap, hidden=side.hidden, arc=side.arc)
        for side in whole
        if side.name in shared
        for end in [ends[side.name]]
    }
    return [*(cut.get(side.name, side) for side in whole), *lines]
