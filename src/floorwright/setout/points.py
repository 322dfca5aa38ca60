"""What a total station sets out: every corner, mark and node with its coordinates."""

import math
from dataclasses import dataclass

from floorwright.control.control import Control
from floorwright.control.square import CENTRE
from floorwright.plan.room import Room
from floorwright.setout.nodes import Node


@dataclass(frozen=True, slots=True, kw_only=True)
class SetOutPoint:
    """A point to set out. x, y: mm east and north in the frame that `frame_words` tells of."""

    name: str
    x: float
    y: float
    what: str


def set_out_points(room: Room, control: Control, nodes: tuple[Node, ...]) -> tuple[SetOutPoint, ...]:
    """Returns the corners of the room, the centre, the marks of the control lines on the walls, and the nodes."""
    corners = [SetOutPoint(name=one.name, x=one.x, y=one.y, what="corner") for one in room.corners]
    centre = SetOutPoint(name=CENTRE, x=control.centre[0], y=control.centre[1], what="centre")
    marks = [
        SetOutPoint(name=mark.name, x=mark.x, y=mark.y, what=f"{line.name} on {mark.on}")
        for line in control.lines
        for mark in line.marks
    ]
    at_nodes = [SetOutPoint(name=node.name, x=node.x, y=node.y, what=node.what) for node in nodes]
    return (*corners, centre, *marks, *at_nodes)


def frame_words(room: Room) -> str:
    """Returns where the coordinates are counted from, and which way east runs.

    In the usual datum the first corner is the origin and the first wall lies along east; else the words give the
    coordinates of the first corner and the bearing of its wall, which say the same of any frame.
    """
    first, wall = room.corners[0], room.walls[0]
    _, end = room.ends(wall.name)
    angle = math.degrees(math.atan2(end[1] - first.y, end[0] - first.x))
    return (
        f"{first.name} is at {first.x:.1f}, {first.y:.1f} mm; {wall.name} runs from it to {wall.end} "
        f"at {angle:.4f} degrees from east, anticlockwise"
    )
