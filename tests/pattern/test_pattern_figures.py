"""Published figures of the patterns, each with its source; what is only geometry says so."""

import math

import numpy as np
import pytest
from tests.pattern.samples import DOT

from floorwright.findings import Finding, Severity
from floorwright.pattern.answer import answer
from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.cell import Size, UnitCell
from floorwright.pattern.closure import length_for, width_for
from floorwright.pattern.entry import Asked
from floorwright.pattern.measured import longest_run
from floorwright.pattern.mosaic import chip_length
from floorwright.pattern.polygons import clipped_leg, octagon_dot
from floorwright.pattern.weave import windmill_dot
from floorwright.units import METRIC


def cell_of(name: str, sizes: dict[str, Size], joint: float, **values: object) -> UnitCell:
    return PATTERNS[name].cell(sizes, joint, values)


def answers(name: str, sizes: dict[str, Size], joint: float, **values: object) -> tuple[Finding, ...]:
    pattern = PATTERNS[name]
    chosen = {one.key: one.default for one in pattern.parameters} | values
    asked = Asked(place="zone floor", sizes=sizes, joint=joint, values=chosen, style=METRIC)
    return answer(pattern, asked, "square to wall")


def only(found: tuple[Finding, ...], code: str) -> Finding:
    (one,) = [finding for finding in found if finding.code == code]
    return one


class TestHerringbone:
    """Table of check values, herringbone at 45: L 450, W 150, j 3 (geometry)."""

    cell = cell_of("herringbone", {"": (450.0, 150.0)}, 3.0)

    def test_lattice(self) -> None:
        assert math.hypot(*self.cell.b) == pytest.approx(640.6, abs=0.05)
        assert math.hypot(*self.cell.a) == pytest.approx(216.4, abs=0.05)
        assert float(self.cell.a @ self.cell.b) == pytest.approx(0.0, abs=1e-9)

    def test_leading_corners_touch_lines_54_either_side_of_the_axis(self) -> None:
        axes, left, right = self.cell.lines
        assert left.offset - axes.offset == pytest.approx(54.1, abs=0.05)
        assert axes.offset - right.offset == pytest.approx(54.1, abs=0.05)
        assert axes.spacing == pytest.approx(640.6, abs=0.05)
        normal = np.array([-math.sin(axes.angle), math.cos(axes.angle)])
        away = np.sort(np.concatenate([ring @ normal - axes.offset for ring in self.cell.pieces]))
        near = away[np.abs(away) < 60.0]
        # The corners of the tiles themselves: two lead at 54.1, their other end corners lie at 52.0.
        assert near == pytest.approx([-54.1, -52.0, 52.0, 54.1], abs=0.05)

    def test_closes_with_any_proportion(self) -> None:
        assert answers("herringbone", {"": (450.0, 149.0)}, 3.0)[0].severity is Severity.NOTE
        assert answers("herringbone", {"": (456.0, 150.0)}, 3.0) == ()


@pytest.mark.parametrize(("length", "abreast", "width"), [(600.0, 2, 298.5), (600.0, 3, 198.0)])
def test_width_that_lines_through(length: float, abreast: int, width: float) -> None:
    # V-12, T-76: L = k W + (k - 1) J (principle: Floor Trends, "Tile modularity"; formula is geometry).
    assert width_for(length, abreast, 3.0) == pytest.approx(width)
    assert length_for(width, abreast, 3.0) == pytest.approx(length)


def test_hexagon_pitches() -> None:
    # Table of check values: 200 across the flats, joint 3: pitch 203.0, row 175.8, tile corner to corner 230.9.
    cell = cell_of("hexagon", {"": (200.0, 200.0)}, 3.0)
    assert math.hypot(*cell.a) == pytest.approx(203.0, abs=0.05)
    assert cell.b[1] == pytest.approx(175.8, abs=0.05)
    (piece,) = cell.pieces
    assert np.hypot(*(piece[0] - piece[3])) == pytest.approx(230.9, abs=0.05)
    assert float(np.ptp(piece[:, 0])) == pytest.approx(200.0)


def test_a_hexagon_is_its_radius_stepped_six_times() -> None:
    # S-13, an old rule: the radius goes six times round the circle.
    (piece,) = cell_of("hexagon", {"": (200.0, 200.0)}, 0.0).pieces
    radius = np.hypot(*(piece - piece.mean(axis=0)).T)
    sides = np.hypot(*(np.roll(piece, -1, axis=0) - piece).T)
    assert len(sides) == 6
    assert sides == pytest.approx(radius)


def test_octagon_in_its_square() -> None:
    # S-12: side 0.4142 A, corner cut 0.2929 A ("Exploring Woodworking", p. 65, for the construction; figures geometry).
    piece, dot = cell_of("octagon and dot", {"octagon": (1000.0, 1000.0), "dot": (414.2, 414.2)}, 0.0).pieces
    sides = np.hypot(*(np.roll(piece, -1, axis=0) - piece).T)
    assert sides == pytest.approx(414.2, abs=0.05)
    assert float(piece[:, 0].min()) == pytest.approx(0.0, abs=1e-9)
    assert float(piece[0, 0]) == pytest.approx(292.9, abs=0.05)
    # Arcs from the corners with half the diagonal for their radius strike the octagon's corners.
    assert 1000.0 - math.hypot(1000.0, 1000.0) / 2 == pytest.approx(float(piece[0, 0]))
    assert len(dot) == 4


def test_the_dot_between_octagons() -> None:
    assert octagon_dot(200.0, 3.0) == pytest.approx(DOT)
    assert answers("octagon and dot", {"octagon": (200.0, 200.0), "dot": (DOT, DOT)}, 3.0) == ()
    told = only(answers("octagon and dot", {"octagon": (200.0, 200.0), "dot": (79.0, 79.0)}, 3.0), "pattern-closure")
    assert told.remedy == "dot must be 81.1 mm square"
    assert "4" in told.found
    refused = only(
        answers("octagon and dot", {"octagon": (200.0, 200.0), "dot": (90.0, 90.0)}, 3.0), "pattern-impossible"
    )
    assert refused.severity is Severity.ERROR


def test_the_dot_in_a_windmill() -> None:
    assert windmill_dot((300.0, 100.0), 3.0) == 197.0
    assert answers("windmill", {"sail": (300.0, 100.0), "dot": (197.0, 197.0)}, 3.0) == ()
    told = only(answers("windmill", {"sail": (300.0, 100.0), "dot": (200.0, 200.0)}, 3.0), "pattern-closure")
    assert told.remedy == "dot must be 197 mm square"


def test_the_corners_clipped_for_a_dot() -> None:
    cell = cell_of("square and dot", {"square": (300.0, 300.0), "dot": (60.0, 60.0)}, 3.0)
    low = cell.pieces[0].min(axis=0)
    assert float(cell.pieces[0][0, 0] - low[0]) == pytest.approx(clipped_leg(60.0, 3.0))
    assert float(np.ptp(cell.pieces[0][:, 0])) == pytest.approx(300.0)


class TestBasketweave:
    """Table of check values: 200 x 100, j 3 does not close: 203 against 200; the piece must be 2 x 100 + 3."""

    def test_200_does_not_close(self) -> None:
        told = only(answers("basketweave", {"": (200.0, 100.0)}, 3.0), "pattern-closure")
        assert told.severity is Severity.WARNING
        assert "203 mm wide, and one is 200 mm long" in told.found
        assert told.remedy.startswith("piece must be 203 mm x 100 mm, or 200 mm x 98.5 mm")
        assert "off the box" in told.remedy
        assert length_for(100.0, 2, 3.0) == 203.0

    def test_203_does(self) -> None:
        assert answers("basketweave", {"": (203.0, 100.0)}, 3.0) == ()

    def test_measured_sizes_are_not_called_sizes_off_the_box(self) -> None:
        told = only(answers("basketweave", {"": (201.0, 100.0)}, 3.0), "pattern-closure")
        assert "off the box" not in told.remedy

    def test_what_does_not_close_is_laid_with_joints_opened(self) -> None:
        cell = cell_of("basketweave", {"": (200.0, 100.0)}, 3.0)
        assert cell.a.tolist() == [206.0, 206.0]


class TestModular:
    """Table of check values: 400 + j against 200 + j + 200 closes only if sizes are nominal less joint."""

    def test_nominal_sizes_do_not_close(self) -> None:
        sizes = {"large": (400.0, 400.0), "long": (400.0, 200.0), "small": (200.0, 200.0)}
        told = only(answers("modular, three sizes", sizes, 3.0), "pattern-closure")
        assert "large must be 403 mm x 403 mm" in told.remedy
        assert "off the box" in told.remedy

    def test_nominal_sizes_less_the_joint_do(self) -> None:
        sizes = {"large": (397.0, 397.0), "long": (397.0, 197.0), "small": (197.0, 197.0)}
        assert [one.code for one in answers("modular, three sizes", sizes, 3.0)] == ["pattern-straight-joint"]

    @pytest.mark.parametrize(("abreast", "over"), [(2, 12.0), (3, 24.0)])
    def test_flags_ignore_the_joint(self, abreast: int, over: float) -> None:
        # G-10: 2 x 300 + 12 overhangs a 600 by 12, 3 x 300 a 900 by 24 (pavingexpert.com, "Random paving", page 3).
        assert length_for(300.0, abreast, 12.0) - 300.0 * abreast == over

    def test_flags_off_the_box_are_told_of(self) -> None:
        sizes = {"largest": (900.0, 600.0), "large": (600.0, 600.0), "long": (600.0, 300.0), "small": (300.0, 300.0)}
        told = only(answers("modular, four sizes", sizes, 12.0), "pattern-closure")
        assert "largest must be 924 mm x 612 mm" in told.remedy

    @pytest.mark.parametrize(
        ("name", "sizes", "modules"),
        [
            ("modular, three sizes", {"large": (403.0, 403.0), "long": (403.0, 200.0), "small": (200.0, 200.0)}, 5),
            (
                "modular, four sizes",
                {"largest": (606.0, 403.0), "large": (403.0, 403.0), "long": (403.0, 200.0), "small": (200.0, 200.0)},
                4,
            ),
        ],
    )
    def test_no_joint_runs_farther_than_is_said(self, name: str, sizes: dict[str, Size], modules: int) -> None:
        assert longest_run(cell_of(name, sizes, 3.0)) == pytest.approx(modules * 203.0)
        limit = answers(name, sizes, 3.0, run_most=700.0)
        assert only(limit, "pattern-straight-joint").severity is Severity.WARNING

    def test_a_grid_runs_through(self) -> None:
        assert longest_run(cell_of("grid", {"": (300.0, 300.0)}, 3.0)) == math.inf

    def test_pinwheel_runs_as_far_as_both_squares(self) -> None:
        cell = cell_of("pinwheel", {"large": (300.0, 300.0), "small": (150.0, 150.0)}, 3.0)
        assert longest_run(cell) == pytest.approx(303.0 + 153.0)


def test_blocks_to_the_square_metre() -> None:
    # 200 x 100 blocks, joints ignored: 50 to the square metre (geometry).
    for name in ("grid", "brick bond", "herringbone", "basketweave"):
        cell = cell_of(name, {"": (200.0, 100.0)}, 0.0)
        assert 1e6 * len(cell.pieces) / abs(np.linalg.det(cell.repeat)) == pytest.approx(50.0)


@pytest.mark.parametrize(("side", "joint", "over"), [(300.0, 2.0, 1.0), (50.0, 2.0, 6.0), (9.525, 1.5875, 26.0)])
def test_the_simple_joint_formula_counts_crossings_twice(side: float, joint: float, over: float) -> None:
    # against the joints of the repeat, J (L + W) / (L W) is 1 % over on 300 mm, 6 % on 50 mm, 26 % on 3/8 in.
    cell = cell_of("grid", {"": (side, side)}, joint)
    exact = 1 - side**2 / abs(np.linalg.det(cell.repeat))
    assert 100 * ((2 * joint / side) / exact - 1) == pytest.approx(over, abs=0.6)


def test_a_sheet_is_its_chips_and_joints() -> None:
    assert chip_length(298.0, 12, 2.0) == 23.0
    assert answers("mosaic sheets", {"": (298.0, 298.0)}, 2.0, chips=12, chip=23.0) == ()
    told = only(answers("mosaic sheets", {"": (298.0, 298.0)}, 3.0, chips=12, chip=23.0), "pattern-closure")
    assert told.remedy == "lay the sheets with a joint of 2 mm"


def test_soldiers_come_out_even_with_stretchers_where_t_76_says() -> None:
    assert answers("soldier courses", {"": (203.0, 100.0)}, 3.0) == ()
    # A brick as it is bought in the UK, 215 x 102.5 with joints of 10, is made to: 2 x 102.5 + 10.
    assert answers("soldier courses", {"": (215.0, 102.5)}, 10.0) == ()
    told = only(answers("soldier courses", {"": (200.0, 100.0)}, 3.0), "pattern-closure")
    assert "piece must be 203 mm x 100 mm" in told.remedy


def test_arms_wider_than_a_piece_are_refused() -> None:
    told = only(answers("double herringbone", {"": (300.0, 200.0)}, 3.0), "pattern-impossible")
    assert told.severity is Severity.ERROR


def test_a_stagger_that_no_row_can_keep_is_refused() -> None:
    told = only(answers("planks", {"": (900.0, 180.0)}, 2.0, stagger=400.0), "pattern-impossible")
    assert "300.7" in told.expected
    assert answers("planks", {"": (900.0, 180.0)}, 2.0, stagger=250.0) == ()


def test_points_that_meet_are_refused() -> None:
    told = only(answers("elongated hexagon", {"": (150.0, 150.0)}, 3.0, corner=60.0), "pattern-impossible")
    assert told.severity is Severity.ERROR


def test_a_dot_as_large_as_its_square_is_refused() -> None:
    sizes = {"square": (200.0, 200.0), "dot": (150.0, 150.0)}
    assert only(answers("square and dot", sizes, 3.0), "pattern-impossible").severity is Severity.ERROR


def test_a_direction_that_nobody_chose_is_an_error() -> None:
    pattern = PATTERNS["herringbone"]
    asked = Asked(place="zone floor", sizes={"": (456.0, 150.0)}, joint=3.0, values={"abreast": 1}, style=METRIC)
    assert only(answer(pattern, asked, None), "pattern-stand").severity is Severity.ERROR
    assert answer(pattern, asked, "diagonal to wall") == ()
