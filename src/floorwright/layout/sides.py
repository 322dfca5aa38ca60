"""The straight sides of a zone that its cuts are measured to: walls of the room, and lines where it meets a zone."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from floorwright.geometry.measure import distance
from floorwright.geometry.region import Points, Region
from floorwright.geometry.restore import on_circle
from floorwright.plan.room import Room


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Side:
    """A straight side, the zone on its left.

    Attributes:
        name: of the wall (`S`), or of what lies beyond (`border at S`, `rug, near side`).
        start, end: (2,) mm.
        gap: mm by which the zone keeps off it: the perimeter gap at a wall, 0 where a joint was taken off already.
        hidden: whether a taper or a small cut there is seen by nobody.
        wall: whether it is a wall of the room.
        arc: whether it is round; then its two ends tell nothing of the cut.
        is_joint: whether another zone lies beyond it, a joint away.
    """

    name: str
    start: Points
    end: Points
    gap: float
    hidden: bool = False
    wall: bool = True
    arc: bool = False
    is_joint: bool = False


def sides_of_room(room: Room, gap: float) -> tuple[Side, ...]:
    """Returns the walls of a room from corner to corner, for a zone that covers all of it.

    Args:
        room: as adjusted.
        gap: mm, the least perimeter gap.
    """
    return tuple(
        Side(name=wall.name, start=start, end=end, gap=gap, hidden=wall.hidden, arc=bool(wall.bulge))
        for wall in room.walls
        for start, end in [room.ends(wall.name)]
    )


def sides_of_region(region: Region, walls: Mapping[str, bool]) -> tuple[Side, ...]:
    """Returns the edges of a region as sides, gap and joints already off; of several of one name the longest.

    Args:
        region: what a zone covers.
        walls: of the room, by name, each with whether it is hidden.
    """
    longest: dict[str, Side] = {}
    for ring, names in zip(region.rings, region.edges, strict=True):
        for start, end, name in zip(ring, np.roll(ring, -1, axis=0), names, strict=True):
            known = longest.get(name)
            if known is None or distance(start, end) > distance(known.start, known.end):
                circle = region.circles.get(name)
                longest[name] = Side(
                    name=name,
                    start=start,
                    end=end,
                    gap=0.0,
                    hidden=walls.get(name, False),
                    wall=name in walls,
                    arc=circle is not None and on_circle(start, end, circle),
                )
    return tuple(longest.values())
