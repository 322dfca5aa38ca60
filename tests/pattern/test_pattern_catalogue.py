"""The catalogue: published figures first, then the laws that every pattern keeps."""

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.errors import FloorwrightValueError
from floorwright.pattern import catalogue
from floorwright.pattern.catalogue import PATTERNS, brick_bond, grid, register
from floorwright.pattern.cell import UnitCell

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
    register("plain squares", grid)
    assert catalogue.PATTERNS["plain squares"] is grid
    with pytest.raises(FloorwrightValueError, match="plain squares"):
        register("plain squares", grid)


CELLS = [
    PATTERNS["grid"](size=(600.0, 300.0), joint=3.0),
    PATTERNS["grid"](size=(447.0, 447.0), joint=0.0),
    PATTERNS["brick bond"](size=(600.0, 300.0), joint=3.0, fraction=Fraction(1, 2)),
    PATTERNS["brick bond"](size=(600.0, 100.0), joint=2.0, fraction=Fraction(2, 7)),
]


@pytest.mark.parametrize("cell", CELLS, ids=lambda cell: f"{cell.name} {cell.size} {cell.joint}")
class TestEveryPattern:
    def test_repeat_holds_its_pieces_and_joints(self, cell: UnitCell) -> None:
        import shapely

        repeat = abs(float(np.linalg.det(cell.repeat)))
        pieces = [shapely.Polygon(ring) for ring in cell.pieces]
        joints = repeat - sum(piece.area for piece in pieces)
        # Half of every side of a piece carries half a joint's width, each corner a quarter of its square.
        expected = sum(piece.length * cell.joint / 2 + cell.joint**2 for piece in pieces)
        assert joints == pytest.approx(expected, abs=1e-6)

    def test_neighbours_keep_the_joint_and_never_overlap(self, cell: UnitCell) -> None:
        import shapely

        around = [
            shapely.Polygon(ring + i * cell.a + j * cell.b)
            for ring in cell.pieces
            for i in range(-2, 3)
            for j in range(-2, 3)
            if (i, j) != (0, 0)
        ]
        for ring in cell.pieces:
            piece = shapely.Polygon(ring)
            assert min(piece.distance(other) for other in around) == pytest.approx(cell.joint, abs=1e-9)
            assert max(piece.intersection(other).area for other in around) < 1e-6

    def test_pieces_run_anticlockwise(self, cell: UnitCell) -> None:
        import shapely

        assert all(shapely.LinearRing(ring).is_ccw for ring in cell.pieces)

    def test_through_lines_meet_no_piece(self, cell: UnitCell) -> None:
        for family in cell.lines:
            if not family.through:
                continue
            normal = np.array([-math.sin(family.angle), math.cos(family.angle)])
            for ring in cell.pieces:
                along = (ring @ normal - family.offset) / family.spacing
                assert math.floor(along.min() + 1e-12) + 1 >= along.max() - 1e-12
