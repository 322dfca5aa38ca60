"""Rooms that several layout tests share, and the test's own oracle: exact overlay through shapely."""

import math

import numpy as np
import shapely
from numpy.typing import NDArray

from floorwright.geometry.region import Points, Region
from floorwright.pattern.cell import Placement, UnitCell


def hexagons(side: float, joint: float) -> UnitCell:
    """A cell without rows: regular hexagons, two corners left and right."""
    corner = np.arange(6) * math.pi / 3
    pitch = math.sqrt(3) * side + joint
    low = pitch * np.array([math.cos(-math.pi / 6), math.sin(-math.pi / 6)])
    return UnitCell(
        name="hexagons",
        a=low,
        b=low * (1.0, -1.0),
        pieces=(side * np.stack([np.cos(corner), np.sin(corner)], axis=1) + (side + joint / math.sqrt(3), 0.0),),
        joint=joint,
        size=(2 * side, math.sqrt(3) * side),
        lines=(),
    )


def herringbone(length: float, width: float, joint: float) -> UnitCell:
    """A cell of two pieces, one lying and one standing."""
    long, short = length + joint, width + joint
    lying = np.array([[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]]) + joint / 2
    standing = np.array([[0.0, 0.0], [width, 0.0], [width, length], [0.0, length]]) + joint / 2 + (0.0, short)
    return UnitCell(
        name="herringbone",
        a=np.array([short, short]),
        b=np.array([-long, long]),
        pieces=(lying, standing),
        joint=joint,
        size=(length, width),
        lines=(),
    )


def ells(side: float, joint: float) -> UnitCell:
    """A cell of L pieces, each three squares of a side, two of them to a repeat of three by two squares."""
    pitch = side + joint
    long = 2 * side + joint
    one = np.array([[0.0, 0.0], [long, 0.0], [long, side], [side, side], [side, long], [0.0, long]]) + joint / 2
    turned = np.array([3 * pitch, 2 * pitch]) - one
    return UnitCell(
        name="ells",
        a=np.array([3 * pitch, 0.0]),
        b=np.array([0.0, 2 * pitch]),
        pieces=(one, turned),
        joint=joint,
        size=(long, long),
        lines=(),
    )


SQUARE = np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])


def region_of(*rings: object, names: tuple[str, ...] | None = None) -> Region:
    """A region from rings in any order of turning; edges are numbered unless the outer ring's names are given."""
    polygon = shapely.orient_polygons(shapely.Polygon(rings[0], rings[1:]))  # type: ignore[arg-type]
    assert polygon.is_valid
    made = tuple(
        np.array(rings[0], dtype=float) if n == 0 and names else shapely.get_coordinates(ring)[:-1]
        for n, ring in enumerate((polygon.exterior, *polygon.interiors))
    )
    edges = tuple(
        names if n == 0 and names else tuple(f"{n}.{edge}" for edge in range(len(ring))) for n, ring in enumerate(made)
    )
    return Region(rings=made, edges=edges)


def rectangle(width: float, height: float) -> Region:
    return region_of([(0, 0), (width, 0), (width, height), (0, height)], names=("S", "E", "N", "W"))


def polygon_of(region: Region) -> shapely.Polygon:
    return shapely.Polygon(region.rings[0], region.rings[1:])


def star(rng: np.random.Generator, corners: int, area_m2: float, holes: int, rough: float = 0.25) -> Region:
    """A room with corners at uneven steps round a point, some turned in, and square columns."""
    angle = np.sort((np.arange(corners) + rng.uniform(-0.35, 0.35, corners)) / corners * 2 * math.pi)
    waves = rng.uniform(-1, 1, 12)
    radius = 1 + rough * np.interp(angle, np.linspace(0, 2 * math.pi, 13), np.append(waves, waves[0]))
    radius += rng.uniform(-0.06, 0.06, corners)
    ring = np.stack([1.3 * radius * np.cos(angle), radius * np.sin(angle)], axis=1)
    scale = math.sqrt(area_m2 * 1e6 / shapely.Polygon(ring).area)
    ring = np.round(ring * scale, 1)
    room = shapely.Polygon(ring)
    columns: list[Points] = []
    for n in range(holes):
        middle = 0.4 * scale * np.array([1.2 * math.cos(2.1 * n + 0.3), math.sin(2.1 * n + 0.3)])
        column = np.round(middle + rng.uniform(0.02, 0.09) * scale * SQUARE, 1)
        if room.contains_properly(shapely.Polygon(column)):
            columns.append(column)
            room = shapely.Polygon(ring, columns)
    return region_of(ring, *columns)


def rectilinear(rng: np.random.Generator, scale: float = 1.0) -> Region:
    """The union of four boxes, in one piece; it may have a hole."""
    while True:
        corner = np.round(rng.uniform(0, 4000, (4, 2)) * scale)
        size = np.round(rng.uniform(1500, 4000, (4, 2)) * scale)
        union = shapely.union_all(shapely.box(*corner.T, *(corner + size).T)).simplify(0)
        if isinstance(union, shapely.Polygon):
            return region_of(
                shapely.get_coordinates(union.exterior)[:-1],
                *(shapely.get_coordinates(hole)[:-1] for hole in union.interiors),
            )


def patio() -> Region:
    """23 corners, 48 m2."""
    return star(np.random.default_rng(7), 23, 48.0, 0, 0.3)


def irregular() -> Region:
    """Eight corners, no two walls quite square."""
    return region_of(
        [(0, 0), (4100, 130), (4230, 1900), (6480, 1780), (6600, 4890), (3000, 5120), (2870, 4310), (-160, 4420)]
    )


def hall() -> Region:
    """1,000 m2 with eight columns 414 square."""
    outline = [(0, 0), (40120, 0), (40120, 18360), (33270, 18360), (33270, 25110), (0, 25110)]
    columns = [np.array([7900 + 8000 * i, 7950 + 8000 * j]) + 207 * SQUARE for i in range(4) for j in range(2)]
    return region_of(outline, *columns)


def to_floor(points: Points, placement: Placement) -> Points:
    """From the pattern's frame to the floor's, written out apart from the program."""
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    x = placement.origin[0] + cos * points[:, 0] - sin * points[:, 1]
    y = placement.origin[1] + sin * points[:, 0] + cos * points[:, 1]
    return np.stack([x, y], axis=1)


def tiles_over(
    region: Region, cell: UnitCell, placement: Placement
) -> tuple[list[tuple[int, int, int]], NDArray[np.object_]]:
    """Every tile that could touch the region, with its index: all of a window of the lattice that surely covers it."""
    corners = shapely.get_coordinates(shapely.box(*polygon_of(region).bounds))[:4] - placement.origin
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    local = corners @ np.array([[cos, -sin], [sin, cos]])
    st = local @ np.linalg.inv(cell.repeat)
    low, high = np.floor(st.min(axis=0)).astype(int) - 2, np.ceil(st.max(axis=0)).astype(int) + 2
    index = [
        (i, j, k)
        for i in range(low[0], high[0] + 1)
        for j in range(low[1], high[1] + 1)
        for k in range(len(cell.pieces))
    ]
    shapes = [shapely.Polygon(to_floor(cell.pieces[k] + i * cell.a + j * cell.b, placement)) for i, j, k in index]
    return index, np.array(shapes, dtype=object)
