"""Control over whole rooms: scenarios S2 and S6, turned and mirrored rooms, any centre at all."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.control.made import PARALLEL_S, S6, TOOLS, codes, control, finding, line
from tests.control.rooms import l_room, larch_row, rectangle, room

from floorwright.control.choices import Centre, FirstLine
from floorwright.control.control import Control
from floorwright.control.midlines import biggest_triangle, mid_lines
from floorwright.findings import Severity
from floorwright.plan.room import Opening, Room


class TestS2:
    """Scenario S2, the kitchen that is out of square."""

    def test_the_axis_is_at_the_middle_of_the_door_wall(self) -> None:
        found = control(larch_row(), centre=Centre(by="mid-point", wall="S"))
        assert found.centre[0] == pytest.approx(2100, abs=1e-6)
        assert found.first_how == "parallel to S"
        square = line(found, "square line").marks
        assert (square[0].on, square[0].start) == ("S", "SW")
        assert square[0].distance == pytest.approx(2100)
        assert found.centre[1] == pytest.approx((square[0].y + square[1].y) / 2)

    def test_a_parallel_line_takes_its_own_wall_for_the_mid_point(self) -> None:
        assert control(larch_row()).centre == control(larch_row(), centre=Centre(by="mid-point", wall="S")).centre

    def test_the_mid_lines_do_not_cross_square(self) -> None:
        found = mid_lines(larch_row())
        assert found is not None
        assert math.degrees(max(found.angles)) == pytest.approx(90.115, abs=0.002)
        assert 1000 * math.tan(found.out_of_square) == pytest.approx(2.0, abs=0.05)
        assert 4200 * math.tan(found.out_of_square) == pytest.approx(8.4, abs=0.05)

    def test_the_triangle_that_fits_is_1500_2000(self) -> None:
        found = mid_lines(larch_row())
        assert found is not None
        held = biggest_triangle(found.lengths[0] / 2 - 50, found.lengths[1] / 2 - 50, 50)
        assert held == (2000, 1500)

    def test_the_finding_gives_the_readings_and_the_mend(self) -> None:
        told = finding(control(larch_row()), "control-mid-lines")
        assert told.severity is Severity.NOTE
        for words in ("90.12 degrees", "8.4 mm over S", "1500 / 2000", "2502.4 towards SW and NE",
                      "2497.6 towards SE and NW", "not 2500"):  # fmt: skip
            assert words in told.found
        assert "keep one line and square the other" in told.remedy

    def test_it_is_a_warning_where_one_of_them_is_the_first_line(self) -> None:
        by_middles = control(larch_row(), FirstLine(by="mid-points", walls=("S", "N")), Centre(by="mid-point"))
        assert finding(by_middles, "control-mid-lines").severity is Severity.WARNING

    def test_the_compass_uses_its_whole_reach_and_is_good_enough(self) -> None:
        found = control(larch_row())
        chosen = next(made for made in found.constructions if made.makes == "square line" and made.chosen)
        assert (chosen.method, chosen.size) == ("compass", 1400)
        assert {step.length for step in chosen.steps if step.action == "arc"} == {2000}
        assert "good enough" in finding(found, "control-square-accuracy").found

    def test_no_finding_is_an_error(self) -> None:
        assert all(each.severity is not Severity.ERROR for each in control(larch_row()).findings)

    def test_the_door_axis(self) -> None:
        found = control(larch_row(), FirstLine(by="opening", opening="door"), Centre(by="mid-point"))
        assert found.first_how == "in line with door"
        first = line(found, "first line")
        assert math.degrees(first.angle) == pytest.approx(90)
        assert first.marks[0].on == "S"
        assert first.marks[0].distance == pytest.approx(1650)
        assert "control-mark-in-opening" in codes(found)


class TestS6:
    """Scenario S6: a square and a 45 in the middle of a 6 m line, with no pattern at all."""

    found = control(rectangle(6000, 5000), FirstLine(by="mid-points", walls=("W", "E")), tools=S6, joint=0.0)

    def test_the_line(self) -> None:
        first = line(self.found, "first line")
        assert math.dist((first.marks[0].x, first.marks[0].y), (first.marks[1].x, first.marks[1].y)) == 6000
        assert self.found.centre == pytest.approx((3000, 2500))

    def test_compass_of_2830_on_feet_of_2_m_predicts_0_354(self) -> None:
        made = next(each for each in self.found.constructions if each.method == "compass")
        assert 1000 * made.sd_angle == pytest.approx(0.354, rel=0.01)
        assert made.size == pytest.approx(2000, abs=50)
        assert made.chosen

    def test_drift_at_the_far_wall_is_the_angle_times_the_distance(self) -> None:
        square = line(self.found, "square line")
        assert [each.at for each in square.drift] == pytest.approx([2500, 2500])
        assert square.drift[1].sd == pytest.approx(2.5 * 0.354, rel=0.01)

    def test_a_45_check_on_2000_marks_reads_2828(self) -> None:
        found = control(rectangle(6000, 5000), tools=replace(S6, compass=2000.0))
        chords = [check for check in found.checks if "four chords" in check.why]
        assert [check.expected for check in chords] == pytest.approx([2828.4] * 4, abs=0.05)
        assert all(check.between[0].startswith("2000 mm out on the") for check in chords)

    def test_without_a_joint_nothing_is_held_against_it(self) -> None:
        assert not codes(self.found) & {"control-square-accuracy", "control-45-accuracy"}


def turned(where: Room, angle: float, shift: tuple[float, float]) -> Room:
    cos, sin = math.cos(angle), math.sin(angle)

    def at(x: float, y: float) -> tuple[float, float]:
        return x * cos - y * sin + shift[0], x * sin + y * cos + shift[1]

    corners = tuple(
        replace(corner, x=at(corner.x, corner.y)[0], y=at(corner.x, corner.y)[1]) for corner in where.corners
    )
    return replace(where, corners=corners)


def summary(found: Control) -> list[tuple[str, list[tuple[str, str, float]], float]]:
    """What a person works from: marks by wall and distance, and accuracy; nothing of the frame."""
    return [
        (
            each.name,
            sorted((mark.on, mark.start, round(mark.distance, 3)) for mark in each.marks),
            round(1e6 * each.sd_angle, 3),
        )
        for each in found.lines
    ]


OPENINGS = (Opening(name="door", wall="S", start=1200.0, width=900.0),)
CHOICES = st.sampled_from(
    [
        (PARALLEL_S, Centre(by="mid-point")),
        (FirstLine(by="mid-points", walls=("W", "E")), Centre(by="mid-point")),
        (FirstLine(by="opening", opening="door"), Centre(by="mid-point")),
        (PARALLEL_S, Centre(by="visual")),
        (FirstLine(by="points", points=("SW", "NE")), Centre(by="visual")),
    ]
)


@settings(max_examples=40, deadline=None)
@given(
    choice=CHOICES,
    angle=st.integers(-750, 750).map(lambda thousandths: thousandths / 1000),
    shift=st.tuples(st.floats(-9000, 9000), st.floats(-9000, 9000)),
)
def test_a_turned_room_has_the_same_control(
    choice: tuple[FirstLine, Centre], angle: float, shift: tuple[float, float]
) -> None:
    """Up to the turn at which a line is named by its other direction, which swaps the two 45s."""
    first, centre = choice
    where = replace(larch_row(), openings=OPENINGS)
    here, there = control(where, first, centre), control(turned(where, angle, shift), first, centre)
    assert len(there.constructions) == len(here.constructions)
    for mine, theirs in zip(summary(here), summary(there), strict=True):
        assert theirs[0] == mine[0]
        assert [mark[:2] for mark in theirs[1]] == [mark[:2] for mark in mine[1]]
        assert [mark[2] for mark in theirs[1]] == pytest.approx([mark[2] for mark in mine[1]], abs=0.01)
        assert theirs[2] == pytest.approx(mine[2], rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(east=st.floats(3000, 4500), north=st.floats(3000, 4500), lean=st.floats(-150, 150))
def test_a_mirrored_room_has_mirrored_control(east: float, north: float, lean: float) -> None:
    right = room({"A": (0, 0), "B": (4000, 0), "C": (4000 + lean, east), "D": (0, north)}, ["AB", "BC", "CD", "DA"])
    left = room({"B": (-4000, 0), "A": (0, 0), "D": (0, north), "C": (-4000 - lean, east)}, ["AB", "DA", "CD", "BC"])
    mine = control(right, FirstLine(by="parallel", wall="AB"))
    theirs = control(left, FirstLine(by="parallel", wall="AB"))
    assert theirs.centre == pytest.approx((-mine.centre[0], mine.centre[1]), abs=1e-6)
    for name, other in (("first line", "first line"), ("square line", "square line"), ("45 left", "45 right")):
        ends = sorted((round(-mark.x, 3), round(mark.y, 3)) for mark in line(mine, name).marks)
        mirrored = sorted((round(mark.x, 3), round(mark.y, 3)) for mark in line(theirs, other).marks)
        assert [at for pair in mirrored for at in pair] == pytest.approx(
            [at for pair in ends for at in pair], abs=0.002
        )
    assert line(theirs, "square line").sd_angle == pytest.approx(line(mine, "square line").sd_angle)


@settings(max_examples=60, deadline=None)
@given(
    x=st.floats(60, 4900),
    y=st.floats(60, 4500),
    angle=st.integers(-3000, 3000).map(lambda thousandths: thousandths / 1000),
    reach=st.sampled_from([0.0, 1200.0, 2500.0]),
)
def test_any_centre_in_an_l_gives_marks_on_walls(x: float, y: float, angle: float, reach: float) -> None:
    where = turned(replace(l_room(), obstacles=()), angle, (0.0, 0.0))
    centre = math.cos(angle) * x - math.sin(angle) * y, math.sin(angle) * x + math.cos(angle) * y
    found = control(where, FirstLine(by="parallel", wall="AB"), Centre(by="point", point=centre),
                    replace(TOOLS, compass=reach))  # fmt: skip
    assert len(found.lines) == 4
    for each in found.lines:
        assert len(each.marks) == 2
        for mark in each.marks:
            start, end = where.ends(mark.on)
            length = math.dist(start, end)
            assert -1e-6 <= mark.distance <= length + 1e-6
            from_start = mark.distance if mark.start == where.wall(mark.on).start else length - mark.distance
            at = start + (end - start) * from_start / length
            assert (mark.x, mark.y) == pytest.approx(tuple(at), abs=1e-2)
        assert each.sd_angle > 0
