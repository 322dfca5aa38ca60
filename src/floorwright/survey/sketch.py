"""A sketch of rooms that the readings do not fix yet: what is read is as long as it reads, the rest is made up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.survey.coordinates import has_coordinates
from floorwright.survey.datum import on_first_wall
from floorwright.survey.network import names_of
from floorwright.survey.outline import outline_of
from floorwright.survey.squared import squared
from floorwright.survey.start import made_up, settle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from floorwright.survey.observation import Observation
    from floorwright.survey.outline import Booked
    from floorwright.survey.survey import Direction


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
    xy = squared(walked, points, made_up(points, walked, pulling), pulling)
    if pulling:
        xy = settle(points, xy, pulling)
    return {point: (float(x), float(y)) for point, (x, y) in zip(points, on_first_wall(xy), strict=True)}
