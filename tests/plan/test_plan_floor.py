"""The floor of a room: reveals, obstacles, names, and what is said about ones that cannot be."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.errors import FloorwrightValueError
from floorwright.findings import Severity
from floorwright.geometry.inset import inset
from floorwright.geometry.measure import area, distance_to_ring, is_inside_ring, region_area
from floorwright.plan.check import check_room
from floorwright.plan.floor import floor_region
from floorwright.plan.obstacles import circle, column, pipe
from floorwright.plan.room import Corner, Obstacle, Opening, Room, Wall
from floorwright.tolerance import CHORD
from floorwright.units import METRIC


def room(*openings: Opening, obstacles: tuple[Obstacle, ...] = ()) -> Room:
    places = {"SW": (0.0, 0.0), "SE": (4000.0, 0.0), "NE": (4000.0, 3000.0), "NW": (0.0, 3000.0)}
    names = list(places)
    return Room(
        name="kitchen",
        corners=tuple(Corner(name=name, x=x, y=y) for name, (x, y) in places.items()),
        walls=tuple(
            Wall(name=wall, start=names[i], end=names[(i + 1) % 4]) for i, wall in enumerate(("S", "E", "N", "W"))
        ),
        openings=openings,
        obstacles=obstacles,
    )


def door(**changes: float | str) -> Opening:
    given = {"name": "door", "wall": "S", "start": 1200.0, "width": 900.0, "reveal": 50.0} | changes
    return Opening(**given)  # type: ignore[arg-type]


def test_floor_runs_into_a_reveal_to_the_threshold() -> None:
    floor = floor_region(room(door()))
    assert floor.rings[0].tolist() == [
        [0, 0], [1200, 0], [1200, -50], [2100, -50], [2100, 0], [4000, 0], [4000, 3000], [0, 3000],
    ]  # fmt: skip
    assert floor.edges[0] == ("S", "door reveal right", "door threshold", "door reveal left", "S", "E", "N", "W")
    assert region_area(floor) == 4000 * 3000 + 900 * 50


def test_an_opening_without_reveal_changes_nothing() -> None:
    assert floor_region(room(door(reveal=0.0))).edges[0] == ("S", "E", "N", "W")


def test_an_opening_into_the_corner_leaves_no_edge_of_no_length() -> None:
    floor = floor_region(room(door(start=0.0), door(name="hatch", wall="N", start=3100.0)))
    assert floor.edges[0] == (
        "door reveal right", "door threshold", "door reveal left", "S", "E",
        "N", "hatch reveal right", "hatch threshold", "hatch reveal left", "W",
    )  # fmt: skip
    assert region_area(floor) == 4000 * 3000 + 2 * 900 * 50
    inset(floor, 5.0)


def test_column_and_pipe_are_clockwise_holes() -> None:
    post = column(room(), name="post", wall="S", start="SW", along=1200, out=900, length=300, width=200)
    assert post.outline.tolist() == [[1200, 900], [1500, 900], [1500, 1100], [1200, 1100]]
    waste = pipe(room(), name="waste", wall="E", start="NE", along=500, out=60, diameter=40)
    assert waste.centre == pytest.approx((3940.0, 2500.0))
    floor = floor_region(room(obstacles=(post, waste)))
    assert len(floor.rings) == 3
    assert all(area(ring) < 0 for ring in floor.rings[1:])
    assert floor.edges[1] == ("post",) * 4
    assert set(floor.edges[2]) == {"waste"}


def test_column_from_the_far_corner() -> None:
    post = column(room(), name="post", wall="S", start="SE", along=1200, out=900, length=300, width=200)
    assert area(post.outline) == pytest.approx(60000)
    assert sorted(post.outline[:, 0].tolist()) == [2500, 2500, 2800, 2800]


def test_column_built_on_to_a_wall_is_cut_out_of_the_outline() -> None:
    post = column(room(), name="chimney", wall="N", start="NW", along=1000, out=0, length=1200, width=350)
    floor = floor_region(room(obstacles=(post,)))
    assert len(floor.rings) == 1
    assert region_area(floor) == pytest.approx(4000 * 3000 - 1200 * 350)
    assert [name for name in floor.edges[0] if name == "chimney"] == ["chimney"] * 3
    assert floor.edges[0].count("N") == 2
    (note,) = check_room(room(obstacles=(post,)), METRIC)
    assert (note.code, note.severity) == ("plan-obstacle-at-wall", Severity.NOTE)


@given(
    degrees=st.integers(0, 359),
    wall=st.sampled_from(["S", "E", "N", "W"]),
    along=st.sampled_from([0.0, 0.02, 630.0, 2700.0]),
    hundredths=st.integers(-1, 1),
)
def test_a_column_on_its_wall_leaves_no_hair_of_floor_behind_it(
    degrees: int, wall: str, along: float, hundredths: int
) -> None:
    skew = hundredths / 100
    places = np.array([(0.0, 0.0), (4000.0 + skew, 0.0), (4000.0, 3000.0), (skew, 3000.0)])
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    places = places @ np.array([[cos, sin], [-sin, cos]])
    upright = room()
    turned = Room(
        name="kitchen",
        corners=tuple(
            Corner(name=corner.name, x=x, y=y) for corner, (x, y) in zip(upright.corners, places.tolist(), strict=True)
        ),
        walls=upright.walls,
    )
    start = {each.name: each.start for each in upright.walls}[wall]
    post = column(turned, name="post", wall=wall, start=start, along=along, out=0, length=300, width=200)
    floor = floor_region(Room(name="kitchen", corners=turned.corners, walls=turned.walls, obstacles=(post,)))
    assert len(floor.rings) == 1
    assert region_area(floor) == pytest.approx(4000 * 3000 - 300 * 200, abs=100)
    sides = np.hypot(*(np.roll(floor.rings[0], -1, axis=0) - floor.rings[0]).T)
    in_corner = along < 1.0 or along + 300 > {"S": 4000, "N": 4000, "E": 3000, "W": 3000}[wall] - 1.0
    assert len(sides) == (6 if in_corner else 8)
    assert sides.min() > 199.0


def test_two_columns_in_each_other_make_one_hole() -> None:
    first = column(room(), name="post", wall="S", start="SW", along=1000, out=900, length=300, width=300)
    second = column(room(), name="duct", wall="S", start="SW", along=1200, out=1000, length=300, width=100)
    floor = floor_region(room(obstacles=(first, second)))
    assert len(floor.rings) == 2
    assert set(floor.edges[1]) == {"post", "duct"}
    assert region_area(floor) == pytest.approx(4000 * 3000 - 300 * 300 - 200 * 100)
    assert [f.code for f in check_room(room(obstacles=(first, second)), METRIC)] == ["plan-obstacles-overlap"]


def test_an_obstacle_across_the_room_leaves_no_one_floor() -> None:
    beam = column(room(), name="beam", wall="S", start="SW", along=1000, out=0, length=300, width=3000)
    with pytest.raises(FloorwrightValueError, match="2 floors"):
        floor_region(room(obstacles=(beam,)))
    assert [f.code for f in check_room(room(obstacles=(beam,)), METRIC)] == ["plan-obstacle-at-wall", "plan-no-floor"]


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"start": 3200.0}, "plan-opening-past-wall"),
        ({"start": -10.0}, "plan-opening-past-wall"),
    ],
)
def test_an_opening_past_its_wall_is_found(changes: dict[str, float], code: str) -> None:
    (found,) = check_room(room(door(**changes)), METRIC)
    assert (found.code, found.severity) == (code, Severity.ERROR)
    assert "4000" in found.expected
    with pytest.raises(FloorwrightValueError, match="runs past wall S"):
        floor_region(room(door(**changes)))


def test_openings_in_each_other_are_found() -> None:
    (found,) = check_room(room(door(), door(name="hatch", start=2000.0)), METRIC)
    assert found.code == "plan-openings-overlap"
    assert check_room(room(door(), door(name="hatch", start=2200.0)), METRIC) == ()


def test_an_obstacle_outside_is_found() -> None:
    lost = column(room(), name="post", wall="S", start="SW", along=1200, out=3500, length=300, width=200)
    (found,) = check_room(room(obstacles=(lost,)), METRIC)
    assert found.code == "plan-obstacle-outside"
    assert "500 from the nearest wall" in found.found


def test_wrong_corner_and_sizes_are_refused() -> None:
    with pytest.raises(FloorwrightValueError, match="NE is no corner of wall S"):
        column(room(), name="post", wall="S", start="NE", along=0, out=0, length=1, width=1)
    with pytest.raises(FloorwrightValueError, match="over zero"):
        column(room(), name="post", wall="S", start="SW", along=0, out=0, length=0, width=1)
    with pytest.raises(FloorwrightValueError, match="over zero"):
        pipe(room(), name="waste", wall="S", start="SW", along=0, out=0, diameter=-3)


@given(st.floats(2.0, 3000.0))
def test_a_flattened_circle_lies_outside_the_circle_within_the_chord_tolerance(radius: float) -> None:
    ring = circle((10.0, -20.0), radius)
    assert area(ring) > 0
    assert is_inside_ring((10.0, -20.0), ring)[0]
    assert float(distance_to_ring((10.0, -20.0), ring)[0]) == pytest.approx(radius)
    corners = np.hypot(ring[:, 0] - 10.0, ring[:, 1] + 20.0)
    assert corners.max() <= radius + CHORD + 1e-9
    assert len(ring) % 4 == 0
    if len(ring) > 8:
        assert radius / math.cos(math.pi / (len(ring) - 4)) > radius + CHORD
