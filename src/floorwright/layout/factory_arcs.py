"""Pieces with the true arcs of their tiles, which are placed and cut as straight edges that stand for them."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from floorwright.geometry.arc import Arc, bulged_area
from floorwright.geometry.region import Circle, Points
from floorwright.geometry.restore import Name, Outline, restored
from floorwright.layout.clip import turn
from floorwright.layout.piece import Piece
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import CHORD, STRIP

OWN: Final = "\0"
"""What the names of a tile's own arcs begin with: no wall is called so."""


def with_factory_arcs(piece: Piece, cell: UnitCell, placement: Placement, circles: Mapping[str, Circle]) -> Piece:
    """Returns a piece with the arcs that its tile has; of a tile without any the piece as it is.

    Its rings stay the straight edges that stand for them; its area is the true one.

    Args:
        piece: as cut.
        cell, placement: its pattern and where that lies.
        circles: of the walls, by name.
    """
    tile = cell.outlines[piece.index[2]] if cell.outlines else None
    if tile is None:
        return piece
    placed = _placed(tile, piece.index, cell, placement)
    if piece.full:
        return replace(piece, area=bulged_area(placed.points, placed.bulges), outlines=(placed,))
    own = {f"{OWN}{n}": circle for n, circle in enumerate(_circles(placed))}
    outlines = tuple(
        _without_own(restored(ring, _named(ring, names, own), {**circles, **own}))
        for ring, names in zip(piece.rings, piece.edges, strict=True)
    )
    if not any(outline.is_curved for outline in outlines):
        return piece
    area = sum(bulged_area(outline.points, outline.bulges) for outline in outlines)
    return replace(piece, area=area, outlines=outlines)


def _placed(tile: Outline, index: tuple[int, int, int], cell: UnitCell, placement: Placement) -> Outline:
    shift = index[0] * cell.a + index[1] * cell.b
    points = (tile.points + shift) @ turn(placement.angle).T + np.array(placement.origin)
    return replace(tile, points=points)


def _circles(outline: Outline) -> list[Circle]:
    """The circles that the arcs of an outline lie on, each once."""
    found: list[Circle] = []
    for start, end, bulge in zip(outline.points, np.roll(outline.points, -1, axis=0), outline.bulges, strict=True):
        if not bulge:
            continue
        circle = Arc(start=(float(start[0]), float(start[1])), end=(float(end[0]), float(end[1])), bulge=bulge).circle
        if not any(math.dist(circle.centre, one.centre) + abs(circle.radius - one.radius) < STRIP for one in found):
            found.append(circle)
    return found


def _named(ring: Points, names: Sequence[Name], own: Mapping[str, Circle]) -> list[Name]:
    """The names of a ring's edges, those of the tile's arcs among them."""
    ends = np.roll(ring, -1, axis=0)
    return [
        name if name is not None else _nearest(start, end, own)
        for start, end, name in zip(ring, ends, names, strict=True)
    ]


def _nearest(start: Points, end: Points, own: Mapping[str, Circle]) -> Name:
    """The arc that an edge stands for: both its ends and its middle lie by its circle; None for a straight side."""

    def off(circle: Circle) -> float:
        places = (start, end, (start + end) / 2)
        return max(abs(math.dist(place, circle.centre) - circle.radius) for place in places)

    name = min(own, key=lambda one: off(own[one]), default=None)
    return name if name is not None and off(own[name]) <= CHORD else None


def _without_own(outline: Outline) -> Outline:
    return replace(
        outline, names=tuple(None if name is not None and name.startswith(OWN) else name for name in outline.names)
    )
