"""Scenario S2, the Larch Row kitchen: every figure of the layout."""

import pytest
from tests.layout.jobs import larch_row, lay, option, wall

from floorwright.layout.layout import Layout
from floorwright.layout.option import Option

AXIS = (2100.0, 1796.0)
CLOSE = 0.05


@pytest.fixture(scope="module")
def asked() -> Layout:
    """As asked for: joint 3, nothing else allowed."""
    return lay(larch_row(), AXIS, size=(447.0, 447.0), limit=223.5)


@pytest.fixture(scope="module")
def opened() -> Layout:
    """The joint may go up to 5."""
    return lay(larch_row(), AXIS, size=(447.0, 447.0), limit=223.5, joint_most=5.0)


def ends(found: Option, name: str) -> tuple[float, float]:
    """Thin and fat end at a wall."""
    return wall(found, name).thin, wall(found, name).fat


def test_side_cuts_with_a_joint_on_the_centre(asked: Layout) -> None:
    found = option(asked, "joint on centre across, balanced along")
    # Walls run anticlockwise: W from NW to SW, E from SE to NE.
    assert wall(found, "W").end == pytest.approx(293.5, abs=CLOSE)
    assert wall(found, "E").start == pytest.approx(293.5, abs=CLOSE)
    assert wall(found, "W").start == pytest.approx(315.97, abs=CLOSE)
    assert wall(found, "E").end == pytest.approx(280.95, abs=CLOSE)


def test_a_tile_on_the_centre_leaves_slivers(asked: Layout) -> None:
    found = option(asked, "tile on centre across, tile on centre along")
    assert wall(found, "W").end == pytest.approx(68.5, abs=CLOSE)
    assert wall(found, "E").start == pytest.approx(68.5, abs=CLOSE)


def test_full_tile_at_the_door_does_not_fit(asked: Layout) -> None:
    found = option(asked, "joint on centre across, full tile at S")
    assert ends(found, "S") == pytest.approx((447, 447))
    north = wall(found, "N")
    assert (north.end, north.start) == pytest.approx((427.9, 451.98), abs=CLOSE)
    assert not north.fits
    assert north.over == pytest.approx(2, abs=CLOSE)
    assert found.refused == "needs 428 to 452 at N, a tile is 447: a tile and its joint leave 2 over"
    assert asked.options.index(found) > 0
    assert any(found.refused in finding.found for finding in asked.findings if finding.code == "layout-refused")


def test_balanced_on_the_thin_ends(asked: Layout) -> None:
    found = option(asked, "joint on centre across, balanced along")
    assert ends(found, "S") == pytest.approx((212.5, 212.5), abs=CLOSE)
    assert ends(found, "N") == pytest.approx((212.5, 236.5), abs=CLOSE)
    assert len({piece.index[1] for piece in asked.pieces if piece.full}) == 7
    assert found.under > 0
    assert not found.refused


def test_with_joint_3_the_limit_is_broken_and_that_is_proved(asked: Layout) -> None:
    (finding,) = [finding for finding in asked.findings if finding.code == "layout-under-limit"]
    assert "nothing better exists with a joint of 3 mm (proved)" in finding.remedy
    assert "% of a tile" in finding.found
    (proof,) = asked.proofs
    assert proof.status == "proved"
    assert proof.shortfall <= proof.tolerance


def test_joint_4_is_found_and_recommended(opened: Layout) -> None:
    assert opened.chosen is opened.options[0]
    assert opened.chosen.name == "joint on centre across, full tile at S, joint 4 mm"
    assert opened.cell.joint == 4.0
    assert opened.chosen.under == 0
    assert not opened.chosen.fragile


def test_figures_with_joint_4(opened: Layout) -> None:
    found = opened.chosen
    assert ends(found, "S") == pytest.approx((447, 447))
    assert ends(found, "N") == pytest.approx((420.9, 444.98), abs=CLOSE)
    assert wall(found, "W").end == pytest.approx(289, abs=CLOSE)
    assert wall(found, "E").start == pytest.approx(289, abs=CLOSE)
    assert wall(found, "W").start == pytest.approx(311.47, abs=CLOSE)
    assert wall(found, "E").end == pytest.approx(276.45, abs=CLOSE)
    assert len({piece.index[1] for piece in opened.pieces}) == 8
    assert all(cut.fits for cut in found.walls)


def test_offer_names_the_least_joint_and_the_first_whole_step(opened: Layout) -> None:
    (finding,) = [
        finding
        for finding in opened.findings
        if finding.code == "layout-joint-offered" and finding.found.startswith("full tile at S")
    ]
    assert "needs 428 to 452 at N" in finding.found
    assert "3.711 mm" in finding.expected
    assert "4 mm" in finding.remedy


def test_a_gap_that_may_grow_also_makes_it_fit() -> None:
    # Up to 8: at 7 from the door a full tile leaves at N the last 3 of a joint, which the gap there takes over.
    layout = lay(larch_row(), AXIS, size=(447.0, 447.0), limit=223.5, gap=(5.0, 8.0))
    assert not layout.chosen.refused
    assert layout.chosen.under == 0
    assert layout.cell.joint == 3.0
    assert ends(layout.chosen, "S") == pytest.approx((447, 447))
    assert wall(layout.chosen, "N").start == 447.0


def test_tapers_of_hidden_walls_are_said_to_be_hidden(opened: Layout) -> None:
    tapers = {finding.place: finding.found for finding in opened.findings if finding.code == "layout-taper"}
    assert set(tapers) == {"wall N", "wall E", "wall W"}
    assert tapers["wall W"].endswith("hidden")
    assert not tapers["wall N"].endswith("hidden")
