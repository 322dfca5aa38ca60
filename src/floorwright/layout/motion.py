"""How far round a position its too narrow pieces stay too narrow.

Move the pattern a little, and a corner of a tile moves with it, a corner of the room stays, and a place where a saw
line crosses a side of a tile slides along the saw line: all in proportion to the move. So for as long as the corners of
a piece come from the same edges and sides, what it reaches behind a saw line, and what it measures across a direction,
is the greatest of a few affine functions of the move; and the moves for which that is under a given width make up a
convex polygon.

Edges that come into the piece on the way only cut it further, and whatever is left of it lies within what was there, so
they need not be looked for.
"""

from dataclasses import dataclass

import numpy as np

from floorwright.geometry.region import Points
from floorwright.layout.convex import within
from floorwright.layout.flat import Bools, Floats, Ints
from floorwright.layout.link import CORNER, FACTORY, Rings
from floorwright.layout.repeat import Outline
from floorwright.layout.walk import INSIDE, Edges
from floorwright.tolerance import COINCIDENT, TOUCH


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HalfPlanes:
    """The moves m, (2,) mm, for which `normals @ m <= limits` in every row."""

    normals: Points
    limits: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Ring:
    """One ring of a piece, with what becomes of its points as the pattern moves.

    Attributes:
        points: (n, 2) mm.
        moves: (n, 2, 2): a move m takes point i to `points[i] + moves[i] @ m`.
        saw: (s, 2) unit normals of its saw lines, into the piece.
        reach: (s,) mm, how far the saw lines lie along those.
    """

    points: Points
    moves: Floats
    saw: Points
    reach: Floats


def narrow_moves(
    rings: Rings,
    tile: int,
    edges: Edges,
    outline: Outline,
    parts: tuple[Outline, ...],
    origin: Points,
    width: float,
    counts: Bools | None = None,
) -> list[HalfPlanes]:
    """Returns for each piece of a tile that is narrower than `width` the moves that leave it so.

    Args:
        rings: of one position, as `link` gives them.
        tile: which tile, a row of `rings.index`; its chains closed.
        edges: of the room at that position, pattern frame.
        outline: of the tile as the predicates take it: less `tolerance.TOUCH`.
        parts: convex outlines that make it up.
        origin: (2,) mm, of the tile.
        width: mm.
        counts: which edges count, None for all; of the others nothing is measured, nor of pieces that they alone cut.
    """
    own = np.flatnonzero(rings.tile == tile)
    held: list[HalfPlanes] = []
    outer = [int(ring) for ring in own if rings.area[ring] >= TOUCH**2]
    holes = [int(ring) for ring in own if rings.area[ring] <= -(TOUCH**2)]
    for ring in outer:
        made = _ring(rings, ring, edges, outline, parts, origin, counts)
        if made is None:
            continue
        shape, valid = made
        inner = [_ring(rings, hole, edges, outline, parts, origin, counts) for hole in holes] if len(outer) == 1 else []
        around = [hole for hole in inner if hole is not None]
        if not len(shape.saw) and not any(len(hole.saw) for hole, _ in around):
            continue
        narrow = _narrow(shape, around, width)
        if narrow is not None:
            held.append(_both(valid, narrow))
    return held


def _both(one: HalfPlanes, other: HalfPlanes) -> HalfPlanes:
    return HalfPlanes(
        normals=np.concatenate([one.normals, other.normals]), limits=np.concatenate([one.limits, other.limits])
    )


def _ring(
    rings: Rings,
    ring: int,
    edges: Edges,
    outline: Outline,
    parts: tuple[Outline, ...],
    origin: Points,
    counts: Bools | None,
) -> tuple[_Ring, HalfPlanes] | None:
    """Returns a ring and the moves that leave its points on the same edges and sides; None if a point has no part."""
    begin, end = int(rings.first[ring]), int(rings.first[ring + 1])
    points, side, edge = rings.points[begin:end], rings.side[begin:end], rings.edge[begin:end]
    before = np.roll(edge, 1)
    moves = np.zeros((len(points), 2, 2))
    moves[side == CORNER] = np.eye(2)
    normals: list[Points] = []
    limits: list[Floats] = []

    crossing = np.flatnonzero(side >= 0)
    if len(crossing):
        # A crossing lies on the edge that leaves it, or, where the tile's side leaves it, on the one before.
        wall = np.where(edge[crossing] != FACTORY, edge[crossing], before[crossing])
        slid = _slides(edges, wall, outline, side[crossing], origin)
        if slid is None:
            return None
        moves[crossing], planes = slid
        normals.append(planes.normals)
        limits.append(planes.limits)

    for corner in points[side == INSIDE] - origin:
        margins = [(part.normals @ corner - part.offsets) for part in parts]
        best = max(range(len(parts)), key=lambda n: float(margins[n].min()))
        normals.append(parts[best].normals)
        limits.append(margins[best])

    sawn = edge[edge != FACTORY]
    sawn = sawn if counts is None else sawn[counts[sawn]]
    into = edges.normals[sawn]
    made = _Ring(points=points, moves=moves, saw=into, reach=(into * edges.start[sawn]).sum(axis=1))
    if not normals:
        return made, HalfPlanes(normals=np.zeros((0, 2)), limits=np.zeros(0))
    return made, HalfPlanes(normals=np.concatenate(normals), limits=np.concatenate(limits))


def _slides(edges: Edges, wall: Ints, outline: Outline, side: Ints, origin: Points) -> tuple[Floats, HalfPlanes] | None:
    """Returns what becomes of crossings of edges with sides of the tile, and the moves that leave them there.

    Returns:
        (n, 2, 2) as `_Ring.moves`, and the moves; None where an edge lies along its side.
    """
    start = edges.start[wall] - origin
    run = edges.stop[wall] - edges.start[wall]
    length = np.hypot(run[:, 0], run[:, 1])
    unit = run / length[:, None]
    normal = outline.normals[side]
    slope = (normal * unit).sum(axis=1)
    if (np.abs(slope) < COINCIDENT).any():
        return None
    slide = normal / slope[:, None]
    # Along the edge: between its two ends.
    at = (outline.offsets[side] - (normal * start).sum(axis=1)) / slope
    # Along the side, which moves with the tile: between its two corners.
    corner = outline.corners[side]
    along = np.roll(outline.corners, -1, axis=0)[side] - corner
    size = np.hypot(along[:, 0], along[:, 1])
    along = along / size[:, None]
    place = ((start + at[:, None] * unit - corner) * along).sum(axis=1)
    rise = slide * (unit * along).sum(axis=1)[:, None] - along
    planes = HalfPlanes(
        normals=np.concatenate([slide, -slide, rise, -rise]),
        limits=np.concatenate([length - at, at, size - place, place]),
    )
    return unit[:, :, None] * slide[:, None, :], planes


def _narrow(shape: _Ring, holes: list[tuple[_Ring, HalfPlanes]], width: float) -> HalfPlanes | None:
    """Returns the moves that leave a piece narrower than `width` in the direction in which it is narrowest now."""
    nothing = HalfPlanes(normals=np.zeros((0, 2)), limits=np.zeros(0))
    saws = [(shape.saw, shape.reach, nothing)] + [(hole.saw, hole.reach, valid) for hole, valid in holes]
    least, found = width, None
    for saw, reach, valid in saws:
        if len(saw) == 0:
            continue
        left = (saw @ shape.points.T).max(axis=1) - reach
        line = int(left.argmin())
        if left[line] < least:
            least = float(left[line])
            rows = np.einsum("d,nde->ne", saw[line], shape.moves)
            found = _both(valid, HalfPlanes(normals=rows, limits=width + reach[line] - shape.points @ saw[line]))
    run = (shape.points[:, None] - shape.points[None, :]).reshape(-1, 2)
    length = np.hypot(run[:, 0], run[:, 1])
    run = run[length > COINCIDENT] / length[length > COINCIDENT, None]
    across = np.stack([-run[:, 1], run[:, 0]], axis=1)
    spans = np.ptp(across @ shape.points.T, axis=1)
    best = int(spans.argmin())
    # Depth first: its saw line keeps its direction for longer than a line through two points does.
    if spans[best] < least - COINCIDENT:
        u = across[best]
        rows = np.einsum("d,nde->ne", u, shape.moves)
        place = shape.points @ u
        found = HalfPlanes(
            normals=(rows[:, None] - rows[None, :]).reshape(-1, 2),
            limits=(width - (place[:, None] - place[None, :])).ravel(),
        )
    return found


def polygon_of(planes: HalfPlanes, window: Points, slack: float) -> Points:
    """Returns the corners of what a convex window of moves has in common with the half planes; none if nothing.

    Args:
        planes: of the moves.
        window: (n, 2) mm, anticlockwise.
        slack: mm by which each half plane is let out.
    """
    scale = np.hypot(planes.normals[:, 0], planes.normals[:, 1])
    real = scale > COINCIDENT
    if (planes.limits[~real] < 0).any():
        return np.zeros((0, 2))
    normals = planes.normals[real] / scale[real, None]
    limits = planes.limits[real] / scale[real] + slack
    return within(window, normals, limits)


def tiles_under(narrowest: Floats, index: Ints, rings: Rings, width: float) -> Ints:
    """Returns the rows of `rings.index` of the tiles with a piece narrower than `width`, the narrowest first."""
    order = np.argsort(narrowest, kind="stable")
    order = order[narrowest[order] < width]
    rows = {tuple(row): n for n, row in enumerate(rings.index.tolist())}
    return np.array(list(dict.fromkeys(rows[tuple(row)] for row in index[order].tolist())), dtype=np.intp)
