"""Practice on paper: true scale, one page a sheet, no answer on an exercise, blanks to mark in."""

import io

import pdfplumber
import pytest

from floorwright.draw.sheet import Pack
from floorwright.export.pdf import pack_pdf
from floorwright.practice.exercise import KINDS, Exercise, Marking
from floorwright.practice.make import exercises
from floorwright.sheets.pack import units_text
from floorwright.sheets.practice import practice_pack

PT = 25.4 / 72


def made(units: str, number: int, line: float | None = None) -> tuple[Exercise, ...]:
    return exercises(KINDS, first=number, count=1, units=units, line=line)


def pack(found: tuple[Exercise, ...], paper: str) -> Pack:
    return practice_pack(found, Marking(), paper=paper, units=units_text(found[0].style))


@pytest.mark.parametrize(("units", "paper"), [("mm", "A4"), ("in", "Letter"), ("mm", "Letter"), ("in", "A4")])
@pytest.mark.parametrize("number", [1, 2])
def test_each_sheet_is_one_page_and_answers_come_after_all_exercises(units: str, paper: str, number: int) -> None:
    found = made(units, number)
    with pdfplumber.open(io.BytesIO(pack_pdf(pack(found, paper)))) as printed:
        texts = [page.extract_text() for page in printed.pages]
    assert len(texts) == 3 * len(KINDS)
    assert not any("continued" in text for text in texts)
    count = len(KINDS)
    exercise, answers, marking = texts[:count], texts[count : 2 * count], texts[2 * count :]
    assert all(text.startswith("Answers to") for text in answers)
    assert all(text.startswith("Marking of") for text in marking)
    for text, one in zip(exercise, found, strict=True):
        assert f"Variation {number}" in text
        assert "How it is worked out" not in text
        assert not one.exact or one.kind == "wrong reading" or one.exact not in text


def test_a_line_of_six_metres_prints_at_240_mm_with_a_true_bar() -> None:
    found = exercises(("square",), first=1, count=1, units="mm", line=6000.0)
    with pdfplumber.open(io.BytesIO(pack_pdf(pack(found, "A4")))) as printed:
        page = printed.pages[0]
        level = [(one["x0"], one["x1"]) for one in (*page.lines, *page.curves, *page.rects) if abs(one["height"]) < 0.1]
        widths = [(x1 - x0) * PT for x0, x1 in level]
        assert any(width == pytest.approx(240.0, abs=0.05) for width in widths)
        assert any(width == pytest.approx(100.0, abs=0.05) for width in widths)


def test_the_marking_sheet_says_what_earns_what() -> None:
    sheets = practice_pack(made("mm", 1), Marking(full=0.5, half=1.5, marks=4), paper="A4", units="mm, to 0.5").sheets
    from floorwright.draw.sheet import Prose

    (rule,) = [block.lines[0] for block in sheets[-1].blocks if isinstance(block, Prose)]
    assert rule.startswith("Within 0.5 mm earns 4 marks, within 1.5 mm half of them")
