"""The working grid: boxes within reach that cover the floor, lines of the snap list, an order with a way out."""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.control.rooms import l_room, larch_row, rectangle
from tests.setout.floors import control_of, laid

from floorwright.cli.report import control_text
from floorwright.export.data_setout import lines_data
from floorwright.geometry.measure import region_area
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.layout.layout import Layout
from floorwright.pattern.catalogue import grid as tiles
from floorwright.plan.room import Opening, Room
from floorwright.setout.boxes import Box, boxes_in_order
from floorwright.setout.grid import PINNED_OVER, GridChoices, WorkingGrid, working_grid
from floorwright.setout.snap import snap_list
from floorwright.sheets.pack import pack
from floorwright.tolerance import TOUCH
from floorwright.units import METRIC

JOB = """
title = "Mill Lane workshop"
date = 2026-03-05
units = "{units}"
[survey]
outline = ["A", "B", "C", "D"]
[survey.distances]
A-B = "7.20 m"
B-C = "5.80 m"
C-D = "7.20 m"
D-A = "5.80 m"
A-C = "9.246 m"
B-D = "9.246 m"
[[openings]]
name = "roller door"
wall = "A-B"
from = "A"
offset = "2 m"
width = "2.4 m"
[[goods]]
name = "Grey 400"
length = "397 mm"
[[zones]]
goods = "Grey 400"
joint = "3 mm"
gap = "5 mm"
{setout}
"""


def chosen(**more: object) -> GridChoices:
    said = {"wanted": None, "reach": 1300.0, "skins": 0.0, "first_pass": 150.0} | more
    return GridChoices(**said)  # type: ignore[arg-type]


def found(room: Room, layout: Layout, choices: GridChoices) -> tuple[WorkingGrid | None, list[str]]:
    snap = snap_list(room=room, control=control_of(room), layouts=(layout,))
    made, findings = working_grid(room=room, layouts=(layout,), snap=snap, choices=choices, style=METRIC)
    return made, [one.code for one in findings]


def shape(box: Box) -> shapely.Polygon:
    return shapely.Polygon(box.rings[0], list(box.rings[1:]))


def keeps_a_way(boxes: tuple[Box, ...]) -> bool:
    """Whether what is not set yet hangs together by edges at every box, with the last one in it."""
    shapes = [shape(box) for box in boxes]
    for n in range(len(shapes)):
        rest = shapely.union_all([one.buffer(TOUCH) for one in shapes[n:]]).buffer(-2 * TOUCH)
        if shapely.get_num_geometries(rest) > 1:
            return False
    return True


def test_a_floor_by_hand() -> None:
    """6 x 4 tiles of 400 and a reach of 900: two tiles a box, three boxes by two."""
    room = rectangle(2410, 1610, openings=(Opening(name="door", wall="S", start=900, width=600),))
    made, codes = found(room, laid(room, tiles((397.0, 397.0), 3.0), (5.0, 5.0)), chosen(reach=900.0))
    assert made is not None
    assert codes == ["setout-grid"]
    assert made.every == (2, 2)
    assert [(one.name, round(one.line.running)) for one in made.lines] == [("A", 805), ("1", 805), ("2", 1605)]
    # The far row ends where the near row begins; of that both arms to the door in the middle.
    assert [tuple(round(value, -2) for value in box.at) for box in made.boxes] == [
        (2000, 1200), (1200, 1200), (400, 1200), (400, 400), (2000, 400), (1200, 400),
    ]  # fmt: skip
    assert (made.way_out, made.by_door, made.bounded_by) == ("door", True, "reach")


@settings(max_examples=25, deadline=None)
@given(
    size=st.tuples(st.integers(2000, 5000), st.integers(2000, 5000)),
    tile=st.sampled_from([100.0, 197.0, 300.0, 447.0, 597.0]),
    reach=st.integers(800, 2000),
    at=st.tuples(st.floats(0, 600), st.floats(0, 600)),
    angle=st.sampled_from([0.0, math.pi / 4, 0.3]),
)
def test_boxes_cover_the_floor_within_reach_and_leave_a_way_out(
    size: tuple[int, int], tile: float, reach: int, at: tuple[float, float], angle: float
) -> None:
    door = Opening(name="door", wall="E", start=size[1] / 3, width=800)
    room = rectangle(*size, openings=(door,))
    layout = laid(room, tiles((tile, tile), 3.0), at, angle=angle)
    made, codes = found(room, layout, chosen(reach=float(reach), wanted=True))
    assert made is not None
    assert sum(box.area for box in made.boxes) == pytest.approx(region_area(layout.region), rel=1e-9)
    assert [box.number for box in made.boxes] == list(range(1, len(made.boxes) + 1))
    assert keeps_a_way(made.boxes)
    assert shape(made.boxes[-1]).distance(shapely.Point(size[0], size[1] / 3 + 400)) < 50
    if "setout-grid-wide" not in codes:
        assert max(made.size) <= reach + TOUCH
    for numbered in (True, False):
        running = [one.line.running for one in made.lines if one.name.isdecimal() is numbered]
        assert running == sorted(running)


def test_an_l_and_a_column_leave_a_way_out() -> None:
    for room in (l_room(), larch_row()):
        made, _ = found(room, laid(room, tiles((297.0, 297.0), 3.0), (0.0, 0.0)), chosen(reach=950.0))
        assert made is not None
        assert keeps_a_way(made.boxes)


def test_a_way_that_no_row_keeps_goes_by_distance() -> None:
    """A ring round a column cannot be swept row by row from one side; the farthest box still comes first."""
    from tests.control.rooms import column

    from floorwright.geometry.region import Region

    outer = np.array([[0.0, 0.0], [3000.0, 0.0], [3000.0, 3000.0], [0.0, 3000.0]])
    hole = column(1000.0, 1000.0, 1000.0).outline[::-1]
    region = Region(rings=(outer, hole), edges=(("",) * 4, ("",) * 4))
    cuts = [(((x, 0.0), math.pi / 2)) for x in (1000.0, 2000.0)], [(((0.0, y), 0.0)) for y in (1000.0, 2000.0)]
    boxes = boxes_in_order(region=region, cuts=cuts, reach=1300.0, way_out=(500.0, 0.0), along=0.0)
    assert len(boxes) == 8
    assert keeps_a_way(boxes)


def test_no_line_lies_under_the_first_pass() -> None:
    room = rectangle(3000, 2000)
    layout = laid(room, tiles((397.0, 397.0), 3.0), (100.0, 100.0))
    clear, _ = found(room, layout, chosen(reach=820.0, first_pass=150.0))
    assert clear is not None
    assert all(one.line.running >= 150 for one in clear.lines)
    close, _ = found(room, layout, chosen(reach=420.0, first_pass=50.0))
    assert close is not None
    assert any(one.line.running < 150 for one in close.lines)


def test_what_is_set_before_the_mortar_skins_bounds_a_box() -> None:
    room = rectangle(5000, 4000)
    layout = laid(room, tiles((197.0, 197.0), 3.0), (0.0, 0.0))
    free, _ = found(room, layout, chosen())
    bound, _ = found(room, layout, chosen(skins=0.7e6))
    assert free is not None
    assert bound is not None
    assert max(box.area for box in free.boxes) > 0.7e6
    assert max(box.area for box in bound.boxes) <= 0.7e6
    assert (free.bounded_by, bound.bounded_by) == ("reach", "mortar")


def test_one_module_wider_than_the_reach_is_told_of() -> None:
    room = rectangle(5000, 4000)
    made, codes = found(room, laid(room, tiles((1197.0, 1197.0), 3.0), (0.0, 0.0)), chosen(reach=900.0))
    assert made is not None
    assert made.bounded_by == "module"
    assert codes == ["setout-grid-wide"]


def test_a_small_floor_has_none_unless_asked_for() -> None:
    room = rectangle(1500, 1200)
    layout = laid(room, tiles((297.0, 297.0), 3.0), (0.0, 0.0))
    assert found(room, layout, chosen()) == (None, [])
    assert found(room, layout, chosen(wanted=True))[0] is not None
    assert found(rectangle(6000, 5000), layout, chosen(wanted=False)) == (None, [])


def test_long_lines_are_pinned_and_letters_are_no_corner() -> None:
    room = l_room()
    made, _ = found(room, laid(room, tiles((297.0, 297.0), 3.0), (0.0, 0.0)), chosen())
    assert made is not None
    assert not {one.name for one in made.lines} & {corner.name for corner in room.corners}
    long_room = rectangle(PINNED_OVER + 100, 3000)
    made, _ = found(long_room, laid(long_room, tiles((297.0, 297.0), 3.0), (0.0, 0.0)), chosen())
    assert made is not None
    assert [one.is_pinned for one in made.lines] == [one.length > PINNED_OVER for one in made.lines]
    assert {one.is_pinned for one in made.lines} == {True, False}


def solved(setout: str, units: str = "mm") -> Solution:
    loaded = load_text(JOB.format(setout=setout, units=units), "shop.toml")
    assert loaded.job is not None
    assert not [one for one in loaded.findings if one.severity == "error"], loaded.findings
    return solve(loaded.job, findings=loaded.findings)


def test_through_the_job_file() -> None:
    solution = solved('[setout.grid]\nreach = "1.25 m"\nskins = 1.2\nfirst_pass = 120')
    assert solution.setout is not None
    made = solution.setout.grid
    assert made is not None
    assert max(box.area for box in made.boxes) <= 1.2e6
    [sheet] = [sheet for sheet in pack(solution).sheets if sheet.key == "grid"]
    assert sheet.title == f"Snap {len(made.lines)} lines, then set {len(made.boxes)} boxes in order."
    assert sheet.title in control_text(solution)
    data = lines_data(solution)["grid"]
    assert [box["number"] for box in data["boxes"]] == list(range(1, len(made.boxes) + 1))
    assert sum(box["area_m2"] for box in data["boxes"]) == pytest.approx(7.19 * 5.79, rel=1e-3)
    snapped = {line.name: line.running for line in solution.snap.lines} if solution.snap else {}
    assert all(snapped[one["line"]] == pytest.approx(one["running_mm"], abs=0.01) for one in data["lines"])


def test_off_by_key_and_in_square_feet() -> None:
    assert not [one for one in pack(solved("[setout.grid]\nwanted = false")).sheets if one.key == "grid"]
    bare, text = (solved(f"[setout.grid]\nskins = {skins}", "in") for skins in ("12", '"12 sq ft"'))
    assert bare.job.setout.grid.skins == text.job.setout.grid.skins == pytest.approx(12 * 304.8**2)


def test_strips_between_lines_are_whole_modules() -> None:
    room = rectangle(6000, 5000)
    made, _ = found(room, laid(room, tiles((297.0, 297.0), 3.0), (10.0, 10.0)), chosen())
    assert made is not None
    for letters in (True, False):
        runs = [one.line.running for one in made.lines if one.name.isdecimal() is not letters]
        assert all(math.remainder(b - a, 300) == pytest.approx(0, abs=TOUCH) for a, b in pairwise(runs))


def test_every_row_begins_where_the_one_before_ends() -> None:
    """12 x 8 tiles of 400 by boxes of two: four rows of six, back and forth, no step longer than a box's diagonal."""
    room = rectangle(4834, 3234, openings=(Opening(name="door", wall="S", start=100, width=600),))
    made, _ = found(room, laid(room, tiles((397.0, 397.0), 3.0), (5.0, 5.0)), chosen(reach=900.0))
    assert made is not None
    middles = [box.at for box in made.boxes]
    steps = [math.dist(a, b) for a, b in pairwise(middles)]
    assert max(steps) <= 900.0 * math.sqrt(2)
