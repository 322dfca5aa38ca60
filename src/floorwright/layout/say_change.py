"""What could be changed about the job itself, in words."""

from collections.abc import Sequence

from floorwright.findings import Finding, Severity
from floorwright.layout.change import Change
from floorwright.layout.option import Option
from floorwright.units import LengthStyle


def of_changes(changes: Sequence[Change], style: LengthStyle) -> tuple[Finding, ...]:
    """Returns a note for every change of the job that does away with cuts or brings every piece to the limit."""
    return tuple(
        Finding(
            code="layout-change",
            severity=Severity.NOTE,
            place="job",
            found=f"{what_to_change(change, style)}: {change.aim}",
            expected=f"{counts(change.option, style)}, in place of {counts(change.before, style)}",
            remedy=f"change the job so and lay {change.option.name}"
            + ("" if change.exact else f"; {how_sure(change)}"),
        )
        for change in changes
    )


def what_to_change(change: Change, style: LengthStyle) -> str:
    """Returns what to change, by how much: `wall N 12 mm farther out`, `joints of 4 mm`."""
    if change.joint is not None:
        return f"joints of {style.entered_text(change.joint, unit=True)}"
    return " and ".join(
        f"wall {wall} {style.text(abs(by), unit=True)} farther {'out' if by > 0 else 'in'}" for wall, by in change.moves
    )


def counts(option: Option, style: LengthStyle) -> str:
    """Returns how many pieces are full and cut, and the narrowest."""
    narrowest = f", the narrowest {style.text(option.worst, feet=False)}" if option.cut else ""
    return f"{option.full} full and {option.cut} cut{narrowest}"


def how_sure(change: Change) -> str:
    """Returns whether a smaller change might do it too."""
    if change.exact:
        return "no smaller change of this kind does it"
    if change.joint is not None:
        return "the nearest whole spacer step that does it"
    return "the least of those tried; a smaller one may do it too"
