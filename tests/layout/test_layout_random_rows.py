"""Rows of planks at random: their rules measured on the laid floor, and each length counted and ordered."""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely

from floorwright.cli.report import takeoff_text
from floorwright.export.data_floor import layout_data
from floorwright.geometry.region import Region
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.layout.pieces import pieces_of
from floorwright.layout.random_rows import laid_rows
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.pattern.seeded import planks, setts

LOFT = """
schema = 1
units = "mm"
[survey]
outline = ["SW", "SE", "NE", "NW"]
[survey.distances]
SW-SE = 2600
SE-NE = 1508
NE-NW = 2604
NW-SW = 1511
SW-NE = 3005
[[goods]]
name = "oak"
length = 800
width = 140
box = 6
[[zones]]
goods = "oak"
pattern = "planks"
lengths = [800, 400, 600]
joint = 1
gap = 10
gap_most = 15
"""
LENGTHS = ("400 mm", "600 mm", "800 mm")


@pytest.fixture(scope="module")
def loft() -> Solution:
    loaded = load_text(LOFT)
    assert loaded.job is not None
    return solve(loaded.job, findings=loaded.findings)


def joints(pieces: list[shapely.Polygon], pitch: float, width: float, low: float, high: float) -> list[list[float]]:
    """Where joints lie along the middle of every row: between two pieces, not at a wall."""
    found = []
    for row in range(math.floor(low / pitch), math.ceil(high / pitch)):
        y = row * pitch + width / 2
        line = shapely.LineString([(-1e5, y), (1e5, y)])
        spans = sorted(
            (part.bounds[0], part.bounds[2]) for piece in pieces if (part := shapely.intersection(piece, line)).length
        )
        found.append([(end + start) / 2 for (_, end), (start, _) in pairwise(spans) if start - end < 5.0])
    return found


def nearest(one: list[float], other: list[float]) -> float:
    return min((abs(a - b) for a in one for b in other), default=math.inf)


@pytest.mark.parametrize("seed", range(1, 7))
@pytest.mark.parametrize(("lengths", "stagger"), [((800.0, 400.0, 600.0), 100.0), ((1200.0,), 300.0)])
def test_rules_hold_on_a_floor_of_many_repeats(seed: int, lengths: tuple[float, ...], stagger: float) -> None:
    cell = planks((lengths[0], 140.0), 1.0, lengths=lengths, stagger=stagger, end_least=None, seed=seed)
    region = Region(
        rings=(np.array([[0.0, 0.0], [7000.0, 0.0], [7000.0, 5100.0], [0.0, 5100.0]]),), edges=(("S", "E", "N", "W"),)
    )
    placed = Placement(origin=(0.0, 0.0), angle=0.0)
    pieces = [shapely.Polygon(piece.rings[0]) for piece in pieces_of("z", region, cell, placed)]
    rows = joints(pieces, 141.0, 140.0, 0.0, 5100.0)
    assert len(rows) == 37
    assert min(nearest(a, b) for a, b in pairwise(rows)) >= stagger - 1e-6
    assert min(nearest(a, b) for a, b in zip(rows, rows[2:], strict=False)) >= stagger / 2 - 1e-6
    assert sum(map(len, rows)) > 100


def test_the_law_of_joints_can_fail() -> None:
    rows = [[100.0, 900.0], [150.0, 700.0]]
    assert nearest(*rows) == 50.0


def rows_of(loft: Solution) -> list[list[float]]:
    (layout,) = loft.layouts
    placement = layout.chosen.placement
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    back = np.array([[cos, -sin], [sin, cos]])
    pieces = [shapely.Polygon((piece.rings[0] - placement.origin) @ back) for piece in layout.pieces]
    low, high = shapely.total_bounds(pieces)[[1, 3]]
    return joints(pieces, 141.0, 140.0, low - 70.0, high)


def test_what_is_said_of_a_laid_floor_is_what_lies_there(loft: Solution) -> None:
    (layout,) = loft.layouts
    rows = rows_of(loft)
    laid = laid_rows(layout)
    assert laid is not None
    assert laid.next_row == pytest.approx(min(nearest(a, b) for a, b in pairwise(rows)), abs=1e-6)
    assert laid.two_off == pytest.approx(min(nearest(a, b) for a, b in zip(rows, rows[2:], strict=False)), abs=1e-6)
    # A quarter of the shortest plank, unless the job says otherwise.
    assert laid.next_row >= 100.0 - 1e-6
    assert laid.two_off >= 50.0 - 1e-6
    widest = max(float(np.ptp(piece.rings[0], axis=0).max()) for piece in layout.pieces)
    assert laid.shortest < widest
    (note,) = [one for one in loft.findings if one.code == "layout-rows"]
    assert f"{loft.style.text(laid.shortest, feet=False)} mm" in note.found


def test_ends_shorter_than_is_no_fault_are_told_of() -> None:
    loaded = load_text(LOFT + "end_least = 390\n")
    assert loaded.job is not None
    solution = solve(loaded.job)
    laid = laid_rows(solution.layouts[0])
    assert laid is not None
    (told,) = [one for one in solution.findings if one.code == "layout-short-end"]
    assert told.found.startswith(f"{len(laid.short)} pieces are shorter than 390 mm")
    assert told.source == "yours"


def test_every_length_is_counted_and_ordered(loft: Solution) -> None:
    (layout,), (order,), (cuts,) = loft.layouts, loft.orders, loft.cuts
    assert tuple(one.name for one in layout.cell.goods) == LENGTHS
    counted = {line.what.removeprefix("of these "): line.quantity for line in order.lines if line.code == "kind"}
    assert tuple(counted) == LENGTHS
    assert sum(counted.values()) == order.tiles == len(layout.pieces)
    for name, length in zip(LENGTHS, (400.0, 600.0, 800.0), strict=True):
        own = [piece for piece in layout.pieces if layout.cell.kind(piece.index[2]) == name]
        assert len(own) == counted[name]
        full = [piece for piece in own if piece.full]
        assert all(np.ptp(piece.rings[0], axis=0).max() == pytest.approx(length, abs=12.0) for piece in full)
        assert sum(piece.cut_from == name for piece in cuts.pieces) == len(own) - len(full)


def test_lengths_are_told_once_on_paper_and_in_data(loft: Solution) -> None:
    assert "Of these 600 mm" in takeoff_text(loft)
    data = layout_data(loft)
    assert [one["name"] for one in data["zones"][0]["kinds"]] == list(LENGTHS)


def test_planks_of_one_length_are_of_one_kind() -> None:
    cell: UnitCell = planks((1200.0, 180.0), 1.0, lengths=(), stagger=None, end_least=None, seed=1)
    assert cell.kinds == ()
    assert cell.rows is not None
    assert (cell.rows.stagger, cell.rows.end_least) == (300.0, 180.0)


@pytest.mark.parametrize(("stagger", "own"), [(None, False), (20.0, True)])
def test_the_rules_of_setts_say_whose_they_are(stagger: float | None, own: bool) -> None:
    cell = setts((150.0, 100.0), 5.0, vary=0.2, stagger=stagger, seed=2)
    assert cell.rows is not None
    assert (cell.rows.stagger, cell.rows.stagger_is_own, cell.rows.end_least) == (stagger or 25.0, own, 0.0)
    assert cell.kinds == ()
