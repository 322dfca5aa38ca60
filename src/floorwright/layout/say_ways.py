"""What a layout has to say of walls that are in the way, or along which cuts taper: each with its ways out."""

from floorwright.findings import Finding, Severity
from floorwright.layout.options import breaks_limit
from floorwright.layout.said import Said, joint_text, text, zone
from floorwright.layout.score import Floor
from floorwright.layout.way_out import CLOSE, GAP, JOINTS, MOVE, SHARE, TURN, WayOut

NONE = {
    TURN: "no turn up to true with the most crooked wall",
    GAP: "no gap up to a joint wider",
    MOVE: "no move of the pattern",
}
"""What was tried, where it does nothing."""


def of_ways_out(floor: Floor, said: Said) -> list[Finding]:
    """Returns for each wall that is in the way, or that tapers in view, the ways out of it."""
    found = []
    for trouble in said.troubles:
        if not trouble.ways and not trouble.none:
            continue
        tried = [NONE[how] for how in trouble.none]
        found.append(
            Finding(
                code="layout-ways-out",
                severity=Severity.NOTE,
                place=zone(floor),
                found=trouble.found + (f"; {' and '.join(tried)} does it" if tried else ""),
                remedy="; ".join(way_text(floor, way) for way in trouble.ways),
            )
        )
    return found


def way_text(floor: Floor, way: WayOut) -> str:
    """Returns a way out as a person would say it: what to do, by how much, and what comes of it."""
    option = way.option
    counts = f"{option.full} full, {option.cut} cut, the narrowest {text(floor, option.worst)}"
    limit = ", under the limit" if breaks_limit(option, floor.limit) else ""
    notes = [way.note] if way.note else []
    if way.needs:
        notes.append(f"would need {way.needs}")
    said = f" ({', '.join(notes)})" if notes else ""
    return f"{what_to_do(floor, way)}: {counts}{limit}{said}"


def what_to_do(floor: Floor, way: WayOut) -> str:
    """Returns what to do and by how much: `turn the pattern left 12 over S (4200)`."""
    by = text(floor, way.by)
    if way.how in (JOINTS, CLOSE):
        return f"{way.how} to {joint_text(floor, way.option.joint)}"
    if way.how in (TURN, SHARE):
        side = "left" if way.turn > 0 else "right"
        return f"{way.how}: turn it {side} {by} over {way.wall} ({floor.style.text(way.over)})"
    if way.how == GAP:
        return f"let the gap be up to {text(floor, floor.gap[0] + way.by)}"
    return f"move the pattern {by}"
