"""A sketch of rooms that the readings do not fix yet: what is read is as long as it reads, the rest is made up."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from floorwright.survey.coordinates import has_coordinates
from floorwright.survey.datum import on_first_wall
from floorwright.survey.network import names_of
from floorwright.survey.observation import Distance
from floorwright.survey.outline import are_rooms, outline_of
from floorwright.survey.start import made_up, settle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

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
    xy = _squared(walked, points, made_up(points, walked, pulling), pulling)
    if pulling:
        xy = settle(points, xy, pulling)
    return {point: (float(x), float(y)) for point, (x, y) in zip(points, on_first_wall(xy), strict=True)}


def _squared(walked: Outline, points: Sequence[str], xy: Points, pulling: Sequence[Observation]) -> Points:
    """Returns a made-up room with its corners square, where so many turn in that they may all be."""
    turns = [-1 if name in walked.inward else 1 for name in walked.corners]
    if sum(turns) != TURNS_ROUND or walked.straight or walked.more:
        return xy
    # The wall from corner i heads so many quarter turns from the first one.
    heading = np.cumsum([0, *turns[1:]]) % 4
    read = {frozenset(names_of(o)): o.measured for o in pulling if isinstance(o, Distance)}
    ends = zip(walked.corners, (*walked.corners[1:], walked.corners[0]), strict=True)
    lengths = _closing(heading, [read.get(frozenset(pair)) for pair in ends], float(np.ptp(xy, axis=0).max()))
    ways = np.array([[1.0, 0.0], [0.0, 1.0], [-1.0, 0.0], [0.0, -1.0]])
    corners = np.vstack([[0.0, 0.0], np.cumsum(ways[heading] * lengths[:, None], axis=0)[:-1]])
    moved = xy - xy[: len(turns)].mean(axis=0) + corners.mean(axis=0)
    squared = np.vstack([corners, moved[len(turns) :]])
    return squared if are_rooms(walked, points, squared) else xy


def _closing(heading: NDArray[np.int_], read: Sequence[float | None], across: float) -> NDArray[np.float64]:
    """Returns lengths of walls that close a square-cornered room: as read, the rest an even share of what is left.

    Args:
        heading: of each wall, in quarter turns.
        read: its length; None where nobody read it.
        across: the room's size where nothing tells it, mm.
    """
    lengths = np.array([0.0 if mm is None else mm for mm in read])
    free = np.array([mm is None for mm in read])
    known = np.bincount(heading, lengths, minlength=4)
    blanks = np.bincount(heading[free], minlength=4)
    for one, other in ((0, 2), (1, 3)):
        ways = [way for way in (one, other) if blanks[way]]
        whole = [known[way] for way in (one, other) if not blanks[way]]
        # Read all along one side, the room is that wide; else wide enough to leave each blank wall a share.
        share = max(max(known[one], known[other]) / (len(read) / 2), across / len(read))
        width = (
            whole[0]
            if whole
            else max(across if not known.any() else 0.0, *(known[w] + share * blanks[w] for w in ways))
        )
        for way in ways:
            lengths[free & (heading == way)] = max((width - known[way]) / blanks[way], share / 4)
    return lengths
