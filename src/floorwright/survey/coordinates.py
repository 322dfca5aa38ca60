"""A room whose points come with coordinates: from a total station, or off a drawing."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from floorwright.geometry.region import Points
from floorwright.survey.adjustment import Datum
from floorwright.survey.choose import Choice
from floorwright.survey.datum import carried_over, on_first_wall
from floorwright.survey.observation import Coordinate, Observation
from floorwright.survey.outline import Outline, are_rooms, count_outside, misturned
from floorwright.survey.solve import adjust
from floorwright.survey.start import Shape, first_wall
from floorwright.survey.take import Missing
from floorwright.tolerance import COINCIDENT

READ: Datum = Datum(kind="coordinates")


def has_coordinates(observations: Sequence[Observation]) -> bool:
    """Returns whether any point comes with coordinates."""
    return any(isinstance(o, Coordinate) for o in observations)


def without_coordinates(points: Sequence[str], observations: Sequence[Observation]) -> tuple[str, ...]:
    """Returns the points that do not come with both coordinates."""
    read = {(o.point, o.axis) for o in observations if isinstance(o, Coordinate)}
    return tuple(name for name in points if not {(name, 0), (name, 1)} <= read)


def in_the_rooms_frame(outline: Outline, observations: Sequence[Observation]) -> tuple[Observation, ...]:
    """Returns observations whose coordinates count from the first corner, x along the first wall.

    Coordinates are as true one way as the other, so that turning them changes nothing else. Every point of the outline
    must come with both.
    """
    points = tuple(dict.fromkeys(o.point for o in observations if isinstance(o, Coordinate)))
    read = _start(points, observations)
    first, second = (points.index(name) for name in outline.corners[:2])
    turned = on_first_wall(read, first, second)
    shift = {name: turned[i] for i, name in enumerate(points)}
    ray = read[second] - read[first]
    x, y = ray / max(float(np.hypot(*ray)), COINCIDENT)
    pairs: dict[tuple[str, int], list[Coordinate]] = {}
    for o in observations:
        if isinstance(o, Coordinate):
            pairs.setdefault((o.point, o.axis), []).append(o)
    moved: dict[str, Observation] = {}
    for name in points:
        for east, north in zip(pairs[name, 0], pairs[name, 1], strict=True):
            off_x, off_y = np.array([east.measured, north.measured]) - read[points.index(name)]
            place = shift[name] + np.array([x * off_x + y * off_y, x * off_y - y * off_x])
            moved[east.key] = replace(east, measured=float(place[0]))
            moved[north.key] = replace(north, measured=float(place[1]))
    return tuple(moved.get(o.key, o) for o in observations)


def _start(points: Sequence[str], observations: Sequence[Observation]) -> Points:
    """The coordinates read, (n, 2) mm, the mean of those read more than once."""
    found = np.zeros((len(points), 2))
    for i, name in enumerate(points):
        for axis in (0, 1):
            found[i, axis] = np.mean(
                [o.measured for o in observations if isinstance(o, Coordinate) and (o.point, o.axis) == (name, axis)]
            )
    return found


def choose_by_coordinates(points: Sequence[str], outline: Outline, observations: Sequence[Observation]) -> Choice:
    """Returns the one shape that the coordinates make, adjusted with all other readings; args as for `choose_shape`.

    The coordinates must be `in_the_rooms_frame`.
    """
    bare = without_coordinates(points, observations)
    if bare:
        return Choice(missing=Missing(loose=bare))
    start = _start(points, observations)
    if float(np.hypot(*(start[1] - start[0]))) <= COINCIDENT:
        return Choice()
    adjustment = carried_over(adjust(points, start, observations, READ), first_wall(outline))
    if not are_rooms(outline, points, adjustment.xy):
        return Choice()
    shape = Shape(
        rank=0,
        built=start,
        adjustment=adjustment,
        misturned=misturned(outline, points, adjustment.xy),
        outside=count_outside(outline, points, adjustment.xy),
    )
    return Choice(shape=shape, starts=(start,))
