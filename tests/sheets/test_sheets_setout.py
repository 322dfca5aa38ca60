"""Ties, gauge rods and coordinates through the job file, on paper at true size and in the pack's lists."""

import csv
import io
from dataclasses import replace
from itertools import pairwise

import pdfplumber
import pytest

from floorwright.draw.sheet import Sheet, flat
from floorwright.draw.view import View
from floorwright.export.data_setout import lines_data
from floorwright.export.files import csv_files
from floorwright.export.pdf import pack_pdf
from floorwright.job.load import load_text
from floorwright.job.read.csv_points import read_points
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.sheets.pack import pack

HALL = """
schema = 1
title = "Quarry Lane hall"
date = 2026-03-05
units = "{units}"

[survey]
outline = ["A", "B", "C", "D"]
direction = "anticlockwise"
[survey.distances]
A-B = "2.20 m"
B-C = "1.80 m"
C-D = "2.19 m"
D-A = "1.81 m"
A-C = "2.842 m"
B-D = "2.849 m"

[control]
first_line = {{ by = "parallel", wall = "A-B" }}
centre = {{ by = "mid-point", wall = "A-B" }}

[[goods]]
name = "Grey 200"
length = "197 mm"

[[zones]]
goods = "Grey 200"
joint = "3 mm"
gap = "5 mm"
angle = {angle}

[setout]
{setout}
"""
PT = 25.4 / 72


def solved(setout: str, *, units: str = "mm", angle: int = 0) -> Solution:
    loaded = load_text(HALL.format(setout=setout, units=units, angle=angle), "hall.toml")
    assert loaded.job is not None
    return solve(loaded.job, findings=loaded.findings)


@pytest.fixture(scope="module")
def both() -> Solution:
    return solved('ties = true\ngauge_rod = true\nnail = "B"')


def sheets(solution: Solution, key: str) -> list[Sheet]:
    return [sheet for sheet in pack(solution).sheets if sheet.key == key]


def test_what_is_asked_for_is_in_the_pack(both: Solution) -> None:
    assert len(sheets(both, "ties")) == 1
    assert len(sheets(both, "rod")) == 2
    assert both.snap is not None
    assert both.snap.zero == "B"


def test_a_straight_floor_has_neither_by_itself_and_a_diagonal_one_is_tied() -> None:
    plain, diagonal = solved(""), solved("", angle=45)
    assert not sheets(plain, "ties")
    assert not sheets(plain, "rod")
    assert len(sheets(diagonal, "ties")) == 1
    assert not sheets(solved("ties = false", angle=45), "ties")


def test_the_data_carries_them(both: Solution) -> None:
    data = lines_data(both)
    assert {tie["node"] for tie in data["ties"]} <= {point["name"] for point in data["points"]}
    assert [rod["name"] for rod in data["rods"]] == ["rows", "columns"]
    assert data["zero"] == "B"
    assert list(data)[-1] == "findings"


@pytest.mark.parametrize(("units", "size"), [("mm", 1000.0), ("in", 304.8)])
def test_coordinates_can_be_read_back(units: str, size: float) -> None:
    found = solved("", units=units)
    assert found.setout is not None
    content = csv_files(pack(found))["coordinates.csv"]
    rows = list(csv.reader(io.StringIO(content.decode())))
    assert rows[0] == [
        "Name",
        f"East ({'m' if units == 'mm' else 'ft'})",
        f"North ({'m' if units == 'mm' else 'ft'})",
        "What",
    ]
    assert "A is at 0.0, 0.0 mm; A-B runs from it to B" in rows[1][3]
    back = read_points(content, "coordinates.csv", units)
    assert back.findings == ()
    assert [name for name, _, _ in back.points] == [point.name for point in found.setout.points]
    for (_, x, y), point in zip(back.points, found.setout.points, strict=True):
        assert (x, y) == pytest.approx((point.x, point.y), abs=0.00006 * size)


@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_rod_prints_true(units: str) -> None:
    """Every page of strips has a check bar at its length, and the joints lie as far apart as on the floor."""
    found = solved("gauge_rod = true", units=units)
    made = pack(found)
    sheet = next(sheet for sheet in made.sheets if sheet.key == "rod" and "columns" in sheet.title)
    views = [block for block in flat(sheet.blocks) if isinstance(block, View)]
    with pdfplumber.open(io.BytesIO(pack_pdf(replace(made, sheets=(sheet,))))) as printed:
        pages = [page for page in printed.pages if "measure it before you scale" in (page.extract_text() or "")]
        assert len(pages) == len(views)
        bar = 101.6 if units == "in" else 100.0
        steps: list[float] = []
        for page in pages:
            level = [one for one in (*page.lines, *page.curves, *page.rects) if abs(one["height"]) < 0.1]
            assert any(one["width"] * PT == pytest.approx(bar, abs=0.05) for one in level)
            rows: dict[float, list[float]] = {}
            for one in page.lines:
                if abs(one["width"]) < 0.05 and one["height"] * PT == pytest.approx(12.0, abs=0.05):
                    rows.setdefault(round(one["top"]), []).append(one["x0"] * PT)
            for edges in rows.values():
                edges.sort()
                widths = [end - start for start, end in zip(edges[::2], edges[1::2], strict=True)]
                assert widths == pytest.approx([3.0] * len(widths), abs=0.02)
                steps += [b - a for a, b in pairwise(edges[::2])]
    # A tile of 197 and a joint of 3 from joint to joint, on paper.
    assert steps
    assert steps == pytest.approx([200.0] * len(steps), abs=0.02)


def test_an_unknown_nail_is_refused_at_its_line() -> None:
    loaded = load_text(HALL.format(setout='nail = "E"', units="mm", angle=0), "hall.toml")
    assert [(one.code, one.expected) for one in loaded.findings if one.severity == "error"] == [
        ("job-unknown-corner", "the name of a corner of the room")
    ]
