"""Where a walk along the walls meets each piece: what numbers the cuts."""

from collections.abc import Sequence

import numpy as np

from floorwright import tolerance
from floorwright.geometry.region import Points, Region
from floorwright.layout.piece import Piece

Walls = Sequence[Sequence[str | None]]

Place = tuple[int, float]
"""Ring of the region (the walls first, then the obstacles that stand free) and mm along it."""


def met(piece: Piece, walls: Walls, region: Region) -> tuple[tuple[Place, str], ...]:
    """Returns the walls that a piece is sawn to, each with where a walk first meets the piece there, in that order.

    Args:
        piece: in the floor frame.
        walls: for each of its rings, per side, the wall that it is sawn to, or None.
        region: what is covered.
    """
    first: dict[str, Place] = {}
    for ring, names in zip(piece.rings, walls, strict=True):
        for start, end, name in zip(ring, np.roll(ring, -1, axis=0), names, strict=True):
            if name is not None:
                place = _place(region, (start + end) / 2, name)
                first[name] = min(place, first.get(name, place))
    return tuple(sorted((place, name) for name, place in first.items()))


def _place(region: Region, at: Points, name: str) -> Place:
    """Returns the place on a wall of that name that is nearest to a point; the last of all where there is none."""
    places = []
    for n, (ring, names) in enumerate(zip(region.rings, region.edges, strict=True)):
        sides = np.roll(ring, -1, axis=0) - ring
        lengths = np.hypot(*sides.T)
        share = np.clip(np.einsum("ij,ij->i", at - ring, sides) / np.maximum(lengths, tolerance.COINCIDENT) ** 2, 0, 1)
        off = np.hypot(*(ring + share[:, None] * sides - at).T)
        walked = np.concatenate([[0.0], np.cumsum(lengths)[:-1]]) + share * lengths
        places += [(float(off[m]), n, float(walked[m])) for m in range(len(ring)) if names[m] == name]
    if not places:
        return len(region.rings), 0.0
    _, ring_number, along = min(places)
    return ring_number, along
