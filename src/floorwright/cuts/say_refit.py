"""What has become of a floor that is partly laid, in words."""

from floorwright.cuts.changed import CutChange
from floorwright.cuts.refit import ACCEPT, BROKEN, LIFT, OPEN, Choice, Refit
from floorwright.findings import Finding, Severity
from floorwright.layout.refit import Misfit
from floorwright.units import LengthStyle


def findings_of(refit: Refit, style: LengthStyle) -> tuple[Finding, ...]:
    """Returns what a new measurement comes to, and every laid piece that the floor no longer suits."""
    found = [
        Finding(
            code="layout-laid-over-wall",
            severity=Severity.ERROR,
            place=f"piece {misfit.piece}",
            found=f"stands over {misfit.wall} by {style.text(misfit.over, unit=True, feet=False)}, and it is laid",
            expected="laid pieces on the floor as it is now measured",
            remedy="measure again there; if it is so, lift the piece and cut it",
            source="yours",
        )
        if misfit.over > 0
        else Finding(
            code="layout-laid-gap",
            severity=Severity.WARNING,
            place=f"piece {misfit.piece}",
            found=f"is laid, and leaves a gap of {style.text(misfit.gap, unit=True, feet=False)} at {misfit.wall}",
            expected="the gap that the zone is to have",
            remedy="see whether the skirting covers it, or lift the piece",
            source="yours",
        )
        for misfit in refit.misfits
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


def misfit_text(misfit: Misfit, style: LengthStyle) -> str:
    """Returns what is wrong with a laid piece: `piece floor:0,3,0 stands over N by 7 mm`."""
    if misfit.over > 0:
        return f"piece {misfit.piece} stands over {misfit.wall} by {style.text(misfit.over, unit=True, feet=False)}"
    return f"piece {misfit.piece} leaves a gap of {style.text(misfit.gap, unit=True, feet=False)} at {misfit.wall}"


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
