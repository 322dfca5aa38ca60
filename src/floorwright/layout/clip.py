"""The pattern cut to a region: which tiles are full, and the exact outline of every cut piece.

The room is moved into the pattern's frame, its edges are followed through the lattice (`layout.walk`), what they
leave of each tile is put together (`layout.link`), and the tiles that no edge meets are filled row by row. Only the
last step grows with the floor, and it only lists them.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from floorwright.geometry.region import Points, Region
from floorwright.layout.convex import convex_parts
from floorwright.layout.link import Rings, areas, following, link
from floorwright.layout.overlay import overlay
from floorwright.layout.walk import Bools, Edges, Floats, Ints, Outline, edges_of, meetings, outline_of, shrunk, spread
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import RANK_STEP, TOUCH


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Clipped:
    """The full tiles and cut pieces of one position, flat. Pieces are sorted by lattice index.

    Attributes:
        full: (n, 3) lattice index (i, j, k) of every full tile, sorted.
        index: (pieces, 3) lattice index of each cut piece.
        part: (pieces,) 1, 2, ... where the tile leaves more than one piece, from left to right; else 0.
        area: (pieces,) mm2.
        points: (m, 2) mm, floor frame: the rings of all pieces one after another.
        edge: (m,) the room's edge that runs from each point to the next, counted over all rings of the region, or
            `link.FACTORY`.
        first: (rings + 1,) where each ring begins in `points`; a piece's outline comes before its holes.
        piece: (rings,) which piece.
        mended: how many tiles needed the exact overlay because their chains did not close.
    """

    full: Ints
    index: Ints
    part: Ints
    area: Floats
    points: Points
    edge: Ints
    first: Ints
    piece: Ints
    mended: int = 0


def clip(region: Region, cell: UnitCell, placement: Placement) -> Clipped:
    """Returns the pattern, so placed, cut to the region.

    A wall within `tolerance.TOUCH` of a tile's side does not
    cut it; anything larger is a piece, however small, because a person has to fill its place.

    Args:
        region: floor frame; rings simple, not touching one another.
        cell: its pieces simple polygons.
        placement: of the pattern.
    """
    edges, outlines, rings = _cut(region, cell, placement)
    pieces = _on_floor(grouped(rings), placement)
    return replace(pieces, full=_fill(edges, outlines, cell.repeat, rings.index), mended=int(rings.broken.sum()))


def cut_pieces(region: Region, cell: UnitCell, placement: Placement) -> Clipped:
    """Returns the cut pieces alone, as `clip` does, without the full tiles."""
    return _on_floor(grouped(_cut(region, cell, placement)[2]), placement)


def _cut(region: Region, cell: UnitCell, placement: Placement) -> tuple[Edges, tuple[Outline, ...], Rings]:
    """Returns the edges, the outlines of the pieces and the rings of the cut tiles, all in the pattern's frame."""
    rotation = turn(placement.angle)
    edges = edges_of(tuple((ring - placement.origin) @ rotation for ring in region.rings))
    outlines = tuple(outline_of(piece) for piece in cell.pieces)
    found = meetings(edges, tuple(shrunk(outline) for outline in outlines), cell.repeat)
    rings = link(edges, found, outlines)
    if rings.broken.any():
        rings = overlay(rings, edges, outlines, cell.repeat)
    return edges, outlines, rings


def _on_floor(pieces: Clipped, placement: Placement) -> Clipped:
    return replace(pieces, points=pieces.points @ turn(placement.angle).T + placement.origin)


def turn(angle: float) -> Points:
    """Returns the (2, 2) matrix M with `floor - origin = pattern @ M.T`, so `pattern = (floor - origin) @ M`."""
    cos, sin = math.cos(angle), math.sin(angle)
    return np.array([[cos, -sin], [sin, cos]])


def _fill(edges: Edges, outlines: tuple[Outline, ...], repeat: Points, met: Ints) -> Ints:
    """Returns the index of every tile inside that no edge meets.

    Along each column of the lattice runs the line of one point of each tile; between its crossings with the edges,
    taken in pairs, the points lie inside.
    """
    inverse = np.linalg.inv(repeat)
    filled = []
    for k, outline in enumerate(outlines):
        # Any point of the tile will do.
        middle = convex_parts(outline.corners)[0].mean(axis=0)
        s0, t0 = ((edges.start - middle) @ inverse).T
        s1, t1 = ((edges.stop - middle) @ inverse).T
        edge, column = spread(np.ceil(np.minimum(s0, s1)), np.ceil(np.maximum(s0, s1)) - 1)
        place = t0[edge] + (column - s0[edge]) / (s1 - s0)[edge] * (t1 - t0)[edge]
        order = np.lexsort((place, column))
        column, place = column[order], place[order]
        which, j = spread(np.ceil(place[0::2]), np.floor(place[1::2]))
        tiles = np.stack([column[0::2][which], j], axis=1)
        filled.append(_without(tiles, met[met[:, 2] == k, :2], k))
    if len(filled) == 1:
        return filled[0]
    every = np.concatenate(filled)
    return every[np.lexsort((every[:, 2], every[:, 1], every[:, 0]))]


def _without(tiles: Ints, met: Ints, k: int) -> Ints:
    """Returns the (n, 3) index of the tiles of piece k that are not met."""
    if len(tiles) == 0:
        return np.zeros((0, 3), dtype=np.intp)
    low = tiles.min(axis=0)
    span = tiles.max(axis=0) - low + 1
    within = met[((met >= low) & (met < low + span)).all(axis=1)] - low
    taken = np.zeros(span, dtype=bool)
    taken[within[:, 0], within[:, 1]] = True
    kept = tiles[~taken[tiles[:, 0] - low[0], tiles[:, 1] - low[1]]]
    return np.column_stack([kept, np.full(len(kept), k)])


def _tidied(rings: Rings) -> Rings:
    """Returns the rings without points nearer than `TOUCH` to the next, and without rings that rounding left over."""
    if len(rings.points) == 0:
        return rings
    gap = rings.points[following(rings.first)] - rings.points
    apart = np.hypot(gap[:, 0], gap[:, 1]) >= TOUCH
    corners = np.add.reduceat(apart, rings.first[:-1], dtype=np.intp)
    rings = _only(rings, apart, corners >= 3)
    real = np.abs(rings.area) >= TOUCH**2
    outlined = np.bincount(rings.tile[real & (rings.area > 0)], minlength=len(rings.index)) > 0
    return _only(rings, np.ones(len(rings.points), dtype=bool), real & outlined[rings.tile])


def _only(rings: Rings, points: Bools, kept: Bools) -> Rings:
    """Returns some of the points of some of the rings, areas measured anew."""
    size = np.diff(rings.first)
    ring = np.repeat(np.arange(len(size)), size)
    points = points & kept[ring]
    count = np.bincount(ring[points], minlength=len(size))[kept]
    first = np.concatenate([[0], np.cumsum(count)]).astype(np.intp)
    return replace(
        rings,
        points=rings.points[points],
        edge=rings.edge[points],
        side=rings.side[points],
        first=first,
        area=areas(rings.points[points], first),
        tile=rings.tile[kept],
    )


def grouped(rings: Rings) -> Clipped:
    """Returns the rings as pieces, still in the pattern's frame and without full tiles: outlines, each with its
    holes."""
    rings = _tidied(rings)
    outer = rings.area > 0
    outlines = np.flatnonzero(outer)
    corner = np.minimum.reduceat(rings.points, rings.first[:-1])[outlines] if len(outlines) else rings.points
    corner = np.round(corner / RANK_STEP)
    outlines = outlines[np.lexsort((corner[:, 1], corner[:, 0], rings.tile[outlines]))]
    tile = rings.tile[outlines]
    first_of = np.searchsorted(tile, np.arange(len(rings.index) + 1))
    parts = np.diff(first_of)
    part = np.where(parts[tile] > 1, np.arange(len(tile)) - first_of[tile] + 1, 0)

    piece = np.empty(len(rings.area), dtype=np.intp)
    piece[outlines] = np.arange(len(outlines))
    for hole in np.flatnonzero(~outer):
        candidates = outlines[first_of[rings.tile[hole]] : first_of[rings.tile[hole] + 1]]
        piece[hole] = piece[_holder(rings, int(hole), candidates)]
    order = np.lexsort((~outer, piece))
    _, at = spread(rings.first[:-1][order], rings.first[1:][order] - 1)
    size = np.diff(rings.first)[order]
    area = np.bincount(piece, weights=rings.area, minlength=len(outlines)).astype(np.float64)
    return Clipped(
        full=np.zeros((0, 3), dtype=np.intp),
        index=rings.index[tile],
        part=part,
        area=area,
        points=rings.points[at],
        edge=rings.edge[at],
        first=np.concatenate([[0], np.cumsum(size)]).astype(np.intp),
        piece=piece[order],
    )


def _ring_points(rings: Rings, ring: int) -> Points:
    """Returns the (n, 2) points of one ring."""
    return rings.points[rings.first[ring] : rings.first[ring + 1]]


def _holder(rings: Rings, hole: int, candidates: Ints) -> int:
    """Returns which of a tile's outlines holds the hole."""
    if len(candidates) == 1:
        return int(candidates[0])
    point = _ring_points(rings, hole)[0]
    inside = [outline for outline in candidates if _holds(_ring_points(rings, outline), point)]
    return int(inside[0] if inside else candidates[0])


def _holds(ring: Points, point: Points) -> bool:
    """Returns whether the point lies in the ring, by crossings of a line to its right."""
    one, other = ring, np.roll(ring, -1, axis=0)
    spans: Bools = (one[:, 1] > point[1]) != (other[:, 1] > point[1])
    one, other = one[spans], other[spans]
    x = one[:, 0] + (point[1] - one[:, 1]) / (other[:, 1] - one[:, 1]) * (other[:, 0] - one[:, 0])
    return bool(int((x > point[0]).sum()) % 2)
