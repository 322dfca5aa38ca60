"""What there is to say of a scored slab: what lands, what does not, what the saw leaves, and what the lines are not."""

from collections.abc import Iterator
from typing import Final

from floorwright.findings import Finding, Severity
from floorwright.scoring.landing import Landing, Search
from floorwright.scoring.rules import DEPTH_SOURCE
from floorwright.scoring.scored import Scored
from floorwright.scoring.slab import Slab, least_depth
from floorwright.tolerance import TOUCH
from floorwright.units import LengthStyle

PRACTICE: Final = "common practice, no source"

DUST: Final = (
    "Sawing concrete makes silica dust that ruins lungs: saw wet, or with a shroud and an extractor made for it, wear "
    "the mask that your rules ask for, and keep others away. Eyes, ears, boots; no loose clothes; wet floors slip, and "
    "a saw in the wet needs a residual-current breaker. Local rules govern."
)

IN_SLAB: Final = (
    "Before any cut find out what is in it: post-tension cables (a cut one can kill), reinforcement near the top, "
    "pipes, cables, heating. Drawings and a scan, never a guess; stop and ask where nobody knows."
)


def findings_of(scored: Scored, slab: Slab, style: LengthStyle) -> tuple[Finding, ...]:
    """Returns what there is to say of a scored slab, its joints apart (`rules`)."""
    place = f"scoring {scored.design.name}"
    return tuple(_findings(scored, slab, style, place))


def _findings(scored: Scored, slab: Slab, style: LengthStyle, place: str) -> Iterator[Finding]:
    if scored.field is None:
        yield Finding(
            code="scoring-no-field",
            severity=Severity.ERROR,
            place=place,
            found="borders that leave nothing between them",
            expected="a border narrower than half the slab",
            remedy="make border_ends and border_sides narrower",
        )
        return
    for number in scored.outside:
        radius = style.entered_text(scored.design.circles[number - 1].radius, unit=True)
        yield Finding(
            code="scoring-circle-off",
            severity=Severity.ERROR,
            place=f"{place}, circle {number}",
            found=f"a circle of radius {radius} that runs off the slab",
            expected="a whole circle on the slab",
            remedy="move its centre, or make it smaller",
        )
    if scored.outside:
        return
    yield from _joints(scored, style, place)
    yield from _searched(scored, style, place)
    yield from _not_joints(scored, slab, style, place)
    yield from _saw(scored, slab, style, place)
    yield from _stain(scored, place)


def _joints(scored: Scored, style: LengthStyle, place: str) -> Iterator[Finding]:
    for missed in scored.missed:
        beside = "" if missed.off is None else f"; the nearest runs {style.text(missed.off, unit=True)} beside it"
        yield Finding(
            code="scoring-off-joint",
            severity=Severity.WARNING,
            place=place,
            found=f"no line lies on {missed.joint} all the way{beside}",
            expected="a line on every joint in the slab: a joint between lines shows as a crack does",
            remedy=_instead(scored, style),
            source=PRACTICE,
        )
    for rest, which in zip(scored.rest, ("along the first line", "square to the first line"), strict=True):
        if rest:
            yield Finding(
                code="scoring-part-square",
                severity=Severity.WARNING,
                place=place,
                found=f"the last square {which} is {style.text(rest, unit=True)}",
                expected="squares that are whole from border to border",
                remedy=_instead(scored, style),
                source=PRACTICE,
            )


def _instead(scored: Scored, style: LengthStyle) -> str:
    """What lands instead, as few words as it takes."""
    found = scored.search
    if found is None:
        return "move the border or change the size until a line lies on it"
    if not found.landings:
        return "nothing within the limits of the search lands; make its step or its limits wider"
    size = scored.design.cell.size[0]
    same = next((landing for landing in found.landings if abs(landing.size - size) <= TOUCH), None)
    said = [f"keep the size and take {landing_borders(same, style)}"] if same else []
    equal = [style.entered_text(one.size, unit=True) for one in found.landings if one.equal]
    said += [f"with one border all round, squares of {' or '.join(equal)}"] if equal else []
    return "; or ".join(said) or f"squares of {_sizes(found, style)} land"


def _sizes(found: Search, style: LengthStyle) -> str:
    return " or ".join(style.entered_text(landing.size, unit=True) for landing in found.landings)


def landing_borders(landing: Landing, style: LengthStyle) -> str:
    """Returns the borders of a size, as they are said."""
    ends, sides = (
        " or ".join(style.entered_text(border, unit=True) for border in borders)
        for borders in (landing.ends, landing.sides)
    )
    return f"borders of {ends} at the ends and {sides} along the sides"


def searched_text(found: Search, style: LengthStyle) -> str:
    """Returns what was searched, as its proof: every border and every square of so much to so much."""
    step, least, most, size = (
        style.entered_text(figure, unit=True)
        for figure in (found.limits.step, found.limits.border_least, found.limits.border_most, found.limits.size_least)
    )
    return (
        f"searched: every border from {least} to {most} and every square from {size} up, in steps of {step} "
        f"({found.borders} borders at the ends by {found.borders} along the sides by {found.sizes} squares), in whole "
        "numbers: what is listed is all that lands"
    )


def _searched(scored: Scored, style: LengthStyle, place: str) -> Iterator[Finding]:
    found = scored.search
    if found is None:
        if scored.joints and scored.design.limits is not None:
            yield Finding(
                code="scoring-not-searched",
                severity=Severity.NOTE,
                place=place,
                found="an edge or a joint of the slab runs askew of the first line, so borders were not searched",
                remedy="choose another first line, or borders by hand",
            )
        return
    listed = "; ".join(
        f"{style.entered_text(one.size, unit=True)} with {landing_borders(one, style)}" for one in found.landings
    )
    yield Finding(
        code="scoring-searched",
        severity=Severity.NOTE,
        place=place,
        found=f"{searched_text(found, style)}. Squares of {listed}" if listed else searched_text(found, style),
        remedy="" if listed else "make the limits wider, or let the pattern leave the joints",
    )
    if found.moved > TOUCH:
        yield Finding(
            code="scoring-moved",
            severity=Severity.NOTE,
            place=place,
            found=f"for the search an edge or a joint was taken up to {style.text(found.moved, unit=True)} from where "
            "it is, at the nearest whole step",
            remedy="the lines are laid on the joints; the border takes the difference",
        )


def _not_joints(scored: Scored, slab: Slab, style: LengthStyle, place: str) -> Iterator[Finding]:
    depth = style.entered_text(scored.design.saw.depth, unit=True)
    if slab.thickness is not None and scored.design.saw.depth >= least_depth(slab.thickness):
        yield Finding(
            code="scoring-deep",
            severity=Severity.WARNING,
            place=place,
            found=f"lines {depth} deep in {style.entered_text(slab.thickness, unit=True)} of slab, as deep as a joint",
            expected="decoration that is no deeper than it has to be, about 6 mm (1/4 in)",
            remedy="cut shallower: the slab cracks under deep lines, and where one stops the crack runs on",
            source="a decorative contractor's page, read second-hand",
        )
        return
    need = ""
    if slab.thickness is not None:
        need = f"a joint here is {style.entered_text(least_depth(slab.thickness), unit=True)} deep or more, and "
    yield Finding(
        code="scoring-not-joint",
        severity=Severity.NOTE,
        place=place,
        found=f"score lines {depth} deep are decoration and control no cracks",
        expected=f"{need}joints run straight through to the slab's edges; {scored.stops} ends of cuts stop in the slab",
        remedy="only the joints that are there count as joints; what more the slab needs is the designer's to say",
        source=DEPTH_SOURCE,
    )


def _saw(scored: Scored, slab: Slab, style: LengthStyle, place: str) -> Iterator[Finding]:
    if scored.stops:
        yield Finding(
            code="scoring-over-cut",
            severity=Severity.NOTE,
            place=place,
            found=f"at a stop the bottom of the cut falls {style.text(scored.over_cut, unit=True, feet=False)} "
            f"short of its top; {scored.stops} stops",
            remedy="stop the blade at the node and finish the corner by hand; run on by as much, and it shows for good",
            source="geometry: sqrt(d (D - d)) of depth d and blade D",
        )
    if scored.joints:
        yield Finding(
            code="scoring-measure-joints",
            severity=Severity.NOTE,
            place=place,
            found="sawn joints may lie 3/4 in (19 mm) from where they were drawn, and still be within tolerance",
            remedy="measure every joint at both ends before the first line is struck, and book what the tape reads",
            source="ACI 117-90, read second-hand",
        )
    if not slab.scanned:
        yield Finding(
            code="scoring-in-slab",
            severity=Severity.WARNING,
            place="the slab",
            found="nobody has said that it was looked into for cables, pipes and heating",
            expected="drawings and a scan before the first cut: a cut post-tension cable can kill",
            remedy="find out, then write scanned = true under [slab]",
            source="common caution; local rules govern",
        )
    yield Finding(
        code="scoring-dust",
        severity=Severity.NOTE,
        place=place,
        found="sawing concrete dry fills the air with silica dust",
        expected="wet sawing, or a shroud with an extractor, and the mask that local rules ask for",
        remedy="read the cautions on the sheet before the saw is started",
        source="common caution; local rules govern",
    )


def _stain(scored: Scored, place: str) -> Iterator[Finding]:
    colours = [colour for colour in (*scored.design.colours, scored.design.border_colour) if colour]
    if not colours:
        return
    if len(set(colours)) > 1:
        found, remedy = "colours change at the lines", "cut before staining: the cut is what keeps the colours apart"
    else:
        found, remedy = "one colour across the lines", "stain first, and cut after the first coat of sealer"
    yield Finding(
        code="scoring-colours",
        severity=Severity.NOTE,
        place=place,
        found=found,
        remedy=remedy,
        source="trade advice on stained concrete, read second-hand",
    )
    if scored.alike:
        yield Finding(
            code="scoring-alike",
            severity=Severity.WARNING,
            place=place,
            found=f"{scored.alike} pairs of neighbours have the same colour",
            expected="neighbours of two colours",
            remedy=f"name more than {len(scored.design.colours)} colours, or mark on the plan who gets which",
        )
