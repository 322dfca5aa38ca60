"""Scoring out of a job file: written and read again, what closes, what a person sees of it."""

from pathlib import Path

import pytest

import floorwright
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.write.text import job_text

PATIO = (Path(floorwright.__file__).parent / "examples" / "mill-lane-patio.toml").read_text(encoding="utf-8")


QUARTER_INCH_LONG = (
    ("24ft", "24ft 1/4in"),
    ('A-C = "30ft"', 'A-C = "30ft 3/16in"'),
    ('B-D = "30ft"', 'B-D = "30ft 3/16in"'),
)


def solved(text: str) -> Solution:
    loaded = load_text(text)
    assert loaded.job is not None
    return floorwright.solve(loaded.job, findings=loaded.findings)


def changed(*pairs: tuple[str, str]) -> str:
    text = PATIO
    for before, after in pairs:
        assert before in text
        text = text.replace(before, after)
    return text


def of_pattern(pattern: str, more: str) -> str:
    return changed(('pattern = "grid"', f'pattern = "{pattern}"'), ('length = "24in"', f'length = "24in"\n{more}'))


def test_a_scored_job_reads_back_as_written() -> None:
    job = load_text(PATIO).job
    assert job is not None
    text = job_text(job)
    assert load_text(text).job == job
    assert 'length = "24in"' in text
    assert "[[scoring.circles]]" in text


def test_a_pattern_that_does_not_close_is_told() -> None:
    """Two bricks side by side are 20 in, and one is 24 long: what is left between them is no cell of the pattern."""
    done = solved(of_pattern("basketweave", 'width = "10in"'))
    assert ("pattern-closure", "scoring patio") in {(finding.code, finding.place) for finding in done.findings}


@pytest.mark.parametrize(
    ("pattern", "more"),
    [
        ("brick bond", 'width = "12in"\nfraction = "1/3"'),
        ("herringbone", 'width = "12in"'),
        ("hexagon", 'way = "flat up"'),
        ("basketweave", 'width = "12in"'),
        ("rhombus", "corner = 60"),
    ],
)
def test_any_pattern_of_equal_pieces_is_scored(pattern: str, more: str) -> None:
    done = solved(of_pattern(pattern, more))
    scored = done.scored
    assert scored is not None
    assert scored.straight > 100 * 304.8
    assert scored.search is None
    assert sum(cell.area for cell in scored.cells) == pytest.approx(done.survey.area, rel=1e-4)


def test_colours_keep_apart_or_it_says_so() -> None:
    hexagons = changed(('pattern = "grid"', 'pattern = "hexagon"'))
    assert "scoring-alike" in {finding.code for finding in solved(hexagons).findings}
    three = hexagons.replace('["walnut", "sandstone"]', '["walnut", "sandstone", "slate"]')
    assert "scoring-alike" not in {finding.code for finding in solved(three).findings}


@pytest.mark.parametrize(
    ("pairs", "code"),
    [
        ((('diameter = "9ft"', 'diameter = "20ft"'),), "scoring-circle-off"),
        ((('border_ends = "24in"', 'border_ends = "13ft"'),), "scoring-no-field"),
        ((('depth = "1/4in"\n', 'depth = "1in"\n'),), "scoring-deep"),
        ((('length = "24in"', 'length = "25in"'),), "scoring-part-square"),
        ((('thickness = "4in"\n', ""),), "scoring-no-thickness"),
        ((('to = ["8ft", "18ft"]', 'to = ["8ft", "12ft"]'),), "scoring-joint-end"),
        ((('to = ["8ft", "18ft"]', 'to = ["9ft", "18ft"]'),), "scoring-askew"),
        (
            (('{ by = "slab joint", slab_joint = "9 ft joint" }', '{ by = "points", from = "A", to = "C" }'),),
            "scoring-not-searched",
        ),
        (QUARTER_INCH_LONG, "scoring-moved"),
    ],
)
def test_what_there_is_to_say(pairs: tuple[tuple[str, str], ...], code: str) -> None:
    assert code in {finding.code for finding in solved(changed(*pairs)).findings}


def test_a_joint_askew_is_left_out_and_the_others_are_landed_on() -> None:
    """The 8 ft joint runs a foot out over 18 ft: it is told as it is, and the search goes on with the two others."""
    done = solved(changed(('to = ["8ft", "18ft"]', 'to = ["9ft", "18ft"]')))
    (askew,) = [finding for finding in done.findings if finding.code == "scoring-askew"]
    assert askew.found.startswith("8 ft joint strays 1'-0\" from the lines over its 18'-0")
    assert "scoring-off-joint" not in {finding.code for finding in done.findings}
    assert done.scored is not None
    assert done.scored.search is not None
    whole = solved(PATIO).scored
    assert whole is not None
    assert whole.search is not None
    # The joint at 16 ft asks for the same as the one at 8 ft: half way between the ends.
    assert done.scored.search.landings == whole.search.landings


def test_a_slab_a_quarter_inch_long_is_laid_on_its_joints() -> None:
    """The pattern is the joints', the border takes the quarter inch."""
    done = solved(changed(*QUARTER_INCH_LONG)).scored
    assert done is not None
    assert done.missed == ()
    assert {joint for line in done.lines for joint in line.joints} == {"8 ft joint", "16 ft joint", "9 ft joint"}


def test_stencil_strips() -> None:
    stencil = '[scoring.stencil]\nwidth = "36in"\nlength = "8ft"\noverlap = "2in"\n'
    done = solved(f"{PATIO}\n{stencil}").scored
    assert done is not None
    assert done.strips is not None
    # 16 ft across: six strips of 36 lapped by 2 cover 206 in; five would 172.
    assert len(done.strips.starts) == 6
    assert done.strips.sheets == 3


def test_the_jambs_of_a_door_are_no_corners_of_the_slab() -> None:
    door = '[[openings]]\nname = "kitchen door"\nwall = "house"\nfrom = "A"\n'
    door += 'offset = "4ft"\nwidth = "3ft"\nreveal = "3in"\n'
    found = {finding.code for finding in solved(f"{PATIO}\n{door}").findings}
    assert not found & {"scoring-inside-corner", "scoring-panel-shape"}
