"""What there is to say of a slab's joints before it is scored: depth, spacing, panels, corners, ends."""

from collections.abc import Iterator
from typing import Final

from floorwright.findings import Finding, Severity
from floorwright.scoring.slab import RATIO, SPACING, SPACING_MOST, Slab, least_depth, most_spacing
from floorwright.units import LengthStyle

SPACING_SOURCE: Final = "ACI 302.1R-96, read second-hand; the contract and the local code govern"
RATIO_SOURCE: Final = "ACI 302.1R-80 and K. Basham, read second-hand; the contract and the local code govern"
DEPTH_SOURCE: Final = "ACI 327R-14, read second-hand; the contract and the local code govern"
SHAPE_SOURCE: Final = "jointing guidance in Concrete Construction, read second-hand; the contract governs"

ASK: Final = "ask the designer whether a joint is to be sawn; scoring does not take its place"


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
    need = style.entered_text(least_depth(thickness), unit=True)
    sawn = [joint for joint in slab.joints if joint.kind == "contraction"]
    for joint in sawn:
        if joint.depth is not None and joint.depth < least_depth(thickness):
            yield Finding(
                code="scoring-joint-depth",
                severity=Severity.WARNING,
                place=joint.name,
                found=f"a contraction joint {style.entered_text(joint.depth, unit=True)} deep",
                expected=f"{need} or more, a quarter of the slab",
                remedy="look for cracks beside it first; the designer says whether it is cut deeper",
                source=DEPTH_SOURCE,
            )
    unmeasured = [joint.name for joint in sawn if joint.depth is None]
    if unmeasured:
        yield Finding(
            code="scoring-depth-unknown",
            severity=Severity.NOTE,
            place=", ".join(unmeasured),
            found="the depth is not booked",
            expected=f"{need} or more, a quarter of the slab",
            remedy="measure it with a thin rule, and write depth under its [[slab_joints]]",
            source=DEPTH_SOURCE,
        )


def _spacing(slab: Slab, thickness: float, style: LengthStyle) -> Iterator[Finding]:
    most = most_spacing(thickness)
    wide = [panel for panel in slab.panels if panel.long > most]
    if wide:
        low, high = (
            style.entered_text(min(times * thickness, SPACING_MOST), unit=True, feet=True) for times in SPACING
        )
        yield Finding(
            code="scoring-spacing",
            severity=Severity.WARNING,
            place="the slab",
            found=f"{_panel_count(len(wide))} up to {style.text(max(panel.long for panel in wide), unit=True)} long",
            expected=f"joints {low} to {high} apart, 24 to 36 times the thickness and no more than "
            f"{style.text(SPACING_MOST, unit=True)}",
            remedy=f"expect a crack across the middle; {ASK}",
            source=SPACING_SOURCE,
        )


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
