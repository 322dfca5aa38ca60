"""Coordinates as observations: any frame, the datum carried over, and scipy's answer."""

import math

import numpy as np
import pytest
from scipy import optimize
from tests.survey.rooms import KITCHEN, KITCHEN_OUTLINE, codes, readings, survey
from tests.survey.test_survey_solve import FIRST_WALL, INNER, NAMES, random_network

from floorwright.geometry.region import Points
from floorwright.survey.adjustment import Datum
from floorwright.survey.datum import carried_over
from floorwright.survey.network import network, residuals
from floorwright.survey.observation import Coordinate, Observation
from floorwright.survey.solve import adjust

READ = Datum(kind="coordinates")


def coordinates(xy: Points, names: tuple[str, ...] = NAMES, sd: float = 2.0) -> list[Observation]:
    return [
        Coordinate(key=f"{name} {axis}", point=name, axis=i, measured=float(xy[row, i]), sd=sd)
        for row, name in enumerate(names)
        for i, axis in enumerate("xy")
    ]


@pytest.mark.parametrize("seed", range(20))
def test_another_datum_without_adjusting_again(seed: int) -> None:
    """Accuracy carried over from inner constraints is what an adjustment on the first wall gives, and the other way."""
    start, observations = random_network(seed)
    wall, inner = (adjust(NAMES, start, observations, datum) for datum in (FIRST_WALL, INNER))
    for old, new in ((inner, wall), (wall, inner)):
        datum = FIRST_WALL if new is wall else INNER
        carried = carried_over(old, datum)
        assert np.sort(np.linalg.eigvalsh(carried.covariance)) == pytest.approx(
            np.sort(np.linalg.eigvalsh(new.covariance)), rel=1e-3, abs=1e-3
        )


@pytest.mark.parametrize("seed", range(20))
def test_scipy_least_squares_agrees(seed: int) -> None:
    start, observations = random_network(seed)
    observations = [*observations, *coordinates(start + 1e6)]
    net = network(NAMES, observations)
    ours = adjust(NAMES, start + 1e6, observations, READ)

    def misfit(moves: Points) -> Points:
        return residuals(net, start + 1e6 + moves.reshape(-1, 2)) / net.sd

    theirs = optimize.least_squares(misfit, np.zeros(start.size), xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale="jac")
    assert ours.converged
    assert ours.sum_of_squares == pytest.approx(2 * theirs.cost, rel=1e-6)
    assert ours.degrees_of_freedom == len(observations) - start.size


def test_any_frame_gives_the_same_room() -> None:
    square = np.array([[0.0, 0.0], [4200.0, 0.0], [4210.0, 3600.0], [0.0, 3588.0]])
    turn = 1.1
    wheel = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    tapes = readings(KITCHEN)
    here, there = (
        survey(KITCHEN_OUTLINE, [*coordinates(xy, KITCHEN_OUTLINE), *tapes])
        for xy in (square, square @ wheel + 50_000.0)
    )
    assert here.adjustment is not None
    assert there.adjustment is not None
    assert there.adjustment.xy == pytest.approx(here.adjustment.xy, abs=1e-6)
    assert there.adjustment.covariance == pytest.approx(here.adjustment.covariance, abs=1e-6)


def test_coordinates_alone_are_their_own_accuracy_between_points() -> None:
    """Length of the first wall: each end good to 2 mm along it, so the wall to 2 sqrt 2."""
    square = np.array([[0.0, 0.0], [4000.0, 0.0], [4000.0, 3000.0], [0.0, 3000.0]])
    result = survey(KITCHEN_OUTLINE, coordinates(square, KITCHEN_OUTLINE))
    assert result.corners[1].sd_x == pytest.approx(2 * math.sqrt(2))
    assert "survey-unchecked" in codes(result)
    assert result.area == pytest.approx(12e6)


def test_a_point_without_coordinates_is_told_of() -> None:
    square = np.array([[0.0, 0.0], [4000.0, 0.0], [4000.0, 3000.0]])
    result = survey(KITCHEN_OUTLINE, coordinates(square, KITCHEN_OUTLINE[:3]))
    (finding,) = [f for f in result.findings if f.code == "survey-too-few"]
    assert "NW" in finding.found
