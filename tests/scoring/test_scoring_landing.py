"""Borders and squares that land on joints, against a plain search in fractions."""

from fractions import Fraction
from typing import TypeAlias

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.scoring.slabs import INCH, LIMITS

from floorwright.scoring.design import Limits
from floorwright.scoring.landing import Axis, search

Found: TypeAlias = dict[int, tuple[tuple[int, ...], ...]]
"""Size to borders at the ends and along the sides, in."""


def in_inches(length: float, across: float, along_joints: tuple[int, ...], across_joints: tuple[int, ...]) -> Found:
    found = search(
        Axis(edges=((0, 1), (length * INCH, -1)), joints=tuple(at * INCH for at in along_joints)),
        Axis(edges=((0, 1), (across * INCH, -1)), joints=tuple(at * INCH for at in across_joints)),
        LIMITS,
    )
    return {
        whole(one.size): tuple(tuple(map(whole, borders)) for borders in (one.ends, one.sides))
        for one in found.landings
    }


def whole(mm: float) -> int:
    return round(mm / INCH)


def test_the_whole_list_of_a_slab_of_24_by_18_ft() -> None:
    """Scenario S4: joints at 8 and 16 ft along and 9 ft across."""
    assert in_inches(288, 216, (96, 192), (108,)) == {
        12: ((12, 24, 36), (12, 24, 36)),
        16: ((16, 32), (12, 28)),
        24: ((24,), (12, 36)),
        32: ((32,), (12,)),
    }


def test_with_one_border_all_round_only_12_in_squares_land() -> None:
    found = search(
        Axis(edges=((0, 1), (288 * INCH, -1)), joints=(96 * INCH, 192 * INCH)),
        Axis(edges=((0, 1), (216 * INCH, -1)), joints=(108 * INCH,)),
        LIMITS,
    )
    equal = {whole(one.size): [*map(whole, one.equal)] for one in found.landings if one.equal}
    assert equal == {12: [12, 24, 36]}
    assert (found.sizes, found.borders, found.moved) == (205, 31, 0.0)


def by_fractions(length: int, joints: tuple[int, ...], size: int) -> list[int]:
    """Borders that make a whole number of squares between them and to every joint: a number of squares is a fraction
    without a denominator."""
    borders = []
    for border in range(6, 37):
        places = [length - border, *joints]
        if length - 2 * border < size or any(not border <= at <= length - border for at in joints):
            continue
        if all(Fraction(at - border, size).denominator == 1 for at in places):
            borders.append(border)
    return borders


@settings(deadline=None, max_examples=25)
@given(
    st.tuples(st.integers(60, 220), st.integers(60, 220)),
    st.lists(st.integers(20, 200), max_size=3),
    st.lists(st.integers(20, 200), max_size=3),
)
def test_agrees_with_a_search_in_fractions(sides: tuple[int, int], along: list[int], across: list[int]) -> None:
    found = in_inches(*sides, tuple(along), tuple(across))
    for size in range(12, min(sides) + 1):
        fits = tuple(
            tuple(by_fractions(side, tuple(joints), size)) for side, joints in zip(sides, (along, across), strict=True)
        )
        assert found.get(size, ((), ())) == (fits if all(fits) else ((), ()))


def test_an_inner_corner_must_be_met_as_well() -> None:
    """An L: the edge that faces back 10 in from a whole square leaves no border but those that bring it there."""
    plain = Axis(edges=((0, 1), (240, -1)), joints=())
    stepped = Axis(edges=((0, 1), (100, -1), (240, -1)), joints=())
    limits = Limits(step=10, border_least=10, border_most=60, size_least=30)
    free, bound = (search(axis, plain, limits) for axis in (plain, stepped))
    assert {one.size for one in bound.landings} < {one.size for one in free.landings}
    for one in bound.landings:
        for border in one.ends:
            assert (100 - 2 * border) % one.size == 0
            assert (240 - 2 * border) % one.size == 0


def test_a_slab_a_little_off_is_taken_at_the_nearest_step_and_says_so() -> None:
    found = search(
        Axis(edges=((0, 1), (288 * INCH + 4.0, -1)), joints=(96 * INCH - 2.5,)),
        Axis(edges=((0, 1), (216 * INCH, -1)), joints=()),
        LIMITS,
    )
    assert found.moved == pytest.approx(4.0)
    assert 24 in {round(one.size / INCH) for one in found.landings}
