"""A sketch of rooms that the readings do not fix yet: what is read is as long as it reads, the rest is made up."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from floorwright.survey.coordinates import has_coordinates
from floorwright.survey.datum import on_first_wall
from floorwright.survey.network import names_of
from floorwright.survey.outline import are_rooms, outline_of
from floorwright.survey.start import made_up, settle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from floorwright.geometry.region import Points
    from floorwright.survey.observation import Observation
    from floorwright.survey.outline import Booked, Outline
    from floorwright.survey.survey import Direction

TURNS_ROUND: Final = 4
"""Quarter turns to the left that a room with square corners has more than to the right."""


def sketch(
    *,
    outline: Sequence[str],
    direction: Direction,
    inward: Sequence[str],
    observations: Sequence[Observation],
    name: str = "room",
    more: Sequence[Booked] = (),
) -> dict[str, tuple[float, float]]:
    """Returns where to draw each point, mm, the first wall along x, the room on its left.

    A made-up room with the corners booked settles under the readings that there are, so that inward corners turn in and
    every reading drawn has its length as soon as the others leave it free to. It is a picture and nothing to build on.

    Args:
        outline, direction, inward, observations, name, more: as for `survey.survey_room`; sound by its booking.
    """
    walked = outline_of(
        outline,
        anticlockwise=direction == "anticlockwise",
        inward=inward,
        observations=observations,
        name=name,
        more=more,
    )
    others = sorted({point for o in observations for point in names_of(o)} - set(walked.every))
    points = (*walked.every, *others)
    pulling = [o for o in observations if not has_coordinates([o])]
    xy = _squared(walked, points, made_up(points, walked, pulling))
    if pulling:
        xy = settle(points, xy, pulling)
    return {point: (float(x), float(y)) for point, (x, y) in zip(points, on_first_wall(xy), strict=True)}


def _squared(walked: Outline, points: Sequence[str], xy: Points) -> Points:
    """Returns a made-up room with its corners square, where so many turn in that they may all be."""
    turns = [-1 if name in walked.inward else 1 for name in walked.corners]
    if sum(turns) != TURNS_ROUND or walked.straight or walked.more:
        return xy
    # The wall from corner i heads so many quarter turns from the first one.
    heading = np.cumsum([0, *turns[1:]]) % 4
    across = float(np.ptp(xy[: len(turns)], axis=0).max())
    # Of the walls that head one way each has an even share of the room, so that it closes.
    share = across / np.bincount(heading, minlength=4)
    ways = np.array([[1.0, 0.0], [0.0, 1.0], [-1.0, 0.0], [0.0, -1.0]])
    steps = ways[heading] * share[heading][:, None]
    corners = np.vstack([[0.0, 0.0], np.cumsum(steps, axis=0)[:-1]])
    moved = xy - xy[: len(turns)].mean(axis=0) + corners.mean(axis=0)
    squared = np.vstack([corners, moved[len(turns) :]])
    return squared if are_rooms(walked, points, squared) else xy
