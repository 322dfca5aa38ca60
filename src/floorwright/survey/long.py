"""Shapes of long outlines: walked round from made-up rooms instead of built up point by point, which drifts."""

from collections.abc import Iterator, Sequence
from itertools import product
from typing import Final

import numpy as np

from floorwright.geometry.region import Points
from floorwright.survey.chi_square import CRITICAL, is_acceptable
from floorwright.survey.datum import on_first_wall
from floorwright.survey.network import Floats, Network, network
from floorwright.survey.observation import Observation
from floorwright.survey.outline import Outline, are_rooms
from floorwright.survey.place import places_elsewhere
from floorwright.survey.solve import LONG, loose_points
from floorwright.survey.squared import squared
from floorwright.survey.start import Shape, adjusted_shapes, different, first_wall, made_up
from floorwright.survey.walk import walk_past_slips, walk_to_rest

MADE_UP: Final = tuple(product((1.0, 1.6, 0.6), (0.15, 0.4)))
"""Stretch and dent of the made-up rooms tried."""

SLIPS: Final = 3
"""Readings that may stand out from a figure that explains all the others."""


def walked_shapes(points: Sequence[str], outline: Outline, observations: Sequence[Observation]) -> tuple[Shape, ...]:
    """Returns the shapes of a long outline in which all readings agree, or all but a few slips; none where none does.

    None either of an outline that is not long.

    Every corner turns the way it is booked. Beside the first shape come those in which one point lies elsewhere, as its
    readings allow as well.

    Args:
        points: all names, the outline's corners first.
        outline: as booked.
        observations: see `survey.observation`.
    """
    if len(points) < LONG or len(observations) < 2 * len(points) - 3:
        return ()
    net = network(points, observations)
    for start in _made_up(points, outline, observations):
        found = walk_to_rest(net, start)
        if not _agree(found.misfits, net):
            found = walk_past_slips(net, found.xy)
        if not _agree(_without_slips(found.misfits), net) or not are_rooms(outline, points, found.xy):
            continue
        if loose_points(points, found.xy, observations, first_wall(outline)):
            return ()
        figure = on_first_wall(found.xy)
        figures = [figure, *places_elsewhere(points, figure, outline, observations)]
        shapes = different(adjusted_shapes(figures, points, outline, observations, bent=True), observations)
        if shapes:
            return shapes
    return ()


def _made_up(points: Sequence[str], outline: Outline, observations: Sequence[Observation]) -> Iterator[Points]:
    """Rooms to begin from: one with square corners where they may all be, then ovals."""
    oval = made_up(points, outline, observations)
    rectangular = squared(outline, points, oval, observations)
    if rectangular is not oval:
        yield rectangular
    for stretch, dent in MADE_UP:
        yield made_up(points, outline, observations, stretch=stretch, dent=dent)


def _without_slips(misfits: Floats) -> Floats:
    """The misfits but for a few that stand out."""
    ranked = np.sort(np.abs(misfits))
    return ranked[: len(ranked) - min(SLIPS, int(np.count_nonzero(ranked > CRITICAL)))]


def _agree(misfits: Floats, net: Network) -> bool:
    """Whether readings agree on a figure within their accuracy."""
    return is_acceptable(float(misfits @ misfits), len(misfits) - (2 * len(net.points) - 3))
