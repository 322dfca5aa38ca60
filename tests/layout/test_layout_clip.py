"""The clipping kernel against exact overlay."""

import math
from dataclasses import replace
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
import shapely
from tests.layout.rooms import (
    ells,
    herringbone,
    hexagons,
    polygon_of,
    rectangle,
    rectilinear,
    region_of,
    star,
    tiles_over,
)

from floorwright.geometry.region import Region
from floorwright.layout import clip as clipping
from floorwright.layout.clip import Clipped, clip
from floorwright.layout.link import FACTORY, Rings, link
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import TOUCH

CELLS = (
    grid((600.0, 600.0), 3.0),
    grid((297.0, 447.0), 0.0),
    brick_bond((600.0, 300.0), 3.0, Fraction(1, 2)),
    brick_bond((900.0, 150.0), 2.0, Fraction(1, 3)),
    brick_bond((447.0, 447.0), 4.0, Fraction(3, 8)),
    hexagons(200.0, 3.0),
    herringbone(600.0, 200.0, 3.0),
    ells(200.0, 3.0),
    ells(300.0, 0.0),
)

THIN = 1e-5


def polygons(clipped: Clipped) -> list[shapely.Polygon]:
    rings: list[list[np.ndarray]] = [[] for _ in clipped.index]
    for ring, piece in enumerate(clipped.piece):
        rings[piece].append(clipped.points[clipped.first[ring] : clipped.first[ring + 1]])
    return [shapely.Polygon(outline, holes) for outline, *holes in rings]


def compare(region: Region, cell: UnitCell, placement: Placement) -> None:
    """Classes and pieces equal to overlay, tile by tile; a tile within TOUCH of the region's outline may be either."""
    clipped = clip(region, cell, placement)
    room = polygon_of(region)
    index, tiles = tiles_over(region, cell, placement)
    cut = shapely.intersection(tiles, room)
    area = shapely.area(cut)
    whole = shapely.area(tiles)
    edge_slack = 2 * TOUCH * shapely.length(tiles)
    full = {tuple(row) for row in clipped.full.tolist()}
    pieces: dict[tuple[int, ...], list[shapely.Polygon]] = {}
    for row, polygon in zip(clipped.index.tolist(), polygons(clipped), strict=True):
        assert polygon.is_valid
        pieces.setdefault(tuple(row), []).append(polygon)
    assert not full & set(pieces)
    for tile, exact, have, all_of_it, slack in zip(index, cut, area, whole, edge_slack, strict=True):
        if tile in full:
            assert have >= all_of_it - slack, f"{tile} is not full: {have} of {all_of_it}"
        elif tile in pieces:
            assert TOUCH**2 < have < all_of_it - 1e-6, f"{tile} is not cut: {have} of {all_of_it}"
            assert sum(piece.area for piece in pieces[tile]) == pytest.approx(have, abs=1.0)
            theirs = [part for part in shapely.get_parts(exact) if part.area > 2.0]
            ours = [part for part in pieces[tile] if part.area > 2.0]
            assert len(theirs) == len(ours)
            # Outlines are held together by distance: overlay of two polygons that are all but equal is not safe.
            # Where a wall lies in a tile's side, overlay may leave a spike of no width, which opening takes off.
            if ours:
                opened = shapely.buffer(shapely.MultiPolygon(theirs), -THIN, join_style="mitre")
                opened = shapely.buffer(opened, THIN, join_style="mitre")
                assert shapely.hausdorff_distance(shapely.MultiPolygon(ours), opened) < 0.1
        else:
            assert have <= slack, f"{tile} is left out: {have} of {all_of_it}"
    assert full | set(pieces) <= set(index)
    laid = clipped.area.sum() + sum(shapely.Polygon(cell.pieces[k]).area for *_, k in clipped.full.tolist())
    assert laid == pytest.approx(area.sum(), rel=1e-6)
    assert clipped.mended == 0


@pytest.mark.parametrize("seed", range(120))
def test_stars_agree_with_overlay(seed: int) -> None:
    rng = np.random.default_rng(seed)
    region = star(rng, int(rng.integers(3, 40)), float(rng.uniform(3, 14)), int(rng.integers(0, 4)))
    angle = (0.0, math.pi / 4, float(rng.uniform(0, 3)))[seed % 3]
    origin = (float(rng.uniform(-900, 900)), float(rng.uniform(-900, 900)))
    compare(region, CELLS[seed % len(CELLS)], Placement(origin=origin, angle=angle))


@pytest.mark.parametrize("seed", range(120))
def test_rectilinear_rooms_agree_with_overlay(seed: int) -> None:
    # Whole millimetres, so that walls often lie exactly in a tile's side: the hard case for predicates.
    rng = np.random.default_rng(1000 + seed)
    region = rectilinear(rng, 0.7)
    angle = (0.0, math.pi / 2, math.pi / 4, -math.pi)[seed % 4]
    origin = tuple(float(x) / 2 for x in rng.integers(-9, 9, 2))
    compare(region, CELLS[seed % len(CELLS)], Placement(origin=(origin[0], origin[1]), angle=angle))


def test_wall_in_a_joint_and_wall_in_a_side_cut_nothing() -> None:
    cell = grid((600.0, 600.0), 3.0)
    for reach in (3 * 603.0 - 1.5, 3 * 603.0 - 1.0, 3 * 603.0 + 1.5):
        clipped = clip(rectangle(reach, reach), cell, Placement(origin=(0.0, 0.0), angle=0.0))
        assert (len(clipped.full), len(clipped.index)) == (9, 0)


def test_column_makes_a_hole_and_names_its_edges() -> None:
    region = region_of([(0, 0), (600, 0), (600, 600), (0, 600)], [(200, 200), (300, 200), (300, 300), (200, 300)])
    clipped = clip(region, grid((600.0, 600.0), 0.0), Placement(origin=(0.0, 0.0), angle=0.0))
    assert clipped.full.tolist() == []
    assert clipped.index.tolist() == [[0, 0, 0]]
    assert clipped.area[0] == pytest.approx(350_000)
    assert clipped.edge.tolist()[:4] == [FACTORY] * 4
    assert sorted(clipped.edge.tolist()[4:]) == [4, 5, 6, 7]


def test_column_that_touches_the_side_of_a_tile_leaves_one_piece() -> None:
    region = region_of([(-900, -900), (1500, -900), (1500, 1500), (-900, 1500)], [(0, 300), (100, 200), (100, 400)])
    clipped = clip(region, grid((600.0, 600.0), 0.0), Placement(origin=(0.0, 0.0), angle=0.0))
    area = clipped.area[(clipped.index == (0, 0, 0)).all(axis=1)]
    assert area.sum() == pytest.approx(360_000 - 10_000)


def test_tile_in_two_pieces() -> None:
    # A wall 100 thick stands from below into the middle tile and through it.
    region = region_of([(0, 0), (250, 0), (250, 900), (350, 900), (350, 0), (600, 0), (600, 1300), (0, 1300)])
    clipped = clip(region, grid((600.0, 600.0), 0.0), Placement(origin=(0.0, 0.0), angle=0.0))
    bottom = (clipped.index == (0, 0, 0)).all(axis=1)
    assert clipped.part[bottom].tolist() == [1, 2]
    assert clipped.area[bottom] == pytest.approx([150_000, 150_000])
    left = polygons(clipped)[int(np.flatnonzero(bottom)[0])]
    assert left.bounds == pytest.approx((0, 0, 250, 600))
    middle = (clipped.index == (0, 1, 0)).all(axis=1)
    assert clipped.part[middle].tolist() == [0]


def test_room_smaller_than_a_tile() -> None:
    region = region_of([(100, 100), (300, 120), (280, 350)])
    clipped = clip(region, grid((600.0, 600.0), 3.0), Placement(origin=(0.0, 0.0), angle=0.0))
    assert (len(clipped.full), len(clipped.index)) == (0, 1)
    assert clipped.area[0] == pytest.approx(polygon_of(region).area)
    assert sorted(clipped.edge.tolist()) == [0, 1, 2]


def test_room_inside_a_joint_has_no_piece() -> None:
    clipped = clip(
        region_of([(-1, 5), (1, 5), (1, 500), (-1, 500)]),
        grid((600.0, 600.0), 3.0),
        Placement(origin=(0.0, 0.0), angle=0.0),
    )
    assert len(clipped.full) == len(clipped.index) == len(clipped.points) == 0


def test_sawn_edges_lie_on_the_wall_that_they_name() -> None:
    rng = np.random.default_rng(5)
    region = star(rng, 17, 20.0, 2)
    clipped = clip(region, CELLS[2], Placement(origin=(10.0, 20.0), angle=0.4))
    start = np.concatenate(region.rings)
    stop = np.concatenate([np.roll(ring, -1, axis=0) for ring in region.rings])
    for first, last in zip(clipped.first[:-1], clipped.first[1:], strict=True):
        ring = clipped.points[first:last]
        for point, onward, edge in zip(ring, np.roll(ring, -1, axis=0), clipped.edge[first:last], strict=True):
            if edge != FACTORY:
                wall = shapely.LineString([start[edge], stop[edge]])
                assert wall.distance(shapely.LineString([point, onward])) < 2 * TOUCH
                assert wall.buffer(2 * TOUCH).contains(shapely.LineString([point, onward]))


def test_tiles_whose_chains_do_not_close_are_mended_by_overlay(monkeypatch: pytest.MonkeyPatch) -> None:
    region = star(np.random.default_rng(11), 14, 12.0, 2)
    placement = Placement(origin=(33.0, 44.0), angle=0.2)
    plain = clip(region, CELLS[0], placement)

    def all_broken(*given: Any) -> Rings:
        rings = link(*given)
        return replace(rings, broken=np.ones_like(rings.broken))

    monkeypatch.setattr(clipping, "link", all_broken)
    mended = clip(region, CELLS[0], placement)
    assert mended.mended == len(np.unique(plain.index, axis=0))
    assert mended.index.tolist() == plain.index.tolist()
    assert mended.area == pytest.approx(plain.area, abs=0.01)
    assert walls_by_piece(mended) == walls_by_piece(plain)


def walls_by_piece(clipped: Clipped) -> list[set[int]]:
    owner = np.repeat(clipped.piece, np.diff(clipped.first))
    return [set(clipped.edge[owner == piece].tolist()) for piece in range(len(clipped.index))]


def test_turned_room_with_turned_pattern_has_the_same_pieces() -> None:
    rng = np.random.default_rng(8)
    region = star(rng, 12, 18.0, 1)
    still = clip(region, CELLS[3], Placement(origin=(33.0, 44.0), angle=0.2))
    cos, sin = math.cos(0.7), math.sin(0.7)
    spin = np.array([[cos, sin], [-sin, cos]])
    turned = Region(rings=tuple(ring @ spin for ring in region.rings), edges=region.edges)
    origin = np.array([33.0, 44.0]) @ spin
    moved = clip(turned, CELLS[3], Placement(origin=(float(origin[0]), float(origin[1])), angle=0.9))
    assert still.full.tolist() == moved.full.tolist()
    assert still.index.tolist() == moved.index.tolist()
    assert still.area == pytest.approx(moved.area, abs=1e-4)
