"""Where the edges of a room meet the tiles of a lattice.

The room is moved into the pattern's frame; the tiles stay where the lattice puts them. Each edge is followed through
the rows of the lattice that it touches, so the work grows with the perimeter, not with the floor.

Words used here: a *meeting* is one edge inside one tile. It begins where the edge enters the tile through one of the
tile's sides, or at the edge's own start if that lies inside; it ends likewise.
"""

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from floorwright.geometry.region import Points
from floorwright.layout.convex import is_convex
from floorwright.tolerance import COINCIDENT, TOUCH

Ints: TypeAlias = NDArray[np.intp]
Floats: TypeAlias = NDArray[np.float64]
Bools: TypeAlias = NDArray[np.bool_]

INSIDE = -1
"""In place of a side: the edge starts (or stops) inside the tile."""


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
class Outline:
    """A tile, as its corners and its sides; if it is convex, it is the overlap of the half planes inside its sides.

    Attributes:
        corners: (m, 2) mm, anticlockwise; side q runs from corner q to the next.
        normals: (m, 2) unit, inward.
        offsets: (m,) mm: a point x is inside side q where `normals[q] @ x > offsets[q]`.
    """

    corners: Points
    normals: Points
    offsets: Floats

    def grown(self, by: Floats | float) -> "Outline":
        """Returns the outline with each side moved out by so much (in, where negative), mitred at the corners."""
        offsets = self.offsets - by
        before, normal = np.roll(self.normals, 1, axis=0), self.normals
        cross = before[:, 0] * normal[:, 1] - before[:, 1] * normal[:, 0]
        c0, c1 = np.roll(offsets, 1), offsets
        x = (c0 * normal[:, 1] - c1 * before[:, 1]) / cross
        y = (before[:, 0] * c1 - normal[:, 0] * c0) / cross
        return Outline(corners=np.stack([x, y], axis=1), normals=self.normals, offsets=offsets)


def outline_of(piece: Points) -> Outline:
    """Returns the outline of an anticlockwise ring of corners."""
    along = np.roll(piece, -1, axis=0) - piece
    normals = np.stack([-along[:, 1], along[:, 0]], axis=1) / np.hypot(along[:, 0], along[:, 1])[:, None]
    return Outline(corners=piece, normals=normals, offsets=(normals * piece).sum(axis=1))


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


def meetings(edges: Edges, outlines: tuple[Outline, ...], repeat: Points) -> Meetings:
    """Returns every meeting of an edge with a tile, tile outlines taken as they are given.

    Args:
        edges: of the room, in the pattern's frame.
        outlines: of the pieces of the repeat.
        repeat: (2, 2) the repeat vectors as rows.
    """
    found = []
    for k, outline in enumerate(outlines):
        edge, i, j = near(edges, outline.corners, repeat)
        origin = np.stack([i, j], axis=1) @ repeat
        through = cross if is_convex(outline.corners) else cross_bent
        row, enter, leave, side_in, side_out = through(edges.start[edge], edges.stop[edge], origin, outline)
        found.append(
            Meetings(
                index=np.stack([i[row], j[row], np.full(len(row), k)], axis=1),
                origin=origin[row],
                edge=edge[row],
                enter=enter,
                leave=leave,
                side_in=side_in,
                side_out=side_out,
            )
        )
    return together(found)


def together(found: list[Meetings]) -> Meetings:
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


def near(edges: Edges, corners: Points, repeat: Points) -> tuple[Ints, Ints, Ints]:
    """Returns (edge, i, j) of every edge and every tile with these corners that may meet it, with some to spare."""
    inverse = np.linalg.inv(repeat)
    box = corners @ inverse
    (s_low, t_low), (s_high, t_high) = box.min(axis=0) - COINCIDENT, box.max(axis=0) + COINCIDENT
    s0, t0 = (edges.start @ inverse).T
    s1, t1 = (edges.stop @ inverse).T
    edge, j = spread(np.ceil(np.minimum(t0, t1) - t_high), np.floor(np.maximum(t0, t1) - t_low))

    # The part of the edge that lies in the row's band, from `low` to `high` along the edge.
    rise = (t1 - t0)[edge]
    level = np.abs(rise) < COINCIDENT
    rise = np.where(level, 1.0, rise)
    one, other = (j + t_low - t0[edge]) / rise, (j + t_high - t0[edge]) / rise
    low = np.where(level, 0.0, np.clip(np.minimum(one, other), 0.0, 1.0))
    high = np.where(level, 1.0, np.clip(np.maximum(one, other), 0.0, 1.0))
    run = (s1 - s0)[edge]
    s_one, s_other = s0[edge] + low * run, s0[edge] + high * run
    band, i = spread(np.ceil(np.minimum(s_one, s_other) - s_high), np.floor(np.maximum(s_one, s_other) - s_low))
    return edge[band], i, j[band]


def cross(start: Points, stop: Points, origin: Points, outline: Outline) -> tuple[Ints, Floats, Floats, Ints, Ints]:
    """Returns where segments run through their convex tile, as (row, enter, leave, side in, side out).

    A point counts as inside by the strict sign of its distance to every side, the same for both edges that share a
    corner of the room; otherwise the chains of `layout.link` would not close.

    Args:
        start, stop: (n, 2) mm.
        origin: (n, 2) mm, what to add to the tile's outline.
        outline: of the tile.
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


def cross_bent(
    start: Points, stop: Points, origin: Points, outline: Outline
) -> tuple[Ints, Floats, Floats, Ints, Ints]:
    """Returns the same as `cross` for a tile that is not convex, which a segment may run through more than once.

    A point counts as inside by the number of sides to the right of it, again the same for both edges at a corner.
    """
    from_start, from_stop = start - origin, stop - origin
    d0, d1 = _depths(from_start, outline), _depths(from_stop, outline)
    run, away = stop - start, outline.corners[None] - from_start[:, None]
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
    return np.asarray(points[:, :1] * outline.normals[:, 0] + points[:, 1:] * outline.normals[:, 1] - outline.offsets)


def _holds(outline: Outline, points: Points) -> Bools:
    """Returns which points lie in an outline, by the number of sides that a line to the right of them crosses."""
    one, other = outline.corners, np.roll(outline.corners, -1, axis=0)
    x, y = points[:, :1], points[:, 1:]
    spans = (one[:, 1] > y) != (other[:, 1] > y)
    rise = np.where(one[:, 1] == other[:, 1], 1.0, other[:, 1] - one[:, 1])
    at = one[:, 0] + (y - one[:, 1]) / rise * (other[:, 0] - one[:, 0])
    return np.asarray((spans & (at > x)).sum(axis=1) % 2 == 1)


def spread(low: Floats | Ints, high: Floats | Ints) -> tuple[Ints, Ints]:
    """Returns every whole number of every range, as (which range, number); both ends belong, an empty range gives
    none."""
    first = low.astype(np.intp)
    count = np.maximum(high.astype(np.intp) - first + 1, 0)
    owner = np.repeat(np.arange(len(first)), count)
    begins = np.cumsum(count) - count
    return owner, np.arange(len(owner)) - np.repeat(begins - first, count)


def shrunk(outline: Outline) -> Outline:
    """Returns the outline less `tolerance.TOUCH` all round, for the predicates."""
    return outline.grown(-TOUCH)
