"""Scales fit the paper, and the paper's space is what a view may take."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.draw import paper
from floorwright.draw.scale import IMPERIAL_SCALES, METRIC_SCALES, fit_scale, scale_text
from floorwright.draw.view import CHECK_BAR
from floorwright.errors import FloorwrightValueError


@pytest.mark.parametrize(
    ("extent", "imperial", "scale"),
    [
        ((3200, 4000), False, 20),
        ((3560, 4000), False, 20),
        ((3561, 4000), False, 25),
        ((100, 100), False, 1),
        ((12000, 8000), False, 100),
        ((10 * 304.8, 12 * 304.8), True, 24),
        ((20 * 304.8, 16 * 304.8), True, 48),
        ((0, 50), False, 1),
    ],
)
def test_largest_scale_that_fits(extent: tuple[float, float], imperial: bool, scale: float) -> None:
    assert fit_scale(extent, (178, 230), imperial) == scale


@given(st.floats(1, 30000), st.floats(1, 40000), st.booleans())
def test_next_larger_scale_would_not_fit(along: float, up: float, imperial: bool) -> None:
    scales = IMPERIAL_SCALES if imperial else METRIC_SCALES
    scale = fit_scale((along, up), (178, 230), imperial)
    assert along / scale <= 178
    assert up / scale <= 230
    larger = scales[max(0, scales.index(int(scale)) - 1)]
    assert larger == scale or along / larger > 178 or up / larger > 230


@pytest.mark.parametrize("extent", [(0, 0), (-1, 5), (float("nan"), 5), (1e6, 10), (float("inf"), 1)])
def test_no_scale(extent: tuple[float, float]) -> None:
    with pytest.raises(FloorwrightValueError):
        fit_scale(extent, (178, 230))


def test_scale_as_printed() -> None:
    assert scale_text(20) == "1:20"
    assert scale_text(48, imperial=True) == "¹⁄₄″ = 1′-0″"
    assert scale_text(1, imperial=True) == "1:1"
    assert [
        scale_text(scale, imperial=True)
        for scale in IMPERIAL_SCALES
        if scale > 1 and "″" not in scale_text(scale, imperial=True)
    ] == []


def test_papers() -> None:
    assert paper.paper_size("A4") == (210, 297)
    assert paper.paper_size("Letter", landscape=True) == (279.4, 215.9)
    with pytest.raises(FloorwrightValueError, match="A4, Letter"):
        paper.paper_size("A5")


def test_page_space_leaves_room_for_title_bar_and_columns() -> None:
    width, height = paper.page_space("A4")
    assert width == 178
    assert paper.page_space("A4", title="Short")[1] > height
    assert height < 297 - paper.TOP - paper.FOOT - CHECK_BAR
    left, _ = paper.page_space("A4", share=0.6)
    right, _ = paper.page_space("A4", share=0.4)
    assert left + paper.GUTTER + right == pytest.approx(width)
