"""A circle cut by a pivot: what stops at it, by the chord; and the chord that a blade leaves, by the circle."""

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from tests.scoring.slabs import INCH, patio

from floorwright.scoring.overcut import over_cut

FOOT = 12 * INCH


def test_what_comes_off_at_a_circle_of_9_ft() -> None:
    """Scenario S4: 49.5 ft off, 254.5 ft left, 28.3 ft round it."""
    done = patio(discs=(((144, 108), 54),))
    lost = {line.name: line.lost / INCH for line in done.lines if line.lost}
    assert lost == {
        "R3": pytest.approx(49.477, abs=1e-3),
        "R4": pytest.approx(96.747, abs=1e-3),
        "R6": pytest.approx(96.747, abs=1e-3),
        "R7": pytest.approx(49.477, abs=1e-3),
        "C5": pytest.approx(96.747, abs=1e-3),
        "C6": pytest.approx(108.0),
        "C7": pytest.approx(96.747, abs=1e-3),
    }
    assert [round(value / FOOT, 1) for value in (done.lost, done.straight, done.round)] == [49.5, 254.5, 28.3]


def test_where_it_crosses_the_joints() -> None:
    done = patio(discs=(((144, 108), 54),))
    half = {one.joint: one.half / INCH for one in done.crossings}
    assert half == {"0": pytest.approx(24.739, abs=1e-3), "1": pytest.approx(24.739, abs=1e-3), "2": pytest.approx(54)}
    # Joints run on through it.
    assert done.there == pytest.approx(52 * FOOT)


def test_what_is_lost_lies_in_the_circle() -> None:
    done = patio(discs=(((100, 90), 40),))
    disc = shapely.Point(100 * INCH, 90 * INCH).buffer(40 * INCH, quad_segs=512)
    for line in done.lines:
        for part in line.parts:
            if not part.there:
                assert shapely.intersection(shapely.LineString([part.start, part.end]), disc).length < 1.0
    assert done.straight + done.lost == pytest.approx(304 * FOOT)


def test_a_circle_off_the_slab_is_not_cut() -> None:
    assert patio(discs=(((20, 108), 54),)).outside == (1,)


def test_a_blade_of_4_1_2_in_at_a_quarter_inch() -> None:
    """sqrt(d (2 R - d)): the intersecting chords theorem, Euclid III 35; 0.25 x 4.25 = 1.0625."""
    assert over_cut(INCH / 4, 4.5 * INCH) == pytest.approx(math.sqrt(1.0625) * INCH)
    assert over_cut(0.0, 4.5 * INCH) == 0.0


@given(st.floats(60, 500), st.floats(0.01, 0.99))
def test_the_over_cut_is_half_the_chord_of_the_blade(blade: float, share: float) -> None:
    """The blade is a circle, the slab's top a line across it: the chord as a geometry library measures it."""
    radius, depth = blade / 2, share * blade / 2
    disc = shapely.Point(0, radius - depth).buffer(radius, quad_segs=1024)
    top = shapely.LineString([(-blade, 0), (blade, 0)])
    assert shapely.intersection(disc, top).length / 2 == pytest.approx(over_cut(depth, blade), rel=1e-4, abs=1e-2)
