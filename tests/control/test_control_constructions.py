"""Constructions fitted to a room: they end where they say, keep to floor and tools, and the truest is taken."""

import math
import re
from dataclasses import replace

import pytest
from tests.control.made import TOOLS, codes, control, finding, line
from tests.control.rooms import column, l_room, larch_row, rectangle, room

from floorwright.control.accuracy import angle_for_drift, triangle_unit
from floorwright.control.choices import Centre, FirstLine, Tools
from floorwright.findings import Severity
from floorwright.units import IMPERIAL


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
