"""Labels outside walls, words, figures, courses and frames."""

import doctest
import itertools
import math
from types import ModuleType

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.draw.paper import body_space, page_space
from floorwright.errors import FloorwrightValueError
from floorwright.findings import Finding, Severity
from floorwright.job.solution import Solution
from floorwright.setout.course import printed
from floorwright.sheets import cuts, labels, words
from floorwright.sheets.booking import booking_sheet
from floorwright.sheets.client import direction, door_down
from floorwright.sheets.courses import courses_sheet
from floorwright.sheets.cuts import runs
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import TALL, TALL_BESIDE, WIDE_BESIDE, frame
from floorwright.sheets.labels import spread
from floorwright.sheets.words import UK, US, counted, listed, sentence, told, told_briefly, unbroken, words_of
from floorwright.survey.booking import booking
from floorwright.units import IMPERIAL, METRIC, parse_length, typeset

lengths = st.lists(st.floats(0, 1000), min_size=1, max_size=12)


@given(wanted=lengths, width=st.floats(0.1, 50))
def test_spread_things_do_not_overlap_and_move_no_more_than_they_must(wanted: list[float], width: float) -> None:
    ordered = sorted(wanted)
    places = spread(ordered, [width] * len(ordered))
    assert all(b - a >= width - 1e-6 for a, b in itertools.pairwise(places))
    if all(b - a >= width for a, b in itertools.pairwise(ordered)):
        assert places == pytest.approx(ordered)
    assert math.fsum(places) == pytest.approx(math.fsum(ordered), abs=1e-6)  # each pool keeps its mean


@given(wanted=lengths, width=st.floats(0.1, 20))
def test_spread_keeps_between_the_ends_where_all_fit(wanted: list[float], width: float) -> None:
    places = spread(sorted(wanted), [width] * len(wanted), 50.0, 950.0)
    assert places[0] >= 50.0 - 1e-6
    assert places[-1] <= 950.0 + 1e-6
    assert all(b - a >= width - 1e-6 for a, b in itertools.pairwise(places))


def test_spread_prefers_its_start_where_not_all_fit() -> None:
    assert spread([1.0, 2.0, 3.0], [10.0] * 3, 5.0, 10.0) == pytest.approx([5.0, 15.0, 25.0])
    assert spread([], []) == []


def test_words_of_both_countries() -> None:
    assert words_of("UK") is UK
    assert words_of("US").pattern("brick bond, third") == "running bond, third"
    assert (UK.kept(1), UK.kept(4), US.kept(4)) == ("1 spare", "4 spares", "4 for attic stock")
    with pytest.raises(FloorwrightValueError, match="FR"):
        words_of("FR")


def test_sentences() -> None:
    assert sentence("  wall S is long ") == "Wall S is long."
    assert sentence("is it?") == "Is it?"
    assert sentence("") == ""
    assert (counted(1, "box", "boxes"), counted(2, "box", "boxes"), counted(0, "tile")) == (
        "1 box",
        "2 boxes",
        "0 tiles",
    )
    assert [listed(list("abc")[:n]) for n in range(4)] == ["", "a", "a and b", "a, b and c"]


def test_a_finding_is_told_in_sentences_and_names_its_place_once() -> None:
    finding = Finding(
        code="x",
        severity=Severity.WARNING,
        place="wall S",
        found="47 % of a tile",
        expected="half",
        remedy="open joints",
    )
    assert told(finding) == "Wall S: 47 % of a tile. Expected: half. Open joints."
    doubled = Finding(code="x", severity=Severity.NOTE, place="corner A", found="corner A opens out")
    assert told(doubled) == "Corner A opens out."


def test_a_finding_is_told_briefly_without_its_workings() -> None:
    finding = Finding(
        code="x",
        severity=Severity.WARNING,
        place="mid-lines",
        found="they cross at 90.12 degrees; a 1500 / 2000 triangle reads 2502.4",
        expected="a square cross",
        remedy="keep one line; do not use both",
    )
    assert told_briefly(finding) == "Mid-lines: they cross at 90.12 degrees. Keep one line."


def test_names_of_walls_are_not_broken() -> None:
    assert unbroken("wall A-B, SW-NE, A2-B2") == "wall A‑B, SW‑NE, A2‑B2"
    assert unbroken("3-4-5 and half-way") == "3-4-5 and half-way"


def test_figures() -> None:
    mm, inches = Figures(style=METRIC), Figures(style=IMPERIAL)
    assert (mm.room(3612.2), mm.cut(293.4), mm.entered(447.0, unit=True)) == ("3612", "293.5", "447 mm")
    assert (mm.difference(-0.04), mm.difference(0.26), mm.difference(-1.2)) == ("0", "+0.5", "−1")
    assert inches.cut(11.75 * 25.4) == '11\N{NO-BREAK SPACE}³⁄₄"'
    assert inches.room(87.5 * 25.4) == "7'-3\N{NO-BREAK SPACE}¹⁄₂\""
    assert (mm.column, inches.column) == ("mm", "")
    assert mm.size(447.0, 300.0) == "447 × 300 mm"


box_sides = st.floats(500, 60_000)


@given(
    across=box_sides,
    up=box_sides,
    paper=st.sampled_from(["A4", "Letter"]),
    imperial=st.booleans(),
    margin=st.floats(0, 20),
    turn=st.integers(0, 3),
    way=st.sampled_from([TALL_BESIDE, TALL, WIDE_BESIDE]),
)
def test_a_drawing_fits_its_paper_in_every_way(
    across: float, up: float, paper: str, imperial: bool, margin: float, turn: int, way: tuple[bool, bool]
) -> None:
    place = frame(
        (0.0, 0.0, across, up), paper=paper, imperial=imperial, title="One line.", margin=margin, turn=turn, ways=(way,)
    )
    view = place.view("x", "x", ())
    wide, high = view.picture_size(imperial)
    width, height = body_space(paper, place.landscape)
    assert wide <= width + 1e-6
    assert high <= height + 1e-6
    if not place.landscape:
        assert high - 10.0 <= page_space(paper, False, title="One line.")[1] + 1e-6
    assert 0 < place.share <= 1
    x0, y0, x1, y1 = place.window
    edge = margin * place.scale - 1e-6
    assert (x0 <= -edge, y0 <= -edge, x1 >= across + edge, y1 >= up + edge) == (True, True, True, True)


def test_the_largest_way_is_taken() -> None:
    wide = frame((0.0, 0.0, 4210.0, 3612.0), paper="A4", imperial=False, title="One line.", margin=9.0)
    assert (wide.scale, wide.landscape, wide.beside) == (25, True, True)
    tall = frame((0.0, 0.0, 1200.0, 5200.0), paper="A4", imperial=False, title="One line.", margin=9.0)
    assert (tall.landscape, tall.beside) == (False, True)


def test_what_may_be_out_is_rounded_up_to_what_can_be_marked() -> None:
    mm, inches = Figures(style=METRIC), Figures(style=IMPERIAL)
    assert (mm.within(5.2), mm.within(5.0), mm.within(0.01), mm.within(0.0)) == ("5.5 mm", "5 mm", "0.5 mm", "0 mm")
    assert mm.within(5.2, unit=False) == "5.5"
    assert inches.within(25.4 * 5 / 32) == typeset('3/16"')


@given(st.floats(0, 1000))
def test_what_may_be_out_is_never_less_than_it_is(mm: float) -> None:
    for style in (METRIC, IMPERIAL):
        allowed = parse_length(Figures(style=style).within(mm), "mm" if style is METRIC else "in")
        assert -1e-5 <= allowed - mm <= float(style.step_mm) + 1e-5


def test_a_taper_too_small_to_mark_is_told_as_such() -> None:
    mm = Figures(style=METRIC)
    assert (mm.taper(0.0), mm.taper(0.2), mm.taper(1.6)) == ("none", "under 0.5", "1.5")


def test_numbers_in_a_row_are_told_by_their_ends() -> None:
    assert runs(["2", "1"]) == "1, 2"
    assert runs([str(n) for n in range(9, 18)]) == "9–17"
    assert runs(["1", "3", "5"]) == "1, 3, 5"


def test_every_course_adds_up_as_printed(solution: Solution) -> None:
    ((listed, table),) = courses_sheet(solution).lists
    assert listed == "courses"
    rows = iter(table.rows)
    for course in solution.courses:
        told = printed(course, solution.style)
        printed_parts = [next(rows) for _ in course.parts]
        name = course.name
        if solution.layouts[0].cell.name.startswith("brick bond"):
            name = name.replace("row", "course").replace("column", "line across")
        assert {row[0] for row in printed_parts} == {name}
        assert sum(told.figures) == told.total
        assert printed_parts[-1][-1] == Figures(style=solution.style).room(float(told.total))
        if solution.style is METRIC:
            assert math.fsum(float(row[4]) for row in printed_parts) == pytest.approx(float(told.total))
    assert next(rows, None) is None


def test_the_door_lies_at_the_foot_of_the_clients_picture(kitchen: Solution, utility: Solution) -> None:
    for one in (kitchen, utility):
        assert one.room is not None
        turn = door_down(one.room)
        wall = one.room.openings[0].wall
        start, end = one.room.ends(wall)
        along = math.atan2(end[1] - start[1], end[0] - start[0]) + turn * math.pi / 2
        assert math.cos(along) > 0.7  # the wall runs to the right on the paper, the room above it


def test_the_direction_is_said_against_a_wall(kitchen: Solution, utility: Solution) -> None:
    assert kitchen.room is not None
    assert utility.room is not None
    assert direction(kitchen.layouts[0], kitchen.room) == "straight to wall S"
    assert direction(utility.layouts[0], utility.room).startswith("straight to wall ")


def test_a_booking_sheet_has_a_line_for_every_reading() -> None:
    blank = booking(5)
    made = booking_sheet(blank, METRIC)
    (table,) = [block for block in made.blocks if hasattr(block, "rows")]
    assert [row[0] for row in table.rows] == [reading.name for reading in blank.readings]
    assert {row[-1] for row in table.rows} == {""}
    walls = sum(reading.why == "wall" for reading in blank.readings)
    assert made.title.startswith(f"Take {walls} walls and ")


@pytest.mark.parametrize("module", [cuts, labels, words])
def test_the_examples_in_the_docstrings_hold(module: ModuleType) -> None:
    results = doctest.testmod(module)
    assert results.attempted > 0
    assert results.failed == 0
