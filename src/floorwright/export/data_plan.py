"""The plan as data, enough to draw it: walls, openings, obstacles, and the floor that is covered."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from floorwright.export.data import number

if TYPE_CHECKING:
    from floorwright.export.data import Data
    from floorwright.geometry.region import Points
    from floorwright.job.solution import Solution
    from floorwright.plan.room import Opening, Room


def plan_data(solution: Solution) -> Data | None:
    """Returns the room as adjusted, with the edges that stand for its arcs; None where the readings fix none."""
    room = solution.room
    if room is None:
        return None
    return {
        "corners": [
            {"name": corner.name, "x_mm": number(corner.x), "y_mm": number(corner.y)} for corner in room.corners
        ],
        "outline_mm": _ring(room.outline),
        "walls": [
            {
                "name": wall.name,
                "start": wall.start,
                "end": wall.end,
                "length_mm": number(room.length(wall.name)),
                "middle_mm": [number(value) for value in room.place(wall.name, room.length(wall.name) / 2)],
                "arc": bool(wall.bulge),
                "hidden": wall.hidden,
            }
            for wall in room.walls
        ],
        "openings": [_opening(room, opening) for opening in room.openings],
        "obstacles": [
            {
                "name": obstacle.name,
                "kind": obstacle.kind,
                "outline_mm": _ring(obstacle.outline),
                "centre_mm": [number(value) for value in obstacle.centre],
                "radius_mm": None if obstacle.radius is None else number(obstacle.radius),
            }
            for obstacle in room.obstacles
        ],
        "floor_mm": [_ring(ring) for ring in solution.region.rings] if solution.region else [],
    }


def _length(room: Room, wall: str) -> float:
    start, end = room.ends(wall)
    return float(np.hypot(*(end - start)))


def _opening(room: Room, opening: Opening) -> Data:
    start, end = room.ends(opening.wall)
    along = (end - start) / _length(room, opening.wall)
    near = start + opening.start * along
    far = near + opening.width * along
    return {
        "name": opening.name,
        "wall": opening.wall,
        "start_mm": [number(value) for value in near],
        "end_mm": [number(value) for value in far],
        "reveal_mm": number(opening.reveal),
    }


def _ring(ring: Points) -> list[list[float]]:
    return [[number(x), number(y)] for x, y in ring]
