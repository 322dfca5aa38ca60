"""The outline of a room traced from a DXF drawing: one closed run of lines, arcs and polylines on one layer."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from floorwright.findings import Severity
from floorwright.geometry.measure import area
from floorwright.job.read.drawing import Drawn, finding, refusal, size_text, units_text, units_that_fit
from floorwright.job.read.dxf_contents import contents_of, document_of
from floorwright.job.read.problem import listed
from floorwright.job.read.ring import Chain, closed_chains, named_sides
from floorwright.tolerance import CHORD, JOIN
from floorwright.units import MM_IN

if TYPE_CHECKING:
    from collections import Counter
    from collections.abc import Sequence

    from floorwright.findings import Finding
    from floorwright.job.read.contents import Contents

CODE: Final = "job-dxf"
UNIT_WORDS: Final = {"in": "inches", "ft": "feet", "mm": "mm", "cm": "cm", "m": "metres"}

LEVEL: Final = 0.01
"""Our default: points that differ in height by more than this part of the room's size were not drawn as a plan."""

DOOR: Final = (550.0, 1250.0)
"""mm. Clear widths of doors, which a quarter circle in a plan has for its radius (common practice, no source)."""

MOST_TOLD: Final = 3


def read_dxf(content: bytes, file: str, layer: str | None, drawn_in: str | None) -> Drawn:
    """Returns the corners of the one outline on a layer, in order, mm, with its arcs.

    Args:
        content: of the file, text or binary DXF; a damaged one is repaired as far as it goes, and that is said.
        file: its name, for the findings.
        layer: the layer; None where only one holds anything that closes.
        drawn_in: the unit of the drawing whatever its header says; None to trust the header if a room comes of it.
    """
    document, faults = document_of(content)
    if document is None:
        return refusal(CODE, file, faults[0], "a DXF drawing", "save it again as DXF (R2000 or later)")
    contents = contents_of(document)
    told = repaired([*faults, *contents.broken], file)
    if not contents.outlines:
        passed = counted(contents.passed_over)
        found = f"nothing that makes an outline{f', only {passed}' if passed else ''}"
        empty = refusal(CODE, file, found, "lines, arcs or polylines", "look whether the file is whole")
        return Drawn(findings=(*told, *empty.findings))
    chosen, wrong = _layer(contents, layer, file)
    if chosen is None:
        return Drawn(findings=(*told, *wrong))
    chains = contents.outlines[chosen]
    across = max(Chain.all_of(chains).across(), *(chain.across() for chain in chains))
    low, high = contents.heights
    if high - low > LEVEL * across:
        return Drawn(findings=(*told, *_refused(
            file, f"points from {low:.6g} to {high:.6g} high on a drawing {across:.6g} across, in its own unit",
            "a plan, all at one height", "draw the outline of the floor as a plan",
        )))  # fmt: skip
    unit, wrong = _unit(contents, across, drawn_in, file)
    if unit is None:
        return Drawn(findings=(*told, *wrong))
    told += wrong
    scale = float(MM_IN[unit])
    return _outline(chains, scale, chosen, file, told)


def dxf_layers(content: bytes) -> list[str]:
    """Returns the names of the layers that lines are drawn on; none where it is no drawing."""
    document, _ = document_of(content)
    return [] if document is None else sorted(contents_of(document).outlines)


def _outline(chains: list[Chain], scale: float, layer: str, file: str, told: list[Finding]) -> Drawn:
    rings, ends = closed_chains([chain.scaled(scale) for chain in chains])
    if not rings:
        gap = f"; its ends are {ends / 1000:.3f} m apart" if ends else ""
        return Drawn(findings=(*told, *_refused(
            file, f"{len(chains)} lines on layer {layer}, and none of them closes{gap}",
            "one closed outline", f"close it: ends nearer than {JOIN:.0f} mm are joined",
        )))  # fmt: skip
    largest = max(rings, key=lambda ring: round(abs(area(ring.flat(CHORD))), 3))
    outside = [ring for ring in rings if ring is not largest and not largest.holds(ring)]
    if outside:
        sizes = listed(sorted({ring.size_text() for ring in rings})[:MOST_TOLD])
        return Drawn(findings=(*told, *_refused(
            file, f"{len(rings)} outlines apart from each other on layer {layer}, of {sizes}",
            "one outline, the room's", "draw it on a layer of its own, and name that as layer",
        )))  # fmt: skip
    if len(rings) > 1:
        told.append(finding(
            "job-dxf-inside", Severity.WARNING, file, f"{len(rings) - 1} outlines inside the room's on layer {layer}",
            "the room's outline alone", "book columns and pipes as obstacles",
        ))  # fmt: skip
    joined = len(chains) - len(rings)
    how = f", joined from {len(chains)} lines" if joined > 0 else ""
    points, arcs = named_sides(*largest.sides())
    if arcs:
        told.append(finding(
            "job-dxf-curved", Severity.NOTE, file,
            f"{len(arcs)} curved {'wall' if len(arcs) == 1 else 'walls'} on layer {layer} taken as arcs",
            remedy="nothing to do: write [[survey.arcs]] of your own to say otherwise",
        ))  # fmt: skip
    told.append(finding(
        "job-traced", Severity.NOTE, file, f"an outline of {len(points)} corners on layer {layer}{how}",
        remedy="look at it on the sheet of the room",
    ))  # fmt: skip
    return Drawn(points=points, findings=tuple(told), arcs=arcs)


def _refused(file: str, found: str, expected: str, remedy: str) -> tuple[Finding, ...]:
    return refusal(CODE, file, found, expected, remedy).findings


def repaired(faults: Sequence[str], file: str) -> list[Finding]:
    """Returns the finding that says what was wrong with a drawing; none where nothing was."""
    if not faults:
        return []
    count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
    shown = "; ".join(" ".join(fault.split())[:80] for fault in faults[:MOST_TOLD])
    return [
        finding(
            "job-dxf-repaired", Severity.WARNING, file, f"{count}, repaired as far as it goes: {shown}", "a sound file",
            "look whether all of it is there; save the drawing again",
        )
    ]  # fmt: skip


def _layer(contents: Contents, layer: str | None, file: str) -> tuple[str | None, tuple[Finding, ...]]:
    """The layer that holds the outline, or why it cannot be told."""
    names = sorted(contents.outlines)
    if layer is not None:
        found = next((name for name in names if name.casefold() == layer.casefold()), None)
        if found is None:
            return None, _refused(
                file, f"no lines on layer {layer}", f"a layer with lines: {listed(names)}", "name one"
            )
        return found, ()
    if len(names) == 1:
        return names[0], ()
    counts = ", ".join(f"{name} ({len(contents.outlines[name])})" for name in names)
    return None, _refused(file, f"lines on {len(names)} layers: {counts}", "one layer", f'write layer = "{names[-1]}"')


def counted(kinds: Counter[str]) -> str:
    """Returns how many there are of each kind: `2 HATCH, 1 TEXT`."""
    return ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items()))


def _unit(contents: Contents, across: float, drawn_in: str | None, file: str) -> tuple[str | None, tuple[Finding, ...]]:
    """The unit of the drawing; None where it is not said, or where what is said makes no room."""
    if drawn_in is not None:
        return drawn_in, ()
    fitting = units_text(across)
    if not contents.header:
        found = f"a drawing that does not say its unit, {across:.6g} across"
        meant = f"as a room it would be in {fitting}" if fitting else "no unit makes a room of it"
        return None, _refused(file, found, meant, 'write drawn_in = "mm", or what it is')
    unit = contents.header
    size = f"{size_text(across, unit)} across, as the file says that it is in {UNIT_WORDS[unit]}"
    if unit not in units_that_fit(across):
        meant = f"the size of a room, as it would be in {fitting}" if fitting else "the size of a room"
        return None, _refused(file, size, meant, f'write drawn_in = "{unit}" if it is right, or what it is')
    doors = {
        name for radius in contents.doors for name, mm in MM_IN.items() if DOOR[0] <= radius * float(mm) <= DOOR[1]
    }
    if contents.doors and doors and unit not in doors:
        radius = min(contents.doors)
        found = (
            f"door swings of {radius * float(MM_IN[unit]):.4g} mm, as the file says that it is in {UNIT_WORDS[unit]}"
        )
        return None, _refused(
            file, found, f"doors about 900 mm wide, as they would be in {listed(sorted(doors))}",
            f'write drawn_in = "{unit}" if it is right, or what it is',
        )  # fmt: skip
    return unit, (
        finding("job-drawing-unit", Severity.NOTE, file, size, remedy="write drawn_in if it is in another unit"),
    )
