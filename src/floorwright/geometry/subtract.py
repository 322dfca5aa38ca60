"""A region less named rings, what it has in common with one, or cut along lines, every edge of what is left named."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from floorwright.geometry.measure import distance_to_segments
from floorwright.geometry.region import Points, Region
from floorwright.tolerance import COINCIDENT, SLIVER_AREA


class NamedEdges:
    """Segments with names, to be asked which of them an edge lies on. Kept as a class because it grows."""

    def __init__(self) -> None:
        self._start: list[Points] = []
        self._end: list[Points] = []
        self._names: list[str] = []

    def add(self, ring: Points, names: Sequence[str]) -> None:
        """Adds every edge of a ring, `names[i]` for the edge that starts at point i."""
        self._start.extend(ring)
        self._end.extend(np.roll(ring, -1, axis=0))
        self._names.extend(names)

    def add_segment(self, start: Points, end: Points, name: str) -> None:
        """Adds the segment between two points."""
        self._start.append(start)
        self._end.append(end)
        self._names.append(name)

    def names_of(self, ring: Points) -> tuple[str, ...]:
        """Returns for each edge of a ring the name of the segment nearest to its middle (the first added of equals)."""
        middle = (ring + np.roll(ring, -1, axis=0)) / 2
        away = distance_to_segments(middle, np.array(self._start), np.array(self._end))
        # Rounded, so that of two segments on one line the first added wins on every machine.
        nearest = np.argmin(np.round(away / COINCIDENT), axis=1)
        return tuple(self._names[index] for index in nearest)


def subtract(region: Region, pieces: Sequence[tuple[Points, Sequence[str]]]) -> tuple[Region, ...]:
    """Returns the parts that are left of a region, largest first; none where nothing is.

    Every edge of a part lies on an edge of the region or of a piece, and carries its name; circles are the region's.
    Leavings under `tolerance.SLIVER_AREA` are dropped.

    Args:
        region: what is cut.
        pieces: rings to take away, of either direction, each with the name of every edge.
    """
    edges = NamedEdges()
    for ring, names in pieces:
        edges.add(ring, names)
    for ring, names in zip(region.rings, region.edges, strict=True):
        edges.add(ring, names)
    whole = shapely.Polygon(region.rings[0], region.rings[1:])
    rings = [shapely.Polygon(ring) for ring, _ in pieces]
    taken = _together([ring if ring.is_valid else ring.buffer(0) for ring in rings])
    left = shapely.difference(whole, taken)
    parts = [part for part in _polygons(left) if part.area > SLIVER_AREA]
    parts.sort(key=lambda part: (-round(part.area / SLIVER_AREA), part.bounds))
    return tuple(replace(_named(part, edges), circles=region.circles) for part in parts)


def common(region: Region, pieces: Sequence[tuple[Points, Sequence[str]]]) -> tuple[Region, ...]:
    """Returns the parts of a region inside some rings, largest first; none where nothing is.

    Every edge of a part carries the name of the edge of the region that it lies on, or else of a ring.

    Args:
        region: what is cut.
        pieces: simple rings, of either direction, each with the name of every edge.
    """
    edges = NamedEdges()
    for own, own_names in zip(region.rings, region.edges, strict=True):
        edges.add(own, own_names)
    for ring, names in pieces:
        edges.add(ring, names)
    whole = shapely.Polygon(region.rings[0], region.rings[1:])
    kept = shapely.intersection(whole, _together([shapely.Polygon(ring) for ring, _ in pieces]))
    parts = [part for part in _polygons(kept) if part.area > SLIVER_AREA]
    parts.sort(key=lambda part: (-round(part.area / SLIVER_AREA), part.bounds))
    return tuple(replace(_named(part, edges), circles=region.circles) for part in parts)


def split(region: Region, lines: Sequence[tuple[Points, str]]) -> tuple[Region, ...]:
    """Returns the parts that lines cut a region into, largest first.

    Every edge of a part carries the name of the edge of the region that it lies on, or else of a line.

    Args:
        region: what is cut.
        lines: (n, 2) mm, each with its name; what runs past the region or ends in it cuts nothing there.
    """
    edges = NamedEdges()
    for own, own_names in zip(region.rings, region.edges, strict=True):
        edges.add(own, own_names)
    for line, name in lines:
        for one, other in pairwise(line):
            edges.add_segment(one, other, name)
    whole = shapely.Polygon(region.rings[0], region.rings[1:])
    network = shapely.union_all([shapely.boundary(whole), *(shapely.LineString(line) for line, _ in lines)])
    faces = shapely.get_parts(shapely.polygonize(list(shapely.get_parts(network))))
    inside = [face for face in faces if shapely.contains(whole, shapely.point_on_surface(face))]
    parts = [face for face in inside if face.area > SLIVER_AREA]
    parts.sort(key=lambda part: (-round(part.area / SLIVER_AREA), part.bounds))
    return tuple(replace(_named(part, edges), circles=region.circles) for part in parts)


def _together(shapes: list[BaseGeometry]) -> BaseGeometry:
    """Returns the union of shapes, two by two: the union of all at once loses a thin wedge now and then (GEOS 3.14)."""
    while len(shapes) > 1:
        odd = shapes[len(shapes) // 2 * 2 :]
        shapes = [shapely.union(one, other) for one, other in zip(shapes[::2], shapes[1::2], strict=False)] + odd
    return shapes[0] if shapes else shapely.Polygon()


def _polygons(geometry: BaseGeometry) -> list[shapely.Polygon]:
    return [part for part in shapely.get_parts(geometry) if isinstance(part, shapely.Polygon) and not part.is_empty]


def _named(polygon: shapely.Polygon, edges: NamedEdges) -> Region:
    oriented = orient(polygon)
    rings = [_clean(np.asarray(ring.coords)[:-1, :2]) for ring in (oriented.exterior, *oriented.interiors)]
    kept = [ring for index, ring in enumerate(rings) if index == 0 or len(ring) >= 3]
    named = [_merged(ring, edges.names_of(ring)) for ring in kept]
    return Region(rings=tuple(ring for ring, _ in named), edges=tuple(names for _, names in named))


def _clean(ring: Points) -> Points:
    """The ring without points that coincide with the one before, and without spikes that have no width."""
    kept = list(ring)
    i = 0
    while i < len(kept) and len(kept) >= 3:
        before, here, after = kept[i - 1], kept[i], kept[(i + 1) % len(kept)]
        coincides = float(np.hypot(*(here - before))) <= COINCIDENT
        if coincides or _is_on(after, before, here) or _is_on(before, here, after):
            del kept[i]
            i = max(i - 1, 0)
        else:
            i += 1
    return np.array(kept)


def _is_on(point: Points, start: Points, end: Points) -> bool:
    return float(distance_to_segments(point, start, end)[0, 0]) <= COINCIDENT


def _merged(ring: Points, names: tuple[str, ...]) -> tuple[Points, tuple[str, ...]]:
    """The ring without the points in the middle of a straight edge of one name, which cutting leaves behind."""
    before, after = np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0)
    keep = [i for i in range(len(ring)) if names[i] != names[i - 1] or not _is_on(ring[i], before[i], after[i])]
    if len(keep) < 3:
        return ring, names
    return np.ascontiguousarray(ring[keep]), tuple(names[i] for i in keep)
