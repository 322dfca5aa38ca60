"""Long outlines: round rooms and rings of many corners come to rest, slips are named, and what is loose is said so."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorwright.findings import Finding
from floorwright.survey.network import network, residuals
from floorwright.survey.observation import Distance, Observation
from floorwright.survey.outline import Outline
from floorwright.survey.solve import adjust
from floorwright.survey.start import first_wall
from floorwright.survey.survey import SurveyResult, survey_room
from floorwright.survey.suspect import limit_of
from floorwright.survey.walk import walk_past_slips, walk_to_rest
from floorwright.units import METRIC

RADIUS = 3000.0


def corners(count: int, seed: int = 1) -> tuple[list[str], np.ndarray]:
    """A round room whose corners are a little unevenly spaced."""
    rng = np.random.default_rng(seed)
    around = 2 * np.pi * (np.arange(count) + 0.1 * rng.normal(size=count)) / count
    return [f"P{i}" for i in range(count)], RADIUS * np.column_stack([np.cos(around), np.sin(around)])


def read(names: list[str], places: np.ndarray, pairs: list[tuple[int, int]], sd: float = 1.0) -> list[Observation]:
    rng = np.random.default_rng(len(pairs))
    return [
        Distance(
            key=f"{names[i]}-{names[j]}",
            a=names[i],
            b=names[j],
            measured=math.dist(places[i], places[j]) + sd * rng.normal(),
            sd=sd,
        )
        for i, j in pairs
    ]


def neighbours(count: int, *steps: int) -> list[tuple[int, int]]:
    """Every corner to those so many on, and all diameters."""
    pairs = [(i, (i + step) % count) for step in steps for i in range(count)]
    return [*pairs, *((i, i + count // 2) for i in range(count // 2))]


def stations(count: int) -> list[tuple[int, int]]:
    """The walls, and every corner from three."""
    pairs = {tuple(sorted((i, (i + 1) % count))) for i in range(count)}
    pairs |= {tuple(sorted((k, i))) for k in (0, count // 3, 2 * count // 3) for i in range(count) if i != k}
    return [(i, j) for i, j in sorted(pairs)]


def survey(names: list[str], readings: list[Observation]) -> SurveyResult:
    return survey_room(
        name="round room", outline=names, direction="anticlockwise", inward=(), observations=readings, wall_names={},
        hidden=(), datum=None, style=METRIC,
    )  # fmt: skip


def finding(result: SurveyResult, code: str) -> Finding:
    (found,) = [f for f in result.findings if f.code == code]
    return found


@pytest.mark.parametrize("count", [60, 100])
@pytest.mark.parametrize("steps", [(1, 2), (1, 3)])
def test_a_round_room_by_neighbours_and_diameters_comes_to_rest(count: int, steps: tuple[int, ...]) -> None:
    names, places = corners(count)
    result = survey(names, read(names, places, neighbours(count, *steps)))
    assert result.adjustment is not None
    assert result.adjustment.converged
    assert result.adjustment.variance_factor == pytest.approx(1.0, abs=0.75)
    assert not [f for f in result.findings if f.code in ("survey-two-shapes", "survey-corner-turned", "survey-suspect")]
    # Nothing but its neighbours and one diameter holds a corner, and one warning says so for all of them.
    assert f"of {count} corners are known worse than 5 mm" in finding(result, "survey-weak-corner").found
    off = np.abs(np.hypot(*(result.adjustment.xy - result.adjustment.xy.mean(axis=0)).T) - RADIUS)
    sds = np.sqrt(np.diag(result.adjustment.covariance)).reshape(-1, 2).max(axis=1)
    assert off.max() < 4 * sds.max()


def test_walls_and_diameters_alone_are_too_few_and_it_says_what_to_tape() -> None:
    names, places = corners(60)
    said = finding(survey(names, read(names, places, neighbours(60, 1))), "survey-too-few")
    assert said.found.startswith("the readings do not fix 58 of the points")
    assert "tape every corner from P0 and P30" in said.remedy
    assert "[[survey.arcs]]" in said.remedy


@pytest.mark.parametrize("count", [40, 120])
def test_a_slip_among_hundreds_of_readings_is_named(count: int) -> None:
    names, places = corners(count)
    readings = read(names, places, stations(count))
    at = count + 11
    slipped = readings[at]
    assert isinstance(slipped, Distance)
    readings[at] = replace(slipped, measured=slipped.measured + 100.0)
    result = survey(names, readings)
    assert [explanation.key for explanation in result.explanations] == [slipped.key]
    assert result.explanations[0].slip == pytest.approx(100.0, abs=5.0)


def test_good_readings_of_a_long_outline_point_at_none() -> None:
    names, places = corners(100)
    result = survey(names, read(names, places, stations(100)))
    assert result.explanations == ()
    assert result.adjustment is not None
    true = places - places[0]
    turn = math.atan2(*reversed(true[1]))
    true = true @ np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    sds = np.sqrt(np.maximum(np.diag(result.adjustment.covariance), 0.25)).reshape(-1, 2)
    assert np.abs((result.adjustment.xy - true) / sds).max() < 4.0


def test_the_limit_grows_with_the_number_of_readings() -> None:
    """The normal quantile of 0.05 / 500 on two sides, 3.8906; up to fifty readings Baarda's 3.29 stays."""
    assert limit_of(1) == limit_of(50) == pytest.approx(3.2905, abs=1e-4)
    assert limit_of(500) == pytest.approx(3.8906, abs=1e-4)


@given(st.integers(0, 500))
@settings(max_examples=15, deadline=None)
def test_walking_comes_to_the_same_rest_as_coordinates(seed: int) -> None:
    """Where both converge the least squares are the same, whatever they are stepped by."""
    names, places = corners(24, seed)
    readings = read(names, places, stations(24))
    net = network(names, readings)
    settled = walk_to_rest(net, places + np.random.default_rng(seed).normal(0.0, 30.0, places.shape))
    outline = Outline(corners=tuple(names), inward=frozenset(), straight=frozenset())
    adjusted = adjust(names, places, readings, first_wall(outline))
    assert settled.converged
    assert adjusted.converged
    assert float(settled.misfits @ settled.misfits) == pytest.approx(adjusted.sum_of_squares, rel=1e-6)


def test_a_walk_looks_past_slips() -> None:
    names, places = corners(60)
    readings = read(names, places, neighbours(60, 1, 2, 3, 5))
    for at in (5, 85, 130):
        slipped = readings[at]
        assert isinstance(slipped, Distance)
        readings[at] = replace(slipped, measured=slipped.measured + 150.0)
    net = network(names, readings)
    settled = walk_past_slips(net, places)
    assert sorted(np.argsort(-np.abs(settled.misfits))[:3].tolist()) == [5, 85, 130]
    others = np.delete(residuals(net, settled.xy), [5, 85, 130])
    assert np.abs(others).max() < 4.0
