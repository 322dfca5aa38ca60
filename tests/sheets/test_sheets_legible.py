"""Sheets as printed: no word stands on another, and the bar to check the print by is always of one length."""

import io
import math
import re
from dataclasses import dataclass
from typing import Any

import pdfplumber
import pytest
import shapely
from pdfplumber.page import Page

from floorwright.draw.sheet import Pack, Sheet, flat
from floorwright.draw.style import Pen
from floorwright.draw.view import Line, Text, View
from floorwright.draw.widths import EM
from floorwright.export.pdf import pack_pdf
from floorwright.export.svg import view_svg
from floorwright.job.solution import Solution
from floorwright.sheets.pack import pack

BAR = re.compile(r'class="check-bar"><path [^>]*d="M([\d.]+) [\d.]+H([\d.]+)')

SHARED = 1.0
"""Square points that two words may share: less than the point of a comma."""


def bar_length(view: View, imperial: bool) -> float:
    """Returns the length of a view's check bar in mm on paper, as drawn."""
    if view.check_bar:
        found = BAR.search(view_svg(view, imperial=imperial))
        assert found
        return float(found[2]) - float(found[1])
    strokes = [item.points for item in view.aside if isinstance(item, Line) and item.pen is Pen.MARK]
    return max(math.dist(*points) for points in strokes) / view.scale


def test_every_drawing_to_scale_has_a_bar_of_one_length(any_room: Solution) -> None:
    imperial = any_room.style.system == "imperial"
    measured = [
        bar_length(block, imperial)
        for sheet in pack(any_room).sheets
        # The pictures of cuts are too small for a bar, and carry every figure.
        if sheet.key != "cuts"
        for block in flat(sheet.blocks)
        if isinstance(block, View) and block.is_to_scale
    ]
    assert len(measured) >= 2
    assert measured == pytest.approx([101.6 if imperial else 100.0] * len(measured))


@dataclass(frozen=True, slots=True, kw_only=True)
class Letter:
    """A printed character: where its base line begins, which way that runs, how wide and how high it is; pt."""

    text: str
    at: tuple[float, float]
    along: tuple[float, float]
    wide: float
    high: float

    @property
    def end(self) -> tuple[float, float]:
        return self.at[0] + self.along[0] * self.wide, self.at[1] + self.along[1] * self.wide


def letter(character: dict[str, Any]) -> Letter:
    """Returns a character of pdfplumber, whose box stands level about it however it is turned."""
    a, b, _, _, x, y = character["matrix"]
    scale = math.hypot(a, b)
    wide, sides = character["adv"] * scale, (abs(a) + abs(b)) / scale
    # The box of a rectangle that is turned: the sum of its sides tells how high the font is.
    font = (character["x1"] - character["x0"] + character["bottom"] - character["top"]) / sides - wide
    return Letter(text=character["text"], at=(x, y), along=(a / scale, b / scale), wide=wide, high=font / EM)


def printed_words(page: Page) -> list[tuple[str, shapely.Polygon]]:
    """Returns the words of a page, each with the rectangle that its capitals take, turned as they are printed."""
    words: list[list[Letter]] = [[]]
    for one in map(letter, page.chars):
        before = words[-1][-1] if words[-1] else None
        if not one.text.strip():
            words.append([])
        elif before and before.along == one.along and math.dist(before.end, one.at) < before.high / 4:
            words[-1].append(one)
        else:
            words.append([one])
    return [("".join(one.text for one in word), rectangle(word)) for word in words if word]


def rectangle(word: list[Letter]) -> shapely.Polygon:
    start, end, high = word[0].at, word[-1].end, max(one.high for one in word)
    up = -word[0].along[1] * high, word[0].along[0] * high
    over = [(x + up[0], y + up[1]) for x, y in (end, start)]
    return shapely.Polygon([start, end, *over])


def standing_on_another(page: Page) -> list[tuple[str, str]]:
    """Returns the pairs of words of a page of which one stands on the other."""
    words = printed_words(page)
    tree = shapely.STRtree([box for _, box in words])
    return [
        (text, words[other][0])
        for n, (text, box) in enumerate(words)
        for other in map(int, tree.query(box, predicate="intersects"))
        if other > n and shapely.intersection(box, words[other][1]).area > SHARED
    ]


def test_no_word_stands_on_another(any_room: Solution) -> None:
    with pdfplumber.open(io.BytesIO(pack_pdf(pack(any_room)))) as printed:
        found = {page.page_number: pairs for page in printed.pages if (pairs := standing_on_another(page))}
    assert not found


@pytest.mark.parametrize("angle", [0.0, 0.3, math.pi / 4, math.pi / 2])
def test_a_word_on_another_is_seen_whichever_way_it_is_turned(angle: float) -> None:
    def view(apart: float) -> View:
        texts = (Text(at=(50.0, 50.0), text="No. 12", angle=angle), Text(at=(50.0 + apart, 50.0), text="4 left"))
        return View(name="Two", described="Two words.", scale=1, window=(0, 0, 100, 100), items=texts)

    for apart, seen in ((3.0, True), (25.0, False)):
        sheet = Sheet(key="layout", title="Two words.", blocks=(view(apart),))
        made = Pack(
            job="Two",
            client="",
            by="",
            revision="A",
            date="2026-03-02",
            units="mm",
            paper="A4",
            words="UK",
            sheets=(sheet,),
        )
        with pdfplumber.open(io.BytesIO(pack_pdf(made))) as printed:
            assert bool(standing_on_another(printed.pages[0])) is seen
