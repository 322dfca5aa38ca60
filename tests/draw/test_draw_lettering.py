"""Text is measured with the widths of the font that we carry."""

from importlib.resources import files

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from floorwright.draw import lettering, widths
from floorwright.draw.style import CAP_HEIGHT, Size

FACES = {"Regular": widths.REGULAR, "SemiBold": widths.SEMIBOLD}


@pytest.mark.parametrize("face", FACES)
def test_table_of_widths_is_that_of_the_font(face: str) -> None:
    with files("floorwright.export").joinpath(f"fonts/FloorwrightSans-{face}.otf").open("rb") as stream:
        font = TTFont(stream)
        capital = font["OS/2"].sCapHeight
        assert font["head"].unitsPerEm / capital == pytest.approx(widths.EM, abs=1e-6)
        found = {
            chr(code): round(1000 * font["hmtx"][glyph][0] / capital) for code, glyph in font.getBestCmap().items()
        }
    assert {c: width for width, characters in FACES[face].items() for c in characters} == found


def test_figures_are_tabular() -> None:
    assert len({lettering.text_width(figure, Size.TEXT) for figure in "0123456789"}) == 1
    assert len({lettering.text_width(figure, Size.TEXT, bold=True) for figure in "0123456789"}) == 1


def test_capital_height_gives_the_font_size() -> None:
    assert lettering.font_size(Size.TEXT) == pytest.approx(2.5 / 0.727, rel=1e-3)
    assert min(CAP_HEIGHT.values()) >= 2.0
    assert CAP_HEIGHT[Size.FIGURE] >= 3.5


@pytest.mark.parametrize(
    ("text", "printed", "lost"),
    [
        ("plain", "plain", ""),
        ('#panic("x") *bold* $x$ \\u{0}', '#panic("x") *bold* $x$ \\u{0}', ""),
        ("a\x00b\x1b", "a□b□", "\x00\x1b"),
        ("line\r\nline\tline", "line  line line", ""),
        ("שלום", "□□□□", "שלום"),
        ("🧱🧱 ok", "□□ ok", "🧱"),
        ("cafe\u0301", "café", ""),
        ("⌀ 20, ⅔", "Ø 20, ²⁄₃", ""),
        ("7 ¹¹⁄₁₆″ × 3′", "7 ¹¹⁄₁₆″ × 3′", ""),
        ("\u202eright to left", "□right to left", "\u202e"),
        ("Łódź, Ångström, Ελλάδα, Київ", "Łódź, Ångström, Ελλάδα, Київ", ""),
        ("", "", ""),
    ],
)
def test_what_the_font_lacks_is_seen(text: str, printed: str, lost: str) -> None:
    assert lettering.printable(text) == printed
    assert lettering.missing(text) == lost


@given(st.text())
def test_any_text_can_be_printed_and_measured(text: str) -> None:
    once = lettering.printable(text)
    assert lettering.printable(once) == once
    assert lettering.missing(once) == ""
    assert lettering.text_width(text, Size.SMALL) >= 0


@given(st.text(alphabet="abc MW.", max_size=60), st.floats(5, 100))
def test_shortened_text_fits(text: str, width: float) -> None:
    short = lettering.shorten(text, width, Size.TEXT)
    assert lettering.text_width(short, Size.TEXT) <= width
    assert short == text or short.endswith("…")


def test_lines_needed_breaks_between_words() -> None:
    wide = lettering.text_width("one two", Size.TITLE)
    assert lettering.lines_needed("one two", wide + 0.01, Size.TITLE) == 1
    assert lettering.lines_needed("one two", wide - 0.01, Size.TITLE) == 2
    assert lettering.lines_needed("one two three", 1.0, Size.TITLE) == 3
    assert lettering.lines_needed("", 1.0, Size.TITLE) == 1
