"""The border width that lets the field finish: the affine rule, exactly, and what is chosen where no width does all."""

import math
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.layout.finish import POINTS, TILES, Finishes, Span, finishes, steps_of
from floorwright.pattern.catalogue import grid


def found(
    length: float,
    width: float,
    size: tuple[float, float] = (300.0, 300.0),
    angle: float = 0.0,
    allowed: tuple[float, float] = (100.0, 400.0),
    joint: float = 3.0,
) -> Finishes:
    made = finishes(
        spans=(Span(walls=("W", "E"), low=0.0, high=length), Span(walls=("S", "N"), low=0.0, high=width)),
        make_cell=partial(grid, size),
        angle=angle,
        joint=joint,
        joint_step=1.0,
        joint_between=joint,
        least=allowed[0],
        most=allowed[1],
        round_to=1.0,
    )
    assert made is not None
    return made


def test_a_square_field_finishes_on_whole_tiles() -> None:
    # 15 tiles and 16 joints of 3 lie between borders of 225 on 5043; 12 and 13 on 4089.
    made = found(2 * 225 + 15 * 300 + 16 * 3, 2 * 225 + 12 * 300 + 13 * 3, allowed=(150.0, 300.0))
    assert made.what == TILES
    best = made.choices[0]
    assert best.finishes
    assert best.equal
    assert best.widths == pytest.approx(dict.fromkeys(("W", "E", "S", "N"), 225))
    # An odd count has a tile on the middle, an even one a joint.
    assert math.remainder(best.positions[0][0] - (2 * 225 + 4548) / 2 - 303 / 2, 303) == pytest.approx(0, abs=1e-9)
    assert math.remainder(best.positions[0][1] - (2 * 225 + 3639) / 2, 303) == pytest.approx(0, abs=1e-9)


def test_oblong_tiles_have_a_step_of_their_own_each_way_and_turn_with_the_field() -> None:
    cell = grid((600.0, 300.0), 3.0)
    assert steps_of(cell, 0.0) == (TILES, (603.0, 303.0))
    assert steps_of(cell, math.pi / 2) == (TILES, (303.0, 603.0))
    assert steps_of(cell, math.pi / 4) is None
    assert steps_of(cell, 0.1) is None
    diagonal = steps_of(grid((300.0, 300.0), 3.0), -math.pi / 4)
    assert diagonal is not None
    assert diagonal[0] == POINTS
    assert diagonal[1] == pytest.approx((214.2534, 214.2534), abs=1e-4)


@given(
    length=st.floats(3000, 9000),
    width=st.floats(3000, 9000),
    side=st.floats(150, 600),
    joint=st.floats(0, 8),
    diagonal=st.booleans(),
)
def test_every_width_told_leaves_whole_steps_between_the_borders(
    length: float, width: float, side: float, joint: float, diagonal: bool
) -> None:
    made = found(length, width, (side, side), math.pi / 4 if diagonal else 0.0, (100.0, 500.0), joint)
    for choice in made.choices:
        for span, step, walls in zip((length, width), made.step, (("W", "E"), ("S", "N")), strict=True):
            for wall in walls:
                assert 100 - 1e-6 <= choice.widths[wall] <= 500 + 1e-6
            # Less what it misses, each side's joint lies on a line of points or of tiles.
            between = span - joint - sum(choice.widths[wall] - choice.miss[wall] for wall in walls)
            assert math.remainder(between, step) == pytest.approx(0.0, abs=1e-6)
    for span, widths, step in zip((length, width), made.alike, made.step, strict=True):
        count = math.floor((span - joint - 200 + 1e-9) / step) - math.ceil((span - joint - 1000 - 1e-9) / step) + 1
        assert len(widths) <= max(0, count)
