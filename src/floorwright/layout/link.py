"""From meetings of edges with tiles to the rings of the cut pieces.

Within a tile, an edge that leaves by a side is followed by the tile's own outline, anticlockwise, up to the next edge
that enters (Weiler and Atherton's polygon clipping, with a convex window). What comes from the room is sawn, what
comes from the tile is the factory's.
"""

from dataclasses import dataclass, replace

import numpy as np

from floorwright.geometry.region import Points
from floorwright.layout.flat import Bools, Floats, Ints, areas, spread
from floorwright.layout.repeat import Repeat
from floorwright.layout.walk import INSIDE, Edges, Meetings
from floorwright.tolerance import COINCIDENT, SLIVER_AREA, TOUCH

FACTORY = -1
"""In place of an edge of the room: a side of the tile itself."""

CORNER = -2
"""In place of a side: the point is a corner of the tile."""

STEEP = 0.05
"""An edge that crosses a side at a sine over this is followed back to the true side; a flatter one is moved square to
it."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rings:
    """Rings, flat, in the pattern's frame.

    Attributes:
        points: (n, 2) mm, the points of all rings one after another.
        edge: (n,) index of the room's edge that runs from each point to the next, or `FACTORY`.
        side: (n,) the side of the tile that each point lies on, `walk.INSIDE` for a corner of the room, `CORNER` for
            one of the tile. Where a tile is broken it says nothing.
        first: (rings + 1,) where each ring begins in `points`.
        area: (rings,) mm2, negative for a hole.
        tile: (rings,) which tile, a row of `index`.
        index: (tiles, 3) lattice index of each tile met, sorted.
        broken: (tiles,) whether the chains of a tile failed to close into anything that can be.
    """

    points: Points
    edge: Ints
    side: Ints
    first: Ints
    area: Floats
    tile: Ints
    index: Ints
    broken: Bools


def link(edges: Edges, found: Meetings, repeat: Repeat, touch: float = TOUCH) -> Rings:
    """Returns the rings that the meetings leave in each tile.

    Args:
        edges: of the room, in the pattern's frame.
        found: their meetings with tiles whose outlines were those of `repeat` less `touch` all round.
        repeat: the tiles at their true size: the rings come back on these.
        touch: mm.
    """
    index, tile = _tiles(found.index)
    after, corners, broken = _order(edges, found, repeat, len(index), tile)
    order, ring_of = _chains(after)
    points, edge, side, first = _points(edges, found, repeat, touch, order, ring_of, corners)
    heads = order[np.flatnonzero(np.diff(ring_of, prepend=-1))]
    rings = Rings(
        points=points,
        edge=edge,
        side=side,
        first=first,
        area=areas(points, first),
        tile=tile[heads],
        index=index,
        broken=broken,
    )
    crossed = np.zeros(len(index), dtype=bool)
    crossed[tile[(found.side_in != INSIDE) | (found.side_out != INSIDE)]] = True
    return _with_outlines(rings, found, tile, repeat, crossed)


def _tiles(index: Ints) -> tuple[Ints, Ints]:
    """Returns the tiles met, sorted by index, and for each meeting the row of its tile."""
    if len(index) == 0:
        return index, np.zeros(0, dtype=np.intp)
    low = index.min(axis=0)
    span = index.max(axis=0) - low + 1
    key = ((index[:, 0] - low[0]) * span[1] + index[:, 1] - low[1]) * span[2] + index[:, 2] - low[2]
    _, representative, tile = np.unique(key, return_index=True, return_inverse=True)
    return index[representative], tile


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Corners:
    """The tile's own corners between a meeting that leaves and the one after it: `count` of them, from `first` on."""

    first: Ints
    count: Ints


def _order(edges: Edges, found: Meetings, repeat: Repeat, tiles: int, tile: Ints) -> tuple[Ints, _Corners, Bools]:
    """Returns which meeting comes after each, the tile's corners in between, and which tiles are broken."""
    n = len(found)
    if n == 0:
        none = np.zeros(0, dtype=np.intp)
        return none, _Corners(first=none, count=none), np.zeros(tiles, dtype=bool)
    leaves = found.side_out != INSIDE

    # An edge that stops inside goes on as the room's next edge, in the same tile.
    names = tile * len(edges) + found.edge
    by_name = np.argsort(names, kind="stable")
    wanted = tile * len(edges) + edges.following[found.edge]
    after = by_name[np.minimum(np.searchsorted(names[by_name], wanted), n - 1)]
    lost = ~leaves & (names[after] != wanted)

    # One that leaves goes on, along the outline, to the first that enters from there; `lap` keeps the tiles apart.
    lap = float(repeat.sides.max()) + 1.0
    around_in = _around(edges, found, repeat, found.enter, found.side_in)
    around_out = _around(edges, found, repeat, found.leave, found.side_out)
    entries = np.flatnonzero(found.side_in != INSIDE)
    entries = entries[np.argsort(tile[entries] * lap + around_in[entries], kind="stable")]
    places = tile[entries] * lap + around_in[entries]
    bounds = np.searchsorted(places, np.arange(tiles + 1) * lap - COINCIDENT)
    ahead = np.searchsorted(places, tile * lap + around_out - COINCIDENT)
    wrapped = ahead >= bounds[tile + 1]
    ahead = np.where(wrapped, bounds[tile], ahead)
    lost |= leaves & (bounds[tile + 1] == bounds[tile])
    if len(entries):
        after = np.where(leaves, entries[np.minimum(ahead, len(entries) - 1)], after)
    after = np.where(lost, np.arange(n), after)

    sides = repeat.sides[found.index[:, 2]]
    first = np.floor(around_out).astype(np.intp) + 1
    last = np.floor(np.where(wrapped, sides, 0) + around_in[after]).astype(np.intp)
    count = np.where(leaves & ~lost, np.maximum(last - first + 1, 0), 0)
    broken = np.zeros(tiles, dtype=bool)
    broken[tile[lost | (np.bincount(after, minlength=n) != 1)]] = True
    return after, _Corners(first=first, count=count), broken


def _around(edges: Edges, found: Meetings, repeat: Repeat, at: Floats, side: Ints) -> Floats:
    """Returns how far round its tile each crossing lies: the side's number plus the fraction of that side."""
    around = np.zeros(len(found))
    mine = np.flatnonzero(side != INSIDE)
    q, edge = side[mine], found.edge[mine]
    row = repeat.first[found.index[mine, 2]] + q
    along = repeat.runs[row]
    point = edges.start[edge] + at[mine, None] * (edges.stop - edges.start)[edge]
    point = point - found.origin[mine] - repeat.corners[row]
    share = (point * along).sum(axis=1) / (along**2).sum(axis=1)
    around[mine] = q + np.clip(share, 0.0, 1.0 - COINCIDENT)
    return around


def _chains(after: Ints) -> tuple[Ints, Ints]:
    """Returns the meetings in the order in which the chains run through them, and the number of each one's ring."""
    # Most tiles are cut by one edge, which follows itself: only the others are walked one by one.
    head, place = np.arange(len(after)), np.zeros(len(after), dtype=np.intp)
    others = np.flatnonzero(after != head).tolist()
    successor = after.tolist()
    seen = set()
    for first in others:
        at, count = first, 0
        while at not in seen and successor[at] != at:
            seen.add(at)
            head[at], place[at] = first, count
            at, count = successor[at], count + 1
    order = np.lexsort((place, head))
    return order, np.cumsum(np.diff(head[order], prepend=-1) != 0) - 1


def _points(
    edges: Edges,
    found: Meetings,
    repeat: Repeat,
    touch: float,
    order: Ints,
    ring_of: Ints,
    corners: _Corners,
) -> tuple[Points, Ints, Ints, Ints]:
    """Returns the points of all rings, the edge that leaves each, its side of the tile, and where each ring begins.

    Every meeting gives the point where it begins; one that leaves its tile also gives the point where it leaves and the
    tile's corners after that.
    """
    leaves = found.side_out[order] != INSIDE
    count = corners.count[order]
    size = np.where(leaves, 2 + count, 1)
    slot = np.cumsum(size) - size
    points = np.empty((int(size.sum()), 2))
    edge = np.full(len(points), FACTORY, dtype=np.intp)
    side = np.full(len(points), CORNER, dtype=np.intp)
    points[slot] = _crossings(edges, found, repeat, touch, found.enter, found.side_in)[order]
    edge[slot], side[slot] = found.edge[order], found.side_in[order]
    side[slot[leaves] + 1] = found.side_out[order][leaves]
    points[slot[leaves] + 1] = _crossings(edges, found, repeat, touch, found.leave, found.side_out)[order][leaves]
    first = corners.first[order]
    owner, corner = spread(first, first + count - 1)
    at = slot[owner] + 2 + corner - first[owner]
    piece = found.index[order, 2][owner]
    points[at] = repeat.corners[repeat.first[piece] + corner % repeat.sides[piece]] + found.origin[order[owner]]
    rings = int(ring_of[-1]) + 1 if len(ring_of) else 0
    begins = np.concatenate([slot[np.searchsorted(ring_of, np.arange(rings))], [len(points)]]).astype(np.intp)
    return points, edge, side, begins


def _crossings(edges: Edges, found: Meetings, repeat: Repeat, touch: float, at: Floats, side: Ints) -> Points:
    """Returns the points at these places on the edges, those on a side of the shrunk tile brought back to the true
    one."""
    run = edges.stop - edges.start
    unit = run / np.maximum(np.hypot(run[:, 0], run[:, 1]), COINCIDENT)[:, None]
    points = edges.start[found.edge] + at[:, None] * run[found.edge]
    whole = np.flatnonzero((at >= 1.0) & (side == INSIDE))
    points[whole] = edges.stop[found.edge[whole]]
    if touch == 0.0:
        return points
    mine = np.flatnonzero(side != INSIDE)
    row, along = repeat.first[found.index[mine, 2]] + side[mine], unit[found.edge[mine]]
    normal = repeat.normals[row]
    slope = normal[:, 0] * along[:, 0] + normal[:, 1] * along[:, 1]
    steep = np.abs(slope) > STEEP
    back = np.where(steep[:, None], along / np.where(steep, slope, 1.0)[:, None], normal)
    local = points[mine] - back * touch - found.origin[mine]
    # Near a corner the way back may overshoot the end of the side.
    away, side_run = local - repeat.corners[row], repeat.runs[row]
    share = (away[:, 0] * side_run[:, 0] + away[:, 1] * side_run[:, 1]) / (side_run**2).sum(axis=1)
    over = share - np.clip(share, 0.0, 1.0)
    points[mine] = local - over[:, None] * side_run + found.origin[mine]
    return points


def _with_outlines(rings: Rings, found: Meetings, tile: Ints, repeat: Repeat, crossed: Bools) -> Rings:
    """Adds the tile's own outline where only holes lie in it (or touch its side), and marks areas that cannot be."""
    total = np.bincount(rings.tile, weights=rings.area, minlength=len(rings.index)).astype(np.float64)
    whole = repeat.areas[rings.index[:, 2]]
    holed = np.flatnonzero(np.where(crossed, total < -SLIVER_AREA, total < 0.0))
    broken = rings.broken.copy()
    total[holed] += whole[holed]
    broken |= (total < -SLIVER_AREA) | (total > whole + SLIVER_AREA)
    if len(holed) == 0:
        return replace(rings, broken=broken)
    origin = np.empty((len(rings.index), 2))
    origin[tile] = found.origin
    piece = rings.index[holed, 2]
    sizes = repeat.sides[piece]
    owner, row = spread(repeat.first[piece], repeat.first[piece + 1] - 1)
    return Rings(
        points=np.concatenate([rings.points, repeat.corners[row] + origin[holed[owner]]]),
        edge=np.concatenate([rings.edge, np.full(sizes.sum(), FACTORY)]),
        side=np.concatenate([rings.side, np.full(sizes.sum(), CORNER)]),
        first=np.concatenate([rings.first, rings.first[-1] + np.cumsum(sizes)]),
        area=np.concatenate([rings.area, whole[holed]]),
        tile=np.concatenate([rings.tile, holed]),
        index=rings.index,
        broken=broken,
    )
