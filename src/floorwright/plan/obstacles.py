"""Columns and pipes from how a person measures them: along a wall from a corner, and out from it."""

import math

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.plan.room import Obstacle, Room
from floorwright.tolerance import CHORD


def column(
    room: Room, *, name: str, wall: str, start: str, along: float, out: float, length: float, width: float
) -> Obstacle:
    """Returns a rectangle parallel to a wall.

    Args:
        room: that it stands in.
        name: of the column.
        wall: that it is measured from; of an arc the line between its corners.
        start: the corner of that wall where the tape's zero is held.
        along: mm along the wall from there to the near side.
        out: mm from the wall's face to the near side, into the room; 0 for a column built on to the wall.
        length: mm along the wall, over zero.
        width: mm out from the wall, over zero.

    Raises:
        FloorwrightValueError: `start` is no corner of the wall, or a size is not over zero.
    """
    if length <= 0.0 or width <= 0.0:
        raise FloorwrightValueError(f"{name}: a column needs a length and a width over zero")
    zero, along_wall, into_room = _frame(room, wall, start)
    near = zero + along * along_wall + out * into_room
    far = near + length * along_wall
    ring = np.array([near, far, far + width * into_room, near + width * into_room])
    if along_wall[0] * into_room[1] - along_wall[1] * into_room[0] < 0.0:
        ring = ring[::-1].copy()
    x, y = ring.mean(axis=0)
    return Obstacle(name=name, kind="column", outline=ring, centre=(float(x), float(y)))


def pipe(
    room: Room, *, name: str, wall: str, start: str, along: float, out: float, diameter: float, kind: str = "pipe"
) -> Obstacle:
    """Returns a round obstacle, flattened by `circle`: a pipe or a round column.

    Args:
        room, name, wall, start: as for `column`.
        along: mm along the wall from the corner to the centre.
        out: mm from the wall's face to the centre.
        diameter: mm, over zero.
        kind: `pipe` or `round column`.

    Raises:
        FloorwrightValueError: `start` is no corner of the wall, or the diameter is not over zero.
    """
    if diameter <= 0.0:
        raise FloorwrightValueError(f"{name}: a {kind} needs a diameter over zero")
    zero, along_wall, into_room = _frame(room, wall, start)
    x, y = (float(value) for value in zero + along * along_wall + out * into_room)
    outline = circle((x, y), diameter / 2)
    return Obstacle(name=name, kind=kind, outline=outline, centre=(x, y), radius=diameter / 2)


def circle(centre: tuple[float, float], radius: float) -> Points:
    """Returns a regular polygon round a circle, (n, 2) mm, anticlockwise, its sides touching the circle.

    A tile cut to it clears the pipe, by at most `tolerance.CHORD` at the polygon's corners. n is the least multiple
    of four that keeps to that.
    """
    quarter = math.acos(radius / (radius + CHORD))
    count = max(8, 4 * math.ceil(math.pi / quarter / 4))
    angles = 2 * math.pi * (np.arange(count) + 0.5) / count
    out = radius / math.cos(math.pi / count)
    return np.column_stack([centre[0] + out * np.cos(angles), centre[1] + out * np.sin(angles)])


def _frame(room: Room, wall: str, start: str) -> tuple[Points, Points, Points]:
    """The corner that is measured from, the direction away from it along the wall, and the one into the room."""
    found = room.wall(wall)
    first, last = room.ends(wall)
    if start not in (found.start, found.end):
        raise FloorwrightValueError(f"{start} is no corner of wall {wall}: it runs from {found.start} to {found.end}")
    along = (last - first) / float(np.hypot(*(last - first)))
    into = np.array([-along[1], along[0]])
    return (first, along, into) if start == found.start else (last, -along, into)
