"""Every pattern of the catalogue scored by a job: nothing of the slab bare, nothing cut twice, nothing left uncut."""

from pathlib import Path

import pytest
import shapely

import floorwright
from floorwright.job.load import load_text
from floorwright.job.model.scoring import Scoring
from floorwright.job.solution import Solution
from floorwright.pattern.catalogue import PATTERNS
from floorwright.scoring.scored import Scored

PATIO = (Path(floorwright.__file__).parent / "examples" / "mill-lane-patio.toml").read_text(encoding="utf-8")

MORE = {
    **dict.fromkeys(
        ("brick bond", "basketweave", "double basketweave", "soldier courses", "planks", "setts in rows", "windmill"),
        'width = "12in"',
    ),
    **dict.fromkeys(
        ("herringbone", "double herringbone", "chevron"), 'width = "12in"\nstand = "square to wall"'
    ),
    "elongated hexagon": 'width = "12in"',
    "square and dot": 'sizes = { dot = "8in" }',
    "pinwheel": 'sizes = { small = "12in" }',
    "modular, two sizes": 'sizes = { small = ["12in", "10in"] }',
}  # fmt: skip

NAMES = [name for name in PATTERNS if name != "mosaic sheets"]

CROSS = """
[[patterns]]
name = "ell and square"
across = ["24in", 0]
along = [0, "24in"]
drawn = "without joints"

[[patterns.pieces]]
name = "ell"
corners = [[0, 0], ["24in", 0], ["24in", "8in"], ["8in", "8in"], ["8in", "24in"], [0, "24in"]]

[[patterns.pieces]]
name = "square"
corners = [["8in", "8in"], ["24in", "8in"], ["24in", "24in"], ["8in", "24in"]]
"""


def scored_as(pattern: str, more: str = "", after: str = "") -> Solution:
    text = PATIO.replace('pattern = "grid"', f'pattern = "{pattern}"').replace(
        'length = "24in"\nborder', f'length = "24in"\n{more}\nborder'
    )
    loaded = load_text(text + after)
    assert loaded.job is not None
    assert loaded.findings == ()
    return floorwright.solve(loaded.job)


def done(solution: Solution) -> Scored:
    assert solution.scored is not None
    return solution.scored


@pytest.fixture(scope="module", params=NAMES)
def solution(request: pytest.FixtureRequest) -> Solution:
    return scored_as(request.param, MORE.get(request.param, ""))


def test_cells_fill_the_slab(solution: Solution) -> None:
    assert sum(cell.area for cell in done(solution).cells) == pytest.approx(solution.survey.area, rel=1e-4)


def test_no_stretch_is_cut_twice(solution: Solution) -> None:
    lines = [shapely.LineString([part.start, part.end]) for line in done(solution).lines for part in line.parts]
    once = shapely.union_all(lines, grid_size=0.001).length
    assert once == pytest.approx(sum(line.length for line in lines), rel=1e-5)


def test_what_is_cut_and_what_is_there_is_every_side_of_every_cell(solution: Solution) -> None:
    """Each line inside has a cell on either side: together they are half of the cells' outlines, less the slab's."""
    scored = done(solution)
    outlines = sum(float(shapely.LinearRing(ring).length) for cell in scored.cells for ring in cell.rings)
    circle = scored.design.circles[0].length
    drawn = scored.straight + scored.there + scored.round - circle
    # The joints that run on through the circle are no side of a cell, and lines by the pattern's own short chords.
    through = sum(
        shapely.intersection(
            shapely.LineString([part.start, part.end]), shapely.Point(scored.design.circles[0].centre).buffer(54 * 25.4)
        ).length
        for line in scored.lines
        for part in line.parts
        if part.there
    )
    assert drawn - through == pytest.approx((outlines - 84 * 304.8) / 2 - circle, rel=6e-3)


@pytest.mark.parametrize(
    "name", ["octagon and dot", "windmill", "modular, three sizes", "modular, four sizes", "random ashlar"]
)
def test_sizes_that_follow_close(name: str) -> None:
    told = scored_as(name, MORE.get(name, "")).findings
    assert not [finding for finding in told if finding.code.startswith("pattern-") and finding.severity.name != "NOTE"]


def test_a_drawn_pattern_is_scored() -> None:
    loaded = load_text(PATIO.replace('pattern = "grid"\nlength = "24in"', 'pattern = "ell and square"') + CROSS)
    assert loaded.job is not None
    assert loaded.findings == ()
    scored = done(floorwright.solve(loaded.job))
    assert sum(cell.area for cell in scored.cells) == pytest.approx(24 * 18 * 304.8**2, rel=1e-4)


def test_each_size_has_its_own_stain_where_that_is_asked_for() -> None:
    """Octagons walnut, dots sandstone: a dot is 0.4142 squared of the octagon's pitch, 0.1716 of the field's area."""
    scored = done(scored_as("octagon and dot", 'stain_by = "size"'))
    area = {name: scored.area(name) for name in ("walnut", "sandstone")}
    assert scored.alike == 0
    assert area["sandstone"] / sum(area.values()) == pytest.approx((2**0.5 - 1) ** 2, rel=0.02)
    odd = load_text(PATIO.replace('length = "24in"\nborder', 'length = "24in"\nstain_by = "size"\nborder'))
    assert [finding.code for finding in odd.findings] == ["job-unused"]


def test_a_seed_scores_the_same_lines_every_time() -> None:
    one, same, other = (done(scored_as("random ashlar", f"seed = {seed}")) for seed in (3, 3, 4))
    assert [line.parts for line in one.lines] == [line.parts for line in same.lines]
    assert [line.parts for line in one.lines] != [line.parts for line in other.lines]


def test_herringbone_is_not_agreed_until_it_is_said_how_it_stands() -> None:
    open_one = scored_as("herringbone", 'width = "12in"')
    assert "pattern-stand" in {finding.code for finding in open_one.findings}
    diagonal = done(scored_as("herringbone", 'width = "12in"\nstand = "diagonal to wall"'))
    assert {line.name[0] for line in diagonal.lines if line.what == "pattern"} == {"D", "E"}


def test_every_key_of_a_pattern_can_be_written() -> None:
    keys = {one.key for name in NAMES for one in PATTERNS[name].parameters}
    # A short end is a fault of a plank that is laid, not of a line that is scored.
    assert keys - set(Scoring.model_fields) == {"end_least"}
