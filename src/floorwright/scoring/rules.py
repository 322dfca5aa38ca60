"""What there is to say of a slab's joints before it is scored: depth, spacing, panels, corners, ends."""

from collections.abc import Iterator
from typing import Final

from floorwright.findings import Finding, Severity
from floorwright.scoring.design import OldJoint
from floorwright.scoring.slab import (
    MIXES,
    RATIO,
    SPACING,
    SPACING_MOST,
    Slab,
    depth_needed,
    least_depth,
    most_spacing,
    spacing,
)
from floorwright.units import LengthStyle

SPACING_SOURCE: Final = (
    "ACI 302.1R-96 (18 ft), CSA A23.1-94 (5 m) and Concrete Construction (15 ft), read second-hand, the smallest "
    "taken; the contract and the local code govern"
)
RATIO_SOURCE: Final = "ACI 302.1R-80 and K. Basham, read second-hand; the contract and the local code govern"
DEPTH_SOURCE: Final = "ACI 327R-14, read second-hand; the contract and the local code govern"
EARLY_SOURCE: Final = "ACI 302.1R, from memory; ask the saw's maker, and the designer"
SHAPE_SOURCE: Final = "jointing guidance in Concrete Construction, read second-hand; the contract governs"

ASK: Final = "ask the designer whether a joint is to be sawn; scoring does not take its place"

TIMING: Final = (
    "joints are sawn as soon as their edges do not ravel, 4 to 12 hours after placing, 2 to 6 with an early-entry saw, "
    "so an old slab gets none by scoring"
)
"""ACI 302.1R-15 and 325.12R, as quoted in the ACI's answers, no. 915; the test of the edges: Concrete Construction,
"When to saw control joints", which has 4 hours in heat to 3 days in cold; CSA A23.1-94 has 6 to 18 hours."""


def joint_rules(slab: Slab, style: LengthStyle) -> Iterator[Finding]:
    """Yields what breaks the rules, and what could not be held against them."""
    if slab.thickness is None:
        yield Finding(
            code="scoring-no-thickness",
            severity=Severity.NOTE,
            place="the slab",
            found="its thickness is not booked, so that depth and spacing of its joints are not checked",
            remedy="measure it at an edge and write thickness under [slab]",
        )
    else:
        yield from _depths(slab, slab.thickness, style)
        yield from _spacing(slab, slab.thickness, style)
    yield from _panels(slab)
    yield from _ends(slab)


def _depths(slab: Slab, thickness: float, style: LengthStyle) -> Iterator[Finding]:
    sawn = [joint for joint in slab.joints if joint.kind == "contraction"]
    for joint in sawn:
        need = depth_needed(joint, thickness)
        if joint.depth is not None and joint.depth < need:
            yield Finding(
                code="scoring-joint-depth",
                severity=Severity.WARNING,
                place=joint.name,
                found=f"a contraction joint {style.entered_text(joint.depth, unit=True)} deep",
                expected=_depth_text(joint, thickness, style),
                remedy="look for cracks beside it first; the designer says whether it is cut deeper",
                source=EARLY_SOURCE if joint.early else DEPTH_SOURCE,
            )
    unmeasured = [joint for joint in sawn if joint.depth is None]
    if unmeasured:
        yield Finding(
            code="scoring-depth-unknown",
            severity=Severity.NOTE,
            place=", ".join(joint.name for joint in unmeasured),
            found="the depth is not booked",
            expected=_depth_text(unmeasured[0], thickness, style),
            remedy="measure it with a thin rule, and write depth under its [[slab_joints]]",
            source=DEPTH_SOURCE,
        )


def _depth_text(joint: OldJoint, thickness: float, style: LengthStyle) -> str:
    need = depth_needed(joint, thickness)
    why = "a quarter of the slab" if need == least_depth(thickness) else "sawn in the first hours"
    return f"{style.entered_text(need, unit=True)} or more, {why}"


def _spacing(slab: Slab, thickness: float, style: LengthStyle) -> Iterator[Finding]:
    most = most_spacing(thickness, slab.mix)
    wide = [panel for panel in slab.panels if panel.long > most]
    if wide:
        apart = [
            style.entered_text(min(one, SPACING_MOST), unit=True, feet=True) for one in spacing(thickness, slab.mix)
        ]
        yield Finding(
            code="scoring-spacing",
            severity=Severity.WARNING,
            place="the slab",
            found=f"{_panel_count(len(wide))} up to {style.text(max(panel.long for panel in wide), unit=True)} long",
            expected=f"joints {' to '.join(dict.fromkeys(apart))} apart, {_times(slab)} the thickness and no more than "
            f"{style.text(SPACING_MOST, unit=True)}",
            remedy=f"expect a crack across the middle; {ASK}; {TIMING}",
            source=SPACING_SOURCE,
        )


def _times(slab: Slab) -> str:
    low, high = SPACING[0], MIXES.get(slab.mix, SPACING[1])
    return f"{low} times" if low == high else f"{low} to {high} times"


def _panels(slab: Slab) -> Iterator[Finding]:
    better, most = RATIO
    long = [panel for panel in slab.panels if panel.ratio > better + 0.005]
    if long:
        worst = max(panel.ratio for panel in long)
        yield Finding(
            code="scoring-panel-ratio",
            severity=Severity.WARNING if worst > most + 0.005 else Severity.NOTE,
            place="the slab",
            found=f"{_panel_count(len(long))} longer than {better:g} times the width, the longest {worst:.2f} times",
            expected=f"{most:g} at the most, {better:g} better",
            remedy=ASK,
            source=RATIO_SOURCE,
        )
    hollow = sum(panel.hollow for panel in slab.panels)
    if hollow:
        yield Finding(
            code="scoring-panel-shape",
            severity=Severity.WARNING,
            place="the slab",
            found=f"{_panel_count(hollow)} shaped like an L or a T, or with a notch",
            expected="panels near square, without corners that turn in",
            remedy=f"expect a crack from the corner that turns in; {ASK}",
            source=SHAPE_SOURCE,
        )


def _ends(slab: Slab) -> Iterator[Finding]:
    if slab.bare:
        corners = "corner turns" if slab.bare == 1 else "corners turn"
        yield Finding(
            code="scoring-inside-corner",
            severity=Severity.WARNING,
            place="the slab",
            found=f"{slab.bare} {corners} into the slab with no joint from there",
            expected="a joint from every corner that turns in",
            remedy=f"expect a crack from the corner; {ASK}",
            source=SHAPE_SOURCE,
        )
    for end in slab.loose:
        yield Finding(
            code="scoring-joint-end",
            severity=Severity.WARNING,
            place=end.joint,
            found=f"ends at {end.on}, another contraction joint" if end.on else "ends inside the slab",
            expected="joints run to the slab's edge or to a joint of full depth",
            remedy="look for a crack that runs on from the end; write down where the joint truly ends",
            source=SHAPE_SOURCE,
        )


def _panel_count(count: int) -> str:
    return "a panel" if count == 1 else f"{count} panels"
