"""The exact overlay, for the rare tile whose chains did not close.

That takes two edges of the room that cross a tile's side within a millionth of its length of each other.
"""

import numpy as np
import shapely

from floorwright.geometry.region import Points
from floorwright.layout.flat import areas
from floorwright.layout.link import CORNER, FACTORY, Rings
from floorwright.layout.repeat import Repeat
from floorwright.layout.walk import Edges
from floorwright.tolerance import SLIVER_AREA, TOUCH


def overlay(rings: Rings, edges: Edges, repeat: Repeat) -> Rings:
    """Returns the rings with those of every broken tile made anew by polygon intersection.

    Args:
        rings, edges: in the pattern's frame.
        repeat: the pieces at their true size.
    """
    room = _room(edges)
    kept = [ring for ring in range(len(rings.area)) if not rings.broken[rings.tile[ring]]]
    points = [rings.points[rings.first[ring] : rings.first[ring + 1]] for ring in kept]
    edge = [rings.edge[rings.first[ring] : rings.first[ring + 1]] for ring in kept]
    side = [rings.side[rings.first[ring] : rings.first[ring + 1]] for ring in kept]
    tile = [int(rings.tile[ring]) for ring in kept]
    for row in np.flatnonzero(rings.broken):
        corners = repeat.of(int(rings.index[row, 2])).corners + rings.index[row, :2] @ repeat.vectors
        shape = shapely.orient_polygons(room.intersection(shapely.Polygon(corners)))
        for polygon in shapely.get_parts(shape):
            if polygon.geom_type != "Polygon" or polygon.area < SLIVER_AREA:
                continue
            for ring in (polygon.exterior, *polygon.interiors):
                made = shapely.get_coordinates(ring)[:-1]
                points.append(made)
                edge.append(_sawn_to(made, corners, edges))
                side.append(np.full(len(made), CORNER))
                tile.append(int(row))
    first = np.concatenate([[0], np.cumsum([len(ring) for ring in points])]).astype(np.intp)
    flat = np.concatenate(points) if points else np.zeros((0, 2))
    return Rings(
        points=flat,
        edge=np.concatenate(edge) if edge else np.zeros(0, dtype=np.intp),
        side=np.concatenate(side) if side else np.zeros(0, dtype=np.intp),
        first=first,
        area=areas(flat, first),
        tile=np.array(tile, dtype=np.intp),
        index=rings.index,
        broken=rings.broken,
    )


def _room(edges: Edges) -> shapely.Polygon:
    """Returns the room that the edges bound."""
    heads = np.flatnonzero(edges.following <= np.arange(len(edges)))
    rings = np.split(edges.start, heads[:-1] + 1)
    return shapely.Polygon(rings[0], rings[1:])


def _sawn_to(ring: Points, corners: Points, edges: Edges) -> np.ndarray[tuple[int], np.dtype[np.intp]]:
    """Returns for each edge of a ring the room's edge it lies on, or `FACTORY` where it lies on the tile's outline."""
    middles = np.array([shapely.Point(point) for point in (ring + np.roll(ring, -1, axis=0)) / 2])
    walls = np.array([shapely.LineString(ends) for ends in zip(edges.start, edges.stop, strict=True)])
    nearest = shapely.distance(middles[:, None], walls[None, :]).argmin(axis=1)
    on_tile = shapely.distance(middles, shapely.LinearRing(corners)) < TOUCH
    return np.where(on_tile, FACTORY, nearest).astype(np.intp)
