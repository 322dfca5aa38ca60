"""Laying out a zone: scenario S1, the choices, the findings, and floors at the edge of sense."""

import math
from collections import Counter
from fractions import Fraction
from functools import partial
from typing import Any

import numpy as np
import pytest
import shapely
from tests.layout.jobs import larch_row, lay, option, rectangle_room, room_of, wall
from tests.layout.rooms import hexagons, polygon_of

from floorwright.findings import Finding, Severity
from floorwright.layout.layout import Layout
from floorwright.pattern.catalogue import brick_bond
from floorwright.plan.room import Obstacle
from floorwright.tolerance import RANK_STEP
from floorwright.units import IMPERIAL

INCH = 25.4


def codes(layout: Layout) -> Counter[str]:
    return Counter(finding.code for finding in layout.findings)


def finding(layout: Layout, code: str) -> Finding:
    (found,) = [finding for finding in layout.findings if finding.code == code]
    return found


@pytest.fixture(scope="module")
def bath() -> Layout:
    """S1: 7' 3-1/2" x 10' 2-5/8", tile 11-3/4", joint 1/4", gap 1/8"."""
    width, length = 87.5 * INCH, 122.625 * INCH
    return lay(
        rectangle_room(width, length),
        (width / 2, length / 2),
        size=(11.75 * INCH, 11.75 * INCH),
        joint=INCH / 4,
        joint_step=INCH / 16,
        gap=(INCH / 8, INCH / 8),
        style=IMPERIAL,
    )


class TestS1:
    def test_cuts_and_counts(self, bath: Layout) -> None:
        chosen = bath.chosen
        assert chosen is bath.options[0]
        assert chosen.name == "joint on centre across, tile on centre along"
        for name, inches in (("W", 7.5), ("E", 7.5), ("S", 7.0625), ("N", 7.0625)):
            cut = wall(chosen, name)
            assert (cut.start, cut.end) == pytest.approx((inches * INCH, inches * INCH), abs=0.05)
        assert (chosen.full, chosen.cut, len(bath.pieces)) == (54, 34, 88)

    def test_both_axes_are_proved_exactly(self, bath: Layout) -> None:
        assert [(proof.axis, proof.status, proof.tolerance) for proof in bath.proofs] == [
            ("across", "proved", 0.0),
            ("along", "proved", 0.0),
        ]
        assert [proof.best for proof in bath.proofs] == pytest.approx([7.5 * INCH, 7.0625 * INCH])

    def test_joint_lines_run_where_the_scenario_says(self, bath: Layout) -> None:
        x, y = bath.chosen.placement.origin
        assert (x / INCH - 7.75) % 12 == pytest.approx(0, abs=1e-6)
        assert (y / INCH - (7 + 5 / 16)) % 12 == pytest.approx(0, abs=1e-6)

    def test_why_not(self, bath: Layout) -> None:
        assert wall(option(bath, "full tile at W, tile on centre along"), "E").thin == pytest.approx(3.25 * INCH)
        assert wall(option(bath, "joint on centre across, full tile at S"), "N").thin == pytest.approx(2.375 * INCH)
        centred = option(bath, "tile on centre across, tile on centre along")
        assert (wall(centred, "W").thin, wall(centred, "E").thin) == pytest.approx((1.5 * INCH, 1.5 * INCH))

    def test_nothing_to_say(self, bath: Layout) -> None:
        assert not bath.findings


ROOMS = {
    "Larch Row": larch_row(),
    "rectangle": rectangle_room(3000.0, 2500.0),
    "with a column": rectangle_room(
        3000.0,
        2500.0,
        obstacles=(
            Obstacle(
                name="column",
                kind="column",
                outline=np.array([[1000.0, 900.0], [1300.0, 900.0], [1300.0, 1200.0], [1000.0, 1200.0]]),
                centre=(1150.0, 1050.0),
            ),
        ),
    ),
    "an L": room_of(
        {"A": (0, 0), "B": (3200, 0), "C": (3200, 1500), "D": (1400, 1500), "E": (1400, 2800), "F": (0, 2800)},
        ("S", "E", "inner N", "inner E", "N", "W"),
    ),
}


@pytest.mark.parametrize("name", ROOMS)
@pytest.mark.parametrize("angle", [0.0, math.pi / 4])
def test_pieces_and_joints_make_the_floor(name: str, angle: float) -> None:
    layout = lay(ROOMS[name], (1300.0, 1100.0), angle=angle)
    floor = polygon_of(layout.region)
    pieces = [shapely.Polygon(piece.rings[0], piece.rings[1:]) for piece in layout.pieces]
    assert all(piece.is_valid for piece in pieces)
    assert sum(piece.area for piece in pieces) == pytest.approx(shapely.union_all(pieces).area, abs=1.0)
    assert shapely.union_all(pieces).difference(floor).area < 1.0
    assert [piece.area for piece in layout.pieces] == pytest.approx([piece.area for piece in pieces])
    # What is left is joints: each piece grown by half a joint covers the floor.
    joints = [piece.buffer(layout.cell.joint / 2 + 0.01, join_style="mitre") for piece in pieces]
    assert floor.difference(shapely.union_all(joints)).area < floor.length * (layout.cell.joint + 0.1)
    counts = Counter(piece.full for piece in layout.pieces)
    assert (counts[True], counts[False]) == (layout.chosen.full, layout.chosen.cut)
    assert min(piece.narrowest for piece in layout.pieces) == pytest.approx(layout.chosen.worst)
    assert len({piece.id for piece in layout.pieces}) == len(layout.pieces)
    assert [piece.index for piece in layout.pieces] == sorted(piece.index for piece in layout.pieces)


@pytest.mark.parametrize("name", ROOMS)
def test_options_are_ranked_and_distinct(name: str) -> None:
    layout = lay(ROOMS[name], (1300.0, 1100.0), joint_most=5.0)
    assert layout.chosen is layout.options[0]
    assert len({option.name for option in layout.options}) == len(layout.options)
    refused = [bool(option.refused) for option in layout.options]
    assert refused == sorted(refused)
    best = max(option.worst for option in layout.options if option.joint == 3.0 and not option.refused)
    assert best <= min(proof.bound for proof in layout.proofs if proof.joint == 3.0) + 2 * RANK_STEP


def test_classical_positions_are_always_among_the_options() -> None:
    layout = lay(larch_row(), (2100.0, 1796.0), size=(447.0, 447.0))
    names = {option.name for option in layout.options}
    centred = {
        f"{one} on centre across, {other} on centre along" for one in ("joint", "tile") for other in ("joint", "tile")
    }
    assert centred <= names
    assert all(any(f"full tile at {wall}" in name for name in names) for wall in "SENW")


def test_own_choice_is_kept_and_its_cost_is_said() -> None:
    name = "tile on centre across, tile on centre along"
    layout = lay(larch_row(), (2100.0, 1796.0), size=(447.0, 447.0), choose=name)
    assert layout.chosen.name == name
    assert layout.options[0].name != name
    said = finding(layout, "layout-own-option")
    assert "worst piece 57" in said.found
    assert layout.options[0].name in said.expected
    assert said.severity is Severity.NOTE


def test_own_choice_that_is_refused_is_laid_with_a_warning() -> None:
    name = "joint on centre across, full tile at S"
    layout = lay(larch_row(), (2100.0, 1796.0), size=(447.0, 447.0), choose=name)
    assert layout.chosen.name == name
    assert "a tile and its joint leave 2 over" in finding(layout, "layout-own-refused").found


def test_a_second_name_of_the_same_position_can_be_asked_for() -> None:
    layout = lay(rectangle_room(3000.0, 2500.0), (1500.0, 1250.0), choose="balanced across, balanced along")
    assert "layout-unknown-option" not in codes(layout)


def test_unknown_option_lists_the_names() -> None:
    layout = lay(rectangle_room(3000.0, 2500.0), (1500.0, 1250.0), choose="herringbone at the door")
    said = finding(layout, "layout-unknown-option")
    assert said.severity is Severity.ERROR
    assert all(option.name in said.expected for option in layout.options)
    assert layout.chosen is layout.options[0]
    assert said.remedy.startswith("copy a name")


def test_a_part_of_an_options_name_is_told_the_whole() -> None:
    layout = lay(rectangle_room(3000.0, 2500.0), (1500.0, 1250.0), choose="full tile at S")
    near = next(option.name for option in layout.options if "full tile at S" in option.name)
    assert finding(layout, "layout-unknown-option").remedy.startswith(f"perhaps {near!r}; copy a name")


def test_room_that_full_tiles_fit_exactly() -> None:
    layout = lay(rectangle_room(10 + 4 * 300 + 3 * 3, 10 + 3 * 300 + 2 * 3), (609.5, 458.0))
    assert (layout.chosen.full, layout.chosen.cut) == (12, 0)
    assert layout.chosen.worst == 300.0
    assert layout.chosen.worst_piece == ""


def test_one_tile_room() -> None:
    layout = lay(rectangle_room(310.0, 310.0), (155.0, 155.0))
    assert [piece.full for piece in layout.pieces] == [True]


def test_room_smaller_than_a_tile() -> None:
    layout = lay(rectangle_room(250.0, 200.0), (125.0, 100.0))
    assert "layout-tile-larger-than-room" in codes(layout)
    (piece,) = layout.pieces
    assert piece.narrowest == pytest.approx(190.0)


def test_zero_joint_is_a_warning() -> None:
    layout = lay(rectangle_room(2000.0, 1500.0), (1000.0, 750.0), joint=0.0)
    assert finding(layout, "layout-zero-joint").severity is Severity.WARNING
    assert sum(piece.area for piece in layout.pieces) == pytest.approx(1990.0 * 1490.0)


def test_strip_beside_a_wall_is_refused() -> None:
    # Two tiles and their joint leave 2 of the 605 between the gaps.
    layout = lay(rectangle_room(10 + 605.0, 1500.0), (300.0, 750.0))
    found = option(layout, "full tile at W, tile on centre along")
    assert found.refused == "leaves a strip of 2 between the last tile and the gap at E, which nothing fills"


def test_a_piece_too_narrow_to_print_is_said_to_be_narrow_and_not_nought() -> None:
    layout = lay(rectangle_room(10 + 5 * 303 + 0.2, 1500.0), (760.0, 750.0))
    assert option(layout, "full tile at W, tile on centre along").refused.startswith(
        "leaves a piece under 0.5 wide at "
    )


def test_where_nothing_fits_the_best_is_laid_and_said() -> None:
    # Between walls 305 apart a tile of 300 leaves a strip of 5, or is cut to leave a piece under 10.
    layout = lay(rectangle_room(308.0 + 10, 2000.0), (159.0, 1000.0), size=(300.0, 300.0))
    for one in layout.options:
        if not one.refused:
            assert one.worst >= 10.0
    tight = lay(rectangle_room(12.0 + 10, 8.0 + 10), (11.0, 9.0), size=(300.0, 300.0))
    assert finding(tight, "layout-none-fits").severity is Severity.WARNING
    assert tight.pieces


def test_fragile_choice_says_so() -> None:
    # A full tile at W leaves 17 at E, and 10 mm out only 7.
    room = rectangle_room(10 + 5 * 303 + 17.0, 1400.0)
    layout = lay(room, (766.0, 700.0), shift_sd=10.0, limit=0.0, choose="full tile at W, tile on centre along")
    assert layout.chosen.worst == pytest.approx(17.0)
    assert layout.chosen.shaken == pytest.approx(7.0)
    assert layout.chosen.fragile
    assert finding(layout, "layout-fragile").found == "laid 10 mm out, the worst piece falls from 17 to 7"


def test_how_far_out_a_hand_is_prints_in_the_units_of_the_job() -> None:
    room = rectangle_room(10 + 5 * 303 + 17.0, 1400.0)
    given: dict[str, Any] = {"limit": 0.0, "choose": "full tile at W, tile on centre along", "style": IMPERIAL}
    layout = lay(room, (766.0, 700.0), shift_sd=10.0, turn_sd=0.002, **given)
    said = finding(layout, "layout-fragile").found
    assert said.startswith('laid 13/32" out or turned by 1/4" in 10 ft, the worst piece falls from 11/16" to ')


def test_a_gap_that_is_widened_to_keep_tiles_full_is_told() -> None:
    def gaps(width: float) -> dict[str, str]:
        layout = lay(rectangle_room(width, 1510.0), (width / 2, 755.0), gap=(5.0, 8.0))
        return {each.place: each.found for each in layout.findings if each.code == "layout-gap-widened"}

    ten_full = 10 + 10 * 300 + 9 * 3.0
    told = "the last tiles stay full, with a gap of 6.5 to the wall"
    assert gaps(ten_full) == {}
    assert gaps(ten_full + 3.0) == {"wall E": told, "wall W": told}


def test_a_strip_too_thin_to_saw_off_is_told() -> None:
    def trims(width: float, **given: Any) -> dict[str, tuple[Severity, str, str]]:
        layout = lay(rectangle_room(width, 1510.0), (width / 2, 755.0), **given)
        said = [each for each in layout.findings if each.code == "layout-thin-trim"]
        return {each.place: (each.severity, each.found, each.remedy) for each in said}

    ten_full = 10 + 10 * 300 + 9 * 3.0
    assert trims(ten_full) == {}
    told = (
        Severity.WARNING,
        "the cut takes only 0.5 off the tile",
        "grind it off, or lay full tiles with a gap of 4.5 there",
    )
    assert trims(ten_full - 1.0) == {"wall E": told, "wall W": told}
    assert trims(ten_full - 4.0) == {}
    assert trims(ten_full - 11.0, gap=(0.0, 0.0))["wall E"][2] == "grind it off"


def test_a_strip_too_thin_to_saw_off_the_fat_end_is_a_note() -> None:
    corners = {"A": (0.0, 0.0), "B": (3037.0, 0.0), "C": (3037.0, 1218.0), "D": (0.0, 1198.0)}
    layout = lay(
        room_of(corners, ("S", "E", "N", "W")), (1518.5, 600.0), choose="joint on centre across, full tile at S"
    )
    said = finding(layout, "layout-thin-trim")
    assert (said.place, said.severity) == ("wall N", Severity.NOTE)
    assert said.found == "the cut takes only 1 off the tile at its fat end"


def test_taper_is_told_where_it_shows() -> None:
    def tapers(rise: float) -> dict[str, str]:
        corners = {"A": (0.0, 0.0), "B": (9000.0, 0.0), "C": (9000.0, 2000.0), "D": (0.0, 2000.0 + rise)}
        layout = lay(room_of(corners, ("S", "E", "N", "W")), (4500.0, 1000.0))
        return {said.place: said.found for said in layout.findings if said.code == "layout-taper"}

    assert tapers(0.4) == {}
    assert tapers(4.0)["wall N"].endswith(": under 0.5 a tile")
    assert tapers(40.0)["wall N"].endswith(": 1.5 a tile")


def test_turned_error_shakes_too() -> None:
    still = lay(rectangle_room(5000.0, 4000.0), (2500.0, 2000.0), shift_sd=0.0)
    turned = lay(rectangle_room(5000.0, 4000.0), (2500.0, 2000.0), shift_sd=0.0, turn_sd=0.001)
    assert still.chosen.shaken == still.chosen.worst
    assert still.chosen.worst - 2.6 < turned.chosen.shaken < turned.chosen.worst


def test_pattern_without_rows_is_searched_from_its_two_positions_on_the_centre() -> None:
    layout = lay(larch_row(), (2100.0, 1796.0), make_cell=partial(hexagons, 200.0), limit=0.0)
    assert {option.name for option in layout.options} == {"joint on centre", "tile on centre", "widest worst piece"}
    assert layout.chosen.walls == ()
    assert layout.chosen.name == "widest worst piece"
    assert len(layout.pieces) == layout.chosen.full + layout.chosen.cut


def test_bond_is_laid_with_every_course_shifted() -> None:
    make = partial(brick_bond, (600.0, 300.0), fraction=Fraction(1, 3))
    layout = lay(rectangle_room(4000.0, 3000.0), (2000.0, 1500.0), make_cell=make, size=(600.0, 300.0), limit=100.0)
    lefts = {piece.index: piece.rings[0][:, 0].min() for piece in layout.pieces if piece.full}
    shifts = {round(x - lefts[i, j, k], 3) for (i, j, k) in lefts for x in [lefts.get((i, j + 1, k))] if x is not None}
    assert shifts == {201.0}
    assert layout.proofs[0].axis == "both"
    assert not layout.chosen.refused


def test_pattern_turned_with_its_room_is_the_same_pattern() -> None:
    plain = lay(larch_row(), (2100.0, 1796.0), size=(447.0, 447.0), limit=223.5, joint_most=5.0)
    cos, sin = math.cos(0.4), math.sin(0.4)
    room = larch_row()

    def spun(x: float, y: float) -> tuple[float, float]:
        return cos * x - sin * y, sin * x + cos * y

    corners = {corner.name: spun(corner.x, corner.y) for corner in room.corners}
    centre = spun(2100.0, 1796.0)
    turned = lay(
        room_of(corners, ("S", "E", "N", "W")), centre, size=(447.0, 447.0), limit=223.5, joint_most=5.0, angle=0.4
    )
    assert turned.chosen.name == plain.chosen.name
    assert [piece.id for piece in turned.pieces] == [piece.id for piece in plain.pieces]
    assert [piece.area for piece in turned.pieces] == pytest.approx([piece.area for piece in plain.pieces], abs=1e-2)


def test_across_is_across_the_floor_whichever_way_the_first_line_runs() -> None:
    # Tile on centre: (1990 - 300) / 2 - 2 * 303 - 3 = 236 at the sides, (1390 - 300) / 2 - 303 - 3 = 239 at the ends.
    room, centre = rectangle_room(2000.0, 1400.0), (1000.0, 700.0)
    plain, turned = lay(room, centre), lay(room, centre, angle=math.pi / 2)
    assert plain.chosen.name == turned.chosen.name == "tile on centre across, tile on centre along"
    for layout in (plain, turned):
        assert [wall.thin for wall in layout.chosen.walls] == pytest.approx([239, 236, 239, 236])
        assert [proof.axis for proof in layout.proofs] == ["across", "along"]
        assert [proof.best for proof in layout.proofs] == pytest.approx([236, 239])


def test_same_job_same_layout() -> None:
    one, other = (lay(larch_row(), (2100.0, 1796.0), size=(447.0, 447.0), joint_most=5.0) for _ in range(2))
    assert one.options == other.options
    assert one.findings == other.findings
    assert [piece.id for piece in one.pieces] == [piece.id for piece in other.pieces]


def test_ctrl_c_lays_the_best_so_far(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*given: object) -> object:
        raise KeyboardInterrupt

    monkeypatch.setattr("floorwright.layout.search.try_at", interrupted)
    layout = lay(larch_row(), (2100.0, 1796.0), size=(447.0, 447.0))
    (proof,) = layout.proofs
    assert proof.stopped
    assert proof.status == "best found"
    assert proof.bound > proof.best > 0
    assert layout.pieces


def test_progress_is_told() -> None:
    told: list[tuple[str, float]] = []
    lay(larch_row(), (2100.0, 1796.0), size=(447.0, 447.0), progress=lambda what, share: told.append((what, share)))
    assert {what for what, _ in told} == {
        "trying positions",
        "searching all positions",
        "ranking options",
        "weighing cuts against the worst piece",
    }
    assert all(0 <= share <= 1 for _, share in told)


def test_small_tiles_are_sawn_narrower() -> None:
    # A mosaic on the slant leaves corners narrower than 10 nearly everywhere; a tenth of its side can still be laid.
    slanted: dict[str, Any] = {"size": (50.0, 50.0), "angle": math.pi / 4, "limit": 0.0}
    layout = lay(rectangle_room(2000.0, 1500.0), (1000.0, 750.0), **slanted)
    joint = option(layout, "joint on centre across, joint on centre along")
    assert joint.worst == pytest.approx(9.87, abs=0.01)
    assert not joint.refused
    layout = lay(rectangle_room(2010.0, 1490.0), (1005.0, 745.0), **slanted)
    mixed = option(layout, "joint on centre across, tile on centre along")
    assert mixed.refused == "leaves a piece 4.5 wide at W, too narrow to saw (under 5)"


def test_joints_may_be_closed_where_that_leaves_no_cut() -> None:
    # Between two gaps of 5, five tiles of 600 and four joints: 3018 with joints of 2; with joints of 3 it is 4 short.
    room = rectangle_room(3018.0, 3018.0)
    laid = lay(room, (1509.0, 1509.0), size=(600.0, 600.0), joint_least=1.0)
    closed = [one for one in laid.options if one.joint == 2.0 and one.cut == 0]
    assert closed
    assert closed[0].full == 25
    assert "joint 2 mm" in closed[0].name
    assert {proof.joint for proof in laid.proofs} == {1.0, 2.0, 3.0}
    assert all(one.joint == 3.0 for one in lay(room, (1509.0, 1509.0), size=(600.0, 600.0)).options)


def test_a_fragile_choice_is_told_what_holds() -> None:
    room = rectangle_room(10 + 5 * 303 + 17.0, 1400.0)
    layout = lay(room, (766.0, 700.0), shift_sd=10.0, limit=0.0, choose="full tile at W, tile on centre along")
    remedy = finding(layout, "layout-fragile").remedy
    firm = next(option for option in layout.options if not option.refused and not option.fragile)
    assert f"take {firm.name}: {firm.cut} cut" in remedy
