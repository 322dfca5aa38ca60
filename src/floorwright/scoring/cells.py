"""The cells between the lines, and what each is stained: neighbours across a line never alike, if it can be done."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from heapq import heappop, heappush
from typing import TYPE_CHECKING, Final

import numpy as np
import shapely

from floorwright.geometry.region import Region
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.scoring.design import Area, Circle, Design, Point
from floorwright.scoring.runs import repeats
from floorwright.scoring.spokes import Spokes
from floorwright.tolerance import CHORD, ONE_CUT, SLIVER_AREA

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

Ring = tuple[Point, ...]

RIM: Final = 0.1
"""mm that a cell is grown by to find its neighbours."""

BORDER: Final = "border"
CIRCLE: Final = "circle"
CELL: Final = "cell"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A part of the slab between lines.

    Attributes:
        what: `cell`, `border` or `circle`.
        rings: outline, then holes, floor mm; circles flattened.
        area: mm2, circles as they are.
        colour: empty where nobody stains it.
    """

    what: str
    rings: tuple[Ring, ...]
    area: float
    colour: str = ""


def cells_of(
    *, design: Design, areas: Sequence[Area], ground: Region, spokes: Sequence[Spokes]
) -> tuple[tuple[Cell, ...], int]:
    """Returns the cells, the border and the circles, and how many pairs of neighbours are stained alike.

    Args:
        design: what is scored, and in which colours.
        areas: with lines of their own, the field inside the plain border first.
        ground: what the field takes with that border.
        spokes: of the circles' rings.
    """
    discs = [disc(circle) for circle in design.circles]
    plain = shapely.union_all([shape for circle, shape in zip(design.circles, discs, strict=True) if circle.plain])
    cells: list[Cell] = []
    alike = 0
    for area in areas:
        inner = shapely.Polygon(area.region.rings[0], area.region.rings[1:])
        whole = _pieces(area.cell, area.placement, inner) if area.cell is not None else [(inner, "")]
        left = [(part, kind) for one, kind in whole for part in _polygons(shapely.difference(one, plain))]
        shapes = [shape for shape, _ in left]
        sizes = None
        if area.by_size and area.cell is not None:
            order = [one.name for one in area.cell.goods]
            sizes = [min(order.index(kind), len(area.colours) - 1) for _, kind in left]
        stained, pairs = _stained(CELL, shapes, area.colours, sizes)
        cells += stained
        alike += pairs
    if design.ends or design.sides:
        field = shapely.Polygon(areas[0].region.rings[0], areas[0].region.rings[1:])
        border = shapely.difference(shapely.Polygon(ground.rings[0], ground.rings[1:]), shapely.union(field, plain))
        cells += [_cell(BORDER, part, design.border_colour) for part in _polygons(border)]
    for number, (circle, shape) in enumerate(zip(design.circles, discs, strict=True), start=1):
        if circle.plain:
            shapes = list(_sectors(circle, shape, [one for one in spokes if one.circle == number]))
            stained, pairs = _stained(CIRCLE, shapes, circle.colours)
            cells += stained
            alike += pairs
    return tuple(cells), alike


def _stained(
    what: str, shapes: Sequence[shapely.Polygon], colours: Sequence[str], by_size: Sequence[int] | None = None
) -> tuple[list[Cell], int]:
    """Cells with a colour each, and how many neighbours have the same; by size that is as it is asked for."""
    beside = _neighbours(shapes) if len(colours) > 1 and by_size is None else []
    numbers = by_size if by_size is not None else _coloured(len(shapes), beside, max(1, len(colours)))
    cells = [
        _cell(what, shape, colours[number] if colours else "") for shape, number in zip(shapes, numbers, strict=True)
    ]
    return cells, sum(numbers[one] == numbers[other] for one, other in beside)


def _sectors(circle: Circle, shape: shapely.Polygon, spokes: Sequence[Spokes]) -> Iterator[shapely.Polygon]:
    """Yields what rings and spokes make of a circle: of each ring its cells, then what is left in the middle."""
    left = shape
    for ring in spokes:
        inner = disc(replace(circle, radius=ring.inner)) if ring.inner else shapely.Polygon()
        band, left = shapely.difference(left, inner), inner
        step = math.tau / ring.count
        for k in range(ring.count):
            turn = ring.first + step * (k + np.linspace(0, 1, 2 + math.ceil(step)))
            far = np.asarray(circle.centre) + 2 * circle.radius * np.column_stack([np.cos(turn), np.sin(turn)])
            wedge = shapely.Polygon([circle.centre, *far.tolist()]) if ring.count > 1 else band
            yield from _polygons(shapely.intersection(band, wedge))
    yield from _polygons(left)


def disc(circle: Circle) -> shapely.Polygon:
    """Returns a circle as a polygon of its own area, which strays from it by no more than `tolerance.CHORD`."""
    count = max(32, math.ceil(math.pi / math.acos(max(-1.0, 1 - CHORD / circle.radius))))
    turn = np.arange(count) * math.tau / count
    radius = circle.radius * math.sqrt(math.tau / (count * math.sin(math.tau / count)))
    return shapely.Polygon(np.column_stack([np.cos(turn), np.sin(turn)]) * radius + np.asarray(circle.centre))


def _pieces(cell: UnitCell, placement: Placement, area: shapely.Polygon) -> list[tuple[shapely.Polygon, str]]:
    """The pattern's pieces cut to an area, row by row, each with its kind."""
    box = np.array(area.bounds).reshape(2, 2)
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    turn = np.array([[cos, sin], [-sin, cos]])
    shifts = repeats(cell, placement, box) @ cell.repeat
    found: list[tuple[BaseGeometry, str]] = []
    shapely.prepare(area)
    for number, piece in enumerate(cell.pieces):
        placed = shapely.polygons((piece[None] + shifts[:, None]) @ turn + np.asarray(placement.origin))
        met = placed[shapely.intersects(area, placed)]
        found += [(whole, cell.kind(number)) for whole in shapely.intersection(met, area)]
    parts = [(part, kind) for whole, kind in found for part in _polygons(whole)]
    # Round the floor row by row, so that the first colour starts in the corner that is read first.
    return sorted(parts, key=lambda one: tuple(round(value) for value in (one[0].centroid.y, one[0].centroid.x)))


def _polygons(geometry: "BaseGeometry") -> list[shapely.Polygon]:
    return [
        part for part in shapely.get_parts(geometry) if isinstance(part, shapely.Polygon) and part.area > SLIVER_AREA
    ]


def _cell(what: str, shape: shapely.Polygon, colour: str) -> Cell:
    rings = tuple(
        tuple((float(x), float(y)) for x, y in ring.coords[:-1]) for ring in (shape.exterior, *shape.interiors)
    )
    return Cell(what=what, rings=rings, area=float(shape.area), colour=colour)


def _neighbours(shapes: Sequence[shapely.Polygon]) -> list[tuple[int, int]]:
    """Pairs of cells that share a line, and not only a corner."""
    if not shapes:
        return []
    array = np.array(shapes, dtype=object)
    rims = shapely.buffer(array, RIM, join_style="mitre")
    one, other = shapely.STRtree(rims).query(array, predicate="intersects")
    once = one < other
    one, other = one[once], other[once]
    # A cell and the rim of one beside it overlap in a strip as wide as the rim, along all that they share.
    keep = shapely.area(shapely.intersection(array[one], rims[other])) > RIM * ONE_CUT
    return sorted(zip(one[keep].tolist(), other[keep].tolist(), strict=True))


def _coloured(count: int, pairs: Sequence[tuple[int, int]], most: int) -> list[int]:
    """A number for each cell: the least that none of its neighbours has, or 0 where all are taken.

    The cell whose neighbours show most colours is taken next (D. Brélaz, "New methods to color the vertices of a
    graph", Communications of the ACM 22, 1979): exact for a chequer, and of hexagons each is forced by two before.
    """
    beside: list[list[int]] = [[] for _ in range(count)]
    for one, other in pairs:
        beside[one].append(other)
        beside[other].append(one)
    number_of: dict[int, int] = {}
    taken: list[set[int]] = [set() for _ in range(count)]
    waiting = [(0, number) for number in range(count)]
    while waiting:
        seen, here = heappop(waiting)
        if here in number_of or -seen < len(taken[here]):
            continue
        number_of[here] = next((number for number in range(most) if number not in taken[here]), 0)
        for other in beside[here]:
            taken[other].add(number_of[here])
            heappush(waiting, (-len(taken[other]), other))
    return [number_of[number] for number in range(count)]
