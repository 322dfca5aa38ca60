"""Sketches of rooms that are not fixed yet: what is read is true to length, and corners turn as they are booked."""

import numpy as np
import pytest

from floorwright.survey.observation import Distance
from floorwright.survey.sketch import sketch


def read(a: str, b: str, mm: float) -> Distance:
    return Distance(key=f"{a}-{b}", a=a, b=b, measured=mm, sd=1.0)


def apart(places: dict[str, tuple[float, float]], a: str, b: str) -> float:
    return float(np.hypot(*np.subtract(places[a], places[b])))


def test_an_l_shape_with_nothing_read_is_square_and_turns_in() -> None:
    places = sketch(outline="ABCDEF", direction="anticlockwise", inward="D", observations=())
    walls = np.array([np.subtract(places[b], places[a]) for a, b in zip("ABCDEF", "BCDEFA", strict=True)])
    after = np.roll(walls, -1, axis=0)
    turns = walls[:, 0] * after[:, 1] - walls[:, 1] * after[:, 0]
    assert [bool(turn > 0) for turn in turns] == [True, True, False, True, True, True]
    assert np.abs((walls * after).sum(axis=1)).max() == pytest.approx(0.0, abs=1e-6)


def test_what_is_read_has_its_length() -> None:
    readings = [read("A", "B", 4200.0), read("B", "C", 3612.0), read("A", "C", 5530.0)]
    places = sketch(outline="ABCD", direction="anticlockwise", inward="", observations=readings)
    for one in readings:
        assert apart(places, one.a, one.b) == pytest.approx(one.measured, abs=0.5)
    assert places["A"] == pytest.approx((0.0, 0.0))


def test_a_point_off_the_outline_is_drawn_too() -> None:
    places = sketch(outline="ABCD", direction="anticlockwise", inward="", observations=[read("A", "P", 900.0)])
    assert apart(places, "A", "P") == pytest.approx(900.0, abs=0.5)


def test_a_room_booked_clockwise_lies_the_same_way_up() -> None:
    places = sketch(outline="ABCDE", direction="clockwise", inward="", observations=())
    ring = np.array([places[name] for name in "EDCBA"])
    x, y = ring.T
    assert float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) > 0
