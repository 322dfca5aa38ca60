"""What cannot be better than a given width, as polygons of places.

Each edge of the room rules out a convex polygon of places for each tile: those at which it cuts the tile and leaves
less than the width behind it. A position tried rules out the places round it that leave its too narrow pieces too
narrow (`layout.motion`).
"""

import math
from dataclasses import dataclass, field
from heapq import heappop, heappush
from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from floorwright.geometry.region import Points
from floorwright.layout.clip import grouped, rings_of
from floorwright.layout.convex import kept
from floorwright.layout.ground import Ground, strips
from floorwright.layout.measure import measure
from floorwright.layout.motion import narrow_moves, polygon_of, tiles_under
from floorwright.tolerance import COINCIDENT

Shapes: TypeAlias = NDArray[np.object_]

AT_A_TIME = 24
"""Polygons put together before they are taken away from what is left open; then twice as many, and so on: the later and
smaller ones leave more and more parts open, which each time are looked through."""

SIMPLER = 1.02
"""A polygon is drawn in by this much more: shapely leaves out corners that stand out by under 1 % of the distance."""

MOST_TILES = 4
"""Tiles with narrow pieces, at a position tried, that places are ruled out by."""


@dataclass(slots=True, kw_only=True, eq=False)
class Open:
    """The places not ruled out, as polygons; the largest is looked at first."""

    heap: list[tuple[float, int, shapely.Polygon]] = field(default_factory=list)
    count: int = 0

    def __bool__(self) -> bool:
        return bool(self.heap)

    @property
    def area(self) -> float:
        """mm2."""
        return -sum(entry[0] for entry in self.heap)

    def add(self, shape: shapely.Geometry) -> None:
        """Adds the polygons of a shape."""
        for part in shapely.get_parts(shape):
            if part.area > 0.0:
                heappush(self.heap, (-part.area, self.count, part))
                self.count += 1

    def largest(self) -> shapely.Polygon:
        """Returns the largest polygon."""
        return self.heap[0][2]

    def take(self) -> shapely.Polygon:
        """Returns the largest polygon and removes it."""
        return heappop(self.heap)[2]

    def all(self) -> shapely.Geometry:
        """Returns all of it as one shape."""
        return shapely.union_all([part for _, _, part in self.heap])


def repeat_of(ground: Ground) -> shapely.Polygon:
    """Returns all the places there are: one repeat."""
    return shapely.Polygon(np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]]) @ ground.cell.repeat)


def not_ruled_out(ground: Ground, left: shapely.Geometry, width: float, turn: float = 0.0) -> shapely.Geometry:
    """Returns what is left of some places less those at which an edge leaves under `width` of a tile that it cuts.

    Args:
        ground: of the search.
        left: places.
        width: mm.
        turn: radians; if not 0, only places are taken away at which the same edge meets the same of the tile however
            far the floor is turned about the search's centre, up to so far either way.
    """
    shapes = _ruled_out(ground, width, turn)
    shapes = shapely.intersection(shapes[shapely.intersects(shapes, left)], shapely.box(*shapely.bounds(left)))
    # The largest first: soon so little is left open that few of the others touch it.
    shapes = shapes[np.argsort(-shapely.area(shapes), kind="stable")]
    count = AT_A_TIME
    while len(shapes) and not shapely.is_empty(left):
        left = shapely.difference(left, shapely.union_all(shapes[:count]))
        shapely.prepare(left)
        shapes = shapes[count:]
        shapes = shapes[shapely.intersects(left, shapes)]
        count *= 2
    return left


def _ruled_out(ground: Ground, width: float, turn: float) -> Shapes:
    """Returns the polygons of places that leave a strip, and those of every edge with every tile that it may cut.

    Where the floor may be turned a point of an edge strays by the chord of that turn about the centre, so each edge's
    polygon is drawn in by as much as its farther end strays: what a convex polygon holds with that much to spare, it
    holds when its sides have strayed.
    """
    edges, into = ground.edges, ground.edges.normals
    shapes = [np.array([shapely.Polygon(strip) for strip in strips(ground, turn)], dtype=object)]
    drawn_in = [np.zeros(len(shapes[0]))]
    far_end = np.maximum(np.hypot(*edges.start.T), np.hypot(*edges.stop.T))
    strays = (SIMPLER * 2.0 * math.sin(turn / 2) * far_end).tolist()
    # What is left of a piece may reach behind an edge as far as the whole piece does, not only the part that it meets.
    far = np.maximum.reduceat(ground.repeat.corners @ into.T, ground.repeat.first[:-1]).tolist()
    for pairs in ground.pairs:
        part, normal = ground.parts[pairs.part], into[pairs.edge]
        near = kept(part.outline.corners, -normal, width - far[part.piece][pairs.edge])
        if len(near):
            ends = np.concatenate([pairs.start[:, None] - near, pairs.stop[:, None] - near], axis=1)
            shapes.append(np.asarray(shapely.convex_hull(shapely.multipoints(ends))))
            drawn_in.append(np.full(len(ends), strays[pairs.edge]))
    by = COINCIDENT - np.concatenate(drawn_in)
    return np.asarray(shapely.buffer(np.concatenate(shapes), by, join_style="mitre"))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tried:
    """A place tried exactly.

    Attributes:
        narrowest: mm, its narrowest cut piece; as wide as the widest tile where none is cut.
        alike: the places round it at which some piece is under the width asked for, the place itself among them;
            nothing where none could be told.
    """

    narrowest: float
    alike: shapely.Geometry


def try_at(ground: Ground, place: Points, window: Points, best: float, lead: float) -> Tried:
    """Returns what a place makes, and the places in a window that are better than the best by no more than `lead`.

    Args:
        ground: of the search.
        place: (2,) mm.
        window: (n, 2) mm, convex, anticlockwise.
        best: mm, so far; if this place is better, it takes its place.
        lead: mm.
    """
    edges = ground.edges_at(place)
    rings = rings_of(edges, ground.repeat)
    pieces = grouped(rings)
    narrowest = measure(pieces).narrowest
    least = float(narrowest.min(initial=ground.most))
    width = max(least, best) + lead
    alike = []
    for tile in tiles_under(narrowest, pieces.index, rings, width)[:MOST_TILES]:
        if rings.broken[tile]:
            continue
        k = int(rings.index[tile, 2])
        parts = tuple(part.outline for part in ground.parts if part.piece == k)
        origin = rings.index[tile, :2] @ ground.cell.repeat
        for planes in narrow_moves(rings, int(tile), edges, ground.within.of(k), parts, origin, width):
            polygon = polygon_of(planes, window - place, COINCIDENT)
            if len(polygon):
                alike.append(shapely.Polygon(polygon + place))
    union = shapely.union_all(alike)
    return Tried(narrowest=least, alike=union if shapely.intersects_xy(union, *place) else shapely.Polygon())


def inside(part: shapely.Polygon) -> Points:
    """Returns a place well inside a polygon: its centroid if that is."""
    middle = shapely.centroid(part)
    chosen = middle if shapely.contains(part, middle) else shapely.point_on_surface(part)
    return np.array([chosen.x, chosen.y])


def window_of(part: shapely.Polygon) -> Points:
    """Returns the corners of a box round a polygon with some to spare, anticlockwise."""
    return np.asarray(
        shapely.get_coordinates(shapely.box(*shapely.bounds(part)).buffer(COINCIDENT, join_style="mitre"))[:-1][::-1]
    )
