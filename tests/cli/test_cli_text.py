"""Text for terminals: aligned, no wider than there is room, in the characters that there are."""

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.cli.conftest import EXAMPLES, Run

from floorwright.cli import progress
from floorwright.cli.blocks import blocks_text
from floorwright.cli.say import readable
from floorwright.cli.text import findings_text, paragraph, plain, table, width
from floorwright.draw.sheet import Beside, Blanks, Column, Columns, Prose, Steps, Table
from floorwright.draw.view import View

PICTURE = View(name="v", described="a picture", scale=1.0, window=(0.0, 0.0, 1.0, 1.0), items=())


def test_a_table_lines_up_words_at_the_left_and_figures_at_the_right() -> None:
    assert table(("Wall", "mm"), [("S", "4200"), ("north", "7.5")]).splitlines() == [
        "Wall     mm",
        "S      4200",
        "north   7.5",
    ]


def test_a_table_that_is_too_wide_wraps_its_words_and_no_figure(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "60")
    words = "from the corner behind the door to the corner by the window, along the wall"
    lines = table(("Between", "Must read"), [(words, "2500.5"), ("A", "1")]).splitlines()
    assert all(len(line) <= 60 for line in lines)
    assert lines[1].endswith("2500.5")
    assert " ".join(" ".join(lines[1:-1]).replace("2500.5", "").split()) == words
    assert lines[-1].split() == ["A", "1"]


@given(st.integers(1, 400))
def test_the_width_stays_readable_whatever_the_terminal_says(columns: int) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("COLUMNS", str(columns))
        assert 60 <= width() <= 120
        assert all(len(line) <= width() for line in paragraph("word " * 200, "    ").splitlines())


@pytest.mark.parametrize(
    ("typeset", "typed"),
    [
        ("7\N{NO-BREAK SPACE}¹¹⁄₁₆″", "7 11/16″"),
        ("\N{MINUS SIGN}3 mm", "-3 mm"),
        ("A\N{NON-BREAKING HYPHEN}B", "A-B"),
        ("15.14 m²", "15.14 m²"),
        ("447 × 447", "447 × 447"),
    ],
)
def test_typeset_text_is_shown_as_it_is_typed(typeset: str, typed: str) -> None:
    assert plain(typeset) == typed


def test_blocks_are_told_in_order_without_pictures_and_blanks() -> None:
    blocks = (
        Beside(left=(PICTURE,), right=(Prose(heading="Decided", lines=("One.", "Two.")),)),
        Columns(blocks=(Steps(heading="Square line", lines=("Mark it.",)),)),
        Table(
            columns=(Column(heading="Read", unit="mm", align="right"), Column(heading="You read")), rows=(("2500", ""),)
        ),
        Blanks(labels=("Signed",)),
        Prose(heading="The pieces as they lie", lines=("X is waste.",)),
        PICTURE,
    )
    assert blocks_text(blocks) == "Decided:\nOne.\nTwo.\n\nSquare line:\n  1. Mark it.\n\nRead (mm)\n     2500"


def test_no_findings_are_nothing_to_answer() -> None:
    assert findings_text(()) == "Nothing needs an answer."


@pytest.mark.parametrize(
    ("encoding", "shown"),
    [
        ("utf-8", "15.14 m², 90.5°, 447 × 447: Łódź, naïve, 漢"),
        ("latin-1", "15.14 m², 90.5°, 447 × 447: ?ódz, naïve, ?"),
        ("ascii", "15.14 m2, 90.5 deg, 447 x 447: ?odz, naive, ?"),
        (None, "15.14 m², 90.5°, 447 × 447: Łódź, naïve, 漢"),
    ],
)
def test_what_an_encoding_lacks_is_shown_as_the_nearest(encoding: str | None, shown: str) -> None:
    assert readable("15.14 m², 90.5°, 447 × 447: Łódź, naïve, 漢", encoding) == shown


@given(st.text(), st.sampled_from(["ascii", "latin-1", "cp437", "cp1252", "koi8-r"]))
def test_any_text_can_be_shown_in_any_encoding(text: str, encoding: str) -> None:
    shown = readable(text, encoding)
    assert shown.encode(encoding) or not text
    if text.isascii():
        assert shown == text


@pytest.mark.parametrize("encoding", ["ascii", "cp1252"])
def test_a_terminal_without_unicode_shows_everything_all_the_same(encoding: str, tmp_path: Path) -> None:
    job = tmp_path / "kitchen.toml"
    text = (EXAMPLES / "larch-row-kitchen.toml").read_text(encoding="utf-8")
    job.write_text(text.replace("Porcelain 450 nominal", "Łódź 漢 450"), encoding="utf-8")
    environment = {**os.environ, "PYTHONIOENCODING": encoding}
    texts = {}
    for arguments in (["takeoff"], ["takeoff", "--json"]):
        done = subprocess.run(
            [sys.executable, "-m", "floorwright", arguments[0], str(job), *arguments[1:]],
            capture_output=True, env=environment, check=False,
        )  # fmt: skip
        assert done.returncode == 0, done.stderr
        texts[" ".join(arguments)] = done.stdout
    area = "m2 of floor" if encoding == "ascii" else "m² of floor"
    assert area in texts["takeoff"].decode(encoding)
    assert "450" in texts["takeoff"].decode(encoding)
    assert '"goods": "Łódź 漢 450"' in texts["takeoff --json"].decode("utf-8")


@pytest.mark.parametrize("columns", [80, 100, 120])
@pytest.mark.parametrize("command", ["check", "survey", "control", "layout", "cuts", "takeoff"])
@pytest.mark.parametrize("job", ["larch-row-kitchen", "plot-7-bath"])
def test_nothing_is_wider_than_the_terminal(
    job: str, command: str, columns: int, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    ended = run(command, EXAMPLES / f"{job}.toml")
    assert [line for line in (ended.out + ended.err).splitlines() if len(line) > columns] == []


class Terminal(io.StringIO):
    """A terminal in memory."""

    def isatty(self) -> bool:
        return True


def test_progress_is_one_line_that_goes_away(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.setattr(progress, "PATIENCE", 0.0)
    with progress.progress_line() as show:
        show("searching all positions", 0.25)
        show("done", 1.0)
    first = "searching all positions: 25%"
    assert terminal.getvalue().split("\r") == ["", first, "done: 100%".ljust(len(first)), " " * len(first), ""]


def test_progress_is_silent_where_it_is_quick_or_nobody_looks(monkeypatch: pytest.MonkeyPatch) -> None:
    quick, pipe = Terminal(), io.StringIO()
    monkeypatch.setattr(sys, "stderr", quick)
    with progress.progress_line() as show:
        show("adjusting the readings", 0.0)
    monkeypatch.setattr(progress, "PATIENCE", 0.0)
    monkeypatch.setattr(sys, "stderr", pipe)
    with progress.progress_line() as show:
        show("adjusting the readings", 0.0)
    assert quick.getvalue() + pipe.getvalue() == ""
