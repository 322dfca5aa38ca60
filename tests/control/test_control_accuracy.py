"""Predicted accuracy: scenario S6's table, and a Monte Carlo of the same steps for every construction."""

import math

import numpy as np
import pytest
from numpy.typing import NDArray

from floorwright.control.accuracy import (
    angle_for_drift,
    compass_feet,
    compass_square,
    diagonals_square,
    drift,
    equal_marks_45,
    equal_marks_arm,
    reading_across,
    triangle_square,
    triangle_unit,
)
from floorwright.control.checks import reading_sd
from floorwright.control.choices import Tools

Array = NDArray[np.float64]
SAMPLES = 60_000
S6 = Tools(compass=3000, tape=8000, mark=0.0, set=1.0)
ROUGH = Tools(compass=3000, tape=8000, mark=0.7, set=0.9)
FOOT = 304.8


@pytest.mark.parametrize(
    ("along", "out", "mm_per_m"),
    [
        (3000, 4000, 0.589),
        (4000, 3000, 0.589),
        (6 * FOOT, 8 * FOOT, 0.967),
        (900, 1200, 1.964),
        (400, 600, 4.25),
    ],
)
def test_s6_triangles(along: float, out: float, mm_per_m: float) -> None:
    assert 1000 * triangle_square(along, out, S6) == pytest.approx(mm_per_m, rel=0.01)


@pytest.mark.parametrize(
    ("feet", "radius", "mm_per_m"),
    [(1000, math.sqrt(2e6), 0.707), (2000, math.sqrt(8e6), 0.354), (1000, math.sqrt(8e6), 0.53)],
)
def test_s6_compass_joined_both_sides(feet: float, radius: float, mm_per_m: float) -> None:
    apex = math.sqrt(radius**2 - feet**2)
    assert 1000 * compass_square(feet, apex, S6) == pytest.approx(mm_per_m, rel=0.01)


def test_s6_longer_arcs_alone_never_get_under_half_a_mm_per_m() -> None:
    assert min(1000 * compass_square(1000, apex, S6) for apex in range(1000, 100_000, 1000)) > 0.50


@pytest.mark.parametrize("tools", [S6, ROUGH])
def test_arcs_that_cross_square_are_the_best_use_of_a_radius(tools: Tools) -> None:
    radius = 2000.0
    at_45 = compass_square(radius / math.sqrt(2), radius / math.sqrt(2), tools)
    for degrees in (20, 30, 40, 44, 46, 50, 60, 70):
        turned = math.radians(degrees)
        assert compass_square(radius * math.cos(turned), radius * math.sin(turned), tools) > at_45


# The same steps, worked out exactly with errors drawn for each.


def crossing(a: Array, b: Array, from_a: Array, from_b: Array) -> Array:
    """Where arcs about a and b cross, left of a-b."""
    base = b - a
    length = np.hypot(base[:, 0], base[:, 1])
    along = (from_a**2 - from_b**2 + length**2) / (2 * length)
    out = np.sqrt(from_a**2 - along**2)
    way = base / length[:, None]
    square = np.column_stack([-way[:, 1], way[:, 0]])
    return np.asarray(a + along[:, None] * way + out[:, None] * square, dtype=np.float64)


class Hand:
    """A person with tools, who draws every error from a seeded generator."""

    def __init__(self, tools: Tools, seed: int) -> None:
        self.tools = tools
        self.rng = np.random.default_rng(seed)

    def length(self, wanted: float) -> Array:
        return wanted + self.tools.set * self.rng.standard_normal(SAMPLES)

    def mark(self, at: Array) -> Array:
        return at + self.tools.mark * self.rng.standard_normal((SAMPLES, 2))

    def on_line(self, distance: float) -> Array:
        """A mark at a taped distance along the first line."""
        along = self.length(distance)
        return self.mark(np.column_stack([along, np.zeros(SAMPLES)]))


CENTRE = np.zeros((SAMPLES, 2))


def sd_of_direction(start: Array, end: Array, wanted: float) -> float:
    gap = end - start
    turn = np.arctan2(gap[:, 1], gap[:, 0]) - wanted
    return float(np.std((turn + math.pi) % (2 * math.pi) - math.pi))


@pytest.mark.parametrize("tools", [S6, ROUGH])
@pytest.mark.parametrize(("feet", "apex"), [(1000, 1000), (2000, 2000), (1000, 2645.8), (1400, 700), (600, 900)])
@pytest.mark.parametrize("sides", [1, 2])
def test_compass_agrees_with_monte_carlo(tools: Tools, feet: float, apex: float, sides: int) -> None:
    hand, radius = Hand(tools, seed=90), math.hypot(feet, apex)
    right, left = hand.on_line(feet), hand.on_line(-feet)
    above = hand.mark(crossing(left, right, hand.length(radius), hand.length(radius)))
    below = hand.mark(crossing(right, left, hand.length(radius), hand.length(radius))) if sides == 2 else CENTRE
    simulated = sd_of_direction(below, above, math.pi / 2)
    assert compass_square(feet, apex, tools, sides=sides) == pytest.approx(simulated, rel=0.03)


def test_an_error_of_one_setting_for_all_arcs_cancels() -> None:
    hand, feet = Hand(S6, seed=3), 1000.0
    radius = hand.length(feet * math.sqrt(2))
    right, left = CENTRE + np.array([feet, 0.0]), CENTRE - np.array([feet, 0.0])
    above, below = crossing(left, right, radius, radius), crossing(right, left, radius, radius)
    assert sd_of_direction(below, above, math.pi / 2) < 1e-12


@pytest.mark.parametrize("tools", [S6, ROUGH])
@pytest.mark.parametrize(("along", "out"), [(3000, 4000), (4000, 3000), (900, 1200), (400, 600)])
def test_triangle_agrees_with_monte_carlo(tools: Tools, along: float, out: float) -> None:
    hand = Hand(tools, seed=345)
    near = hand.on_line(along)
    far = hand.mark(crossing(CENTRE, near, hand.length(out), hand.length(math.hypot(along, out))))
    simulated = sd_of_direction(CENTRE, far, math.pi / 2)
    assert triangle_square(along, out, tools) == pytest.approx(simulated, rel=0.03)


@pytest.mark.parametrize("tools", [S6, ROUGH])
@pytest.mark.parametrize(("along", "out"), [(3000, 4000), (1500, 1000), (800, 2000)])
def test_equal_diagonals_agree_with_monte_carlo(tools: Tools, along: float, out: float) -> None:
    """Far corners marked, both diagonals read, both corners slid by what the difference says."""
    hand, diagonal = Hand(tools, seed=44), math.hypot(along, out)
    near = hand.on_line(along)
    leaning = 0.004 * out  # raised by eye, before it is slid
    far = hand.mark(np.column_stack([np.full(SAMPLES, leaning), hand.length(out)]))
    corner = hand.mark(crossing(far, near, hand.length(along), hand.length(out)))
    to_corner = np.hypot(corner[:, 0], corner[:, 1]) + hand.length(0.0)
    to_near = np.hypot(*(far - near).T) + hand.length(0.0)
    slide = diagonal * (to_corner - to_near) / (2 * along)
    slid = hand.mark(far - np.column_stack([slide, np.zeros(SAMPLES)]))
    simulated = sd_of_direction(CENTRE, slid, math.pi / 2)
    assert diagonals_square(along, out, tools) == pytest.approx(simulated, rel=0.03)


@pytest.mark.parametrize("tools", [S6, ROUGH])
@pytest.mark.parametrize("square", [0.0, 0.0007])
@pytest.mark.parametrize("sides", [1, 2])
@pytest.mark.parametrize("left", [True, False])
def test_equal_marks_agree_with_monte_carlo(tools: Tools, square: float, sides: int, left: bool) -> None:
    hand, arm = Hand(tools, seed=45), 2000.0
    turned = square * hand.rng.standard_normal(SAMPLES)
    up = np.column_stack([-np.sin(turned), np.cos(turned)])

    def on_square_line(distance: float) -> Array:
        return hand.mark(hand.length(distance)[:, None] * up)

    ahead, above, back, below = hand.on_line(arm), on_square_line(arm), hand.on_line(-arm), on_square_line(-arm)
    start, end = (ahead, above) if left else (below, ahead)
    far_start, far_end = (back, below) if left else (above, back)
    top = hand.mark(crossing(end, start, hand.length(arm), hand.length(arm)))
    foot = hand.mark(crossing(far_end, far_start, hand.length(arm), hand.length(arm))) if sides == 2 else CENTRE
    wanted = math.pi / 4 if left else -math.pi / 4
    assert equal_marks_45(arm, square, tools, sides=sides) == pytest.approx(
        sd_of_direction(foot, top, wanted), rel=0.03
    )


@pytest.mark.parametrize("square", [0.0, 0.001])
@pytest.mark.parametrize(("along", "out"), [(2000, 1500), (1700, 1700), (600, 2400)])
def test_a_check_reading_scatters_as_it_is_allowed_to(square: float, along: float, out: float) -> None:
    hand = Hand(ROUGH, seed=6)
    turned = square * hand.rng.standard_normal(SAMPLES)
    far = hand.mark(hand.length(out)[:, None] * np.column_stack([-np.sin(turned), np.cos(turned)]))
    readings = np.hypot(*(far - hand.on_line(along)).T) + hand.length(0.0)
    assert reading_sd(along, out, square, ROUGH) == pytest.approx(float(np.std(readings)), rel=0.03)
    assert float(np.mean(readings)) == pytest.approx(reading_across(along, out, math.pi / 2), abs=0.05)


def test_the_size_that_an_accuracy_takes_has_that_accuracy() -> None:
    feet, unit = compass_feet(0.0004, ROUGH), triangle_unit(0.0004, ROUGH)
    assert compass_square(feet, feet, ROUGH) == pytest.approx(0.0004)
    assert triangle_square(3 * unit, 4 * unit, ROUGH) == pytest.approx(0.0004)
    arm = equal_marks_arm(0.0004, 0.0003, ROUGH)
    assert arm is not None
    assert equal_marks_45(arm, 0.0003, ROUGH) == pytest.approx(0.0004)
    assert equal_marks_arm(0.0004, 0.0009, ROUGH) is None


def test_the_angle_for_a_drift_has_that_drift() -> None:
    angle = angle_for_drift(1.5, 3000, ROUGH)
    assert angle is not None
    assert drift(angle, 3000, ROUGH) == pytest.approx(1.5)
    assert angle_for_drift(0.7, 3000, ROUGH) is None


def test_reading_across_a_cross_that_is_out() -> None:
    assert reading_across(3, 4, math.pi / 2) == pytest.approx(5)
    assert reading_across(1500, 2000, math.radians(90.115)) == pytest.approx(2502.4, abs=0.05)
    assert reading_across(1500, 2000, math.radians(89.885)) == pytest.approx(2497.6, abs=0.05)
