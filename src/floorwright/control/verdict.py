"""Whether the lines are true enough: drift held against half the joint."""

import math
from collections.abc import Iterator

from floorwright.control.accuracy import angle_for_drift, compass_feet, equal_marks_arm, triangle_unit
from floorwright.control.choices import Tools
from floorwright.control.control import Construction, ControlLine
from floorwright.control.predicted import carried_on
from floorwright.control.station import HAND, Station
from floorwright.control.words import fine, out_over
from floorwright.findings import Finding, Severity
from floorwright.tolerance import COINCIDENT
from floorwright.units import LengthStyle

SOURCE = "our default: one standard deviation within half the joint"


PROVE = "prove the cross by the check readings before anything is laid"


def square_verdict(
    line: ControlLine, made: Construction, joint: float, tools: Tools, style: LengthStyle, station: Station
) -> Finding:
    """Returns whether the square line is good enough at the far wall, and what would be when it is not.

    Args:
        line: as struck.
        made: how it is raised.
        joint: mm, over 0.
        tools: to hand.
        style: how lengths print.
        station: where it is raised; sizes that its floor has no room for are not spoken of.
    """
    worst = max(line.drift, key=lambda there: there.sd)
    if worst.sd <= joint / 2 + COINCIDENT:
        return _good("control-square-accuracy", line, made, joint, style)
    needed = angle_for_drift(joint / 2, worst.at, tools)
    if needed is None:
        bigger = _finer_marks(tools, style)
    else:
        sizes = list(_bigger(needed, tools, style, station))
        bigger = (
            f"use a bigger one: {', or '.join(sizes)}; without the tools for it {PROVE}"
            if sizes
            else f"no bigger one fits this floor: {PROVE}"
        )
    return _short("control-square-accuracy", Severity.WARNING, line, made, joint, bigger, style)


def _bigger(needed: float, tools: Tools, style: LengthStyle, station: Station) -> Iterator[str]:
    """The compass and the triangle that raise a line to a standard deviation, radians, where the floor has room."""
    ahead, back, left, right = (station.run(*arm) for arm in ((1, 0), (-1, 0), (0, 1), (0, -1)))
    feet = math.ceil(compass_feet(needed, tools) / station.handy) * station.handy
    if feet <= min(ahead, back, left, right):
        yield f"feet {style.text(feet, unit=True)} out and arcs of {style.text(feet * math.sqrt(2), unit=True)}"
    unit = math.ceil(triangle_unit(needed, tools) / station.handy) * station.handy
    shorter, longer = sorted((max(ahead, back), max(left, right)))
    if 3 * unit <= shorter and 4 * unit <= longer:
        yield f"a triangle of {' - '.join(style.text(side * unit, feet=False) for side in (3, 4, 5))}"


def diagonal_verdict(
    lines: tuple[ControlLine, ...],
    made: tuple[Construction, ...],
    square: float,
    joint: float,
    tools: Tools,
    style: LengthStyle,
    handy: float,
) -> Finding:
    """Returns whether the 45s are good enough at the furthest wall; a note either way, as few floors hang on them.

    Args:
        lines: the two 45s as struck, and `made` how each is.
        square: standard deviation of the square line's angle, radians.
        joint, tools, style: as in `square_verdict`.
        handy: mm, sizes are rounded up to multiples of this.
    """
    line, how = max(zip(lines, made, strict=True), key=lambda pair: max(there.sd for there in pair[0].drift))
    worst = max(line.drift, key=lambda there: there.sd)
    if worst.sd <= joint / 2 + COINCIDENT:
        return _good("control-45-accuracy", line, how, joint, style)
    needed = angle_for_drift(joint / 2, worst.at, tools)
    arm = None if needed is None else equal_marks_arm(needed, square, tools)
    if needed is None:
        bigger = _finer_marks(tools, style)
    elif arm is None or arm > worst.at:
        bigger = "for a floor laid to the 45s raise a truer square line first: no arm in this room makes up for it"
    else:
        size = style.text(math.ceil(arm / handy) * handy, unit=True)
        bigger = f"for a floor laid to the 45s use a bigger one: marks {size} out on every arm"
    return _short("control-45-accuracy", Severity.NOTE, line, how, joint, bigger, style)


def carried_with_straightedge(
    line: ControlLine, made: Construction, joint: float, tools: Tools, style: LengthStyle
) -> Iterator[Finding]:
    """Yields how much worse the square line is at its far mark where it is carried on with a straightedge.

    From the outermost point that it was raised by to the wall; a chalk line stretched from point to point over the
    wall's mark has no such error. Nothing where there is no straightedge, or nothing to carry on.

    Args:
        line, made, joint, tools, style: as in `square_verdict`; a joint of 0 is held against nothing.
    """
    on_line = [
        abs((x - line.through[0]) * math.cos(line.angle) + (y - line.through[1]) * math.sin(line.angle))
        for one in made.steps
        if one.action == "join"
        for _, x, y in one.points
    ]
    worst = max(line.drift, key=lambda there: there.at)
    beyond = worst.at - max(on_line, default=worst.at)
    if tools.straightedge <= 0 or beyond <= HAND:
        return
    out = math.hypot(line.sd_angle * worst.at, carried_on(beyond, tools.straightedge, tools))
    if out - worst.sd < tools.mark / 2:
        return
    # Where the line is short of it already, that has been told.
    is_short = worst.sd <= joint / 2 < out
    yield Finding(
        code="control-straightedge",
        severity=Severity.WARNING if is_short else Severity.NOTE,
        place=line.name,
        found=(
            f"carried on with a straightedge of {style.text(tools.straightedge, unit=True)} over the last "
            f"{style.text(beyond, unit=True)} it is {fine(out, style)} out at its far end, one standard deviation; a "
            f"chalk line stretched over its marks {fine(worst.sd, style)}"
        ),
        expected=f"half the joint, {fine(joint / 2, style)}" if joint > 0 else "",
        remedy="stretch a chalk line instead" if is_short else "",
        source="ours: see carried on, in the manual of the constructions",
    )


def _finer_marks(tools: Tools, style: LengthStyle) -> str:
    return f"make finer marks: {fine(tools.mark, style)} alone is more than half this joint"


def _good(code: str, line: ControlLine, made: Construction, joint: float, style: LengthStyle) -> Finding:
    return Finding(
        code=code,
        severity=Severity.NOTE,
        place=line.name,
        found=f"{_how_far_out(line, made, style)}: good enough",
        expected=f"half the joint, {fine(joint / 2, style)}",
        source=SOURCE,
    )


def _short(
    code: str, severity: Severity, line: ControlLine, made: Construction, joint: float, remedy: str, style: LengthStyle
) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        place=line.name,
        found=_how_far_out(line, made, style),
        expected=f"half the joint, {fine(joint / 2, style)}",
        remedy=remedy,
        source=SOURCE,
    )


def _how_far_out(line: ControlLine, made: Construction, style: LengthStyle) -> str:
    worst = max(line.drift, key=lambda there: there.sd)
    return (
        f"raised by {made.method} ({style.text(made.size, unit=True)}) it may be {fine(worst.sd, style)} out "
        f"{style.text(worst.at, unit=True)} from the centre, one standard deviation ({out_over(line.sd_angle, style)})"
    )
