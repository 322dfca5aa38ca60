"""The angles at which a pattern is tried, and what a range of them gives."""

import math
from pathlib import Path

import pytest
from tests.layout.jobs import larch_row, lay, room_of

import floorwright
from floorwright.job.load import load_text
from floorwright.job.solve import solve
from floorwright.layout.angles import Turns, angles_of, turn_text
from floorwright.layout.layout import Layout
from floorwright.layout.sides import sides_of_room
from floorwright.tolerance import SPAN_PROOF

KITCHEN = (Path(floorwright.__file__).parent / "examples" / "larch-row-kitchen.toml").read_text(encoding="utf-8")


def laid(keys: str, order: str = "") -> Layout:
    text = KITCHEN.replace("joint_most = 5", keys).replace("[order]", f"{order}\n[order]")
    assert keys in text
    loaded = load_text(text, "job.toml")
    assert loaded.job is not None, loaded.findings
    assert not loaded.findings
    (layout,) = solve(loaded.job).layouts
    return layout


def test_words_and_numbers_name_angles() -> None:
    sides = sides_of_room(larch_row(), 0.0)
    walls = {side.name: math.atan2(*(side.end - side.start)[::-1]) for side in sides}
    south, north = walls["S"], walls["N"] - math.pi
    found = angles_of(
        Turns(named=(0.0, "first line", math.pi / 4, "long wall", "mean of walls"), walls=("S", "N")), sides, 0.0
    )
    assert found == pytest.approx((0.0, math.pi / 4, (north + 2 * math.pi), (south + north) / 2 + math.pi), abs=7)
    assert found[0] == 0.0
    assert found[1] == pytest.approx(math.pi / 4)
    assert math.remainder(found[2] - walls["N"], math.pi / 2) == pytest.approx(0.0, abs=1e-12)
    assert 2 * found[3] == pytest.approx(math.remainder(walls["N"], math.pi / 2) + south, abs=1e-12)


def test_a_range_holds_its_ends_and_the_walls_in_it() -> None:
    sides = sides_of_room(larch_row(), 0.0)
    span = math.radians(-1.0), math.radians(1.0)
    found = angles_of(Turns(span=span), sides, 0.0)
    assert {*span, 0.0} <= {round(angle, 12) for angle in found} | set(span)
    assert all(span[0] - 1e-9 <= angle <= span[1] + 1e-9 for angle in found)
    north = math.remainder(math.atan2(*(sides[2].end - sides[2].start)[::-1]), math.pi / 2)
    assert any(abs(angle - north) < 1e-6 for angle in found)
    assert any(abs(angle - north / 2) < 1e-6 for angle in found)


def test_each_angle_is_proved_on_its_own_through_the_job_file() -> None:
    layout = laid("angles = [0, 45]")
    angles = sorted({round(math.degrees(proof.angle or 0.0)) for proof in layout.proofs})
    assert angles == [0, 45]
    assert all(proof.status == "proved" for proof in layout.proofs)
    assert all(", at 0°" in option.name or ", at 45°" in option.name for option in layout.options)
    assert "layout-angles" in {finding.code for finding in layout.findings}
    (proof,) = [proof for proof in layout.proofs if proof.tells_of(layout.chosen)]
    assert proof.aim == "widest worst piece"


def test_the_least_taper_of_two_walls_is_at_their_mean() -> None:
    """S runs true to the first line and N a little out of it: shared, either has half (our own calculation)."""
    order = '[[aims.order]]\naim = "least taper"\nwalls = ["S", "N"]\n'
    layout = laid("angle_from = -1\nangle_to = 1", order)
    sides = {side.name: side for side in sides_of_room(larch_row(), 0.0)}
    off = math.remainder(math.atan2(*(sides["N"].end - sides["N"].start)[::-1]), math.pi / 2)
    (taper,) = [reached for reached in layout.aims if reached.aim.own]
    assert taper.value == pytest.approx(math.tan(abs(off) / 2) * 450.0, abs=0.02)
    assert layout.chosen.placement.angle == pytest.approx(off / 2, abs=1e-4)
    (note,) = [finding for finding in layout.findings if finding.code == "layout-angles"]
    assert "of any other aim it is the best found" in note.found


def test_a_range_is_proved_to_a_millimetre_at_every_angle_in_it() -> None:
    layout = laid("angle_from = -0.5\nangle_to = 0.5")
    (proof,) = [proof for proof in layout.proofs if proof.span is not None]
    assert [math.degrees(end) for end in proof.span or ()] == pytest.approx([-0.5, 0.5], abs=0.05)
    assert (proof.status, proof.tolerance) == ("proved", SPAN_PROOF)
    widest = max(option.worst for option in layout.options if option.joint == proof.joint and not option.refused)
    assert widest == proof.best <= proof.bound <= proof.best + SPAN_PROOF
    assert not proof.tells_of(layout.chosen)
    (note,) = [finding for finding in layout.findings if finding.code == "layout-angles"]
    assert "no angle of the range has a worst piece wider than" in note.found


def test_an_angle_is_told_from_the_first_line() -> None:
    assert turn_text(math.radians(44.0), math.radians(-1.0)) == "at 45°"
    assert turn_text(0.0, 0.0) == "at 0°"


def test_of_a_range_each_position_is_told_at_its_best_angle_alone() -> None:
    room = room_of({"A": (0.0, 0.0), "B": (3620.0, 35.0), "C": (3585.0, 4510.0), "D": (-22.0, 4470.0)}, tuple("SENW"))
    span = (math.radians(-1.0), math.radians(1.0))
    layout = lay(room, (1800.0, 2200.0), size=(450.0, 450.0), turns=Turns(span=span))
    positions = [option.name.rpartition(", at ")[0] for option in layout.options]
    assert len(positions) == len(set(positions)) > 5
    # Another angle can still be asked for by its name.
    name = "tile on centre across, tile on centre along, at 1°"
    assert name not in [option.name for option in layout.options]
    other = lay(room, (1800.0, 2200.0), size=(450.0, 450.0), turns=Turns(span=span), choose=name)
    assert other.chosen.name == name
    assert other.chosen in other.options
