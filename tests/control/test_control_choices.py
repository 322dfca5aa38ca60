"""First line and centre as a person chooses them, what is in the way, and what is told of it."""

import math
from dataclasses import replace

import pytest
from tests.control.made import TOOLS, codes, control, finding, line
from tests.control.rooms import column, l_room, larch_row, rectangle, room

from floorwright.control.choices import Centre, FirstLine
from floorwright.findings import Severity
from floorwright.plan.room import Opening


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
