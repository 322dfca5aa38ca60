"""RFC 4180, and nothing that a spreadsheet would run."""

import csv
import io

import pytest

from floorwright.draw.sheet import Column, Table
from floorwright.export.csv import table_csv
from floorwright.export.plain import plain


def one(text: str) -> str:
    table = Table(columns=(Column(heading="What"),), rows=((text,),))
    return table_csv(table)


def test_read_back_by_another_reader() -> None:
    rows = (("1", 'say "half"', "a, b"), ("2", "two\nlines", ""), ("3", "Łódź", "m²"))
    table = Table(columns=(Column(heading="No."), Column(heading="Note"), Column(heading="Area", unit="m²")), rows=rows)
    text = table_csv(table)
    assert list(csv.reader(io.StringIO(text, newline=""))) == [["No.", "Note", "Area (m²)"], *map(list, rows)]
    assert text.count("\r\n") == 4


@pytest.mark.parametrize("text", ["=1+1", "+cmd", "-2+3", "@sum", "\tx", "−2 + a"])
def test_formulas_are_text(text: str) -> None:
    (cell,) = list(csv.reader(io.StringIO(one(text), newline="")))[1]
    assert cell.startswith("'")


@pytest.mark.parametrize("text", ["-3.5", "+12", "282.5", "a-b", "", "wall N"])
def test_figures_and_words_stay(text: str) -> None:
    assert list(csv.reader(io.StringIO(one(text), newline="")))[1:] in ([[text]], [[]])


def test_minus_sign_of_a_figure_is_one_that_programs_read() -> None:
    assert one("−3.5") == "What\r\n-3.5\r\n"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("7 ¹¹⁄₁₆″", '7 11/16"'),
        ("3′-4″", "3'-4\""),
        ("12 m²", "12 m²"),
        ("−5", "-5"),
        ("D\N{NON-BREAKING HYPHEN}A 3\N{NO-BREAK SPACE}m", "D-A 3 m"),
    ],
)
def test_fractions_in_plain_signs(text: str, said: str) -> None:
    assert plain(text) == said
