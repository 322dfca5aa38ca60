"""S4, the patio slab: every figure of the scenario comes out of its job file (our calculation)."""

from collections.abc import Callable
from pathlib import Path

import pytest

import floorwright
from floorwright.findings import Severity
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.scoring.scored import Scored
from floorwright.units import parse_length

EXAMPLE = Path(floorwright.__file__).parent / "examples" / "mill-lane-patio.toml"
FOOT = 304.8


def inches(text: str) -> float:
    return parse_length(f"{text} in")


def solved(change: Callable[[str], str] = lambda text: text) -> Solution:
    loaded = load_text(change(EXAMPLE.read_text(encoding="utf-8")))
    assert loaded.job is not None
    assert not loaded.findings, loaded.findings
    return floorwright.solve(loaded.job, findings=loaded.findings)


@pytest.fixture(scope="module")
def solution() -> Solution:
    return solved()


@pytest.fixture(scope="module")
def patio(solution: Solution) -> Scored:
    assert solution.scored is not None
    return solution.scored


@pytest.fixture(scope="module")
def plain() -> Scored:
    """The same without the circle."""
    done = solved(lambda text: text.partition("[[scoring.circles]]")[0]).scored
    assert done is not None
    return done


def test_24_in_squares_land_only_with_a_border_of_24_at_the_ends_and_12_or_36_along_the_sides(patio: Scored) -> None:
    assert patio.search is not None
    found = {
        round(one.size / 25.4): ([round(b / 25.4) for b in one.ends], [round(b / 25.4) for b in one.sides])
        for one in patio.search.landings
    }
    assert found == {
        12: ([12, 24, 36], [12, 24, 36]),
        16: ([16, 32], [12, 28]),
        24: ([24], [12, 36]),
        32: ([32], [12]),
    }


def test_equal_borders_land_with_12_in_squares_alone(patio: Scored) -> None:
    assert patio.search is not None
    equal = {round(one.size / 25.4): [round(border / 25.4) for border in one.equal] for one in patio.search.landings}
    assert equal == {12: [12, 24, 36], 16: [], 24: [], 32: []}


def test_every_joint_has_a_line_on_it(patio: Scored) -> None:
    assert patio.missed == ()
    assert {line.name: line.joints for line in patio.lines if line.kind == "joint"} == {
        "R5": ("9 ft joint",),
        "C4": ("8 ft joint",),
        "C8": ("16 ft joint",),
    }


def test_304_ft_to_cut_without_the_circle(plain: Scored) -> None:
    columns, rows = ([line for line in plain.lines if line.name[0] == letter] for letter in "CR")
    assert (len(columns), len(rows)) == (11, 9)
    assert all(line.to_cut + line.there == pytest.approx(16 * FOOT, abs=0.5) for line in columns)
    assert all(line.to_cut + line.there == pytest.approx(20 * FOOT, abs=0.5) for line in rows)
    assert sum(line.kind == "joint" for line in columns) == 2
    assert sum(line.kind == "joint" for line in rows) == 1
    assert plain.straight == pytest.approx(304 * FOOT, abs=5)


def test_what_stops_at_the_circle(patio: Scored) -> None:
    lost = {round(line.running / FOOT): line.lost for line in patio.lines if line.lost and line.name[0] == "C"}
    assert lost == {
        10: pytest.approx(inches("96 3/4"), abs=0.5),
        12: pytest.approx(inches("108"), abs=0.5),
        14: pytest.approx(inches("96 3/4"), abs=0.5),
    }
    lost = {round(line.running / FOOT): line.lost for line in patio.lines if line.lost and line.name[0] == "R"}
    assert lost == {
        5: pytest.approx(inches("49 1/2"), abs=1.0),
        7: pytest.approx(inches("96 3/4"), abs=0.5),
        11: pytest.approx(inches("96 3/4"), abs=0.5),
        13: pytest.approx(inches("49 1/2"), abs=1.0),
    }
    assert [round(length / FOOT, 1) for length in (patio.lost, patio.straight, patio.round)] == [49.5, 254.5, 28.3]


def test_the_circle_crosses_the_joints(patio: Scored) -> None:
    (circle,) = patio.design.circles
    assert circle.radius == pytest.approx(inches("54"))
    half = {one.joint: one.half for one in patio.crossings}
    assert half["8 ft joint"] == pytest.approx(inches("24 3/4"), abs=0.5)
    assert half["16 ft joint"] == pytest.approx(inches("24 3/4"), abs=0.5)
    # Its centre is a node on the 9 ft joint.
    assert next(one.off for one in patio.crossings if one.joint == "9 ft joint") < 0.01
    assert {round(line.running / FOOT) for line in patio.lines if line.name in ("R5", "C6")} == {9, 12}


def test_score_lines_are_not_called_crack_control(solution: Solution) -> None:
    told = {finding.code: finding for finding in solution.findings}
    assert told["scoring-not-joint"].expected.startswith('a joint here is 1" deep or more')
    assert "scoring-joint-depth" not in told
    assert "scoring-panel-ratio" not in told
    assert "scoring-spacing" not in told
    assert told["scoring-colours"].remedy.startswith("cut before staining")
    assert not [finding for finding in solution.findings if finding.severity is not Severity.NOTE]


def test_an_equal_border_of_12_in_with_24_in_squares_misses_and_says_what_would_not() -> None:
    done = solved(lambda text: text.replace('border_ends = "24in"', 'border_ends = "12in"'))
    missed = [finding for finding in done.findings if finding.code == "scoring-off-joint"]
    assert len(missed) == 2
    assert missed[0].found == "no line lies on 8 ft joint all the way; the nearest runs 1'-0\" beside it"
    assert missed[0].remedy == (
        'keep the size and take borders of 24" at the ends and 12" or 36" along the sides; or with one border all '
        'round, squares of 12"'
    )


def test_it_says_a_slab_is_not_a_drawing() -> None:
    """Nobody has said that the slab was scanned: that is something to answer before the saw is started."""
    done = solved(lambda text: text.replace("scanned = true", "scanned = false"))
    assert [finding.code for finding in done.findings if finding.severity is Severity.WARNING] == ["scoring-in-slab"]
