"""What could be changed about the job itself, in words."""

from collections.abc import Sequence

from floorwright.findings import Finding, Severity
from floorwright.layout.change import Change
from floorwright.layout.option import Option
from floorwright.layout.unmoved import Unmoved
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
    if change.border is not None:
        zone, width = change.border
        return f"{zone} {style.text(width, unit=True)} wide"
    return " and ".join(
        f"wall {wall} {style.text(abs(by), unit=True)} farther {'out' if by > 0 else 'in'}" for wall, by in change.moves
    )


def of_unmoved(left: Sequence[Unmoved], style: LengthStyle) -> tuple[Finding, ...]:
    """Returns a note for every edge that may move and had better not."""
    return tuple(
        Finding(
            code="layout-no-change",
            severity=Severity.NOTE,
            place=f"wall {one.edge.wall}",
            found=unmoved_text(one, style),
            remedy="leave it, or let it move farther",
        )
        for one in left
    )


def unmoved_text(one: Unmoved, style: LengthStyle) -> str:
    """Returns that moving an edge saves nothing, and why."""
    reach = [
        f"{style.text(most, unit=True)} {way}" for most, way in ((one.edge.out, "out"), (one.edge.inward, "in")) if most
    ]
    return f"moved up to {' or '.join(reach)}, wall {one.edge.wall} saves nothing: {one.why}"


def counts(option: Option, style: LengthStyle) -> str:
    """Returns how many pieces are full and cut, and the narrowest."""
    narrowest = f", the narrowest {style.text(option.worst, feet=False)}" if option.cut else ""
    under = f", {option.under} under the limit" if option.under else ""
    return f"{option.full} full and {option.cut} cut{narrowest}{under}"


def how_sure(change: Change) -> str:
    """Returns whether a smaller change might do it too."""
    if change.exact:
        return "no smaller change of this kind does it"
    if change.joint is not None:
        return "the nearest whole spacer step that does it"
    return "the least of those tried; a smaller one may do it too"
