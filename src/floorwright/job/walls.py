"""Walls by the names that a job calls them: its own name, or its two corners in either order."""

from typing import Any

from floorwright.job.fields import ends
from floorwright.job.model import Survey


def walls_of(survey: Survey) -> dict[str, tuple[str, str]]:
    """Returns every wall's own name and its corners, anticlockwise; an unnamed wall is called `SW-SE` after them."""
    corners = survey.outline if survey.direction == "anticlockwise" else survey.outline[::-1]
    named = {frozenset(ends(pair)): name for name, pair in survey.walls.items()}
    walls = zip(corners, (*corners[1:], *corners[:1]), strict=True)
    return {named.get(frozenset(wall), "-".join(wall)): wall for wall in walls}


def own_name(survey: Survey, called: str) -> str | None:
    """Returns a wall's own name, given that or its corners in either order; None if no wall is called so."""
    walls = walls_of(survey)
    if called in walls:
        return called
    corners = frozenset(called.split("-"))
    return next((name for name, wall in walls.items() if frozenset(wall) == corners), None)


def call_by_own_names(data: dict[str, Any], survey: Survey) -> None:
    """Changes the tables of a file to call every wall by its own name.

    A first line parallel to no wall in particular gets the first wall of the outline.

    Args:
        data: of which nothing is wrong any more.
        survey: read from it.
    """

    def rename(table: dict[str, Any], key: str) -> None:
        if key in table:
            table[key] = own_name(survey, table[key]) or table[key]

    control = data.setdefault("control", {})
    first_line = control.setdefault("first_line", {"by": "parallel"})
    walls = list(walls_of(survey))
    if first_line["by"] == "parallel" and walls:
        first_line.setdefault("wall", walls[0])
    arcs = data.get("survey", {}).get("arcs", ())
    for table in (*data.get("openings", ()), *data.get("obstacles", ()), *arcs, first_line, control.get("centre", {})):
        rename(table, "wall")
    aims = data.get("aims", {})
    listed = [(first_line, "walls"), (aims, "hidden"), *((aim, "walls") for aim in aims.get("order", ()))]
    for aim in aims.get("order", ()):
        rename(aim, "on")
    for table, key in listed:
        if key in table:
            table[key] = [own_name(survey, called) or called for called in table[key]]
