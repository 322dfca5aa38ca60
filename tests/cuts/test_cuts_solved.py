"""Cut lists of real layouts, against what the layout says of its walls."""

import doctest
from importlib.resources import files

import numpy as np
import pytest
import shapely

from floorwright.cuts.frame import tile_of
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.takeoff import count


@pytest.fixture(scope="module", params=["larch-row-kitchen", "plot-7-bath"])
def solution(request: pytest.FixtureRequest) -> Solution:
    text = files("floorwright.examples").joinpath(f"{request.param}.toml").read_text(encoding="utf-8")
    loaded = load_text(text)
    assert loaded.job is not None
    return solve(loaded.job)


def test_straight_cuts_lie_between_the_ends_that_the_layout_gives_their_wall(solution: Solution) -> None:
    layout = solution.layouts[0]
    walls = {wall.wall: wall for wall in layout.chosen.walls}
    seen = set()
    for piece in solution.cuts[0].pieces:
        if piece.kind != "straight":
            continue
        (name,) = piece.walls
        seen.add(name)
        assert walls[name].thin - 1e-6 <= piece.thin <= piece.fat <= walls[name].fat + 1e-6
    assert len(seen) >= 3


def test_outlines_in_the_tiles_frame_have_the_pieces_areas(solution: Solution) -> None:
    layout = solution.layouts[0]
    areas = {piece.id: piece.area for piece in layout.pieces}
    tile = shapely.Polygon(tile_of(layout.cell, 0).outline)
    for piece in solution.cuts[0].pieces:
        shape = shapely.Polygon(piece.outline[0], piece.outline[1:])
        assert shape.area == pytest.approx(areas[piece.id], abs=1e-3)
        assert shapely.covers(shapely.buffer(tile, 1e-3), shape)


def test_sawing_is_the_sum_of_the_lines_and_each_is_as_long_as_it_is_drawn(solution: Solution) -> None:
    cuts = solution.cuts[0]
    total = 0.0
    for piece in cuts.pieces:
        for saw in piece.saws:
            assert saw.length == pytest.approx(float(np.hypot(*np.subtract(saw.end, saw.start))))
            total += saw.length
    assert cuts.sawn == pytest.approx(total)
    assert cuts.tiles == len(cuts.pieces)


def test_plot_7_needs_88_tiles_with_six_different_cuts() -> None:
    # Scenario S1: 54 full and 34 cut; strips of 7 1/2 and 7 1/16 inches, and the four corners, which differ by hand
    text = files("floorwright.examples").joinpath("plot-7-bath.toml").read_text(encoding="utf-8")
    loaded = load_text(text)
    assert loaded.job is not None
    solved = solve(loaded.job)
    (order,) = solved.orders
    assert (order.full, order.cut, order.tiles) == (54, 34, 88)
    pieces = solved.cuts[0].pieces
    assert len({piece.same_as for piece in pieces}) == 6
    thin = {solved.style.text(piece.thin, feet=False) for piece in pieces if piece.kind == "straight"}
    assert thin == {'7 1/2"', '7 1/16"'}


def test_the_examples_in_the_docstrings_hold() -> None:
    results = doctest.testmod(count)
    assert results.attempted > 0
    assert results.failed == 0
