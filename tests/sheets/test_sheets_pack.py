"""The pack as data: what stands on which sheet, in whose words, and whether it can be printed."""

import io
import math
from collections.abc import Callable, Iterator
from dataclasses import replace

import pdfplumber
import pytest
import shapely

from floorwright.draw.lettering import missing, text_width
from floorwright.draw.paper import body_space, title_height
from floorwright.draw.sheet import Beside, Blanks, Columns, Pack, Prose, Sheet, Steps, Table, flat
from floorwright.draw.style import CAP_HEIGHT, Pen
from floorwright.draw.view import CHECK_BAR_LENGTH, Cross, Curve, Dimension, Line, Running, Text, View
from floorwright.export.annotate import Words, cross, words
from floorwright.export.pdf import pack_pdf
from floorwright.job.solution import Solution
from floorwright.sheets.cuts import CAUTION
from floorwright.sheets.decided import decided
from floorwright.sheets.figures import Figures
from floorwright.sheets.layout import NO_MOVEMENT_JOINTS
from floorwright.sheets.order import ONE_EACH
from floorwright.sheets.pack import pack, units_text
from floorwright.sheets.snap import STRAIGHT
from floorwright.units import IMPERIAL, METRIC, typeset

KEYS = [
    "first",
    "room",
    "control",
    "steps",
    "layout",
    "options",
    "aims",
    "compared",
    "snap",
    "grid",
    "courses",
    "cuts",
    "order",
    "client",
]


def views(sheet: Sheet) -> list[View]:
    return [block for block in flat(sheet.blocks) if isinstance(block, View)]


def tables(sheet: Sheet) -> list[Table]:
    return [block for block in flat(sheet.blocks) if isinstance(block, Table)]


def texts(sheet: Sheet) -> Iterator[str]:
    yield sheet.title
    for block in flat(sheet.blocks):
        match block:
            case View():
                yield block.described
                for item in block.items:
                    if isinstance(item, Text | Dimension):
                        yield item.text
                    elif isinstance(item, Cross):
                        yield item.label
                    elif isinstance(item, Running):
                        yield from (figure for _, figure in item.marks)
            case Table():
                yield block.heading
                for column in block.columns:
                    yield from (column.heading, column.unit)
                for row in block.rows:
                    yield from row
            case Prose() | Steps():
                yield from (block.heading, *block.lines)
            case Blanks():
                yield from (block.heading, *block.labels)
            case Beside() | Columns():
                raise AssertionError("flattened before")


def sheet(made: Pack, key: str) -> Sheet:
    (found,) = [one for one in made.sheets if one.key == key]
    return found


def test_the_sheets_stand_in_the_order_in_which_they_are_used(solution: Solution) -> None:
    assert [one.key for one in pack(solution).sheets if one.key != "ways"] == KEYS


def test_every_title_is_a_sentence(solution: Solution) -> None:
    for one in pack(solution).sheets:
        assert one.title[0].isupper()
        assert one.title.endswith(".")
        assert "  " not in one.title


def test_every_character_is_in_the_font(solution: Solution) -> None:
    for one in pack(solution).sheets:
        for text in texts(one):
            assert not missing(text), (one.key, text)


def test_rows_have_as_many_cells_as_columns(solution: Solution) -> None:
    for one in pack(solution).sheets:
        for table in tables(one):
            assert {len(row) for row in table.rows} <= {len(table.columns)}, (one.key, table.heading)


def test_the_same_job_gives_the_same_pack(solution: Solution) -> None:
    once, again = pack(solution), pack(solution)
    # The site copy holds arrays, and is compared as it is written: tests/export/test_export_html.py.
    assert replace(once, site=None) == replace(again, site=None)


def test_the_pack_is_printed(solution: Solution) -> None:
    assert pack_pdf(pack(solution)).startswith(b"%PDF")


def test_drawings_fit_their_paper_with_a_bar_to_check_the_scale(solution: Solution) -> None:
    made = pack(solution)
    imperial = solution.style.system == "imperial"
    for one in made.sheets:
        width, height = body_space(made.paper, one.landscape)
        height -= title_height(one.title, width)
        for view in views(one):
            across, up = view.picture_size(imperial)
            assert across <= width + 1e-6, (one.key, view.name)
            assert up <= height + 1e-6, (one.key, view.name)
            if one.key in ("first", "courses", "cuts", "compared"):
                assert not view.check_bar
                continue
            bars = [
                math.dist(*item.points) / view.scale
                for item in view.aside
                if isinstance(item, Line) and item.pen is Pen.MARK and len(item.points) == 2
            ]
            assert view.check_bar or max(bars) == pytest.approx(CHECK_BAR_LENGTH[imperial]), (one.key, view.name)


def test_every_cut_piece_is_numbered_once_on_the_layout_and_listed_once(solution: Solution) -> None:
    made = pack(solution)
    labels = [piece.label for piece in solution.cuts[0].pieces]
    assert labels == [str(n + 1) for n in range(len(labels))]
    (plan,) = views(sheet(made, "layout"))
    drawn = [item.text for item in plan.items if isinstance(item, Text) and item.text.isdigit()]
    assert sorted(drawn, key=int) == labels
    listed = [number for table in tables(sheet(made, "cuts")) for row in table.rows for number in numbers(row[0])]
    assert sorted(listed) == [int(label) for label in labels]
    ((name, cut_list),) = sheet(made, "cuts").lists
    assert name == "cut-list"
    assert sorted((row[0] for row in cut_list.rows), key=int) == labels


def numbers(text: str) -> list[int]:
    """The numbers of pieces that a cell such as `1, 3–5` stands for."""
    found: list[int] = []
    for part in text.split(", "):
        first, _, last = part.partition("–")
        found += range(int(first), int(last or first) + 1)
    return found


def test_the_cut_list_prints_the_marks(solution: Solution) -> None:
    figures = Figures(style=solution.style)
    pieces = {piece.label: piece for piece in solution.cuts[0].pieces}
    shown = 0
    for table in tables(sheet(pack(solution), "cuts")):
        headings = [column.heading for column in table.columns]
        keeps = [n for n, heading in enumerate(headings) if heading in ("keep", "and") or heading.startswith("at ")]
        for row in table.rows:
            for piece in (pieces[str(number)] for number in numbers(row[0])):
                if piece.kind != "straight":
                    continue
                (saw,) = piece.saws
                assert [row[n] for n in keeps] == [figures.cut(mark.distance) for mark in saw.marks]
                assert figures.cut(piece.thin) in [row[n] for n in keeps]
                shown += 1
    assert shown > 10


def test_every_cut_that_two_figures_do_not_tell_is_pictured(solution: Solution) -> None:
    made = sheet(pack(solution), "cuts")
    shown = {item.text for view in views(made) for item in view.items if isinstance(item, Text)}
    for piece in solution.cuts[0].pieces:
        if piece.kind not in ("straight", "angled") and piece.same_as == piece.label:
            assert f"No. {piece.label}" in shown


def test_the_layout_prints_the_cut_at_both_ends_of_every_wall(solution: Solution) -> None:
    figures = Figures(style=solution.style)
    (table,) = [one for one in tables(sheet(pack(solution), "layout")) if one.heading == "Cut along each wall"]
    walls = solution.layouts[0].chosen.walls
    assert walls
    for row, wall in zip(table.rows, walls, strict=True):
        assert row[:3] == (wall.wall, figures.cut(wall.start), figures.cut(wall.end))


def test_options_and_refusals_are_all_told(kitchen: Solution) -> None:
    options = kitchen.layouts[0].options
    laid = [option for option in options if not option.refused]
    made = sheet(pack(kitchen), "options")
    ranked, refused = tables(made)
    assert made.title == f"These {len(laid)} positions can be laid, best first."
    # The best stand on the page, all of them in the list.
    assert ranked.heading == ("" if len(ranked.rows) == len(laid) else f"{len(ranked.rows)} of {len(laid)}")
    assert ranked.rows[0][1].endswith("(chosen)")
    assert ranked.rows[0][2] == "4"  # S2: all joints opened to 4
    assert len(refused.rows) == len(options) - len(laid) > 0
    assert any("452" in why and "2 over" in why for _, why in refused.rows)  # S2: the fat end that no tile fills
    ((_, every),) = made.lists
    assert len(every.rows) == len(options)


def test_the_snap_list_prints_every_line_from_one_nail_control_lines_first(solution: Solution) -> None:
    assert solution.snap is not None
    made = sheet(pack(solution), "snap")
    lines = solution.snap.lines
    nail = f"from the nail at {solution.snap.zero}"
    assert made.title == f"Snap 4 control lines and {len(lines) - 4} joints, {nail}."
    (table,) = tables(made)
    figures = Figures(style=solution.style)
    assert [row[0] for row in table.rows[:4]] == ["first", "square", "45 left", "45 right"]
    assert [row[1] for row in table.rows if row[1]] == [
        figures.room(line.running) for line in lines if not line.name.startswith("45")
    ]
    assert [row[3] for row in table.rows] == [figures.room(line.marks[0].distance) for line in lines]
    assert len({row[0] for row in table.rows}) == len(lines)
    (view,) = views(made)
    assert {"first line", "square line", "45 left", "45 right"} <= {
        item.text for item in view.items if isinstance(item, Text)
    }


def test_a_straight_floor_says_what_the_45s_are_for(
    solve_text: Callable[[str], Solution], kitchen: Solution, kitchen_text: str
) -> None:
    assert STRAIGHT in set(texts(sheet(pack(kitchen), "snap")))
    turned = solve_text(kitchen_text.replace('pattern = "grid"', 'pattern = "grid"\nangle = 45'))
    assert turned.layouts[0].chosen.placement.angle != kitchen.layouts[0].chosen.placement.angle
    assert STRAIGHT not in set(texts(sheet(pack(turned), "snap")))


def test_s1_snaps_seventeen_lines(bath: Solution) -> None:
    # Scenario S1: 7 lines and 10
    (table,) = tables(sheet(pack(bath), "snap"))
    assert len(table.rows) == 4 + 17
    ran = {row[1] for row in table.rows}
    assert {typeset('7 5/16"'), typeset('7 3/4"'), typeset("6'-7 3/4\""), typeset("9'-7 5/16\"")} <= ran


def test_arcs_are_short_as_they_are_struck(solution: Solution) -> None:
    (view,) = views(sheet(pack(solution), "control"))
    arcs = [item for item in view.items if isinstance(item, Curve)]
    assert arcs
    for arc in arcs:
        assert arc.radius * (arc.end - arc.start) / view.scale <= 10.0
        assert arc.pen is Pen.ARC


def test_a_mark_in_an_opening_says_how_it_is_made(kitchen: Solution) -> None:
    said = " ".join(texts(sheet(pack(kitchen), "control")))
    assert "Lay a straightedge across the opening" in said


def test_marks_on_walls_are_running_distances_from_named_corners(solution: Solution) -> None:
    assert solution.control is not None
    figures = Figures(style=solution.style)
    marks = [mark for line in solution.control.lines for mark in line.marks]
    table = next(one for one in tables(sheet(pack(solution), "control")) if one.heading == "Marks on the walls")
    assert list(table.rows) == [
        (mark.name, f"{mark.on}, from {mark.start}", figures.room(mark.distance)) for mark in marks
    ]


def test_every_chosen_step_is_told_and_every_check_has_a_blank(solution: Solution) -> None:
    assert solution.control is not None
    figures = Figures(style=solution.style)
    made = sheet(pack(solution), "steps")
    steps = [block for block in flat(made.blocks) if isinstance(block, Steps)]
    said = " ".join(line for block in steps for line in block.lines)
    for construction in solution.control.constructions:
        if construction.chosen:
            for step in construction.steps:
                assert step.end.replace("centre", "the centre") in said
    for block in steps:
        for line, figure in zip(block.lines, block.figures, strict=True):
            assert figure in line
    proofs = [one for one in tables(made) if one.columns[-1].heading == "You read"]
    rows = [row for table in proofs for row in table.rows]
    assert sorted(row[1] for row in rows) == sorted(figures.room(check.expected) for check in solution.control.checks)
    assert {row[-1] for row in rows} == {""}


def test_points_out_on_lines_are_told_by_line_and_side(kitchen: Solution) -> None:
    made = sheet(pack(kitchen), "steps")
    said = [line for block in flat(made.blocks) if isinstance(block, Steps) for line in block.lines]
    assert "On the first line mark F1 and F2, one each side, 1400 mm from the centre." in said
    assert "Compass at 2000 mm, from F1 and F2: cross arcs at X1, towards wall N." in said
    both = "On the first line mark E1 and E3 and on the square line mark E2 and E4, one each side,"
    assert f"{both} 1700 mm from the centre." in said


def test_check_readings_print_at_the_jobs_graduation(kitchen: Solution) -> None:
    # The four chords are 1700 times the root of 2, 2404.2: no tape in this job reads tenths.
    rows = {row[0]: row for table in tables(sheet(pack(kitchen), "steps")) for row in table.rows}
    assert rows["E1 to E2"][1] == "2404"
    assert all(float(row[2]) % 0.5 == 0.0 for row in rows.values())
    assert rows["E 2000 to N 1500"][1] == "2500"


def test_cautions_and_what_is_left_out_are_said_where_they_matter(solution: Solution) -> None:
    made = pack(solution)
    assert set(CAUTION) <= set(texts(sheet(made, "cuts")))
    assert NO_MOVEMENT_JOINTS in set(texts(sheet(made, "layout")))
    assert ONE_EACH in set(texts(sheet(made, "order")))


def test_the_order_is_printed_with_its_sums(bath: Solution) -> None:
    made = sheet(pack(bath), "order")
    assert made.title == "Order 10 boxes: 88 tiles to lay and 4 for attic stock."
    (table,) = tables(made)
    rows = {row[0]: row for row in table.rows}
    assert rows["To lay"][1:] == ("88", "tiles", "54 full + 34 cut, one cut piece from each tile.")


def test_uk_and_us_words(kitchen: Solution, bath: Solution) -> None:
    uk = " ".join(text for one in pack(kitchen).sheets for text in texts(one)).lower()
    us = " ".join(text for one in pack(bath).sheets for text in texts(one)).lower()
    assert "attic stock" in us
    assert "expansion gap" in us
    assert "grout joint" in us
    assert "straight lay" in us
    assert "spares" not in us
    assert "attic" not in uk
    assert "expansion gap" not in uk
    assert "4 spares" in uk


def test_units_are_said_once(kitchen: Solution, bath: Solution) -> None:
    assert units_text(METRIC) == "mm, to 0.5"
    assert units_text(IMPERIAL) == "feet and inches, to ¹⁄₁₆"
    for one in (kitchen, bath):
        headed = {column.unit for made in pack(one).sheets for table in tables(made) for column in table.columns}
        assert headed <= ({"", "mm"} if one is kitchen else {""})


def test_the_client_signs_what_cannot_be_argued_about(kitchen: Solution) -> None:
    made = sheet(pack(kitchen), "client")
    said = set(texts(made))
    assert made.title == "This is the floor that we agree, revision A."
    assert {"Grid, straight to wall S.", "Joints 4 mm wide.", "No border.", "Client", "Set out by"} <= said


def test_a_suspect_or_an_honest_tie_stands_on_the_room_sheet(
    solve_text: Callable[[str], Solution], kitchen: Solution, kitchen_text: str
) -> None:
    assert sheet(pack(kitchen), "room").title == "The room as measured: the readings agree."
    wrong = solve_text(kitchen_text.replace("SE-NW = 5541", "SE-NW = 5561"))
    made = sheet(pack(wrong), "room")
    assert made.title != "The room as measured: the readings agree."
    survey = [finding for finding in wrong.survey.findings if finding.code == "survey-cannot-tell"]
    assert survey
    assert any("does not fit: take it again" in row for table in tables(made) for row in table.rows)


def test_without_a_room_the_pack_says_what_to_measure(solve_text: Callable[[str], Solution]) -> None:
    bare = solve_text('schema = 1\ntitle = "Barn"\ndate = 2026-01-05\n[survey]\noutline = ["A", "B", "C", "D"]\n')
    made = pack(bare)
    assert [one.key for one in made.sheets] == ["first", "room"]
    assert made.sheets[0].title == "Barn: something must be put right first."
    assert pack_pdf(made).startswith(b"%PDF")


def boxes(view: View) -> list[tuple[str, shapely.Polygon]]:
    """Every text of a view as the rectangle that its capitals take on paper."""
    set_texts = [words(view, item) for item in view.items if isinstance(item, Text)]
    for item in view.items:
        if isinstance(item, Cross):
            set_texts += [part for part in cross(view, item) if isinstance(part, Words)]
    found = []
    for one in set_texts:
        wide, high = text_width(one.text, one.size), CAP_HEIGHT[one.size]
        left = {"middle": -wide / 2, "start": 0.0, "end": -wide}[one.anchor]
        cos, sin = math.cos(one.angle), math.sin(one.angle)
        corners = [(left, -high / 2), (left + wide, -high / 2), (left + wide, high / 2), (left, high / 2)]
        ring = [(one.at[0] + x * cos - y * sin, one.at[1] + x * sin + y * cos) for x, y in corners]
        found.append((one.text, shapely.Polygon(ring)))
    return found


@pytest.mark.parametrize("key", ["first", "room", "control", "layout", "snap", "client"])
def test_no_text_stands_on_another(solution: Solution, key: str) -> None:
    for view in views(sheet(pack(solution), key)):
        placed = boxes(view)
        tree = shapely.STRtree([box for _, box in placed])
        for n, (text, box) in enumerate(placed):
            for other in tree.query(box):
                if other > n:
                    shared = float(shapely.area(shapely.intersection(box, placed[int(other)][1])))
                    assert shared < 0.05, (view.name, text, placed[int(other)][0])


def test_a_bay_without_goods_has_the_sheets_to_practise_on(bay: Solution) -> None:
    # Scenario S6
    made = pack(bay)
    assert [one.key for one in made.sheets] == KEYS[:4]
    for key in KEYS[:4]:
        test_no_text_stands_on_another(bay, key)


@pytest.mark.parametrize("key", ["first", "room", "control", "layout", "snap", "client"])
def test_every_text_stands_inside_its_drawing(solution: Solution, key: str) -> None:
    for view in views(sheet(pack(solution), key)):
        edge = shapely.box(0.0, 0.0, view.width, view.height)
        for text, box in boxes(view):
            assert shapely.covers(shapely.buffer(edge, 0.2), box), (view.name, text)


def test_what_was_decided_is_told_in_about_ten_plain_lines(solution: Solution) -> None:
    lines = decided(solution)
    assert 6 <= len(lines) <= 10
    assert all(line.endswith(".") for line in lines)
    assert set(lines) <= set(texts(pack(solution).sheets[0]))


def test_an_own_choice_is_shown_among_the_best_and_recorded_for_the_client(
    solve_text: Callable[[str], Solution], kitchen_text: str
) -> None:
    own = solve_text(kitchen_text.replace("[aims]", '[aims]\noption = "full tile at W, balanced along"'))
    ranked, *_ = tables(sheet(pack(own), "options"))
    assert [row[1] for row in ranked.rows if "chosen" in row[1]] == ["Full tile at W, balanced along (chosen)"]
    assert [row[0] for row in ranked.rows] == sorted(row[0] for row in ranked.rows)
    said = " ".join(texts(sheet(pack(own), "client")))
    assert "yours: full tile at W" in said
    assert "under the limit" in said


def test_the_clients_page_is_one_page(solution: Solution) -> None:
    made = pack(solution)
    alone = replace(made, sheets=(sheet(made, "client"),))
    with pdfplumber.open(io.BytesIO(pack_pdf(alone))) as printed:
        assert len(printed.pages) == 1


def test_packs_hold_to_few_pages(kitchen: Solution, bath: Solution) -> None:
    for one in (kitchen, bath):
        with pdfplumber.open(io.BytesIO(pack_pdf(pack(one)))) as printed:
            assert len(printed.pages) == len(KEYS) + (one is kitchen)


def test_ways_out_have_a_sheet_where_a_wall_is_in_the_way(kitchen: Solution, bath: Solution) -> None:
    made = sheet(pack(kitchen), "ways")
    assert made.title == "What else could be done about wall N."
    told = " ".join(cell for table in tables(made) for row in table.rows for cell in row)
    assert "Open the joints by 1 mm, to 4 mm, 3.711 mm is the least (chosen)" in told
    assert "would need a gap of up to 7.5 mm" in told
    assert all(one.key != "ways" for one in pack(bath).sheets)


def test_the_lists_for_other_programs_are_named_by_what_they_hold(solution: Solution) -> None:
    names = [name for one in pack(solution).sheets for name, _ in one.lists]
    names = [name for name in names if name not in {"ways-out", "grid"}]
    wanted = [
        "readings",
        "marks",
        "coordinates",
        "checks",
        "options",
        "first-lines",
        "snap-list",
        "courses",
        "cut-list",
        "order",
    ]
    assert names == wanted
    for one in pack(solution).sheets:
        for _, table in one.lists:
            assert table.rows
            assert {len(row) for row in table.rows} == {len(table.columns)}


def test_a_bond_has_courses_and_no_rows(crooked: Solution, kitchen: Solution) -> None:
    for solution, kinds in ((crooked, {"course", "line across"}), (kitchen, {"row", "column"})):
        ((_, every),) = sheet(pack(solution), "courses").lists
        assert {row[0].split(",")[0].rstrip(" 0123456789") for row in every.rows} == kinds
