"""Dimensions, running dimensions and crosses stand where drawing practice puts them, and stay legible."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.draw.style import CAP_HEIGHT, Pen, Size
from floorwright.draw.view import Cross, Dimension, Item, Running, Text, View
from floorwright.export import annotate, legible
from floorwright.export.annotate import Ring, Stroked, Words


def shown(*items: Item, turn: int = 0, scale: float = 10) -> View:
    return View(name="v", described="d", scale=scale, window=(-1000, -1000, 1000, 1000), items=items, turn=turn)


def words_in(view: View) -> list[Words]:
    return [part for part in legible.parts(view) if isinstance(part, Words)]


@pytest.mark.parametrize(
    ("degrees", "read", "turned"),
    [(0, 0, False), (90, 90, False), (91, 91, False), (-89, 91, True), (-90, 90, True), (180, 0, True),
     (120, -60, True), (-60, -60, False), (360, 0, False), (450, 90, False)],
)  # fmt: skip
def test_text_reads_from_the_bottom_or_the_right(degrees: float, read: float, turned: bool) -> None:
    angle, flipped = annotate.upright(math.radians(degrees))
    assert math.degrees(angle) == pytest.approx(read)
    assert flipped == turned


@given(st.floats(-20, 20))
def test_no_text_stands_on_its_head(angle: float) -> None:
    read, _ = annotate.upright(angle)
    assert math.radians(-75) - 1e-9 <= read <= math.radians(105) + 1e-9
    assert math.sin(2 * (read - angle)) == pytest.approx(0, abs=1e-9)


def test_shift_is_along_the_text_before_it_is_turned_upright() -> None:
    straight = annotate.words(shown(), Text(at=(0, 0), text="x", angle=math.pi, shift=(0, 3)))
    assert straight.at == pytest.approx((100, 97))
    assert straight.angle == pytest.approx(0)
    start = annotate.words(shown(), Text(at=(0, 0), text="x", angle=math.pi, anchor="start"))
    assert start.anchor == "end"


@pytest.mark.parametrize(("offset", "line", "foot"), [(10, 110, 110), (-10, 90, 90)])
def test_figure_stands_above_its_dimension_line(offset: float, line: float, foot: float) -> None:
    view = shown(Dimension(start=(-500, 0), end=(500, 0), offset=offset, text="1000"))
    (figure,) = words_in(view)
    lines = [part for part in legible.parts(view) if isinstance(part, Stroked)]
    assert any(part.points == ((50, line), (150, line)) for part in lines)
    assert figure.at == pytest.approx((100, foot + annotate.ABOVE + CAP_HEIGHT[Size.TEXT] / 2))
    assert figure.text == "1000"


def test_upright_dimension_reads_from_the_right_on_the_left_of_its_line() -> None:
    (figure,) = words_in(shown(Dimension(start=(0, -500), end=(0, 500), offset=-10, text="1000")))
    assert figure.angle == pytest.approx(math.pi / 2)
    assert figure.at[0] < 110


def test_short_dimension_has_its_figure_past_the_end() -> None:
    view = shown(Dimension(start=(0, 0), end=(30, 0), offset=5, text="30"))
    (figure,) = words_in(view)
    assert min(x for x, _ in legible.box(figure)) > 103


def test_extension_lines_leave_the_work_clear() -> None:
    strokes = [
        part.points
        for part in annotate.dimension(shown(), Dimension(start=(0, 0), end=(800, 0), offset=10, text="800"))
        if isinstance(part, Stroked) and part.pen is Pen.DIMENSION
    ]
    assert ((100.0, 101.0), (100.0, 111.5)) in strokes
    assert ((180.0, 101.0), (180.0, 111.5)) in strokes


def test_dimension_of_no_length_is_drawn() -> None:
    assert words_in(shown(Dimension(start=(0, 0), end=(0, 0), offset=5, text="0")))


@given(
    st.lists(st.floats(0, 1800), min_size=1, max_size=40).map(sorted),
    st.sampled_from([Size.FIGURE, Size.SMALL]),
    st.floats(-math.pi, math.pi),
    st.sampled_from([-8.0, 8.0, 0.0]),
)
def test_running_figures_never_touch(places: list[float], size: Size, angle: float, offset: float) -> None:
    along = (math.cos(angle), math.sin(angle))
    marks = tuple(((place * along[0], place * along[1]), f"{place:.0f}") for place in places)
    view = shown(Running(zero=(0, 0), marks=marks, offset=offset, size=size))
    assert legible.touching_texts(view) == []
    texts = [part.text for part in words_in(view)]
    assert marks[-1][1] in texts
    assert "0" in texts
    rings = [part for part in legible.parts(view) if isinstance(part, Ring)]
    assert [ring.radius for ring in rings] == [annotate.ZERO]


def test_running_figures_stand_at_their_ticks_when_there_is_room() -> None:
    marks = (((300.0, 0.0), "300"), ((700.0, 0.0), "700"))
    figures = words_in(shown(Running(zero=(0, 0), marks=marks, offset=5)))
    assert [figure.at[0] for figure in figures] == pytest.approx([100, 130, 170])
    assert all(figure.angle == pytest.approx(math.pi / 2) for figure in figures)


def test_every_mark_keeps_its_tick() -> None:
    marks = tuple(((float(place), 0.0), str(place)) for place in range(10, 510, 10))
    view = shown(Running(zero=(0, 0), marks=marks, offset=5))
    ticks = [part for part in legible.parts(view) if isinstance(part, Stroked) and part.pen is Pen.MARK]
    assert len(ticks) == 50
    assert 2 < len(words_in(view)) < 50


def test_running_without_marks_draws_nothing() -> None:
    assert list(annotate.running(shown(), Running(zero=(0, 0), marks=(), offset=5))) == []


@given(st.lists(st.floats(-100, 100), max_size=30).map(sorted), st.floats(0.1, 10))
def test_spread_keeps_order_and_distance(places: list[float], apart: float) -> None:
    found = annotate.spread(places, apart)
    assert len(found) == len(places)
    assert all(b - a >= apart - 1e-9 for a, b in pairwise(found))
    assert sum(found) == pytest.approx(sum(places), abs=1e-6)


def test_spread_moves_nothing_that_has_room() -> None:
    assert annotate.spread([0.0, 5.0, 10.0], 5.0) == [0.0, 5.0, 10.0]


@pytest.mark.parametrize("turn", range(4))
def test_letter_of_a_cross_turns_with_the_floor_and_stays_upright(turn: int) -> None:
    view = shown(Cross(at=(0, 0), label="A", away=(1, 0)), turn=turn)
    (letter,) = words_in(view)
    way = (letter.at[0] - 100, letter.at[1] - 100)
    assert letter.angle == 0
    assert math.atan2(way[1], way[0]) == pytest.approx(math.remainder(turn * math.pi / 2, math.tau))
    assert math.hypot(*way) > annotate.ARM


def test_a_view_names_the_texts_that_its_window_cuts() -> None:
    cut = shown(Text(at=(990, 0), text="too near the edge"), Text(at=(0, 0), text="well inside"))
    assert legible.clipped_texts(cut) == ["too near the edge"]


def test_a_view_names_the_texts_that_touch() -> None:
    view = shown(Text(at=(0, 0), text="over"), Text(at=(10, 10), text="under"), Text(at=(0, 500), text="apart"))
    assert legible.touching_texts(view) == [("over", "under")]
    crossed = shown(Text(at=(0, 0), text="level long"), Text(at=(0, 0), text="leaning", angle=1.0))
    assert legible.touching_texts(crossed) == [("level long", "leaning")]


def test_the_sample_is_legible(room_view: View) -> None:
    assert legible.touching_texts(room_view) == []
    assert legible.clipped_texts(room_view) == []
