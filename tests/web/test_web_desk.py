"""What is saved stays saved, whatever happens to the app."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.job.write.edit import Edit
from floorwright.web.book import BOOK_NAME, LONGEST_LINE, Book
from floorwright.web.desk import ELSEWHERE, Desk, NothingThereError
from floorwright.web.shelf import Shelf, is_name

STORM = """
import sys
from pathlib import Path
from floorwright.job.write.edit import Edit
from floorwright.web.book import Book
from floorwright.web.desk import Desk
from floorwright.web.shelf import Shelf

folder = Path(sys.argv[1])
desk = Desk(Shelf(folder), Book(folder))
job = desk.start("hall", "# kept\\ncount = 0\\n", "started")
for number in range(1, 100000):
    edit = Edit(do="put", path=("count",), value=number)
    job = desk.edit("hall", job.kept.digest, f"count {number}", [edit])
    print(number, flush=True)
"""


def desk_in(folder: Path) -> Desk:
    return Desk(Shelf(folder), Book(folder))


def count(text: str) -> int:
    return int(text.split("count = ")[1].split()[0])


@pytest.mark.parametrize("after", [5, 23, 60])
def test_killed_in_a_storm_of_edits_nothing_saved_is_lost(tmp_path: Path, after: int) -> None:
    with subprocess.Popen([sys.executable, "-c", STORM, str(tmp_path)], stdout=subprocess.PIPE, text=True) as storm:
        assert storm.stdout is not None
        for line in storm.stdout:
            if int(line) >= after:
                break
        time.sleep(0.003)
        os.kill(storm.pid, signal.SIGKILL)
        told = max([int(line) for line in storm.stdout.read().split("\n")[:-1] if line], default=after)
    desk = desk_in(tmp_path)
    job = desk.open("hall")
    assert job.kept.text.startswith("# kept\n")
    assert count(job.kept.text) in {told, told + 1}
    # An edit that reached the book alone is one to do again, and all before it can be undone.
    for number in range(count(job.kept.text) - 1, -1, -1):
        assert count(desk.undo("hall").kept.text) == number
    with pytest.raises(NothingThereError):
        desk.undo("hall")
    assert sorted(path.name for path in tmp_path.iterdir() if path.suffix == ".toml") == ["hall.toml"]


def test_a_crash_between_the_book_and_the_file_leaves_the_edit_to_do_again(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    job = desk.start("hall", "count = 0\n", "started")
    Book(tmp_path).add("hall", "count = 1\n", "0" * 64, "count 1")
    found = desk_in(tmp_path).open("hall")
    assert found.kept == job.kept
    assert (found.line.undo, found.line.redo) == (None, "count 1")


def test_a_damaged_book_is_put_aside_and_no_job_is_lost(tmp_path: Path) -> None:
    desk_in(tmp_path).start("hall", "count = 0\n", "started")
    for path in tmp_path.glob(f"{BOOK_NAME}-*"):
        path.unlink()
    (tmp_path / BOOK_NAME).write_bytes(b"this is no book" * 1000)
    assert desk_in(tmp_path).open("hall").kept.text == "count = 0\n"


def test_old_revisions_go_and_the_rest_can_be_undone(tmp_path: Path) -> None:
    book = Book(tmp_path)
    for number in range(LONGEST_LINE + 20):
        book.add("hall", f"count = {number}\n", str(number), f"count {number}")
    assert book.beside("hall", -(LONGEST_LINE - 1)) is not None
    assert book.beside("hall", -LONGEST_LINE) is None


def test_a_file_written_by_somebody_else_joins_the_history(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    desk.start("hall", "count = 0\n", "started")
    (tmp_path / "hall.toml").write_text("count = 7\n", encoding="utf-8")
    assert desk.open("hall").line.undo == ELSEWHERE
    assert desk.undo("hall").kept.text == "count = 0\n"
    assert desk.redo("hall").kept.text == "count = 7\n"


steps = st.lists(st.one_of(st.just("undo"), st.just("redo"), st.integers(0, 99)), max_size=25)


@given(steps)
def test_undo_and_redo_walk_the_edits_as_a_list_would(steps: list[str | int]) -> None:
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        desk = desk_in(Path(folder))
        job = desk.start("hall", "count = 1000\n", "started")
        line, at = [1000], 0
        for step in steps:
            if isinstance(step, int):
                edit = Edit(do="put", path=("count",), value=step)
                job = desk.edit("hall", job.kept.digest, "count", [edit])
                if step != line[at]:
                    line, at = [*line[: at + 1], step], at + 1
            elif 0 <= at + (1 if step == "redo" else -1) < len(line):
                job = desk.redo("hall") if step == "redo" else desk.undo("hall")
                at += 1 if step == "redo" else -1
            assert count(job.kept.text) == line[at]
            assert (job.line.undo is not None, job.line.redo is not None) == (at > 0, at < len(line) - 1)


@pytest.mark.parametrize("name", ["Larch Row", "plot 7 (rev. B)", "Küche", "1", "a.b"])
def test_names_that_a_job_can_have(name: str) -> None:
    assert is_name(name)


@pytest.mark.parametrize(
    "name", ["", ".", "..", "/", "a/b", "a\\b", "-x", " a", "a ", "a.", "con", "NUL.x", "a\n", "x" * 81]
)
def test_names_that_no_job_can_have(name: str) -> None:
    assert not is_name(name)
