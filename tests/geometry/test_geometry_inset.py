"""Insets: hand cases with names, and the same shape as shapely's mitred buffer on random rooms."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.inset import _moved, _strips, _widths, inset, inset_parts
from floorwright.geometry.measure import area, is_simple
from floorwright.geometry.region import Points, Region
from floorwright.geometry.subtract import subtract
from floorwright.tolerance import RANK_STEP

MITRE = 1e6


def region(*rings: list[tuple[float, float]], names: tuple[tuple[str, ...], ...] | None = None) -> Region:
    arrays = tuple(np.array(ring, dtype=np.float64) for ring in rings)
    edges = names or tuple(tuple(f"{i}.{j}" for j in range(len(ring))) for i, ring in enumerate(rings))
    return Region(rings=arrays, edges=edges)


def polygon(of: Region) -> shapely.Polygon:
    return shapely.Polygon(of.rings[0], of.rings[1:])


def room(points: Points) -> Region:
    return Region(rings=(points,), edges=(tuple(f"wall {i}" for i in range(len(points))),))


KITCHEN = [(0.0, 0.0), (4200.0, 0.0), (4211.7, 3611.9), (-22.5, 3588.0)]


def test_each_wall_moves_by_its_own_gap() -> None:
    floor = inset(region(KITCHEN, names=(("S", "E", "N", "W"),)), {"S": 5, "E": 0, "N": 8, "W": 12.5})
    assert floor.edges == (("S", "E", "N", "W"),)
    whole = np.array(KITCHEN)
    for i, gap in enumerate((5, 0, 8, 12.5)):
        a, b = whole[i], whole[(i + 1) % 4]
        along = (b - a) / np.hypot(*(b - a))
        for point in (floor.rings[0][i], floor.rings[0][(i + 1) % 4]):
            assert along[0] * (point - a)[1] - along[1] * (point - a)[0] == pytest.approx(gap, abs=1e-9)


def test_gap_runs_round_a_column() -> None:
    column = [(1000.0, 1000.0), (1000.0, 1300.0), (1300.0, 1300.0), (1300.0, 1000.0)]
    floor = inset(region(KITCHEN, column, names=(("S", "E", "N", "W"), ("column",) * 4)), 5.0)
    assert floor.rings[1].tolist() == [[995, 995], [995, 1305], [1305, 1305], [1305, 995]]
    assert floor.edges[1] == ("column",) * 4
    assert area(floor.rings[1]) < 0


def test_column_near_a_wall_joins_the_outline() -> None:
    column = [(1000.0, 8.0), (1000.0, 300.0), (1300.0, 300.0), (1300.0, 8.0)]
    floor = inset(region(KITCHEN, column, names=(("S", "E", "N", "W"), ("column",) * 4)), 5.0)
    assert len(floor.rings) == 1
    assert floor.edges[0].count("column") == 3
    assert floor.edges[0].count("S") == 2
    expected = shapely.Polygon(KITCHEN, [column]).buffer(-5, join_style="mitre", mitre_limit=MITRE)
    assert polygon(floor).symmetric_difference(expected).area < 1e-3


def test_an_edge_that_vanishes_is_dropped() -> None:
    clipped = [(0.0, 0.0), (100.0, 0.0), (100.0, 96.0), (96.0, 100.0), (0.0, 100.0)]
    floor = inset(region(clipped, names=(("S", "E", "cut", "N", "W"),)), 10.0)
    assert sorted(floor.edges[0]) == ["E", "N", "S", "W"]
    assert polygon(floor).equals_exact(shapely.box(10, 10, 90, 90), 1e-9) or polygon(floor).symmetric_difference(
        shapely.box(10, 10, 90, 90)
    ).area == pytest.approx(0, abs=1e-9)


def test_walls_that_run_straight_on_meet_in_a_step() -> None:
    wall = [(0.0, 0.0), (50.0, 0.0), (100.0, 0.0), (100.0, 80.0), (0.0, 80.0)]
    floor = inset(region(wall, names=(("S1", "S2", "E", "N", "W"),)), {"S1": 5, "S2": 8, "E": 5, "N": 5, "W": 5})
    assert floor.rings[0].tolist() == [[5, 5], [50, 5], [50, 8], [95, 8], [95, 75], [5, 75]]
    assert floor.edges[0] == ("S1", "S2", "S2", "E", "N", "W")
    same = inset(region(wall, names=(("S1", "S2", "E", "N", "W"),)), 5.0)
    assert same.rings[0].tolist() == [[5, 5], [50, 5], [95, 5], [95, 75], [5, 75]]


def test_nothing_left_and_two_left_are_refused_by_name() -> None:
    with pytest.raises(FloorwrightValueError, match="nothing"):
        inset(region(KITCHEN), 2500.0)
    lower = [(0.0, 0.0), (100.0, 0.0), (100.0, 45.0), (200.0, 45.0), (200.0, 0.0), (300.0, 0.0)]
    dumbbell = region(lower + [(x, 100.0 - y) for x, y in reversed(lower)])
    with pytest.raises(FloorwrightValueError, match="2 parts"):
        inset(dumbbell, 6.0)
    left, right = inset_parts(dumbbell, 6.0)
    assert polygon(left).area == pytest.approx(88 * 88)
    assert polygon(right).area == pytest.approx(88 * 88)


def test_missing_and_negative_gaps_are_refused() -> None:
    with pytest.raises(FloorwrightValueError, match=r"no gap for 0\.3"):
        inset(region(KITCHEN), {"0.0": 1, "0.1": 1, "0.2": 1})
    with pytest.raises(FloorwrightValueError, match="zero or more"):
        inset(region(KITCHEN), -1.0)


@st.composite
def rectilinear(draw: st.DrawFn) -> Points:
    """A room of right angles: a staircase up and a staircase down over random steps."""
    widths = draw(st.lists(st.integers(30, 2000), min_size=1, max_size=5))
    tops = draw(st.lists(st.integers(100, 3000), min_size=len(widths), max_size=len(widths)))
    x, points = 0.0, [(0.0, 0.0)]
    points.append((float(sum(widths)), 0.0))
    x = points[-1][0]
    for width, top in zip(reversed(widths), reversed(tops), strict=True):
        points += [(x, float(top)), (x - width, float(top))]
        x -= width
    kept = [p for i, p in enumerate(points) if p != points[i - 1]]
    return np.array(kept)


@st.composite
def star(draw: st.DrawFn) -> Points:
    """A room that can all be seen from its middle."""
    count = draw(st.integers(3, 9))
    radii = draw(st.lists(st.floats(300, 3000), min_size=count, max_size=count))
    wobble = draw(st.lists(st.floats(-0.3, 0.3), min_size=count, max_size=count))
    angles = 2 * np.pi * (np.arange(count) + np.array(wobble)) / count
    return np.column_stack([np.array(radii) * np.cos(angles), np.array(radii) * np.sin(angles)])


@given(st.one_of(rectilinear(), star()), st.one_of(st.just(0.0), st.floats(0.5, 200.0)))
def test_one_gap_equals_the_mitred_buffer(points: Points, gap: float) -> None:
    if not is_simple(points):
        return
    parts = inset_parts(room(points), gap)
    expected = shapely.Polygon(points).buffer(-gap, join_style="mitre", mitre_limit=MITRE)
    kept = [part for part in shapely.get_parts(expected) if part.area > 1.0]
    assert len(parts) == len(kept)
    ours = shapely.union_all([polygon(part) for part in parts])
    assert ours.symmetric_difference(shapely.union_all(kept)).area <= 1e-6 * shapely.Polygon(points).area + 0.1


@given(st.one_of(rectilinear(), star()), st.lists(st.floats(0.0, 60.0), min_size=12, max_size=12))
def test_no_floor_in_front_of_a_wall_is_nearer_than_its_gap(points: Points, gaps: list[float]) -> None:
    if not is_simple(points):
        return
    whole = room(points)
    by_name = {name: gaps[i % len(gaps)] for i, name in enumerate(whole.edges[0])}
    ends = np.roll(points, -1, axis=0)
    for part in inset_parts(whole, by_name):
        assert is_simple(part.rings[0])
        assert area(part.rings[0]) > 0
        assert set(part.edges[0]) <= set(by_name)
        for a, b, name in zip(points, ends, whole.edges[0], strict=True):
            along = (b - a) / np.hypot(*(b - a))
            normal = np.array([-along[1], along[0]])
            gap = by_name[name] - 1e-6
            strip = shapely.Polygon([a, b, b + gap * normal, a + gap * normal])
            assert gap <= 0 or polygon(part).intersection(strip).area < 1e-3


@given(star(), st.lists(st.floats(0.0, 40.0), min_size=12, max_size=12))
def test_both_ways_of_moving_edges_agree_on_any_gaps(points: Points, gaps: list[float]) -> None:
    whole = room(points)
    widths = [np.array(gaps[: len(points)])]
    direct = _moved(whole, widths)
    if direct is None:
        return
    (cut,) = subtract(whole, _strips(whole, widths))
    # How far apart the outlines are, not the area between them: GEOS 3.14 takes two equal triangles for strangers.
    assert polygon(direct).boundary.hausdorff_distance(polygon(cut).boundary) <= RANK_STEP


def test_both_ways_of_moving_edges_agree() -> None:
    ell = region([(0.0, 0.0), (4000.0, 30.0), (3970.0, 2000.0), (2100.0, 2010.0), (2000.0, 5000.0), (0.0, 5040.0)])
    gaps = {"0.0": 5.0, "0.1": 9.0, "0.2": 3.0, "0.3": 12.0, "0.4": 0.0, "0.5": 6.0}
    direct = inset(ell, gaps)
    (cut,) = subtract(ell, _strips(ell, [_widths(ell.edges[0], gaps)]))
    assert polygon(direct).symmetric_difference(polygon(cut)).area < 1e-6
    assert sorted(cut.edges[0]) == sorted(direct.edges[0])


def test_a_thin_wedge_beside_a_wide_gap_is_taken_too() -> None:
    """A case that random rooms brought up: the union of all strips at once lost the wedge out to the mitre."""
    turns = np.radians([0, 40, 80, 120, 160, 200, 240, 290, 320])
    whole = room(300.0 * np.column_stack([np.cos(turns), np.sin(turns)]))
    widths = [np.array([0.0625, 1.0, 1.0, 1.0, 1.0, 1.0, 0.0, 1.0, 6.0])]
    direct = _moved(whole, widths)
    assert direct is not None
    (cut,) = subtract(whole, _strips(whole, widths))
    assert polygon(direct).symmetric_difference(polygon(cut)).area < 1e-3
