"""Lengths in every notation that the trade writes, and back.

U- and V- numbers name the value's source: U-01 the 1959 agreement on the inch; U-03 a conversion list; U-04 a trade
mathematics page; U-05, U-09 and V-29, V-30 derived from the definitions; U-06, U-07, U-12 drawing habit (common
practice, no source); U-08 NIST Handbook 44, 10.3 for the even rule, the rest common practice.
"""

import contextlib
import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright import tolerance
from floorwright.errors import FloorwrightValueError, LengthError
from floorwright.units import (
    IMPERIAL,
    INCH,
    METRIC,
    LengthStyle,
    Ties,
    area_text,
    close_sum,
    parse_exact,
    parse_length,
    typeset,
)

THIRTY_SECONDS = LengthStyle("imperial", Fraction(1, 32))
WHOLE_MM = LengthStyle("metric", Fraction(1))
STYLES = (METRIC, WHOLE_MM, IMPERIAL, THIRTY_SECONDS)


def inches(value: float | Fraction) -> float:
    return float(Fraction(value) * INCH)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("3.6 m", 3600),
        ("3600", 3600),
        ("360 cm", 3600),
        ("2.6m", 2600),
        ("3600mm", 3600),
        ("3 metres", 3000),
        ("7' 3 1/2\"", 2222.5),
        ("7'-3 1/2\"", 2222.5),
        ("7ft 3.5in", 2222.5),
        ("7ft 3 1/2in", 2222.5),
        ("7 ft. 3 1/2 in.", 2222.5),
        ("7ft3.5", 2222.5),
        ("7 feet 3 1/2 inches", 2222.5),
        ("7′ 3½″", 2222.5),
        ("7’ 3 ½”", 2222.5),
        ("7' 3½''", 2222.5),
        ("7'–3 1⁄2\"", 2222.5),
        ("3'-4 1/2\"", 1028.7),  # U-07
        ("3' 4-1/2\"", 1028.7),  # U-07
        ("3ft 4.5in", 1028.7),  # U-07
        ('40.5"', 1028.7),  # U-07
        ('40 1/2"', 1028.7),
        ("7 7/8 in", 200.025),
        ("⅜ in", 9.525),  # U-09
        ('1/16"', 1.5875),  # U-09
        ('1/8"', 3.175),  # U-09
        ('3/16"', 4.7625),  # U-09
        ('1/4"', 6.35),  # U-09
        ("15 in", 381),  # U-10
        ("1 in", 25.4),  # U-01
        ("1 ft", 304.8),  # U-01
        ("3'", 914.4),
        ("7 ¹¹⁄₁₆ in", 195.2625),
        (" 3.6 M ", 3600),
        (0, 0),
        (3.6, 3.6),
    ],
)
def test_reads(text: str | float, mm: float) -> None:
    assert parse_length(text) == mm


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        (11.75, "in", 298.45),
        ("11 3/4", "in", 298.45),
        (3.6, "m", 3600),
        (0.1, "m", 100),
        ("360", "cm", 3600),
        (7.5, "ft", 2286),
        ("447 mm", "in", 447),
    ],
)
def test_a_bare_number_is_in_the_unit_given(text: str | float, unit: str, mm: float) -> None:
    assert parse_length(text, unit) == mm


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ("", "3600"),
        ("26oo", "3600"),
        ("8 x in", "3600"),
        ("3,6 m", "a point for decimals"),
        ("3-4-8", "feet, inches and sixteenths apart"),  # U-07: not read unless asked for
        ("7' 15\"", "less than 12 inches"),
        ("7 1/2", "the unit after a fraction"),
        ("1/0 in", "a fraction under one"),
        ("3 9/8 in", "a fraction under one"),
        ("½3 in", "3600"),
        ("-5 mm", "0 or more"),
        (-5, "0 or more"),
        ("1001 m", "under 1 km"),
        (1e300, "under 1 km"),
        (math.inf, "under 1 km"),
        (10**400, "under 1 km"),
        (math.nan, "3600"),
        ("nan", "3600"),
        (5e-324, "0, or a length"),
        ("9" * 5000, "3600"),
        (True, "3600"),
        ("२ m", "3600"),
    ],
)
def test_says_what_would_have_been_right(text: str | float, remedy: str) -> None:
    with pytest.raises(LengthError, match="not a length") as caught:
        parse_length(text)
    assert remedy in caught.value.expected
    assert len(caught.value.found) <= 60


def test_only_a_coordinate_may_be_under_zero() -> None:
    assert parse_length("-1' 6\"", signed=True) == -457.2


def test_an_unknown_unit_is_a_mistake_of_the_caller() -> None:
    with pytest.raises(FloorwrightValueError, match="there are mm, cm, m, in, ft"):
        parse_length("3", "yd")


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (6.76438 * 12, "6'-9 3/16\""),  # U-04, V-30
        (11.97, "1'-0\""),  # U-05, V-30: never 0'-12" or 0'-11 16/16"
        (36, "3'-0\""),  # U-06
        (4.5, '4 1/2"'),  # U-06
        (0.5, '1/2"'),
        (0, '0"'),
        (12.5, "1'-0 1/2\""),
        (253.62, "21'-1 5/8\""),  # V-29: the diagonal of 15'-10" x 14'-0"
        (12 * 36.0555, "36'-0 11/16\""),  # V-29: of 30 x 20 ft
        (-4.5, '-4 1/2"'),
    ],
)
def test_prints_feet_and_inches(value: float, text: str) -> None:
    assert IMPERIAL.text(inches(value)) == text


def test_prints_cuts_and_tiles_in_inches_alone() -> None:
    assert IMPERIAL.text(inches(79.75), feet=False) == '79 3/4"'
    assert THIRTY_SECONDS.text(inches(Fraction(79 * 32 + 3, 32)), feet=False) == '79 3/32"'


@pytest.mark.parametrize(
    ("mm", "text"),
    [(282.5, "282.5"), (212.4, "212.5"), (447.0, "447"), (1000.0, "1000"), (0.0, "0"), (-0.1, "0"), (-3.6, "-3.5")],
)
def test_prints_mm(mm: float, text: str) -> None:
    assert METRIC.text(mm) == text
    assert METRIC.text(mm, unit=True) == f"{text} mm"


@pytest.mark.parametrize(
    ("thirty_seconds", "ties", "sixteenths"),  # U-08
    [(1, "even", 0), (3, "even", 2), (1, "up", 1), (3, "up", 2), (1, "down", 0), (3, "down", 1), (-1, "even", 0)],
)
def test_a_reading_midway_goes_by_the_rule(thirty_seconds: int, ties: Ties, sixteenths: int) -> None:
    midway = inches(Fraction(thirty_seconds, 32))
    for hair in (0.0, 1e-9, -1e-9):
        assert IMPERIAL.steps(midway + hair, ties=ties) == sixteenths


def test_every_sixteenth_is_exact_and_reduced() -> None:
    for sixteenths in range(1, 16):  # U-03
        text = IMPERIAL.text(inches(Fraction(sixteenths, 16)))
        assert text == f'{Fraction(sixteenths, 16)}"'
        assert parse_exact(text) == Fraction(sixteenths, 16) * INCH


@given(st.sampled_from(STYLES), st.integers(-200_000, 200_000), st.booleans())
def test_what_is_printed_reads_back(style: LengthStyle, steps: int, feet: bool) -> None:
    text = style.text(style.mm(steps), feet=feet)
    assert parse_exact(text, signed=True) == steps * style.step_mm
    assert parse_exact(typeset(text), signed=True) == steps * style.step_mm


@given(st.sampled_from(STYLES), st.floats(-50_000, 50_000))
def test_rounding_moves_a_length_by_half_a_graduation_at_most(style: LengthStyle, mm: float) -> None:
    for ties in ("even", "up", "down"):
        assert abs(style.mm(style.steps(mm, ties=ties)) - mm) <= float(style.step_mm) / 2 + tolerance.TIE


@given(st.text(max_size=70))
def test_any_text_is_a_length_or_a_length_error(text: str) -> None:
    with contextlib.suppress(LengthError):
        assert 0 <= parse_length(text) <= 1e6


@given(
    st.text(st.sampled_from("0123456789 '\"/.-ft inmc½¹⁄₁″′"), max_size=12),
    st.sampled_from(["mm", "in"]),
)
def test_nearly_a_length_is_a_length_or_a_length_error(text: str, unit: str) -> None:
    with contextlib.suppress(LengthError):
        assert 0 <= parse_length(text, unit) <= 1e6


def test_a_length_as_entered_keeps_its_own_figures() -> None:
    assert METRIC.entered_text(447.0) == "447"
    assert METRIC.entered_text(298.45) == "298.45"
    assert METRIC.entered_text(272.7 / 3) == "90.9"
    assert IMPERIAL.entered_text(298.45) == '11 3/4"'
    assert IMPERIAL.entered_text(inches(Fraction(1, 64))) == '1/64"'
    assert IMPERIAL.entered_text(447.0) == "447 mm"


def test_prints_areas() -> None:
    assert area_text(15_138_000.0, METRIC) == "15.14 m²"
    assert area_text(1e6, IMPERIAL) == "10.8 sq ft"  # U-01: 1 m2 = 10.7639 sq ft


def test_sets_fractions_for_drawings() -> None:
    assert typeset("6'-9 11/16\"") == "6'-9\u00a0¹¹⁄₁₆\""
    assert typeset('1/2"') == '¹⁄₂"'
    assert typeset("-3.5") == "−3.5"
    assert typeset("447 mm, wall SW-SE") == "447 mm, wall SW-SE"
    assert typeset("2/3/2026") == "2/3/2026"


def test_a_course_prints_tiles_and_joints_as_entered_and_closes() -> None:
    # The small bath of S1: 7'-3 1/2" is gap 1/8, cut, joint, 6 tiles of 11 3/4 and 5 joints of 1/4, joint, cut, gap.
    field = [11.75, 0.25] * 5 + [11.75]
    lengths = [inches(value) for value in [0.125, 7.5, 0.25, *field, 0.25, 7.5, 0.125]]
    cuts = [i in (1, len(lengths) - 2) for i in range(len(lengths))]
    closed = close_sum(lengths, inches(87.5), IMPERIAL, cuts)
    assert closed.remainder == 0
    assert closed.parts == tuple(Fraction(value) * INCH for value in [0.125, 7.5, 0.25, *field, 0.25, 7.5, 0.125])


def test_two_cuts_that_both_round_up_do_not_carry_the_sum_away() -> None:
    lengths = [100.255, 3.0, 447.0, 3.0, 100.26]  # 653.515 -> 653.5; 100.5 twice would make 654
    closed = close_sum(lengths, math.fsum(lengths), METRIC, [True, False, False, False, True])
    assert [float(part) for part in closed.parts] == [100.5, 3, 447, 3, 100.5]
    assert closed.remainder == Fraction(-1, 2)


def test_the_cut_nearest_to_midway_gives_way() -> None:
    lengths = [100.26, 3.0, 100.26, 3.0, 100.26, 3.0, 100.26]  # 410.04 -> 410; 100.5 four times makes 411
    closed = close_sum(lengths, math.fsum(lengths), METRIC, [True, False, True, False, True, False, True])
    assert [float(part) for part in closed.parts] == [100, 3, 100.5, 3, 100.5, 3, 100.5]
    assert closed.remainder == Fraction(-1, 2)


def test_parts_that_do_not_make_the_whole_are_a_mistake_of_the_caller() -> None:
    with pytest.raises(FloorwrightValueError, match="add up"):
        close_sum([100.0, 3.0], 104.0, METRIC, [True, False])


@st.composite
def courses(draw: st.DrawFn) -> tuple[list[float], list[bool], LengthStyle]:
    style = draw(st.sampled_from(STYLES))
    sixty_fourths = st.integers(1, 2000).map(lambda n: inches(Fraction(n, 64)))
    halves = st.integers(1, 2000).map(lambda n: n / 2)
    entered = sixty_fourths if style.system == "imperial" else halves
    tile, joint, gap = draw(entered), draw(entered), draw(entered)
    cuts = draw(st.lists(st.floats(1, 600), min_size=0, max_size=6))
    tiles = draw(st.integers(0, 40))
    lengths, rounded = [gap], [False]
    for length in [*cuts, *[tile] * tiles]:
        lengths += [length, joint]
        rounded += [length in cuts, False]
    lengths.append(gap)
    rounded.append(False)
    return lengths, rounded, style


@given(courses())
def test_printed_figures_close(course: tuple[list[float], list[bool], LengthStyle]) -> None:
    lengths, rounded, style = course
    closed = close_sum(lengths, math.fsum(lengths), style, rounded)
    assert sum(closed.parts) + closed.remainder == closed.total
    assert abs(closed.remainder) <= style.step_mm
    for length, part, is_cut in zip(lengths, closed.parts, rounded, strict=True):
        assert abs(length - part) < style.step_mm if is_cut else abs(length - part) < 1e-9
        assert not is_cut or (part / style.step_mm).denominator == 1
