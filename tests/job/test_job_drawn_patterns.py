"""Patterns of a person's own, drawn in the job file: laid, and told what does not close."""

import pytest
from tests.job.test_job_patterns import ROOM

from floorwright.findings import Severity
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.job.write.text import job_text

# Four L of three squares each, turned by pairs in a block: not convex, drawn touching.
ELLS = """
[[patterns]]
name = "our ells"
across = [300, 0]
along = [0, 200]
drawn = "without joints"

[[patterns.pieces]]
name = "ell"
corners = [[0, 0], [200, 0], [200, 100], [100, 100], [100, 200], [0, 200]]

[[patterns.pieces]]
name = "ell"
corners = [[300, 200], [100, 200], [100, 100], [200, 100], [200, 0], [300, 0]]
"""

# Basketweave drawn at work size, 200 x 100 with joints of 3: it cannot close.
WEAVE = """
[[patterns]]
name = "our weave"
across = [{block}, {block}]
along = [-{block}, {block}]

[[patterns.pieces]]
corners = [[1.5, 1.5], [{right}, 1.5], [{right}, 101.5], [1.5, 101.5]]
[[patterns.pieces]]
corners = [[1.5, 104.5], [{right}, 104.5], [{right}, 204.5], [1.5, 204.5]]
[[patterns.pieces]]
corners = [[207.5, 1.5], [307.5, 1.5], [307.5, {right}], [207.5, {right}]]
[[patterns.pieces]]
corners = [[310.5, 1.5], [410.5, 1.5], [410.5, {right}], [310.5, {right}]]
"""


def job(drawn: str, name: str, length: float, width: float) -> str:
    goods = f'\n[[goods]]\nname = "piece"\nlength = {length}\nwidth = {width}\n'
    return f'{ROOM}{drawn}{goods}\n[[zones]]\ngoods = "piece"\npattern = "{name}"\njoint = 3\ngap = 5\n'


def laid(text: str) -> Solution:
    loaded = load_text(text)
    assert loaded.job is not None
    return solve(loaded.job, findings=loaded.findings)


def test_pieces_that_are_not_convex_are_laid_with_their_joint() -> None:
    solution = laid(job(ELLS, "our ells", 197.0, 197.0))
    (layout,) = solution.layouts
    assert [one.code for one in solution.findings if one.code.startswith("pattern")] == []
    assert layout.cell.name == "our ells"
    assert layout.chosen.full > 20
    (piece,) = {round(piece.area) for piece in layout.pieces if piece.full}
    # Three squares of 100 less half a joint round the whole: sides of 800, and corners.
    assert piece == round(30000 - 1.5 * 800 + 4 * 1.5**2)


def test_a_weave_that_closes_is_quiet() -> None:
    solution = laid(job(WEAVE.format(block=206, right=204.5), "our weave", 203, 100))
    assert [one.found for one in solution.findings if one.code.startswith("pattern")] == []
    assert solution.layouts[0].chosen.full > 50


def test_a_joint_that_is_off_is_measured() -> None:
    solution = laid(job(WEAVE.format(block=206, right=201.5), "our weave", 200, 100))
    told = [one for one in solution.findings if one.code == "pattern-closure"]
    assert len(told) == 1
    assert "the joint measures 6 mm" in told[0].found
    assert told[0].expected == "3 mm everywhere"
    assert told[0].remedy == "piece must be 203 mm x 100 mm"


def test_goods_of_another_size_than_is_drawn_are_told_of() -> None:
    solution = laid(job(WEAVE.format(block=206, right=204.5), "our weave", 200, 100))
    (told,) = [one for one in solution.findings if one.code == "pattern-closure"]
    assert told.remedy == "piece must be 203 mm x 100 mm"


def test_pieces_on_each_other_are_not_laid() -> None:
    solution = laid(job(WEAVE.format(block=150, right=204.5), "our weave", 203, 100))
    assert solution.layouts == ()
    assert [one.code for one in solution.findings if one.severity is Severity.ERROR] == ["pattern-overlap"]


def test_a_missing_piece_leaves_the_repeat_open() -> None:
    missing = WEAVE.format(block=206, right=204.5).rsplit("[[patterns.pieces]]", 1)[0]
    solution = laid(job(missing, "our weave", 203, 100))
    assert "pattern-open" in {one.code for one in solution.findings}


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('"our ells"\nacross', '"herringbone"\nacross', "job-same-name"),
        ("along = [0, 200]", "along = [600, 0]", "job-pattern"),
        ("[200, 0], [200, 100]", "[200, 100], [200, 0]", "job-pattern"),
    ],
)
def test_what_is_no_pattern_is_said_once(old: str, new: str, code: str) -> None:
    loaded = load_text(job(ELLS.replace(old, new), "our ells", 197, 197))
    errors = [one.code for one in loaded.findings if one.severity is Severity.ERROR]
    assert errors[0] == code
    assert errors.count(code) == 1


def test_a_drawn_pattern_is_written_and_read_again() -> None:
    loaded = load_text(job(ELLS, "our ells", 197, 197))
    assert loaded.job is not None
    assert load_text(job_text(loaded.job)).job == loaded.job
