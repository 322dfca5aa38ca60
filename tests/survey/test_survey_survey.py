"""From a booking to a room: the scenarios, random rooms, and what is said where readings do not do."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.survey.rooms import (
    ELL,
    ELL_WALLS,
    KITCHEN,
    KITCHEN_OUTLINE,
    Places,
    at,
    codes,
    exact,
    from_first_corner,
    random_room,
    readings,
    square,
    survey,
    tape,
)

from floorwright.findings import Finding, Severity
from floorwright.survey.adjustment import Datum
from floorwright.survey.booking import booking
from floorwright.survey.observation import Distance, Straight
from floorwright.survey.survey import SurveyResult


def finding(result: SurveyResult, code: str) -> Finding:
    (found,) = [f for f in result.findings if f.code == code]
    return found


class TestLarchRowKitchen:
    """Scenario S2: corners to 0.002 degrees, area, and the six readings agreeing to under 0.01 mm."""

    result = survey(
        KITCHEN_OUTLINE,
        readings(KITCHEN),
        wall_names={"S": ("SW", "SE"), "E": ("NE", "SE"), "N": ("NE", "NW"), "W": ("NW", "SW")},
        hidden=("E", "W"),
    )

    def test_corners(self) -> None:
        angles = {corner.name: math.degrees(corner.angle) for corner in self.result.corners}
        assert angles == pytest.approx({"SW": 90.359, "SE": 89.801, "NE": 89.872, "NW": 89.968}, abs=0.002)

    def test_area_and_perimeter(self) -> None:
        assert self.result.area / 1e6 == pytest.approx(15.138, abs=5e-4)
        assert self.result.perimeter == pytest.approx(4200 + 3612 + 4210 + 3588, abs=0.02)

    def test_readings_agree(self) -> None:
        assert max(abs(r.residual) for r in self.result.residuals) < 0.01
        assert self.result.adjustment is not None
        assert self.result.adjustment.suspects == ()

    def test_frame(self) -> None:
        first, second = self.result.corners[:2]
        assert (first.name, first.x, first.y) == ("SW", 0.0, 0.0)
        assert (second.name, second.y) == ("SE", 0.0)
        assert second.x == pytest.approx(4200.0, abs=0.01)
        assert (first.sd_x, first.sd_y, second.sd_y) == pytest.approx((0.0, 0.0, 0.0), abs=1e-12)

    def test_walls(self) -> None:
        assert [(w.name, w.start, w.end, w.hidden) for w in self.result.walls] == [
            ("S", "SW", "SE", False), ("E", "SE", "NE", True), ("N", "NE", "NW", False), ("W", "NW", "SW", True),
        ]  # fmt: skip

    def test_out_of_square_is_said_as_x_over_y(self) -> None:
        """22.5 over the 3588 of the shorter wall: 3588 sin 0.359 degrees; NW's 2 over 3588 is within its accuracy."""
        said = [f.found for f in self.result.findings if f.code == "survey-out-of-square"]
        assert len(said) == 3
        assert said[0] == "corner SW opens out: out of square by 22.5 over 3588 (90.36 degrees)"
        assert said[1].startswith("corner SE closes in: out of square by 12.5 over 3612")

    def test_nothing_else_is_found(self) -> None:
        assert set(codes(self.result)) == {"survey-out-of-square"}


def test_shear_from_unequal_diagonals() -> None:
    """S-10, V-27: 5 x 4 m sheared 10 mm along its 5 m side reads 6410.9 and 6395.3 corner to corner."""
    read = {"A-B": 5000, "B-C": math.hypot(4000, 10), "C-D": 5000, "D-A": math.hypot(4000, 10)}
    result = survey("ABCD", readings(read | {"A-C": 6410.9, "B-D": 6395.3}))
    said = [f.found for f in result.findings if f.code == "survey-out-of-square"]
    assert len(said) == 4
    assert said[0] == "corner A closes in: out of square by 10 over 4000 (89.86 degrees)"
    assert said[1].startswith("corner B opens out: out of square by 10 over 4000")


def test_equal_diagonals_alone_do_not_make_a_rectangle() -> None:
    """S-11: opposite walls of 4000 and 4100 with equal diagonals are a trapezium, and every corner says so."""
    places: Places = {"A": (0, 0), "B": (4100, 0), "C": (4050, 3000), "D": (50, 3000)}
    read = exact(places, ["A-B", "B-C", "C-D", "D-A", "A-C", "B-D"])
    assert read["A-C"] == pytest.approx(read["B-D"])
    result = survey("ABCD", readings(read))
    said = [f.found.split(":")[0] for f in result.findings if f.code == "survey-out-of-square"]
    assert said == ["corner A closes in", "corner B closes in", "corner C opens out", "corner D opens out"]


def test_a_trapezium_with_equal_diagonals_is_not_proved_square() -> None:
    """V-28: (0,0) (10,0) (8,4) (2,4) m: both diagonals 8.944, and no corner is square."""
    places: Places = {"A": (0, 0), "B": (10_000, 0), "C": (8000, 4000), "D": (2000, 4000)}
    read = exact(places, ["A-B", "B-C", "C-D", "D-A", "A-C", "B-D"])
    assert read["A-C"] == pytest.approx(8944, abs=0.5)
    assert read["B-D"] == pytest.approx(read["A-C"])
    result = survey("ABCD", readings(read))
    assert [math.degrees(corner.angle) for corner in result.corners] == pytest.approx(
        [63.435, 63.435, 116.565, 116.565]
    )
    assert codes(result).count("survey-out-of-square") in (0, 4)


def test_small_bath_at_plot_7() -> None:
    """Scenario S1: 7' 3-1/2\" x 10' 2-5/8\", booked square."""
    width, length = 87.5 * 25.4, 122.625 * 25.4
    walls = {"A-B": width, "B-C": length, "C-D": width, "D-A": length}
    squares = [square("A", "B", "D"), square("B", "C", "A"), square("C", "D", "B")]
    result = survey("ABCD", [*readings(walls), *squares])
    assert result.area == pytest.approx(width * length)
    assert [math.degrees(c.angle) for c in result.corners] == pytest.approx([90.0] * 4)
    assert codes(result).count("survey-taken-as-square") == 3
    assert all(f.severity is not Severity.ERROR for f in result.findings)


@settings(max_examples=50)
@given(st.integers(0, 100_000))
def test_exact_readings_give_the_room_back(seed: int) -> None:
    rng = np.random.default_rng(seed)
    places, inward = random_room(rng)
    sheet = booking(list(places), inward=inward)
    result = survey(list(places), readings(exact(places, [line.name for line in sheet.readings])), inward=inward)
    assert result.adjustment is not None
    assert result.adjustment.xy == pytest.approx(from_first_corner(places), abs=1e-6)
    assert result.adjustment.suspects == ()
    assert not {"survey-two-shapes", "survey-corner-turned"} & set(codes(result))


@settings(max_examples=30)
@given(st.integers(0, 100_000))
def test_order_and_direction_of_booking_change_nothing(seed: int) -> None:
    rng = np.random.default_rng(seed)
    places, inward = random_room(rng)
    names = list(places)
    sheet = booking(names, inward=inward)
    taken = readings({k: v + rng.normal() for k, v in exact(places, [line.name for line in sheet.readings]).items()})
    here = survey(names, taken, inward=inward)
    mixed = [taken[i] for i in rng.permutation(len(taken))]
    there = survey([names[0], *reversed(names[1:])], mixed, direction="clockwise", inward=inward)
    assert [c.name for c in there.corners] == [c.name for c in here.corners] == names
    assert at(there) == pytest.approx(at(here), abs=1e-5)
    assert there.area == pytest.approx(here.area, rel=1e-9)


@pytest.mark.parametrize("key", list(KITCHEN))
def test_a_kitchen_with_one_check_cannot_tell_which_reading_slipped(key: str) -> None:
    result = survey(KITCHEN_OUTLINE, readings(KITCHEN | {key: KITCHEN[key] + 50}))
    found = finding(result, "survey-cannot-tell")
    assert result.adjustment is not None
    assert key in result.adjustment.suspects
    assert len(result.adjustment.suspects) > 1
    assert "cannot be told from these readings" in found.found
    assert all(r.suspect == (r.key in result.adjustment.suspects) for r in result.residuals)


def test_a_repeat_tells() -> None:
    """The second reading of SW-NE agrees with the walls, so the first one is the slip."""
    result = survey(KITCHEN_OUTLINE, readings(KITCHEN | {"SW-NE": 5580.0, "SW-NE/2": 5530.0, "SE-NW/2": 5541.0}))
    found = finding(result, "survey-suspect")
    assert found.place == "SW-NE"
    assert found.found == (
        "SW-NE reads 5580; all the other readings make it 5530, so it is 50 too long; "
        "it would agree if it read 5530: an 8 for a 3"
    )


@pytest.mark.parametrize("slip", [50.0, -50.0, 1000.0, -20.0])
def test_a_slip_in_an_over_measured_room_is_named_and_sized(slip: float) -> None:
    keys = [*ELL_WALLS, "A-C", "A-D", "A-E", "B-D", "D-F", "C-E", "B-F"]
    read = exact(ELL, keys)
    result = survey("ABCDEF", readings(read | {"A-D": read["A-D"] + slip}), inward=["D"])
    assert result.adjustment is not None
    assert result.adjustment.suspects == ("A-D",)
    found = finding(result, "survey-suspect")
    assert f"{abs(slip):.0f} too {'long' if slip > 0 else 'short'}" in found.found


@pytest.mark.parametrize("seed", range(25))
def test_slips_of_random_rooms_are_never_put_on_another_reading(seed: int) -> None:
    rng = np.random.default_rng(seed)
    places, inward = random_room(rng)
    sheet = booking(list(places), inward=inward)
    read = exact(places, [line.name for line in sheet.readings])
    read |= {f"{key}/2": value for key, value in list(read.items())[: 2 * (len(places) == 4)]}
    read = {key: value + 0.5 * rng.normal() for key, value in read.items()}
    slipped = list(read)[int(rng.integers(len(read)))]
    read[slipped] += 50.0
    result = survey(list(places), readings(read), inward=inward)
    assert result.adjustment is not None
    slip = next(r for r in result.residuals if r.key == slipped)
    assert slipped in result.adjustment.suspects
    if slip.redundancy > 0.3:
        assert result.adjustment.suspects == (slipped,)


def test_too_few_readings_name_the_one_to_take() -> None:
    result = survey(KITCHEN_OUTLINE, readings(KITCHEN)[:4])
    found = finding(result, "survey-too-few")
    assert (found.severity, found.found) == (Severity.ERROR, "the readings do not fix NE and NW")
    assert found.remedy in ("measure SW-NE", "measure SE-NW")
    assert result.adjustment is None
    assert result.corners == ()
    assert [reading.name for reading in result.to_measure] == [found.remedy.removeprefix("measure ")]


def test_both_long_sides_of_a_square_room_say_one_thing_twice() -> None:
    squares = [square("SW", "SE", "NW"), square("SE", "NE", "SW"), square("NW", "SW", "NE")]
    result = survey(KITCHEN_OUTLINE, [*readings({"SW-SE": 4200, "NE-NW": 4210}), *squares])
    assert finding(result, "survey-too-few").remedy in ("measure NW-SW", "measure SE-NE")


def test_walls_come_before_diagonals_among_what_is_missing() -> None:
    result = survey(KITCHEN_OUTLINE, [])
    assert [reading.name for reading in result.to_measure][:4] == ["SW-SE", "SE-NE", "NE-NW", "NW-SW"]
    assert len(result.to_measure) == 5


def test_missing_diagonals_of_an_l_stay_in_the_room() -> None:
    result = survey("ABCDEF", readings(exact(ELL, [*ELL_WALLS, "A-C"])), inward=["D"])
    assert len(result.to_measure) == 2
    assert not {"C-E"} & {reading.name for reading in result.to_measure}


def test_two_sides_and_three_squares_make_a_rectangle() -> None:
    squares = [square("SW", "SE", "NW"), square("SE", "NE", "SW"), square("NW", "SW", "NE")]
    result = survey(KITCHEN_OUTLINE, [*readings({"SW-SE": 4200, "NW-SW": 3588}), *squares])
    assert at(result) == pytest.approx(np.array([(0, 0), (4200, 0), (4200, 3588), (0, 3588)]), abs=1e-6)
    assert finding(result, "survey-unchecked").place == "survey"


def test_an_l_from_walls_and_squares() -> None:
    squares = [square(n, "BCDEFA"["ABCDEF".index(n)], "FABCDE"["ABCDEF".index(n)]) for n in "ABCDEF"]
    result = survey("ABCDEF", [*readings(exact(ELL, ELL_WALLS)), *squares], inward=["D"])
    assert at(result) == pytest.approx(np.array(list(ELL.values())), abs=1e-6)
    assert math.degrees(result.corners[3].angle) == pytest.approx(270.0)


def test_six_walls_and_the_long_diagonals_fix_a_room_only_together() -> None:
    """No point can be placed after another here; a made-up room settles into it."""
    places: Places = {
        "A": (0, 0), "B": (3900, -400), "C": (5200, 2100), "D": (4700, 4900), "E": (1500, 5600), "F": (-900, 2500),
    }  # fmt: skip
    keys = ["A-B", "B-C", "C-D", "D-E", "E-F", "F-A", "A-D", "B-E", "C-F"]
    result = survey("ABCDEF", readings(exact(places, keys)))
    assert result.adjustment is not None
    assert max(abs(r.residual) for r in result.residuals) < 1e-4
    either = "survey-two-shapes" in codes(result)
    assert either or result.adjustment.xy == pytest.approx(from_first_corner(places), abs=1e-3)
    told = survey("ABCDEF", readings(exact(places, [*keys, "A-C"])))
    assert told.adjustment is not None
    assert told.adjustment.xy == pytest.approx(from_first_corner(places), abs=1e-3)


class TestShapes:
    """Where distances alone fit two rooms."""

    keys = (*ELL_WALLS, "A-C", "A-D", "A-E")

    def test_the_finding_names_the_reading_that_tells(self) -> None:
        result = survey("ABCDEF", readings(exact(ELL, self.keys)), inward=["D"])
        found = finding(result, "survey-two-shapes")
        assert found.severity is Severity.ERROR
        (tell, *_) = result.to_measure
        assert tell.name in found.remedy
        true = exact(ELL, [tell.name])[tell.name]
        assert min(abs(read - true) for read in tell.would_read) < 0.01
        told = survey("ABCDEF", readings(exact(ELL, [*self.keys, tell.name])), inward=["D"])
        assert "survey-two-shapes" not in codes(told)
        assert told.adjustment is not None
        assert told.adjustment.xy == pytest.approx(from_first_corner(ELL), abs=1e-5)

    def test_one_diagonal_is_enough_where_no_corner_turns_in(self) -> None:
        result = survey(KITCHEN_OUTLINE, readings(KITCHEN)[:5])
        assert result.adjustment is not None
        assert "survey-two-shapes" not in codes(result)
        assert [math.degrees(c.angle) for c in result.corners] == pytest.approx(
            [90.359, 89.801, 89.872, 89.968], abs=0.003
        )

    def test_the_booking_decides_whether_a_corner_turns_in(self) -> None:
        kite: Places = {"A": (0, 0), "B": (2000, 900), "C": (4000, 0), "D": (2000, 4000)}
        read = readings(exact(kite, ["A-B", "B-C", "C-D", "D-A", "A-C"]))
        inward, outward = survey("ABCD", read, inward=["B"]), survey("ABCD", read)
        assert at(inward) == pytest.approx(from_first_corner(kite), abs=1e-6)
        assert math.degrees(inward.corners[1].angle) > 180
        assert math.degrees(outward.corners[1].angle) < 180
        assert not {"survey-two-shapes", "survey-corner-turned"} & {*codes(inward), *codes(outward)}

    def test_a_corner_that_nobody_booked_as_turning_in_is_found(self) -> None:
        result = survey("ABCDEF", readings(exact(ELL, [*self.keys, "B-D", "D-F"])))
        found = finding(result, "survey-corner-turned")
        assert (found.place, found.severity) == ("corner D", Severity.WARNING)
        assert "add D to the inward corners" in found.remedy
        assert result.area == pytest.approx(22.5e6)

    def test_readings_of_no_room(self) -> None:
        result = survey("ABC", readings({"A-B": 1000, "B-C": 1000, "C-A": 9000}))
        assert result.adjustment is None or "survey-cannot-tell" in codes(result)


class TestOtherPoints:
    """Points off the outline, and points on walls."""

    def test_a_tied_point_is_in_the_room(self) -> None:
        result = survey(KITCHEN_OUTLINE, readings(KITCHEN | {"SW-P": 1500.0, "NW-P": 2500.0}))
        assert result.adjustment is not None
        x, y = result.adjustment.xy[4]
        assert result.adjustment.points[4] == "P"
        assert x > 0
        assert math.hypot(x, y) == pytest.approx(1500.0, abs=1e-6)
        assert "survey-two-shapes" not in codes(result)

    def test_a_tied_point_with_two_places_in_the_room_is_asked_about(self) -> None:
        result = survey(KITCHEN_OUTLINE, readings(KITCHEN | {"SW-P": 3000.0, "NE-P": 3000.0}))
        found = finding(result, "survey-two-shapes")
        assert (found.severity, found.place) == (Severity.WARNING, "point P")
        assert "-P: it is" in found.remedy
        assert result.corners

    def test_a_point_that_hangs_on_one_reading_is_left_aside(self) -> None:
        result = survey(KITCHEN_OUTLINE, readings(KITCHEN | {"SW-P": 3000.0}))
        found = finding(result, "survey-too-few")
        assert (found.severity, found.found) == (Severity.WARNING, "the readings do not fix P")
        assert found.remedy.startswith("measure ")
        assert "P is a slip of the pen" in found.remedy
        assert len(result.residuals) == 6

    def test_a_point_on_a_wall(self) -> None:
        on_wall = Straight(key="straight SW-P-SE", a="SW", at="P", b="SE", sd=2.0)
        result = survey(KITCHEN_OUTLINE, [*readings(KITCHEN | {"SW-P": 1200.0}), on_wall])
        assert result.adjustment is not None
        assert result.adjustment.xy[4] == pytest.approx((1200.0, 0.0), abs=1e-6)
        assert "survey-taken-as-straight" in codes(result)

    def test_a_straight_corner_of_the_outline_may_turn_either_way(self) -> None:
        places: Places = {"A": (0, 0), "P": (2000, -3), "B": (4000, 0), "C": (4000, 3000), "D": (0, 3000)}
        keys = ["A-P", "P-B", "B-C", "C-D", "D-A", "A-C", "B-D", "P-C", "P-D"]
        result = survey(
            "APBCD", [*readings(exact(places, keys)), Straight(key="straight A-P-B", a="A", at="P", b="B", sd=5.0)]
        )
        assert result.adjustment is not None
        assert result.adjustment.xy == pytest.approx(from_first_corner(places), abs=0.5)
        assert "survey-corner-turned" not in codes(result)

    def test_a_straight_that_is_not(self) -> None:
        places: Places = {"A": (0, 0), "P": (2000, -60), "B": (4000, 0), "C": (4000, 3000), "D": (0, 3000)}
        keys = ["A-P", "P-B", "B-C", "C-D", "D-A", "A-C", "B-D", "P-C", "P-D", "A-B"]
        result = survey(
            "APBCD", [*readings(exact(places, keys)), Straight(key="straight A-P-B", a="A", at="P", b="B", sd=2.0)]
        )
        assert finding(result, "survey-suspect").found == "P does not lie on the line from A to B: it is 60 off"


def test_a_corner_taken_as_square_that_is_not() -> None:
    result = survey(KITCHEN_OUTLINE, [*readings(KITCHEN), square("SW", "SE", "NW", within=1.0)])
    found = finding(result, "survey-suspect")
    assert found.place == "square SW"
    assert "out by 6.5 over 1000" in found.found


def test_readings_that_agree_too_well() -> None:
    keys = [*ELL_WALLS, "A-C", "A-D", "A-E", "B-D", "D-F", "B-F"]
    assert "survey-agree-too-well" in codes(survey("ABCDEF", readings(exact(ELL, keys)), inward=["D"]))


@pytest.mark.parametrize("seed", range(5))
def test_accuracy_stated_too_good(seed: int) -> None:
    rng = np.random.default_rng(seed)
    keys = [*ELL_WALLS, "A-C", "A-D", "A-E", "B-D", "D-F", "B-F", "C-E", "A-C/2", "A-B/2", "B-D/2"]
    read = {key: value + 10 * rng.normal() for key, value in exact(ELL, keys).items()}
    result = survey("ABCDEF", readings(read), inward=["D"])
    assert "times more than their accuracy allows" in finding(result, "survey-disagree").found
    assert result.adjustment is not None
    assert result.adjustment.variance_factor > 10


def test_other_datums_move_the_frame_but_not_the_room() -> None:
    usual = survey(KITCHEN_OUTLINE, readings(KITCHEN))
    for datum in (
        Datum(kind="inner constraints"),
        Datum(kind="first wall"),
        Datum(kind="first wall", points=("NE", "NW")),
    ):
        result = survey(KITCHEN_OUTLINE, readings(KITCHEN), datum=datum)
        assert result.area == pytest.approx(usual.area)
        assert [c.angle for c in result.corners] == pytest.approx([c.angle for c in usual.corners])
    by_name = {corner.name: corner for corner in result.corners}
    assert (by_name["NE"].x, by_name["NE"].y) == (0.0, 0.0)
    assert (by_name["NW"].x, by_name["NW"].y) == pytest.approx((4210.0, 0.0), abs=0.01)


@pytest.mark.parametrize(
    ("changes", "code", "words"),
    [
        ({"outline": ["A", "B"]}, "survey-outline", "an outline of 2 corners"),
        ({"outline": []}, "survey-outline", "an outline of 0 corners"),
        ({"outline": ["A", "B", "C", "A"]}, "survey-outline", "A comes 2 times"),
        ({"inward": ["Z"]}, "survey-inward", "Z is booked as turning in"),
        ({"wall_names": {"S": ("A", "C")}}, "survey-wall", "not neighbours"),
        ({"wall_names": {"S": ("A", "B"), "T": ("B", "A")}}, "survey-wall", "S and T name one wall"),
        ({"hidden": ["Q"]}, "survey-hidden-wall", "Q is booked as hidden"),
        ({"datum": Datum(kind="fixed points", points=("A",))}, "survey-datum", "fixed points"),
        ({"datum": Datum(kind="first wall", points=("A", "Z"))}, "survey-datum", "names Z"),
    ],
)
def test_what_is_wrong_with_a_booking_is_found(changes: dict[str, object], code: str, words: str) -> None:
    given_ = {"outline": ["A", "B", "C", "D"], "observations": readings({"A-B": 4000, "B-C": 3000})} | changes
    result = survey(**given_)  # type: ignore[arg-type]
    assert any(f.code == code and words in f.found for f in result.findings)


def test_a_reading_that_is_none_is_found() -> None:
    bad = Distance(key="A-A", a="A", b="A", measured=100.0, sd=1.0)
    result = survey("ABCD", [bad, tape("A-B", 4000)])
    assert finding(result, "survey-reading").place == "A-A"


def test_repeats_do_not_place_a_point_by_themselves() -> None:
    result = survey(KITCHEN_OUTLINE, readings({"SW-SE": 4200, "SW-NE": 5530, "SW-NE/2": 5531, "SW-NW": 3588}))
    assert finding(result, "survey-too-few")
