"""Rooms with arcs laid out: areas, widths and counts against dense polygons through shapely, which know no arcs."""

import math
from collections.abc import Iterator
from functools import cache

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray
from tests.layout.oracle import Judge, over_the_bound

from floorwright.geometry.arc import Arc, bulged_area, by_rise, flat
from floorwright.geometry.inset import inset
from floorwright.geometry.measure import area, turns
from floorwright.geometry.region import Circle, Points, Region
from floorwright.geometry.restore import restored_region
from floorwright.layout.clip import clip
from floorwright.layout.pieces import pieces_of
from floorwright.layout.score import narrowest_of
from floorwright.layout.search import search
from floorwright.pattern.catalogue import grid
from floorwright.pattern.cell import Placement
from floorwright.tolerance import ARC, CHORD, PROOF

DENSE = 1e-4
ROOMS = ("bay", "apse", "bows in", "kerb")


@cache
def room(name: str) -> Region:
    """A bay of 742 on 3598; a half-round apse; a wall that bows in, with a round column; a kerb of two arcs."""
    if name == "kerb":
        corners = [(0.0, 0.0), (5200.0, 300.0), (5600.0, 2600.0), (400.0, 2400.0)]
        return _walls(corners, {0: 310.0, 2: -260.0})
    rise = {"bay": 742.0, "apse": 1500.0, "bows in": -420.0}[name]
    width = 3000.0 if name == "apse" else 3598.0
    region = _walls([(0.0, 0.0), (width, 0.0), (width + 7, 3010.0), (-4.0, 3003.0)], {2: rise})
    if name != "bows in":
        return region
    post = Circle(centre=(2300.0, 1200.0), radius=160.0, hollow=False)
    turns = -2 * math.pi * (np.arange(64) + 0.5) / 64
    out = 160 / math.cos(math.pi / 64)
    hole = np.column_stack([2300 + out * np.cos(turns), 1200 + out * np.sin(turns)])
    return Region(
        rings=(*region.rings, hole), edges=(*region.edges, ("post",) * 64), circles={**region.circles, "post": post}
    )


def _walls(corners: list[tuple[float, float]], rises: dict[int, float]) -> Region:
    points, names, circles = [], [], {}
    for n, start in enumerate(corners):
        end = corners[(n + 1) % len(corners)]
        edges = np.array([start])
        if n in rises:
            arc = by_rise(start, end, rises[n])
            edges, circles[f"w{n}"] = flat(arc, ARC), arc.circle
        points.append(edges)
        names += [f"w{n}"] * len(edges)
    return Region(rings=(np.concatenate(points),), edges=(tuple(names),), circles=circles)


def dense(region: Region) -> Region:
    """The true floor as a polygon of very many points on the arcs."""
    rings = []
    for outline in restored_region(region):
        points = []
        for n, (x, y) in enumerate(outline.points):
            end = outline.points[(n + 1) % len(outline.points)]
            bulge = outline.bulges[n]
            if not bulge:
                points.append(np.array([[x, y]]))
                continue
            arc = Arc(start=(x, y), end=tuple(end), bulge=bulge)
            count = math.ceil(math.sqrt(arc.radius / DENSE) * abs(arc.sweep) / 2.8)
            turns = arc.sweep * np.arange(count) / count
            away = complex(x, y) - complex(*arc.centre)
            turned = complex(*arc.centre) + away * np.exp(1j * turns)
            points.append(np.column_stack([turned.real, turned.imag]))
        rings.append(np.concatenate(points))
    return Region(rings=tuple(rings), edges=tuple(("",) * len(ring) for ring in rings))


PLACES = [Placement(origin=(x, y), angle=a) for x, y, a in ((10.0, 20.0, 0.0), (133.3, 250.1, 0.0), (71.0, 5.0, 0.6))]


@pytest.mark.parametrize("placement", PLACES)
@pytest.mark.parametrize("name", ROOMS)
def test_area_is_conserved_with_true_arcs(name: str, placement: Placement) -> None:
    region, cell = inset(room(name), 6.0), grid((447.0, 447.0), 3.0)
    covered = sum(piece.area for piece in pieces_of("z", region, cell, placement))
    floor = dense(region)
    polygon = shapely.Polygon(floor.rings[0], floor.rings[1:])
    shapely.prepare(polygon)
    # Tiles from far beyond the floor on, each cut by shapely.
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    ij = np.stack(np.meshgrid(np.arange(-30, 31), np.arange(-30, 31)), axis=-1).reshape(-1, 1, 2)
    rings = (cell.pieces[0] + ij @ cell.repeat) @ np.array([[cos, sin], [-sin, cos]]) + placement.origin
    expected = shapely.area(shapely.intersection(shapely.polygons(rings), polygon)).sum()
    assert covered == pytest.approx(expected, rel=1e-6)
    true = sum(bulged_area(ring.points, ring.bulges) for ring in restored_region(region))
    assert true == pytest.approx(polygon.area, rel=1e-7)


@pytest.mark.parametrize("placement", PLACES)
@pytest.mark.parametrize("name", ROOMS)
def test_edges_for_an_arc_make_no_slivers_that_it_has_not(name: str, placement: Placement) -> None:
    region, cell = inset(room(name), 6.0), grid((447.0, 447.0), 3.0)
    ours, true = narrowest_of(region, cell, placement), Judge(dense(region), cell).value(placement)
    assert ours >= true - CHORD
    # Tangents are tried at every edge alone: between two of them they turn, at most by this over a tile's diagonal.
    widest = max(
        float(np.abs(turns(ring)[_within(names)]).max()) for ring, names in _rings(region) if any(_within(names))
    )
    assert ours <= true + CHORD + math.hypot(*cell.size) * widest / 2


def _rings(region: Region) -> Iterator[tuple[Points, tuple[str, ...]]]:
    return zip(region.rings, region.edges, strict=True)


def _within(names: tuple[str, ...]) -> NDArray[np.bool_]:
    """The points between two edges of one arc."""
    return np.array([name == before for name, before in zip(names, (names[-1], *names[:-1]), strict=True)])


@pytest.mark.parametrize("name", ROOMS)
def test_no_position_on_the_true_floor_beats_the_bound(name: str) -> None:
    region, cell = inset(room(name), 6.0), grid((597.0, 597.0), 3.0)
    found = search(region, cell, angle=0.02, centre=(1500.0, 1500.0), spare=0.0, aim="widest worst piece")
    assert found.proof.status == "proved"
    assert not over_the_bound(dense(region), cell, 0.02, found.proof.bound + 2.2 * ARC, found.placement, steps=9)
    assert found.proof.bound <= found.narrowest + PROOF


@pytest.mark.parametrize("name", ROOMS)
def test_kernel_needs_no_overlay_for_arcs(name: str) -> None:
    region = inset(room(name), 6.0)
    rng = np.random.default_rng(5)
    for size in ((447.0, 447.0), (97.0, 97.0), (597.0, 147.0)):
        cell = grid(size, 3.0)
        for x, y, angle in rng.uniform((0, 0, 0), (600, 600, 1.5), (20, 3)):
            clipped = clip(region, cell, Placement(origin=(float(x), float(y)), angle=float(angle)))
            assert clipped.mended == 0


@pytest.mark.parametrize("name", ROOMS)
def test_turned_plan_is_the_turned_layout(name: str) -> None:
    region, cell = room(name), grid((447.0, 297.0), 3.0)
    angle, away = 0.7, np.array([1200.0, -340.0])
    cos, sin = math.cos(angle), math.sin(angle)
    matrix = np.array([[cos, sin], [-sin, cos]])
    turned = Region(
        rings=tuple(ring @ matrix + away for ring in region.rings),
        edges=region.edges,
        circles={
            wall: Circle(centre=tuple(np.array(one.centre) @ matrix + away), radius=one.radius, hollow=one.hollow)
            for wall, one in region.circles.items()
        },
    )
    x, y = np.array([55.0, 77.0]) @ matrix + away
    first = pieces_of("z", inset(region, 6.0), cell, Placement(origin=(55.0, 77.0), angle=0.0))
    second = pieces_of("z", inset(turned, 6.0), cell, Placement(origin=(float(x), float(y)), angle=angle))
    assert [piece.id for piece in first] == [piece.id for piece in second]
    for one, other in zip(first, second, strict=True):
        assert one.area == pytest.approx(other.area, rel=1e-7)
        assert one.narrowest == pytest.approx(other.narrowest, abs=1e-5)
        for mine, yours in zip(one.outlines, other.outlines, strict=True):
            assert sorted(mine.bulges) == pytest.approx(sorted(yours.bulges), abs=1e-8)


@pytest.mark.parametrize("name", ROOMS)
def test_sawn_arcs_lie_on_the_circle_and_end_on_the_tile(name: str) -> None:
    region, cell = inset(room(name), 6.0), grid((447.0, 447.0), 3.0)
    arcs = 0
    for piece in pieces_of("z", region, cell, PLACES[1]):
        for outline in piece.outlines:
            count = len(outline.points)
            for n, (bulge, wall) in enumerate(zip(outline.bulges, outline.names, strict=True)):
                if bulge and wall is not None:
                    arcs += 1
                    made = Arc(start=tuple(outline.points[n]), end=tuple(outline.points[(n + 1) % count]), bulge=bulge)
                    circle = region.circles[wall]
                    for share in (0.0, 0.3, 1.0):
                        off = math.dist(made.at(share * made.length), circle.centre) - circle.radius
                        assert abs(off) <= ARC
        assert piece.area <= abs(area(cell.pieces[0])) + 1e-6
    assert arcs > 5
