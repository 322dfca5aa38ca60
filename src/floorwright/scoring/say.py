"""What there is to say of a scored slab: what lands, what does not, what the saw leaves, and what the lines are not."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from floorwright.findings import Finding, Severity
from floorwright.scoring.landing import Landing, Search
from floorwright.scoring.rules import DEPTH_SOURCE
from floorwright.scoring.scored import Scored, colours
from floorwright.scoring.slab import Slab, least_depth
from floorwright.tolerance import TOUCH
from floorwright.units import LengthStyle

PRACTICE: Final = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """What findings are made of, and how lengths in them are written."""

    scored: Scored
    slab: Slab
    style: LengthStyle

    def note(self, code: str, found: str, **more: str) -> Finding:
        return self._finding(Severity.NOTE, code, found, **more)

    def warning(self, code: str, found: str, **more: str) -> Finding:
        return self._finding(Severity.WARNING, code, found, **more)

    def error(self, code: str, found: str, **more: str) -> Finding:
        return self._finding(Severity.ERROR, code, found, **more)

    def _finding(self, severity: Severity, code: str, found: str, **more: str) -> Finding:
        place = f"scoring {self.scored.design.name}"
        return Finding(code=code, severity=severity, found=found, **{"place": place, **more})


def findings_of(scored: Scored, slab: Slab, style: LengthStyle) -> tuple[Finding, ...]:
    """Returns what there is to say of a scored slab, its joints apart (`rules`)."""
    return tuple(_findings(_Told(scored=scored, slab=slab, style=style)))


def _findings(told: _Told) -> Iterator[Finding]:
    scored = told.scored
    if scored.field is None:
        yield told.error(
            "scoring-no-field",
            found="borders that leave nothing between them",
            expected="a border narrower than half the slab",
            remedy="make border_ends and border_sides narrower",
        )
        return
    for number in scored.outside:
        radius = told.style.entered_text(scored.design.circles[number - 1].radius, unit=True)
        yield told.error(
            "scoring-circle-off",
            place=f"scoring {scored.design.name}, circle {number}",
            found=f"a circle of radius {radius} that runs off the slab",
            expected="a whole circle on the slab",
            remedy="move its centre, or make it smaller",
        )
    if scored.outside:
        return
    yield from _joints(told)
    yield from _searched(told)
    yield from _not_joints(told)
    yield from _saw(told)
    yield from _stain(told)


def _joints(told: _Told) -> Iterator[Finding]:
    scored, style = told.scored, told.style
    for missed in scored.missed:
        if missed.askew and scored.search is not None:
            yield told.warning(
                "scoring-askew",
                found=f"{missed.joint} strays {style.text(missed.askew, unit=True)} from the lines over its "
                f"{style.text(missed.length, unit=True)}, so no line lies on it, and the search left it out",
                expected="joints along the first line, or square to it",
                remedy="measure both its ends again; if it is so let it show, choose the first line along it, or score "
                "what lies on either side of it in an outline of its own",
                source=PRACTICE,
            )
            continue
        beside = "" if missed.off is None else f"; the nearest runs {style.text(missed.off, unit=True)} beside it"
        yield told.warning(
            "scoring-off-joint",
            found=f"no line lies on {missed.joint} all the way{beside}",
            expected="a line on every joint in the slab: a joint between lines shows as a crack does",
            remedy=_instead(scored, style),
            source=PRACTICE,
        )
    for rest, which in zip(scored.rest, ("along the first line", "square to the first line"), strict=True):
        if rest:
            yield told.warning(
                "scoring-part-square",
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


def _searched(told: _Told) -> Iterator[Finding]:
    scored, style = told.scored, told.style
    found = scored.search
    if found is None:
        if scored.joints and scored.design.limits is not None:
            yield told.note(
                "scoring-not-searched",
                found="an edge of the slab, or every joint, runs askew of the first line, so borders were not searched",
                remedy="choose another first line, or borders by hand",
            )
        return
    listed = "; ".join(
        f"{style.entered_text(one.size, unit=True)} with {landing_borders(one, style)}" for one in found.landings
    )
    yield told.note(
        "scoring-searched",
        found=f"{searched_text(found, style)}. Squares of {listed}" if listed else searched_text(found, style),
        remedy="" if listed else "make the limits wider, or let the pattern leave the joints",
    )
    if found.moved > TOUCH:
        yield told.note(
            "scoring-moved",
            found=f"for the search an edge or a joint was taken up to {style.text(found.moved, unit=True)} from where "
            "it is, at the nearest whole step",
            remedy="the lines are laid on the joints; the border takes the difference",
        )


def _not_joints(told: _Told) -> Iterator[Finding]:
    scored, slab, style = told.scored, told.slab, told.style
    depth = style.entered_text(scored.design.saw.depth, unit=True)
    if slab.thickness is not None and scored.design.saw.depth >= least_depth(slab.thickness):
        yield told.warning(
            "scoring-deep",
            found=f"lines {depth} deep in {style.entered_text(slab.thickness, unit=True)} of slab, as deep as a joint",
            expected="decoration that is no deeper than it has to be, about 6 mm (1/4 in)",
            remedy="cut shallower: the slab cracks under deep lines, and where one stops the crack runs on",
            source="a decorative contractor's page, read second-hand",
        )
        return
    need = ""
    if slab.thickness is not None:
        need = f"a joint here is {style.entered_text(least_depth(slab.thickness), unit=True)} deep or more, and "
    yield told.note(
        "scoring-not-joint",
        found=f"score lines {depth} deep are decoration and control no cracks",
        expected=f"{need}joints run straight through to the slab's edges; {scored.stops} ends of cuts stop in the slab",
        remedy="only the joints that are there count as joints; what more the slab needs is the designer's to say",
        source=DEPTH_SOURCE,
    )


def _saw(told: _Told) -> Iterator[Finding]:
    scored, slab, style = told.scored, told.slab, told.style
    if scored.stops:
        yield told.note(
            "scoring-over-cut",
            found=f"at a stop the bottom of the cut falls {style.text(scored.over_cut, unit=True, feet=False)} "
            f"short of its top; {scored.stops} stops",
            remedy="stop the blade at the node and finish the corner by hand; run on by as much, and it shows for good",
            source="geometry: sqrt(d (D - d)) of depth d and blade D",
        )
    if scored.joints:
        yield told.note(
            "scoring-measure-joints",
            found="sawn joints may lie 3/4 in (19 mm) from where they were drawn, and still be within tolerance",
            remedy="measure every joint at both ends before the first line is struck, and book what the tape reads",
            source="ACI 117-90, read second-hand",
        )
    if not slab.scanned:
        yield told.warning(
            "scoring-in-slab",
            place="the slab",
            found="nobody has said that it was looked into for cables, pipes and heating",
            expected="drawings and a scan before the first cut: a cut post-tension cable can kill, and heating pipes "
            "lie 1 to 2 in (25 to 50 mm) down at the least",
            remedy="find out, then write scanned = true under [slab]",
            source="common caution; local rules govern",
        )
    yield told.note(
        "scoring-dust",
        found="sawing concrete dry fills the air with silica dust",
        expected="wet sawing, or a shroud with an extractor, and the mask that local rules ask for",
        remedy="read the cautions on the sheet before the saw is started",
        source="common caution; local rules govern",
    )


def _stain(told: _Told) -> Iterator[Finding]:
    scored = told.scored
    stains = colours(scored)
    if not stains:
        return
    if len(stains) > 1:
        found, remedy = "colours change at the lines", "cut before staining: the cut is what keeps the colours apart"
    else:
        found, remedy = "one colour across the lines", "stain first, and cut after the first coat of sealer"
    yield told.note(
        "scoring-colours",
        found=found,
        remedy=remedy,
        source="trade advice on stained concrete, read second-hand",
    )
    if scored.alike:
        yield told.warning(
            "scoring-alike",
            found=f"{scored.alike} pairs of neighbours have the same colour",
            expected="neighbours of two colours",
            remedy="name a further colour there, or mark on the plan who gets which",
        )
