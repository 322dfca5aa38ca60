"""S5, lounge and hall under one grid: every figure of the scenario comes out of its job file (our calculation)."""

from pathlib import Path

import numpy as np
import pytest

import floorwright
from floorwright.findings import has_error
from floorwright.geometry.measure import region_area
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.layout.axis import axes_of, region_faces
from floorwright.layout.option import Option
from floorwright.layout.rectilinear import scores

EXAMPLE = Path(floorwright.__file__).parent / "examples" / "number-12-open-plan.toml"
CLOSE = 0.05
"""mm."""


@pytest.fixture(scope="module")
def open_plan() -> Solution:
    loaded = floorwright.load(EXAMPLE)
    assert loaded.job is not None
    return floorwright.solve(loaded.job, findings=loaded.findings)


def cuts(option: Option) -> dict[str, float]:
    for wall in option.walls:
        assert wall.start == pytest.approx(wall.end, abs=CLOSE), wall
    return {wall.wall: wall.thin for wall in option.walls}


def option(solution: Solution, *words: str) -> Option:
    """The first option whose name has all of some words."""
    return next(one for one in solution.layouts[0].options if all(word in one.name for word in words))


def test_nothing_stops_it(open_plan: Solution) -> None:
    assert not has_error(open_plan.findings)


def test_joint_on_the_hall_centre_leaves_slivers_in_the_lounge(open_plan: Solution) -> None:
    found = cuts(option(open_plan, "joint on centre across"))
    assert found["hall W"] == pytest.approx(582.5, abs=CLOSE)
    assert found["hall E"] == pytest.approx(582.5, abs=CLOSE)
    assert found["W"] == pytest.approx(82.5, abs=CLOSE)
    assert found["E"] == pytest.approx(2.5, abs=CLOSE)


def test_tile_on_the_hall_centre_is_the_best_across(open_plan: Solution) -> None:
    for found in (cuts(open_plan.layouts[0].chosen), cuts(option(open_plan, "tile on centre across"))):
        assert found["hall W"] == pytest.approx(282.5, abs=CLOSE)
        assert found["hall E"] == pytest.approx(282.5, abs=CLOSE)
        assert found["W"] == pytest.approx(382.5, abs=CLOSE)
        assert found["E"] == pytest.approx(302.5, abs=CLOSE)


def test_the_best_along_and_what_the_lounge_alone_would_leave(open_plan: Solution) -> None:
    best = cuts(open_plan.layouts[0].chosen)
    assert best["S"] == pytest.approx(242.5, abs=CLOSE)
    assert best["hall N"] == pytest.approx(242.5, abs=CLOSE)
    assert [best["N left"], best["N right"]] == pytest.approx([442.5, 442.5], abs=CLOSE)
    lounge = cuts(option(open_plan, "joint on centre along"))
    assert [lounge["S"], lounge["N left"]] == pytest.approx([342.5, 342.5], abs=CLOSE)
    assert lounge["hall N"] == pytest.approx(142.5, abs=CLOSE)


def test_both_are_proved_on_their_own(open_plan: Solution) -> None:
    proofs = {proof.axis: proof for proof in open_plan.layouts[0].proofs}
    assert {proof.status for proof in proofs.values()} == {"proved"}
    assert proofs["across"].best == proofs["across"].bound == pytest.approx(282.5, abs=CLOSE)
    assert proofs["along"].best == proofs["along"].bound == pytest.approx(242.5, abs=CLOSE)


def test_no_other_position_across_does_as_well(open_plan: Solution) -> None:
    """A dense search of its own, a tenth of a millimetre apart: one place only comes within 0.15 of 282.5."""
    layout = open_plan.layouts[0]
    (axis,) = [one for one in axes_of(layout.cell, layout.chosen.placement.angle) if one.name == "across"]
    lows = np.arange(0.0, axis.pitch, 0.1)
    worst, _ = scores(region_faces(layout.region, axis), axis, lows, 0.0)
    good = lows[worst > 282.5 - 0.15]
    assert 1 <= len(good) <= 4
    assert np.ptp(good) < 0.5


def test_areas_and_pieces(open_plan: Solution) -> None:
    layout = open_plan.layouts[0]
    assert open_plan.survey.area / 1e6 == pytest.approx(32.37, abs=0.005)
    assert region_area(layout.region) / 1e6 == pytest.approx(32.18, abs=0.005)
    assert (layout.chosen.full, layout.chosen.cut) == (63, 52)
    assert len(layout.pieces) == 115


def test_two_cuts_in_the_shape_of_an_l_at_the_mouth(open_plan: Solution) -> None:
    bent = [piece for piece in open_plan.layouts[0].pieces if not piece.full and len(piece.rings[0]) == 6]
    assert len(bent) == 2
    for piece, side in zip(sorted(bent, key=lambda one: one.rings[0][:, 0].mean()), ("W", "E"), strict=True):
        assert {f"hall {side}", "N left" if side == "W" else "N right"} <= set(piece.edges[0])


def test_what_is_under_half_is_shown(open_plan: Solution) -> None:
    (under,) = [finding for finding in open_plan.findings if finding.code == "layout-under-limit"]
    assert "40.6% of a tile" in under.found
    assert "proved" in under.remedy


def test_the_hall_decides_across_and_both_rooms_along(open_plan: Solution) -> None:
    proofs = {proof.axis: proof for proof in open_plan.layouts[0].proofs}
    assert proofs["across"].decides == ("hall",)
    assert set(proofs["across"].walls) == {"hall W", "hall E"}
    assert proofs["along"].decides == ("lounge", "hall")
    assert set(proofs["along"].walls) == {"S", "hall N"}


def test_every_room_with_its_pieces(open_plan: Solution) -> None:
    layout = open_plan.layouts[0]
    lounge, hall = layout.rooms
    assert (lounge.room, hall.room) == ("lounge", "hall")
    assert lounge.full + hall.full == 63
    assert lounge.cut + hall.cut == 52
    # The lounge less its gaps; the hall's floor runs on through the mouth.
    assert (lounge.area + hall.area) / 1e6 == pytest.approx(32.18, abs=0.005)
    assert hall.area == pytest.approx((1180 - 12) * (5200 - 6), rel=1e-6)
    assert [lounge.worst, hall.worst] == pytest.approx([242.5, 242.5], abs=CLOSE)
    assert layout.chosen.decides == ("lounge", "hall")
    alone = option(open_plan, "joint on centre along")
    assert alone.decides == ("hall",)


def test_the_centre_of_every_room_is_tried_by_name(open_plan: Solution) -> None:
    """With the centre of the control lines in the lounge, the hall's own centre is still among the options."""
    assert open_plan.job.control.centre.wall == "W"
    text = EXAMPLE.read_text(encoding="utf-8")
    elsewhere = text.replace('{ by = "opening", opening = "door" }', '{ by = "parallel", wall = "W" }').replace(
        'centre = { by = "mid-point", wall = "W" }', 'centre = { by = "mid-point", wall = "S" }'
    )
    assert elsewhere != text
    loaded = load_text(elsewhere)
    assert loaded.job is not None
    found = floorwright.solve(loaded.job, findings=loaded.findings)
    joint = cuts(option(found, "joint on centre of hall across"))
    assert joint["hall W"] == pytest.approx(582.5, abs=CLOSE)
    assert joint["E"] == pytest.approx(2.5, abs=CLOSE)
    tile = cuts(option(found, "tile on centre of hall across"))
    assert [tile["hall W"], tile["W"], tile["E"]] == pytest.approx([282.5, 382.5, 302.5], abs=CLOSE)
