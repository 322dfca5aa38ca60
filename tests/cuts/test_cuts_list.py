"""The cut list: order, kinds, marks, grouping."""

import math
from collections.abc import Callable
from fractions import Fraction

import numpy as np
import pytest
import shapely
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from floorwright.cuts.frame import onto_floor, onto_tile, tile_of
from floorwright.cuts.list import cut_list
from floorwright.cuts.schedule import CutList, CutPiece
from floorwright.geometry.region import Points, Region
from floorwright.layout.layout import Layout
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.pattern.cell import Placement
from floorwright.units import IMPERIAL, METRIC

Lay = Callable[..., Layout]
Make = Callable[..., Region]
SQUARE = ("S", "E", "N", "W")


def rectangle(width: float, height: float) -> list[tuple[float, float]]:
    return [(0, 0), (width, 0), (width, height), (0, height)]


def marked_area(piece: CutPiece, outline: Points) -> float:
    """Area of what is left of a tile when everything to the right of each pencil line is taken off."""
    left: shapely.Geometry = shapely.Polygon(outline)
    for saw in piece.saws:
        a, b = (np.array(mark.at) for mark in saw.marks)
        along = (b - a) / np.hypot(*(b - a)) * 1e4
        beyond = np.array([along[1], -along[0]])
        off = shapely.Polygon([a - along, b + along, b + along + beyond, a - along + beyond])
        left = shapely.difference(left, off)
    return float(shapely.area(left))


def by_label(cuts: CutList) -> dict[str, CutPiece]:
    return {piece.label: piece for piece in cuts.pieces}


def test_a_rectangle_is_numbered_from_the_first_corner_round(lay_naively: Lay, make_region: Make) -> None:
    # 1000 x 700 with tiles of 300 and joints of 0: 100 over at the right, 100 at the top
    layout = lay_naively(make_region((rectangle(1000, 700), SQUARE)), grid((300, 300), 0), (0, 0), 0.0)
    cuts = by_label(cut_list(layout, METRIC))
    ids = [cuts[str(n)].id for n in range(1, len(cuts) + 1)]
    assert ids == ["floor:3,0,0", "floor:3,1,0", "floor:3,2,0", "floor:2,2,0", "floor:1,2,0", "floor:0,2,0"]
    assert [cuts[str(n)].kind for n in range(1, 7)] == ["straight"] * 2 + ["corner"] + ["straight"] * 3
    assert [cuts[str(n)].same_as for n in range(1, 7)] == ["1", "1", "3", "4", "4", "4"]
    assert cuts["3"].walls == ("E", "N")
    assert cuts["1"].factory == ("bottom", "top", "left")


def test_marks_start_at_kept_corners_and_run_in_walking_order(lay_naively: Lay, make_region: Make) -> None:
    ring = [(0, 0), (1000, 0), (1012, 900), (0, 900)]  # the E wall leans out by 12 in 900
    layout = lay_naively(make_region((ring, SQUARE)), grid((300, 300), 0), (0, 0), 0.0)
    first = cut_list(layout, METRIC).pieces[0]
    assert first.kind == "straight"
    (saw,) = first.saws
    assert [(mark.side, mark.corner) for mark in saw.marks] == [("bottom", "bottom left"), ("top", "top left")]
    assert saw.start_mark == pytest.approx(100)
    assert saw.end_mark == pytest.approx(104)
    assert (first.thin, first.fat) == pytest.approx((100, 104))


def test_a_corner_piece_is_marked_across_the_full_tile(lay_naively: Lay, make_region: Make) -> None:
    layout = lay_naively(make_region((rectangle(1000, 700), SQUARE)), grid((300, 300), 0), (0, 0), 0.0)
    corner = by_label(cut_list(layout, METRIC))["3"]
    east, north = corner.saws
    assert (east.wall, north.wall) == ("E", "N")
    assert [mark.distance for mark in east.marks] == pytest.approx([100, 100])
    assert [mark.corner for mark in east.marks] == ["bottom left", "top left"]
    assert east.length == pytest.approx(300)  # on through the waste
    assert east.end == pytest.approx((100, 300))


def test_a_tile_without_a_cut_is_not_listed(lay_naively: Lay, make_region: Make) -> None:
    layout = lay_naively(make_region((rectangle(900, 600), SQUARE)), grid((300, 300), 0), (0, 0), 0.0)
    cuts = cut_list(layout, METRIC)
    assert cuts.pieces == ()
    assert (cuts.sawn, cuts.tiles) == (0.0, 0)


def test_an_l_at_a_corner_that_turns_in_stops_at_the_inside_corner(lay_naively: Lay, make_region: Make) -> None:
    ring = [(0, 0), (900, 0), (900, 500), (400, 500), (400, 900), (0, 900)]
    layout = lay_naively(make_region((ring, ("S", "E", "E2", "N", "N2", "W"))), grid((300, 300), 0), (0, 0), 0.0)
    (notch,) = [piece for piece in cut_list(layout, METRIC).pieces if piece.kind == "notch"]
    assert notch.id == "floor:1,1,0"
    level, upright = notch.saws
    assert (level.wall, upright.wall) == ("E2", "N")
    assert level.start_mark == pytest.approx(200)
    assert level.end_mark is None
    assert upright.start_mark is None
    assert upright.end_mark == pytest.approx(100)
    assert [mark.distance for mark in level.marks] == pytest.approx([200, 200])  # pencilled right across
    assert level.end == pytest.approx((100, 200))
    assert notch.factory == ("bottom", "right", "top", "left")
    assert (notch.thin, notch.fat) == pytest.approx((300, 300))


def test_a_column_inside_one_tile_stops_at_all_four_corners(lay_naively: Lay, make_region: Make) -> None:
    column = [(100, 100), (100, 200), (180, 200), (180, 100)]
    layout = lay_naively(
        make_region((rectangle(600, 600), SQUARE), (column, ["column"] * 4)), grid((300, 300), 0), (0, 0), 0.0
    )
    (piece,) = cut_list(layout, METRIC).pieces
    assert piece.kind == "notch"
    assert [(saw.start_mark, saw.end_mark) for saw in piece.saws] == [(None, None)] * 4
    assert sum(saw.length for saw in piece.saws) == pytest.approx(360)


def test_a_pipe_is_one_round_cut_in_each_piece(lay_naively: Lay, make_region: Make) -> None:
    turn = np.linspace(0, -2 * np.pi, 48, endpoint=False)
    pipe = [(300 + 30 * math.cos(t), 150 + 30 * math.sin(t)) for t in turn]  # on the joint between two tiles
    layout = lay_naively(
        make_region((rectangle(600, 600), SQUARE), (pipe, ["pipe"] * 48)), grid((300, 300), 0), (0, 0), 0.0
    )
    left, right = cut_list(layout, METRIC).pieces
    assert {left.kind, right.kind} == {"notch"}
    assert (left.saws, right.saws) == ((), ())
    for piece in (left, right):
        (bore,) = piece.bores
        assert bore.radius == pytest.approx(30)
        assert bore.length == pytest.approx(math.pi * 30, rel=0.01)
        assert bore.centre[1] == pytest.approx(150)
        along, across = bore.marks
        assert along.distance == pytest.approx(0, abs=1e-6)  # on the corner's own side: the joint runs through it
        assert across.distance == pytest.approx(150)


def test_a_pipe_that_touches_the_wall_is_a_round_bite(lay_naively: Lay, make_region: Make) -> None:
    turn = np.linspace(math.pi, 0, 25)
    bite = [(150 + 40 * math.cos(t), 40 * math.sin(t)) for t in turn]
    ring = [(0, 0), *bite, (300, 0), (300, 300), (0, 300)]
    walls = ("S", *["pipe"] * 24, "S", "E", "N", "W")
    (piece,) = cut_list(lay_naively(make_region((ring, walls)), grid((300, 300), 0), (0, 0), 0.0), METRIC).pieces
    (bore,) = piece.bores
    assert (piece.kind, piece.saws) == ("notch", ())
    assert (*bore.centre, bore.radius) == pytest.approx((150, 0, 40))
    assert [mark.side for mark in bore.marks] == ["bottom", "right"]
    assert [mark.distance for mark in bore.marks] == pytest.approx([150, 0])


def test_a_diagonal_layout_gives_triangles_marked_from_one_corner(lay_naively: Lay, make_region: Make) -> None:
    half = 300 * math.sqrt(2) / 2
    layout = lay_naively(
        make_region((rectangle(8 * half, 8 * half), SQUARE)), grid((300, 300), 0), (0, 0), math.radians(45)
    )
    cuts = cut_list(layout, METRIC)
    assert {piece.kind for piece in cuts.pieces} == {"angled"}
    # one kind of cut at each wall: on a slant nothing says that the tile may be turned
    assert {piece.same_as for piece in cuts.pieces} == {"1", "5", "9", "13"}
    for piece in cuts.pieces:
        for saw in piece.saws:
            assert [mark.distance for mark in saw.marks] == pytest.approx([300, 300], abs=1e-6)


def test_equal_strips_turn_half_round_but_never_over(lay_naively: Lay, make_region: Make) -> None:
    straight = lay_naively(make_region((rectangle(800, 600), SQUARE)), grid((300, 300), 0), (100, 0), 0.0)
    assert {piece.same_as for piece in cut_list(straight, METRIC).pieces} == {"1"}
    leaning = [(-6, 0), (806, 0), (794, 600), (6, 600)]  # both sides lean in alike: the cuts mirror each other
    mirrored = lay_naively(make_region((leaning, SQUARE)), grid((300, 300), 0), (100, 0), 0.0)
    cuts = cut_list(mirrored, METRIC)
    assert len(cuts.pieces) == 4
    assert {piece.same_as for piece in cuts.pieces} == {piece.label for piece in cuts.pieces}
    parallel = [(-6, 0), (794, 0), (806, 600), (6, 600)]  # one leans in, one out: half a turn brings them together
    turned = cut_list(lay_naively(make_region((parallel, SQUARE)), grid((300, 300), 0), (100, 0), 0.0), METRIC)
    assert sorted(piece.same_as for piece in turned.pieces) == ["1", "1", "2", "2"]


def test_cuts_are_alike_at_the_step_they_are_printed_at(lay_naively: Lay, make_region: Make) -> None:
    ring = [(0, 0), (1000, 0), (1000.4, 600), (0, 600)]  # 0.2 mm a tile: nothing in sixteenths, one step of 0.5 mm
    layout = lay_naively(make_region((ring, SQUARE)), grid((300, 300), 0), (0, 0), 0.0)
    assert [piece.same_as for piece in cut_list(layout, IMPERIAL).pieces] == ["1", "1"]
    assert [piece.same_as for piece in cut_list(layout, METRIC).pieces] == ["1", "2"]


def test_a_corridor_narrower_than_a_tile_gives_strips(lay_naively: Lay, make_region: Make) -> None:
    ring = [(0, 0), (900, 0), (900, 250), (0, 247)]
    layout = lay_naively(make_region((ring, SQUARE)), grid((300, 300), 0), (0, -20), 0.0)
    strips = [piece for piece in cut_list(layout, METRIC).pieces if piece.kind == "strip"]
    assert len(strips) == 3
    assert (strips[0].thin, strips[0].fat) == pytest.approx((247, 248))
    assert strips[0].factory == ("right", "left")


def test_two_pieces_of_one_tile_are_two_cuts(lay_naively: Lay, make_region: Make) -> None:
    ring = [(0, 0), (140, 0), (140, 200), (160, 200), (160, 0), (300, 0), (300, 300), (0, 300)]  # a nib from below
    walls = ("S", "nib", "nib", "nib", "S", "E", "N", "W")
    whole = cut_list(lay_naively(make_region((ring, walls)), grid((300, 300), 0), (0, 0), 0.0), METRIC)
    assert [piece.kind for piece in whole.pieces] == ["notch"]
    low = cut_list(lay_naively(make_region((ring, walls)), grid((300, 200), 0), (0, 0), 0.0), METRIC)
    assert sorted(piece.id for piece in low.pieces) == ["floor:0,0,0/1", "floor:0,0,0/2", "floor:0,1,0"]
    assert low.tiles == 3


def test_a_line_stops_where_running_on_would_spoil_the_piece(lay_naively: Lay, make_region: Make) -> None:
    ring = [(0, 0), (300, 0), (300, 120), (200, 120), (200, 180), (150, 180), (150, 60), (0, 60)]
    layout = lay_naively(make_region((ring, ("S", "E", "a", "b", "c", "d", "e", "W"))), grid((300, 300), 0), (0, 0), 0)
    (piece,) = cut_list(layout, METRIC).pieces
    saws = {saw.wall: saw for saw in piece.saws}
    assert saws["c"].start == pytest.approx((300, 180))  # beyond b the waste runs to the side
    assert saws["d"].start == pytest.approx((150, 300))
    assert saws["d"].end_mark is None
    ring = [(0, 0), (300, 0), (300, 300), (220, 300), (220, 100), (180, 100), (180, 200), (0, 200)]
    layout = lay_naively(make_region((ring, ("S", "E", "N", "a", "b", "c", "d", "W"))), grid((300, 300), 0), (0, 0), 0)
    (piece,) = cut_list(layout, METRIC).pieces
    level = {saw.wall: saw for saw in piece.saws}["d"]
    assert level.start == pytest.approx((180, 200))  # sawn on, it would run into the leg beyond the slot
    assert level.start_mark is None


quarter = st.floats(-40, 40)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    shifts=st.tuples(*[quarter] * 8),
    origin=st.tuples(st.floats(0, 300), st.floats(0, 300)),
    angle=st.sampled_from([0.0, 0.02, math.pi / 4, 1.1]),
    bond=st.booleans(),
)
def test_marks_alone_give_back_every_piece_of_a_room_that_turns_out(
    lay_naively: Lay,
    make_region: Make,
    shifts: tuple[float, ...],
    origin: tuple[float, float],
    angle: float,
    bond: bool,
) -> None:
    ring = np.array(rectangle(1100, 900)) + np.array(shifts).reshape(4, 2)
    cell = brick_bond((300, 200), 3, Fraction(1, 3)) if bond else grid((300, 200), 3)
    layout = lay_naively(make_region((ring, SQUARE)), cell, origin, angle)
    areas = {piece.id: piece.area for piece in layout.pieces}
    cuts = cut_list(layout, METRIC)
    assert sorted(piece.id for piece in cuts.pieces) == sorted(piece.id for piece in layout.pieces if not piece.full)
    assert [piece.label for piece in cuts.pieces] == [str(n + 1) for n in range(len(cuts.pieces))]
    tile = tile_of(cell, 0)
    for piece in cuts.pieces:
        assert piece.kind != "notch"
        assert marked_area(piece, tile.outline) == pytest.approx(areas[piece.id], abs=0.5)
        assert 0 <= piece.thin <= piece.fat
        assert int(piece.same_as) <= int(piece.label)


@given(angle=st.floats(-4, 4), i=st.integers(-9, 9), j=st.integers(-9, 9), x=st.floats(-1e4, 1e4))
def test_the_tile_frame_goes_there_and_back(angle: float, i: int, j: int, x: float) -> None:
    cell = grid((447, 300), 3)
    tile = tile_of(cell, 0)
    placement = Placement(origin=(x, -x / 3), angle=angle)
    points = np.array([[0.0, 0.0], [447.0, 300.0], [12.0, 250.0]])
    there = onto_floor(points, tile, cell, placement, (i, j, 0))
    assert onto_tile(there, tile, cell, placement, (i, j, 0)) == pytest.approx(points, abs=1e-6)
    assert tile.outline == pytest.approx(np.array(rectangle(447, 300)))
