"""Arcs: hand figures, dense polygons as the judge of sizes, and edges that never pass the arc."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.arc import (
    Arc,
    bulged_area,
    bulged_length,
    by_rise,
    flat,
    rise_of_radius,
    rise_through,
    through,
)

PLACE = st.floats(-4000, 4000)
BULGE = st.floats(0.02, 3.0) | st.floats(-3.0, -0.02)


def dense(arc: Arc, count: int = 2_000) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Points along an arc by turning its start about its centre, ends among them."""
    turns = np.linspace(0, arc.sweep, count + 1)
    out = complex(*arc.start) - complex(*arc.centre)
    turned = complex(*arc.centre) + out * np.exp(1j * turns)
    return np.column_stack([turned.real, turned.imag])


def arcs() -> st.SearchStrategy[Arc]:
    ends = st.tuples(PLACE, PLACE, PLACE, PLACE).filter(lambda e: math.dist(e[:2], e[2:]) > 200)
    return st.builds(lambda e, b: Arc(start=e[:2], end=e[2:], bulge=b), ends, BULGE)


def test_radius_from_chord_and_rise() -> None:
    # R = c^2 / (8 h) + h / 2 of c = 2000 and h = 150, worked by hand: 3333.33 + 75.
    arc = by_rise((0.0, 0.0), (2000.0, 0.0), 150.0)
    assert arc.radius == pytest.approx(3408.3333, abs=1e-4)
    assert arc.centre == pytest.approx((1000.0, 3258.3333), abs=1e-4)


def test_half_circle() -> None:
    arc = by_rise((0.0, 0.0), (2000.0, 0.0), 1000.0)
    assert (arc.radius, arc.length, arc.segment) == pytest.approx((1000.0, math.pi * 1000, math.pi * 1e6 / 2))
    assert arc.at(arc.length / 2) == pytest.approx((1000.0, -1000.0))
    assert arc.heading(0.0) == pytest.approx(-math.pi / 2)


def test_more_than_a_half_circle_by_its_rise_or_its_radius() -> None:
    arc = by_rise((0.0, 0.0), (1200.0, 0.0), 1800.0)
    assert arc.sweep > math.pi
    assert rise_of_radius(1200.0, arc.radius, over_half=True) == pytest.approx(1800.0)
    assert rise_of_radius(1200.0, arc.radius) == pytest.approx(200.0)


@given(arcs())
def test_sizes_are_those_of_a_dense_polygon(arc: Arc) -> None:
    points = dense(arc)
    steps = np.hypot(*np.diff(points, axis=0).T)
    assert arc.length == pytest.approx(steps.sum(), rel=1e-5)
    x, y = (points - points[0]).T
    area = 0.5 * (np.dot(x, np.roll(y, -1)) - np.dot(np.roll(x, -1), y))
    assert arc.segment == pytest.approx(area, rel=1e-4, abs=1.0)
    assert tuple(points[-1]) == pytest.approx(arc.end, abs=1e-6)
    chord = np.array(arc.end) - arc.start
    right = np.array([chord[1], -chord[0]]) / arc.chord
    off = (points - arc.start) @ right
    assert arc.rise == pytest.approx(off[np.abs(off).argmax()], rel=1e-5)
    assert arc.at(0.3 * arc.length) == pytest.approx(tuple(points[600]), abs=1e-6)


@given(arcs())
def test_rise_through_any_of_its_points(arc: Arc) -> None:
    for share in (0.2, 0.5, 0.77):
        assert rise_through(arc.start, arc.at(share * arc.length), arc.end) == pytest.approx(arc.rise, rel=1e-7)


@given(arcs(), st.sampled_from([0.01, 0.1, 0.5]))
def test_edges_stay_left_of_the_arc_and_near_it(arc: Arc, tolerance: float) -> None:
    assume(abs(arc.sweep) < 1.9 * math.pi)
    edges = np.vstack([flat(arc, tolerance), [arc.end]])
    middles = (edges[1:] + edges[:-1]) / 2
    radii = np.hypot(*(np.vstack([edges, middles]) - arc.centre).T)
    beyond = radii - arc.radius if arc.bulge > 0 else arc.radius - radii
    assert beyond.max() <= 1e-6
    assert beyond.min() >= -tolerance - 1e-6


@given(arcs())
def test_ring_of_a_chord_and_an_arc(arc: Arc) -> None:
    points = np.array([arc.start, arc.end])
    assert bulged_area(points, (arc.bulge, 0.0)) == pytest.approx(arc.segment)
    assert bulged_length(points, (arc.bulge, 0.0)) == pytest.approx(arc.length + arc.chord)


def test_offset_from_the_chord() -> None:
    arc = by_rise((0.0, 0.0), (2000.0, 0.0), -150.0)
    assert arc.offset(1000.0) == pytest.approx(-150.0)
    assert arc.offset(0.0) == pytest.approx(0.0, abs=1e-9)
    # 500 from the middle: sqrt(R^2 - 500^2) - (R - 150), R = 3408.3333
    assert arc.offset(500.0) == pytest.approx(-(math.sqrt(3408.33333**2 - 250_000) - 3258.33333), abs=1e-4)


def test_what_makes_no_arc() -> None:
    with pytest.raises(FloorwrightValueError, match="a chord and a rise"):
        by_rise((0.0, 0.0), (1000.0, 0.0), 0.0)
    with pytest.raises(FloorwrightValueError, match="a chord and a rise"):
        by_rise((5.0, 5.0), (5.0, 5.0), 100.0)
    with pytest.raises(FloorwrightValueError, match="a chord and a rise"):
        through((0.0, 0.0), (400.0, 0.0), (1000.0, 0.0))
    with pytest.raises(FloorwrightValueError, match="not between them"):
        through((0.0, 0.0), (1400.0, 0.0), (1000.0, 0.0))
    with pytest.raises(FloorwrightValueError, match="too small"):
        rise_of_radius(2000.0, 900.0)
