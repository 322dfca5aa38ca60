"""Rooms and walls by the names that a job calls them: a wall by its own, or its two corners in either order."""

from collections.abc import Iterator
from typing import Any

from floorwright.job.model import Job, Room, Survey
from floorwright.job.model.values import ends


def rooms_of(job: Job) -> Iterator[Survey | Room]:
    """Yields what was booked of each room's outline, the one under `[survey]` first."""
    yield job.survey
    yield from job.rooms


def anticlockwise(room: Survey | Room) -> tuple[str, ...]:
    """Returns the corners of a room, anticlockwise; of an outline booked the other way the last comes first."""
    return room.outline if room.direction == "anticlockwise" else room.outline[::-1]


def corners_of(job: Job) -> tuple[str, ...]:
    """Returns the corners of every room, each once, room by room."""
    return tuple(dict.fromkeys(name for room in rooms_of(job) for name in room.outline))


def has_lost_rooms(job: Job, original: dict[str, Any]) -> bool:
    """Returns whether rooms of a file are left out of the job for what is wrong with them, which is told already."""
    rooms = original.get("rooms")
    return (len(rooms) if isinstance(rooms, list) else int(rooms is not None)) > len(job.rooms)


def walls_of(job: Job) -> dict[str, tuple[str, str]]:
    """Returns every wall's own name and its corners, anticlockwise; an unnamed wall is called `SW-SE` after them.

    Where two rooms have the same wall, which is no wall then, its corners are in the order of the first.
    """
    named = {frozenset(ends(pair)): name for name, pair in job.survey.walls.items()}
    walls: dict[str, tuple[str, str]] = {}
    for room in rooms_of(job):
        corners = anticlockwise(room)
        for wall in zip(corners, (*corners[1:], *corners[:1]), strict=True):
            walls.setdefault(named.get(frozenset(wall), "-".join(wall)), wall)
    return walls


def own_name(job: Job, called: str) -> str | None:
    """Returns a wall's own name, given that or its corners in either order; None if no wall is called so."""
    walls = walls_of(job)
    if called in walls:
        return called
    corners = frozenset(called.split("-"))
    return next((name for name, wall in walls.items() if frozenset(wall) == corners), None)


def call_by_own_names(data: dict[str, Any], job: Job) -> None:
    """Changes the tables of a file to call every wall by its own name.

    A first line parallel to no wall in particular gets the first wall of the outline.

    Args:
        data: of which nothing is wrong any more.
        job: read from it.
    """

    def rename(table: dict[str, Any], key: str) -> None:
        if key in table:
            table[key] = own_name(job, table[key]) or table[key]

    control = data.setdefault("control", {})
    first_line = control.setdefault("first_line", {"by": "parallel"})
    walls = list(walls_of(job))
    if first_line["by"] == "parallel" and walls:
        first_line.setdefault("wall", walls[0])
    survey_arcs = data.get("survey", {}).get("arcs", ())
    placed = [table for kind in ("openings", "obstacles", "free") for table in data.get(kind, ())]
    for table in (*placed, *survey_arcs, first_line, control.get("centre", {})):
        rename(table, "wall")
    for zone in data.get("zones", ()):
        rename(zone, "along_wall")
    aims = data.get("aims", {})
    listed = [(first_line, "walls"), (aims, "hidden"), *((aim, "walls") for aim in aims.get("order", ()))]
    for aim in aims.get("order", ()):
        rename(aim, "on")
    listed += [(zone, "angle_walls") for zone in data.get("zones", ())]
    for table, key in listed:
        if key in table:
            table[key] = [own_name(job, called) or called for called in table[key]]
