"""Convex parts of polygons, against shapely."""

import numpy as np
import pytest
import shapely
from tests.layout.rooms import ells, polygon_of, star

from floorwright.layout.convex import convex_parts, is_convex, kept, within


@pytest.mark.parametrize("seed", range(60))
def test_parts_are_convex_and_make_up_the_polygon(seed: int) -> None:
    rng = np.random.default_rng(seed)
    region = star(rng, int(rng.integers(3, 40)), 10.0, 0, 0.5)
    parts = [shapely.Polygon(part) for part in convex_parts(region.rings[0])]
    assert all(is_convex(shapely.get_coordinates(part)[:-1]) for part in parts)
    assert sum(part.area for part in parts) == pytest.approx(polygon_of(region).area)
    assert shapely.union_all(parts).symmetric_difference(polygon_of(region)).area < 1e-3


def test_an_ell_is_two_rectangles_and_a_square_is_itself() -> None:
    assert len(convex_parts(ells(200.0, 3.0).pieces[0])) == 2
    square = np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]])
    (same,) = convex_parts(square)
    assert same.tolist() == square.tolist()


def test_corners_that_lie_straight_on_bound_nothing() -> None:
    ring = np.array([[0, 0], [1, 0], [2, 0], [2, 1], [1, 1], [1, 2], [0, 2], [0, 1]], dtype=float)
    assert sum(shapely.Polygon(part).area for part in convex_parts(ring)) == pytest.approx(3.0)


def test_within_takes_every_half_plane() -> None:
    square = np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]])
    normals = np.array([[1.0, 0.0], [0.6, 0.8]])
    left = shapely.Polygon(within(square, normals, np.array([3.0, 4.0])))
    exact = shapely.Polygon([(0, 0), (3, 0), (3, 2.75), (0, 5)]).intersection(shapely.Polygon(square))
    assert left.symmetric_difference(exact).area < 1e-9
    assert len(kept(square, np.array([1.0, 0.0]), -1.0)) == 0
