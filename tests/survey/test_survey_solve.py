"""Least squares: derivatives, datums, rank, and the same answer as scipy's solver."""

import math
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize
from tests.survey.rooms import KITCHEN, KITCHEN_OUTLINE, readings

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.survey.adjustment import Adjustment, Datum
from floorwright.survey.datum import basis_of
from floorwright.survey.network import derivatives, network, residuals
from floorwright.survey.observation import Along, Angle, Distance, Observation, Offset, Square, Straight
from floorwright.survey.solve import LoosePointsError, adjust, loose_points

NAMES = ("A", "B", "C", "D", "E")
FIRST_WALL = Datum(kind="first wall", points=("A", "B"))
INNER = Datum(kind="inner constraints")


def random_network(seed: int) -> tuple[Points, list[Observation]]:
    """Five points with all distances between them but one and a reading of every other kind; errors of a few mm."""
    rng = np.random.default_rng(seed)
    # A wall A-B with E on it, D square out from A, and C well off the wall: nothing hangs on flat triangles.
    along, out = rng.uniform(2000, 6000), rng.uniform(1500, 5000)
    far, off = rng.uniform(0, 6000), rng.uniform(1000, 5000)
    true = np.array([[0, 0], [along, 0], [far, off], [0, out], [along * rng.uniform(0.3, 0.7), 0]])
    turned = rng.uniform(0, 2 * math.pi)
    wheel = np.array([[math.cos(turned), math.sin(turned)], [-math.sin(turned), math.cos(turned)]])
    true = true @ wheel + rng.uniform(-5000, 5000, 2)
    place = dict(zip(NAMES, true, strict=True))
    pairs = list(combinations(NAMES, 2))
    del pairs[int(rng.integers(len(pairs)))]
    observations: list[Observation] = [
        Distance(
            key=f"{a}-{b}", a=a, b=b, measured=float(np.hypot(*(place[a] - place[b])) + rng.normal() * 1.5),
            sd=float(rng.uniform(0.5, 3.0)),
        )
        for a, b in pairs
    ]  # fmt: skip
    observations += [
        Square(key="square A", at="A", a="B", b="D", sd=0.002),
        Straight(key="straight A-E-B", a="A", at="E", b="B", sd=2.0),
    ]
    ray_b, ray_d, ray_c = (place[name] - place["A"] for name in "BDC")
    unit = ray_b / np.hypot(*ray_b)
    angle = float(np.arctan2(ray_d[1], ray_d[0]) - np.arctan2(ray_b[1], ray_b[0])) % (2 * math.pi)
    observations += [
        Angle(key="angle A", at="A", a="B", b="D", measured=angle + rng.normal() * 0.005, sd=0.005),
        Offset(
            key="C off A-B", a="A", at="C", b="B", sd=1.5,
            measured=float(unit[0] * ray_c[1] - unit[1] * ray_c[0] + rng.normal() * 1.5),
        ),
        Along(key="C along A-B", a="A", at="C", b="B", sd=8.0, measured=float(unit @ ray_c + rng.normal() * 8.0)),
    ]  # fmt: skip
    return true + rng.normal(0, 30, true.shape), observations


@given(st.integers(0, 10_000))
def test_derivatives_are_those_of_the_residuals(seed: int) -> None:
    start, observations = random_network(seed)
    net = network(NAMES, observations)
    rows = derivatives(net, start)
    for column in range(start.size):
        step = np.zeros(start.size)
        step[column] = 1e-3
        up, down = (residuals(net, start + sign * step.reshape(-1, 2)) for sign in (1, -1))
        assert rows[:, column] == pytest.approx((up - down) / 2e-3, abs=1e-6)


@pytest.mark.parametrize("seed", range(200))
def test_scipy_least_squares_agrees(seed: int) -> None:
    start, observations = random_network(seed)
    net = network(NAMES, observations)
    ours = adjust(NAMES, start, observations, FIRST_WALL)
    basis = basis_of(FIRST_WALL, NAMES, start)

    def misfit(moves: Points) -> Points:
        return residuals(net, start + (basis @ moves).reshape(-1, 2)) / net.sd

    theirs = optimize.least_squares(misfit, np.zeros(basis.shape[1]), xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert ours.converged
    assert ours.sum_of_squares == pytest.approx(2 * theirs.cost, rel=1e-8, abs=1e-9)
    assert ours.xy == pytest.approx(start + (basis @ theirs.x).reshape(-1, 2), abs=1e-3)
    hessian = theirs.jac.T @ theirs.jac
    assert ours.covariance == pytest.approx(basis @ np.linalg.inv(hessian) @ basis.T, rel=1e-3, abs=1e-3)


@given(st.integers(0, 10_000), st.sampled_from(["first wall", "inner constraints", "fixed points"]))
def test_redundancy_adds_up_to_the_degrees_of_freedom(seed: int, kind: str) -> None:
    start, observations = random_network(seed)
    datum = Datum(kind=kind, points=() if kind == "inner constraints" else ("A", "B"))
    found = adjust(NAMES, start, observations, datum)
    assert sum(r.redundancy for r in found.residuals) == pytest.approx(found.degrees_of_freedom, abs=1e-9)
    assert found.degrees_of_freedom == len(observations) - (6 if kind == "fixed points" else 7)


@given(st.integers(0, 10_000), st.floats(-math.pi, math.pi), st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_moved_and_turned_start_gives_the_same_residuals_and_shape(
    seed: int, turn: float, dx: float, dy: float
) -> None:
    start, observations = random_network(seed)
    wheel = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    here = adjust(NAMES, start, observations, INNER)
    there = adjust(NAMES, start @ wheel + (dx, dy), observations, INNER)
    assert _sizes(there) == pytest.approx(_sizes(here), abs=1e-6)
    assert there.xy == pytest.approx(here.xy @ wheel + (dx, dy), abs=1e-5)


@given(st.integers(0, 10_000))
def test_what_does_not_depend_on_the_datum(seed: int) -> None:
    start, observations = random_network(seed)
    wall, inner = (adjust(NAMES, start, observations, datum) for datum in (FIRST_WALL, INNER))
    assert _sizes(wall) == pytest.approx(_sizes(inner), abs=1e-6)
    assert wall.sum_of_squares == pytest.approx(inner.sum_of_squares, rel=1e-9, abs=1e-9)
    # Inner constraints have the least trace of all datums (Baarda).
    assert np.trace(inner.covariance) < np.trace(wall.covariance)


@given(st.integers(0, 1000), st.permutations(range(8)))
def test_order_of_observations_changes_nothing(seed: int, order: list[int]) -> None:
    start, observations = random_network(seed)
    order = [i for i in order if i < len(observations)] + list(range(8, len(observations)))
    first = adjust(NAMES, start, observations, FIRST_WALL)
    second = adjust(NAMES, start, [observations[i] for i in order], FIRST_WALL)
    assert second.xy == pytest.approx(first.xy, abs=1e-6)
    assert [second.residuals[order.index(i)].key for i in range(len(order))] == [r.key for r in first.residuals]


def _sizes(of: Adjustment) -> list[float]:
    return [value for r in of.residuals for value in (r.residual, r.redundancy, r.standardised)]


def test_first_wall_rests_and_keeps_its_direction() -> None:
    start = np.array([[0.0, 0.0], [4100.0, 0.0], [4200.0, 3600.0], [0.0, 3600.0]])
    found = adjust(KITCHEN_OUTLINE, start, readings(KITCHEN), Datum(kind="first wall", points=("SW", "SE")))
    assert found.xy[0].tolist() == [0.0, 0.0]
    assert found.xy[1][1] == 0.0
    sds = np.sqrt(np.diag(found.covariance))
    assert sds[:2].tolist() == [0.0, 0.0]
    assert sds[3] == pytest.approx(0.0, abs=1e-12)
    assert sds[2] > 0.5


def test_four_walls_alone_leave_two_corners_loose() -> None:
    start = np.array([[0.0, 0.0], [4200.0, 0.0], [4190.0, 3600.0], [0.0, 3600.0]])
    walls = readings(KITCHEN)[:4]
    datum = Datum(kind="first wall", points=("SW", "SE"))
    with pytest.raises(LoosePointsError) as caught:
        adjust(KITCHEN_OUTLINE, start, walls, datum)
    assert caught.value.points == ("NE", "NW")
    assert loose_points(KITCHEN_OUTLINE, start, walls, datum) == ("NE", "NW")
    assert loose_points(KITCHEN_OUTLINE, start, readings(KITCHEN), datum) == ()


def test_one_fixed_point_leaves_the_figure_free_to_turn() -> None:
    start = np.array([[0.0, 0.0], [4200.0, 0.0], [4190.0, 3600.0], [0.0, 3600.0]])
    with pytest.raises(LoosePointsError) as caught:
        adjust(KITCHEN_OUTLINE, start, readings(KITCHEN), Datum(kind="fixed points", points=("SW",)))
    assert caught.value.points == ("SE", "NE", "NW")


def test_steps_are_halved_from_a_poor_start() -> None:
    """A start far off, where whole steps of Gauss-Newton overshoot."""
    start = np.array([[0.0, 0.0], [9000.0, 0.0], [700.0, 500.0], [-3000.0, 200.0]])
    found = adjust(KITCHEN_OUTLINE, start, readings(KITCHEN), Datum(kind="first wall", points=("SW", "SE")))
    assert found.converged
    assert max(abs(r.residual) for r in found.residuals) < 0.01


def test_a_square_corner_may_turn_in() -> None:
    """The angle from `a` anticlockwise to `b` is 90 or 270 degrees, whichever is nearer."""
    start = np.array([[0.0, 0.0], [1000.0, 0.0], [3.0, -1000.0]])
    observations: list[Observation] = [
        Distance(key="A-B", a="A", b="B", measured=1000.0, sd=1.0),
        Distance(key="A-C", a="A", b="C", measured=1000.0, sd=1.0),
        Square(key="square A", at="A", a="B", b="C", sd=0.001),
    ]
    found = adjust(("A", "B", "C"), start, observations, FIRST_WALL)
    assert found.xy[2] == pytest.approx((0.0, -1000.0), abs=1e-6)
    assert found.residuals[2].adjusted == pytest.approx(3 * math.pi / 2)
    assert found.residuals[2].measured == pytest.approx(3 * math.pi / 2)


@pytest.mark.parametrize(
    ("observation", "words"),
    [
        (Distance(key="A-Z", a="A", b="Z", measured=1.0, sd=1.0), "unknown point Z"),
        (Distance(key="A-A", a="A", b="A", measured=1.0, sd=1.0), "one point twice"),
        (Distance(key="A-B", a="A", b="B", measured=0.0, sd=1.0), "no distance over zero"),
        (Distance(key="A-B", a="A", b="B", measured=math.nan, sd=1.0), "no distance over zero"),
        (Distance(key="A-B", a="A", b="B", measured=1.0, sd=0.0), "no standard deviation"),
    ],
)
def test_what_is_no_network_is_refused(observation: Observation, words: str) -> None:
    with pytest.raises(FloorwrightValueError, match=words):
        adjust(("A", "B"), np.array([[0.0, 0.0], [1.0, 0.0]]), [observation], FIRST_WALL)


@pytest.mark.parametrize(
    ("datum", "words"),
    [
        (Datum(kind="first wall", points=("A",)), "two points"),
        (Datum(kind="first wall", points=("A", "Z")), "unknown point Z"),
        (Datum(kind="fixed points"), "no fixed points"),
        (Datum(kind="inner constraints", points=("A",)), "two points or more"),
        (Datum(kind="third wall"), "no datum 'third wall'"),
    ],
)
def test_what_is_no_datum_is_refused(datum: Datum, words: str) -> None:
    start, observations = random_network(1)
    with pytest.raises(FloorwrightValueError, match=words):
        adjust(NAMES, start, observations, datum)


def test_names_and_starts_must_match() -> None:
    start, observations = random_network(1)
    with pytest.raises(FloorwrightValueError, match="starting coordinate"):
        adjust(NAMES, start[:4], observations, FIRST_WALL)
    with pytest.raises(FloorwrightValueError, match="two points of one name"):
        adjust(("A", "A", "C", "D", "E"), start, observations, FIRST_WALL)
