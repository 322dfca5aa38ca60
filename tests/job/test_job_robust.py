"""Robust to the hand: a worst piece that a small error spoils gives way to one that holds, and both are told."""

import pytest
from tests.layout.test_layout_lay import finding

import floorwright
from floorwright.findings import Severity
from floorwright.job.load import load_text
from floorwright.layout.layout import Layout

BOW = """
[survey]
outline = ["A", "B", "C", "D"]
[survey.walls]
S = "A-B"
N = "C-D"
[survey.points]
A = [0, 0]
B = [4000, 0]
C = [4000, 5000]
D = [0, 5000]
[[survey.arcs]]
wall = "N"
bows = "out"
rise = 600
[control]
first_line = { by = "parallel", wall = "S" }
centre = { by = "mid-point", wall = "S" }
[[goods]]
name = "Tile 450"
length = 450
[[zones]]
goods = "Tile 450"
joint = 4
gap = 6
"""


def laid(text: str) -> Layout:
    job = load_text(text).job
    assert job is not None
    return floorwright.solve(job).layouts[0]


def test_a_fragile_worst_piece_gives_way_to_one_that_holds() -> None:
    layout = laid(BOW)
    able = [option for option in layout.options if not option.refused]
    widest = max(able, key=lambda option: option.worst)
    assert widest.fragile
    assert widest.worst == pytest.approx(layout.proofs[0].best, abs=0.1)
    assert not layout.chosen.fragile
    assert layout.chosen.shaken > widest.shaken
    remedy = finding(layout, "layout-under-limit").remedy
    assert widest.name in remedy
    assert "laid as far out as your marks may be" in remedy


def test_of_fragile_options_the_finding_names_one_that_holds() -> None:
    layout = laid(BOW + '[aims]\noption = "widest worst piece"\n')
    firm = next(option for option in layout.options if not option.refused and not option.fragile)
    assert f"take {firm.name}: {firm.cut} cut" in finding(layout, "layout-fragile").remedy


ROUND = """
[survey]
outline = ["A", "B", "C"]
arcs = [{ wall = "A-B", rise = 300 }, { wall = "B-C", rise = 300 }, { wall = "C-A", rise = 300 }]
[survey.points]
A = [0, 0]
B = [3000, 0]
C = [1500, 2600]
[control]
first_line = { by = "points", from = "A", to = "B" }
centre = { by = "mid-point" }
[[goods]]
name = "Tile 300"
length = 300
[[zones]]
goods = "Tile 300"
joint = 3
"""


@pytest.mark.parametrize(
    "angle", ['angles = ["long wall"]', 'angle_from = -1\nangle_to = 1\nangle_about = "long wall"']
)
def test_the_angle_of_the_long_wall_where_all_walls_are_arcs_is_one_error(angle: str) -> None:
    job = load_text(ROUND + angle).job
    assert job is not None
    solution = floorwright.solve(job)
    errors = [finding for finding in solution.findings if finding.severity is Severity.ERROR]
    assert [error.code for error in errors] == ["layout-no-straight-wall"]
    assert not solution.layouts


def test_the_limit_is_that_of_the_aim_where_no_other_is_named() -> None:
    own = '[[aims.order]]\naim = "no piece under"\nunder = 120\n'
    assert laid(BOW + own).limit == 120.0
    assert laid(BOW + '[aims]\nleast_piece = "third"\n' + own).limit == 150.0
