"""How narrow a cut piece is.

Three measures, each for what it is good at:

- depth: the least of what is left behind each saw line. It sees the thin leg of an L, a U or a piece round a hole.
- hull width: the least distance between two parallel lines that hold the piece. It sees tips.
- leg: the shortest factory side that a saw line has shortened. It is what a person measures at the thin end of a
tapered cut, and cannot be avoided on a wall out of square, so nothing is ranked on it.

Each of the edges that stand for an arc is a saw line: so depth is the least of what is left behind the arc's tangents
at its edges. To take edges that turn little as one line would miss the thin leg beside a round column: 15 degrees off,
a leg of 64 mm on a tile of 447 would pass for 177. Short edges are no slivers themselves, since what is left behind
one is measured over the whole piece; and a bound that holds edge by edge (`layout.cover`) holds for this measure.

`narrowest`, the lesser of depth and hull width, ranks pieces and is what searches prove.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from floorwright.geometry.region import Points
from floorwright.layout.clip import Clipped
from floorwright.layout.flat import Bools, Floats, Ints, following, spread
from floorwright.layout.link import FACTORY
from floorwright.tolerance import COINCIDENT

MANY = 40
"""Outlines with more points than this are taken by their convex hull before all pairs of points are tried."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Measures:
    """Of each cut piece, mm.

    Attributes:
        depth: infinite where a piece has no saw line.
        width: of its hull.
    """

    depth: Floats
    width: Floats

    @property
    def narrowest(self) -> Floats:
        """The lesser of depth and hull width."""
        return np.minimum(self.depth, self.width)


def measure(clipped: Clipped, counts: Bools | None = None) -> Measures:
    """Returns the measures of every cut piece that rank it.

    Holes count: what is left behind the side of a column is measured against the whole piece round it.

    Args:
        clipped: the pieces.
        counts: (edges of the region,) which edges count, None for all. Only what is left behind those is measured, and
            a piece that none of them cuts measures infinite.
    """
    lines = saw_lines(clipped)
    depth = np.full(len(clipped.index), np.inf)
    width = piece_widths(clipped)
    if counts is not None:
        counted = counts[lines.edge]
        lines = SawLines(piece=lines.piece[counted], edge=lines.edge[counted], left=lines.left[counted])
        width[~np.isin(np.arange(len(width)), lines.piece)] = np.inf
    np.minimum.at(depth, lines.piece, lines.left)
    return Measures(depth=depth, width=width)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SawLines:
    """Every saw line of every piece, flat.

    Attributes:
        piece: which piece.
        edge: the room's edge that it follows.
        left: mm, how far the piece reaches behind it.
    """

    piece: Ints
    edge: Ints
    left: Floats


def saw_lines(clipped: Clipped) -> SawLines:
    """Returns what is left behind each saw line."""
    points = clipped.points
    owner = np.repeat(clipped.piece, np.diff(clipped.first))
    sawn = np.flatnonzero(clipped.edge != FACTORY)
    if len(sawn) == 0:
        return SawLines(piece=owner[sawn], edge=sawn, left=np.zeros(0))
    begin, end = _outlines(clipped)
    line, corner = spread(begin[owner[sawn]], end[owner[sawn]] - 1)
    start = sawn[line]
    run = points[following(clipped.first)[start]] - points[start]
    away = points[corner] - points[start]
    reach = (run[:, 0] * away[:, 1] - run[:, 1] * away[:, 0]) / np.hypot(run[:, 0], run[:, 1])
    left = np.maximum.reduceat(reach, np.flatnonzero(np.diff(line, prepend=-1)))
    return SawLines(piece=owner[sawn], edge=clipped.edge[sawn], left=left)


def piece_widths(clipped: Clipped) -> Floats:
    """Returns the hull width of every piece, mm."""
    return hull_widths(clipped.points, *_outlines(clipped))


def _outlines(clipped: Clipped) -> tuple[Ints, Ints]:
    """Returns where each piece's outline begins and ends in `points`."""
    outlines = np.flatnonzero(np.diff(clipped.piece, prepend=-1))
    return clipped.first[:-1][outlines], clipped.first[1:][outlines]


def hull_widths(points: Points, begin: Ints, end: Ints) -> Floats:
    """Returns the width of the convex hull of each run of points `points[begin:end]`, mm.

    The least width lies square to a side of the hull, every side of the hull joins two of the points, and no other pair
    gives less; so all pairs are tried.
    """
    long = end - begin > MANY
    if not long.any():
        return _widths(points, begin, end)
    width = np.empty(len(begin))
    width[~long] = _widths(points, begin[~long], end[~long])
    hulls, first = _hulls(points, begin[long], end[long])
    width[long] = _widths(hulls, first[:-1], first[1:])
    return width


def _widths(points: Points, begin: Ints, end: Ints) -> Floats:
    """Returns the widths of the hulls of runs of points, those with as many points as each other at a time."""
    width = np.full(len(begin), np.inf)
    size = end - begin
    for n in np.unique(size):
        which = np.flatnonzero(size == n)
        width[which] = _least_widths(points[begin[which, None] + np.arange(n)])
    return width


def _least_widths(corners: Points) -> Floats:
    """Returns the hull width of each of (m, n, 2) sets of points."""
    one, other = _every_two(corners.shape[1])
    pair = corners[:, other] - corners[:, one]
    length = np.hypot(pair[..., 0], pair[..., 1])
    square = np.stack([-pair[..., 1], pair[..., 0]], axis=-1) / np.maximum(length, COINCIDENT)[..., None]
    reach = square @ corners.transpose(0, 2, 1)
    spans = np.where(length > COINCIDENT, reach.max(axis=-1) - reach.min(axis=-1), np.inf)
    return np.asarray(spans.min(axis=-1))


@cache
def _every_two(n: int) -> tuple[Ints, Ints]:
    return np.triu_indices(n, 1)


def _hulls(points: Points, begin: Ints, end: Ints) -> tuple[Points, Ints]:
    """Returns the corners of the convex hulls of runs of points one after another, and where each begins."""
    import shapely

    owner, at = spread(begin, end - 1)
    corners, hull = shapely.get_coordinates(
        shapely.convex_hull(shapely.multipoints(points[at], indices=owner)), return_index=True
    )
    # The last point of a ring is its first again.
    kept = np.append(hull[:-1] == hull[1:], False)
    count = np.bincount(hull[kept], minlength=len(begin))
    return corners[kept], np.concatenate([[0], np.cumsum(count)]).astype(np.intp)


def legs(clipped: Clipped) -> Floats:
    """Returns of each cut piece the shortest factory side that meets a saw line, mm; infinite where it has none."""
    leg = np.full(len(clipped.index), np.inf)
    onward = following(clipped.first)
    sawn = clipped.edge != FACTORY
    shortened = np.zeros(len(sawn), dtype=bool)
    shortened[onward[sawn]] = True
    shortened |= sawn[onward]
    shortened &= ~sawn
    run = clipped.points[onward] - clipped.points
    owner = np.repeat(clipped.piece, np.diff(clipped.first))
    np.minimum.at(leg, owner[shortened], np.hypot(run[shortened, 0], run[shortened, 1]))
    return leg
