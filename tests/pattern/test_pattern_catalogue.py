"""The catalogue: published figures first, then the laws that every pattern keeps."""

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.errors import FloorwrightValueError
from floorwright.pattern import catalogue
from floorwright.pattern.catalogue import PATTERNS, brick_bond, grid, register

INCH = 25.4


@pytest.mark.parametrize(
    ("length", "joint", "shift"),
    [(600.0, 3.0, 201.0), (24 * INCH, INCH / 8, (8 + 1 / 24) * INCH)],
    ids=["600 + 3", "24 in + 1/8"],
)
def test_third_bond_shift(length: float, joint: float, shift: float) -> None:
    # T-77: shift = f (L + j); geometry.
    cell = brick_bond((length, length / 2), joint, Fraction(1, 3))
    assert cell.b[0] == pytest.approx(shift, abs=1e-9)


def test_diagonal_pitch_of_a_grid() -> None:
    # T-78: (t + j) sqrt 2 = 428.5 for 300 + 3; the tile alone 424.3; geometry.
    cell = grid((300.0, 300.0), 3.0)
    assert math.hypot(*(cell.a + cell.b)) == pytest.approx(428.507, abs=5e-4)
    assert math.hypot(*(cell.pieces[0][2] - cell.pieces[0][0])) == pytest.approx(424.264, abs=5e-4)


def test_first_piece_lies_half_a_joint_from_the_origin() -> None:
    assert grid((600.0, 300.0), 4.0).pieces[0].tolist() == [[2, 2], [602, 2], [602, 302], [2, 302]]


@given(st.integers(2, 9).flatmap(lambda q: st.tuples(st.integers(1, q - 1), st.just(q))))
def test_perps_stand_on_their_lines_and_leave_none_empty(parts: tuple[int, int]) -> None:
    fraction = Fraction(*parts)
    cell = brick_bond((600.0, 300.0), 3.0, fraction)
    courses, perps = cell.lines
    assert courses.through
    assert not perps.through
    assert courses.spacing == pytest.approx(303.0)
    on_line = [course * cell.b[0] / perps.spacing for course in range(fraction.denominator)]
    assert on_line == pytest.approx([round(place) for place in on_line], abs=1e-9)
    assert sorted(round(place) % fraction.denominator for place in on_line) == list(range(fraction.denominator))


@pytest.mark.parametrize(
    ("fraction", "name"),
    [
        ("1/2", "brick bond, half"),
        ("1/3", "brick bond, third"),
        ("1/4", "brick bond, quarter"),
        ("2/5", "brick bond, 2/5"),
    ],
)
def test_bond_is_called_by_its_trade_word(fraction: str, name: str) -> None:
    assert brick_bond((600.0, 300.0), 3.0, Fraction(fraction)).name == name


@pytest.mark.parametrize("fraction", [Fraction(0), Fraction(1), Fraction(-1, 3), Fraction(3, 2)])
def test_bond_refuses_a_fraction_that_is_none(fraction: Fraction) -> None:
    with pytest.raises(FloorwrightValueError, match="between 0 and 1"):
        brick_bond((600.0, 300.0), 3.0, fraction)


@pytest.mark.parametrize(("size", "joint"), [((0.0, 300.0), 3.0), ((300.0, math.inf), 3.0), ((300.0, 300.0), -1.0)])
def test_grid_refuses_sizes_that_are_none(size: tuple[float, float], joint: float) -> None:
    with pytest.raises(FloorwrightValueError):
        grid(size, joint)


def test_register_keeps_names_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(catalogue, "PATTERNS", dict(PATTERNS))
    plain = replace(PATTERNS["grid"], name="plain squares")
    register(plain)
    assert catalogue.PATTERNS["plain squares"] is plain
    with pytest.raises(FloorwrightValueError, match="plain squares"):
        register(plain)


@pytest.mark.parametrize("fraction", [Fraction(1, 3), Fraction(1, 4), Fraction(2, 5)])
def test_a_shift_to_the_left_is_the_mirror_of_one_to_the_right(fraction: Fraction) -> None:
    right, left = (brick_bond((600.0, 300.0), 3.0, fraction, shift) for shift in ("right", "left"))
    assert left.b.tolist() == [-right.b[0], right.b[1]]
    assert left.name == f"{right.name}, to the left"


def test_a_shift_to_and_fro_comes_back_every_second_course() -> None:
    cell = brick_bond((600.0, 300.0), 3.0, Fraction(1, 3), "to and fro")
    assert cell.b.tolist() == [0.0, 606.0]
    assert [piece[0].tolist() for piece in cell.pieces] == [[1.5, 1.5], [202.5, 304.5]]
    assert brick_bond((600.0, 300.0), 3.0, Fraction(1, 2), "to and fro").pieces[0].shape == (4, 2)


def test_a_shift_that_is_none_is_refused() -> None:
    with pytest.raises(FloorwrightValueError, match="to and fro"):
        brick_bond((600.0, 300.0), 3.0, Fraction(1, 3), "up")


def test_every_entry_can_be_read_out() -> None:
    for name, pattern in PATTERNS.items():
        assert name == pattern.name
        assert all((pattern.says, pattern.lines, pattern.angles, pattern.closes, pattern.group))
        assert all(caution.endswith(".") for caution in pattern.cautions)
        for parameter in pattern.parameters:
            assert parameter.default is None or parameter.allows(parameter.default), parameter.key
