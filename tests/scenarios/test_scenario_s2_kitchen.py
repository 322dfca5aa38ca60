"""S2, the kitchen out of square: every figure of the scenario comes out of its job file (our own calculation)."""

from math import degrees
from pathlib import Path

import pytest

import floorwright
from floorwright.job.solution import Solution
from floorwright.layout.option import Option

EXAMPLE = Path(floorwright.__file__).parent / "examples" / "larch-row-kitchen.toml"
CLOSE = 0.05
"""mm, against figures quoted unrounded."""
ANGLE = 0.002
"""Degrees."""


@pytest.fixture(scope="module")
def kitchen() -> Solution:
    loaded = floorwright.load(EXAMPLE)
    assert loaded.job is not None
    return floorwright.solve(loaded.job, findings=loaded.findings)


def option(kitchen: Solution, name: str) -> Option:
    found = [option for option in kitchen.layouts[0].options if option.name == name]
    assert found, [option.name for option in kitchen.layouts[0].options]
    return found[0]


def ends(of: Option) -> dict[str, tuple[float, float]]:
    return {wall.wall: (wall.start, wall.end) for wall in of.walls}


def test_corners_and_area(kitchen: Solution) -> None:
    assert kitchen.room is not None
    angles = {corner.name: degrees(corner.angle) for corner in kitchen.room.corners}
    assert angles == {
        "SW": pytest.approx(90.359, abs=ANGLE),
        "SE": pytest.approx(89.801, abs=ANGLE),
        "NE": pytest.approx(89.872, abs=ANGLE),
        "NW": pytest.approx(89.968, abs=ANGLE),
    }
    assert kitchen.survey.area / 1e6 == pytest.approx(15.138, abs=0.0005)
    assert kitchen.survey.adjustment is not None
    assert all(abs(residual.residual) < 0.01 for residual in kitchen.survey.adjustment.residuals)


def test_the_mid_lines_do_not_cross_square(kitchen: Solution) -> None:
    finding = next(finding for finding in kitchen.findings if finding.code == "control-mid-lines")
    assert "90.12 degrees" in finding.found
    assert "8.4 mm over S" in finding.found
    assert "2502.4 towards SW and NE" in finding.found
    assert "2497.6 towards SE and NW" in finding.found
    assert "square the other" in finding.remedy


def test_the_cross_that_is_used_reads_2500(kitchen: Solution) -> None:
    assert kitchen.control is not None
    assert kitchen.control.centre[0] == pytest.approx(2100, abs=CLOSE)
    triangles = [check for check in kitchen.control.checks if check.expected == pytest.approx(2500, abs=CLOSE)]
    assert len(triangles) == 4


def test_across(kitchen: Solution) -> None:
    balanced = ends(option(kitchen, "joint on centre across, balanced along"))
    assert balanced["E"] == pytest.approx((293.5, 280.95), abs=CLOSE)
    assert balanced["W"] == pytest.approx((315.97, 293.5), abs=CLOSE)
    # Balanced on the thin ends: 212.5 at the door and 212.5 to 236.5 at the far wall, under half.
    assert balanced["S"] == pytest.approx((212.5, 212.5), abs=0.1)
    assert balanced["N"] == pytest.approx((236.5, 212.5), abs=0.1)
    assert option(kitchen, "joint on centre across, balanced along").under > 0
    tile = next(found for found in kitchen.layouts[0].options if found.name.startswith("tile on centre across"))
    assert ends(tile)["E"][0] == pytest.approx(68.5, abs=CLOSE)


def test_a_full_tile_at_the_door_cannot_fit_with_3_mm_joints(kitchen: Solution) -> None:
    refused = option(kitchen, "joint on centre across, full tile at S")
    assert refused.joint == 3
    far = next(wall for wall in refused.walls if wall.wall == "N")
    assert far.thin == pytest.approx(428, abs=0.3)
    assert far.fat == pytest.approx(452, abs=0.3)
    assert not far.fits
    assert far.over == pytest.approx(2, abs=0.3)
    assert refused.refused == "needs 428 to 452 at N, a tile is 447: a tile and its joint leave 2 over"
    assert refused not in [found for found in kitchen.layouts[0].options if not found.refused]


def test_four_millimetres_do_it(kitchen: Solution) -> None:
    chosen = kitchen.layouts[0].chosen
    assert chosen.joint == 4
    assert chosen.name == "joint on centre across, full tile at S, joint 4 mm"
    walls = ends(chosen)
    assert walls["S"] == pytest.approx((447, 447), abs=CLOSE)
    assert walls["N"] == pytest.approx((444.98, 420.93), abs=CLOSE)
    assert walls["E"] == pytest.approx((289, 276.45), abs=CLOSE)
    assert walls["W"] == pytest.approx((311.47, 289), abs=CLOSE)
    rows = {piece.index[1] for piece in kitchen.layouts[0].pieces}
    assert len(rows) == 8
    offered = next(finding for finding in kitchen.findings if finding.code == "layout-joint-offered")
    assert "3.711" in offered.found + offered.expected
    assert "4 mm" in offered.remedy


def test_every_option_says_what_it_costs(kitchen: Solution) -> None:
    for found in kitchen.layouts[0].options:
        if not found.refused:
            assert {wall.wall for wall in found.walls} == {"S", "E", "N", "W"}
            assert found.full + found.cut >= 80
            assert found.worst > 0


def test_six_readings_leave_one_to_spare(kitchen: Solution) -> None:
    assert kitchen.survey.adjustment is not None
    assert kitchen.survey.adjustment.degrees_of_freedom == 1
    assert kitchen.survey.adjustment.suspects == ()


def test_the_first_line_drifts_less_than_half_a_joint(kitchen: Solution) -> None:
    assert kitchen.control is not None
    for line in kitchen.control.lines:
        assert max(drift.sd for drift in line.drift) < 4 / 2
