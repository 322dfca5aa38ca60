"""The outline of a room traced from a DXF drawing: one closed run of lines, arcs and polylines on one layer."""

from __future__ import annotations

import io
import logging
import math
from collections import Counter
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from floorwright.findings import Severity
from floorwright.geometry.measure import area
from floorwright.job.read.drawing import Drawn, finding, refusal, size_text, units_text, units_that_fit
from floorwright.job.read.problem import listed
from floorwright.job.read.ring import Chain, closed_chains, named_sides
from floorwright.tolerance import CHORD, JOIN
from floorwright.units import MM_IN

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from floorwright.findings import Finding

CODE: Final = "job-dxf"
HEADER_UNITS: Final = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m"}
"""$INSUNITS of the DXF reference."""

UNIT_WORDS: Final = {"in": "inches", "ft": "feet", "mm": "mm", "cm": "cm", "m": "metres"}

DRAWN: Final = ("LINE", "ARC", "LWPOLYLINE", "POLYLINE")
"""Entities that an outline is made of."""

ROUND: Final = "CIRCLE"

LEVEL: Final = 0.01
"""Our default: points that differ in height by more than this part of the room's size were not drawn as a plan."""

DOOR: Final = (550.0, 1250.0)
"""mm. Clear widths of doors, which a quarter circle in a plan has for its radius (common practice, no source)."""

MOST_TOLD: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """What is drawn, in the drawing's own unit.

    Attributes:
        chains: runs of vertices by layer, as (x, y, bulge of the side that starts there).
        passed_over: kinds of entity that no outline is made of, with how many.
        doors: radii of quarter circles.
        heights: least and greatest.
        broken: what is said of entities that lack a point, or have one at no number.
        header: unit that the file says it is in; empty where it says none.
    """

    chains: dict[str, list[Chain]]
    passed_over: Counter[str]
    doors: tuple[float, ...]
    heights: tuple[float, float]
    broken: tuple[str, ...]
    header: str


def read_dxf(content: bytes, file: str, layer: str | None, drawn_in: str | None) -> Drawn:
    """Returns the corners of the one outline on a layer, in order, mm, with its arcs.

    Args:
        content: of the file, text or binary DXF; a damaged one is repaired as far as it goes, and that is said.
        file: its name, for the findings.
        layer: the layer; None where only one holds anything that closes.
        drawn_in: the unit of the drawing whatever its header says; None to trust the header if a room comes of it.
    """
    document, faults = _document(content)
    if document is None:
        return refusal(CODE, file, faults[0], "a DXF drawing", "save it again as DXF (R2000 or later)")
    contents = _contents(document)
    told = _repaired([*faults, *contents.broken], file)
    if not contents.chains:
        passed = _counted(contents.passed_over)
        found = f"nothing that makes an outline{f', only {passed}' if passed else ''}"
        empty = refusal(CODE, file, found, "lines, arcs or polylines", "look whether the file is whole")
        return Drawn(findings=(*told, *empty.findings))
    chosen, wrong = _layer(contents, layer, file)
    if chosen is None:
        return Drawn(findings=(*told, *wrong))
    chains = contents.chains[chosen]
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
    document, _ = _document(content)
    return [] if document is None else sorted(_contents(document).chains)


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


def _document(content: bytes) -> tuple[Any, list[str]]:
    """The drawing and what was repaired in it; None and what is wrong where it cannot be read."""
    # Import costs more than half a second, and few jobs are traced.
    from ezdxf import recover
    from ezdxf.lldxf.const import DXFError

    try:
        with _heard("ezdxf") as remarks:
            document, auditor = recover.read(io.BytesIO(content))
    except (DXFError, OSError, ValueError, LookupError, TypeError, AttributeError, ArithmeticError) as error:
        said = " ".join(str(error).split())[:80]
        return None, [f"a file that is no DXF{f' ({said})' if said else ''}"]
    faults = [*remarks, *(fault.message for fault in (*auditor.errors, *auditor.fixes))]
    if not content.rstrip().endswith(b"EOF") and not content.startswith(b"AutoCAD Binary DXF"):
        faults.insert(0, "the file breaks off before its end")
    return document, faults


@contextmanager
def _heard(name: str) -> Iterator[list[str]]:
    """What a library logs as a warning, kept instead of printed: a figure that it mended is told of nowhere else."""
    said: list[str] = []
    logger, listener = logging.getLogger(name), _Listener(said)
    passed_on = logger.propagate
    logger.addHandler(listener)
    logger.propagate = False
    try:
        yield said
    finally:
        logger.removeHandler(listener)
        logger.propagate = passed_on


class _Listener(logging.Handler):
    def __init__(self, said: list[str]) -> None:
        super().__init__(logging.WARNING)
        self.said = said

    def emit(self, record: logging.LogRecord) -> None:
        self.said.append(record.getMessage())


def _repaired(faults: Sequence[str], file: str) -> list[Finding]:
    if not faults:
        return []
    count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
    shown = "; ".join(" ".join(fault.split())[:80] for fault in faults[:MOST_TOLD])
    return [
        finding(
            "job-dxf-repaired", Severity.WARNING, file, f"{count}, repaired as far as it goes: {shown}", "a sound file",
            "look whether the room is whole; save the drawing again",
        )
    ]  # fmt: skip


def _contents(document: Any) -> Contents:
    chains: dict[str, list[Chain]] = {}
    rounds: dict[str, list[Chain]] = {}
    passed_over: Counter[str] = Counter()
    doors: list[float] = []
    heights: list[float] = []
    broken: list[str] = []
    for entity in document.modelspace():
        kind = entity.dxftype()
        try:
            drawn = _chain(entity, kind) if kind in (*DRAWN, ROUND) else None
        except (AttributeError, TypeError, ValueError, ArithmeticError):
            broken.append(f"a {kind} without its points left out")
            continue
        if drawn is None:
            passed_over[kind] += 1
            continue
        chain, levels = drawn
        if not np.isfinite([*levels, *(value for vertex in chain.vertices for value in vertex)]).all():
            broken.append(f"a {kind} with a point at no number left out")
            continue
        (rounds if kind == ROUND else chains).setdefault(entity.dxf.layer, []).append(chain)
        heights += levels
        if kind == "ARC" and math.isclose(_swept(entity), 90.0, abs_tol=1.0):
            doors.append(float(entity.dxf.radius))
    for block in document.blocks:
        doors += [
            float(entity.dxf.radius)
            for entity in block
            if entity.dxftype() == "ARC" and math.isclose(_swept(entity), 90.0, abs_tol=1.0)
        ]
    return Contents(
        # A circle beside lines is a column or a mark; alone it is a round room.
        chains=chains or rounds,
        passed_over=passed_over,
        doors=tuple(doors),
        heights=(min(heights, default=0.0), max(heights, default=0.0)),
        broken=tuple(broken),
        header=HEADER_UNITS.get(int(document.header.get("$INSUNITS", 0) or 0), ""),
    )


def _swept(arc: Any) -> float:
    return float(arc.dxf.end_angle - arc.dxf.start_angle) % 360.0


def _chain(entity: Any, kind: str) -> tuple[Chain, list[float]] | None:
    """An entity as a run of vertices, and the heights that it lies at; None where it is no plain figure."""
    if kind == "LINE":
        start, end = entity.dxf.start, entity.dxf.end
        return Chain(vertices=((start.x, start.y, 0.0), (end.x, end.y, 0.0)), closed=False), [start.z, end.z]
    if kind == "ARC":
        start, end, swept = entity.start_point, entity.end_point, math.radians(_swept(entity))
        # Bulge: the tangent of a quarter of the angle swept (DXF reference, LWPOLYLINE, group code 42).
        bulge = math.tan(swept / 4.0) * (1.0 if entity.dxf.extrusion.z >= 0.0 else -1.0)
        return Chain(vertices=((start.x, start.y, bulge), (end.x, end.y, 0.0)), closed=False), [start.z]
    if kind == ROUND:
        (x, y, z), radius = entity.dxf.center, float(entity.dxf.radius)
        quarter = math.tan(math.pi / 8.0)
        ends = ((x + radius, y), (x, y + radius), (x - radius, y), (x, y - radius))
        return Chain(vertices=tuple((ex, ey, quarter) for ex, ey in ends), closed=True), [z]
    if kind == "LWPOLYLINE":
        vertices = tuple((float(x), float(y), float(bulge)) for x, y, bulge in entity.get_points("xyb"))
        return (
            (Chain(vertices=vertices, closed=bool(entity.closed)), [float(entity.dxf.elevation)]) if vertices else None
        )
    if not (entity.is_2d_polyline or entity.is_3d_polyline) or not len(entity.vertices):
        return None
    places = [(v.dxf.location, float(v.dxf.get("bulge", 0.0))) for v in entity.vertices]
    vertices = tuple((place.x, place.y, bulge) for place, bulge in places)
    return Chain(vertices=vertices, closed=bool(entity.is_closed)), [place.z for place, _ in places]


def _layer(contents: Contents, layer: str | None, file: str) -> tuple[str | None, tuple[Finding, ...]]:
    """The layer that holds the outline, or why it cannot be told."""
    names = sorted(contents.chains)
    if layer is not None:
        found = next((name for name in names if name.casefold() == layer.casefold()), None)
        if found is None:
            return None, _refused(
                file, f"no lines on layer {layer}", f"a layer with lines: {listed(names)}", "name one"
            )
        return found, ()
    if len(names) == 1:
        return names[0], ()
    counts = ", ".join(f"{name} ({len(contents.chains[name])})" for name in names)
    return None, _refused(file, f"lines on {len(names)} layers: {counts}", "one layer", f'write layer = "{names[-1]}"')


def _counted(kinds: Counter[str]) -> str:
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
