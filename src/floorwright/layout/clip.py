"""The pattern cut to a region: which tiles are full, and the exact outline of every cut piece.

The room is moved into the pattern's frame, its edges are followed through the lattice (`layout.walk`), what they
leave of each tile is put together (`layout.link`), and the tiles that no edge meets are filled row by row. Only the
last step grows with the floor, and it only lists them.
"""

import math
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from floorwright.geometry.region import Points, Region
from floorwright.layout.flat import Bools, Floats, Ints, areas, following, spread
from floorwright.layout.link import Rings, link
from floorwright.layout.overlay import overlay
from floorwright.layout.repeat import Repeat, repeat_of
from floorwright.layout.walk import Edges, edges_of, meetings
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import RANK_STEP, TOUCH


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Runs:
    """Full tiles, as runs of them one after another along columns of the lattice.

    Attributes:
        i, k: (n,) lattice index of the column, and which piece of the repeat.
        first, last: (n,) lattice index j of a run's two ends; both belong.
    """

    i: Ints
    k: Ints
    first: Ints
    last: Ints

    @property
    def count(self) -> int:
        """How many tiles."""
        return int((self.last - self.first + 1).sum())

    @property
    def index(self) -> Ints:
        """(n, 3) lattice index (i, j, k) of every tile, sorted."""
        run, j = spread(self.first, self.last)
        index = np.empty((len(j), 3), dtype=np.intp)
        index[:, 0], index[:, 1], index[:, 2] = self.i[run], j, self.k[run]
        return index if not self.k.any() else index[np.lexsort((index[:, 2], index[:, 1], index[:, 0]))]


NONE: Final = np.zeros(0, dtype=np.intp)
NO_RUNS: Final = Runs(i=NONE, k=NONE, first=NONE, last=NONE)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Clipped:
    """The full tiles and cut pieces of one position, flat. Pieces are sorted by lattice index.

    Attributes:
        runs: the full tiles.
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

    runs: Runs
    index: Ints
    part: Ints
    area: Floats
    points: Points
    edge: Ints
    first: Ints
    piece: Ints
    mended: int = 0

    @property
    def full(self) -> Ints:
        """(n, 3) lattice index (i, j, k) of every full tile, sorted; made anew each time."""
        return self.runs.index


def clip(region: Region, cell: UnitCell, placement: Placement) -> Clipped:
    """Returns the pattern, so placed, cut to the region.

    A wall within `tolerance.TOUCH` of a tile's side does not
    cut it; anything larger is a piece, however small, because a person has to fill its place.

    Args:
        region: floor frame; rings simple, not touching one another.
        cell: its pieces simple polygons.
        placement: of the pattern.
    """
    edges, repeat, rings = _cut(region, cell, placement)
    pieces = _on_floor(grouped(rings), placement)
    return replace(pieces, runs=_fill(edges, repeat, rings.index), mended=int(rings.broken.sum()))


def cut_pieces(region: Region, cell: UnitCell, placement: Placement) -> Clipped:
    """Returns the cut pieces alone, as `clip` does, without the full tiles."""
    return _on_floor(grouped(_cut(region, cell, placement)[2]), placement)


def _cut(region: Region, cell: UnitCell, placement: Placement) -> tuple[Edges, Repeat, Rings]:
    """Returns the edges, the pieces of the repeat and the rings of the cut tiles, all in the pattern's frame."""
    rotation = turn(placement.angle)
    edges = edges_of(tuple((ring - placement.origin) @ rotation for ring in region.rings))
    repeat = repeat_of(cell)
    return edges, repeat, rings_of(edges, repeat)


def rings_of(edges: Edges, repeat: Repeat) -> Rings:
    """Returns the rings of every tile that an edge meets; those whose chains do not close are still marked as broken,
    but made anew by the exact overlay.

    Args:
        edges: of the room, in the pattern's frame.
        repeat: the pieces.
    """
    rings = link(edges, meetings(edges, repeat.shrunk()), repeat)
    return overlay(rings, edges, repeat) if rings.broken.any() else rings


def _on_floor(pieces: Clipped, placement: Placement) -> Clipped:
    return replace(pieces, points=pieces.points @ turn(placement.angle).T + placement.origin)


def turn(angle: float) -> Points:
    """Returns the (2, 2) matrix M with `floor - origin = pattern @ M.T`, so `pattern = (floor - origin) @ M`."""
    cos, sin = math.cos(angle), math.sin(angle)
    return np.array([[cos, -sin], [sin, cos]])


def _fill(edges: Edges, repeat: Repeat, met: Ints) -> Runs:
    """Returns every tile inside that no edge meets.

    Along each column of the lattice runs the line of one point of each piece; between its crossings with the edges,
    taken in pairs, the points lie inside.

    Args:
        edges, repeat: in the pattern's frame.
        met: (n, 3) index of the tiles that an edge meets, sorted.
    """
    inverse = np.linalg.inv(repeat.vectors)
    point = repeat.inside @ inverse
    start = edges.start @ inverse - point[:, None]
    (s0, t0), (s1, t1) = start.reshape(-1, 2).T, start[:, edges.following].reshape(-1, 2).T
    pair, column = spread(np.ceil(np.minimum(s0, s1)), np.ceil(np.maximum(s0, s1)) - 1)
    place = t0[pair] + (column - s0[pair]) / (s1 - s0)[pair] * (t1 - t0)[pair]
    piece = pair // len(edges)
    order = np.lexsort((place, column, piece))
    place, odd = place[order], order[0::2]
    first, last = np.ceil(place[0::2]).astype(np.intp), np.floor(place[1::2]).astype(np.intp)
    return _without(Runs(i=column[odd], k=piece[odd], first=first, last=last), met)


def _without(runs: Runs, met: Ints) -> Runs:
    """Returns runs of tiles split at those that are met."""
    first, last = runs.first, runs.last
    if len(met) == 0 or len(first) == 0:
        return _some(runs, np.arange(len(first)), first, last)
    # One number for each tile, in order of piece, column and row.
    low = min(int(first.min()), int(met[:, 1].min())) - 1
    span = max(int(last.max()), int(met[:, 1].max())) + 2 - low
    west = min(int(runs.i.min()), int(met[:, 0].min()))
    columns = max(int(runs.i.max()), int(met[:, 0].max())) + 1 - west
    met = met[np.argsort(met[:, 2], kind="stable")]
    key = (met[:, 2] * columns + met[:, 0] - west) * span + met[:, 1] - low
    base = (runs.k * columns + runs.i - west) * span - low
    begin = np.searchsorted(key, base + first)
    end = np.maximum(np.searchsorted(key, base + last, side="right"), begin)
    # A run with m met tiles in it falls into m + 1; some of them are empty.
    run, before = spread(begin - 1, end - 1)
    after = np.minimum(before + 1, len(met) - 1)
    start = np.where(before < begin[run], first[run], met[before, 1] + 1)
    stop = np.where(before + 1 >= end[run], last[run], met[after, 1] - 1)
    return _some(runs, run, start, stop)


def _some(runs: Runs, run: Ints, first: Ints, last: Ints) -> Runs:
    """Returns runs along the columns of these ones, from `first` to `last`, less the empty ones."""
    real = first <= last
    return Runs(i=runs.i[run][real], k=runs.k[run][real], first=first[real], last=last[real])


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
    if points.all() and kept.all():
        return rings
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
        runs=NO_RUNS,
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
