"""A line past something that stands on it: where it comes out, how true, and what a person is told."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.control.rooms import column, rectangle

from floorwright.control.choices import Centre, FirstLine, Tools
from floorwright.control.control import Construction, Control
from floorwright.control.past import shift_behind
from floorwright.control.predicted import past_shift, past_turn
from floorwright.control.set_out import set_control
from floorwright.control.sight import is_clear
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Obstacle, Room
from floorwright.units import METRIC

TOOLS = Tools(compass=2000, tape=8000, mark=0.5, set=1.0)


def control_of(room: Room, tools: Tools = TOOLS) -> Control:
    return set_control(
        room=room,
        region=floor_region(room),
        first=FirstLine(by="mid-points", walls=("W", "E")),
        centre=Centre(by="mid-point"),
        tools=tools,
        joint=3.0,
        style=METRIC,
    )


def with_column(x: float, y: float, size: float) -> Room:
    obstacle: Obstacle = column(x, y, size)
    return replace(rectangle(7200, 6000), obstacles=(obstacle,))


def behind(control: Control) -> list[Construction]:
    return [made for made in control.constructions if made.method == "a parallel past it"]


def points(made: Construction) -> dict[str, tuple[float, float]]:
    return {name: (x, y) for one in made.steps for name, x, y in one.points}


def test_a_column_on_the_first_line_is_passed_and_told_of() -> None:
    control = control_of(with_column(5000, 2900, 300))
    [made] = behind(control)
    assert made.chosen
    assert made.makes == "first line behind column"
    at = points(made)
    assert [round(y) for _, y in (at["P5"], at["P6"])] == [3000, 3000]
    assert at["P5"][0] > 5300
    [told] = [one for one in control.findings if one.code == "control-line-blocked"]
    assert told.severity == "note"
    # The offsets stand as far apart as the floor allows: from a hand off the wall to a hand before the column.
    assert math.dist(at["P1"], at["P2"]) == pytest.approx(5000 - 100)
    near, far = 4900.0, math.dist(at["P7"], at["P8"])
    assert made.sd_angle == pytest.approx(math.hypot(control.lines[0].sd_angle, past_turn(near, far, TOOLS)))
    assert shift_behind(made, TOOLS) == pytest.approx(past_shift(near, 400.0, TOOLS))


@settings(max_examples=20, deadline=None)
@given(x=st.floats(4300, 6200), y=st.floats(2650, 2990), size=st.floats(60, 500))
def test_the_line_comes_back_on_itself_over_clear_floor(x: float, y: float, size: float) -> None:
    room = with_column(x, y, size)
    control, region = control_of(room), floor_region(room)
    for made in behind(control):
        at = points(made)
        line = control.lines[0 if made.makes.startswith("first") else 1]
        normal = np.array([-math.sin(line.angle), math.cos(line.angle)])
        for name in ("P1", "P2", "P5", "P6"):
            assert (np.array(at[name]) - line.through) @ normal == pytest.approx(0.0, abs=1e-6)
        for name in ("P3", "P4", "P7", "P8"):
            assert abs((np.array(at[name]) - line.through) @ normal) == pytest.approx(made.size, abs=1e-6)
        assert is_clear(region, at["P3"], at["P8"])
    y_low, y_high = y, y + size
    assert bool(behind(control)) is (y_low < 3000 < y_high)


def test_nothing_stands_in_the_way_of_an_empty_room() -> None:
    control = control_of(rectangle(7200, 6000))
    assert not behind(control)
    assert not [one for one in control.findings if one.code == "control-line-blocked"]


def test_a_wall_to_wall_obstacle_is_told_of() -> None:
    outline = np.array([[5000.0, 10.0], [5300.0, 10.0], [5300.0, 5990.0], [5000.0, 5990.0]])
    counter = replace(column(0, 0, 1, "counter"), outline=outline)
    control = control_of(replace(rectangle(7200, 6000), obstacles=(counter,)))
    assert not behind(control)
    [told] = [one for one in control.findings if one.code == "control-line-blocked"]
    assert told.severity == "warning"
    assert told.found.startswith("counter stands on the first line")


def test_a_short_straightedge_is_warned_of_where_it_spoils_a_good_line() -> None:
    room = rectangle(6000, 14000)
    fine = replace(TOOLS, tape=5000, mark=0.3, set=0.3)
    told = {
        length: [one for one in control_of(room, replace(fine, straightedge=length)).findings
                 if one.code == "control-straightedge"]
        for length in (0.0, 600.0)
    }  # fmt: skip
    assert not told[0.0]
    assert [one.severity for one in told[600.0]] == ["warning"]
    assert told[600.0][0].remedy == "stretch a chalk line instead"


@pytest.mark.parametrize("size", [200, 250, 400])
def test_the_helping_line_is_a_hand_clear_of_what_it_passes(size: float) -> None:
    """A column whose face stands a handy length off the line: a chalk line along the face cannot be snapped."""
    [made] = behind(control_of(with_column(5000, 3000 - size / 2, size)))
    at = points(made)
    assert abs(at["P3"][1] - 3000) >= size / 2 + 50 - 1e-6


def test_marks_a_hand_off_the_wall_can_be_made_whatever_the_last_digit() -> None:
    room = with_column(5000, 2900, 300)
    moved = replace(room, corners=tuple(replace(c, x=c.x * (1 - 1e-12), y=c.y * (1 - 1e-12)) for c in room.corners))
    assert len(behind(control_of(moved))) == 1
