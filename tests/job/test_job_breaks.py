"""A floor that breaks between rooms: two fields, from the job file on."""

import math
from pathlib import Path

import pytest
import shapely
from tests.job.test_job_rooms import TWO, solved

import floorwright
from floorwright.findings import Severity
from floorwright.geometry.measure import region_area
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.write.text import job_text
from floorwright.sheets.pack import pack

ZONE = '[[zones]]\ngoods = "White 300"\njoint = 3\ngap = 5\n'
FIELDS = """[[goods]]
name = "Block 200"
length = 200
width = 100
[[zones]]
name = "tiles"
rooms = ["dining"]
goods = "White 300"
joint = 3
gap = 5
[[zones]]
name = "blocks"
goods = "Block 200"
pattern = "brick bond"
joint = 2
gap = 8
"""
NAMED = 'name = "arch"\n'
BROKEN = TWO.replace(ZONE, FIELDS).replace(NAMED, f'{NAMED}floor = "breaks"\n')


def polygon(solution: Solution, zone: int) -> shapely.Polygon:
    region = solution.layouts[zone].region
    return shapely.Polygon(region.rings[0], region.rings[1:])


@pytest.fixture(scope="module")
def broken() -> Solution:
    assert BROKEN.count("[[zones]]") == 2
    assert "breaks" in BROKEN
    return solved(BROKEN)


def test_each_room_has_a_pattern_of_its_own(broken: Solution) -> None:
    assert [layout.zone for layout in broken.layouts] == ["tiles", "blocks"]
    assert [layout.cell.name for layout in broken.layouts] == ["grid", "brick bond, half"]
    assert [layout.chosen.joint for layout in broken.layouts] == [3, 2]
    assert all(layout.proofs for layout in broken.layouts)
    assert not [one for one in broken.findings if one.severity is Severity.ERROR]


def test_they_meet_in_the_middle_of_the_doorway_a_joint_apart(broken: Solution) -> None:
    tiles, blocks = polygon(broken, 0), polygon(broken, 1)
    # The faces of the wall are at 3000 and 3100; the wider of the two joints is 3.
    assert tiles.bounds == pytest.approx((5, 5, 3995, 3048.5), abs=0.1)
    assert blocks.bounds == pytest.approx((8, 3051.5, 3492, 5592), abs=0.1)
    assert tiles.distance(blocks) == pytest.approx(3)
    # 3990 x 2990 and half the doorway, its jambs 800 apart; 3484 x 2484 and the other half.
    assert tiles.area == pytest.approx(3990 * 2990 + 790 * 53.5, rel=1e-4)
    assert blocks.area == pytest.approx(3484 * 2484 + 784 * 56.5, rel=1e-4)


def test_the_pieces_cover_each_room_and_no_more(broken: Solution) -> None:
    for layout in broken.layouts:
        covered = math.fsum(piece.area for piece in layout.pieces)
        tile, joint = math.prod(layout.cell.size), layout.chosen.joint
        whole = math.prod(side + joint for side in layout.cell.size)
        assert covered == pytest.approx(region_area(layout.region) * tile / whole, rel=0.01)


def test_cuts_are_told_at_the_threshold_and_at_the_walls_of_the_room(broken: Solution) -> None:
    names = [[wall.wall for wall in layout.chosen.walls] for layout in broken.layouts]
    assert "threshold arch" in names[0]
    assert "threshold arch" in names[1]
    assert "F-G" in names[1]
    assert "F-G" not in names[0]
    # Both have a part of either jamb.
    assert all({"arch jamb left", "arch jamb right"} <= set(one) for one in names)


def test_no_room_of_the_other_field_is_spoken_of(broken: Solution) -> None:
    tiles, blocks = broken.layouts
    assert not tiles.rooms
    assert not any("study" in option.name for option in tiles.options)
    assert not any("dining" in option.name for option in blocks.options)
    assert not any("F-G" in words for words in tiles.chosen.lines_up)


def test_the_line_is_in_the_snap_list_and_on_the_sheets(broken: Solution) -> None:
    assert broken.snap is not None
    (line,) = [line for line in broken.snap.lines if line.family == "threshold"]
    assert line.name == "arch"
    assert [(mark.on, round(mark.distance, 1)) for mark in line.marks] == [
        ("arch jamb right", 50.0),
        ("arch jamb left", 50.0),
    ]
    assert {mark.start for mark in line.marks} == {"dining side right", "dining side left"}
    layout = next(sheet for sheet in pack(broken).sheets if sheet.key == "layout")
    assert "At arch tiles and blocks meet, with a joint of 3 mm between them." in repr(layout.blocks)


def test_goods_are_ordered_room_by_room(broken: Solution) -> None:
    assert [order.goods for order in broken.orders] == ["White 300", "Block 200"]
    for order, layout in zip(broken.orders, broken.layouts, strict=True):
        assert order.full == layout.chosen.full


def test_it_is_written_as_it_was_read(broken: Solution) -> None:
    text = job_text(broken.job)
    assert load_text(text).job == broken.job


@pytest.mark.parametrize(
    ("keys", "first", "second"),
    [
        ("at = 0\n", 2998.5, 3001.5),
        ("at = 100\n", 3098.5, 3101.5),
        ("strip = 30\n", 3035, 3065),
        ("at = 20\nstrip = 30\n", 3005, 3035),
    ],
    ids=["at the face", "at the other face", "a strip", "a strip at a place"],
)
def test_the_line_lies_where_it_is_said(keys: str, first: float, second: float) -> None:
    solution = solved(BROKEN.replace('floor = "breaks"\n', f'floor = "breaks"\n{keys}'))
    tiles, blocks = (layout.region.rings[0][:, 1] for layout in solution.layouts)
    assert tiles.max() == pytest.approx(first, abs=0.1)
    assert blocks.min() == pytest.approx(second, abs=0.1)


def test_a_line_beyond_the_doorway_is_an_error() -> None:
    solution = solved(BROKEN.replace('floor = "breaks"\n', 'floor = "breaks"\nat = 140\n'))
    (error,) = [one for one in solution.findings if one.severity is Severity.ERROR]
    assert error.code == "plan-break-beyond"
    assert "100 mm deep" in error.expected


def test_a_break_that_is_not_said_is_assumed_and_one_of_one_field_is_idle() -> None:
    assumed = load_text(BROKEN.replace('floor = "breaks"\n', ""))
    assert [one.code for one in assumed.findings if one.code.startswith("job-break")] == ["job-break-assumed"]
    idle = load_text(TWO.replace(NAMED, f'{NAMED}floor = "breaks"\n'))
    assert [one.code for one in idle.findings if one.code.startswith("job-break")] == ["job-break-idle"]
    assert idle.job is not None
    assert idle.is_sound


def test_a_new_start_in_the_same_goods() -> None:
    again = FIELDS.replace(
        'goods = "Block 200"\npattern = "brick bond"\njoint = 2\ngap = 8', 'goods = "White 300"\njoint = 3'
    )
    solution = solved(TWO.replace(ZONE, again).replace(NAMED, f'{NAMED}floor = "breaks"\n'))
    starts = [layout.chosen.placement.origin for layout in solution.layouts]
    assert starts[0] != pytest.approx(starts[1], abs=1)
    (order,) = solution.orders
    assert order.full == sum(layout.chosen.full for layout in solution.layouts)


EXAMPLES = Path(floorwright.__file__).parent / "examples"
OPEN_PLAN_ZONE = '[[zones]]\nname = "floor"\ngoods = "Porcelain 600 nominal"\npattern = "grid"\njoint = 3\ngap = 6\n'


@pytest.mark.parametrize(
    ("keys", "lounge", "hall"),
    [("", 4298.5, 4301.5), ("at = 20\nstrip = 40\n", 4300, 4340)],
    ids=["along the mouth", "a strip in the hall"],
)
def test_an_open_mouth_breaks_along_the_face_of_the_wall(keys: str, lounge: float, hall: float) -> None:
    text = (EXAMPLES / "number-12-open-plan.toml").read_text(encoding="utf-8")
    assert OPEN_PLAN_ZONE in text
    two = "".join(
        OPEN_PLAN_ZONE.replace('"floor"', f'"{room}"').replace("goods", f'rooms = ["{room}"]\ngoods', 1)
        for room in ("lounge", "hall")
    )
    text = text.replace(OPEN_PLAN_ZONE, two)
    text = text.replace('rooms = ["lounge", "hall"]\n', f'rooms = ["lounge", "hall"]\nfloor = "breaks"\n{keys}')
    solution = solved(text)
    in_lounge, in_hall = (polygon(solution, zone).bounds for zone in (0, 1))
    assert in_lounge[3] == pytest.approx(lounge, abs=0.2)
    assert in_hall[1] == pytest.approx(hall, abs=0.2)
    assert solution.snap is not None
    (line,) = [line for line in solution.snap.lines if line.family == "threshold"]
    assert {mark.on for mark in line.marks} == {"hall W", "hall E"}
