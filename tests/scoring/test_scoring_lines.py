"""Lines of a scored slab: nothing twice, nothing left out, stops where they belong, and turned slabs alike."""

import math
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.scoring.slabs import INCH, design, patio

from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.pattern.rows import brick_bond, grid
from floorwright.scoring.lines import ScoreLine
from floorwright.scoring.runs import Run, merged, pattern_edges

FOOT = 12 * INCH
CELLS = {
    "grid": grid((300, 300), 0.0),
    "half bond": brick_bond((400, 200), 0.0, Fraction(1, 2)),
    **{
        name: PATTERNS[name].cell({kind.name: size for kind in PATTERNS[name].kinds}, 0.0, {})
        for name, size in (
            ("herringbone", (400, 200)),
            ("hexagon", (300, 300)),
            ("basketweave", (400, 200)),
            ("rhombus", (300, 300)),
            ("triangle", (400, 400)),
            ("chevron", (500, 150)),
        )
    },
}


def lengths(runs: tuple[Run, ...]) -> float:
    return math.fsum(run.length for run in runs)


@pytest.mark.parametrize("name", CELLS)
def test_runs_are_the_edges_each_once(name: str) -> None:
    """Laid on each other by a geometry library, the edges are as long as the runs are together."""
    edges = pattern_edges(CELLS[name], Placement(origin=(37.0, -12.0), angle=0.3), np.array([[0, 0], [2000, 1500]]))
    runs = merged(edges)
    once = shapely.set_precision(shapely.union_all(shapely.linestrings(edges), grid_size=0.01), 0.01)
    assert lengths(runs) == pytest.approx(once.length, rel=2e-4)


@pytest.mark.parametrize("name", CELLS)
def test_inside_every_edge_is_shared_by_two_cells(name: str) -> None:
    """In a repeat each side of a piece is a side of its neighbour: a repeat's lines are half its pieces' outlines."""
    cell: UnitCell = CELLS[name]
    outlines = sum(float(np.hypot(*(np.roll(piece, -1, axis=0) - piece).T).sum()) for piece in cell.pieces)
    repeat = abs(float(np.linalg.det(cell.repeat)))
    box = np.array([[-2967.0, -2931.0], [3011.0, 3047.0]])
    window = shapely.box(*box.ravel())
    runs = merged(pattern_edges(cell, Placement(origin=(0.0, 0.0), angle=0.0), box))
    drawn = shapely.intersection(shapely.linestrings([run.ends for run in runs]), window)
    assert float(shapely.length(drawn).sum()) == pytest.approx(outlines / 2 / repeat * window.area, rel=0.03)


@pytest.mark.parametrize("name", CELLS)
def test_no_two_runs_touch_on_one_line(name: str) -> None:
    runs = merged(pattern_edges(CELLS[name], Placement(origin=(5.0, 9.0), angle=0.7), np.array([[0, 0], [1500, 1500]])))
    for before, after in pairwise(runs):
        if abs(before.angle - after.angle) < 1e-6 and abs(before.off - after.off) < 0.01:
            assert after.start > before.end


def test_the_grid_of_a_patio_in_feet() -> None:
    """24 x 18 ft, 2 ft squares, borders 2 ft and 1 ft: 11 lines of 16 ft, two there; 9 of 20 ft, one there."""
    done = patio()
    columns, rows = ([line for line in done.lines if line.name.startswith(letter)] for letter in "CR")
    assert [line.there + line.to_cut for line in columns] == pytest.approx([16 * FOOT] * 11)
    assert [line.there + line.to_cut for line in rows] == pytest.approx([20 * FOOT] * 9)
    assert [line.name for line in done.lines if line.kind == "joint"] == ["R5", "C4", "C8"]
    assert done.straight == pytest.approx(304 * FOOT)
    assert done.missed == ()
    assert done.rest == (0.0, 0.0)


def test_no_stretch_is_cut_twice_and_none_on_a_joint() -> None:
    done = patio(discs=(((144, 108), 54),))
    cuts = [shapely.LineString([part.start, part.end]) for line in done.lines for part in line.parts if not part.there]
    whole = shapely.union_all(cuts, grid_size=0.001)
    assert whole.length == pytest.approx(sum(cut.length for cut in cuts), abs=0.1)
    joints = shapely.union_all([shapely.LineString(joint.ends) for joint in done.joints])
    assert shapely.intersection(whole, joints.buffer(1.0)).length < 40 * 2.1  # only where they cross


@settings(deadline=None, max_examples=8)
@given(st.floats(-math.pi, math.pi), st.floats(-5e4, 5e4), st.floats(-5e4, 5e4))
def test_a_turned_slab_has_its_lines_turned(turn: float, x: float, y: float) -> None:
    here, there = patio(discs=(((144, 108), 54),)), patio(turn, (x, y), discs=(((144, 108), 54),))

    def told(line: ScoreLine) -> tuple[object, ...]:
        return line.name, line.kind, [stop.on for stop in line.stops]

    assert [told(line) for line in there.lines] == [told(line) for line in here.lines]
    figures = [[line.running, line.to_cut, line.there, line.lost] for line in here.lines]
    assert np.array([[line.running, line.to_cut, line.there, line.lost] for line in there.lines]) == pytest.approx(
        np.array(figures), abs=0.01
    )
    assert [one.half for one in there.crossings] == pytest.approx([one.half for one in here.crossings], abs=0.01)


def test_lines_stop_at_the_border_and_the_border_in_its_corners() -> None:
    done = {line.name: line for line in patio().lines}
    assert [stop.on for stop in done["C3"].stops] == ["R1", "R9"]
    assert [stop.on for stop in done["R1"].stops] == ["C1", "C11"]
    assert done["C4"].stops == ()


def test_without_a_border_lines_run_off_the_slab_and_need_no_stop() -> None:
    done = patio(ends=0.0, sides=0.0)
    assert done.stops == 0
    assert all(line.what == "pattern" for line in done.lines)
    assert {line.name[0] for line in done.lines} == {"R", "C"}
    # Squares of 2 ft: 11 lines across 18 ft and 8 along 24, none along an edge. Joints at 8 and 16 ft lie on lines; the
    # one at 9 ft does not.
    assert [len([line for line in done.lines if line.name[0] == letter]) for letter in "CR"] == [11, 8]
    assert [(one.joint, round(one.off / INCH)) for one in done.missed if one.off is not None] == [("2", 12)]


def test_a_line_a_hair_beside_a_joint_is_the_joint() -> None:
    """3 mm off, the two would leave a sliver: within 6 mm a line takes the joint for its own."""
    narrow = patio(cell=grid((24 * INCH + 0.4, 24 * INCH), 0.0), limits=None)
    assert {joint for line in narrow.lines for joint in line.joints} == {"0", "1", "2"}


def test_the_order_cuts_first_what_others_stop_at() -> None:
    order = [line.name for line in patio().cut_in_order]
    assert order[:4] == ["R1", "R9", "C1", "C11"]
    assert len(order) == 17


def test_a_diagonal_pattern_has_letters_of_its_own() -> None:
    done = patio(angle=math.pi / 4)
    letters = {line.name[0] for line in done.lines if line.what == "pattern"}
    assert letters == {"D", "E"}
    assert {line.name for line in done.lines if line.what == "border"} == {"R1", "R2", "C1", "C2"}


def test_bond_stops_at_its_courses() -> None:
    """Perps stop at the course lines that run through."""
    done = patio(cell=brick_bond((48 * INCH, 24 * INCH), 0.0, Fraction(1, 2)), limits=None)
    perp = next(line for line in done.lines if line.name == "C3")
    assert len(perp.parts) > 1
    assert all(stop.on.startswith("R") for stop in perp.stops)


def test_borders_that_leave_nothing_leave_no_lines() -> None:
    done = patio(ends=150 * INCH)
    assert done.field is None
    assert done.lines == ()
    assert design().ends == 24 * INCH
