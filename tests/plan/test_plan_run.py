"""Rooms that run through, made one."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.findings import Finding
from floorwright.geometry.measure import area, offset_from_line, region_area
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Corner, Link, Opening, Room, Wall
from floorwright.plan.run import INNER_WALLS, run_of_rooms
from floorwright.units import METRIC

sizes = st.floats(1500.0, 9000.0)


def block(name: str, x: float, y: float, length: float, width: float, *openings: Opening) -> Room:
    """A rectangle with its first corner at a place; its walls are called `<name> S`, E, N and W."""
    places = {"SW": (x, y), "SE": (x + length, y), "NE": (x + length, y + width), "NW": (x, y + width)}
    names = [f"{name} {corner}" for corner in places]
    return Room(
        name=name,
        corners=tuple(Corner(name=corner, x=at[0], y=at[1]) for corner, at in zip(names, places.values(), strict=True)),
        walls=tuple(
            Wall(name=f"{name} {side}", start=names[i], end=names[(i + 1) % 4], room=name)
            for i, side in enumerate("SENW")
        ),
        openings=openings,
    )


def door(name: str, wall: str, start: float, width: float) -> Opening:
    return Opening(name=name, wall=wall, start=start, width=width)


def mouth(first: str, second: str) -> Link:
    return Link(name=f"{first} to {second}", rooms=(first, second))


def run(rooms: list[Room], links: list[Link]) -> Room:
    made, findings = run_of_rooms("run", rooms, links, METRIC)
    assert made is not None, findings
    assert not findings
    return made


def trouble(rooms: list[Room], links: list[Link]) -> Finding:
    made, findings = run_of_rooms("run", rooms, links, METRIC)
    assert made is None
    (finding,) = findings
    assert finding.place
    assert finding.found
    assert finding.expected
    assert finding.remedy
    return finding


def turned(room: Room, angle: float) -> Room:
    cos, sin = math.cos(angle), math.sin(angle)
    return replace(
        room,
        corners=tuple(
            replace(corner, x=cos * corner.x - sin * corner.y, y=sin * corner.x + cos * corner.y)
            for corner in room.corners
        ),
    )


def test_a_mouth_divides_the_wall_it_opens_in() -> None:
    made = run([block("lounge", 0, 0, 6100, 4300), block("hall", 700, 4300, 1180, 5200)], [mouth("lounge", "hall")])
    assert [wall.name for wall in made.walls] == [
        "lounge S", "lounge E", "lounge N right", "hall E", "hall N", "hall W", "lounge N left", "lounge W",
    ]  # fmt: skip
    assert [wall.room for wall in made.walls] == ["lounge"] * 3 + ["hall"] * 3 + ["lounge"] * 2
    assert area(made.outline) == pytest.approx(6100 * 4300 + 1180 * 5200)
    # Left and right as seen from the lounge: its north wall has the west on the left.
    assert made.ends("lounge N left")[1].tolist() == [0.0, 4300.0]
    assert [corner.angle for corner in made.corners if corner.name == "hall SE"] == [pytest.approx(1.5 * math.pi)]
    # The whole wall is still there to be named.
    assert np.hypot(*np.subtract(*made.ends("lounge N"))) == pytest.approx(6100)


def test_a_mouth_from_wall_to_wall_leaves_no_wall() -> None:
    made = run([block("front", 0, 0, 4000, 3000), block("back", 0, 3000, 4000, 3000)], [mouth("front", "back")])
    assert [wall.name for wall in made.walls] == ["front S", "front E", "back E", "back N", "back W", "front W"]
    assert area(made.outline) == pytest.approx(4000 * 6000)


def test_rooms_that_readings_leave_a_little_apart_still_meet() -> None:
    made = run([block("lounge", 0, 0, 6000, 4000), block("hall", 1000, 4001.5, 1200, 5000)], [mouth("lounge", "hall")])
    assert area(made.outline) == pytest.approx(6000 * 4000 + 1200 * 5000, rel=1e-3)
    assert len(made.walls) == 8


@given(sizes, sizes, sizes, sizes, st.floats(60.0, 400.0), st.floats(600.0, 1200.0), st.floats(0.0, 1.0))
def test_a_doorway_adds_its_own_floor(
    length: float, width: float, length_2: float, width_2: float, wall: float, opening: float, at: float
) -> None:
    start = at * (min(length, length_2) - opening)
    near = block("one", 0, 0, length, width, door("here", "one N", length - start - opening, opening))
    far = block("two", 0, width + wall, length_2, width_2, door("there", "two S", start, opening))
    made = run([near, far], [Link(name="doorway", rooms=("one", "two"), openings=("here", "there"))])
    expected = length * width + length_2 * width_2 + opening * wall
    assert area(made.outline) == pytest.approx(expected, rel=1e-9)
    assert region_area(floor_region(made)) == pytest.approx(expected, rel=1e-9)
    jambs = [one.name for one in made.walls if "jamb" in one.name]
    assert sorted(jambs) == ["doorway jamb left", "doorway jamb right"]
    assert not made.openings
    assert {one.name for one in made.known_openings} == {"here", "there"}


@given(st.floats(-3.0, 3.0), sizes, sizes, st.floats(800.0, 1400.0))
def test_turned_rooms_make_the_run_turned(angle: float, length: float, width: float, hall: float) -> None:
    rooms = [block("lounge", 0, 0, length, width), block("hall", 50, width, hall, 4000)]
    links = [mouth("lounge", "hall")]
    straight, leaning = run(rooms, links), run([turned(room, angle) for room in rooms], links)
    assert [wall.name for wall in leaning.walls] == [wall.name for wall in straight.walls]
    assert leaning.outline == pytest.approx(turned(straight, angle).outline, abs=1e-6)


def test_a_ring_of_rooms_keeps_the_walls_in_its_middle() -> None:
    rooms = [
        block("south", 0, 0, 5000, 1200),
        block("east", 3800, 1200, 1200, 3000),
        block("north", 0, 4200, 5000, 1200),
        block("west", 0, 1200, 1200, 3000),
    ]
    links = [mouth("south", "east"), mouth("east", "north"), mouth("north", "west"), mouth("west", "south")]
    made = run(rooms, links)
    (inner,) = made.obstacles
    assert inner.name == INNER_WALLS
    assert area(inner.outline) == pytest.approx(2600 * 3000)
    region = floor_region(made)
    assert region_area(region) == pytest.approx(5000 * 5400 - 2600 * 3000)
    middle = {"south N", "east W", "north S", "west E"}
    assert set(region.edges[1]) == middle
    for start, end, name in zip(region.rings[1], np.roll(region.rings[1], -1, axis=0), region.edges[1], strict=True):
        assert offset_from_line([start, end], *made.ends(name)) == pytest.approx([0.0, 0.0], abs=1e-6)


def test_a_door_stays_where_it_is_in_what_is_left_of_its_wall() -> None:
    lounge = block("lounge", 0, 0, 6000, 4000, door("front door", "lounge N", 5050, 900))
    made = run([lounge, block("hall", 1000, 4000, 1200, 5000)], [mouth("lounge", "hall")])
    (opening,) = made.openings
    assert opening.wall == "lounge N left"
    start, end = made.ends(opening.wall)
    along = (end - start) / math.dist(start, end)
    assert (start + opening.start * along).tolist() == pytest.approx([950.0, 4000.0])


def test_four_rooms_that_meet_in_a_point_leave_nothing_there() -> None:
    rooms = [block("a", 0, 0, 3000, 3000), block("b", 3000, 0, 3000, 3000)]
    rooms += [block("c", 3000, 3000, 3000, 3000), block("d", 0, 3000, 3000, 3000)]
    made = run(rooms, [mouth("a", "b"), mouth("b", "c"), mouth("c", "d"), mouth("d", "a")])
    assert area(made.outline) == pytest.approx(36e6)
    assert not made.obstacles


def test_three_rooms_that_only_touch_in_a_point_keep_it() -> None:
    rooms = [block("a", 0, 0, 3000, 3000), block("b", 3000, 0, 3000, 3000), block("c", 3000, 3000, 3000, 3000)]
    made = run(rooms, [mouth("a", "b"), mouth("b", "c")])
    assert area(made.outline) == pytest.approx(27e6)


def test_rooms_over_each_other_are_an_error_that_says_where() -> None:
    finding = trouble(
        [block("lounge", 0, 0, 6000, 4000), block("hall", 1000, 3700, 1200, 5000)], [mouth("lounge", "hall")]
    )
    assert finding.code == "plan-rooms-overlap"
    assert finding.place == "rooms lounge and hall"


def test_a_room_that_no_link_leads_to_is_an_error() -> None:
    rooms = [block("lounge", 0, 0, 6000, 4000), block("hall", 1000, 4000, 1200, 5000), block("den", 6000, 0, 900, 900)]
    assert trouble(rooms, [mouth("lounge", "hall")]).code == "plan-room-apart"


def test_openings_that_do_not_face_each_other_are_an_error() -> None:
    near = block("one", 0, 0, 4000, 3000, door("here", "one N", 500, 800))
    far = block("two", 0, 3100, 4000, 3000, door("there", "two S", 500, 800))
    finding = trouble([near, far], [Link(name="doorway", rooms=("one", "two"), openings=("here", "there"))])
    assert finding.code == "plan-link-not-facing"
    assert finding.place == "doorway doorway"


def test_rooms_with_a_wall_between_have_no_mouth() -> None:
    finding = trouble(
        [block("lounge", 0, 0, 6000, 4000), block("hall", 1000, 4100, 1200, 5000)], [mouth("lounge", "hall")]
    )
    assert finding.code == "plan-no-mouth"
    assert "100" in finding.found


def test_an_opening_in_a_mouth_is_an_error() -> None:
    lounge = block("lounge", 0, 0, 6000, 4000, door("door", "lounge N", 4100, 600))
    finding = trouble([lounge, block("hall", 1000, 4000, 1200, 5000)], [mouth("lounge", "hall")])
    assert finding.code == "plan-opening-in-mouth"


def test_two_links_through_one_part_of_a_wall_are_an_error() -> None:
    near = block("one", 0, 0, 4000, 3000, door("here", "one N", 500, 800), door("again", "one N", 900, 800))
    far = block("two", 0, 3100, 4000, 3000, door("there", "two S", 2700, 800), door("too", "two S", 2300, 800))
    links = [
        Link(name="first", rooms=("one", "two"), openings=("here", "there")),
        Link(name="second", rooms=("one", "two"), openings=("again", "too")),
    ]
    made, findings = run_of_rooms("run", [near, far], links, METRIC)
    assert made is None
    assert {finding.code for finding in findings} == {"plan-links-overlap"}
