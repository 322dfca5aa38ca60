"""A room with one wall moved, as though it were built a little longer or shorter there."""

from dataclasses import replace

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.measure import is_simple
from floorwright.geometry.region import Points
from floorwright.plan.room import Opening, Room
from floorwright.tolerance import ALONG


def with_wall_moved(room: Room, wall: str, by: float) -> Room:
    """Returns the room with a wall moved out by `by` mm, parallel to itself; the walls beside it grow or shrink.

    An arc keeps its shape: where its ends come to lie farther apart it is as much larger.
    Openings and obstacles stay where they are on the floor; those in the wall itself move with it.

    Args:
        room: as adjusted.
        wall: its name.
        by: mm, under 0 for a wall moved in.

    Raises:
        FloorwrightValueError: if a wall beside it is an arc, if one beside it runs on nearly straight, or nothing is
            left of one.
    """
    number = next(n for n, one in enumerate(room.walls) if one.name == wall)
    count = len(room.walls)
    if any(room.walls[(number + step) % count].bulge for step in (-1, 1)):
        raise FloorwrightValueError(f"a wall beside {wall} is an arc, and how it would run on cannot be told")
    outline = np.array([(corner.x, corner.y) for corner in room.corners])
    before, start, end, after = (outline[(number + step) % count] for step in (-1, 0, 1, 2))
    run = (end - start) / np.hypot(*(end - start))
    out = np.array([run[1], -run[0]])
    moved = outline.copy()
    moved[number] = start + _beside(start - before, out, by)
    moved[(number + 1) % count] = end + _beside(end - after, out, by)
    lengths = np.einsum("ij,ij->i", np.roll(moved, -1, axis=0) - moved, np.roll(outline, -1, axis=0) - outline)
    if bool((lengths <= 0).any()) or not is_simple(moved):
        raise FloorwrightValueError(f"moving wall {wall} by {by:g} leaves nothing of a wall beside it")
    corners = tuple(replace(corner, x=float(x), y=float(y)) for corner, (x, y) in zip(room.corners, moved, strict=True))
    shifts = {
        one.name: float(np.hypot(*(moved[n] - outline[n]))) * _sign(moved[n] - outline[n], outline, n)
        for n, one in enumerate(room.walls)
    }
    openings = tuple(_kept(opening, shifts[opening.wall]) for opening in room.openings)
    return replace(room, corners=corners, openings=openings)


def _beside(run: Points, out: Points, by: float) -> Points:
    """How far the corner at the end of a neighbouring wall goes along it, when the wall moves out."""
    unit = run / np.hypot(*run)
    steep = float(unit @ out)
    if abs(steep) < np.sin(ALONG):
        raise FloorwrightValueError("a wall beside it runs on nearly straight")
    return np.asarray(unit * (by / steep))


def _sign(step: Points, outline: Points, number: int) -> float:
    """1 where a wall's start corner moved back along it, so that it is longer before its openings; -1 the other way."""
    along = outline[(number + 1) % len(outline)] - outline[number]
    return -1.0 if float(step @ along) > 0 else 1.0


def _kept(opening: Opening, longer: float) -> Opening:
    return replace(opening, start=opening.start + longer)
