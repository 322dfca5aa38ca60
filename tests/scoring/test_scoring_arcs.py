"""Arcs of a pattern: found whole in its outlines, as long as a geometry library draws them, ended where they end."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.scoring.slabs import INCH, PATIO, patio, region

from floorwright.pattern.cell import Placement, UnitCell
from floorwright.pattern.polygons import fish_scale, hexagon
from floorwright.scoring.arcs import arcs_inside, cell_arcs, placed_arcs
from floorwright.scoring.design import Circle
from floorwright.scoring.runs import pattern_edges, repeats
from floorwright.scoring.stops import ARC, Around, stopped
from floorwright.scoring.swings import Swing, rounded_sides

FISH = fish_scale(600.0, 0.0)


def drawn_length(cell: UnitCell, placement: Placement, window: shapely.Polygon) -> float:
    """The outlines of all cells, each length once, as a geometry library lays them on each other."""
    box = np.array(window.bounds).reshape(2, 2)
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    turn = np.array([[cos, sin], [-sin, cos]])
    rings = [
        shapely.LinearRing((piece + shift) @ turn + np.asarray(placement.origin))
        for piece in cell.pieces
        for shift in repeats(cell, placement, box) @ cell.repeat
    ]
    return float(shapely.intersection(shapely.union_all(rings, grid_size=0.01), window).length)


@pytest.mark.parametrize("across", [600.0, 24 * INCH, 300.0, 250.3])
def test_fish_scale_is_half_circles_and_nothing_else(across: float) -> None:
    """Each scale has a round top of half its width; its hollows are the tops of two below."""
    cell = fish_scale(across, 0.0)
    (arc,) = cell_arcs(cell)
    assert arc.radius == pytest.approx(across / 2)
    assert math.degrees(arc.sweep) == pytest.approx(180.0)
    assert math.degrees(arc.start) == pytest.approx(0.0, abs=1e-6)
    assert len(pattern_edges(cell, Placement(origin=(0, 0), angle=0.0), np.array([[0, 0], [2000, 2000]]))) == 0


@settings(deadline=None, max_examples=10)
@given(st.floats(-3, 3), st.floats(-400, 400), st.floats(-400, 400))
def test_arcs_in_a_window_are_as_long_as_they_are_drawn(turn: float, x: float, y: float) -> None:
    placement = Placement(origin=(x, y), angle=turn)
    window = shapely.box(0, 0, 3000, 2000)
    placed = placed_arcs(cell_arcs(FISH), FISH, placement, np.array([[0, 0], [3000, 2000]]))
    # What is dropped is under 6 mm each, at the window's edge; chords are a little shorter than their arcs.
    found = math.fsum(swing.length for swing in arcs_inside(placed, window, ()))
    assert found == pytest.approx(drawn_length(FISH, placement, window), rel=3e-3)


def test_a_polygon_with_corners_has_no_arcs() -> None:
    assert cell_arcs(hexagon(300.0, 0.0, way="point up")) == ()


def test_sides_that_stand_for_three_quarters_of_a_circle() -> None:
    angles = np.linspace(0, 1.5 * math.pi, 41)
    outline = np.concatenate([500 * np.column_stack([np.cos(angles), np.sin(angles)]), [[0.0, 0.0]]])
    ((flags, swing),) = rounded_sides(outline)
    assert int(flags.sum()) == 40
    assert (swing.radius, math.degrees(swing.sweep)) == pytest.approx((500.0, 270.0))
    assert swing.pivot == pytest.approx((0.0, 0.0), abs=1e-6)


def test_arcs_of_a_circle_that_two_cells_share_are_one_wherever_they_start() -> None:
    """A circle of 200 in a square of 600: its outside is drawn by two halves, a little under and over nought."""
    angles = np.linspace(-0.0, 1.0, 33)

    def half(turn: float) -> np.ndarray:
        way = turn + math.pi * angles
        return 200 * np.column_stack([np.cos(way), np.sin(way)]) + 300

    for turn in (0.0, -1e-13, 1e-13, 2.0):
        frame = np.array([[0.0, 0.0], [600, 0], [600, 600], [0, 600]])
        cell = UnitCell(
            name="moons",
            a=np.array([600.0, 0]),
            b=np.array([0, 600.0]),
            pieces=(half(turn), half(turn + math.pi), frame),
            joint=0.0,
            size=(600, 600),
            lines=(),
        )
        (arc,) = cell_arcs(cell)
        assert (arc.radius, arc.sweep) == pytest.approx((200.0, math.tau))


def test_a_plain_circle_takes_what_lies_in_it() -> None:
    """A whole circle of 500 about the origin, and one of 300 that is left plain about a point of it."""
    ring = Swing(pivot=(0.0, 0.0), radius=500.0, start=0.0, sweep=math.tau)
    left = arcs_inside([ring], shapely.box(-900, -900, 900, 900), [Circle(centre=(500.0, 0.0), radius=300.0)])
    # Chord of 300 in a circle of 500: 2 asin(0.3) either side of the point.
    assert math.fsum(one.sweep for one in left) == pytest.approx(math.tau - 4 * math.asin(0.3))


def test_arcs_of_a_slab_end_on_the_row_before_or_at_the_border() -> None:
    done = patio(cell=fish_scale(24 * INCH, 0.0), limits=None)
    assert {line.what for line in done.lines} == {"border"}
    assert [row.number for row in done.arcs] == list(range(1, len(done.arcs) + 1))
    assert {round(row.radius / INCH, 3) for row in done.arcs} == {12.0}
    assert all(row.spacing == pytest.approx(24 * INCH) and not row.has_gaps for row in done.arcs)
    middle = patio(cell=fish_scale(24 * INCH, 0.0), limits=None, discs=(((144, 108), 54),)).arcs[8]
    assert middle.has_gaps
    assert middle.spacing == pytest.approx(24 * INCH)
    # 20 by 16 ft of half circles of 1 ft: each covers its repeat of 2 sq ft, so pi ft for every 2 sq ft, less at edges.
    assert done.round / (12 * INCH) == pytest.approx(math.pi * 320 / 2, rel=0.02)
    assert done.stops == 2 * sum(len(row.swings) for row in done.arcs) + 8


def test_an_arc_is_what_others_stop_at() -> None:
    """Ends of inner arcs are told from those at the border: they meet the crown of the row below."""
    below = [Swing(pivot=(x, 0.0), radius=300.0, start=0.0, sweep=math.pi) for x in (1000.0, 1600.0)]
    above = Swing(pivot=(1300.0, 300.0), radius=300.0, start=0.0, sweep=math.pi)
    slab = region(PATIO)
    whole = shapely.Polygon(slab.rings[0])
    _, stops = stopped((), Around(slab=slab, scored=whole, circles=(), swings=[*below, above]))
    assert [stop.on for stop in stops[2]] == [ARC, ARC]


@pytest.mark.parametrize("turn", [0.0, math.pi / 2, math.pi, 0.7])
def test_each_row_ends_on_rows_before_it(turn: float) -> None:
    """Whichever way the scales point: what an arc ends on is cut before it."""
    done = patio(cell=fish_scale(24 * INCH, 0.0), limits=None, angle=turn)
    of_row = [(row.number, swing) for row in done.arcs for swing in row.swings]
    pivots = np.array([swing.pivot for _, swing in of_row])
    numbers = np.array([number for number, _ in of_row])
    met = 0
    for number, swing in of_row:
        for end in swing.ends:
            away = np.hypot(*(pivots - end).T)
            on = np.abs(away - swing.radius) < 0.1
            # Not its own, and not the neighbour's of its row, which ends in the same point.
            others = numbers[on & (numbers != number)]
            along = [
                0.1
                < (math.atan2(end[1] - arc.pivot[1], end[0] - arc.pivot[0]) - arc.start) % math.tau
                < arc.sweep - 0.1
                for (_, arc), is_on in zip(of_row, on & (numbers != number), strict=True)
                if is_on
            ]
            met += sum(along)
            assert all(before < number for before, is_along in zip(others, along, strict=True) if is_along)
    assert met > len(of_row)
