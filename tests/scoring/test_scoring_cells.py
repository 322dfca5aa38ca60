"""Cells and their stains: nothing left bare, neighbours apart, strips of stencil that reach."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.scoring.slabs import INCH, patio

from floorwright.pattern.catalogue import PATTERNS
from floorwright.scoring.scored import colours
from floorwright.scoring.stencil import strips

SQUARE_FOOT = (12 * INCH) ** 2


def test_cells_border_and_circle_make_up_the_slab() -> None:
    done = patio(discs=(((144, 108), 54),), disc_colours=("d",), colours=("a", "b"), border_colour="c")
    by_colour = {name: area / SQUARE_FOOT for name, area in colours(done)}
    assert sum(by_colour.values()) == pytest.approx(24 * 18)
    assert by_colour["d"] == pytest.approx(math.pi * 4.5**2)
    assert by_colour["c"] == pytest.approx(24 * 18 - 20 * 16)
    assert by_colour["a"] == pytest.approx(by_colour["b"])


def test_squares_take_two_colours_like_a_chequer() -> None:
    done = patio(colours=("a", "b"))
    assert done.alike == 0
    counts = {name: sum(cell.colour == name for cell in done.cells) for name in "ab"}
    assert counts == {"a": 40, "b": 40}


@pytest.mark.parametrize(("count", "apart"), [(2, False), (3, True)])
def test_hexagons_need_three(count: int, apart: bool) -> None:
    """Three hexagons meet in every corner, so two colours cannot keep them apart, and three can."""
    cell = PATTERNS["hexagon"].cell({"": (24 * INCH, 24 * INCH)}, 0.0, {})
    done = patio(cell=cell, limits=None, colours=("a", "b", "c")[:count])
    assert (done.alike == 0) is apart


def test_one_colour_keeps_nothing_apart() -> None:
    done = patio(colours=("grey",))
    assert {cell.colour for cell in done.cells if cell.what == "cell"} == {"grey"}


@given(st.floats(500, 9000), st.floats(500, 9000), st.floats(400, 1200), st.floats(0, 300))
def test_strips_reach_and_one_fewer_would_not(across: float, along: float, width: float, overlap: float) -> None:
    done = strips(across, along, width=width, length=width + 100, overlap=overlap)
    count = len(done.starts)
    covered = count * width - (count - 1) * overlap
    assert covered >= across - 1e-6 * width
    if count > 1:
        assert covered - (width - overlap) < across
    assert 0 < done.last <= width + 1e-3
    assert done.sheets * (width + 100) - (done.sheets - 1) * overlap >= along - 1e-3
