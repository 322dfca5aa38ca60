"""Where one more point may lie."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.survey.loci import Circle, Line, Place, locus, meet
from floorwright.survey.observation import Distance, Square, Straight

PLACED: dict[str, Place] = {"A": (0.0, 0.0), "B": (4000.0, 0.0)}


@given(st.floats(-3000, 7000), st.floats(1, 4000))
def test_two_tape_tie(x: float, y: float) -> None:
    """S-17: x = (r1^2 - r2^2 + b^2) / 2b, y = +/- sqrt(r1^2 - x^2)."""
    one, two = math.hypot(x, y), math.hypot(x - 4000, y)
    places = meet(Circle(centre=(0, 0), radius=one), Circle(centre=(4000, 0), radius=two))
    assert max(places, key=lambda p: p[1]) == pytest.approx((x, y), abs=1e-2)
    assert len(places) == 2


@pytest.mark.parametrize(
    ("one", "two", "between"),
    [(1900.0, 2000.0, 1950.0), (4200.0, 100.0, 4150.0), (100.0, 4200.0, -150.0)],
)
def test_circles_that_miss_meet_half_way(one: float, two: float, between: float) -> None:
    (place,) = meet(Circle(centre=(0, 0), radius=one), Circle(centre=(4000, 0), radius=two))
    assert place == pytest.approx((between, 0.0))


def test_lines_and_circles() -> None:
    up = Line(through=(0.0, 0.0), direction=(0.0, 1.0))
    assert set(meet(up, Circle(centre=(0.0, 0.0), radius=5.0))) == {(0.0, 5.0), (0.0, -5.0)}
    assert meet(Circle(centre=(9.0, 2.0), radius=5.0), up) == ((0.0, 2.0),)
    assert meet(up, Line(through=(3.0, 4.0), direction=(1.0, 0.0))) == ((0.0, 4.0),)
    assert meet(up, Line(through=(3.0, 4.0), direction=(0.0, 1.0))) == ()
    assert meet(Circle(centre=(0, 0), radius=1), Circle(centre=(0, 0), radius=1)) == ()


def test_each_kind_of_reading_has_its_locus() -> None:
    assert locus(Distance(key="", a="P", b="B", measured=7.0, sd=1), "P", PLACED) == Circle(centre=(4000, 0), radius=7)
    assert locus(Distance(key="", a="P", b="Q", measured=7.0, sd=1), "P", PLACED) is None
    assert locus(Distance(key="", a="A", b="B", measured=7.0, sd=1), "P", PLACED) is None
    at_end = locus(Square(key="", at="B", a="A", b="P", sd=1), "P", PLACED)
    assert isinstance(at_end, Line)
    assert at_end.through == (4000.0, 0.0)
    assert abs(at_end.direction[1]) == 1.0
    at_point = locus(Square(key="", at="P", a="A", b="B", sd=1), "P", PLACED)
    assert at_point == Circle(centre=(2000.0, 0.0), radius=2000.0)
    on_line = locus(Straight(key="", a="A", at="P", b="B", sd=1), "P", PLACED)
    assert on_line == Line(through=(0.0, 0.0), direction=(1.0, 0.0))
    beyond = locus(Straight(key="", a="A", at="B", b="P", sd=1), "P", PLACED)
    assert isinstance(beyond, Line)
