"""Where the edges of a room meet the tiles of a lattice.

The room is moved into the pattern's frame; the tiles stay where the lattice puts them. Each edge is followed through
the rows of the lattice that it touches, so the work grows with the perimeter, not with the floor.

Words used here: a *meeting* is one edge inside one tile. It begins where the edge enters the tile through one of the
tile's sides, or at the edge's own start if that lies inside; it ends likewise.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from floorwright.geometry.region import Points
from floorwright.layout.flat import Bools, Floats, Ints, spread
from floorwright.layout.repeat import Outline, Repeat
from floorwright.tolerance import COINCIDENT

INSIDE = -1
"""In place of a side: the edge starts (or stops) inside the tile."""

_Through: TypeAlias = tuple[Ints, Floats, Floats, Ints, Ints]
"""Of segments that run through their tiles: which, where they enter and leave, and by which sides."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Edges:
    """The edges of all rings, flat.

    Attributes:
        start, stop: (n, 2) mm.
        following: (n,) index of the edge that goes on from this one's stop.
    """

    start: Points
    stop: Points
    following: Ints

    def __len__(self) -> int:
        return len(self.start)

    @property
    def normals(self) -> Points:
        """(n, 2) unit normals, into the room."""
        along = self.stop - self.start
        length = np.maximum(np.hypot(along[:, 0], along[:, 1]), COINCIDENT)
        return np.stack([-along[:, 1], along[:, 0]], axis=1) / length[:, None]


def edges_of(rings: tuple[Points, ...]) -> Edges:
    """Returns the edges of the rings in order; the inside lies on the left of each."""
    following = []
    first = 0
    for ring in rings:
        following.append(first + (np.arange(len(ring)) + 1) % len(ring))
        first += len(ring)
    start = np.concatenate(rings)
    order = np.concatenate(following)
    return Edges(start=start, stop=start[order], following=order)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Meetings:
    """Edges inside tiles, flat.

    Attributes:
        index: (n, 3) lattice index (i, j, k) of the tile.
        origin: (n, 2) mm, what to add to the outline of piece k.
        edge: (n,) index of the edge.
        enter, leave: (n,) where on the edge, 0 at its start and 1 at its stop.
        side_in, side_out: (n,) the tile's side that it enters and leaves by, or `INSIDE`.
    """

    index: Ints
    origin: Points
    edge: Ints
    enter: Floats
    leave: Floats
    side_in: Ints
    side_out: Ints

    def __len__(self) -> int:
        return len(self.edge)


def meetings(edges: Edges, repeat: Repeat) -> Meetings:
    """Returns every meeting of an edge with a tile, tile outlines taken as they are given.

    Args:
        edges: of the room, in the pattern's frame.
        repeat: the pieces.
    """
    piece, edge, i, j = near(edges, repeat.corners, repeat.first, repeat.vectors)
    origin = np.stack([i, j], axis=1) @ repeat.vectors
    found = []
    for pieces, through in _alike(repeat):
        mine = np.arange(len(piece)) if len(pieces) == len(repeat) else np.flatnonzero(np.isin(piece, pieces))
        outline = repeat.of(pieces)
        if len(pieces) > 1:
            outline = outline.taken(np.searchsorted(pieces, piece[mine]))
        at = edge[mine]
        row, enter, leave, side_in, side_out = through(edges.start[at], edges.stop[at], origin[mine], outline)
        met = mine[row]
        found.append(
            Meetings(
                index=np.stack([i[met], j[met], piece[met]], axis=1),
                origin=origin[met],
                edge=edge[met],
                enter=enter,
                leave=leave,
                side_in=side_in,
                side_out=side_out,
            )
        )
    return _together(found)


def _alike(repeat: Repeat) -> Iterator[tuple[Ints, Callable[[Points, Points, Points, Outline], _Through]]]:
    """Yields sets of pieces with as many sides as each other, convex ones apart, and how a segment crosses them."""
    sides, convex = repeat.sides, repeat.convex
    for through, own in ((cross, convex), (cross_bent, ~convex)):
        for count in np.unique(sides[own]):
            yield np.flatnonzero(own & (sides == count)), through


def _together(found: list[Meetings]) -> Meetings:
    """Returns several sets of meetings as one."""
    if len(found) == 1:
        return found[0]
    return Meetings(
        index=np.concatenate([part.index for part in found]),
        origin=np.concatenate([part.origin for part in found]),
        edge=np.concatenate([part.edge for part in found]),
        enter=np.concatenate([part.enter for part in found]),
        leave=np.concatenate([part.leave for part in found]),
        side_in=np.concatenate([part.side_in for part in found]),
        side_out=np.concatenate([part.side_out for part in found]),
    )


def near(edges: Edges, corners: Points, first: Ints, vectors: Points) -> tuple[Ints, Ints, Ints, Ints]:
    """Returns (piece, edge, i, j) of every edge and every tile that it may meet, with some to spare, in order of piece
    and edge.

    Args:
        edges: of the room, in the pattern's frame.
        corners: (n, 2) mm, of all pieces one after another.
        first: (pieces + 1,) where each piece begins in `corners`.
        vectors: (2, 2) mm, the repeat vectors as rows.
    """
    inverse = np.linalg.inv(vectors)
    box = corners @ inverse
    s_low, t_low = np.minimum.reduceat(box, first[:-1]).T - COINCIDENT
    s_high, t_high = np.maximum.reduceat(box, first[:-1]).T + COINCIDENT
    s0, t0 = (edges.start @ inverse).T
    s1, t1 = (edges.stop @ inverse).T
    lowest, highest = np.minimum(t0, t1), np.maximum(t0, t1)
    pair, j = spread(np.ceil(lowest - t_high[:, None]).ravel(), np.floor(highest - t_low[:, None]).ravel())
    piece, edge = np.divmod(pair, len(edges))

    # The part of the edge that lies in the row's band, from `low` to `high` along the edge.
    rise = (t1 - t0)[edge]
    level = np.abs(rise) < COINCIDENT
    rise = np.where(level, 1.0, rise)
    one, other = (j + t_low[piece] - t0[edge]) / rise, (j + t_high[piece] - t0[edge]) / rise
    low = np.where(level, 0.0, np.clip(np.minimum(one, other), 0.0, 1.0))
    high = np.where(level, 1.0, np.clip(np.maximum(one, other), 0.0, 1.0))
    run = (s1 - s0)[edge]
    s_one, s_other = s0[edge] + low * run, s0[edge] + high * run
    begin = np.ceil(np.minimum(s_one, s_other) - s_high[piece])
    band, i = spread(begin, np.floor(np.maximum(s_one, s_other) - s_low[piece]))
    return piece[band], edge[band], i, j[band]


def cross(start: Points, stop: Points, origin: Points, outline: Outline) -> _Through:
    """Returns where segments run through their convex tile, as (row, enter, leave, side in, side out).

    A point counts as inside by the strict sign of its distance to every side, the same for both edges that share a
    corner of the room; otherwise the chains of `layout.link` would not close.

    Args:
        start, stop: (n, 2) mm.
        origin: (n, 2) mm, what to add to the tile's outline.
        outline: (1, ...) of all their tiles, or (n, ...) of each one's.
    """
    d0, d1 = _depths(start - origin, outline), _depths(stop - origin, outline)
    out0, out1 = d0 <= 0, d1 <= 0
    change = d0 - d1
    where = np.divide(d0, change, out=np.zeros_like(d0), where=change != 0)
    entering = np.where(out0, where, -1.0)
    leaving = np.where(out1, where, 2.0)
    rows = np.arange(len(start))
    side_in, side_out = entering.argmax(axis=1), leaving.argmin(axis=1)
    enter, leave = entering[rows, side_in], leaving[rows, side_out]
    starts_inside, stops_inside = ~out0.any(axis=1), ~out1.any(axis=1)
    enter = np.where(starts_inside, 0.0, enter)
    leave = np.where(stops_inside, 1.0, leave)
    meets = ~(out0 & out1).any(axis=1) & ((enter < leave) | starts_inside | stops_inside)
    side_in = np.where(starts_inside, INSIDE, side_in)
    side_out = np.where(stops_inside, INSIDE, side_out)
    return np.flatnonzero(meets), enter[meets], leave[meets], side_in[meets], side_out[meets]


def cross_bent(start: Points, stop: Points, origin: Points, outline: Outline) -> _Through:
    """Returns the same as `cross` for a tile that is not convex, which a segment may run through more than once.

    A point counts as inside by the number of sides to the right of it, again the same for both edges at a corner.
    """
    from_start, from_stop = start - origin, stop - origin
    d0, d1 = _depths(from_start, outline), _depths(from_stop, outline)
    run, away = stop - start, outline.corners - from_start[:, None]
    left = run[:, None, 0] * away[..., 1] - run[:, None, 1] * away[..., 0] > 0
    crossed = ((d0 > 0) != (d1 > 0)) & (left != np.roll(left, -1, axis=1))
    where = np.divide(d0, d0 - d1, out=np.zeros_like(d0), where=crossed)
    starts_inside, stops_inside = _holds(outline, from_start), _holds(outline, from_stop)

    entries = _sorted(crossed & (d1 > 0), where, starts_inside, -1.0)
    exits = _sorted(crossed & (d1 <= 0), where, stops_inside, 2.0)
    n = len(start)
    ins, outs = np.bincount(entries[0], minlength=n), np.bincount(exits[0], minlength=n)
    # Where rounding has lost a crossing, nothing is said of the segment: the tile's chains will not close.
    (row, enter, side_in), (other, leave, side_out) = entries, exits
    paired, also = (ins == outs)[row], (ins == outs)[other]
    return row[paired], np.maximum(enter[paired], 0.0), np.minimum(leave[also], 1.0), side_in[paired], side_out[also]


def _sorted(crossed: Bools, where: Floats, ends_inside: Bools, end: float) -> tuple[Ints, Floats, Ints]:
    """Returns (row, where, side) of the crossings, and of the ends inside, in order along each segment."""
    row, side = np.nonzero(crossed)
    inside = np.flatnonzero(ends_inside)
    rows = np.concatenate([row, inside])
    places = np.concatenate([where[row, side], np.full(len(inside), end)])
    sides = np.concatenate([side, np.full(len(inside), INSIDE)])
    order = np.lexsort((places, rows))
    return rows[order], places[order], sides[order]


def _depths(points: Points, outline: Outline) -> Floats:
    """Returns (n, m): how far each point lies inside each side of the outline."""
    x, y = outline.normals[..., 0], outline.normals[..., 1]
    return np.asarray(points[:, :1] * x + points[:, 1:] * y - outline.offsets)


def _holds(outline: Outline, points: Points) -> Bools:
    """Returns which points lie in an outline, by the number of sides that a line to the right of them crosses."""
    one, other = outline.corners, np.roll(outline.corners, -1, axis=-2)
    x, y = points[:, :1], points[:, 1:]
    spans = (one[..., 1] > y) != (other[..., 1] > y)
    rise = np.where(one[..., 1] == other[..., 1], 1.0, other[..., 1] - one[..., 1])
    at = one[..., 0] + (y - one[..., 1]) / rise * (other[..., 0] - one[..., 0])
    return np.asarray((spans & (at > x)).sum(axis=1) % 2 == 1)
