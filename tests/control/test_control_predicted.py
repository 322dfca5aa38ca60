"""Predicted accuracy of the further constructions: a Monte Carlo of the same steps, worked out exactly, for each."""

import math

import numpy as np
import pytest
from tests.control.test_control_accuracy import CENTRE, SAMPLES, Array, Hand, crossing, sd_of_direction

from floorwright.control.accuracy import compass_square, equal_marks_45
from floorwright.control.choices import Tools
from floorwright.control.predicted import (
    best_foot,
    bisector_turn,
    carried_on,
    chord_offset,
    chord_turn,
    dropped_square,
    laser_square,
    offset_sd,
    parallel_turn,
    past_shift,
    past_turn,
    radius_of,
    rise_offset,
    semicircle_square,
    stepped_30,
    trammel_arc,
)

SETS = np.random.default_rng(2026)
"""Of sizes and of a person's hand, the same at every run."""
CASES = [
    (Tools(compass=3000, tape=8000, mark=float(mark), set=float(setting), laser=float(laser)), float(a), float(b))
    for mark, setting, laser, a, b in SETS.uniform((0.2, 0.3, 0.1, 700, 700), (1.0, 1.5, 0.8, 3000, 3000), (5, 5))
]
WITHIN = 0.03


def unit(angle: Array | float) -> Array:
    return np.column_stack(np.broadcast_arrays(np.cos(angle), np.sin(angle)))


def laid(hand: Hand, at: Array, square_to: Array) -> Array:
    """A point of a line laid to a mark: beside it by as much as a mark is out."""
    return np.asarray(at + hand.tools.mark * hand.rng.standard_normal(SAMPLES)[:, None] * square_to)


@pytest.mark.parametrize(("tools", "along", "up"), CASES)
def test_semicircle(tools: Tools, along: float, up: float) -> None:
    hand, r = Hand(tools, 1), math.hypot(along, up)
    pin = hand.mark(hand.length(r)[:, None] * unit(math.atan2(up, along)))
    # The arc about the pin cuts the first line on its far side.
    cut_at = pin[:, 0] + np.sqrt(hand.length(r) ** 2 - pin[:, 1] ** 2)
    cut = hand.mark(np.column_stack([cut_at, np.zeros(SAMPLES)]))
    square_to = np.array([up / r, along / r])
    start, over = laid(hand, cut, square_to), laid(hand, pin, square_to)
    way = (over - start) / np.hypot(*(over - start).T)[:, None]
    end = hand.mark(over + hand.length(r)[:, None] * way)
    assert semicircle_square(along, up, tools) == pytest.approx(sd_of_direction(CENTRE, end, math.pi / 2), rel=WITHIN)


@pytest.mark.parametrize(("tools", "along", "out"), CASES)
def test_laser(tools: Tools, along: float, out: float) -> None:
    hand = Hand(tools, 2)
    stands, aim = hand.mark(CENTRE), hand.mark(CENTRE + np.array([along, 0.0]))
    beam = np.arctan2(*(aim - stands).T[::-1]) + math.pi / 2
    beam += 1e-3 * tools.laser * hand.rng.standard_normal(SAMPLES)
    far = hand.mark(stands + out * unit(beam))
    assert laser_square(along, out, tools) == pytest.approx(sd_of_direction(CENTRE, far, math.pi / 2), rel=WITHIN)


@pytest.mark.parametrize(("tools", "foot", "away"), CASES)
def test_dropped(tools: Tools, foot: float, away: float) -> None:
    hand, below = Hand(tools, 3), 0.8 * foot
    point = CENTRE + np.array([0.0, away])
    r, s = math.hypot(foot, away), math.hypot(foot, below)
    cuts = [
        hand.mark(np.column_stack([side * np.sqrt(hand.length(r) ** 2 - away**2), np.zeros(SAMPLES)]))
        for side in (1, -1)
    ]
    cross = hand.mark(crossing(cuts[0], cuts[1], hand.length(s), hand.length(s)))
    assert dropped_square(foot, away, below, tools) == pytest.approx(
        sd_of_direction(cross, point, math.pi / 2), rel=WITHIN
    )


def offset(hand: Hand, along: float, out: float) -> Array:
    """How far from the first line a line lies that is laid to an arc about a mark on it."""
    mark = hand.mark(CENTRE + np.array([along, 0.0]))
    return np.asarray(mark[:, 1] + hand.length(out) + hand.tools.mark * hand.rng.standard_normal(SAMPLES))


@pytest.mark.parametrize(("tools", "apart", "out"), CASES)
def test_parallel_and_offset(tools: Tools, apart: float, out: float) -> None:
    hand = Hand(tools, 4)
    first, last = offset(hand, 0.0, out), offset(hand, apart, out)
    assert offset_sd(tools) == pytest.approx(float(np.std(first)), rel=WITHIN)
    assert parallel_turn(apart, tools) == pytest.approx(float(np.std((last - first) / apart)), rel=WITHIN)


@pytest.mark.parametrize(("tools", "near", "far"), CASES)
def test_past_an_obstacle(tools: Tools, near: float, far: float) -> None:
    hand, gap = Hand(tools, 5), 900.0
    first, last = offset(hand, 0.0, 400.0), offset(hand, near, 400.0)

    def back(along: float) -> Array:
        carried = first + (last - first) * along / near
        mark = carried + hand.tools.mark * hand.rng.standard_normal(SAMPLES)
        return np.asarray(mark - hand.length(400.0) + hand.tools.mark * hand.rng.standard_normal(SAMPLES))

    start, end = back(near + gap), back(near + gap + far)
    assert past_shift(near, gap, tools) == pytest.approx(float(np.std(start)), rel=WITHIN)
    assert past_turn(near, far, tools) == pytest.approx(float(np.std((end - start) / far)), rel=WITHIN)


@pytest.mark.parametrize("degrees", [30.0, 45.2, 60.0])
@pytest.mark.parametrize(("tools", "arm", "_other"), CASES)
def test_bisector(tools: Tools, arm: float, _other: float, degrees: float) -> None:
    hand, half = Hand(tools, 6), math.radians(degrees)
    low = hand.mark(hand.length(arm)[:, None] * unit(-half))
    high = hand.mark(hand.length(arm)[:, None] * unit(half))
    cross = hand.mark(crossing(high, low, hand.length(arm), hand.length(arm)))
    assert bisector_turn(arm, half, tools) == pytest.approx(sd_of_direction(CENTRE, cross, 0.0), rel=WITHIN)


@pytest.mark.parametrize("degrees", [12.5, 30.0, 60.0, 75.0, 90.0])
@pytest.mark.parametrize(("tools", "radius", "_other"), CASES)
def test_chord(tools: Tools, radius: float, _other: float, degrees: float) -> None:
    hand, angle = Hand(tools, 7), math.radians(degrees)
    mark = hand.on_line(radius)
    chord = 2 * radius * math.sin(angle / 2)
    cross = hand.mark(crossing(CENTRE, mark, hand.length(radius), hand.length(chord)))
    assert chord_turn(radius, angle, tools) == pytest.approx(sd_of_direction(CENTRE, cross, angle), rel=WITHIN)


@pytest.mark.parametrize(("tools", "radius", "_other"), CASES)
def test_thirty(tools: Tools, radius: float, _other: float) -> None:
    hand = Hand(tools, 8)
    mark = hand.on_line(radius)
    sixty = hand.mark(crossing(CENTRE, mark, hand.length(radius), hand.length(radius)))
    thirty = hand.mark(crossing(sixty, mark, hand.length(radius), hand.length(radius)))
    assert stepped_30(radius, tools) == pytest.approx(sd_of_direction(CENTRE, thirty, math.pi / 6), rel=WITHIN)


@pytest.mark.parametrize("share", [0.1, 0.35, 0.5, 0.9])
@pytest.mark.parametrize(("tools", "chord", "radius"), [(tools, a, a + b) for tools, a, b in CASES])
def test_chord_offsets(tools: Tools, chord: float, radius: float, share: float) -> None:
    hand, along = Hand(tools, 9), share * chord
    start, end = hand.mark(CENTRE), hand.mark(CENTRE + np.array([chord, 0.0]))
    way = (end - start) / np.hypot(*(end - start).T)[:, None]
    square = np.column_stack([-way[:, 1], way[:, 0]])
    # The zero of the tape is held on the mark; how far that is along the chord moves the point along it.
    point = hand.mark(
        start + hand.length(along)[:, None] * way + hand.length(rise_offset(radius, chord, along))[:, None] * square
    )
    middle = np.array([chord / 2, -math.sqrt(radius**2 - chord**2 / 4)])
    out = np.hypot(*(point - middle).T) - radius
    assert chord_offset(radius, chord, along, tools) == pytest.approx(float(np.std(out)), rel=WITHIN)


def test_trammel() -> None:
    hand = Hand(CASES[0][0], 10)
    swung = hand.mark(hand.length(2500.0)[:, None] * unit(0.3))
    assert trammel_arc(hand.tools) == pytest.approx(float(np.std(np.hypot(*swung.T))), rel=WITHIN)


# Held against each other, and against published figures.


@pytest.mark.parametrize(("tools", "arm", "_other"), CASES)
def test_a_bisector_of_a_square_is_the_45_of_four_equal_marks(tools: Tools, arm: float, _other: float) -> None:
    assert bisector_turn(arm, math.pi / 4, tools) == pytest.approx(equal_marks_45(arm, 0.0, tools, sides=1))


def test_the_chord_of_60_degrees_is_the_radius() -> None:
    """Stepping the radius six times round the circle: check value S-13."""
    assert 2 * 1500 * math.sin(math.radians(60) / 2) == pytest.approx(1500)


def test_chord_for_twelve_parts() -> None:
    """Check value S-15: 2 R sin(pi / N), R = 1500, N = 12: 776.5 mm."""
    assert 2 * 1500 * math.sin(math.pi / 12) == pytest.approx(776.5, abs=0.05)


def test_radius_from_chord_and_rise() -> None:
    """Check value S-14: c = 2000, h = 150: 3408.3 mm; and the offset at the middle is the rise again."""
    radius = radius_of(2000, 150)
    assert radius == pytest.approx(3408.3, abs=0.05)
    assert rise_offset(radius, 2000, 1000) == pytest.approx(150)
    assert rise_offset(radius, 2000, 0) == pytest.approx(0, abs=1e-9)


def test_the_best_foot_for_a_reach_crosses_square() -> None:
    tools, reach = CASES[0][0], 2000.0
    best = best_foot(reach)
    least = compass_square(best, math.sqrt(reach**2 - best**2), tools)
    for foot in range(400, 1960, 20):
        assert compass_square(foot, math.sqrt(reach**2 - foot**2), tools) >= least * (1 - 1e-12)


@pytest.mark.parametrize(("tools", "size", "other"), CASES)
def test_twice_the_size_is_truer(tools: Tools, size: float, other: float) -> None:
    small, big = (
        (
            semicircle_square(k * size, k * other, tools),
            dropped_square(k * size, k * other, k * size, tools),
            parallel_turn(k * size, tools),
            past_turn(k * size, k * other, tools),
            bisector_turn(k * size, 0.7, tools),
            chord_turn(k * size, 0.4, tools),
            stepped_30(k * size, tools),
        )
        for k in (1, 2)
    )
    assert big == pytest.approx([sd / 2 for sd in small])
    assert laser_square(2 * size, 2 * other, tools) < laser_square(size, other, tools)


@pytest.mark.parametrize(("tools", "beyond", "straightedge"), CASES)
def test_carried_on_with_a_straightedge(tools: Tools, beyond: float, straightedge: float) -> None:
    """Laid to the two ends of the last piece, each move half its length: every laying and drawing slips anew."""
    hand, held = Hand(tools, 41), straightedge / 2
    before, here, left = np.zeros(SAMPLES), np.zeros(SAMPLES), beyond
    while left > 0:
        share = min(left, held) / held
        near, far, drawn = (tools.mark * hand.rng.standard_normal(SAMPLES) for _ in range(3))
        before, here = here, (1 + share) * (here + near) - share * (before + far) + drawn
        left -= held
    assert carried_on(beyond, straightedge, tools) == pytest.approx(float(here.std()), rel=WITHIN)


def test_a_longer_straightedge_is_truer_and_the_error_grows_faster_than_the_length() -> None:
    tools = Tools(compass=0, tape=8000, mark=0.5, set=1.0)
    assert carried_on(4000, 2000, tools) < carried_on(4000, 1000, tools)
    assert carried_on(4000, 1000, tools) > 2.5 * carried_on(2000, 1000, tools)
