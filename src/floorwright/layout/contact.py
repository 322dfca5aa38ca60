"""Where the pattern may lie so that a tile is cut, is touched, or is left with a small piece: polygons of places.

For one convex part of a tile and one edge of the room, the places at which the edge meets the part make up a convex
polygon. Whatever holds for a tile at all places of some polygon holds at each of them; so counting the tiles that have
a polygon which holds it whole gives the least number there can be.
"""

from collections.abc import Iterator
from typing import Final, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from floorwright.geometry.region import Points, Region
from floorwright.layout.clip import turn
from floorwright.layout.convex import kept
from floorwright.layout.flat import Bools, Ints
from floorwright.layout.ground import Ground, strips
from floorwright.layout.shapes import NO_TILES, Shapes, shapes_of
from floorwright.layout.walk import Edges, near
from floorwright.tolerance import COINCIDENT

_Met: TypeAlias = tuple[NDArray[np.object_], Ints]
"""Polygons of places, and the (n, 3) lattice index of the tile that each is of."""

NO_MORE: Final = np.zeros(1, dtype=np.intp)
"""What comes after an edge that is taken by itself."""


def contacts(ground: Ground) -> Shapes:
    """Returns of every tile the places at which an edge cuts it."""
    met = [_met(ground, ground.edges, part.outline.corners, part.piece) for part in ground.parts]
    return _shapes(ground, met)


def partings(ground: Ground) -> Shapes:
    """Returns of every tile polygons at whose sides it may come to be cut in more pieces or fewer, though the same
    edges cut it: the places at which a corner that turns in on the room lies in a part of it, and those at which an
    edge crosses the seam of two of its parts.

    Between these sides and those of `contacts` nothing about the pieces changes but their size: edges of the room cross
    nowhere but at its corners, so within a convex part what runs through from side to side keeps its order, and pieces
    meet across a seam in the same order too. A corner that turns out has one piece about it however it lies.
    """
    edges = ground.edges
    run = edges.stop - edges.start
    onward = run[edges.following]
    turned_in = run[:, 0] * onward[:, 1] - run[:, 1] * onward[:, 0] < 0
    corners = edges.stop[turned_in]
    points = Edges(start=corners, stop=corners, following=np.arange(len(corners)))
    met = [_met(ground, points, part.outline.corners, part.piece) for part in ground.parts] if len(corners) else []
    return _shapes(ground, met + [_met(ground, edges, seam, piece) for piece, seam in _seams(ground)])


def _seams(ground: Ground) -> Iterator[tuple[int, Points]]:
    """Yields the sides, as their two ends, that convex parts of one piece share, each with its piece."""
    seen: set[tuple[int, bytes, bytes]] = set()
    for part in ground.parts:
        for one, other in zip(part.outline.corners, np.roll(part.outline.corners, -1, axis=0), strict=True):
            if (part.piece, other.tobytes(), one.tobytes()) in seen:
                yield part.piece, np.array([one, other])
            seen.add((part.piece, one.tobytes(), other.tobytes()))


def small(ground: Ground, width: float, counts: Bools | None) -> Shapes:
    """Returns of every tile the places at which an edge that counts leaves less than a width behind it, mm."""
    met = []
    into = ground.edges.normals
    for part in ground.parts:
        # What is left of the piece may reach behind the edge as far as the whole piece does.
        far = (ground.repeat.of(part.piece).corners @ into.T).max(axis=0)
        for e in range(len(ground.edges)) if counts is None else np.flatnonzero(counts):
            corners = kept(part.outline.corners, -into[e], width - float(far[e]))
            if len(corners):
                one = slice(e, e + 1)
                edge = Edges(start=ground.edges.start[one], stop=ground.edges.stop[one], following=NO_MORE)
                met.append(_met(ground, edge, corners, part.piece))
    return _shapes(ground, met)


def _met(ground: Ground, edges: Edges, corners: Points, piece: int) -> _Met:
    """Returns the places at which edges meet a convex polygon of a piece, with the tiles whose piece that is."""
    swept = np.concatenate([corners, corners + ground.cell.repeat.sum(axis=0)])
    _, edge, i, j = near(edges, swept, np.array([0, len(swept)]), ground.cell.repeat)
    origins = np.stack([i, j], axis=1) @ ground.cell.repeat
    start, stop = edges.start[edge] - origins, edges.stop[edge] - origins
    ends = np.concatenate([start[:, None] - corners, stop[:, None] - corners], axis=1)
    polygons = np.asarray(shapely.convex_hull(shapely.multipoints(ends)))
    return polygons, np.stack([i, j, np.full(len(i), piece)], axis=1)


def touches(ground: Ground, region: Region) -> Shapes:
    """Returns of every tile the places at which some of it lies on the floor: one polygon for each convex part of the
    floor that it may meet."""
    frame = [(ring - ground.centre) @ turn(ground.angle) for ring in region.rings]
    floor = shapely.Polygon(frame[0], frame[1:])
    triangles = shapely.get_parts(shapely.constrained_delaunay_triangles(floor))
    met: list[_Met] = []
    for triangle in shapely.orient_polygons(triangles):
        corners = shapely.get_coordinates(triangle)[:-1]
        for part in ground.parts:
            swept = np.concatenate([part.outline.corners, part.outline.corners + ground.cell.repeat.sum(axis=0)])
            i, j = _over(corners, swept, ground.cell.repeat)
            origins = np.stack([i, j], axis=1) @ ground.cell.repeat
            sums = (corners[:, None] - part.outline.corners[None]).reshape(-1, 2)
            hull = shapely.get_coordinates(shapely.convex_hull(shapely.MultiPoint(sums)))
            polygons = np.asarray(shapely.polygons(hull[None] - origins[:, None]))
            met.append((polygons, np.stack([i, j, np.full(len(i), part.piece)], axis=1)))
    return _shapes(ground, met)


def _over(corners: Points, swept: Points, repeat: Points) -> tuple[Ints, Ints]:
    """Returns the lattice indices of all tiles that may meet a polygon, with some to spare."""
    inverse = np.linalg.inv(repeat)
    ours, theirs = corners @ inverse, swept @ inverse
    low = np.floor(ours.min(axis=0) - theirs.max(axis=0)).astype(np.intp)
    high = np.ceil(ours.max(axis=0) - theirs.min(axis=0)).astype(np.intp)
    i, j = np.meshgrid(np.arange(low[0], high[0] + 1), np.arange(low[1], high[1] + 1), indexing="ij")
    return i.ravel(), j.ravel()


def _shapes(ground: Ground, met: list[_Met]) -> Shapes:
    """Returns those of the polygons that meet the repeat, the tiles counted from 0."""
    every = np.concatenate([polygons for polygons, _ in met]) if met else np.zeros(0, dtype=object)
    index = np.concatenate([tiles for _, tiles in met]) if met else NO_TILES
    rim = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]]) @ ground.cell.repeat
    meets = shapely.intersects(every, shapely.Polygon(rim))
    found, owner = np.unique(index[meets], axis=0, return_inverse=True)
    return shapes_of(every[meets], owner.reshape(-1), len(found), found)


def without_strips(ground: Ground) -> Shapes:
    """Returns the places at which some edge along the rows leaves a strip that nothing fills."""
    found = [shapely.Polygon(strip) for strip in strips(ground)]
    every = np.asarray(shapely.buffer(np.array(found, dtype=object), COINCIDENT, join_style="mitre"))
    return shapes_of(every, np.zeros(len(every), dtype=np.intp), 1)
