"""One table, many laws: every pattern of the catalogue with goods that close, held against what every floor keeps."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.pattern.samples import JOINT, SAMPLES, Sample

from floorwright.geometry.arc import Arc, bulged_area
from floorwright.geometry.region import Points, Region
from floorwright.geometry.restore import Outline
from floorwright.layout.clip import clip
from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.cell import Placement, UnitCell

CURVED = {"fish scale": 0.45}
"""Patterns of curves: how far their chords let a joint stray, mm (two chords of 0.2, and rounding)."""

FIRST_OF_EACH = [next(sample for sample in SAMPLES if sample.pattern == name) for name in PATTERNS]


def around(cell: UnitCell, reach: float = 12.0) -> tuple[list[shapely.Polygon], list[shapely.Polygon]]:
    """The pieces of one repeat, and all others that lie within reach of one of them."""
    own = [shapely.Polygon(ring) for ring in cell.pieces]
    box = shapely.box(*shapely.total_bounds(own)).buffer(reach)
    corners = np.array(box.exterior.coords) @ np.linalg.inv(cell.repeat)
    low, high = np.floor(corners.min(axis=0)).astype(int) - 3, np.ceil(corners.max(axis=0)).astype(int) + 3
    others = [
        shapely.Polygon(ring + i * cell.a + j * cell.b)
        for ring in cell.pieces
        for i in range(low[0], high[0] + 1)
        for j in range(low[1], high[1] + 1)
        if (i, j) != (0, 0)
    ]
    return own, [other for other in others if other.intersects(box)]


def test_the_table_leaves_no_pattern_out() -> None:
    assert {sample.pattern for sample in SAMPLES} == set(PATTERNS)


@pytest.mark.parametrize("sample", SAMPLES, ids=str)
class TestEveryPattern:
    def test_area_is_kept(self, sample: Sample) -> None:
        cell = sample.cell()
        # A piece grown by half a joint is its module; the modules fill the repeat.
        modules = sum(
            shapely.Polygon(ring).buffer(JOINT / 2, join_style="mitre", mitre_limit=20).area for ring in cell.pieces
        )
        slack = 0.005 if sample.pattern in CURVED else 1e-9
        assert modules == pytest.approx(abs(np.linalg.det(cell.repeat)), rel=slack)

    def test_pieces_are_simple_anticlockwise_and_never_overlap(self, sample: Sample) -> None:
        own, others = around(sample.cell())
        assert all(piece.is_valid and piece.exterior.is_ccw for piece in own)
        tree = shapely.STRtree([*own, *others])
        pairs = tree.query([*own], predicate="intersects")
        assert all(one == other for one, other in pairs.T.tolist())

    def test_every_joint_is_at_width_as_measured(self, sample: Sample) -> None:
        own, others = around(sample.cell())
        slack = CURVED.get(sample.pattern, 1e-6)
        for number, piece in enumerate(own):
            rest = shapely.union_all([*own[:number], *own[number + 1 :], *others])
            assert piece.distance(rest) == pytest.approx(JOINT, abs=slack)
            corners = np.array(piece.exterior.coords)
            for start, end in pairwise(corners):
                places = start + np.linspace(0.02, 0.98, 25)[:, None] * (end - start)
                widths = shapely.distance(shapely.points(places), rest)
                # Against the mouth of another joint, half a joint off both its corners: that much more.
                most = JOINT * math.hypot(1.0, 0.5) + slack
                # Where a curve runs out in a tip, the joint does not end at once.
                if sample.pattern in CURVED:
                    assert np.median(widths) <= most + 2.0
                else:
                    assert widths.max() <= most
                assert widths.min() >= JOINT - slack

    def test_lines_through_meet_no_piece(self, sample: Sample) -> None:
        cell = sample.cell()
        for family in cell.lines:
            normal = np.array([-math.sin(family.angle), math.cos(family.angle)])
            assert family.spacing > 0
            if family.through:
                for ring in cell.pieces:
                    along = (ring @ normal - family.offset) / family.spacing
                    assert math.floor(along.min() + 1e-9) + 1 >= along.max() - 1e-9

    def test_lines_repeat_with_the_pattern(self, sample: Sample) -> None:
        cell = sample.cell()
        for family in cell.lines:
            normal = np.array([-math.sin(family.angle), math.cos(family.angle)])
            steps = cell.repeat @ normal / family.spacing
            assert steps == pytest.approx(np.round(steps), abs=1e-9), family.name

    def test_kinds_are_those_of_the_entry(self, sample: Sample) -> None:
        cell, pattern = sample.cell(), PATTERNS[sample.pattern]
        assert len(cell.kinds) in (0, len(cell.pieces))
        lengths = {f"length {n + 1}" for n in range(len(sample.values.get("lengths", ())))}
        assert {sized.name for sized in cell.sizes} <= {kind.name for kind in pattern.kinds} | lengths
        if len(pattern.kinds) > 1 and pattern.kinds[1].own:
            assert [sized.name for sized in cell.goods] == [kind.name for kind in pattern.kinds]


ROOM = Region(
    rings=(
        np.array([(0.0, 0.0), (2405.0, 10.0), (2400.0, 1800.0), (1300.0, 1811.0), (1290.0, 1300.0), (0.0, 1290.0)]),
        np.array([(700.0, 500.0), (690.0, 760.0), (960.0, 770.0), (980.0, 510.0)]),
    ),
    edges=(("S", "E", "N", "n", "m", "W"), ("a", "b", "c", "d")),
)
AT = Placement(origin=(417.0, 233.0), angle=0.3)


def counted(region: Region, cell: UnitCell, placement: Placement) -> tuple[int, int, list[float]]:
    found = clip(region, cell, placement)
    return found.runs.count, len(found.index), sorted(found.area.tolist())


def turned(points: Points, angle: float) -> Points:
    cos, sin = math.cos(angle), math.sin(angle)
    return np.asarray(points @ np.array([[cos, sin], [-sin, cos]]))


@pytest.mark.parametrize("sample", FIRST_OF_EACH, ids=str)
class TestOnAFloor:
    def test_a_turned_plan_turns_the_layout(self, sample: Sample) -> None:
        cell, angle = sample.cell(), 1.1
        region = replace(ROOM, rings=tuple(turned(ring, angle) for ring in ROOM.rings))
        x, y = turned(np.array(AT.origin), angle).tolist()
        full, cut, areas = counted(ROOM, cell, AT)
        other = counted(region, cell, Placement(origin=(x, y), angle=AT.angle + angle))
        assert (full, cut) == other[:2]
        assert areas == pytest.approx(other[2], abs=1e-3)

    def test_a_mirrored_plan_has_the_same_counts(self, sample: Sample) -> None:
        cell = sample.cell()
        flip = np.array([-1.0, 1.0])
        region = replace(ROOM, rings=tuple(ring[::-1] * flip for ring in ROOM.rings))
        mirrored = replace(
            cell, a=cell.a * flip, b=cell.b * flip, pieces=tuple(ring[::-1] * flip for ring in cell.pieces)
        )
        full, cut, areas = counted(ROOM, cell, AT)
        other = counted(region, mirrored, Placement(origin=(-AT.origin[0], AT.origin[1]), angle=-AT.angle))
        assert (full, cut) == other[:2]
        assert areas == pytest.approx(other[2], abs=1e-3)

    def test_pieces_and_joints_are_the_floor(self, sample: Sample) -> None:
        # Without a joint, pieces alone: fish scale leaves what its chords leave.
        cell = replace_joint(sample)
        floor = shapely.Polygon(ROOM.rings[0], [ROOM.rings[1]])
        found = clip(ROOM, cell, AT)
        whole = sum(shapely.Polygon(cell.pieces[k]).area for k in found.full[:, 2].tolist())
        slack = 0.01 if sample.pattern in CURVED else 1e-6
        assert whole + found.area.sum() == pytest.approx(floor.area, rel=slack)


def replace_joint(sample: Sample) -> UnitCell:
    """The same modules laid without a joint, from goods that are larger by one."""
    cell = sample.cell()
    grown = []
    for ring in cell.pieces:
        shape = shapely.Polygon(ring).buffer(JOINT / 2, join_style="mitre", mitre_limit=20)
        grown.append(np.array(shapely.orient_polygons(shape).exterior.coords)[:-1])
    return replace(cell, pieces=tuple(grown), joint=0.0)


@given(
    length=st.floats(40.0, 1200.0),
    share=st.floats(0.08, 1.0),
    joint=st.floats(0.5, 12.0),
    name=st.sampled_from(["grid", "brick bond", "herringbone", "hexagon", "triangle", "rhombus", "pinwheel"]),
)
def test_patterns_that_always_close_do(length: float, share: float, joint: float, name: str) -> None:
    width = max(length * share, 10.0)
    sizes = {"": (length, width)}
    if name == "pinwheel":
        sizes = {"large": (length, length), "small": (width, width)}
    cell = PATTERNS[name].cell(sizes, joint, {})
    modules = sum(shapely.Polygon(ring).buffer(joint / 2, join_style="mitre").area for ring in cell.pieces)
    assert modules == pytest.approx(abs(np.linalg.det(cell.repeat)), rel=1e-9)
    own, others = around(cell)
    for number, piece in enumerate(own):
        rest = shapely.union_all([*own[:number], *own[number + 1 :], *others])
        assert piece.distance(rest) == pytest.approx(joint, abs=1e-6)


@settings(max_examples=25)
@given(width=st.floats(20.0, 400.0), joint=st.floats(0.1, 10.0), abreast=st.integers(2, 6))
def test_basketweave_closes_where_its_formula_says(width: float, joint: float, abreast: int) -> None:
    # T-76: L = k W + (k - 1) J.
    length = abreast * width + (abreast - 1) * joint
    cell = PATTERNS["basketweave"].cell({"": (length, width)}, joint, {"abreast": abreast})
    own, others = around(cell)
    for number, piece in enumerate(own):
        rest = shapely.union_all([*own[:number], *own[number + 1 :], *others])
        assert piece.distance(rest) == pytest.approx(joint, abs=1e-6)
    modules = sum(shapely.Polygon(ring).buffer(joint / 2, join_style="mitre").area for ring in cell.pieces)
    assert modules == pytest.approx(abs(np.linalg.det(cell.repeat)), rel=1e-9)


@pytest.mark.parametrize("joint", [0.0, 3.0])
def test_true_arcs_keep_area_and_joint_exactly(joint: float) -> None:
    """What chords only stand for holds of the arcs themselves: a scale and its joint are its repeat, 2 r^2."""
    cell = PATTERNS["fish scale"].cell({"": (203.0 - joint, 203.0 - joint)}, joint, {})
    (outline,) = cell.outlines
    assert outline is not None
    fine = [Arc(start=a, end=b, bulge=bulge) for a, b, bulge in sides(outline)]
    if joint == 0.0:
        assert bulged_area(outline.points, outline.bulges) == pytest.approx(203.0**2 / 2)
        return
    # Every top lies against the hollow of a neighbour about the same centre, a joint apart.
    top, *hollows = (arc.circle for arc in fine)
    assert top.radius + joint == pytest.approx(hollows[0].radius)
    for hollow in hollows:
        steps = (np.array(hollow.centre) - top.centre) @ np.linalg.inv(cell.repeat)
        assert steps == pytest.approx(np.round(steps))


def sides(outline: Outline) -> list[tuple[tuple[float, float], tuple[float, float], float]]:
    points = [(float(x), float(y)) for x, y in outline.points]
    return list(zip(points, [*points[1:], points[0]], outline.bulges, strict=True))


def test_the_law_of_joints_can_fail() -> None:
    cell = PATTERNS["basketweave"].cell({"": (200.0, 100.0)}, JOINT, {"abreast": 2})
    own, others = around(cell)
    rest = shapely.union_all([*own[1:], *others])
    corners = np.array(own[0].exterior.coords)
    middles = (corners[1:] + corners[:-1]) / 2
    assert shapely.distance(shapely.points(middles), rest).max() > JOINT * math.hypot(1.0, 0.5) + 1e-6
