"""Areas, angles and yes-or-no questions of rings, against hand figures and shapely."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from floorwright.geometry import measure
from floorwright.geometry.region import Region

SQUARE = np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]])
ELL = np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 2.0], [2.0, 2.0], [2.0, 5.0], [0.0, 5.0]])
coordinates = st.lists(
    st.tuples(st.integers(-20, 20), st.integers(-20, 20)).map(lambda p: (float(p[0]), float(p[1]))),
    min_size=3, max_size=8,
)  # fmt: skip


def test_area_has_the_sign_of_its_direction() -> None:
    assert measure.area(SQUARE) == 12.0
    assert measure.area(SQUARE[::-1]) == -12.0
    assert measure.area(SQUARE[:2]) == 0.0


def test_mahun_published_area() -> None:
    """J. Mahun, open-access surveying notes, COGO chapter H "Area", five points N, E in feet (R-07).

    Printed 140,494 from cross products rounded to a foot; unrounded 140,493.107.
    """
    north_east = [(406.31, 1259.97), (235.12, 1489.47), (65.81, 1126.40), (317.89, 942.04), (675.32, 1282.54)]
    assert abs(measure.area([(e, n) for n, e in north_east])) == pytest.approx(140493.107, abs=5e-4)


def test_interior_angles_sum_to_n_less_two_times_180() -> None:
    """S-16: FAO irrigation manual, polygon closure; five sides give 540 degrees."""
    star = np.array([[math.cos(t), math.sin(t)] for t in (0.1, 1.2, 2.6, 3.9, 5.3)])
    assert math.degrees(measure.interior_angles(star).sum()) == pytest.approx(540.0)
    assert np.degrees(measure.interior_angles(ELL)) == pytest.approx([90, 90, 90, 270, 90, 90])


def test_turns_tell_left_from_right() -> None:
    assert np.sign(np.round(measure.turns(ELL), 12)).tolist() == [1, 1, 1, -1, 1, 1]
    assert measure.turns([[0, 0], [1, 0], [2, 0], [1, 1]])[1] == 0.0


def test_perimeter() -> None:
    assert measure.perimeter(SQUARE) == 14.0
    assert measure.edge_lengths(SQUARE).tolist() == [4, 3, 4, 3]


def test_region_area_takes_holes_off() -> None:
    hole = np.array([[1.0, 1.0], [1.0, 2.0], [2.0, 2.0], [2.0, 1.0]])
    region = Region(rings=(SQUARE, hole), edges=(("S", "E", "N", "W"), ("column",) * 4))
    assert measure.region_area(region) == 11.0
    assert measure.is_inside([(0.5, 0.5), (1.5, 1.5), (5.0, 1.0)], region).tolist() == [True, False, False]


def test_distances() -> None:
    assert measure.distance((0, 0), (3, 4)) == 5.0
    assert measure.distance_to_ring([(2.0, 1.0), (6.0, 3.0)], SQUARE).tolist() == [1.0, 2.0]
    assert measure.distance_to_segments((1.0, 1.0), (0.0, 0.0), (0.0, 0.0))[0, 0] == pytest.approx(math.sqrt(2))
    assert measure.offset_from_line([(1, 2), (1, -2)], (0, 0), (5, 0)).tolist() == [2, -2]
    assert measure.ring_gap(SQUARE, SQUARE + np.array([10.0, 0.0])) == 6.0
    assert measure.ring_gap(SQUARE, SQUARE * 0.5 + np.array([1.0, 1.0])) == pytest.approx(0.5)
    assert measure.ring_gap(SQUARE, SQUARE + np.array([2.0, 1.0])) == 0.0
    cross = np.array([[1.0, -1.0], [2.0, -1.0], [2.0, 4.0], [1.0, 4.0]])
    assert measure.ring_gap(SQUARE, cross) == 0.0


@given(coordinates)
def test_is_simple_agrees_with_shapely(points: list[tuple[float, float]]) -> None:
    if any(a == b for a, b in zip(points, points[1:] + points[:1], strict=True)):
        assert not measure.is_simple(points)
        return
    ring = shapely.LinearRing(points)
    assert measure.is_simple(points) == (ring.is_simple and shapely.Polygon(points).is_valid)


@given(coordinates, st.tuples(st.floats(-25, 25), st.floats(-25, 25)))
def test_is_inside_agrees_with_shapely(points: list[tuple[float, float]], asked: tuple[float, float]) -> None:
    polygon = shapely.Polygon(points)
    if not polygon.is_valid or polygon.exterior.distance(shapely.Point(asked)) < 1e-9:
        return
    assert measure.is_inside_ring(asked, points)[0] == polygon.contains(shapely.Point(asked))
    assert measure.distance_to_ring(asked, points)[0] == pytest.approx(polygon.exterior.distance(shapely.Point(asked)))
