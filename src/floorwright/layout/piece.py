"""Pieces: what is left of a tile inside the room."""

from dataclasses import dataclass

from floorwright.geometry.region import Points
from floorwright.geometry.restore import Outline


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Piece:
    """One piece of the floor.

    Attributes:
        id: `zone:i,j,k` by lattice index (repeat i, j and piece k of the cell), `zone:i,j,k/n` where a tile leaves more
            than one piece. It never changes; the printed number is a label.
        index: (i, j, k).
        full: not cut.
        rings: outline then holes, each (m, 2) mm, floor frame; the outline anticlockwise, holes clockwise.
        edges: for each ring, per edge, the name of the wall it was sawn to, or None where it is the factory's.
        area: mm2.
        outlines: the rings as they truly are, with arcs; empty where every side is straight. `rings` hold straight
            edges for the arcs (`geometry.arc`), and `area` is of the true shape.
        narrowest: mm, min(depth, hull width), the measure that ranks pieces (notes: `layout.measure`); of a full
            piece its smaller side.
        depth: mm, the least of what is left behind each saw line.
    """

    id: str
    index: tuple[int, int, int]
    full: bool
    rings: tuple[Points, ...]
    edges: tuple[tuple[str | None, ...], ...]
    area: float
    narrowest: float
    depth: float
    outlines: tuple[Outline, ...] = ()
