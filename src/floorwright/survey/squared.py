"""A made-up room with square corners: where most rooms lie near, before anything is adjusted."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from floorwright.survey.network import names_of
from floorwright.survey.observation import Distance
from floorwright.survey.outline import are_rooms

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from floorwright.geometry.region import Points
    from floorwright.survey.observation import Observation
    from floorwright.survey.outline import Outline

TURNS_ROUND: Final = 4
"""Quarter turns to the left that a room with square corners has more than to the right."""


def squared(walked: Outline, points: Sequence[str], xy: Points, pulling: Sequence[Observation]) -> Points:
    """Returns a made-up room with its corners square, where so many turn in that they may all be; else `xy` itself.

    Walls are as long as they were read, the rest shared out so that it closes.

    Args:
        walked: the outline.
        points: all names, the outline's corners first.
        xy: (n, 2) mm, about where the other points and the middle are.
        pulling: observations so far.
    """
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
