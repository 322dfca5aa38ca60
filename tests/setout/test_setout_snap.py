"""The snap list: scenario S1's figures, one nail, diagonal patterns, lines left out."""

import math
from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.control.rooms import l_room, larch_row, rectangle
from tests.setout.floors import control_of, laid

from floorwright.errors import FloorwrightValueError
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.setout.snap import SnapLine, SnapList, snap_list

IN = 25.4


def family(found: SnapList, name: str) -> list[SnapLine]:
    return [line for line in found.lines if line.family == name]


class TestS1:
    """Scenario S1: 7' 3-1/2" x 10' 2-5/8", tile 11-3/4", joint 1/4", gap 1/8"."""

    room = rectangle(87.5 * IN, 122.625 * IN)
    layout = laid(room, grid((11.75 * IN, 11.75 * IN), 0.25 * IN), (43.75 * IN, (61.3125 - 6) * IN), gap=0.125 * IN)
    found = snap_list(room=room, control=control_of(room), layouts=[layout])

    def test_the_nail_is_in_the_near_left_corner(self) -> None:
        assert self.found.zero == "SW"

    def test_seven_lines_from_the_left_wall(self) -> None:
        runs = [line.running for line in family(self.found, "columns")]
        assert runs == pytest.approx([(7.75 + 12 * n) * IN for n in range(7)], abs=0.05)
        assert runs[-1] == pytest.approx(79.75 * IN, abs=0.05)

    def test_ten_lines_from_the_near_wall(self) -> None:
        runs = [line.running for line in family(self.found, "rows")]
        assert runs == pytest.approx([(7.3125 + 12 * n) * IN for n in range(10)], abs=0.05)
        assert runs[-1] == pytest.approx(115.3125 * IN, abs=0.05)

    def test_in_a_square_room_the_marks_read_as_the_lines_run(self) -> None:
        for name, walls in (("columns", {"S": "SW", "N": "NW"}), ("rows", {"W": "SW", "E": "SE"})):
            for line in family(self.found, name):
                assert {mark.on: mark.start for mark in line.marks} == walls
                assert [mark.distance for mark in line.marks] == pytest.approx([line.running] * 2)

    def test_control_lines_come_first_and_run_from_the_same_nail(self) -> None:
        first = self.found.lines[:4]
        assert [line.name for line in first] == ["first line", "square line", "45 left", "45 right"]
        assert {line.family for line in first} == {"control"}
        assert first[0].running == pytest.approx(61.3125 * IN)
        assert [line.running for line in first[1:]] == pytest.approx([43.75 * IN] * 3)
        assert {mark.start for line in first[:2] for mark in line.marks} == {"SW", "SE", "NW"}

    def test_lines_are_numbered_in_order(self) -> None:
        assert [line.name for line in family(self.found, "columns")] == [f"columns {n}" for n in range(1, 8)]


class TestS2:
    """Scenario S2: a crooked room; full tile at the door wall with joints of 4."""

    layout = laid(larch_row(), grid((447, 447), 4), (2100, 5 - 2))
    found = snap_list(room=larch_row(), control=control_of(larch_row()), layouts=[layout])

    def test_the_joint_inside_the_gap_is_left_out(self) -> None:
        assert family(self.found, "rows")[0].running == pytest.approx(454)

    def test_columns_run_from_the_nail_to_the_axis(self) -> None:
        runs = [line.running for line in family(self.found, "columns")]
        assert 2100 in [round(run, 6) for run in runs]
        assert min(runs) > 0
        assert self.found.zero == "SW"

    def test_marks_on_the_far_wall_are_where_the_line_meets_it(self) -> None:
        room = larch_row()
        for line in self.found.lines:
            for mark in line.marks:
                start, end = room.ends(mark.on)
                corner = room.corner(mark.start)
                assert math.dist((corner.x, corner.y), (mark.x, mark.y)) == pytest.approx(mark.distance, abs=1e-6)
                off = (end[0] - start[0]) * (mark.y - start[1]) - (end[1] - start[1]) * (mark.x - start[0])
                assert off / math.dist(start, end) == pytest.approx(0, abs=1e-6)
                across = np.array([-math.sin(line.angle), math.cos(line.angle)])
                ends = [np.array([each.x, each.y]) @ across for each in line.marks]
                assert ends[0] == pytest.approx(ends[1], abs=1e-6)


def test_a_nail_in_another_corner_measures_into_the_room() -> None:
    room = rectangle(4000, 3000)
    layout = laid(room, grid((447, 447), 3), (2000, 1500))
    found = snap_list(room=room, control=control_of(room), layouts=[layout], zero="NE")
    assert found.zero == "NE"
    assert [line.running for line in family(found, "columns")] == pytest.approx([200 + 450 * n for n in range(9)])
    assert {mark.start for line in family(found, "columns") for mark in line.marks} == {"NE", "SE"}


def test_a_nail_in_no_corner_is_refused() -> None:
    room = rectangle(4000, 3000)
    with pytest.raises(FloorwrightValueError, match="SW, SE, NE, NW"):
        snap_list(room=room, control=control_of(room), zero="Q")


def test_without_a_pattern_the_control_lines_are_the_list() -> None:
    room = rectangle(6000, 5000)
    found = snap_list(room=room, control=control_of(room))
    assert [line.name for line in found.lines] == ["first line", "square line", "45 left", "45 right"]
    assert found.zero == "SW"


def test_a_bond_has_perps_that_do_not_run_through() -> None:
    room = rectangle(3000, 2000)
    layout = laid(room, brick_bond((300, 100), 2, Fraction(1, 2)), (1500, 1000))
    found = snap_list(room=room, control=control_of(room), layouts=[layout])
    assert all(line.through for line in family(found, "courses"))
    assert not any(line.through for line in family(found, "perps"))
    gaps = np.diff([line.running for line in family(found, "perps")])
    assert gaps == pytest.approx(151)


def test_lines_that_graze_the_zone_are_left_out() -> None:
    room = rectangle(4000, 3000)
    for off, kept in ((0.0, False), (0.9, False), (1.1, True)):
        layout = laid(room, grid((497, 497), 3), (5.0 + off, 1500), gap=5)
        first = family(snap_list(room=room, control=control_of(room), layouts=[layout]), "columns")[0]
        assert first.running == pytest.approx(5 + off if kept else 505 + off)


def test_a_diagonal_grid_runs_from_one_nail_both_ways() -> None:
    room = rectangle(5600, 4400)
    layout = laid(room, grid((300, 300), 3), (2900, 2200), angle=math.pi / 4)
    found = snap_list(room=room, control=control_of(room), layouts=[layout])
    for name in ("rows", "columns"):
        runs = [line.running for line in family(found, name)]
        assert np.diff(runs) == pytest.approx(303)
        assert sum(runs) > 0
        nail = room.corner(found.zero)
        for line in family(found, name):
            mark = line.marks[0]
            across = (mark.x - nail.x) * -math.sin(line.angle) + (mark.y - nail.y) * math.cos(line.angle)
            assert abs(across) == pytest.approx(abs(line.running))
    least = min(line.running for line in found.lines)
    assert least > -4400


def test_in_a_room_that_is_not_convex_the_outermost_marks_count() -> None:
    room = l_room()
    layout = laid(room, grid((497, 497), 3), (0, 0))
    found = snap_list(room=room, control=control_of(room), layouts=[layout])
    ends = {line.name: [mark.on for mark in line.marks] for line in found.lines}
    assert ends["rows 1"] == ["FA", "BC"]
    assert ends["rows 8"] == ["FA", "DE"]
    assert ends["columns 8"] == ["AB", "CD"]


def test_two_zones_name_their_lines() -> None:
    room = rectangle(4000, 3000)
    layouts = [laid(room, grid((497, 497), 3), (0, 0), zone=zone) for zone in ("hall", "porch")]
    names = {line.family for line in snap_list(room=room, control=control_of(room), layouts=layouts).lines}
    assert names == {"control", "hall rows", "hall columns", "porch rows", "porch columns"}


@settings(max_examples=40, deadline=None)
@given(
    lean=st.tuples(*[st.integers(-80, 80)] * 4),
    tile=st.integers(200, 700),
    joint=st.integers(1, 8),
    at=st.tuples(st.integers(-400, 400), st.integers(-400, 400)),
    degrees=st.sampled_from([0, 3, 30, 45, -20]),
)
def test_every_joint_line_of_the_zone_is_listed_once(
    lean: tuple[int, ...], tile: int, joint: int, at: tuple[int, int], degrees: int
) -> None:
    room = rectangle(3200, 2600)
    corners = tuple(
        replace(corner, x=corner.x + lean[n], y=corner.y + lean[n - 1]) for n, corner in enumerate(room.corners)
    )
    room = replace(room, corners=corners)
    layout = laid(room, grid((tile, tile), joint), at, angle=math.radians(degrees))
    found = snap_list(room=room, control=control_of(room), layouts=[layout])
    for name, turn in (("rows", 0.0), ("columns", math.pi / 2)):
        normal = math.radians(degrees) + turn + math.pi / 2
        off = (layout.region.rings[0] - np.array(at)) @ np.array([math.cos(normal), math.sin(normal)])
        count = math.floor((off.max() - 1) / (tile + joint)) - math.ceil((off.min() + 1) / (tile + joint)) + 1
        lines = family(found, name)
        assert len(lines) == count
        assert np.diff([line.running for line in lines]) == pytest.approx(tile + joint)
        assert all(len(line.marks) == 2 for line in lines)
