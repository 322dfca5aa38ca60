"""Courses: what lies along a line adds up to the wall, exactly and as printed."""

import math
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
import shapely
import shapely.affinity
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.control.rooms import column, larch_row, rectangle
from tests.setout.floors import laid, piece

from floorwright.layout.layout import Layout
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Opening, Room
from floorwright.setout.course import Course, courses, printed
from floorwright.units import IMPERIAL, METRIC, LengthStyle

IN = 25.4


def of(room: Room, layout: Layout) -> dict[str, Course]:
    return {course.name: course for course in courses(region=floor_region(room), layout=layout)}


def parts(course: Course) -> list[tuple[str, float]]:
    return [(part.kind, round(part.length, 2)) for part in course.parts]


def test_s1_adds_up_exactly() -> None:
    room = rectangle(87.5 * IN, 122.625 * IN)
    layout = laid(room, grid((11.75 * IN, 11.75 * IN), 0.25 * IN), (43.75 * IN, (61.3125 - 6) * IN), gap=0.125 * IN)
    found = of(room, layout)
    assert sum(name.startswith("row") for name in found) == 11
    assert sum(name.startswith("column") for name in found) == 8
    for name, cut, full in (("row 4", 7.5, 6), ("column 3", 7.0625, 9)):
        made = [(part.kind, part.length / IN) for part in found[name].parts]
        kinds = ["gap", "cut", *["joint", "tile"] * full, "joint", "cut", "gap"]
        assert [kind for kind, _ in made] == kinds
        lengths = {"gap": 0.125, "cut": cut, "joint": 0.25, "tile": 11.75}
        assert [length for _, length in made] == pytest.approx([lengths[kind] for kind in kinds])
        closed = printed(found[name], IMPERIAL)
        assert closed.remainder == 0
        assert [float(figure) / IN for figure in closed.figures] == pytest.approx([lengths[kind] for kind in kinds])
    assert found["row 4"].walls == ("W", "E")


def test_s2_at_3_mm() -> None:
    """At the door wall 293.5 each side; a line half a tile up the room has a little more at W, less at E."""
    room = larch_row()
    found = of(room, laid(room, grid((447, 447), 3), (2100, 217.5 - 1.5)))
    first = found["row 1"]
    assert first.walls == ("W", "E")
    assert parts(first)[1][0] == "cut"
    middle = (5 + 216 - 1.5) / 2
    west = 293.5 + middle * math.tan(math.radians(90.359 - 90))
    east = 293.5 - middle * math.tan(math.radians(90 - 89.801))
    assert parts(first)[1][1] == pytest.approx(west, abs=0.05)
    assert parts(first)[-2][1] == pytest.approx(east, abs=0.05)


def test_a_wall_that_falls_in_a_joint_widens_the_gap() -> None:
    room = rectangle(4000, 3000)
    found = of(room, laid(room, grid((447, 447), 3), (5.5, 5.5)))
    assert parts(found["row 1"])[0] == ("gap", 7.0)
    assert found["row 1"].parts[0].rounded
    assert not found["row 1"].parts[-1].rounded


def test_a_column_in_the_room_splits_a_course() -> None:
    room = replace(rectangle(4000, 3000), obstacles=(column(1500, 1100, 400),))
    found = of(room, laid(room, grid((497, 497), 3), (0, 0)))
    assert [found[f"row 3, part {part}"].walls for part in (1, 2)] == [("W", "column"), ("column", "E")]
    assert found["row 3, part 1"].length == pytest.approx(1500)
    assert found["row 3, part 2"].length == pytest.approx(2100)
    assert found["row 1"].length == pytest.approx(4000)


def test_a_course_runs_into_a_door_reveal() -> None:
    openings = (Opening(name="door", wall="S", start=1000.0, width=1000.0, reveal=100.0),)
    room = rectangle(4000, 3000, openings=openings)
    found = of(room, laid(room, grid((497, 497), 3), (0, 0)))
    assert found["column 3"].walls == ("door threshold", "N")
    assert found["column 3"].length == pytest.approx(3100)
    assert found["column 1"].walls == ("S", "N")


def test_a_line_that_passes_an_obstacle_inside_its_gap_has_a_gap_there() -> None:
    """The floor runs on beside the column, but the tile stops short of it on both sides."""
    room = replace(rectangle(4000, 3000), obstacles=(column(1600, 1253, 300),))
    course = of(room, laid(room, grid((497, 497), 3), (0, 0), gap=5))["row 3"]
    assert course.walls == ("W", "E")
    kinds = [part.kind for part in course.parts]
    assert ("cut", "gap", "cut") in zip(kinds, kinds[1:], kinds[2:], strict=False)
    assert [part.length for part in course.parts if part.kind == "gap"] == pytest.approx([5, 310, 5])
    assert math.fsum(part.length for part in course.parts) == pytest.approx(4000)


def test_pieces_are_named_as_the_layout_names_them() -> None:
    """A tile that a column leaves in two gives each course its own part of it; the others go by their index."""
    halves = (
        piece("floor", (0, 0, 0), [(5, 5), (195, 5), (195, 498), (5, 498)], "/1"),
        piece("floor", (0, 0, 0), [(405, 5), (498, 5), (498, 498), (405, 498)], "/2"),
    )
    room = replace(rectangle(1000, 600), obstacles=(column(200, 150, 200),))
    layout = laid(room, grid((497, 497), 3), (0, 0), pieces=halves)
    found = of(room, layout)
    assert [part.piece for part in found["row 1, part 1"].parts if part.piece] == ["floor:0,0,0/1"]
    assert [part.piece for part in found["row 1, part 2"].parts if part.piece] == ["floor:0,0,0/2", "floor:1,0,0"]


@pytest.mark.parametrize(("fraction", "per_tile"), [(Fraction(1, 2), 2), (Fraction(1, 3), 3), (Fraction(1, 4), 4)])
def test_a_bond_has_a_column_between_neighbouring_perps(fraction: Fraction, per_tile: int) -> None:
    room = rectangle(3000, 1000)
    cell = brick_bond((298, 98), 2, fraction)
    found = of(room, laid(room, cell, (0, 0), gap=0))
    columns = [course for course in found.values() if course.name.startswith("column")]
    assert len(columns) == 10 * per_tile
    for course in columns:
        assert [part.kind for part in course.parts].count("joint") == 9


def test_other_pieces_than_rectangles_have_no_courses() -> None:
    room = rectangle(3000, 1000)
    square = grid((298, 298), 2)
    turned = shapely.affinity.rotate(shapely.Polygon(square.pieces[0]), 10)
    cell = replace(square, pieces=(np.asarray(turned.exterior.coords)[:-1],))
    assert courses(region=floor_region(room), layout=laid(room, cell, (0, 0))) == ()


def along(layout: Layout, course: Course) -> tuple[float, float]:
    """Tile and joint that a course should show."""
    axis = 0 if course.name.startswith("row") else 1
    return layout.cell.size[axis], layout.cell.joint


def holds(room: Room, layout: Layout, style: LengthStyle) -> None:
    """Every course adds up: exactly, and as printed."""
    found = courses(region=floor_region(room), layout=layout)
    assert found
    for course in found:
        tile, joint = along(layout, course)
        assert math.fsum(part.length for part in course.parts) == pytest.approx(course.length, abs=1e-6)
        kinds = [part.kind for part in course.parts]
        for part in course.parts:
            if part.kind == "tile":
                assert part.length == pytest.approx(tile, abs=0.003)
            if part.kind == "joint":
                assert part.length == pytest.approx(joint, abs=0.003)
            if part.kind == "cut":
                assert 0 < part.length < tile
        assert all({a, b} - {"cut", "tile"} for a, b in pairwise(kinds))
        closed = printed(course, style)
        assert sum(closed.figures) == closed.total == style.steps(course.length) * style.step_mm
        assert abs(closed.remainder) <= style.step_mm
        for number, (part, figure) in enumerate(zip(course.parts, closed.figures, strict=True)):
            if number == closed.carries:
                continue
            if part.rounded:
                assert (figure / style.step_mm).denominator == 1
                assert abs(float(figure) - part.length) <= 1.01 * float(style.step_mm)
            else:
                assert figure == style.entered(part.length)


@st.composite
def floors(draw: st.DrawFn, step: float, most: int) -> tuple[Room, Layout]:
    """A four-cornered room, its tile, joint, gap, position and turn, all on the graduation."""

    def graduated(low: float, high: float) -> float:
        return draw(st.integers(math.ceil(low / step), math.floor(high / step))) * step

    room = rectangle(graduated(1500, most), graduated(1500, most))
    corners = tuple(
        replace(corner, x=corner.x + graduated(-60, 60), y=corner.y + graduated(-60, 60)) for corner in room.corners
    )
    room = replace(room, corners=corners)
    size, joint = (graduated(150, 700), graduated(100, 400)), graduated(2 * step, 10)
    cell = draw(st.sampled_from([grid(size, joint), brick_bond(size, joint, Fraction(1, 3))]))
    angle = draw(st.sampled_from([0.0, 0.0, 0.01, math.pi / 4, -0.4]))
    origin = graduated(-300, 300), graduated(-300, 300)
    return room, laid(room, cell, origin, angle=angle, gap=graduated(0, 12))


@settings(max_examples=50, deadline=None)
@given(floors(0.5, 4000))
def test_printed_courses_close_in_half_millimetres(floor: tuple[Room, Layout]) -> None:
    holds(*floor, METRIC)


@settings(max_examples=50, deadline=None)
@given(floors(IN / 16, 4000))
def test_printed_courses_close_in_sixteenths(floor: tuple[Room, Layout]) -> None:
    holds(*floor, IMPERIAL)


@settings(max_examples=30, deadline=None)
@given(floors(0.5, 3000))
def test_full_rows_are_what_shapely_finds_on_the_same_line(floor: tuple[Room, Layout]) -> None:
    room, layout = floor
    placement, (length, width), joint = layout.chosen.placement, layout.cell.size, layout.cell.joint
    covered = shapely.affinity.translate(
        shapely.Polygon(layout.region.rings[0]), -placement.origin[0], -placement.origin[1]
    )
    covered = shapely.affinity.rotate(covered, -placement.angle, origin=(0, 0), use_radians=True)
    west, south, east, north = covered.bounds
    found = [course for course in courses(region=floor_region(room), layout=layout) if course.name.startswith("row")]
    rows = {int(next(part.piece for part in course.parts if part.piece).split(",")[1]): course for course in found}
    for j, course in rows.items():
        low = j * (width + joint) + joint / 2
        if low < south or low + width > north:
            continue
        line = shapely.LineString([(west - 1, low + width / 2), (east + 1, low + width / 2)]).intersection(covered)
        expected = []
        for i in range(-60, 60):
            start = i * (length + joint) + j * float(layout.cell.b[0]) + joint / 2
            left = shapely.box(start, low, start + length, low + width).intersection(line)
            if left.length > 0.001:
                expected.append(left.length)
        assert [part.length for part in course.parts if part.piece] == pytest.approx(expected, abs=0.001)
