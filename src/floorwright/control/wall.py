"""Walls and openings as control looks at them: their direction, their middle, the points across a door."""

import math

from floorwright.control.sight import Point
from floorwright.plan.room import Opening, Room


def wall_angle(room: Room, wall: str) -> float:
    """Returns the direction of a wall from its start to its end, the room on its left, radians."""
    start, end = room.ends(wall)
    return math.atan2(end[1] - start[1], end[0] - start[0])


def wall_middle(room: Room, wall: str) -> Point:
    """Returns the middle of a wall, corner to corner, mm."""
    start, end = room.ends(wall)
    return float(start[0] + end[0]) / 2, float(start[1] + end[1]) / 2


def opening_at(room: Room, opening: Opening, share: float = 0.5) -> Point:
    """Returns a point across an opening on the face of its wall, 0 at the side nearer the wall's start, mm."""
    x, y = room.place(opening.wall, opening.start + share * opening.width)
    return float(x), float(y)


def opening_angle(room: Room, opening: Opening) -> float:
    """Returns the direction across an opening, from the side nearer its wall's start to the other, radians."""
    if not room.wall(opening.wall).bulge:
        return wall_angle(room, opening.wall)
    (ax, ay), (bx, by) = opening_at(room, opening, 0.0), opening_at(room, opening, 1.0)
    return math.atan2(by - ay, bx - ax)


def find_opening(room: Room, name: str) -> Opening | None:
    """Returns the opening of that name, the first one where no name is given, None where there is none."""
    return next((opening for opening in room.known_openings if name in ("", opening.name)), None)
