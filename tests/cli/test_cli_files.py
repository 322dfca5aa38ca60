"""What commands write, and what they leave alone."""

import json
from pathlib import Path

import pytest
from tests.cli.conftest import Run

from floorwright import load

KITCHEN = "larch-row-kitchen.toml"


@pytest.mark.parametrize("units", [(), ("--imperial",)], ids=["metric", "imperial"])
def test_a_new_job_is_checked_and_packed_as_it_is(units: tuple[str, ...], run: Run) -> None:
    ended = run("new", "kitchen", *units)
    assert (ended.code, ended.err) == (0, "")
    assert "floorwright check kitchen.toml" in ended.out
    assert run("check", "kitchen.toml").code == 0
    packed = run("pack", "kitchen.toml")
    assert packed.code == 0
    assert "Sheets: kitchen/pack.pdf" in packed.out.replace("\\", "/")
    assert Path("kitchen/pack.pdf").read_bytes().startswith(b"%PDF")


def test_new_leaves_a_file_that_is_there(run: Run) -> None:
    Path("kitchen.toml").write_text("mine", encoding="utf-8")
    ended = run("new", "kitchen.toml")
    assert ended.code == 2
    assert ended.err == "floorwright: kitchen.toml is there already and stays as it is. Give another name.\n"
    assert Path("kitchen.toml").read_text(encoding="utf-8") == "mine"


def test_new_makes_the_folders_and_names_the_file_as_data(run: Run) -> None:
    data = json.loads(run("new", "larch/row/kitchen.toml", "--json").out)
    assert data["files"] == [str(Path("larch/row/kitchen.toml"))]
    assert load("larch/row/kitchen.toml").is_sound


def test_demo_says_in_ten_lines_what_was_decided_and_where_the_sheets_are(run: Run) -> None:
    ended = run("demo")
    assert ended.code == 0
    decided, _, where = ended.out.partition("Job: ")
    assert 5 <= len(decided.splitlines()) <= 10
    assert where.startswith(str(Path("floorwright-demo") / KITCHEN))
    assert f"Sheets: {Path('floorwright-demo') / 'pack.pdf'}" in where
    assert load(Path("floorwright-demo") / KITCHEN).is_sound


def test_demo_again_writes_the_same_bytes(run: Run) -> None:
    run("demo", "d")
    before = {path.name: path.read_bytes() for path in Path("d").iterdir()}
    assert run("demo", "d").code == 0
    assert {path.name: path.read_bytes() for path in Path("d").iterdir()} == before


def test_demo_keeps_an_edited_job_names_it_and_packs_it(run: Run) -> None:
    run("demo", "d")
    job = Path("d") / KITCHEN
    edited = job.read_text(encoding="utf-8").replace("spares = 4", "spares = 11")
    job.write_text(edited, encoding="utf-8")
    ended = run("demo", "d")
    assert ended.code == 0
    assert f"Left alone, since it was edited or is not ours: {job}" in ended.err
    assert job.read_text(encoding="utf-8") == edited
    assert "11 spares among them" in ended.out


def test_demo_with_a_broken_job_of_ones_own_says_what_is_wrong(run: Run) -> None:
    Path("d").mkdir()
    (Path("d") / KITCHEN).write_text("schema =", encoding="utf-8")
    ended = run("demo", "d")
    assert ended.code == 1
    assert "job-syntax" in ended.err
    assert not (Path("d") / "pack.pdf").exists()


def test_pack_leaves_what_was_edited_and_names_it(run: Run) -> None:
    run("new", "kitchen.toml")
    run("pack", "kitchen.toml")
    drawing = Path("kitchen/floor.dxf")
    drawing.write_bytes(b"drawn on")
    ended = run("pack", "kitchen.toml")
    assert ended.code == 0
    assert f"Left alone, since it was edited or is not ours: {drawing}" in ended.err
    assert drawing.read_bytes() == b"drawn on"
    assert json.loads(run("pack", "kitchen.toml", "--json").out)["kept"] == [str(drawing)]


def test_pack_of_a_file_without_an_ending_goes_beside_it(run: Run) -> None:
    run("new", "kitchen.toml")
    Path("kitchen.toml").rename("kitchen")
    assert run("pack", "kitchen").code == 0
    assert Path("kitchen-pack/pack.pdf").exists()


def test_a_pack_that_cannot_be_laid_is_still_written_and_ends_with_1(run: Run) -> None:
    run("new", "kitchen.toml")
    job = Path("kitchen.toml")
    text = job.read_text(encoding="utf-8")
    assert "offset = 540" in text
    job.write_text(text.replace("offset = 540", "offset = 5400"), encoding="utf-8")
    ended = run("pack", "kitchen.toml")
    assert ended.code == 1
    assert "1 thing to put right: see the first page, or `floorwright check`." in ended.err
    assert Path("kitchen/pack.pdf").exists()


def test_a_blank_booking_is_printed_and_written(run: Run) -> None:
    ended = run("survey", "--plan", 5, "-o", "sheets/booking.pdf")
    assert ended.code == 0
    assert ended.err == f"Sheet: {Path('sheets/booking.pdf')}\n"
    assert Path("sheets/booking.pdf").read_bytes().startswith(b"%PDF")
    for wall in ("A-B", "B-C", "C-D", "D-E", "E-A"):
        assert f"\n{wall} " in ended.out
    assert "You read" not in ended.out
    assert "mm" in ended.out


def test_a_blank_booking_in_feet_says_so(run: Run) -> None:
    out = run("survey", "--plan", 4, "--imperial").out
    assert "US metal" in out
    assert "12'-0\"" in out
    assert " mm" not in out


def test_a_blank_booking_takes_no_diagonal_across_an_inward_corner(run: Run) -> None:
    data = json.loads(run("survey", "--plan", 6, "--inward", "D", "--json").out)
    assert [one["key"] for one in data["readings"][:6]] == ["A-B", "B-C", "C-D", "D-E", "E-F", "F-A"]
    assert {one["why"] for one in data["readings"][:6]} == {"wall"}
    assert "C-E" not in [one["key"] for one in data["readings"]]
    assert data["sd_corner_mm"] > 0
    assert data["files"] == []


def test_a_booking_leaves_a_file_that_is_there_unless_it_is_its_own(run: Run) -> None:
    assert run("survey", "--plan", 4, "-o", "b.pdf").code == 0
    assert run("survey", "--plan", 4, "-o", "b.pdf").code == 0
    before = Path("b.pdf").read_bytes()
    ended = run("survey", "--plan", 6, "-o", "b.pdf")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == "floorwright: b.pdf is there already and stays as it is. Give another name.\n"
    assert Path("b.pdf").read_bytes() == before
