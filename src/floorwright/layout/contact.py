"""Where the pattern may lie so that a tile is cut, is touched, or is left with a small piece: polygons of places.

For one convex part of a tile and one edge of the room, the places at which the edge meets the part make up a convex
polygon. Whatever holds for a tile at all places of some polygon holds at each of them; so counting the tiles that have
a polygon which holds it whole gives the least number there can be.
"""

import numpy as np
import shapely

from floorwright.geometry.region import Points, Region
from floorwright.layout.clip import turn
from floorwright.layout.convex import kept
from floorwright.layout.flat import Bools, Ints
from floorwright.layout.ground import Ground, strips
from floorwright.layout.shapes import Shapes, shapes_of
from floorwright.layout.walk import near
from floorwright.tolerance import COINCIDENT


def contacts(ground: Ground) -> Shapes:
    """Returns of every tile the places at which an edge cuts it."""
    return _meeting(ground, None, None)


def small(ground: Ground, width: float, counts: Bools | None) -> Shapes:
    """Returns of every tile the places at which an edge that counts leaves less than a width behind it, mm."""
    return _meeting(ground, width, counts)


def _meeting(ground: Ground, width: float | None, counts: Bools | None) -> Shapes:
    """Returns of every tile the places at which an edge meets it, or leaves less than `width` of it."""
    polygons, tiles = [], []
    into = ground.edges.normals
    for number, part in enumerate(ground.parts):
        swept = np.concatenate([part.outline.corners, part.outline.corners + ground.cell.repeat.sum(axis=0)])
        _, edge, i, j = near(ground.edges, swept, np.array([0, len(swept)]), ground.cell.repeat)
        for e in np.unique(edge):
            if counts is not None and not counts[e]:
                continue
            corners = part.outline.corners
            if width is not None:
                # What is left of the piece may reach behind the edge as far as the whole piece does.
                far = float((ground.repeat.of(part.piece).corners @ into[e]).max())
                corners = kept(corners, -into[e], width - far)
                if not len(corners):
                    continue
            own = np.flatnonzero(edge == e)
            origins = np.stack([i[own], j[own]], axis=1) @ ground.cell.repeat
            start, stop = ground.edges.start[e] - origins, ground.edges.stop[e] - origins
            ends = np.concatenate([start[:, None] - corners, stop[:, None] - corners], axis=1)
            polygons.append(np.asarray(shapely.convex_hull(shapely.multipoints(ends))))
            tiles.append(np.stack([i[own], j[own], np.full(len(own), ground.parts[number].piece)], axis=1))
    return _shapes(ground, polygons, tiles)


def touches(ground: Ground, region: Region) -> Shapes:
    """Returns of every tile the places at which some of it lies on the floor: one polygon for each convex part of the
    floor that it may meet."""
    frame = [(ring - ground.centre) @ turn(ground.angle) for ring in region.rings]
    floor = shapely.Polygon(frame[0], frame[1:])
    triangles = shapely.get_parts(shapely.constrained_delaunay_triangles(floor))
    polygons, tiles = [], []
    for triangle in shapely.orient_polygons(triangles):
        corners = shapely.get_coordinates(triangle)[:-1]
        for part in ground.parts:
            swept = np.concatenate([part.outline.corners, part.outline.corners + ground.cell.repeat.sum(axis=0)])
            i, j = _over(corners, swept, ground.cell.repeat)
            origins = np.stack([i, j], axis=1) @ ground.cell.repeat
            sums = (corners[:, None] - part.outline.corners[None]).reshape(-1, 2)
            hull = shapely.get_coordinates(shapely.convex_hull(shapely.MultiPoint(sums)))
            polygons.append(np.asarray(shapely.polygons(hull[None] - origins[:, None])))
            tiles.append(np.stack([i, j, np.full(len(i), part.piece)], axis=1))
    return _shapes(ground, polygons, tiles)


def _over(corners: Points, swept: Points, repeat: Points) -> tuple[Ints, Ints]:
    """Returns the lattice indices of all tiles that may meet a polygon, with some to spare."""
    inverse = np.linalg.inv(repeat)
    ours, theirs = corners @ inverse, swept @ inverse
    low = np.floor(ours.min(axis=0) - theirs.max(axis=0)).astype(np.intp)
    high = np.ceil(ours.max(axis=0) - theirs.min(axis=0)).astype(np.intp)
    i, j = np.meshgrid(np.arange(low[0], high[0] + 1), np.arange(low[1], high[1] + 1), indexing="ij")
    return i.ravel(), j.ravel()


def _shapes(ground: Ground, polygons: list[np.ndarray], tiles: list[Ints]) -> Shapes:
    """Returns those of the polygons that meet the repeat, the tiles counted from 0."""
    every = np.concatenate(polygons) if polygons else np.zeros(0, dtype=object)
    index = np.concatenate(tiles) if tiles else np.zeros((0, 3), dtype=np.intp)
    rim = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]]) @ ground.cell.repeat
    meets = shapely.intersects(every, shapely.Polygon(rim))
    found, owner = np.unique(index[meets], axis=0, return_inverse=True)
    return shapes_of(every[meets], owner.reshape(-1), len(found))


def without_strips(ground: Ground) -> Shapes:
    """Returns the places at which some edge along the rows leaves a strip that nothing fills."""
    found = [shapely.Polygon(strip) for strip in strips(ground)]
    every = np.asarray(shapely.buffer(np.array(found, dtype=object), COINCIDENT, join_style="mitre"))
    return shapes_of(every, np.zeros(len(every), dtype=np.intp), 1)
