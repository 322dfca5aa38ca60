"""Gauge rods and coordinates: every joint from a snapped line, the cuts beyond both ends, the frame of the points."""

import math
from fractions import Fraction

import pytest
from tests.control.rooms import larch_row, rectangle
from tests.setout.floors import control_of, laid

from floorwright.layout.layout import Layout
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Room
from floorwright.setout.course import Course, Part, courses
from floorwright.setout.points import frame_words, set_out_points
from floorwright.setout.rod import Rod, gauge_rods
from floorwright.setout.snap import snap_list


def rods(
    room: Room, layout: Layout, strips: tuple[Course, ...] | None = None, zero: str | None = None
) -> dict[str, Rod]:
    snap = snap_list(room=room, control=control_of(room), layouts=[layout], zero=zero)
    made = courses(region=floor_region(room), layout=layout) if strips is None else strips
    return {rod.name: rod for rod in gauge_rods(snap=snap, layouts=[layout], courses=[made])}


def test_every_joint_runs_from_the_line_nearest_the_nail() -> None:
    room = rectangle(4200, 3600)
    rod = rods(room, laid(room, grid((300.0, 300.0), 3.0), (2100.0, 1800.0)))["columns"]
    assert rod.zero == "columns 1"
    assert [joint.start for joint in rod.joints] == pytest.approx([303.0 * n - 1.5 for n in range(13)])
    assert [joint.end for joint in rod.joints] == pytest.approx([303.0 * n + 1.5 for n in range(13)])
    assert rod.length == pytest.approx(303 * 12 + 1.5)


def test_the_rod_and_both_cuts_and_gaps_make_up_the_wall() -> None:
    room = rectangle(4200, 3600)
    rod = rods(room, laid(room, grid((300.0, 300.0), 3.0), (2010.0, 1800.0)))["columns"]
    assert rod.before is not None
    assert rod.after is not None
    assert (rod.before.wall, rod.after.wall) == ("W", "E")
    total = 5 + rod.before.least + (rod.length - rod.joints[0].start) + rod.after.least + 5
    assert total == pytest.approx(4200)


def test_from_a_nail_on_the_other_side_the_cuts_change_ends() -> None:
    room = rectangle(4200, 3600)
    layout = laid(room, grid((300.0, 300.0), 3.0), (2010.0, 1800.0))
    near, far = rods(room, layout, zero="SW")["columns"], rods(room, layout, zero="NE")["columns"]
    assert near.before is not None
    assert far.after is not None
    assert far.before == near.after
    assert far.after == near.before
    assert far.length == pytest.approx(near.length)


def test_crooked_walls_vary_the_cuts_and_never_the_joints() -> None:
    room = larch_row()
    rod = rods(room, laid(room, grid((447.0, 447.0), 3.0), (2100.0, 1806.0)))["columns"]
    cuts = [cut for cut in (rod.before, rod.after) if cut is not None]
    assert any(cut.most - cut.least > 1 for cut in cuts)
    steps = [b.start - a.start for a, b in zip(rod.joints, rod.joints[1:], strict=False)]
    assert steps == pytest.approx([450.0] * len(steps))


def test_cuts_that_are_not_alike_are_no_figure() -> None:
    room = rectangle(4200, 3600)
    layout = laid(room, grid((300.0, 300.0), 3.0), (2100.0, 1800.0))
    strips = tuple(
        Course(name=f"row {n}", walls=("W", "E"), length=4200.0, parts=(Part(kind="cut", length=length),))
        for n, length in enumerate((20.0, 280.0))
    )
    assert rods(room, layout, strips)["columns"].before is None


def test_in_a_half_bond_every_other_perp_is_a_course_s() -> None:
    room = rectangle(4200, 3600)
    rod = rods(room, laid(room, brick_bond((600.0, 300.0), 3.0, Fraction(1, 2)), (2100.0, 1800.0)))["perps"]
    assert rod.phases == 2
    assert [joint.phase for joint in rod.joints[:4]] == [0, 1, 0, 1]
    assert rod.joints[2].start - rod.joints[0].start == pytest.approx(603)


def test_a_diagonal_floor_has_rods_too() -> None:
    room = rectangle(4200, 3600)
    made = rods(room, laid(room, grid((300.0, 300.0), 3.0), (2100.0, 1800.0), angle=math.pi / 4))
    assert set(made) == {"rows", "columns"}
    assert all(rod.before is None and rod.after is None for rod in made.values())


def test_points_for_a_total_station() -> None:
    room = rectangle(4200, 3600)
    control = control_of(room)
    points = set_out_points(room, control, ())
    assert [point.name for point in points[:5]] == ["SW", "SE", "NE", "NW", "centre"]
    assert {point.name for point in points[5:]} == {mark.name for line in control.lines for mark in line.marks}
    assert len({point.name for point in points}) == len(points)
    assert frame_words(room) == "SW is at 0.0, 0.0 mm; S runs from it to SE at 0.0000 degrees from east, anticlockwise"
