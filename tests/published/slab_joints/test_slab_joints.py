"""Joints and saw cuts in slabs: figures as they are printed in trade articles and answers.

Standards of the ACI and the CSA were read as quoted there, never in the standard itself; what is from memory says so.
Each source stands beside its figure. Inches and feet are as printed, never converted from metres.
"""

import dataclasses
from pathlib import Path

import pytest
from tests.scoring.slabs import region

import floorwright
from floorwright.draw.sheet import Steps
from floorwright.findings import Finding, Severity
from floorwright.job.load import load_text
from floorwright.scoring.design import OldJoint
from floorwright.scoring.rules import TIMING, joint_rules
from floorwright.scoring.slab import (
    MIXES,
    PLACE,
    RATIO,
    STRAIGHT,
    early_depth,
    least_depth,
    most_spacing,
    slab_of,
    spacing,
)
from floorwright.sheets.figures import Figures
from floorwright.sheets.scoring import scoring_blocks
from floorwright.units import IMPERIAL, METRIC

INCH = 25.4
FOOT = 304.8
PATIO = (Path(floorwright.__file__).parent / "examples" / "mill-lane-patio.toml").read_text(encoding="utf-8")


def told(
    long: float, short: float, joints: tuple[OldJoint, ...] = (), thickness: float = 4 * INCH
) -> dict[str, Finding]:
    """What is said of a slab so many feet long and wide."""
    slab = slab_of(
        region(((0, 0), (12 * long, 0), (12 * long, 12 * short), (0, 12 * short))), joints, thickness, scanned=True
    )
    return {finding.code: finding for finding in joint_rules(slab, IMPERIAL)}


def across(depth: float, *, early: bool = False) -> OldJoint:
    """A joint 8 ft along a slab of 16 by 8 ft, its depth in inches."""
    return OldJoint(name="mid", ends=((8 * FOOT, 0.0), (8 * FOOT, 8 * FOOT)), depth=depth * INCH, early=early)


@pytest.mark.parametrize(("inches", "feet"), [(4, (8, 12)), (6, (12, 18))])
def test_24_to_36_times_the_slab(inches: int, feet: tuple[int, int]) -> None:
    """C-01, C-02: ACI 302.1R-96, as quoted in Concrete Producer, "Responsibility for floor cracks": 24 to 36 times, so
    4 in slabs 8 to 12 ft. C-03: Concrete Construction, "Elongated slabs are likely to crack": 6 in 12 to 18 ft, two to
    three times the inches in feet."""
    assert spacing(inches * INCH) == pytest.approx([one * FOOT for one in feet])
    assert spacing(inches * INCH) == pytest.approx([2 * inches * FOOT, 3 * inches * FOOT])


def test_vectors_of_spacing_and_panels() -> None:
    """V-16 (our arithmetic on the above): 4 in 96 to 144 in; 150 mm 3.6 to 5.4 m; 3.0 by 4.6 m is 1.533, over 1.5."""
    assert [one / INCH for one in spacing(4 * INCH)] == pytest.approx([96, 144])
    assert spacing(150.0) == (3600.0, 5400.0)
    (panel,) = slab_of(region(((0, 0), (4600, 0), (4600, 3000), (0, 3000))), (), 150.0, scanned=True).panels
    assert panel.ratio == pytest.approx(1.533, abs=5e-4)
    assert panel.ratio > RATIO[1]


@pytest.mark.parametrize(("inches", "feet"), [(4, 12), (5, 15), (6, 15), (8, 15)])
def test_the_smallest_of_15_ft_5_m_and_18_ft_governs(inches: int, feet: int) -> None:
    """C-07: Concrete Construction, "Treatment of joints and embedded items": 15 ft both ways about houses. C-06: CSA
    A23.1-94 as quoted in a forum: 5 m. C-01: 18 ft. C-08: newer ACI documents about 15 to 18 ft (from memory)."""
    assert most_spacing(inches * INCH) == pytest.approx(feet * FOOT)
    assert most_spacing(inches * INCH) <= 5000.0
    assert most_spacing(inches * INCH) <= 18 * FOOT


def test_a_panel_16_ft_long_in_6_in_of_slab_is_told() -> None:
    """Within 36 times (18 ft) and yet over 15 ft."""
    assert told(16, 14, thickness=6 * INCH)["scoring-spacing"].severity is Severity.WARNING
    assert "scoring-spacing" not in told(15, 14, thickness=6 * INCH)


@pytest.mark.parametrize(
    ("long", "severity"), [(12.4, None), (12.6, Severity.NOTE), (14.9, Severity.NOTE), (15.2, Severity.WARNING)]
)
def test_panels_one_and_a_quarter_to_one_and_a_half(long: float, severity: Severity | None) -> None:
    """C-04: ACI 302.1R-80 2.3.2: 1.5; K. Basham, "Rules for designing contraction joints": better 1.25. Of 10 ft."""
    found = told(long, 10, thickness=12 * INCH).get("scoring-panel-ratio")
    assert (found.severity if found else None) is severity


def test_corners_that_turn_in_and_joints_that_end_at_another() -> None:
    """C-05: Concrete Construction, "Jointing irregularly shaped slabs", and K. Basham: no L, a joint from every corner
    that turns in; joints end at an edge or an isolation joint, not at another contraction joint."""
    ell = region(((0, 0), (240, 0), (240, 120), (120, 120), (120, 240), (0, 240)))
    codes = {one.code for one in joint_rules(slab_of(ell, (), 4 * INCH, scanned=True), IMPERIAL)}
    assert {"scoring-panel-shape", "scoring-inside-corner"} <= codes
    stub = OldJoint(name="stub", ends=((8 * FOOT, 4 * FOOT), (16 * FOOT, 4 * FOOT)), depth=INCH)
    assert told(16, 8, (across(1), stub))["scoring-joint-end"].found == "ends at mid, another contraction joint"
    deep = dataclasses.replace(across(1), kind="isolation")
    assert "scoring-joint-end" not in told(16, 8, (deep, stub))


@pytest.mark.parametrize(("thickness", "depth"), [(4 * INCH, 1 * INCH), (125.0, 31.25)])
def test_a_quarter_of_the_slab(thickness: float, depth: float) -> None:
    """C-09: ACI 327R-14, as quoted in the ACI's answers, no. 915: t/4. V-17: 1.0 in of 4 in; 31.25 of 125 mm. C-06: CSA
    A23.1-94, as quoted in a forum: a quarter to a third. C-17: a supplier's glossary, "Sawcutting": 1 in of 4 in."""
    assert least_depth(thickness) == pytest.approx(depth)
    assert thickness / 4 <= least_depth(thickness) + 1e-9 <= thickness / 3


def test_an_early_entry_joint_is_an_inch_deep() -> None:
    """C-10: ACI 302.1R, from memory: 1 in at the least, in slabs up to 9 in. It counts only where somebody has written
    that the joint was sawn so."""
    assert early_depth(8 * INCH) == pytest.approx(INCH)
    assert early_depth(9 * INCH) == pytest.approx(INCH)
    assert early_depth(10 * INCH) is None
    plain, early = (told(16, 8, (across(1.25, early=sawn),), 6 * INCH) for sawn in (False, True))
    assert plain["scoring-joint-depth"].expected.startswith('1 1/2" or more')
    assert "scoring-joint-depth" not in early
    shallow = told(16, 8, (across(0.75, early=True),), 6 * INCH)["scoring-joint-depth"]
    assert "from memory" in shallow.source
    assert told(16, 8, (across(1.25, early=True),), 10 * INCH)["scoring-joint-depth"].expected.startswith('2 1/2"')


def test_early_entry_is_written_in_the_job_file() -> None:
    thick = PATIO.replace('thickness = "4in"', 'thickness = "6in"')
    early = thick.replace('depth = "1in"', 'depth = "1in"\nsawn = "early entry"')
    shallow = []
    for text in (thick, early):
        job = load_text(text).job
        assert job is not None
        found = [one for one in floorwright.solve(job).findings if one.code == "scoring-joint-depth"]
        shallow.append({one.place for one in found})
    assert shallow == [{"8 ft joint", "16 ft joint", "9 ft joint"}, {"8 ft joint", "16 ft joint"}]


def test_when_joints_are_sawn_is_said_where_one_is_missing() -> None:
    """C-11: ACI 302.1R-15: 4 to 12 hours; 325.12R: early entry 2 to 6, both in the ACI's answers, no. 915. C-12:
    Concrete Construction, "When to saw control joints": as soon as the edges do not ravel."""
    remedy = told(24, 18)["scoring-spacing"].remedy
    assert TIMING in remedy
    assert "4 to 12 hours" in TIMING
    assert "2 to 6 with an early-entry saw" in TIMING
    assert "do not ravel" in TIMING


def test_joints_may_lie_three_quarters_of_an_inch_off() -> None:
    """C-13: ACI 117-90, in a commentary on a military specification."""
    assert PLACE["imperial"] / INCH == pytest.approx(0.75)
    assert PLACE["metric"] == 19.0
    job = load_text(PATIO).job
    assert job is not None
    said = next(one for one in floorwright.solve(job).findings if one.code == "scoring-measure-joints")
    assert "3/4 in (19 mm)" in said.found


def test_straightness_of_decorative_lines_is_our_own_figure() -> None:
    """C-14: no figure of the ACI was found; 1/8 in in 10 ft is a default of ours (practice)."""
    off, along = STRAIGHT["imperial"]
    assert (off / INCH, along / FOOT) == pytest.approx((0.125, 10.0))
    assert STRAIGHT["metric"] == (3.0, 3000.0)


def test_an_isolation_joint_has_full_depth_and_is_not_sawn() -> None:
    """C-15: Concrete Construction, "Depth of isolation joints"; Concrete Network, "Isolation joints"."""
    deep = OldJoint(name="mid", ends=across(1).ends, kind="isolation")
    assert "scoring-depth-unknown" not in told(16, 8, (deep,))
    text = PATIO.replace('depth = "1in"', 'depth = "1in"\nkind = "isolation"')
    assert [one.found for one in load_text(text).findings] == ["`depth` of a joint of kind `isolation`"]


def test_a_score_is_an_eighth_by_a_quarter_unless_it_is_said_otherwise() -> None:
    """C-16: a decorative contractor's page: about 1/8 in wide and 1/4 in deep."""
    bare = PATIO.replace('depth = "1/4in"\n', "", 1).replace('cut = "1/8in"\n', "")
    job = load_text(bare).job
    assert job is not None
    assert job.scoring is not None
    assert (job.scoring.cut / INCH, job.scoring.depth / INCH) == pytest.approx((0.125, 0.25))


def test_a_score_is_no_joint_and_a_joints_cut_is_no_score() -> None:
    """C-18 (C-09 and C-16 together): 1/4 in is no contraction joint; a 4 in slab wants 1 in. C-17: lines cut that deep
    are functional cuts, and a slab cracks under them."""
    for depth, code in (("1/4in", "scoring-not-joint"), ("1in", "scoring-deep")):
        job = load_text(PATIO.replace('depth = "1/4in"', f'depth = "{depth}"')).job
        assert job is not None
        solution = floorwright.solve(job)
        codes = {one.code for one in solution.findings} & {"scoring-not-joint", "scoring-deep"}
        assert codes == {code}
        assert solution.scored is not None
        assert {line.kind for line in solution.scored.lines if line.to_cut > 0} == {"score"}
        assert {line.kind for line in solution.scored.lines if line.there and not line.to_cut} == {"joint"}


def test_metric_slabs_have_metric_figures() -> None:
    slab = slab_of(region(((0, 0), (288, 0), (288, 216), (0, 216))), (), 100.0, scanned=True)
    found = {one.code: one for one in joint_rules(slab, METRIC)}["scoring-spacing"]
    assert "2400 mm to 3600 mm" in found.expected


TABLE = {4: (8, 10, 12), 5: (10, 13, 15), 6: (12, 15, 18), 7: (14, 18, 21), 8: (16, 20, 24), 9: (18, 23, 27),
         10: (20, 25, 30)}  # fmt: skip


@pytest.mark.parametrize("inches", TABLE)
def test_the_table_of_joint_spacing_by_concrete(inches: int) -> None:
    """C-30, V-15: Concrete Floors on Ground, PCA, 2nd ed. 1983, joint spacing in ft, as printed in globalspec.com
    reference/57825; higher slump with aggregate under and over 3/4 in, lower slump. To the foot, half feet up."""
    feet = [spacing(inches * INCH, mix)[1] / FOOT for mix in MIXES]
    assert tuple(int(one + 0.5 + 1e-9) for one in feet) == TABLE[inches]
    assert all(most_spacing(inches * INCH, mix) <= 15 * FOOT for mix in MIXES)


def test_wetter_concrete_wants_its_joints_closer() -> None:
    """9 ft panels in 4 in of slab: 36 times is 12 ft, 24 times 8 ft."""
    codes = []
    for mix in ("lower slump", "higher slump, small stone"):
        job = load_text(PATIO.replace('thickness = "4in"', f'thickness = "4in"\nmix = "{mix}"')).job
        assert job is not None
        found = {one.code: one for one in floorwright.solve(job).findings}
        codes.append("scoring-spacing" in found)
    assert codes == [False, True]


def test_when_to_cut_and_when_to_stain() -> None:
    """C-19: Concrete Network, "Sawing and patterning": colours that change at the line, cut first; one colour, stain,
    then cut after the first coat of sealer."""
    for colours, remedy in (
        ('["walnut", "sandstone"]', "cut before staining"),
        ('["walnut"]', "stain first, and cut after"),
    ):
        text = PATIO.replace('["walnut", "sandstone"]', colours)
        if colours == '["walnut"]':
            text = text.replace('border_colour = "charcoal"\ncircle_colour = "terracotta"\n', "")
        job = load_text(text).job
        assert job is not None
        (found,) = [one for one in floorwright.solve(job).findings if one.code == "scoring-colours"]
        assert found.remedy.startswith(remedy)


def test_heating_is_an_inch_or_two_down_and_chalk_washes_off() -> None:
    """C-20: a decorative contractor's page: tubing 1 to 2 in below the surface at the least. C-21: a stain supplier,
    "Sawing and patterning": mark only where the cut goes, with chalk that washes off, or pencil."""
    job = load_text(PATIO.replace("scanned = true", "scanned = false")).job
    assert job is not None
    solution = floorwright.solve(job)
    (found,) = [one for one in solution.findings if one.code == "scoring-in-slab"]
    assert "1 to 2 in (25 to 50 mm)" in found.expected
    assert solution.scored is not None
    steps = next(
        block for block in scoring_blocks(solution.scored, Figures(style=IMPERIAL)) if isinstance(block, Steps)
    )
    assert any("chalk that washes off, or pencil; only where the cut goes" in line for line in steps.lines)
