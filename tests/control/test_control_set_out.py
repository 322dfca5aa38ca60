"""Control over whole rooms: scenarios S2 and S6, the choices, what is in the way, turned and mirrored rooms."""

import math
import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.control.rooms import column, l_room, larch_row, rectangle, room

from floorwright.control.accuracy import angle_for_drift, triangle_unit
from floorwright.control.choices import Centre, FirstLine, Tools
from floorwright.control.control import Control, ControlLine
from floorwright.control.midlines import biggest_triangle, mid_lines
from floorwright.control.set_out import set_control
from floorwright.findings import Finding, Severity
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Opening, Room
from floorwright.units import IMPERIAL, METRIC, LengthStyle

TOOLS = Tools(compass=2000, tape=8000, mark=0.5, set=1.0)
S6 = Tools(compass=2850, tape=8000, mark=0.0, set=1.0)
PARALLEL_S = FirstLine(by="parallel", wall="S")
ON_LINE = Centre(by="mid-point")


def control(
    room: Room,
    first: FirstLine = PARALLEL_S,
    centre: Centre = ON_LINE,
    tools: Tools = TOOLS,
    joint: float = 3.0,
    style: LengthStyle = METRIC,
) -> Control:
    return set_control(
        room=room, region=floor_region(room), first=first, centre=centre, tools=tools, joint=joint, style=style
    )


def finding(found: Control, code: str) -> Finding:
    return next(each for each in found.findings if each.code == code)


def codes(found: Control) -> set[str]:
    return {each.code for each in found.findings}


def line(found: Control, name: str) -> ControlLine:
    return next(each for each in found.lines if each.name == name)


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


def test_a_square_room_says_nothing_of_its_mid_lines() -> None:
    assert "control-mid-lines" not in codes(control(rectangle(4000, 3000)))


def test_no_construction_beats_the_arcs_that_cross_square() -> None:
    """The feet that are fitted to a reach stand within a step of reach / sqrt 2."""
    for reach in (1000, 1500, 2000, 2500):
        found = control(rectangle(8000, 8000), tools=replace(TOOLS, compass=reach))
        made = next(each for each in found.constructions if each.method == "compass")
        assert abs(made.size - reach / math.sqrt(2)) <= 50


def test_every_construction_ends_where_it_says() -> None:
    """Arcs of each step pass through the point that they are struck for, and lines run where the line runs."""
    for where in (larch_row(), rectangle(6000, 5000), l_room()):
        found = control(where, FirstLine(by="parallel", wall=where.walls[0].name), Centre(by="visual"))
        for made in found.constructions:
            for step in made.steps:
                for arc in step.arcs:
                    assert math.dist(arc.centre, arc.near) == pytest.approx(arc.radius)
            last = next(step for step in made.steps if step.action == "join")
            start, end = (at[1:] for at in last.points)
            angle = math.atan2(end[1] - start[1], end[0] - start[0])
            assert abs(math.sin(angle - line(found, made.makes).angle)) < 1e-9
            assert [step.number for step in made.steps] == list(range(1, len(made.steps) + 1))


def test_constructions_keep_to_the_floor_and_the_tools() -> None:
    where = room(
        {"SW": (0, 0), "SE": (5000, 0), "NE": (5000, 4000), "NW": (0, 4000)},
        "SENW",
        obstacles=(column(3300, 2700, 300),),
    )
    found = control(where, tools=Tools(compass=1500, tape=3000, mark=0.5, set=1.0))
    for made in found.constructions:
        if made.makes == "first line":
            continue
        assert made.method != "marks on the walls"
        for step in made.steps:
            assert step.length <= (1500 if step.tool == "compass" else 3000)
            for _, x, y in step.points:
                assert 0 < x < 5000
                assert 0 < y < 4000
                assert not (3300 < x < 3600 and 2700 < y < 3000)


def test_without_a_compass_the_tape_does_it() -> None:
    found = control(larch_row(), tools=replace(TOOLS, compass=0.0))
    assert {made.method for made in found.constructions} == {
        "marks on the walls", "3-4-5", "equal diagonals", "four equal marks"
    }  # fmt: skip
    assert sum(made.chosen for made in found.constructions if made.makes == "square line") == 1


def test_a_small_compass_is_told_what_would_do() -> None:
    found = control(larch_row(), tools=Tools(compass=600, tape=1000, mark=0.5, set=1.0))
    told = finding(found, "control-square-accuracy")
    assert told.severity is Severity.WARNING
    assert "use a bigger one: feet" in told.remedy


def test_a_bigger_size_is_told_only_where_the_floor_has_room() -> None:
    small = Tools(compass=600, tape=1000, mark=0.5, set=1.0)
    hall = finding(control(rectangle(6000, 6000), tools=small), "control-square-accuracy").remedy
    feet, arcs = (float(size) for size in re.findall(r"[\d.]+", hall))
    assert feet < arcs < feet * 1.42
    assert feet <= 3000 < triangle_unit(angle_for_drift(1.5, 3000, small) or 0.0, small) * 4
    assert hall.endswith("without the tools for it prove the cross by the check readings before anything is laid")

    corridor = finding(control(rectangle(900, 12000)), "control-square-accuracy")
    assert corridor.remedy == (
        "no bigger one fits this floor: prove the cross by the check readings before anything is laid"
    )


def test_marks_coarser_than_half_the_joint_are_told_so() -> None:
    told = finding(control(larch_row(), tools=replace(TOOLS, mark=2.0)), "control-square-accuracy")
    assert "finer marks" in told.remedy


def test_inches_come_in_whole_inches_and_never_as_decimals() -> None:
    found = control(
        rectangle(87.5 * 25.4, 122.625 * 25.4),
        tools=Tools(compass=48 * 25.4, tape=16 * 304.8, mark=0.4, set=0.8),
        joint=6.35,
        style=IMPERIAL,
    )
    made = next(each for each in found.constructions if each.method == "compass")
    assert (made.size / 25.4) == pytest.approx(round(made.size / 25.4))
    for told in found.findings:
        for text in (told.found, told.expected, told.remedy):
            assert "mm" not in text
            assert not any(
                part.count(".") and part.replace(".", "").isdigit() for part in text.replace('"', " ").split()
            )


class TestChoices:
    def test_mid_points_of_two_walls(self) -> None:
        found = control(rectangle(4000, 3000), FirstLine(by="mid-points", walls=("S", "N")))
        first = line(found, "first line")
        assert math.degrees(first.angle) == pytest.approx(90)
        assert [mark.on for mark in first.marks] == ["S", "N"]
        assert found.centre == pytest.approx((2000, 1500))

    def test_parallel_to_nothing_named_takes_the_first_wall(self) -> None:
        assert control(larch_row(), FirstLine(by="parallel")).first_how == "parallel to S"

    def test_two_points_by_corner_and_by_place(self) -> None:
        found = control(rectangle(4000, 3000), FirstLine(by="points", points=("SW", (4000.0, 3000.0))))
        assert math.tan(line(found, "first line").angle) == pytest.approx(0.75)
        assert found.first_how == "through SW and (4000, 3000)"
        assert found.centre == pytest.approx((2000, 1500))

    def test_a_typed_point_is_moved_onto_a_line_of_its_own_place(self) -> None:
        first = FirstLine(by="mid-points", walls=("W", "E"))
        found = control(rectangle(4000, 3000), first, Centre(by="point", point=(1000.0, 1520.0)))
        assert found.centre == pytest.approx((1000, 1500))
        told = finding(found, "control-centre-moved")
        assert "20 mm off the first line" in told.found
        assert told.severity is Severity.WARNING

    @pytest.mark.parametrize("wall", ["E", "W"])
    def test_from_the_middle_of_a_wall_that_a_parallel_line_runs_onto(self, wall: str) -> None:
        found = control(larch_row(), centre=Centre(by="mid-point", wall=wall))
        middle = {"E": 3612 / 2, "W": 3588 / 2}[wall]
        assert found.centre == pytest.approx((2100, middle), abs=12)
        assert found.centre_how == f"half way across the room from the middle of {wall}"
        (mark,) = (mark for mark in line(found, "first line").marks if mark.on == wall)
        assert mark.distance == pytest.approx(middle, abs=1)

    def test_from_the_middle_of_a_wall_that_a_fixed_line_runs_onto_is_the_lines_own_middle(self) -> None:
        first = FirstLine(by="mid-points", walls=("W", "E"))
        found = control(rectangle(4000, 3000), first, Centre(by="mid-point", wall="E"))
        assert found.centre == pytest.approx((2000, 1500))
        assert "control-centre-along" in codes(found)
        along = control(rectangle(4000, 3000), first, Centre(by="mid-point", wall="S"))
        assert along.centre == pytest.approx((2000, 1500))
        assert "control-centre-along" not in codes(along)

    def test_a_parallel_line_passes_through_a_typed_point(self) -> None:
        found = control(rectangle(4000, 3000), centre=Centre(by="point", point=(1000.0, 700.0)))
        assert found.centre == (1000.0, 700.0)
        assert line(found, "first line").marks[0].y == pytest.approx(700)
        assert "control-centre-moved" not in codes(found)

    def test_the_centre_on_the_line_of_a_door(self) -> None:
        doors = (Opening(name="french doors", wall="S", start=2000.0, width=1800.0),)
        found = control(rectangle(5600, 4400, openings=doors), centre=Centre(by="opening", opening="french doors"))
        assert found.centre == pytest.approx((2900, 2200))

    def test_a_door_axis_along_the_first_line_takes_the_middle(self) -> None:
        doors = (Opening(name="door", wall="W", start=1000.0, width=800.0),)
        first = FirstLine(by="mid-points", walls=("W", "E"))
        found = control(rectangle(4000, 3000, openings=doors), first, Centre(by="opening"))
        assert found.centre == pytest.approx((2000, 1500))
        assert "control-centre-along" in codes(found)

    @pytest.mark.parametrize(
        ("first", "said"),
        [
            (FirstLine(by="parallel", wall="Q"), "one of S, E, N, W"),
            (FirstLine(by="mid-points", walls=("S", "Q")), "one of S, E, N, W"),
            (FirstLine(by="mid-points", walls=("S",)), "two walls"),
            (FirstLine(by="mid-points", walls=("S", "S")), "two points apart"),
            (FirstLine(by="opening", opening="hatch"), "none is booked"),
            (FirstLine(by="points", points=("SW", "Q")), "one of SW, SE, NE, NW"),
            (FirstLine(by="points", points=()), "two points"),
        ],
    )
    def test_a_first_line_that_cannot_be_is_an_error_and_a_line_stands_in(self, first: FirstLine, said: str) -> None:
        found = control(rectangle(4000, 3000), first)
        told = finding(found, "control-first-line")
        assert told.severity is Severity.ERROR
        assert told.expected == said
        assert line(found, "first line").angle == 0.0

    @pytest.mark.parametrize(
        "centre",
        [
            Centre(by="mid-point", wall="Q"),
            Centre(by="opening", opening="hatch"),
            Centre(by="visual", opening="hatch"),
            Centre(by="point", point="Q"),
            Centre(by="point"),
        ],
    )
    def test_a_centre_that_cannot_be_is_an_error_and_the_middle_stands_in(self, centre: Centre) -> None:
        found = control(rectangle(4000, 3000), centre=centre)
        assert finding(found, "control-centre").severity is Severity.ERROR
        assert found.centre == pytest.approx((2000, 1500))

    def test_a_centre_outside_is_an_error(self) -> None:
        found = control(rectangle(4000, 3000), centre=Centre(by="point", point=(4120.0, 100.0)))
        told = finding(found, "control-centre-outside")
        assert "120 mm from it" in told.found
        assert found.centre == pytest.approx((2000, 1500))

    @pytest.mark.parametrize("point", ["SW", (2000.0, 0.0), (0.0, 3000.0)])
    def test_a_centre_on_a_wall_is_an_error(self, point: str | tuple[float, float]) -> None:
        found = control(rectangle(4000, 3000), centre=Centre(by="point", point=point))
        assert "lies on a wall" in finding(found, "control-centre-outside").found
        assert found.centre == pytest.approx((2000, 1500))

    def test_a_first_line_that_misses_the_room_is_an_error(self) -> None:
        first = FirstLine(by="points", points=((9000.0, 0.0), (9000.0, 500.0)))
        found = control(rectangle(4000, 3000), first)
        assert any(each.severity is Severity.ERROR for each in found.findings)
        assert found.centre == pytest.approx((2000, 1500))

    def test_a_centre_in_a_column_is_a_warning(self) -> None:
        where = replace(rectangle(4000, 3000), obstacles=(column(1900, 1400, 200),))
        found = control(where)
        assert finding(found, "control-centre-in-obstacle").severity is Severity.WARNING
        assert "column" in finding(found, "control-centre-in-obstacle").found
        assert "control-no-construction" in codes(found)
        assert all(each.sd_angle > 0 for each in found.lines)

    def test_a_column_over_a_wall_mark_is_a_warning_and_the_line_runs_on(self) -> None:
        where = replace(rectangle(4000, 3000), obstacles=(column(1900, 2800, 200),))
        found = control(where)
        assert [mark.on for mark in line(found, "square line").marks] == ["S", "N"]
        assert "control-mark-covered" in codes(found)


class TestVisualCentre:
    """The middle of what is seen from a door."""

    def test_rectangle(self) -> None:
        doors = (Opening(name="door", wall="S", start=1500.0, width=800.0),)
        found = control(rectangle(4000, 5000, openings=doors), centre=Centre(by="visual"))
        assert found.centre == pytest.approx((2000, 2500), abs=1.0)
        assert found.centre_how == "middle of what is seen from door"

    def test_what_is_round_the_corner_does_not_count(self) -> None:
        doors = (Opening(name="door", wall="BC", start=500.0, width=900.0),)
        found = control(replace(l_room(), openings=doors), FirstLine(by="parallel", wall="AB"), Centre(by="visual"))
        whole = control(l_room(), FirstLine(by="parallel", wall="AB"), Centre(by="visual"))
        assert found.centre[1] < whole.centre[1]
        assert "control-no-door" in codes(whole)

    def test_a_middle_in_a_column_falls_back_to_the_line_of_the_door(self) -> None:
        doors = (Opening(name="door", wall="S", start=300.0, width=800.0),)
        pipe = column(1850, 2350, 300)
        where = replace(rectangle(4000, 5000, openings=doors), obstacles=(pipe,))
        found = control(where, centre=Centre(by="visual"))
        assert "control-visual-fallback" in codes(found)
        assert found.centre == pytest.approx((700, 2500))

    def test_a_reveal_is_looked_through(self) -> None:
        doors = (Opening(name="door", wall="S", start=1600.0, width=800.0, reveal=100.0),)
        found = control(rectangle(4000, 5000, openings=doors), centre=Centre(by="visual"))
        assert found.centre[0] == pytest.approx(2000, abs=1.0)


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


def test_a_long_tape_distance_is_taken_from_the_nearer_corner() -> None:
    found = control(rectangle(6000, 4000), centre=Centre(by="point", point=(5000.0, 2000.0)),
                    tools=replace(TOOLS, tape=3000))  # fmt: skip
    start = line(found, "square line").marks[0]
    assert (start.on, start.start) == ("S", "SE")
    assert start.distance == pytest.approx(1000)


def test_a_corner_called_as_a_mark_is_warned_of() -> None:
    corners = {"X1": (0.0, 0.0), "M1": (5000.0, 0.0), "C": (5000.0, 4000.0), "D": (0.0, 4000.0)}
    told = finding(control(room(corners, ("a", "b", "c", "d"))), "control-name-twice")
    assert told.severity is Severity.WARNING
    assert told.place == "corner X1, M1"
    assert "control-name-twice" not in codes(control(rectangle(5000, 4000)))
