"""Rules of joints in slabs. Their sources were read second-hand, as docs/scoring.md says of each."""

from collections.abc import Sequence

import pytest
from tests.scoring.slabs import JOINTS, PATIO, joint, region

from floorwright.findings import Finding, Severity
from floorwright.scoring.design import OldJoint
from floorwright.scoring.rules import joint_rules
from floorwright.scoring.slab import least_depth, most_spacing, slab_of
from floorwright.units import FOOT, IMPERIAL, INCH, METRIC

IN = float(INCH)


def said(
    points: Sequence[tuple[float, float]], joints: Sequence[OldJoint], thickness: float | None = 4 * IN
) -> dict[str, Finding]:
    slab = slab_of(region(points), joints, thickness, scanned=True)
    return {finding.code: finding for finding in joint_rules(slab, IMPERIAL)}


def test_depth_is_a_quarter_of_the_slab() -> None:
    """ACI 327R-14 as quoted in the ACI's answers, no. 915: a 4 in slab wants 1 in, one of 125 mm wants 31.25 mm."""
    assert least_depth(4 * IN) == pytest.approx(IN)
    assert least_depth(125.0) == 31.25


@pytest.mark.parametrize(("inches", "feet"), [(4, 12), (5, 15), (6, 15), (8, 15), (10, 15)])
def test_spacing_is_36_times_the_slab_and_no_more_than_15_ft(inches: int, feet: int) -> None:
    """24 to 36 times, and of 18 ft, 5 m and 15 ft the smallest: documents differ, see `slab.SPACING_MOST`."""
    assert most_spacing(inches * IN) == pytest.approx(feet * float(FOOT))


def test_panels_of_8_by_9_ft_pass() -> None:
    """Scenario S4: ratio 1.125, joints an inch deep or more."""
    joints = [joint(str(n), ends, depth=IN) for n, ends in enumerate(JOINTS)]
    assert said(PATIO, joints) == {}
    slab = slab_of(region(PATIO), joints, 4 * IN, scanned=True)
    assert [round(panel.ratio, 3) for panel in slab.panels] == [1.125] * 6


def test_a_score_is_no_joint() -> None:
    """A quarter of an inch in a 4 in slab: far from an inch."""
    found = said(PATIO, [joint("8 ft joint", JOINTS[0], depth=IN / 4)])
    assert found["scoring-joint-depth"].severity is Severity.WARNING
    assert '1/4"' in found["scoring-joint-depth"].found
    assert found["scoring-joint-depth"].expected.startswith('1" or more')


def test_a_joint_of_unknown_depth_is_told_once() -> None:
    found = said(PATIO, [joint(str(n), ends) for n, ends in enumerate(JOINTS)])
    assert set(found) == {"scoring-depth-unknown"}
    assert found["scoring-depth-unknown"].place == "0, 1, 2"


def test_isolation_joints_need_no_depth() -> None:
    assert said(PATIO, [joint(str(n), ends, kind="isolation") for n, ends in enumerate(JOINTS)]) == {}


def test_a_slab_without_joints_is_one_panel_too_long() -> None:
    found = said(PATIO, [])
    assert found["scoring-spacing"].severity is Severity.WARNING
    assert "8'-0\" to 12'-0\"" in found["scoring-spacing"].expected
    assert found["scoring-panel-ratio"].severity is Severity.NOTE  # 24 by 18: 1.33


def test_a_long_panel_is_a_warning_past_one_and_a_half() -> None:
    found = said(((0, 0), (144, 0), (144, 72), (0, 72)), [])
    assert found["scoring-panel-ratio"].severity is Severity.WARNING
    assert "2.00" in found["scoring-panel-ratio"].found


L_SHAPE = ((0, 0), (144, 0), (144, 72), (72, 72), (72, 144), (0, 144))


def test_a_corner_that_turns_in_wants_a_joint_from_it() -> None:
    found = said(L_SHAPE, [])
    assert {"scoring-inside-corner", "scoring-panel-shape"} <= set(found)
    mended = said(
        L_SHAPE,
        [joint("a", ((72, 72), (72, 0)), depth=IN), joint("b", ((72, 72), (0, 72)), depth=IN)],
    )
    # Both joints end in the corner, which is an edge of the slab.
    assert mended == {}


def test_a_joint_ends_at_an_edge_or_at_full_depth() -> None:
    across = joint("across", ((96, 0), (96, 216)), depth=IN)
    stub = joint("stub", ((96, 108), (288, 108)), depth=IN)
    assert said(PATIO, [across, stub])["scoring-joint-end"].found == "ends at across, another contraction joint"
    deep = joint("across", ((96, 0), (96, 216)), kind="construction")
    assert "scoring-joint-end" not in said(PATIO, [deep, stub])
    loose = joint("loose", ((200, 108), (288, 108)), depth=IN)
    assert said(PATIO, [loose])["scoring-joint-end"].found == "ends inside the slab"


def test_without_a_thickness_it_says_what_it_did_not_check() -> None:
    assert "scoring-no-thickness" in said(PATIO, [joint("8 ft joint", JOINTS[0])], None)


def test_metric_slabs_are_told_in_mm() -> None:
    slab = slab_of(region(PATIO), (), 100.0, scanned=True)
    found = {finding.code: finding for finding in joint_rules(slab, METRIC)}
    assert "2400 mm to 3600 mm" in found["scoring-spacing"].expected
