"""The floor divided among zones: nothing lost, nothing twice, and turned with the plan."""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.layout.jobs import larch_row, rectangle_room, room_of
from tests.layout.rooms import polygon_of

from floorwright.layout.axis import axes_of, region_faces, wall_faces
from floorwright.layout.border import Border, ZoneMisfitError
from floorwright.layout.insets import outline_of, rectangle
from floorwright.layout.walls import strip_at
from floorwright.layout.zones import Cover, Part, divide
from floorwright.pattern.catalogue import grid
from floorwright.plan.room import Opening, Room
from floorwright.units import METRIC

ELL = room_of(
    {"A": (0, 0), "B": (6000, 0), "C": (6000, 2500), "D": (3500, 2500), "E": (3500, 5000), "F": (0, 5000)},
    ("S", "E", "N1", "E1", "N", "W"),
)
CORNERS = ("mitred", "butted", "woven")


def border(room: Room, width: float = 250.0, corners: str = "mitred", **other: object) -> Border:
    walls: tuple[str, ...] = tuple(wall.name for wall in room.walls)
    made = Border(
        widths=dict.fromkeys(walls, width), corners=corners, through=(), tapers=False, joint=3.0, joint_inside=4.0
    )
    return replace(made, **other)  # type: ignore[arg-type]


def parts_of(room: Room, *covers: Cover, first_line: float = 0.0) -> dict[str, Part]:
    parts = divide(room=room, covers=covers, first_line=first_line, style=METRIC)
    assert len({part.name for part in parts}) == len(parts)
    return {part.name: part for part in parts}


def shape(part: Part) -> shapely.Polygon:
    return polygon_of(part.region)


FIELD = Cover(zone="field", gap=5.0)


@pytest.mark.parametrize("corners", CORNERS)
def test_a_rectangle_with_a_border_on_every_wall(corners: str) -> None:
    room = rectangle_room(5600, 4400)
    parts = parts_of(room, Cover(zone="border", gap=5.0, border=border(room, corners=corners)), FIELD)
    assert list(parts) == ["border S", "border E", "border N", "border W", "field"]
    assert shape(parts["field"]).bounds == pytest.approx((259, 259, 5341, 4141))
    # Every two sides lie a joint apart, the field a joint of its own inside them.
    assert shape(parts["border S"]).distance(shape(parts["border E"])) == pytest.approx(3)
    assert shape(parts["border S"]).distance(shape(parts["field"])) == pytest.approx(4)
    assert {name for names in parts["field"].region.edges for name in names} == {
        "border at S", "border at E", "border at N", "border at W"
    }  # fmt: skip


def test_the_longer_wall_runs_through_where_a_border_is_butted_unless_another_is_named() -> None:
    room = rectangle_room(5600, 4400)
    plain = parts_of(room, Cover(zone="b", gap=5.0, border=border(room, corners="butted")), FIELD)
    assert shape(plain["b S"]).bounds == pytest.approx((5, 5, 5595, 255))
    assert shape(plain["b E"]).bounds == pytest.approx((5345, 258, 5595, 4142))
    named = border(room, corners="butted", through=("E", "W"))
    other = parts_of(room, Cover(zone="b", gap=5.0, border=named), FIELD)
    assert shape(other["b E"]).bounds == pytest.approx((5345, 5, 5595, 4395))


def test_each_side_of_a_woven_border_runs_through_at_its_end() -> None:
    room = rectangle_room(5600, 4400)
    parts = parts_of(room, Cover(zone="b", gap=5.0, border=border(room, corners="woven")), FIELD)
    assert shape(parts["b S"]).bounds == pytest.approx((258, 5, 5595, 255))
    assert shape(parts["b E"]).bounds == pytest.approx((5345, 258, 5595, 4395))


@pytest.mark.parametrize("corners", CORNERS)
def test_round_a_corner_that_turns_in(corners: str) -> None:
    parts = parts_of(ELL, Cover(zone="b", gap=5.0, border=border(ELL, corners=corners)), FIELD)
    shapes = [shape(part) for part in parts.values()]
    for n, one in enumerate(shapes):
        for other in shapes[:n]:
            assert one.distance(other) >= 3 - 1e-6
    field = shape(parts["field"])
    assert field.area == pytest.approx((6000 - 518) * (2500 - 518) + (3500 - 518) * 2500)


def test_the_border_takes_the_taper_or_the_field_does() -> None:
    room = larch_row()
    takes = border(room, tapers=True)
    parts = parts_of(room, Cover(zone="b", gap=5.0, border=takes), FIELD)
    ring = shape(parts["field"])
    # True to the first line, so the field is a rectangle whatever the walls do.
    assert ring.area == pytest.approx(ring.envelope.area)
    strip = parts["b N"].strip
    assert strip is not None
    assert strip.fat == pytest.approx(250)
    assert 220 < strip.thin < 230
    leaves = parts_of(room, Cover(zone="b", gap=5.0, border=border(room)), FIELD)
    assert leaves["b N"].strip is not None
    assert leaves["b N"].strip.thin == pytest.approx(leaves["b N"].strip.fat)


def test_a_border_runs_on_into_a_door() -> None:
    room = replace(
        rectangle_room(4000, 3000), openings=(Opening(name="door", wall="S", start=1000, width=900, reveal=60),)
    )
    along_two = Border(
        widths={"S": 200.0, "E": 200.0}, corners="mitred", through=(), tapers=False, joint=3, joint_inside=3
    )
    parts = parts_of(room, Cover(zone="b", gap=5.0, border=along_two), FIELD)
    assert shape(parts["b S"]).bounds == pytest.approx((5, -55, 3995 - 3 / 2 * math.sqrt(2), 205), abs=6)
    assert "door threshold" in parts["b S"].region.edges[0]
    assert {"W", "N"} < {side.name for side in parts["field"].sides}


def test_a_second_border_lies_inside_the_first() -> None:
    room = rectangle_room(5600, 4400)
    first, second = (Cover(zone=name, gap=5.0, border=border(room, 100.0)) for name in ("outer", "inner"))
    parts = parts_of(room, first, second, FIELD)
    assert shape(parts["inner S"]).bounds[1] == pytest.approx(5 + 100 + 4)
    assert shape(parts["field"]).bounds[0] == pytest.approx(5 + 2 * 104)


@pytest.mark.parametrize("width", [1900.0, 2200.0, 3000.0])
def test_a_border_wider_than_the_room_is_refused(width: float) -> None:
    room = rectangle_room(5600, 3800)
    with pytest.raises(ZoneMisfitError):
        parts_of(room, Cover(zone="b", gap=5.0, border=border(room, width)), FIELD)


@pytest.mark.parametrize("centre", [(100, 2000), (-5000, 0)])
def test_an_inset_off_the_floor_is_refused(centre: tuple[float, float]) -> None:
    with pytest.raises(ZoneMisfitError, match="off the floor"):
        parts_of(rectangle_room(5600, 4400), FIELD, Cover(zone="rug", gap=5.0, outline=rectangle(centre, 900, 600, 0)))


def test_insets_that_overlap_are_refused() -> None:
    rugs = [Cover(zone=f"rug {x}", gap=5.0, joint=3, outline=rectangle((x, 2000), 900, 600, 0)) for x in (2000, 2901)]
    with pytest.raises(ZoneMisfitError, match="over rug 2000"):
        parts_of(rectangle_room(5600, 4400), FIELD, *rugs)


def test_an_outline_the_wrong_way_round_is_turned() -> None:
    ring = np.array([[0.0, 0.0], [0.0, 10.0], [10.0, 0.0]])
    assert shapely.Polygon(outline_of(ring, 0.0).ring).exterior.is_ccw


@settings(max_examples=30)
@given(
    width=st.floats(80, 500),
    corners=st.sampled_from(CORNERS),
    tapers=st.booleans(),
    rug=st.floats(0, math.pi),
    turn=st.floats(0, 2 * math.pi),
    room=st.sampled_from([rectangle_room(5600, 4400), larch_row(), ELL]),
)
def test_nothing_is_lost_and_nothing_covered_twice_however_the_plan_is_turned(
    width: float, corners: str, tapers: bool, rug: float, turn: float, room: Room
) -> None:
    def divided(by: float) -> list[float]:
        cos, sin = math.cos(by), math.sin(by)
        moved = replace(
            room, corners=tuple(replace(c, x=cos * c.x - sin * c.y, y=sin * c.x + cos * c.y) for c in room.corners)
        )
        x, y = 1750.0, 1750.0
        centre = (cos * x - sin * y, sin * x + cos * y)
        covers = (
            Cover(zone="b", gap=5.0, border=border(room, width, corners, tapers=tapers)),
            FIELD,
            Cover(zone="rug", gap=5.0, joint=3, outline=rectangle(centre, 900, 600, rug + by)),
        )
        parts = parts_of(moved, *covers, first_line=by)
        shapes = [shape(part) for part in parts.values()]
        floor = shapely.Polygon(moved.outline)
        joined = shapely.union_all(shapes)
        assert shapely.union_all(shapes).area == pytest.approx(sum(one.area for one in shapes), abs=1)
        # Joints and gaps take what is left, and no spot of it is farther from a zone than a joint or the gap.
        assert (
            floor.difference(joined.buffer(4.01 * math.sqrt(2), join_style="mitre"))
            .difference(floor.exterior.buffer(5.01 * math.sqrt(2)))
            .area
            < 1.0
        )
        return [one.area for one in shapes]

    assert divided(turn) == pytest.approx(divided(0.0), rel=1e-6)


def test_the_widest_gap_counts_at_walls_and_not_at_joints_between_zones() -> None:
    room = rectangle_room(5600, 4400)
    field = parts_of(room, Cover(zone="border", gap=5.0, border=border(room)), FIELD)["field"]
    whole = parts_of(room, FIELD)["field"]
    cell = grid((300.0, 300.0), 3.0)
    (across, _) = axes_of(cell, 0.0)
    for part, spare in ((field, 0.0), (whole, 2.5)):
        assert {face.spare(2.5) for face in wall_faces(part.sides, across)} == {spare}
        assert {face.spare(2.5) for face in region_faces(part.region, across)} == {spare}
    # The wall or the border on the west leaves a tile and 2 mm: a wall's gap may take the 2 over, a joint may not.
    for part, fits in ((field, False), (whole, True)):
        (west,) = (face for face in wall_faces(part.sides, across) if face.sign < 0)
        origin = np.array([-west.near + 2.0 - across.joint / 2, 0.0])
        assert (strip_at(west, across, across, origin, 2.5) is None) is fits
