"""S1, the small bath: every figure of the scenario comes out of its job file (our calculation, exact sixteenths)."""

import itertools
from fractions import Fraction
from pathlib import Path

import pytest

import floorwright
from floorwright.job.solution import Solution
from floorwright.units import INCH, parse_length

EXAMPLE = Path(floorwright.__file__).parent / "examples" / "plot-7-bath.toml"
CLOSE = 0.05
"""mm."""


def inches(text: str) -> float:
    return parse_length(f"{text} in")


@pytest.fixture(scope="module")
def bath() -> Solution:
    loaded = floorwright.load(EXAMPLE)
    assert loaded.job is not None
    return floorwright.solve(loaded.job, findings=loaded.findings)


def test_balanced_cuts_both_ways(bath: Solution) -> None:
    walls = {wall.wall: wall for wall in bath.layouts[0].chosen.walls}
    for name in ("left", "right"):
        assert walls[name].start == pytest.approx(inches("7 1/2"), abs=0.3)
        assert walls[name].end == pytest.approx(inches("7 1/2"), abs=0.3)
        assert bath.style.text(walls[name].thin, feet=False) == '7 1/2"'
    for name in ("near", "far"):
        assert bath.style.text(walls[name].thin, feet=False) == '7 1/16"'
        assert walls[name].thin == pytest.approx(inches("7 1/16"), abs=0.3)


def test_which_centre_and_how_many(bath: Solution) -> None:
    chosen = bath.layouts[0].chosen
    assert chosen.name == "joint on centre across, tile on centre along"
    assert (chosen.full, chosen.cut) == (54, 34)
    assert [order.tiles for order in bath.orders] == [88]
    # 6 full across and 9 along, each with its cuts: 7-1/2 and 7-1/16.
    across, along = (
        max(
            len([part for part in course.parts if part.kind == "tile"])
            for course in bath.courses
            if set(course.walls) == walls
        )
        for walls in ({"left", "right"}, {"near", "far"})
    )
    assert (across, along) == (6, 9)


def test_lines_from_the_walls(bath: Solution) -> None:
    assert bath.snap is not None
    assert bath.snap.zero == "A"
    lines = [line for line in bath.snap.lines if line.family != "control"]
    families = {line.family for line in lines}
    figures = sorted(
        tuple(bath.style.text(line.running, feet=False) for line in lines if line.family == family)
        for family in families
    )
    by_count = {len(found): found for found in figures}
    assert by_count[7][0] == '7 3/4"'
    assert by_count[7][-1] == '79 3/4"'
    assert by_count[10][0] == '7 5/16"'
    assert by_count[10][-1] == '115 5/16"'
    for found in by_count.values():
        numbers = [Fraction(parse_length(text)) / INCH for text in found]
        steps = {round(float(later - earlier), 3) for earlier, later in itertools.pairwise(numbers)}
        assert steps == {12.0}


def test_both_searches_are_proved(bath: Solution) -> None:
    proofs = bath.layouts[0].proofs
    assert {proof.axis for proof in proofs} >= {"across", "along"}
    assert all(proof.status == "proved" for proof in proofs)
    by_axis = {proof.axis: proof.best for proof in proofs}
    assert by_axis["across"] == pytest.approx(inches("7 1/2"), abs=0.3)
    assert by_axis["along"] == pytest.approx(inches("7 1/16"), abs=0.3)


def test_shows_why_not_the_others(bath: Solution) -> None:
    options = bath.layouts[0].options
    thin = {
        option.name: {wall.wall: bath.style.text(wall.thin, feet=False) for wall in option.walls} for option in options
    }
    left = next(walls for name, walls in thin.items() if "full tile at left" in name)
    assert left["left"] == '11 3/4"'
    assert left["right"] == '3 1/4"'
    near = next(walls for name, walls in thin.items() if "full tile at near" in name)
    assert near["near"] == '11 3/4"'
    assert near["far"] == '2 3/8"'
    centred = next(walls for name, walls in thin.items() if name.startswith("tile on centre across"))
    assert centred["left"] == centred["right"] == '1 1/2"'


def test_the_lost_joint_is_not_lost(bath: Solution) -> None:
    # 1-1/2 + 1-1/2 + 11-3/4 halved is 7-3/8: that loses a joint (T-69).
    assert bath.style.text(bath.layouts[0].chosen.walls[1].thin, feet=False) != '7 3/8"'


def test_nothing_to_answer(bath: Solution) -> None:
    assert [finding for finding in bath.findings if finding.severity != "note"] == []
