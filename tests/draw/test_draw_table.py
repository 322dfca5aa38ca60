"""How the columns of a table share a width."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.draw.lettering import text_width
from floorwright.draw.sheet import Column, Table
from floorwright.draw.style import Size
from floorwright.draw.table import EASE, natural_widths, shared_widths, split_cell, table_width

CUTS = Table(
    columns=(
        Column(heading="No.", marked=True),
        Column(heading="at A", align="right", marked=True),
        Column(heading=""),
    ),
    rows=(
        ("1, 3, 9, 11, 13, 15, 17, 19, 21, 23", '4 ¹⁵⁄₁₆"', "10\N{NO-BREAK SPACE}×, angled*, under limit"),
        ("4", '5 ¹⁄₈"', "notch*"),
    ),
    ticks=True,
)


def test_a_figure_is_split_behind_its_units() -> None:
    right = Column(heading="", align="right")
    assert split_cell(right, "282.5") == ("282", ".5")
    assert split_cell(right, '7 ¹⁄₈"') == ("7", ' ¹⁄₈"')
    assert split_cell(Column(heading=""), "282.5") == ("282.5", "")


def test_a_table_with_room_keeps_every_cell_on_one_line() -> None:
    assert shared_widths(CUTS, table_width(CUTS)) == natural_widths(CUTS)


@given(st.floats(85.0, 140.0))
def test_words_give_way_and_figures_do_not(width: float) -> None:
    widths, naturals = shared_widths(CUTS, width), natural_widths(CUTS)
    assert table_width(CUTS, widths) == pytest.approx(min(width, table_width(CUTS)))
    assert widths[1] == naturals[1]
    assert widths[0] >= text_width("13,", Size.FIGURE)
    assert widths[2] >= text_width("angled*,", Size.TEXT)


def test_no_column_is_narrower_than_its_longest_word() -> None:
    # There is no room at all: words keep theirs, and the table is too wide.
    widths = shared_widths(CUTS, 10.0)
    assert widths[0] == pytest.approx(text_width("13,", Size.FIGURE) + EASE)
    assert widths[2] == pytest.approx(text_width("angled*,", Size.TEXT) + EASE)
