"""The pack of a floor that breaks at its doors: one sheet of cuts and one order for all, each sheet full."""

import io

import pdfplumber
import pytest

from floorwright.draw.sheet import Columns, Pack, Prose, Table
from floorwright.export.pdf import pack_pdf
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.sheets.pack import pack

THREE_ROOMS = """
title = "Three rooms, three goods"
[survey]
name = "lounge"
outline = ["A", "B", "C", "D"]
[survey.points]
A = [0, 0]
B = [4500, 0]
C = [4500, 3900]
D = [0, 3900]
K1 = [4620, 0]
K2 = [7400, 0]
K3 = [7400, 3000]
K4 = [4620, 3000]
H1 = [4620, 3120]
H2 = [7400, 3120]
H3 = [7400, 4300]
H4 = [4620, 4300]
[[rooms]]
name = "kitchen"
outline = ["K1", "K2", "K3", "K4"]
[[rooms]]
name = "hall"
outline = ["H1", "H2", "H3", "H4"]
[[openings]]
name = "lounge door"
wall = "B-C"
from = "B"
offset = 1000
width = 800
[[openings]]
name = "kitchen door"
wall = "K4-K1"
from = "K1"
offset = 1000
width = 800
[[openings]]
name = "kitchen hall door"
wall = "K3-K4"
from = "K4"
offset = 900
width = 800
[[openings]]
name = "hall door"
wall = "H1-H2"
from = "H1"
offset = 900
width = 800
[[links]]
rooms = ["lounge", "kitchen"]
openings = ["lounge door", "kitchen door"]
name = "doorway"
floor = "breaks"
[[links]]
rooms = ["kitchen", "hall"]
openings = ["kitchen hall door", "hall door"]
name = "hall doorway"
floor = "breaks"
[control]
first_line = { by = "parallel", wall = "A-B" }
centre = { by = "mid-point", wall = "A-B" }
[[goods]]
name = "Slate 600"
length = 600
box = 5
[[goods]]
name = "Clay 450"
length = 450
box = 5
[[goods]]
name = "Clay 300"
length = 300
box = 5
[[zones]]
name = "lounge floor"
rooms = ["lounge"]
goods = "Slate 600"
joint = 3
[[zones]]
name = "Kitchen Floor"
rooms = ["kitchen"]
goods = "Clay 450"
joint = 3
[[zones]]
name = "hall floor"
rooms = ["hall"]
goods = "Clay 300"
joint = 3
"""


@pytest.fixture(scope="module")
def three() -> Solution:
    job = load_text(THREE_ROOMS).job
    assert job is not None
    return solve(job)


@pytest.fixture(scope="module")
def made(three: Solution) -> Pack:
    return pack(three)


def test_the_pack_is_short_and_no_page_of_it_is_bare(made: Pack) -> None:
    with pdfplumber.open(io.BytesIO(pack_pdf(made))) as printed:
        words = [len(page.extract_words()) for page in printed.pages]
    assert len(words) <= 26
    assert min(words) >= 30


def test_all_cuts_stand_on_one_sheet_zone_by_zone(three: Solution, made: Pack) -> None:
    (cuts,) = [sheet for sheet in made.sheets if sheet.key == "cuts"]
    (columns,) = [block for block in cuts.blocks if isinstance(block, Columns)]
    heads = [block.heading for block in columns.blocks if isinstance(block, Prose)]
    # A name keeps its own capitals.
    assert [head for head in heads if head.lower().endswith("floor")] == ["Lounge floor", "Kitchen Floor", "Hall floor"]
    assert heads.count("Cuts with *") == 1
    rows = [row for _, table in cuts.lists for row in table.rows]
    assert sorted(int(row[0]) for row in rows) == list(range(1, sum(len(one.pieces) for one in three.cuts) + 1))


def test_many_goods_are_ordered_in_one_table(three: Solution, made: Pack) -> None:
    (order,) = [sheet for sheet in made.sheets if sheet.key == "order"]
    (table,) = [block for block in order.blocks if isinstance(block, Table)]
    assert [column.heading for column in table.columns[1:]] == ["Slate 600", "Clay 450", "Clay 300"]
    laid = next(row for row in table.rows if row[0] == "To lay")
    assert laid[1:] == tuple(str(one.tiles) for one in three.orders)
    assert len(order.lists) == 3


def test_jambs_are_no_corners_to_be_out_of_square_and_coordinates_have_a_row_each(made: Pack) -> None:
    room = next(sheet for sheet in made.sheets if sheet.key == "room")
    ((_, readings),) = room.lists
    assert [row[0] for row in readings.rows] == ["A", "B", "C", "D", "K1", "K2", "K3", "K4", "H1", "H2", "H3", "H4"]
    assert ("K3", "7400", "3000") in readings.rows


def test_of_many_walls_those_with_the_narrowest_cuts_are_told(three: Solution, made: Pack) -> None:
    kitchen = three.layouts[1]
    options = [sheet for sheet in made.sheets if sheet.key == "options"][1]
    table = next(block for block in options.blocks if isinstance(block, Table) and "narrowest" in block.heading)
    told = {column.heading.removeprefix("Wall ") for column in table.columns[1:]}
    assert len(told) == 8 < len(kitchen.chosen.walls)
    thin = sorted(kitchen.chosen.walls, key=lambda wall: wall.thin)
    assert {wall.wall for wall in thin[:4]} <= told
