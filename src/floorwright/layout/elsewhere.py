"""A pattern moved by hand: the same floor and goods, and what another position makes of them, at once."""

from dataclasses import dataclass

import numpy as np

from floorwright.layout.clip import clip, turn
from floorwright.layout.flat import Floats
from floorwright.layout.measure import measure
from floorwright.layout.option import Option
from floorwright.layout.positions import YOUR_OWN
from floorwright.layout.score import Floor, score
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import RANK_STEP


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Outlines:
    """The pieces of a position, to be drawn.

    Attributes:
        full: for each piece of the repeat, (corners, 2) mm, floor frame, as it lies in repeat (0, 0).
        at: for each piece of the repeat, (n, 2) mm, how far from there each full tile lies.
        cut: rings of the cut pieces, each (m, 2) mm.
        under: whether each ring is of a piece under the limit.
    """

    full: tuple[Floats, ...]
    at: tuple[Floats, ...]
    cut: tuple[Floats, ...]
    under: tuple[bool, ...]


def placed(floor: Floor, cell: UnitCell, placement: Placement) -> Option:
    """Returns what a position makes of the floor: counts, the narrowest piece, the cut at both ends of every wall."""
    return score(floor, cell, placement, YOUR_OWN)


def outlines(floor: Floor, cell: UnitCell, placement: Placement) -> Outlines:
    """Returns the pieces of a position, to be drawn."""
    clipped = clip(floor.region, cell, placement)
    narrowest = measure(clipped).narrowest
    to_floor = turn(placement.angle).T
    index = clipped.full
    rings = tuple(np.split(clipped.points, clipped.first[1:-1])) if len(clipped.piece) else ()
    return Outlines(
        full=tuple(piece @ to_floor + placement.origin for piece in cell.pieces),
        at=tuple(index[index[:, 2] == k, :2] @ cell.repeat @ to_floor for k in range(len(cell.pieces))),
        cut=rings,
        under=tuple(bool(narrowest[piece] < floor.limit - RANK_STEP) for piece in clipped.piece),
    )
