"""Check readings as they go to site: what each must read, and all that a verdict on what is typed needs."""

from floorwright.control.control import Check, Control
from floorwright.control.readings import Yardstick, limits, to_do, yardstick
from floorwright.control.words import fine
from floorwright.draw.site import SiteCheck
from floorwright.draw.view import Point
from floorwright.job.inputs import inputs
from floorwright.job.solution import Solution
from floorwright.sheets.figures import Figures
from floorwright.sheets.steps import ROOM, check_ends, cross_heading
from floorwright.sheets.words import sentence

SLOT = "{}"
"""Stands for how far out a reading is, which only the phone knows."""


def site_checks(solution: Solution) -> tuple[SiteCheck, ...]:
    """Returns the readings that prove the control lines, those across first; the solution must have control."""
    control = solution.control
    assert control is not None
    figures = Figures(style=solution.style)
    given = inputs.check_readings(solution.job)
    in_order = sorted(control.checks, key=lambda check: not check.legs)
    sticks = (yardstick(check, control, given["joint"], given["tools"]) for check in in_order)
    return tuple(_site_check(stick, control, figures, cross_heading(solution.job)) for stick in sticks)


def _site_check(stick: Yardstick, control: Control, figures: Figures, cross: str) -> SiteCheck:
    check = stick.check
    return SiteCheck(
        heading=cross if check.legs else sentence(ROOM)[:-1],
        ends=check_ends(check, control, figures),
        reads=figures.room(check.expected, unit=True),
        within=figures.within(check.allow),
        why=check.why,
        points=_points(check, control),
        expected=check.expected,
        arms=stick.arms,
        way=stick.way,
        at=stick.at,
        limits=limits(stick),
        is_rough=stick.is_rough,
        out=_both_ways(stick, "out"),
        doubtful=_both_ways(stick, "doubtful"),
        cannot=sentence(to_do(stick, "cannot tell", 1.0, SLOT)),
        told=_told(stick, figures),
    )


def _both_ways(stick: Yardstick, says: str) -> tuple[str, str]:
    more, less = (sentence(to_do(stick, says, far, SLOT)) for far in (1.0, -1.0))
    return more, less


def _told(stick: Yardstick, figures: Figures) -> str:
    if not stick.arms or stick.mark is None:
        return sentence(f"{SLOT} off what it should be; it may be {fine(stick.may, figures.style)}")
    may, give = fine(stick.may, figures.style), fine(stick.sd, figures.style)
    return sentence(f"the line is {SLOT} out at {stick.mark.name}, give or take {give}; it may be {may}")


def _points(check: Check, control: Control) -> tuple[Point, ...]:
    """Returns where the ends of a check lie, as far as they have a place."""
    if check.legs:
        return tuple((leg.x, leg.y) for leg in check.legs)
    marks = {f"{mark.name} on {mark.on}": (mark.x, mark.y) for line in control.lines for mark in line.marks}
    return tuple(place for end in check.between for place in _place(end, marks, control))


def _place(end: str, marks: dict[str, Point], control: Control) -> tuple[Point, ...]:
    if end == "centre":
        return (control.centre,)
    return (marks[end],) if end in marks else ()
