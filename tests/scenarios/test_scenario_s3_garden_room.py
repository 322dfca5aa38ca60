"""S3, the garden room: every figure of the scenario comes out of its job file (our own calculation)."""

from pathlib import Path

import pytest

import floorwright
from floorwright.job.lay.bordered import Bordered
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.layout.finish import Finish

EXAMPLE = Path(floorwright.__file__).parent / "examples" / "willow-end-garden-room.toml"
TEXT = EXAMPLE.read_text(encoding="utf-8")
CLOSE = 0.05
"""mm, against figures quoted unrounded."""

CENTRED = "points all round, centred in the room"
EQUAL = "equal all round"
ON_DOORS = "points on the axis of French doors"
MOVED = "points all round, the axis of French doors moved"


def solved(option: str = "") -> Solution:
    text = TEXT.replace('kind = "border"', f'kind = "border"\noption = "{option}"') if option else TEXT
    loaded = load_text(text, "job.toml")
    assert loaded.job is not None
    solution = floorwright.solve(loaded.job, findings=loaded.findings)
    assert not [finding for finding in solution.findings if finding.severity == "error"]
    return solution


@pytest.fixture(scope="module")
def room() -> Solution:
    return solved()


@pytest.fixture(scope="module")
def border(room: Solution) -> Bordered:
    assert room.border is not None
    return room.border


def choice(border: Bordered, name: str) -> Finish:
    assert border.found is not None
    return next(choice for choice in border.found.choices if choice.name == name)


def test_points_lie_every_428_507_along_the_walls(border: Bordered) -> None:
    assert border.found is not None
    assert border.found.what == "points"
    assert border.found.spacing == pytest.approx((428.507, 428.507), abs=0.001)
    assert border.found.step == pytest.approx((214.253, 214.253), abs=0.001)


def test_centred_in_the_room_ends_and_sides_finish_on_points_at_two_widths(border: Bordered) -> None:
    centred = choice(border, CENTRED)
    assert centred.widths == pytest.approx({"W": 222.46, "E": 222.46, "S": 265.22, "N": 265.22}, abs=CLOSE)
    assert border.chosen is centred


def test_no_equal_border_does_both_at_any_joint_tried(border: Bordered) -> None:
    assert border.found is not None
    assert not [one for one in border.found.choices if one.equal and one.finishes]
    apart = border.found.apart
    assert {joint: pytest.approx(mm, abs=CLOSE) for joint, mm in apart.items()} == {
        2: 40.64,
        3: 42.76,
        4: 44.88,
        5: 47.0,
    }
    ends, sides = border.found.alike
    # Odd counts of half spacings are no nearer.
    assert ends == pytest.approx((222.46, 329.59), abs=CLOSE)
    assert sides == pytest.approx((158.09, 265.22), abs=CLOSE)


def test_equal_at_244_cuts_into_the_points_at_the_ends_and_stops_short_at_the_sides(border: Bordered) -> None:
    equal = choice(border, EQUAL)
    assert equal.widths == dict.fromkeys(("W", "E", "S", "N"), 244)
    assert equal.miss == pytest.approx({"W": 21.54, "E": 21.54, "S": -21.22, "N": -21.22}, abs=CLOSE)


def test_on_the_axis_of_the_doors_the_ends_differ(border: Bordered) -> None:
    widths = choice(border, ON_DOORS).widths
    assert widths == pytest.approx({"W": 322.46, "E": 336.71, "S": 265.22, "N": 265.22}, abs=CLOSE)


def test_the_axis_moved_7_makes_both_ends_329_5(border: Bordered) -> None:
    moved = choice(border, MOVED)
    assert moved.widths == pytest.approx({"W": 329.59, "E": 329.59, "S": 265.22, "N": 265.22}, abs=CLOSE)
    assert moved.moved == pytest.approx(7.13, abs=CLOSE)
    assert moved.axis == pytest.approx(2907.13, abs=CLOSE)


def test_four_chords_prove_the_45s(room: Solution) -> None:
    assert room.control is not None
    chords = [check.expected for check in room.control.checks if check.expected == pytest.approx(2828.4, abs=CLOSE)]
    assert len(chords) == 4


@pytest.mark.parametrize("name", [CENTRED, EQUAL, ON_DOORS, MOVED])
def test_every_choice_can_be_laid_by_its_name_and_says_what_it_costs(name: str) -> None:
    solution = solved(name)
    assert solution.border is not None
    assert solution.border.chosen is not None
    assert solution.border.chosen.name == name
    strips = {layout.zone: layout.part.strip for layout in solution.layouts if layout.part and layout.part.strip}
    assert {zone[-1]: strip.fat for zone, strip in strips.items()} == pytest.approx(solution.border.chosen.widths)
    field = next(layout for layout in solution.layouts if layout.zone == "field")
    assert "border" in field.chosen.name
    # Where the field finishes on points, no piece along the border is less than half a tile cut from corner to corner,
    # but for a quarter in each corner at the most.
    if name != EQUAL:
        small = [piece for piece in field.pieces if piece.narrowest < 300 / 2**0.5 - 3]
        assert len(small) <= 4
    said = next(finding for finding in solution.findings if finding.code == "layout-border-width")
    assert name in said.found


def test_the_positions_and_borders_that_finish_on_points_are_proved_the_best(room: Solution) -> None:
    field = next(layout for layout in room.layouts if layout.zone == "field")
    (proof,) = field.proofs
    assert proof.status == "proved"
    assert proof.bound - field.chosen.worst < 0.15


def test_a_name_that_is_none_of_the_choices_is_an_error() -> None:
    loaded = load_text(TEXT.replace('kind = "border"', 'kind = "border"\noption = "equal"'), "job.toml")
    assert loaded.job is not None
    found = floorwright.solve(loaded.job).findings
    (error,) = [finding for finding in found if finding.severity == "error"]
    assert error.code == "layout-unknown-option"
    assert EQUAL in error.expected


def test_orders_are_counted_for_each_kind_of_goods(room: Solution) -> None:
    assert [order.goods for order in room.orders] == ["Slate strip 450", "Clay 300"]
    field = next(layout for layout in room.layouts if layout.zone == "field")
    assert room.orders[1].tiles == len(field.pieces)
    assert len({piece.id for layout in room.layouts for piece in layout.pieces}) == sum(
        len(layout.pieces) for layout in room.layouts
    )
    labels = [piece.label for cuts in room.cuts for piece in cuts.pieces]
    assert len(labels) == len(set(labels))
