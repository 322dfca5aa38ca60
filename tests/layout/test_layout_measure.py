"""The measures of a cut piece: a table worked by hand on one 600 tile, then laws."""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from tests.layout.rooms import region_of

from floorwright.geometry.region import Region
from floorwright.layout.clip import clip
from floorwright.layout.measure import MANY, hull_widths, legs, measure
from floorwright.pattern.catalogue import grid
from floorwright.pattern.cell import Placement

TILE = grid((600.0, 600.0), 0.0)
WIDE = 900.0


def of_first_tile(region: Region) -> tuple[float, float, float, float]:
    """Depth, hull width, leg and narrowest of what is left of the first tile."""
    clipped = clip(region, TILE, Placement(origin=(0.0, 0.0), angle=0.0))
    measures = measure(clipped)
    (at,) = np.flatnonzero((clipped.index == (0, 0, 0)).all(axis=1))
    return measures.depth[at], measures.width[at], legs(clipped)[at], measures.narrowest[at]


AROUND = [(-WIDE, -WIDE), (WIDE + 600, -WIDE), (WIDE + 600, WIDE + 600), (-WIDE, WIDE + 600)]
TABLE = {
    "strip 30 x 600": ([[(0, -WIDE), (30, -WIDE), (30, WIDE), (0, WIDE)]], 30, 30, 30),
    "L, legs 20 and 250": ([[(0, 0), (WIDE, 0), (WIDE, 250), (20, 250), (20, WIDE), (0, WIDE)]], 20, 524.05, 20),
    "L, both legs 20": ([[(0, 0), (WIDE, 0), (WIDE, 20), (20, 20), (20, WIDE), (0, WIDE)]], 20, 438.41, 20),
    "U, one leg 15": (
        [[(0, 0), (600, 0), (600, WIDE), (400, WIDE), (400, 300), (15, 300), (15, WIDE), (0, WIDE)]],
        15,
        600,
        15,
    ),
    "hole 15 from the side": ([AROUND, [(15, 100), (200, 100), (200, 300), (15, 300)]], 15, 600, math.inf),
    "corner triangle, legs 100": (
        [[(-WIDE, -WIDE), (WIDE + 100, -WIDE), (-WIDE, WIDE + 100)]],
        70.71,
        70.71,
        100,
    ),
    "diamond tip, 10 high": ([[(300 - WIDE, 10 - WIDE), (300 + WIDE, 10 - WIDE), (300, 10)]], 14.14, 10, 20),
    "taper from 5 to 60": ([[(0, -WIDE), (600, -WIDE), (600, 60), (0, 5)]], 59.75, 59.75, 5),
    "clipped corner 20": (
        [[(-WIDE, -WIDE), (WIDE, -WIDE), (WIDE, 280), (280, WIDE), (-WIDE, WIDE)]],
        834.39,
        600,
        580,
    ),
    "notch 2 high, 300 long": (
        [[(-WIDE, -WIDE), (WIDE, -WIDE), (WIDE, 598), (300, 598), (300, WIDE), (-WIDE, WIDE)]],
        300,
        600,
        300,
    ),
}


@pytest.mark.parametrize(("rings", "depth", "width", "leg"), TABLE.values(), ids=TABLE.keys())
def test_table(rings: list[object], depth: float, width: float, leg: float) -> None:
    # The figures are plane geometry: each can be checked with a ruler on a drawing of a 600 tile.
    assert of_first_tile(region_of(*rings)) == pytest.approx((depth, width, leg, min(depth, width)), abs=0.005)


def test_both_strips_beside_a_wall_that_parts_a_tile_are_measured_alone() -> None:
    region = region_of([(0, 0), (250, 0), (250, WIDE), (350, WIDE), (350, 0), (600, 0), (600, 1300), (0, 1300)])
    clipped = clip(region, TILE, Placement(origin=(0.0, 0.0), angle=0.0))
    bottom = (clipped.index == (0, 0, 0)).all(axis=1)
    assert measure(clipped).narrowest[bottom] == pytest.approx([250, 250])


points = st.lists(st.tuples(st.integers(-500, 500), st.integers(-500, 500)), min_size=3, max_size=12, unique=True)


@given(points)
def test_hull_width_is_that_of_the_least_rectangle(corners: list[tuple[int, int]]) -> None:
    hull = shapely.convex_hull(shapely.MultiPoint(corners))
    if hull.area < 1:
        return
    ring = shapely.get_coordinates(hull)
    expected = math.inf
    for a, b in pairwise(ring):
        angle = -math.atan2(b[1] - a[1], b[0] - a[0])
        flat = shapely.get_coordinates(shapely.affinity.rotate(hull, angle, use_radians=True, origin=(0, 0)))
        expected = min(expected, float(np.ptp(flat[:, 1])))
    found = hull_widths(np.array(corners, dtype=float), np.array([0]), np.array([len(corners)]))
    assert found[0] == pytest.approx(expected, abs=1e-6)


def test_hull_width_of_an_outline_with_many_points() -> None:
    angle = np.linspace(0, 2 * math.pi, 2 * MANY, endpoint=False)
    disc = np.stack([100 * np.cos(angle), 100 * np.sin(angle)], axis=1)
    found = hull_widths(np.concatenate([disc, disc[: MANY // 2]]), np.array([0, 80]), np.array([80, 100]))
    assert found[0] == pytest.approx(200 * math.cos(math.pi / (2 * MANY)))
    quarter = shapely.minimum_rotated_rectangle(shapely.MultiPoint(disc[:20]))
    sides = np.hypot(*np.diff(shapely.get_coordinates(quarter), axis=0).T)
    assert found[1] <= sides.min() + 1e-9
