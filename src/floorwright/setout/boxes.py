"""The boxes of a working grid, and an order of setting them that leaves a dry way to the door."""

import heapq
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely

from floorwright.control.sight import Point, unit
from floorwright.geometry.region import Points, Region
from floorwright.tolerance import SLIVER_AREA, TOUCH

SCRAP: Final = 0.1
"""Of the largest box: what is smaller is set with the neighbour that it shares most of its edge with (our default)."""

SMALL: Final = 0.35
"""The same, where both together are still within reach."""

Cut = tuple[Point, float]
"""A line: a point on it, mm, and its direction, radians."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Box:
    """A box of the grid.

    Attributes:
        number: from 1, in the order of setting.
        at: mm, a point in it to write its number at.
        area: mm2 of floor.
        rings: its outline, then its holes, each (n, 2) mm.
    """

    number: int
    at: Point
    area: float
    rings: tuple[Points, ...]


def boxes_in_order(
    *,
    region: Region,
    cuts: tuple[Sequence[Cut], Sequence[Cut]],
    reach: float,
    way_out: Point,
    along: float | None = None,
) -> tuple[Box, ...]:
    """Returns the boxes that two families of lines cut a floor into, in the order in which they are set.

    Row after row towards the way out, the box there last; when a box is set, it and all that are not set hang together
    with the way out, so that nobody walks over a fresh floor.

    Args:
        region: the floor.
        cuts: the lines of each family; either may be empty.
        reach: mm, how wide a box may be that is joined from two.
        way_out: mm, where the floor is left.
        along: direction of the wall that it is in, radians: rows run along it rather than towards it.
    """
    shapes = _joined(_pieces(region, cuts), [family[0][1] for family in cuts if family], reach)
    door = int(np.argmin([round(shapely.distance(shape, shapely.Point(way_out)) / TOUCH) for shape in shapes]))
    beside = _neighbours(shapes)
    away = _walk(shapes, beside, door)
    for row_angle in _row_angles(cuts, along):
        order = _row_by_row(shapes, _rows(shapes, beside, away, row_angle), beside, away, door)
        if order is not None:
            return _numbered(shapes, order)
    return _numbered(shapes, _box_by_box(beside, away, door))


def _pieces(region: Region, cuts: tuple[Sequence[Cut], Sequence[Cut]]) -> list[shapely.Polygon]:
    """The parts of a floor between lines."""
    floor = shapely.Polygon(region.rings[0], list(region.rings[1:]))
    far = 2 * float(np.hypot(*np.ptp(region.rings[0], axis=0)))
    lines = [
        shapely.LineString([np.asarray(at) - far * unit(angle), np.asarray(at) + far * unit(angle)])
        for family in cuts
        for at, angle in family
    ]
    if not lines:
        return [floor]
    edges = shapely.union_all([floor.boundary, *lines])
    faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(edges)))
    x, y = shapely.get_coordinates(shapely.point_on_surface(faces)).T
    return [face for face, is_in in zip(faces, shapely.contains_xy(floor, x, y), strict=True) if is_in]


def _joined(shapes: list[shapely.Polygon], angles: list[float], reach: float) -> list[shapely.Polygon]:
    """Small boxes made one with the neighbour that they share most of their edge with, the smallest first."""
    largest = max(shape.area for shape in shapes)

    def may_join(scrap: shapely.Polygon, host: shapely.Polygon) -> bool:
        if scrap.area < SCRAP * largest:
            return True
        both = shapely.get_coordinates(shapely.union(scrap, host))
        return all(float(np.ptp(both @ unit(angle + math.pi / 2))) <= reach + TOUCH for angle in angles)

    while (pair := _scrap_and_host(shapes, SMALL * largest, may_join)) is not None:
        rest = [shape for shape in shapes if not any(shape is one for one in pair)]
        both = shapely.union(*pair)
        assert isinstance(both, shapely.Polygon)
        shapes = [*rest, both]
    return sorted(shapes, key=_place)


def _scrap_and_host(
    shapes: list[shapely.Polygon], least: float, may_join: Callable[[shapely.Polygon, shapely.Polygon], bool]
) -> tuple[shapely.Polygon, shapely.Polygon] | None:
    """The smallest box under a size that may be joined to a neighbour, and that neighbour."""
    in_order = sorted(shapes, key=lambda shape: (round(shape.area / SLIVER_AREA), _place(shape)))
    for scrap in in_order:
        if scrap.area >= least:
            return None
        hosts = [other for other in in_order if other is not scrap and _shared(scrap, other) > TOUCH]
        hosts = [other for other in hosts if may_join(scrap, other)]
        if hosts:
            return scrap, max(hosts, key=lambda other: round(_shared(scrap, other) / TOUCH))
    return None


def _place(shape: shapely.Polygon) -> tuple[int, int]:
    return round(shape.centroid.y / TOUCH), round(shape.centroid.x / TOUCH)


def _shared(one: shapely.Polygon, other: shapely.Polygon) -> float:
    """Length of the edge that two boxes share, mm."""
    if shapely.distance(one, other) > TOUCH:
        return 0.0
    return float(shapely.length(shapely.intersection(one.boundary, other.boundary)))


def _neighbours(shapes: list[shapely.Polygon]) -> list[list[int]]:
    count = range(len(shapes))
    return [[m for m in count if m != n and _shared(shapes[n], shapes[m]) > TOUCH] for n in count]


def _walk(shapes: list[shapely.Polygon], beside: list[list[int]], door: int) -> list[float]:
    """How far each box is from the door, from middle to middle of neighbours, mm."""
    middles = [shape.centroid for shape in shapes]
    away = [math.inf] * len(shapes)
    away[door] = 0.0
    queue = [(0.0, door)]
    while queue:
        far, here = heapq.heappop(queue)
        if far > away[here]:
            continue
        for there in beside[here]:
            beyond = far + middles[here].distance(middles[there])
            if beyond < away[there]:
                away[there] = beyond
                heapq.heappush(queue, (beyond, there))
    return away


def _row_angles(cuts: tuple[Sequence[Cut], Sequence[Cut]], along: float | None) -> list[float]:
    """The directions that rows of boxes may run in, the one nearest to that of the door's wall first."""
    angles = [family[0][1] for family in cuts if family] or [0.0]
    return angles if along is None else sorted(angles, key=lambda angle: round(abs(math.sin(angle - along)) / TOUCH))


def _rows(shapes: list[shapely.Polygon], beside: list[list[int]], away: list[float], angle: float) -> list[list[int]]:
    """Boxes that hang together along a direction, in line, the row farthest from the door first."""
    normal = unit(angle + math.pi / 2)
    off = {n: _off(shape, normal) for n, shape in enumerate(shapes)}
    middles = shapely.get_coordinates(shapely.centroid(shapes))
    left, rows = dict.fromkeys(range(len(shapes))), []
    while left:
        row, queue = [], [next(iter(left))]
        while queue:
            here = queue.pop()
            if here not in left:
                continue
            del left[here]
            row.append(here)
            queue += [there for there in beside[here] if there in left and _alongside(off[row[0]], off[there])]
        rows.append(sorted(row, key=lambda n: round(float(middles[n] @ unit(angle)) / TOUCH)))
    return sorted(rows, key=lambda row: -round(min(away[n] for n in row) / TOUCH))


def _off(shape: shapely.Polygon, normal: Points) -> tuple[float, float]:
    across = shapely.get_coordinates(shape) @ normal
    return float(across.min()), float(across.max())


def _alongside(one: tuple[float, float], other: tuple[float, float]) -> bool:
    """Whether two boxes stand in one row: the middle of each lies within the other's depth."""
    middles = (one[0] + one[1]) / 2, (other[0] + other[1]) / 2
    return one[0] < middles[1] < one[1] and other[0] < middles[0] < other[1]


def _row_by_row(
    shapes: list[shapely.Polygon], rows: list[list[int]], beside: list[list[int]], away: list[float], door: int
) -> list[int] | None:
    """An order that sets row after row, back and forth, and keeps a way to the door; None where rows allow none.

    Each row ends where the next begins, so that nobody carries tools and mortar across; where that leaves no way out it
    is swept from its other end, else from both ends to the box of it that is nearest to the door.
    """
    order: list[int] = []
    # Backwards: from the door outwards every box must join those that are set after it.
    for row in reversed(rows):
        ends = sorted((row, row[::-1]), key=lambda way: _farther(way, order, shapes, away))
        found = next((way for way in (*ends, _to_exit(row, away)) if _joins(way, order, beside, door)), None)
        if found is None:
            return None
        order = [*found, *order]
    return order


def _farther(way: list[int], later: list[int], shapes: list[shapely.Polygon], away: list[float]) -> int:
    """How far the end of a row is from the box set after it, or of the last row from the door, in steps of `TOUCH`."""
    last = way[-1]
    far = shapes[last].centroid.distance(shapes[later[0]].centroid) if later else away[last]
    return round(far / TOUCH)


def _box_by_box(beside: list[list[int]], away: list[float], door: int) -> list[int]:
    """An order where no rows do: on to a neighbour as long as what is left hangs together, the one far from the door
    first; else to the farthest box left."""
    left, order = set(range(len(beside))), list[int]()
    while left:
        may = [n for n in sorted(left) if _hangs_together(left - {n}, beside, door)]
        near = [n for n in may if order and n in beside[order[-1]]]
        order.append(max(near or may, key=lambda n: round(away[n] / TOUCH)))
        left.discard(order[-1])
    return order


def _hangs_together(boxes: set[int], beside: list[list[int]], door: int) -> bool:
    """Whether every box can be walked to from the door over the others; no boxes at all do."""
    if door not in boxes:
        return not boxes
    reached, queue = {door}, [door]
    while queue:
        fresh = boxes.intersection(beside[queue.pop()]) - reached
        reached |= fresh
        queue += sorted(fresh)
    return reached == boxes


def _to_exit(row: list[int], away: list[float]) -> list[int]:
    """A row from both its ends to the box in it that is nearest to the door, the longer arm first."""
    exit_at = min(range(len(row)), key=lambda n: round(away[row[n]] / TOUCH))
    longer, shorter = sorted((row[:exit_at], row[:exit_at:-1]), key=len, reverse=True)
    return [*longer, *shorter, row[exit_at]]


def _joins(row: list[int], later: list[int], beside: list[list[int]], door: int) -> bool:
    """Whether every box of a row, when it is set, hangs together with the door over boxes that are set after it."""
    open_yet = set(later)
    for here in reversed(row):
        if open_yet:
            if not open_yet.intersection(beside[here]):
                return False
        elif here != door:
            return False
        open_yet.add(here)
    return True


def _numbered(shapes: list[shapely.Polygon], order: Sequence[int]) -> tuple[Box, ...]:
    boxes = []
    for number, n in enumerate(order, start=1):
        shape = shapes[n]
        middle = shape.centroid if shape.contains(shape.centroid) else shape.point_on_surface()
        rings = tuple(shapely.get_coordinates(ring)[:-1] for ring in (shape.exterior, *shape.interiors))
        boxes.append(Box(number=number, at=(middle.x, middle.y), area=shape.area, rings=rings))
    return tuple(boxes)
