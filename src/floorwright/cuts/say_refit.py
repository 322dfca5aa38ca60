"""What has become of a floor that is partly laid, in words."""

from collections.abc import Sequence

from floorwright.cuts.changed import CutChange
from floorwright.cuts.refit import ACCEPT, BROKEN, LIFT, OPEN, Choice, Refit
from floorwright.findings import Finding, Severity
from floorwright.layout.refit import Misfit
from floorwright.units import LengthStyle

NAMED = 6
"""Laid pieces that a finding names; of more it says how many."""


def findings_of(refit: Refit, style: LengthStyle) -> tuple[Finding, ...]:
    """Returns what a new measurement comes to, and for every wall the laid pieces that the floor no longer suits."""
    found = [
        Finding(
            code="layout-laid-over-wall" if is_over else "layout-laid-gap",
            severity=Severity.ERROR if is_over else Severity.WARNING,
            place=f"wall {wall}",
            found=misfit_text(some, style),
            expected="laid pieces on the floor as it is now measured"
            if is_over
            else "the gap that the zone is to have",
            remedy="measure again there; if it is so, lift them and cut them"
            if is_over
            else "see whether the skirting covers it, or lift them",
            source="yours",
        )
        for (wall, is_over), some in misfits_by_wall(refit.misfits).items()
    ]
    summary = Finding(
        code="layout-refit",
        severity=Severity.WARNING if refit.verdict == BROKEN else Severity.NOTE,
        place="floor",
        found=f"{summary_text(refit)}; tied at {refit.held[0]} towards {refit.held[1]}",
        remedy="; ".join(choice_text(choice, style) for choice in refit.choices),
        source="yours",
    )
    return (*found, summary)


def misfits_by_wall(misfits: Sequence[Misfit]) -> dict[tuple[str, bool], list[Misfit]]:
    """Returns the laid pieces that do not suit by their wall and by whether they stand over it, in the order given."""
    found: dict[tuple[str, bool], list[Misfit]] = {}
    for misfit in misfits:
        found.setdefault((misfit.wall, misfit.over > 0), []).append(misfit)
    return found


def summary_text(refit: Refit) -> str:
    """Returns the verdict with its figures: `cuts changed: 6 pieces since revision A, 24 laid`."""
    laid = f"{len(refit.laid)} laid {'piece stays' if len(refit.laid) == 1 else 'pieces stay'}"
    many = f"{len(refit.changes)} {'piece' if len(refit.changes) == 1 else 'pieces'} changed"
    return f"{refit.verdict}: {many} since {refit.since}, {laid}"


def choice_text(choice: Choice, style: LengthStyle) -> str:
    """Returns a choice with its cost, in one line."""

    def text(mm: float) -> str:
        return style.text(mm, feet=False)

    if choice.what == ACCEPT:
        return f"accept it: {choice.pieces} under the limit, the narrowest {text(choice.narrowest)}"
    if choice.what == LIFT:
        return (
            f"lift the {choice.pieces} that are laid and begin again: {choice.full} full, {choice.cut} cut, "
            f"the narrowest {text(choice.narrowest)}"
        )
    verb, end = ("open", "a full tile there") if choice.what == OPEN else ("close", f"{text(choice.narrowest)} there")
    if choice.what == OPEN and choice.narrowest < style.mm(style.steps(choice.narrowest)) - style.mm(1):
        end = f"{text(choice.narrowest)} there"
    allowed = "" if choice.allowed else ", which your joints do not allow"
    return (
        f"{verb} the joints from here on by {_fine(choice.by, style)} over {choice.rows} rows to {choice.wall}, "
        f"to {_fine(choice.joint, style)}: {end}{allowed}"
    )


def _fine(mm: float, style: LengthStyle) -> str:
    return f"{mm:.1f} mm" if style.system == "metric" else style.text(mm, unit=True, feet=False)


def misfit_text(some: Sequence[Misfit], style: LengthStyle) -> str:
    """Returns what is wrong with laid pieces at one wall: `2 laid pieces stand over N by 5 to 7 mm: floor:0,3,0`."""
    outs = sorted(misfit.over or misfit.gap for misfit in some)
    low, high = (style.text(outs[n], unit=n == -1, feet=False) for n in (0, -1))
    much = high if style.text(outs[0], unit=True, feet=False) == high else f"{low} to {high}"
    named = ", ".join(misfit.piece for misfit in some[:NAMED])
    more = f" and {len(some) - NAMED} more" if len(some) > NAMED else ""
    one = len(some) == 1
    does = (
        f"stand{'s' * one} over {some[0].wall} by"
        if some[0].over > 0
        else f"leave{'s' * one} at {some[0].wall} a gap of"
    )
    return f"{len(some)} laid piece{'' if one else 's'} {does} {much}: {named}{more}"


def size_text(size: tuple[float, float] | None, style: LengthStyle) -> str:
    """Returns a cut's thin and fat end, or nothing where there is no piece."""
    if size is None:
        return ""
    thin, fat = (style.text(mm, feet=False) for mm in size)
    return thin if thin == fat else f"{thin}\N{EN DASH}{fat}"


def short_text(change: CutChange, style: LengthStyle) -> str:
    """Returns what becomes of a piece that is cut already: too short by so much, or to be sawn down."""
    if change.before is None or change.after is None or change.what not in ("cut anew", "now full"):
        return ""
    if change.short > 0:
        return f"too short by {style.text(change.short, feet=False)}"
    return "saw it down"
