"""The sheets, the data and the drawing of a scored slab."""

import io
from pathlib import Path

import ezdxf
import pytest

import floorwright
from floorwright.draw.sheet import Pack, Prose, Table, flat
from floorwright.draw.style import Pen
from floorwright.draw.view import Line, View
from floorwright.export.data_cuts import takeoff_data
from floorwright.export.data_floor import layout_data
from floorwright.export.files import csv_files, dxf_files, svg_files
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.sheets.decided import decided
from floorwright.sheets.pack import pack

EXAMPLE = Path(floorwright.__file__).parent / "examples" / "mill-lane-patio.toml"


@pytest.fixture(scope="module")
def solution() -> Solution:
    loaded = floorwright.load(EXAMPLE)
    assert loaded.job is not None
    return floorwright.solve(loaded.job, findings=loaded.findings)


@pytest.fixture(scope="module")
def sheets(solution: Solution) -> Pack:
    return pack(solution)


def test_its_sheets_say_what_to_cut(sheets: Pack) -> None:
    titles = {sheet.key: sheet.title for sheet in sheets.sheets}
    assert titles["scoring"] == "Cut 17 lines and a circle, 282.8 ft; 3 lines are there."
    assert titles["lines"] == "Cut 17 lines in this order, from corner A."
    assert titles["slab"] == "A line lies on every joint in the slab."
    assert titles["stain"] == "Stain A walnut, B sandstone, C charcoal and D terracotta, after cutting."
    assert "layout" not in titles


def test_every_sheet_that_tells_somebody_to_cut_has_its_cautions(sheets: Pack) -> None:
    for sheet in sheets.sheets:
        if sheet.key in ("scoring", "lines"):
            said = " ".join(
                line
                for block in flat(sheet.blocks)
                if isinstance(block, Prose) and block.tone == "caution"
                for line in block.lines
            )
            for word in ("post-tension", "silica", "kicks back", "Local rules govern"):
                assert word in said, f"{sheet.key}: {word}"


def test_the_slab_stands_beside_what_it_is_held_against(sheets: Pack) -> None:
    (table,) = (
        block
        for sheet in sheets.sheets
        if sheet.key == "slab"
        for block in flat(sheet.blocks)
        if isinstance(block, Table) and block.heading.startswith("The slab")
    )
    said = {row[0]: row[1:] for row in table.rows}
    assert said["6 panels"] == ("up to 9'-0\" long", "8'-0\" to 12'-0\"")
    assert said["Long side by short side"] == ("up to 1.13", "1.5 at the most, 1.25 better")
    assert said["Depth of joints"][1] == '1" or more'
    assert said["Score lines"][1].startswith("decoration only")


def test_a_slab_that_misses_its_joints_says_so_in_the_title() -> None:
    text = EXAMPLE.read_text(encoding="utf-8").replace('border_ends = "24in"', 'border_ends = "12in"')
    job = load_text(text).job
    assert job is not None
    titles = {sheet.key: sheet.title for sheet in pack(floorwright.solve(job)).sheets}
    assert titles["slab"] == "2 joints have no line on them all the way."


@pytest.mark.parametrize("length", ["24in", "10in"])
def test_cells_that_a_joint_covers_have_no_letter(length: str) -> None:
    """Dots between octagons that the joints run through are smaller than a letter and what is kept clear of them."""
    text = EXAMPLE.read_text(encoding="utf-8").replace('pattern = "grid"', 'pattern = "octagon and dot"')
    job = load_text(text.replace('length = "24in"', f'length = "{length}"')).job
    assert job is not None
    solution = floorwright.solve(job)
    assert [sheet.key for sheet in pack(solution).sheets][-1] == "stain"
    # Sizes that follow are printed to the graduation, never in the other system.
    assert " mm" not in " ".join(decided(solution))


def test_the_plan_shows_every_cut_every_stop_and_every_joint(solution: Solution, sheets: Pack) -> None:
    (view,) = (
        block
        for sheet in sheets.sheets
        if sheet.key == "scoring"
        for block in flat(sheet.blocks)
        if isinstance(block, View)
    )
    lines = [item for item in view.items if isinstance(item, Line)]
    scored = solution.scored
    assert scored is not None
    count = {pen: sum(line.pen is pen for line in lines) for pen in (Pen.SCORE, Pen.SLAB_JOINT, Pen.SAWN)}
    cuts = sum(not part.there for line in scored.lines for part in line.parts)
    assert count == {Pen.SCORE: cuts, Pen.SLAB_JOINT: 3, Pen.SAWN: scored.stops}


def test_the_drawing_has_the_lines_on_layers_of_their_own(sheets: Pack) -> None:
    document = ezdxf.read(io.StringIO(dxf_files(sheets)["floor.dxf"].decode("utf-8")))
    model = document.modelspace()
    length = sum((line.dxf.end - line.dxf.start).magnitude for line in model.query('LINE[layer=="SCORE LINES"]'))
    assert length / 12 == pytest.approx(254.5, abs=0.05)
    joints = sum((line.dxf.end - line.dxf.start).magnitude for line in model.query('LINE[layer=="SLAB JOINTS"]'))
    assert joints / 12 == pytest.approx(18 + 18 + 24)
    assert [arc.dxf.radius for arc in model.query('ARC[layer=="SCORE LINES"]')] == pytest.approx([54.0, 54.0])


def test_pictures_and_lists_are_made(sheets: Pack) -> None:
    assert {"scoring.svg", "stain.svg"} <= set(svg_files(sheets))
    lists = csv_files(sheets)
    rows = lists["score-lines.csv"].decode("utf-8").splitlines()
    assert rows[0] == "Cut,Line,What,Running,Length,Do not cut past"
    assert rows[6] == '6,R3,score,"5\'-0""","2 × 7\'-11 1/4""","C1, the circle, C11"'
    assert len(rows) == 18
    assert "254.5 ft" in lists["saws.csv"].decode("utf-8")


def test_data_holds_every_line(solution: Solution) -> None:
    data = layout_data(solution)["scoring"]
    lines = {line["name"]: line for line in data["lines"]}
    assert len(lines) == 20
    assert lines["C4"]["kind"] == "joint"
    assert lines["C4"]["there"] is True
    assert lines["C4"]["length_mm"] == 0.0
    assert lines["C6"]["kind"] == "score"
    assert lines["C6"]["length_mm"] == pytest.approx(7 * 304.8, abs=0.5)
    assert [stop["on"] for stop in lines["C6"]["stops"]] == ["R1", "the circle", "the circle", "R9"]
    assert data["straight_mm"] == pytest.approx(sum(line["length_mm"] for line in data["lines"]), abs=0.01)
    assert data["total_mm"] == pytest.approx(data["straight_mm"] + data["round_mm"], abs=0.01)
    assert data["search"]["landings"][2]["sides_mm"] == [304.8, 914.4]
    saws = takeoff_data(solution)["scoring"]["saws"]
    assert [(one["cuts"], one["count"]) for one in saws] == [("straight", 17), ("circle", 1), ("stop", 48)]
