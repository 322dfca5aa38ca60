"""Ways out of cuts that do not fit or that taper: figures by trigonometry, and laws over rooms of any slant."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.layout.jobs import larch_row, lay, meet, rectangle_room, room_of, wall

from floorwright.layout.layout import Layout
from floorwright.layout.way_out import CLOSE, GAP, JOINTS, MOVE, SHARE, TURN, Trouble, WayOut
from floorwright.units import METRIC

AXIS = (2100.0, 1796.0)
DOOR = "full tile at S"


def angle_between(a: float, b: float, opposite: float) -> float:
    """Law of cosines."""
    return math.acos((a**2 + b**2 - opposite**2) / (2 * a * b))


def lay_kitchen(**given_: object) -> Layout:
    return lay(larch_row(), AXIS, size=(447.0, 447.0), limit=223.5, **given_)


@pytest.fixture(scope="module")
def kitchen() -> Layout:
    return lay_kitchen(joint_most=5.0)


def at(layout: Layout, position: str) -> Trouble:
    return next(trouble for trouble in layout.troubles if trouble.position == position)


def way(trouble: Trouble, how: str) -> WayOut:
    return next(way for way in trouble.ways if way.how == how)


def test_s2_joints_of_4_are_a_way_out_and_3_711_is_the_least(kitchen: Layout) -> None:
    trouble = at(kitchen, DOOR)
    assert trouble.wall == "N"
    assert trouble.found == "full tile at S needs 428 to 452 at N, a tile is 447"
    found = way(trouble, JOINTS)
    assert found.option.joint == 4.0
    assert found.by == pytest.approx(1.0)
    assert "3.711" in found.note
    assert found.option in kitchen.options


def test_s2_a_gap_of_7_would_do_it(kitchen: Layout) -> None:
    # Up the east side there are eight full tiles, seven joints and two gaps of 5 in the height, and what is over.
    sw, se = (0.0, 0.0), (4200.0, 0.0)
    height = meet(sw, 5530.0, se, 3612.0)[1]
    over = height - 8 * 447 - 7 * 3 - 2 * 5
    found = way(at(kitchen, DOOR), GAP)
    assert found.note.startswith("or 7 at S and 8 at N, or 10 at S alone")
    assert 5 + over - 3 == pytest.approx(7, abs=0.05)
    # The fat end is measured in the corner with the gap off, a little below it; shared, the rest is half of it each.
    assert found.by == pytest.approx(math.ceil(over) / 2, abs=0.25)
    assert found.needs == "a gap of up to 7.5 mm"


def test_s2_the_gap_is_chosen_where_the_contract_allows_it() -> None:
    allowed = lay_kitchen(gap=(5.0, 7.5))
    found = way(at(allowed, DOOR), GAP)
    assert not found.needs
    chosen = lay_kitchen(gap=(5.0, 7.5), choose=found.option.name)
    assert chosen.chosen.name == found.option.name
    assert (chosen.chosen.full, chosen.chosen.cut) == (found.option.full, found.option.cut)
    assert not chosen.chosen.refused
    assert sum(piece.full for piece in chosen.pieces) == found.option.full


def test_s2_no_turn_makes_the_door_row_fit(kitchen: Layout) -> None:
    # At the east end the two rows have 899 to share, and two tiles are 894: no turn changes that.
    assert TURN in at(kitchen, DOOR).none


def test_s2_turns_by_trigonometry(kitchen: Layout) -> None:
    south_east = angle_between(4200, 3612, 5530)
    north_east = angle_between(3612, 4210, 5541)
    slant = math.pi - south_east - north_east
    trouble = at(kitchen, "")
    assert trouble.wall == "N"
    true = way(trouble, TURN)
    assert true.by == pytest.approx(4210 * math.tan(slant), abs=0.05)
    assert true.turn == pytest.approx(slant, abs=1e-5)
    assert wall(true.option, "N").start == pytest.approx(wall(true.option, "N").end, abs=0.05)
    shared = way(trouble, SHARE)
    assert shared.by == pytest.approx(4210 * math.tan(slant / 2), abs=0.05)


def test_s2_shared_the_two_walls_taper_alike_and_the_sum_closes(kitchen: Layout) -> None:
    shared = way(at(kitchen, ""), SHARE)
    south, north = wall(shared.option, "S"), wall(shared.option, "N")
    assert south.fat - south.thin == pytest.approx(4200 * math.tan(shared.turn), abs=0.05)
    assert north.fat - north.thin == pytest.approx(4210 * math.tan(shared.turn), abs=0.05)
    sw, se = np.zeros(2), np.array([4200.0, 0.0])
    ne = np.array(meet((0.0, 0.0), 5530.0, (4200.0, 0.0), 3612.0))
    nw = np.array(meet((0.0, 0.0), 3588.0, (float(ne[0]), float(ne[1])), 4210.0))
    up = np.array([-math.sin(shared.turn), math.cos(shared.turn)])
    for low, high, ends in ((sw, nw, south.start + north.end), (se, ne, south.end + north.start)):
        rows = (up @ (high - low) - 10 - ends - 4) / 451
        assert rows == pytest.approx(round(rows), abs=0.001)


def test_a_way_out_is_chosen_by_its_name(kitchen: Layout) -> None:
    for trouble in kitchen.troubles:
        for found in trouble.ways:
            chosen = lay_kitchen(joint_most=5.0, choose=found.option.name)
            if found.needs:
                assert any(finding.code == "layout-unknown-option" for finding in chosen.findings)
                continue
            assert chosen.chosen.name == found.option.name
            assert chosen.chosen in chosen.options
            assert sum(piece.full for piece in chosen.pieces) == found.option.full
            assert sum(not piece.full for piece in chosen.pieces) == found.option.cut
            assert [t.found for t in chosen.troubles] == [t.found for t in kitchen.troubles]


def test_a_true_room_where_all_fits_has_no_trouble() -> None:
    assert lay(rectangle_room(2232.0, 3123.0), (1116.0, 1561.5), size=(298.0, 298.0)).troubles == ()


def test_hidden_walls_need_no_way_out(kitchen: Layout) -> None:
    assert {trouble.wall for trouble in kitchen.troubles if not trouble.position} == {"N"}


slants = st.floats(-30.0, 30.0)


@settings(max_examples=12)
@given(st.floats(2200, 4200), st.floats(2200, 4200), slants, slants, slants)
def test_ways_out_are_what_they_say(width: float, height: float, a: float, b: float, c: float) -> None:
    corners = {"SW": (0.0, 0.0), "SE": (width, 0.0), "NE": (width + a, height + b), "NW": (0.0, height + c)}
    room = room_of(corners, ("S", "E", "N", "W"))
    layout = lay(room, (width / 2, height / 2), joint_most=5.0)
    for trouble in layout.troubles:
        for found in trouble.ways:
            option = found.option
            assert not option.refused
            assert all(cut.fits for cut in option.walls)
            if found.how in (TURN, SHARE):
                assert found.by == pytest.approx(abs(math.tan(found.turn)) * found.over)
                assert option.placement.angle - found.turn == pytest.approx(
                    layout.options[0].placement.angle if not found.position else 0.0, abs=1e-9
                )
            if found.how == SHARE:
                mended = wall(option, found.wall)
                across = {"S": "N", "N": "S", "E": "W", "W": "E"}[found.wall]
                other = wall(option, across)
                assert mended.fat - mended.thin == pytest.approx(other.fat - other.thin, abs=1.0)
            if found.how == MOVE:
                assert option.placement.angle == 0.0
                assert option.joint == 3.0


@pytest.mark.parametrize(("width", "height", "left", "right"), [(3480.0, 4900.0, 25.0, 120.0), (4920, 2830, 45, -145)])
def test_a_turn_that_has_a_wall_run_across_the_rows_is_no_way_out_of_its_cut(
    width: float, height: float, left: float, right: float
) -> None:
    # A little more crooked and the east wall tapers by over half a tile: no cut runs along it any more.
    corners = {"SW": (0.0, 0.0), "SE": (width, 0.0), "NE": (width + right, height), "NW": (left, height)}
    found = lay(room_of(corners, ("S", "E", "N", "W")), (width / 2, height / 2))
    at_east = [trouble for trouble in found.troubles if trouble.wall == "E"]
    assert at_east
    for trouble in at_east:
        for turned in (one for one in trouble.ways if one.how == TURN):
            assert "E" in {cut.wall for cut in turned.option.walls}


@pytest.mark.parametrize(("slant", "joint_least"), [(0.0, None), (0.2, None), (3.0, None), (11.0, 0.0)])
def test_no_way_out_is_a_change_of_nothing(slant: float, joint_least: float | None) -> None:
    corners = {"SW": (0.0, 0.0), "SE": (3620.0, 35.0 * bool(slant)), "NE": (3613.0, 4510.0), "NW": (-slant, 4470.0)}
    room = room_of(corners, ("S", "E", "N", "W"))
    layout = lay(room, (1810.0, 2240.0), size=(450.0, 450.0), joint_most=6.0, joint_least=joint_least)
    told = 0
    for trouble in layout.troubles:
        assert len({(way.how, round(way.by * 2), way.turn > 0) for way in trouble.ways}) == len(trouble.ways)
        for found in trouble.ways:
            told += 1
            assert METRIC.steps(found.by) > 0
            assert found.how != GAP or found.by > 0.25
            if found.how == MOVE:
                assert found.note.startswith("towards ")
                assert found.note in found.option.name
    assert told or not layout.troubles


def test_closer_joints_are_said_to_be_closer() -> None:
    """Four tiles of 300 with joints of 3 leave 3 at the end, with joints of 0 there is room for a cut there."""
    layout = lay(rectangle_room(10 + 4 * 303.0, 1400.0), (611.0, 700.0), joint_least=0.0)
    found = [way for trouble in layout.troubles for way in trouble.ways if way.how in (JOINTS, CLOSE)]
    assert [(way.how, way.by, way.option.joint) for way in found] == [(CLOSE, 3.0, 0.0)] * 2
