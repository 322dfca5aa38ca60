"""S6, the training bay: a 90 and a 45 at the middle of a 6 m line, each length good to 1 mm (our own calculation)."""

import io
from math import sqrt
from pathlib import Path

import pdfplumber
import pytest

import floorwright
from floorwright.control.accuracy import compass_square, drift, triangle_square
from floorwright.control.choices import Tools
from floorwright.draw.sheet import Prose
from floorwright.export.pdf import pack_pdf
from floorwright.job.solution import Solution
from floorwright.practice.cross import square
from floorwright.practice.exercise import Marking
from floorwright.sheets.practice import practice_pack

EXACT = Tools(compass=2850, tape=8000, mark=0.0, set=1.0)
"""Each length set or read good to 1 mm, the marks and the base line exact, as S6 assumes."""

EXAMPLE = Path(floorwright.__file__).parent / "examples" / "training-bay.toml"


@pytest.fixture(scope="module")
def bay() -> Solution:
    loaded = floorwright.load(EXAMPLE)
    assert loaded.job is not None
    return floorwright.solve(loaded.job, findings=loaded.findings)


def test_a_job_without_tiles_is_a_job(bay: Solution) -> None:
    assert bay.layouts == ()
    assert bay.orders == ()
    assert bay.control is not None
    assert bay.control.centre == pytest.approx((3000, 2500), abs=0.5)


def test_the_compass_is_opened_for_arcs_that_cross_square(bay: Solution) -> None:
    assert bay.control is not None
    square = next(
        made for made in bay.control.constructions if made.makes == "square line" and made.method == "compass"
    )
    arcs = [step.length for step in square.steps if step.action == "arc"]
    assert len(arcs) == 4
    assert set(arcs) == {2850}
    assert square.size / 2850 == pytest.approx(1 / sqrt(2), rel=0.03)
    # Feet 2 m, arcs 2.83 m, both sides: 0.35 mm/m (0.354); a little more reach is a little better.
    assert square.sd_angle * 1000 == pytest.approx(sqrt(1 / 2.05**2 + 1 / (2.85**2 - 2.05**2)) / 2, rel=0.01)
    assert square.sd_angle * 1000 < 0.36


def test_the_four_chords_are_all_the_same(bay: Solution) -> None:
    assert bay.control is not None
    arm = next(made.size for made in bay.control.constructions if made.method == "four equal marks")
    chords = [check for check in bay.control.checks if check.expected == pytest.approx(arm * sqrt(2), abs=0.01)]
    assert len(chords) == 4


@pytest.mark.parametrize(
    ("along", "out", "mm_per_m"),
    [
        (3000.0, 4000.0, 0.589),
        (6 * 304.8, 8 * 304.8, 0.967),
        (900.0, 1200.0, 1.964),
        (400.0, 600.0, 4.25),
    ],
)
def test_a_triangle_of_three_taped_lengths(along: float, out: float, mm_per_m: float) -> None:
    """S6: sigma = sqrt(2) c / (a b); as a triangle the 400/600 square of iron is out 4.25 mm in a metre."""
    assert triangle_square(along, out, EXACT) * 1000 == pytest.approx(mm_per_m, rel=0.001)


@pytest.mark.parametrize(
    ("feet", "arcs", "mm_per_m"),
    [(1000.0, 1414.2, 0.707), (2000.0, 2828.4, 0.354), (1000.0, 2828.4, 0.53)],
)
def test_a_square_by_compass_joined_both_sides(feet: float, arcs: float, mm_per_m: float) -> None:
    """S6: sigma = sqrt(1/f^2 + 1/h^2) / 2; over a 4 m wall four times as much."""
    found = compass_square(feet, sqrt(arcs**2 - feet**2), EXACT)
    assert found * 1000 == pytest.approx(mm_per_m, rel=0.01)
    assert drift(found, 4000.0, EXACT) == pytest.approx(4 * mm_per_m, rel=0.01)


def test_longer_arcs_alone_never_get_under_half_a_millimetre() -> None:
    """S6: with the feet left at 1 m the limit is 0.50; widening them with the arcs has none."""
    outs = [compass_square(1000.0, apex, EXACT) * 1000 for apex in (2000.0, 8000.0, 80_000.0)]
    assert outs == sorted(outs, reverse=True)
    assert all(out > 0.5 for out in outs)
    assert outs[-1] == pytest.approx(0.5, abs=1e-3)
    assert compass_square(2000.0, 2000.0, EXACT) * 1000 < 0.36


def test_arcs_that_cross_square_are_the_best_use_of_a_compass() -> None:
    reach = 2000.0
    outs = {feet: compass_square(feet, sqrt(reach**2 - feet**2), EXACT) for feet in range(200, 2000, 1)}
    assert min(outs, key=outs.__getitem__) == pytest.approx(reach / sqrt(2), abs=1)


def test_the_sheet_says_that_one_setting_cancels(bay: Solution) -> None:
    assert bay.control is not None
    compass = next(made for made in bay.control.constructions if made.method == "compass")
    assert compass.why.startswith("Swing all arcs at one setting: its error cancels")


def test_the_same_on_paper_at_1_to_25_with_answers_on_page_two_and_a_marking_sheet() -> None:
    """The 6 m line prints at 240 mm, over a bar of 100 mm; the answers hold by the same sums as on the slab."""
    exercise = square(6, "mm", line=6000.0)
    pack = practice_pack([exercise], Marking(), paper="A4", units="mm, to 0.5")
    first, answers, marking = pack.sheets
    assert [sheet.key for sheet in pack.sheets] == ["exercise", "answers", "marking"]
    with pdfplumber.open(io.BytesIO(pack_pdf(pack))) as printed:
        assert len(printed.pages) == 3
        page = printed.pages[0]
        level = [one for one in (*page.lines, *page.curves, *page.rects) if abs(one["height"]) < 0.1]
        widths = [one["width"] * 25.4 / 72 for one in level]
    assert any(width == pytest.approx(240, abs=0.05) for width in widths)
    assert any(width == pytest.approx(100, abs=0.05) for width in widths)
    assert first.title.startswith("Raise a square")
    feet = next(check.expected for check in exercise.checks if not check.on_paper)
    opening = next(float(one.figure.split(" mm")[0]) for one in exercise.answers if one.what.startswith("opening"))
    out = compass_square(feet, sqrt(opening**2 - feet**2), EXACT) * 4000
    said = next(one.figure for one in exercise.answers if one.what.startswith("how far out"))
    assert said == f"{out:.1f} mm"
    rule = next(block.lines[0] for block in marking.blocks if isinstance(block, Prose))
    assert rule.startswith("Within 1 mm earns 2 marks, within 2 mm half of them")
    assert answers.title.startswith("Answers to 6")
