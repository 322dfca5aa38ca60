"""`floorwright practice`: files, numbers, options that cannot be meant."""

import json
from pathlib import Path

import pytest
from tests.cli.conftest import Run


def test_the_same_number_gives_the_same_bytes(run: Run, tmp_path: Path) -> None:
    for folder in ("a", "b"):
        done = run("practice", "--kind", "square", "--seed", "41", "-o", str(tmp_path / folder))
        assert done.code == 0
    one, other = (tmp_path / folder / "practice-41.pdf" for folder in ("a", "b"))
    assert one.read_bytes() == other.read_bytes()


def test_data_names_files_and_exercises(run: Run, tmp_path: Path) -> None:
    done = run("practice", "--kind", "bisect", "--kind", "square", "--count", "2", "-o", str(tmp_path), "--json")
    data = json.loads(done.out)
    assert data["files"] == [str(tmp_path / "practice-1-to-2.pdf")]
    assert [(one["kind"], one["variation"]) for one in data["exercises"]] == [
        ("square", 1), ("bisect", 1), ("square", 2), ("bisect", 2),
    ]  # fmt: skip
    assert data["marking"] == {"full_mm": 1.0, "half_mm": 2.0, "marks": 2}
    assert data["exercises"][0]["checks"][0]["expected_mm"] > 0


def test_a_sheet_that_somebody_wrote_on_stays(run: Run, tmp_path: Path) -> None:
    (tmp_path / "practice-1.pdf").write_text("mine")
    done = run("practice", "--kind", "square", "-o", str(tmp_path))
    assert "Left alone" in done.err
    assert (tmp_path / "practice-1.pdf").read_text() == "mine"


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--line", "long"), "--line: long is no length"),
        (("--line", "40 m"), "--line: 40 m does not suit the paper"),
        (("--line", "5 m", "--kind", "balance"), "--line goes with the kinds square and bisect"),
        (("--full", "3 mm"), "--full is over 0 and no more than --half"),
        (("--full", "0"), "--full is over 0 and no more than --half"),
        (("--count", "0"), "--count"),
        (("--kind", "herringbone"), "--kind"),
    ],
)
def test_what_cannot_be_meant(run: Run, tmp_path: Path, options: tuple[str, ...], said: str) -> None:
    done = run("practice", *options, "-o", str(tmp_path))
    assert done.code == 2
    assert said in done.err
    assert not list(tmp_path.iterdir())
