"""The floor of a room, wall to wall: into the door reveals, round the obstacles."""

import math

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.arc import Arc, flat
from floorwright.geometry.measure import is_inside_ring, is_simple, ring_gap
from floorwright.geometry.region import Circle, Points, Region
from floorwright.geometry.subtract import subtract
from floorwright.plan.room import Obstacle, Opening, Room
from floorwright.tolerance import ARC, COINCIDENT, STRIP

PAST = 1.0
"""Mm by which what stands against a wall is carried on past it before it is cut out of the floor."""


def floor_region(room: Room) -> Region:
    """Returns the floor of a room wall to wall, mm, with a name on every edge.

    Edges of the walls carry the walls' names; straight edges stand for arcs, within `tolerance.ARC` and never past the
    wall, and the region's `circles` say for which. An opening with a reveal adds a rectangle of its width and reveal
    beyond the face of its wall, with the edges `<name> reveal right`, `<name> threshold` and `<name> reveal left` (left
    and right as seen from the room); the wall's name stays on what is left of it on both sides. An obstacle that stands
    clear is a hole whose edges all carry its name; one that touches a wall or another obstacle is cut out of the floor.

    Raises:
        FloorwrightValueError: no floor comes of it (an opening runs past its wall or into another, an obstacle cuts
            the floor in two or covers it). `plan.check.check_room` tells the person first.
    """
    outer, names = _outline_with_reveals(room)
    if not is_simple(outer):
        raise FloorwrightValueError(f"the outline of {room.name} and its reveals cross")
    circles = {wall.name: arc.circle for wall in room.walls if (arc := room.arc(wall.name))}
    for obstacle in room.obstacles:
        if obstacle.radius is not None:
            circles[obstacle.name] = Circle(centre=obstacle.centre, radius=obstacle.radius, hollow=False)
    floor = Region(rings=(outer,), edges=(names,), circles=circles)
    if _all_clear(outer, room.obstacles):
        holes = tuple(obstacle.outline[::-1].copy() for obstacle in room.obstacles)
        around = tuple(_backwards(obstacle.edge_names) for obstacle in room.obstacles)
        return Region(rings=(outer, *holes), edges=(names, *around), circles=circles)
    pieces = [(_past_walls(obstacle.outline, outer), obstacle.edge_names) for obstacle in room.obstacles]
    parts = subtract(floor, pieces)
    if len(parts) != 1:
        raise FloorwrightValueError(f"the obstacles leave {len(parts)} floors in {room.name}, not one")
    return parts[0]


def _backwards(names: tuple[str, ...]) -> tuple[str, ...]:
    """The names of the edges of a ring that is walked the other way, from its last point."""
    return (*names[-2::-1], names[-1])


def _outline_with_reveals(room: Room) -> tuple[Points, tuple[str, ...]]:
    points: list[Points] = []
    names: list[str] = []
    for wall in room.walls:
        length = room.length(wall.name)
        at = 0.0
        for opening in _with_reveal(room, wall.name):
            far = opening.start + opening.width
            if opening.start < -COINCIDENT or far > length + COINCIDENT:
                raise FloorwrightValueError(f"{opening.name} runs past wall {wall.name}")
            _add(points, names, _face(room, wall.name, at, opening.start), wall.name)
            near, beyond = room.place(wall.name, opening.start), room.place(wall.name, far)
            across = (beyond - near) / math.dist(beyond, near)
            step = opening.reveal * np.array([across[1], -across[0]])
            points += [near, near + step, beyond + step]
            names += [f"{opening.name} reveal right", f"{opening.name} threshold", f"{opening.name} reveal left"]
            at = far
        _add(points, names, _face(room, wall.name, at, length), wall.name)
    return _without_repeats(np.array(points), names)


def _face(room: Room, wall: str, start: float, end: float) -> Points:
    """The face of a part of a wall, without its end, (n, 2) mm."""
    arc = room.arc(wall)
    if arc is None or end - start <= COINCIDENT:
        return room.place(wall, start)[None]
    part = Arc(start=arc.at(start), end=arc.at(end), bulge=math.tan((end - start) / arc.length * arc.sweep / 4.0))
    return flat(part, ARC)


def _add(points: list[Points], names: list[str], face: Points, name: str) -> None:
    points.extend(face)
    names.extend([name] * len(face))


def _with_reveal(room: Room, wall: str) -> list[Opening]:
    found = [opening for opening in room.openings if opening.wall == wall and opening.reveal > COINCIDENT]
    return sorted(found, key=lambda opening: (opening.start, opening.name))


def _without_repeats(points: Points, names: list[str]) -> tuple[Points, tuple[str, ...]]:
    """Drops edges of no length, which an opening that starts or ends at a corner leaves."""
    after = np.roll(points, -1, axis=0)
    long_enough = np.hypot(*(after - points).T) > COINCIDENT
    kept = np.flatnonzero(long_enough)
    return points[kept], tuple(names[index] for index in kept)


def _past_walls(ring: Points, outer: Points) -> Points:
    """An obstacle's ring with the points that stand against the outline carried on past it.

    A column that is measured from its wall stands on it but for rounding, and one in a corner but for how square the
    corner was taken: what is thinner than `STRIP` between them is no floor, and no hair of it may be left.
    """
    run = np.roll(outer, -1, axis=0) - outer
    length = np.hypot(run[:, 0], run[:, 1])
    outward = np.column_stack([run[:, 1], -run[:, 0]]) / length[:, None]
    away = ring[:, None, :] - outer[None, :, :]
    along = (away * run).sum(axis=2) / length
    near = (np.abs((away * outward).sum(axis=2)) <= STRIP) & (along > -STRIP) & (along < length + STRIP)
    return np.asarray(ring + PAST * (near[:, :, None] * outward).sum(axis=1))


def _all_clear(outer: Points, obstacles: tuple[Obstacle, ...]) -> bool:
    """Whether every obstacle stands inside the outline, clear of it and of the others."""
    for index, obstacle in enumerate(obstacles):
        ring = obstacle.outline
        if not bool(np.all(is_inside_ring(ring, outer))) or ring_gap(ring, outer) <= STRIP:
            return False
        for other in obstacles[:index]:
            one_in_other = is_inside_ring(ring[0], other.outline)[0] or is_inside_ring(other.outline[0], ring)[0]
            if one_in_other or ring_gap(ring, other.outline) <= COINCIDENT:
                return False
    return True
