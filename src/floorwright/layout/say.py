"""What a layout has to tell a person: limits broken, options refused, joints offered, and what a choice costs."""

from collections.abc import Iterator

import numpy as np

from floorwright.control.words import fine, fine_bare, out_over
from floorwright.findings import Finding, Severity
from floorwright.layout.aims import COUNTS
from floorwright.layout.angles import turn_text
from floorwright.layout.axis import axes_of, wall_faces
from floorwright.layout.option import Proof
from floorwright.layout.reach import thin_trims
from floorwright.layout.said import Said, joint_text, side, text, zone
from floorwright.layout.say_joints import of_limit, of_offers, of_passed_over
from floorwright.layout.say_ways import of_ways_out
from floorwright.layout.score import Floor
from floorwright.layout.walls import strip_at
from floorwright.tolerance import LEAST_TRIM, RANK_STEP


def findings_of(floor: Floor, said: Said) -> tuple[Finding, ...]:
    """Returns the findings of a layout, in the order in which a person needs them."""
    return (
        *_of_goods(floor, said),
        *_of_choice(floor, said),
        *of_limit(floor, said),
        *of_offers(floor, said),
        *_of_refusals(floor, said),
        *of_ways_out(floor, said),
        *_of_hand(floor, said),
        *_of_gaps(floor, said),
        *_of_trims(floor, said),
        *_of_tapers(floor, said),
        *_of_proofs(floor, said),
        *_of_trade(floor, said),
        *_of_angles(floor, said),
        *of_passed_over(floor, said),
    )


def findings_of_strip(floor: Floor, said: Said) -> tuple[Finding, ...]:
    """Returns the findings of one side of a border: as of a layout, less what only a search or a room has to say."""
    return (
        *_of_choice(floor, said),
        *of_limit(floor, said),
        *_of_hand(floor, said),
        *_of_trims(floor, said),
    )


def taper_of_strip(floor: Floor, wall: str, thin: float, fat: float) -> list[Finding]:
    """Returns that a border takes the taper of a wall, where it prints as one.

    Args:
        floor: of the strip.
        wall: that it runs along.
        thin, fat: mm, its width at both ends.
    """
    if abs(floor.style.steps(fat) - floor.style.steps(thin)) <= 1:
        return []
    return [
        Finding(
            code="layout-border-taper",
            severity=Severity.NOTE,
            place=zone(floor),
            found=f"the border takes the taper of wall {wall}: {text(floor, thin)} to {text(floor, fat)} wide, "
            "its inside line true to the first line",
            remedy='taper = "field" keeps it as wide all along and leaves the taper to the field',
            source="our default",
        )
    ]


def _of_goods(floor: Floor, said: Said) -> list[Finding]:
    found = []
    spans = np.ptp(floor.region.rings[0], axis=0)
    if min(said.cell.size) > min(spans) or max(said.cell.size) > max(spans):
        length, width = (text(floor, size) for size in said.cell.size)
        found.append(
            Finding(
                code="layout-tile-larger-than-room",
                severity=Severity.WARNING,
                place=zone(floor),
                found=f"a tile of {length} x {width} on a floor of {' x '.join(text(floor, span) for span in spans)}",
                expected="a tile smaller than the floor",
                remedy="check the unit of the tile's size; if it is right, carry on",
            )
        )
    if said.joint == 0:
        found.append(
            Finding(
                code="layout-zero-joint",
                severity=Severity.WARNING,
                place=zone(floor),
                found="a joint of 0: the tiles touch",
                expected="a joint that takes up how the tiles differ in size",
                remedy="check the joint; if the goods are made to be laid touching, carry on",
                source="our default",
            )
        )
    return found


def _of_choice(floor: Floor, said: Said) -> list[Finding]:
    if said.wanted and said.wanted not in said.named:
        near = [name for name in said.named if said.wanted in name]
        return [
            Finding(
                code="layout-unknown-option",
                severity=Severity.ERROR,
                place=zone(floor),
                found=f"no option is called {said.wanted!r}",
                expected="one of: " + "; ".join(said.named),
                remedy=(f"perhaps {near[0]!r}; " if near else "")
                + "copy a name from the options, or leave it out for the recommended one",
                source="yours",
            )
        ]
    found = []
    if said.wanted and said.chosen is not said.recommended:
        best, own = said.recommended, said.chosen
        found.append(
            Finding(
                code="layout-own-option",
                severity=Severity.NOTE,
                place=zone(floor),
                found=(
                    f"yours: {own.name}, worst piece {text(floor, own.worst)}, {own.under} under the limit, "
                    f"{own.cut} cut, joint {joint_text(floor, own.joint)}"
                ),
                expected=(
                    f"recommended: {best.name}, worst piece {text(floor, best.worst)}, {best.under} under the limit, "
                    f"{best.cut} cut, joint {joint_text(floor, best.joint)}"
                ),
                source="yours",
            )
        )
    if said.chosen.refused:
        found.append(
            Finding(
                code="layout-none-fits" if said.recommended.refused else "layout-own-refused",
                severity=Severity.WARNING,
                place=zone(floor),
                found=f"{said.chosen.name} {said.chosen.refused}",
                expected="an option that can be laid",
                remedy="allow wider joints, a wider gap or another angle"
                if said.recommended.refused
                else f"{said.recommended.name} can be laid",
            )
        )
    return found


def _of_refusals(floor: Floor, said: Said) -> list[Finding]:
    return [
        Finding(
            code="layout-refused",
            severity=Severity.NOTE,
            place=zone(floor),
            found=f"refused: {option.name}: {option.refused}",
            source="our default" if "too narrow to saw" in option.refused else "geometry",
        )
        for option in said.options
        if option.refused and option is not said.chosen
    ]


def _of_hand(floor: Floor, said: Said) -> list[Finding]:
    chosen = said.chosen
    if not chosen.fragile:
        return []
    return [
        Finding(
            code="layout-fragile",
            severity=Severity.WARNING,
            place=zone(floor),
            found=f"laid {' or '.join(_hand(floor))}, the worst piece falls from {text(floor, chosen.worst)} "
            f"to {text(floor, chosen.shaken)}",
            expected="a worst piece that a small error does not spoil",
            remedy="check the control lines again before the first tile, or " + _firmer(floor, said),
        )
    ]


def _firmer(floor: Floor, said: Said) -> str:
    """What to lay instead of a fragile option: the best that is not, else what stays widest in the hand."""
    others = [option for option in said.options if not option.refused and option is not said.chosen]
    firm = [option for option in others if not option.fragile]
    widest = max(others, key=lambda option: round(option.shaken / RANK_STEP), default=said.chosen)
    other = firm[0] if firm else widest
    if other.shaken <= said.chosen.shaken:
        return "set them out more truly: no other option stays wider"
    falls = f"the narrowest {text(floor, other.worst)}, and {text(floor, other.shaken)} when laid so far out"
    return f"take {other.name}: {other.cut} cut, {falls}"


def _of_gaps(floor: Floor, said: Said) -> list[Finding]:
    """Walls at which the gap is wider than the least, as far as it may be."""
    found: list[Finding] = []
    if said.chosen.refused or floor.spare <= 0:
        return found
    origin, axes = np.array(said.chosen.placement.origin), axes_of(said.cell, said.chosen.placement.angle)
    for axis, other in zip(axes, reversed(axes), strict=True):
        for face in wall_faces(floor.sides, axis):
            strip = strip_at(face, axis, other, origin, 0.0)
            if strip is None:
                continue
            gap = floor.gap[0] + strip.fat - strip.tile
            found.append(
                Finding(
                    code="layout-gap-widened",
                    severity=Severity.NOTE,
                    place=side(floor, face.name),
                    found=f"the last tiles stay full, with a gap of {text(floor, gap)} to the wall",
                    expected=f"a gap of {text(floor, floor.gap[0])} to {text(floor, floor.gap[1])}",
                    source="yours",
                )
            )
    return found


def _of_trims(floor: Floor, said: Said) -> list[Finding]:
    """A strip too thin to saw off a tile, all along a wall or at the fat end of its cut."""
    found = []
    for wall, off, all_along in thin_trims(said.chosen.walls):
        where = "" if all_along else " at its fat end"
        gap = floor.gap[0] - off
        full = f", or lay full tiles with a gap of {fine_bare(gap, floor.style)} there" if gap > 0 else ""
        found.append(
            Finding(
                code="layout-thin-trim",
                severity=Severity.WARNING if all_along else Severity.NOTE,
                place=side(floor, wall.wall),
                found=f"the cut takes only {fine_bare(off, floor.style)} off the tile{where}",
                expected=f"at least {fine_bare(LEAST_TRIM, floor.style)} to saw off, or a full tile",
                remedy=f"grind it off{full}",
                source="our default",
            )
        )
    return found


def _hand(floor: Floor) -> Iterator[str]:
    """How far out a hand may lay the pattern."""
    if floor.shift_sd > 0:
        yield f"{fine(floor.shift_sd, floor.style)} out"
    if floor.turn_sd > 0:
        yield f"turned by {out_over(floor.turn_sd, floor.style)}"


def _of_tapers(floor: Floor, said: Said) -> list[Finding]:
    hidden = {one.name for one in floor.sides if one.hidden}
    found = []
    for wall in said.chosen.walls:
        start, end = text(floor, wall.start), text(floor, wall.end)
        # A cut that is one graduation wider at one end may well be the same: nobody saws the difference.
        if abs(floor.style.steps(wall.start) - floor.style.steps(wall.end)) <= 1:
            continue
        found.append(
            Finding(
                code="layout-taper",
                severity=Severity.NOTE,
                place=side(floor, wall.wall),
                found=f"the cut runs from {start} to {end}: {_a_tile(floor, wall.taper)}"
                + (", hidden" if wall.wall in hidden else ""),
            )
        )
    return found


def _a_tile(floor: Floor, taper: float) -> str:
    if floor.style.steps(taper) == 0:
        return f"under {text(floor, floor.style.mm(1))} a tile"
    return f"{text(floor, taper)} a tile"


def _of_proofs(floor: Floor, said: Said) -> list[Finding]:
    return [
        Finding(
            code="layout-not-proved",
            severity=Severity.NOTE,
            place=zone(floor),
            found=f"{_figure(floor, proof, proof.best)} is the best found with a joint of "
            f"{joint_text(floor, proof.joint)}: {proof.why}",
            expected=f"none does better than {_figure(floor, proof, proof.bound)}",
        )
        for proof in (*said.proofs, *said.staged)
        if proof.status != "proved"
    ]


def _figure(floor: Floor, proof: Proof, value: float) -> str:
    if proof.number < 0:
        return text(floor, value)
    figure = f"{value:.0f}" if proof.aim in COUNTS else text(floor, value)
    return f"{figure} ({proof.aim})"


def _of_angles(floor: Floor, said: Said) -> list[Finding]:
    if not said.angles:
        return []
    tried = ", ".join(turn_text(angle, said.along).removeprefix("at ") for angle in sorted(said.angles))
    return [
        Finding(
            code="layout-angles",
            severity=Severity.NOTE,
            place=zone(floor),
            found=f"the pattern was tried at {tried} from the first line, all positions at each"
            f"{_between_text(floor, said.between)}",
            remedy="name an angle of your own under `angle`, if another is wanted" if said.between else "",
            source="yours",
        )
    ]


def _between_text(floor: Floor, proof: Proof | None) -> str:
    """What is known of the angles of a range that were not tried."""
    if proof is None:
        return ""
    joint, best, bound = joint_text(floor, proof.joint), text(floor, proof.best), text(floor, proof.bound)
    known = f"with a joint of {joint} no angle of the range has a worst piece wider than {bound}"
    how = (
        f"{best} is within {text(floor, proof.tolerance)} of it: proved"
        if not proof.why
        else f"{best} is found; {proof.why}"
    )
    return f"; {known}, and {how}; of any other aim it is the best found"


def _of_trade(floor: Floor, said: Said) -> list[Finding]:
    if said.traded:
        return []
    return [
        Finding(
            code="layout-no-trade-off",
            severity=Severity.NOTE,
            place=zone(floor),
            found="what more cuts buy was not worked out: the edges of this floor meet too many tiles",
            remedy="ask for `fewest cuts` among the aims to have it searched for",
            source="our default",
        )
    ]
