"""First lines that a room offers: mean, sight line and slab joint as struck, and which are thought of."""

import math

import pytest
from tests.control.rooms import l_room, larch_row, rectangle

from floorwright.control.candidates import across, candidates, longest_in_sight
from floorwright.control.choices import FirstLine, SlabJoint
from floorwright.control.first import find_first
from floorwright.control.wall import wall_angle
from floorwright.findings import Severity
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Opening, Room
from floorwright.units import METRIC


def found(room: Room, first: FirstLine) -> tuple[float, tuple[float, float] | None]:
    line, findings = find_first(room, floor_region(room), first, METRIC)
    assert findings == ()
    return line.angle, line.through


def test_a_mean_shares_the_taper_between_its_walls() -> None:
    room = larch_row()
    angle, through = found(room, FirstLine(by="mean", walls=("S", "N")))
    south, north = wall_angle(room, "S"), wall_angle(room, "N") - math.pi
    assert angle == pytest.approx((south + math.remainder(north, math.tau)) / 2)
    assert through is not None
    # Half way: as far from the middle of the one wall as from that of the other.
    assert through[1] == pytest.approx((room.ends("N")[0][1] + room.ends("N")[1][1]) / 4)


def test_walls_that_lean_far_to_each_other_have_no_mean() -> None:
    room = rectangle(4000, 3000)
    _, findings = find_first(room, floor_region(room), FirstLine(by="mean", walls=("S", "E")), METRIC)
    assert [(one.code, one.severity) for one in findings] == [("control-first-line", Severity.ERROR)]
    assert "90 degrees" in findings[0].found


def test_a_sight_line_from_a_door_in_the_middle_of_a_rectangle_is_its_axis() -> None:
    room = rectangle(4000, 3000, openings=(Opening(name="door", wall="S", start=1550.0, width=900.0),))
    angle, through = found(room, FirstLine(by="sight", opening="door"))
    assert angle == pytest.approx(math.pi / 2)
    assert through == pytest.approx((2000.0, 0.0))


def test_a_line_runs_along_a_slab_joint() -> None:
    room = rectangle(4000, 3000)
    first = FirstLine(by="slab joint", points=((0.0, 1000.0), (4000.0, 1200.0)), slab_joint="saw cut")
    line, findings = find_first(room, floor_region(room), first, METRIC)
    assert findings == ()
    assert line.angle == pytest.approx(math.atan2(200, 4000))
    assert line.how == "along saw cut"


def test_walls_across_from_each_other_are_those_of_a_rectangle() -> None:
    room = rectangle(4000, 3000)
    assert across(room, floor_region(room)) == (("S", "N"), ("E", "W"))


def test_walls_that_look_away_from_each_other_are_not_across() -> None:
    room = l_room()
    assert ("CD", "EF") not in across(room, floor_region(room))
    assert ("AB", "CD") in across(room, floor_region(room))


def test_a_wall_that_the_door_does_not_see_is_not_the_longest_in_sight() -> None:
    # From the foot of the L none of the arm's far wall is seen; without a door length alone counts.
    room = l_room()
    seen = Room(
        name=room.name,
        corners=room.corners,
        walls=room.walls,
        openings=(Opening(name="door", wall="BC", start=500.0, width=900.0),),
    )
    assert longest_in_sight(seen, floor_region(seen)) == "AB"
    assert longest_in_sight(room, floor_region(room)) == "AB"


def test_every_door_and_slab_joint_is_thought_of_once() -> None:
    doors = (
        Opening(name="door", wall="S", start=500.0, width=900.0),
        Opening(name="patio door", wall="E", start=800.0, width=1500.0),
    )
    room = rectangle(4000, 3000, openings=doors)
    joint = SlabJoint(name="saw cut", ends=((0.0, 1000.0), (4000.0, 1000.0)))
    names = [one.name for one in candidates(room, floor_region(room), (joint,))]
    for name in ("in line with door", "in line with patio door", "sight line from door", "along saw cut"):
        assert names.count(name) == 1
    assert len(names) == len(set(names))
