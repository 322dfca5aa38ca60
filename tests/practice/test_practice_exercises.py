"""Exercises: the same number gives the same one, and every answer holds by a sum or a search made anew."""

from itertools import combinations
from math import dist, hypot, sqrt

import numpy as np
import pytest
from scipy.optimize import least_squares

from floorwright.practice.exercise import KINDS, Check, Exercise, Kind, Marking
from floorwright.practice.make import exercises
from floorwright.units import parse_length


def one(kind: Kind, number: int, units: str = "mm", line: float | None = None) -> Exercise:
    (made,) = exercises((kind,), first=number, count=1, units=units, line=line)
    return made


def figure(exercise: Exercise, what: str) -> float:
    """The first length of an answer, mm."""
    (found,) = [answer.figure for answer in exercise.answers if answer.what.startswith(what)]
    return parse_length(found.split(" (")[0].split(", ")[0], "mm" if exercise.style.system == "metric" else "in")


def given(exercise: Exercise, heading: str) -> float:
    assert exercise.table is not None
    text = exercise.table.rows[0][exercise.table.headings.index(heading)]
    return parse_length(text, "mm")


@pytest.mark.parametrize("kind", KINDS)
def test_a_number_gives_the_same_exercise_whatever_is_made_with_it(kind: Kind) -> None:
    alone = one(kind, 12)
    among = exercises((kind,), first=11, count=2, units="mm")[1]
    assert alone == among
    assert alone.number == 12
    assert alone.checks != one(kind, 13).checks


class TestSquare:
    @pytest.mark.parametrize("number", range(4))
    @pytest.mark.parametrize("units", ["mm", "in"])
    def test_arcs_cross_nearly_square(self, number: int, units: str) -> None:
        made = one("square", number, units)
        feet, opening = figure(made, "feet"), figure(made, "opening")
        assert feet / opening == pytest.approx(1 / sqrt(2), rel=0.05)
        assert figure(made, "the arcs cross") == pytest.approx(sqrt(opening**2 - feet**2), abs=1.0)

    def test_the_checks_are_hypotenuses_on_paper(self) -> None:
        made = one("square", 3)
        legs = [float(text.split(" mm")[0].split()[-1]) for text in made.task[2].split("(")[:2]]
        assert {round(check.expected, 6) for check in made.checks if check.on_paper} == {round(hypot(*legs) / 25, 6)}

    def test_a_line_that_is_asked_for(self) -> None:
        (start, end) = one("square", 3, line=6000.0).given.strokes[0].points
        assert dist(start, end) == pytest.approx(6000)


def test_the_four_chords_are_the_arm_times_root_two() -> None:
    made = one("bisect", 5)
    arm = parse_length(made.task[0].split("mark E, ")[1].split(" (")[0], "mm")
    chords = [check.expected for check in made.checks if check.what.startswith("chord")]
    assert chords == pytest.approx([arm * sqrt(2) / 25] * 4)
    assert figure(made, "Y1 to Y3") == pytest.approx(2 * arm * sqrt(2), abs=0.25)


@pytest.mark.parametrize("number", range(5))
@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_balanced_wall_adds_up(number: int, units: str) -> None:
    made = one("balance", number, units)
    tile, joint = given(made, "a tile, measured"), given(made, "joint")
    wall, gap = given(made, "the wall"), given(made, "gap at each wall")
    tiles = int(made.exact.split()[0])
    cut = made.checks[0].expected
    assert 2 * gap + 2 * cut + tiles * tile + (tiles + 1) * joint == pytest.approx(wall, abs=0.02)
    assert tile / 2 <= cut <= tile
    # One full tile more would leave less than half a tile at the ends.
    assert cut - (tile + joint) / 2 < tile / 2
    first = next(check for check in made.checks if "begins" in check.what)
    assert first.expected * made.given.scale == pytest.approx(gap + cut + joint, abs=0.02)


def places(booked: dict[str, float], start: dict[str, tuple[float, float]]) -> float:
    """Sum of squares of the best fit of corners to distances, by scipy."""
    names = list(start)

    def misfit(flat: np.ndarray) -> np.ndarray:
        xy = dict(zip(names, flat.reshape(-1, 2), strict=True))
        return np.array([np.hypot(*(xy[k[0]] - xy[k[2]])) - d for k, d in booked.items()])

    return float(2 * least_squares(misfit, np.array(list(start.values())).ravel()).cost)


@pytest.mark.parametrize("number", range(4))
@pytest.mark.parametrize("units", ["mm", "in"])
def test_leaving_out_the_wrong_reading_and_no_other_makes_the_rest_agree(number: int, units: str) -> None:
    made = one("wrong reading", number, units)
    assert made.table is not None
    booked = {pair: parse_length(text, "mm" if units == "mm" else "in") for pair, text in made.table.rows}
    corners = {name: at for name, at in made.solved.points if len(name) == 1}
    assert set(booked) == {f"{a}-{b}" for a, b in combinations(corners, 2)} - {"A-E"} | {"E-A"}
    misfits = {
        left_out: places({pair: read for pair, read in booked.items() if pair != left_out}, corners)
        for left_out in booked
    }
    best, second = sorted(misfits, key=misfits.__getitem__)[:2]
    assert best == made.exact
    assert misfits[second] > 20 * misfits[best]
    assert made.checks[0].expected == pytest.approx(dist(corners[best[0]], corners[best[2]]), abs=0.1)


@pytest.mark.parametrize("number", range(3))
@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_diagonal_floor_repeats_by_tile_and_joint_times_root_two(number: int, units: str) -> None:
    made = one("diagonal", number, units)
    step = (given(made, "a tile, measured") + given(made, "joint")) * sqrt(2)
    assert made.checks[0].expected == pytest.approx(step, abs=0.02)
    for name in ("rows", "columns"):
        first = given(made, f"first of the {name}")
        second = next(check for check in made.checks if check.what.endswith(f"second point of the {name}"))
        assert second.expected * made.given.scale == pytest.approx(first + step, abs=1.0)


def test_marks_are_earned_by_how_far_out() -> None:
    marking, check = Marking(full=1.0, half=2.0, marks=4), Check(what="", expected=100.0)
    assert [marking.earned(check, 100 + out) for out in (0.0, -1.0, 1.5, 2.0, -2.01)] == [4, 4, 2, 2, 0]
