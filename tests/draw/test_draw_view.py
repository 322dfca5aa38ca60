"""The view is the only bridge from floor to paper."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.draw.view import View

SPOTS = st.tuples(st.floats(-1e4, 1e4), st.floats(-1e4, 1e4))


def a_view(turn: int = 0, scale: float = 20, check_bar: bool = True) -> View:
    window = (-100, 200, 3100, 4200)
    return View(name="v", described="d", scale=scale, window=window, items=(), turn=turn, check_bar=check_bar)


@pytest.mark.parametrize(
    ("turn", "size", "corner"),
    [(0, (160, 200), (0, 0)), (1, (200, 160), (200, 0)), (2, (160, 200), (160, 200)), (3, (200, 160), (0, 160))],
)
def test_window_fills_the_paper(turn: int, size: tuple[float, float], corner: tuple[float, float]) -> None:
    """The window's lower left corner goes where a floor turned anticlockwise puts it."""
    view = a_view(turn)
    assert (view.width, view.height) == size
    assert view.on_paper((-100, 200)) == pytest.approx(corner)
    opposite = (size[0] - corner[0], size[1] - corner[1])
    assert view.on_paper((3100, 4200)) == pytest.approx(opposite)


@given(SPOTS, st.integers(-4, 8), st.sampled_from([1, 12, 20, 48]))
def test_there_and_back(point: tuple[float, float], turn: int, scale: float) -> None:
    view = a_view(turn, scale)
    assert view.on_floor(view.on_paper(point)) == pytest.approx(point, abs=1e-6)


def test_check_bar_adds_to_the_picture() -> None:
    assert a_view().picture_size() == (160, 210)
    assert a_view(check_bar=False).picture_size() == (160, 200)
    # The bar is whole under a view that is narrower.
    assert a_view(scale=200).picture_size() == (101, 30)
    assert a_view(scale=200).picture_size(imperial=True) == pytest.approx((102.6, 30))
