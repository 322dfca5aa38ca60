"""`compare`: every first line and centre that the room offers, each scored by the pattern that it would carry."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import dist, remainder, tau
from typing import TYPE_CHECKING, Final

from floorwright.control.candidates import Candidate, candidates
from floorwright.control.cross import first_line_ends, place_cross, quick_drift
from floorwright.findings import Finding, Severity, has_error
from floorwright.geometry.measure import area
from floorwright.job.inputs import inputs
from floorwright.layout.aims import FEWEST_CUTS, FIRM, JOINT_AS_ASKED, LINED_UP, NO_PIECE_UNDER, WIDEST, loss
from floorwright.layout.floor_lines import floor_lines
from floorwright.layout.options import breaks_limit, order_of
from floorwright.layout.positions import whole_steps
from floorwright.layout.quick import quick_best
from floorwright.layout.score import Floor
from floorwright.layout.zones import FIELD
from floorwright.tolerance import RANK_STEP, SLIVER_AREA

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from floorwright.control.choices import Centre, FirstLine
    from floorwright.control.control import Control
    from floorwright.control.cross import Cross
    from floorwright.job.solution import Solution
    from floorwright.layout.aims import Aim
    from floorwright.layout.layout import Layout
    from floorwright.layout.option import Option
    from floorwright.pattern.cell import UnitCell
    from floorwright.units import LengthStyle

YOURS: Final = "as chosen"
"""What the person's own first line and centre are called."""

TYPED: Final = ("points", "point")
"""Choices of a first line and a centre that overrule what the room offers."""

SAME_TURN: Final = 2e-5
"""radians. First lines nearer than this in direction, on one centre, are one: 0.2 mm over 10 m."""


SAME_PLACE: Final = 0.1
"""mm. Centres nearer than this are one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scored:
    """A candidate with what it would cost.

    Attributes:
        name: in trade words.
        others: further names of the same line and centre.
        yours: whether it is the person's own choice.
        first, at: its first line and its centre, as a person would choose them.
        angle: of the first line, radians.
        centre: mm.
        marks: where the first line meets the walls, two points, mm.
        how: words, how its line and its centre are found.
        option: the best position found on it.
        floor: what it is laid over, and `cell` the pattern at the position's joint.
        limit: mm that no piece should be under.
        drift: mm, how far out the square line may be at the far wall, one standard deviation.
        findings: what is wrong with it.
        reason: why it stands where it does, in words.
    """

    name: str
    others: tuple[str, ...] = ()
    yours: bool
    first: FirstLine
    at: Centre
    angle: float
    centre: tuple[float, float]
    how: str
    marks: tuple[tuple[float, float], ...]
    option: Option
    floor: Floor
    cell: UnitCell
    limit: float
    drift: float
    findings: tuple[Finding, ...]
    reason: str = ""

    @property
    def under_limit(self) -> bool:
        """Whether a piece or the thin end of a cut is under the limit."""
        return breaks_limit(self.option, self.limit)


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Candidates side by side, best first.

    Attributes:
        zone: the zone that they were scored by.
        candidates: ranked.
        findings: what the person's own choice costs against the best.
    """

    zone: str
    candidates: tuple[Scored, ...]
    findings: tuple[Finding, ...]

    @property
    def yours(self) -> Scored:
        """The person's own choice."""
        return next(one for one in self.candidates if one.yours)


def compare(solution: Solution) -> Comparison | None:
    """Returns every first line and centre that the room offers, ranked, the person's own among them.

    The survey and the floor are those of the solution; only lines and pattern are tried anew, and those quickly
    (`layout.quick`). They are scored by the field (of several the largest), or without one by the first zone, over the
    floor that its own layout covers. A candidate that the room does not allow is not offered. None where nothing is
    laid out, and where some of the floor is laid already, which settles it.

    Args:
        solution: solved.
    """
    job, room, region, control = solution.job, solution.room, solution.region, solution.control
    if room is None or region is None or control is None or not solution.layouts or solution.refit is not None:
        return None
    chosen = inputs.control(job)
    own = Candidate(name=YOURS, first=chosen["first"], centre=chosen["centre"])
    scored: list[Scored] = []
    for candidate in (own, *candidates(room, region, inputs.slab_joints(job))):
        cross = place_cross(room, region, candidate.first, candidate.centre, solution.style)
        same = next((place for place, one in enumerate(scored) if _is_same(one, cross)), None)
        if same is not None:
            scored[same] = replace(scored[same], others=(*scored[same].others, candidate.name))
        elif candidate is own or not has_error(cross.findings):
            drift = quick_drift(room, cross, chosen["tools"])
            ends = first_line_ends(room, cross)
            scored.append(_scored(solution, candidate, cross, ends, drift))
    aims = tuple(reached.aim for reached in _field(solution).aims)
    truest = sorted(scored, key=lambda one: (round(one.drift / RANK_STEP), one.name))
    ranked = [truest[n] for n in order_of(aims, [one.option for one in truest])]
    told = tuple(replace(one, reason=_reason(one, ranked[0], aims, solution)) for one in ranked)
    return Comparison(zone=_field(solution).zone, candidates=told, findings=tuple(_cost(told, solution)))


def typed_cost(solution: Solution) -> tuple[Finding, ...]:
    """Returns what a typed first line or centre costs against the best that the room offers; nothing for any other."""
    control = solution.job.control
    if control.first_line.by not in TYPED and control.centre.by not in TYPED:
        return ()
    compared = compare(solution)
    return compared.findings if compared else ()


def _scored(
    solution: Solution, candidate: Candidate, cross: Cross, ends: tuple[tuple[float, float], ...], drift: float
) -> Scored:
    """One candidate, laid over the floor that the solution's own layout covers."""
    job, laid, room, control = solution.job, _field(solution), solution.room, solution.control
    assert room is not None
    assert control is not None
    own = laid.part.zone if laid.part else laid.zone
    zone = inputs.zone(job, next(zone for zone in job.zones if zone.name == own), control)
    floor = Floor(
        zone=laid.zone,
        region=laid.region,
        sides=laid.part.sides if laid.part else (),
        gap=laid.gap,
        limit=laid.limit,
        centre=cross.centre,
        shift_sd=zone["shift_sd"],
        turn_sd=zone["turn_sd"],
        style=solution.style,
        joint=zone["joint"],
        angle=cross.angle + zone["angle"],
        aims=tuple(reached.aim for reached in laid.aims),
        lines=floor_lines(room, _turned(control, cross)),
    )
    most = zone["joint_most"] or zone["joint"]
    wider = [step for step in whole_steps(zone["joint"], most, zone["joint_step"]) if step > zone["joint"] + RANK_STEP]
    option = quick_best(floor, zone["make_cell"], cross.angle + zone["angle"], [zone["joint"], *wider])
    return Scored(
        name=candidate.name,
        yours=candidate.name == YOURS,
        first=candidate.first,
        at=candidate.centre,
        angle=cross.angle,
        centre=cross.centre,
        how=f"{cross.first_how}; centre: {cross.centre_how}",
        marks=ends,
        option=option,
        floor=floor,
        cell=zone["make_cell"](option.joint),
        limit=laid.limit,
        drift=drift,
        findings=cross.findings,
    )


def _field(solution: Solution) -> Layout:
    """The layout of the field, of several the largest; of a job without one the first."""
    fields = [layout for layout in solution.layouts if layout.part is not None and layout.part.kind == FIELD]
    return max(fields, key=lambda layout: round(_size(layout) / SLIVER_AREA)) if fields else solution.layouts[0]


def _size(layout: Layout) -> float:
    return float(sum(area(ring) for ring in layout.region.rings))


def _turned(control: Control, cross: Cross) -> Control:
    """The control lines as they would lie on another cross."""
    turn = cross.angle - control.lines[0].angle
    lines = tuple(replace(line, angle=line.angle + turn, through=cross.centre) for line in control.lines)
    return replace(control, centre=cross.centre, lines=lines)


def _is_same(one: Scored, cross: Cross) -> bool:
    """Whether a candidate lays the same floor as one before: a grid turned by a quarter is the same grid, but not
    every pattern is, so only the same line counts."""
    turn = abs(remainder(one.angle - cross.angle, tau))
    return turn < SAME_TURN and dist(one.centre, cross.centre) < SAME_PLACE


def _reason(one: Scored, best: Scored, aims: Sequence[Aim], solution: Solution) -> str:
    """Why a candidate stands where it does, in a few words: the first aim by which the best leaves it behind."""
    option, style = one.option, solution.style
    if option.refused:
        return f"cannot be laid: {option.refused}"
    if one is best:
        return "best, though pieces are under the limit" if one.under_limit else "best: no piece under the limit"
    for aim, figure, least in zip(aims, option.figures, best.option.figures, strict=True):
        if aim.name == LINED_UP and not aim.own:
            continue
        if loss(aim, figure) > loss(aim, least) + aim.within + RANK_STEP / 2:
            return _behind(aim.name, one, best, style)
    return "as good as the best; its square line is no truer"


def _behind(aim: str, one: Scored, best: Scored, style: LengthStyle) -> str:
    """By what a candidate falls behind the best at an aim."""
    option = one.option
    if aim == FEWEST_CUTS:
        return f"{option.cut - best.option.cut} more to cut"
    if aim == NO_PIECE_UNDER:
        return f"a piece under the limit of {style.text(one.limit, feet=False, unit=True)}"
    if aim == WIDEST:
        short = best.option.worst - option.worst
        return f"narrowest is {style.text(short, feet=False, unit=True)} less"
    if aim == JOINT_AS_ASKED:
        return f"joint opened to {style.entered_text(option.joint, unit=True)}"
    if aim == FIRM:
        return "spoilt by a hand a little out"
    return f"behind in {aim}"


def _cost(ranked: tuple[Scored, ...], solution: Solution) -> Iterator[Finding]:
    """What the person's own choice costs against the best."""
    best, yours, style = ranked[0], next(one for one in ranked if one.yours), solution.style

    def told(one: Scored) -> str:
        if one.option.refused:
            return "cannot be laid"
        under = f", {one.option.under} under the limit" if one.option.under else ""
        return f"narrowest {style.text(one.option.worst, feet=False, unit=True)}{under}, {one.option.cut} cut"

    if best is yours:
        found, remedy = f"as good as any of {len(ranked)} compared: {told(yours)}", ""
    else:
        found = f"{told(yours)}; the best of {len(ranked)} compared, {best.name}, has {told(best)}"
        remedy = "keep yours if what it lines up with matters more; the sheet shows both"
    yield Finding(
        code="job-first-line-cost",
        severity=Severity.NOTE,
        place="first line",
        found=found,
        remedy=remedy,
        source="yours",
    )
