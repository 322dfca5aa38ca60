"""The PDF read back: exact scale, our font only, and pages that a crew can work from."""

import io
import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pdfplumber
import pytest
from tests.export.conftest import cut_table

from floorwright.draw.paper import page_space
from floorwright.draw.scale import fit_scale
from floorwright.draw.sheet import Beside, Blanks, Column, Columns, Pack, Prose, Steps, Table
from floorwright.draw.style import Pen
from floorwright.draw.view import Line, View
from floorwright.errors import FloorwrightError, FloorwrightValueError
from floorwright.export import pdf
from floorwright.export.pdf import pack_pdf

POINT = 25.4 / 72
HOSTILE = '#panic("x") *bold* _it_ $x^2$ \\u{0} `raw` @cite <tag> = head // no /* c */ https://x.y --- "q" ~'

OneSheet = Callable[..., Pack]


def opened(data: bytes) -> Any:
    return pdfplumber.open(io.BytesIO(data))


def sizes(page: Any, width: float) -> list[tuple[float, float]]:
    """Returns (width, height) in mm of the vectors drawn on a page with a pen of `width` mm."""
    found = page.curves + page.lines + page.rects
    pens = [(item, item["linewidth"] * POINT) for item in found if item["stroke"]]
    return [
        ((item["x1"] - item["x0"]) * POINT, (item["y1"] - item["y0"]) * POINT)
        for item, drawn in pens
        if abs(drawn - width) < 0.005
    ]


@pytest.mark.parametrize(
    ("paper", "units", "scale", "wanted", "bar"),
    [("A4", "mm", 20, (160, 200), 100.0), ("Letter", "feet and inches, to 1/16", 24, (3200 / 24, 4000 / 24), 101.6)],
)
def test_scale_read_back(
    true_room: View, one_sheet: OneSheet, paper: str, units: str, scale: float, wanted: tuple[float, float], bar: float
) -> None:
    view = replace(true_room, scale=scale)
    with opened(pack_pdf(one_sheet(view, paper=paper, units=units))) as document:
        page = document.pages[0]
        walls = max(sizes(page, 0.7))
        assert walls == pytest.approx(wanted, abs=0.01)
        assert max(sizes(page, 0.25))[0] == pytest.approx(bar, abs=0.01)


def test_a_wrong_scale_would_be_noticed(true_room: View, one_sheet: OneSheet) -> None:
    with opened(pack_pdf(one_sheet(replace(true_room, scale=20.01)))) as document:
        assert max(sizes(document.pages[0], 0.7)) != pytest.approx((160, 200), abs=0.01)


@pytest.mark.parametrize(
    ("paper", "landscape", "size"),
    [("A4", False, (210, 297)), ("A4", True, (297, 210)), ("Letter", False, (215.9, 279.4))],
)
def test_paper(one_sheet: OneSheet, paper: str, landscape: bool, size: tuple[float, float]) -> None:
    made = one_sheet(Prose(lines=("x",)), paper=paper, landscape=landscape)
    with opened(pack_pdf(made)) as document:
        page = document.pages[0]
        assert (page.width * POINT, page.height * POINT) == pytest.approx(size, abs=0.01)


def test_same_pack_same_bytes(pack: Pack, one_sheet: OneSheet) -> None:
    first = pack_pdf(pack)
    pack_pdf(one_sheet(Prose(lines=("something else between",))))
    assert pack_pdf(pack) == first
    pdf._compiler.cache_clear()
    assert pack_pdf(pack) == first


def test_date_in_the_file_is_the_packs(pack: Pack) -> None:
    with opened(pack_pdf(pack)) as document:
        assert document.metadata["CreationDate"].startswith("D:20260302000000")
        assert document.metadata["Title"] == "Larch Row kitchen"


def test_only_our_font(pack: Pack) -> None:
    names = {name.decode() for name in re.findall(rb"/BaseFont\s*/(\S+)", pack_pdf(pack))}
    with opened(pack_pdf(pack)) as document:
        names |= {character["fontname"] for page in document.pages for character in page.chars}
    assert names
    assert {name.split("+")[-1].split("-")[0] for name in names} == {"FloorwrightSans"}


def test_nothing_smaller_than_two_millimetres(pack: Pack) -> None:
    """Capital heights, look of sheets: 2.0 mm least; read from the level texts, the turned ones have the same sizes."""
    with opened(pack_pdf(pack)) as document:
        least = min(c["size"] for page in document.pages for c in page.chars if c["matrix"][0] > 0.5)
    assert least * POINT / 1.375 >= 2.0 - 1e-3


def test_every_page_has_a_title_block(pack: Pack) -> None:
    with opened(pack_pdf(pack)) as document:
        count = len(document.pages)
        for number, page in enumerate(document.pages, start=1):
            foot = page.crop((0, page.height - 25 / POINT, page.width, page.height)).extract_text()
            for said in ("Larch Row kitchen", "A. Client", "2026-03-02", "Revision", "mm", f"{number} of {count}"):
                assert said in foot, f"page {number}"
        scales = [
            re.search(r"1:\d+|none", page.extract_text().split("Larch Row kitchen")[-1]) for page in document.pages
        ]
        assert [match and match[0] for match in scales][:2] == ["1:50", "1:50"]


def test_hostile_texts_print_as_they_are(one_sheet: OneSheet) -> None:
    long = "x" * 400
    blocks = (
        Prose(heading=HOSTILE, lines=(HOSTILE, long, "🧱 שלום"), tone="caution"),
        Steps(heading=HOSTILE, lines=(HOSTILE, long)),
        Table(
            columns=(Column(heading=HOSTILE, unit=HOSTILE),), rows=((HOSTILE,), (long,)), heading=HOSTILE, ticks=True
        ),
        Blanks(labels=(HOSTILE, long), heading=HOSTILE),
    )
    made = one_sheet(*blocks, title=HOSTILE, job=HOSTILE * 5, client=long, by=HOSTILE, revision=HOSTILE)
    with opened(pack_pdf(made)) as document:
        text = "\n".join(page.extract_text() for page in document.pages)
        squeezed = re.sub(r"\s", "", text)
        assert squeezed.count(re.sub(r"\s", "", HOSTILE)) >= 8
        assert "□□□□□" in squeezed
        for page in document.pages:
            assert max(character["x1"] for character in page.chars) <= page.width - 12 / POINT + 0.5
            assert min(character["x0"] for character in page.chars) >= 20 / POINT - 0.5


def test_long_table_repeats_its_head_and_loses_no_row(one_sheet: OneSheet) -> None:
    with opened(pack_pdf(one_sheet(cut_table(200)))) as document:
        pages = [page.extract_text() for page in document.pages]
    assert len(pages) > 3
    assert all("Thin end" in page for page in pages)
    assert all("(continued)" in page for page in pages[1:])
    rows = [int(match) for page in pages for match in re.findall(r"^(\d+) [\d.]+ [\d.]+ wall", page, re.MULTILINE)]
    assert rows == list(range(1, 201))


def test_narrow_long_table_stands_abreast(one_sheet: OneSheet) -> None:
    columns = (Column(heading="Mark"), Column(heading="From", unit="mm", align="right"))
    rows = tuple((f"M{i}", str(450 * i)) for i in range(60))
    with opened(pack_pdf(one_sheet(Table(columns=columns, rows=rows)))) as document:
        assert len(document.pages) == 1
        assert document.pages[0].extract_text().count("Mark") >= 2


def test_figures_stand_on_their_units(one_sheet: OneSheet) -> None:
    texts = ("282.5", "7", "1043", "97.5")
    table = Table(columns=(Column(heading="Cut", unit="mm", align="right"),), rows=tuple((text,) for text in texts))
    with opened(pack_pdf(one_sheet(table))) as document:
        words = {word["text"]: word for word in document.pages[0].extract_words()}
        chars = document.pages[0].chars
    ends = [
        max(c["x1"] for c in chars if abs(c["top"] - words[text]["top"]) < 1 and c["x1"] <= words[text]["x1"] + 1
            and c["text"].isdigit() and c["x0"] < _dot(chars, words[text]))
        for text in texts
    ]  # fmt: skip
    assert max(ends) - min(ends) < 0.05


def _dot(chars: list[dict[str, Any]], word: dict[str, Any]) -> float:
    """Returns where the decimal point of a printed figure is, or infinity."""
    return min((c["x0"] for c in chars if c["text"] == "." and abs(c["top"] - word["top"]) < 1), default=float("inf"))


def test_view_too_big_is_named(true_room: View, one_sheet: OneSheet) -> None:
    with pytest.raises(FloorwrightValueError, match=r"'Room' at 1:10 is .* there is"):
        pack_pdf(one_sheet(replace(true_room, scale=10)))
    with pytest.raises(FloorwrightValueError, match="'Room'"):
        pack_pdf(one_sheet(Beside(left=(true_room,), right=(), share=0.6)))


@pytest.mark.parametrize("landscape", [False, True])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_view_as_big_as_its_space_fits_one_page(one_sheet: OneSheet, paper: str, landscape: bool) -> None:
    title = "A sentence that is long enough to take two lines at the top of an upright sheet of paper"
    space = page_space(paper, landscape, title=title)
    window = (0.0, 0.0, space[0] * 20, space[1] * 20)
    walls = Line(points=((0, 0), (window[2], window[3])), pen=Pen.WALL)
    view = View(name="Full", described="d", scale=20, window=window, items=(walls,))
    assert fit_scale(window[2:], space) == 20
    with opened(pack_pdf(one_sheet(view, title=title, paper=paper, landscape=landscape))) as document:
        assert len(document.pages) == 1


def test_columns_hold_views_of_their_share(true_room: View, one_sheet: OneSheet) -> None:
    left, _ = page_space("A4", share=0.6)
    view = replace(true_room, scale=fit_scale((3400, 4200), (left, 200)))
    with opened(pack_pdf(one_sheet(Beside(left=(view,), right=(Prose(lines=("beside",)),), share=0.6)))) as document:
        assert max(sizes(document.pages[0], 0.7)) == pytest.approx((3200 / view.scale, 4000 / view.scale), abs=0.01)


def test_tagged_with_spoken_pictures(pack: Pack) -> None:
    data = pack_pdf(pack)
    assert b"/MarkInfo" in data
    assert b"pdfuaid" in data
    assert b"/Alt" in data


@pytest.mark.parametrize("date", ["yesterday", "2026-13-01"])
def test_a_date_that_is_none(pack: Pack, date: str) -> None:
    with pytest.raises(FloorwrightValueError, match="2026-03-02"):
        pack_pdf(replace(pack, date=date))


def test_a_pack_without_a_date_prints_none(pack: Pack) -> None:
    undated = pack_pdf(replace(pack, date=""))
    assert undated == pack_pdf(replace(pack, date=""))
    with pdfplumber.open(io.BytesIO(undated)) as document:
        texts = [page.extract_text() for page in document.pages]
    assert all("Date" not in text.splitlines()[-2] and "1970" not in text for text in texts)


def test_a_warning_of_the_typesetter_is_an_error(one_sheet: OneSheet, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf, "FAMILY", "No Such Face")
    with pytest.raises(FloorwrightError, match="no such face"):
        pack_pdf(one_sheet(Prose(lines=("x",))))


def test_a_sketch_tells_nobody_its_scale(true_room: View, one_sheet: OneSheet) -> None:
    for to_scale, said in ((True, "1:20"), (False, "not to scale")):
        view = replace(true_room, is_to_scale=to_scale, check_bar=False)
        (page,) = opened(pack_pdf(one_sheet(view))).pages
        assert said in page.extract_text()


def test_a_short_table_is_not_broken_over_two_pages(one_sheet: OneSheet) -> None:
    first, second = opened(pack_pdf(one_sheet(cut_table(25), cut_table(20)))).pages
    assert second.extract_text().count("wall") == 20
    assert first.extract_text().count("wall") == 25


def test_columns_run_down_one_after_another(one_sheet: OneSheet) -> None:
    table = Table(columns=(Column(heading="No."),), rows=tuple((f"piece {n}",) for n in range(20)))
    (page,) = opened(pack_pdf(one_sheet(Columns(blocks=(table, table))))).pages
    tops = {word["x0"] // 80: word["top"] for word in reversed(page.extract_words()) if word["text"] == "piece"}
    assert len(tops) == 2
    assert len(set(tops.values())) == 1


def test_the_figure_of_a_step_is_printed_larger(one_sheet: OneSheet) -> None:
    step = Steps(lines=("Mark F1, 1400 mm from the centre.", "Snap it."), figures=("1400 mm",))
    (page,) = opened(pack_pdf(one_sheet(step))).pages
    sizes = {word["text"]: word["size"] for word in page.extract_words(extra_attrs=["size"])}
    assert sizes["1400"] == pytest.approx(sizes["Mark"] * 3.5 / 2.5, rel=0.01)
    assert sizes["Snap"] == sizes["Mark"]
