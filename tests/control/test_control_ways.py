"""Which way the square line is raised: the truest, or the one that is asked for."""

import math
from dataclasses import replace

import pytest
from tests.control.rooms import larch_row, rectangle

from floorwright.control.accuracy import triangle_square
from floorwright.control.choices import Centre, FirstLine, Tools
from floorwright.control.control import Control
from floorwright.control.cross import place_cross, quick_drift
from floorwright.control.set_out import set_control
from floorwright.plan.floor import floor_region
from floorwright.units import METRIC

TOOLS = Tools(compass=2000, tape=8000, mark=0.5, set=1.0)
FIRST = FirstLine(by="parallel", wall="S")
CENTRE = Centre(by="mid-point", wall="S")


def control(tools: Tools) -> Control:
    room = larch_row()
    return set_control(
        room=room, region=floor_region(room), first=FIRST, centre=CENTRE, tools=tools, joint=3.0, style=METRIC
    )


def test_the_truest_way_is_taken_where_none_is_asked_for() -> None:
    found = control(TOOLS)
    chosen = next(made for made in found.constructions if made.makes == "square line" and made.chosen)
    assert chosen.sd_angle == min(made.sd_angle for made in found.constructions if made.makes == "square line")
    assert found.considered[0].method == chosen.method == "compass"


@pytest.mark.parametrize("method", ["compass", "3-4-5", "equal diagonals", "semicircle"])
def test_the_way_that_is_asked_for_is_taken_and_the_line_carries_its_accuracy(method: str) -> None:
    found = control(replace(TOOLS, square=method))
    chosen = [made for made in found.constructions if made.makes == "square line" and made.chosen]
    assert [made.method for made in chosen] == [method]
    square = found.lines[1]
    assert square.sd_angle == chosen[0].sd_angle
    assert found.considered[0].method == method
    assert found.considered[0].why_not == ""
    far = max(square.drift, key=lambda there: there.at)
    assert far.sd == pytest.approx(math.hypot(chosen[0].sd_angle * far.at, TOOLS.mark))


def test_a_3_4_5_asked_for_is_as_true_as_its_formula_says() -> None:
    # 1500 by 2000 mm fit the kitchen: the published variance of a triangle of taped lengths, docs/control.md.
    found = control(replace(TOOLS, square="3-4-5"))
    assert found.lines[1].sd_angle in (
        pytest.approx(triangle_square(1500, 2000, TOOLS)),
        pytest.approx(triangle_square(2000, 1500, TOOLS)),
    )


def test_a_way_that_cannot_be_is_told_of_and_the_truest_stands_in() -> None:
    found = control(replace(TOOLS, square="laser"))
    told = next(one for one in found.findings if one.code == "control-square-as-asked")
    assert "no laser to hand" in told.found
    assert "raised by compass instead" in told.found
    assert found.considered[0].method == "compass"


def test_nothing_is_said_of_a_way_that_is_as_asked() -> None:
    assert "control-square-as-asked" not in {one.code for one in control(replace(TOOLS, square="compass")).findings}


def test_candidates_are_held_against_each_other_by_the_way_that_is_asked_for() -> None:
    room = larch_row()
    cross = place_cross(room, floor_region(room), FIRST, CENTRE, METRIC)
    for method in ("3-4-5", "equal diagonals", "semicircle"):
        tools = replace(TOOLS, square=method)
        told = max(there.sd for there in control(tools).lines[1].drift)
        assert quick_drift(room, cross, tools) == pytest.approx(told)


@pytest.mark.parametrize(("y", "inward"), [(300.0, 1), (4700.0, -1)])
def test_arcs_that_have_room_on_one_side_alone_cross_there(y: float, inward: int) -> None:
    room = rectangle(6000, 5000)
    made = set_control(
        room=room,
        region=floor_region(room),
        first=FirstLine(by="points", points=((1000.0, y), (5000.0, y))),
        centre=Centre(by="point", point=(3000.0, y)),
        tools=Tools(compass=2000, tape=8000, mark=0.5, set=1.0),
        joint=3.0,
        style=METRIC,
    )
    (compass,) = [one for one in made.constructions if one.method == "compass" and one.makes == "square line"]
    crossed = {name: at for step in compass.steps for name, _, at in step.points if name.startswith("X")}
    assert set(crossed) == {"X1"}
    assert (crossed["X1"] - y) * inward > 500
