"""The pieces of a pattern traced from a drawing: closed outlines, and on a layer of their own two lines, its repeat."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.findings import Severity
from floorwright.job.read.drawing import finding, units_that_fit
from floorwright.job.read.dxf_contents import contents_of, document_of
from floorwright.job.read.dxf_outline import MOST_TOLD, UNIT_WORDS, counted, repaired
from floorwright.job.read.problem import listed
from floorwright.job.read.svg_contents import SvgError, svg_contents
from floorwright.tolerance import CLOSES
from floorwright.units import MM_IN

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.findings import Finding
    from floorwright.job.read.contents import Contents
    from floorwright.job.read.ring import Chain

REPEAT: Final = "repeat"
"""The layer of the two lines that run from a piece to the same piece of the next repeat, in capitals or not."""

PIECE: Final = "piece"
"""What the pieces of a drawing of one layer are called."""

SMALLEST: Final = 8.0
LARGEST: Final = 4_000.0
"""mm. No piece of a floor is less, or more, across: a mosaic's chip, the longest board (common practice, no source)."""

MOST_PIECES: Final = 200
MOST_CORNERS: Final = 100
"""As many as a drawn pattern may have in a job file."""

Pair = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Traced:
    """A pattern as a file holds it.

    Attributes:
        pieces: kind and corners of each, mm; none where the file cannot be meant.
        repeat: the two repeat vectors, mm; None where the file holds none, or none was asked for.
        findings: what is wrong, and what was made of it.
    """

    pieces: tuple[tuple[str, tuple[Pair, ...]], ...] = ()
    repeat: tuple[Pair, Pair] | None = None
    findings: tuple[Finding, ...] = ()


class _RefusedError(FloorwrightValueError):
    """Why a file is no pattern: found, expected and remedy of a finding."""

    def __init__(self, found: str, expected: str, remedy: str) -> None:
        super().__init__(found)
        self.said = (found, expected, remedy)


def read_pattern(
    content: bytes, file: str, layers: tuple[str, ...] = (), drawn_in: str | None = None, *, with_repeat: bool = True
) -> Traced:
    """Returns the pieces of a repeat that a DXF or SVG file holds, mm, the first corner of the box round them at 0, 0.

    Every closed outline of straight sides is a piece, its layer (in SVG the id of its group) its kind where several
    layers have pieces.

    Args:
        content: of the file.
        file: its name, which ends in .svg or .dxf, for the findings.
        layers: that pieces are drawn on; without any all but `repeat`.
        drawn_in: the unit of the drawing, whatever it says of itself; None to trust it if pieces come of it.
        with_repeat: whether the file's own two lines on the layer `repeat` give the repeat.
    """
    is_svg = file.lower().endswith(".svg")
    code = "job-svg" if is_svg else "job-dxf"
    told: list[Finding] = []
    try:
        contents = _svg(content) if is_svg else _dxf(content, file, told)
        own, lines = _layers(contents, layers)
        scale, said = _scale(own, contents, drawn_in, file)
        pieces = _pieces(own, contents, scale, file, told)
        repeat = _repeat(lines, scale) if with_repeat else None
    except _RefusedError as refused:
        told.append(finding(code, Severity.ERROR, file, *refused.said))
        return Traced(findings=tuple(told))
    low = np.min([corner for _, ring in pieces for corner in ring], axis=0)
    moved = tuple((kind, tuple((x - float(low[0]), y - float(low[1])) for x, y in ring)) for kind, ring in pieces)
    whence = f"; the repeat as layer {REPEAT} has it" if repeat else "; the repeat as the job file has it"
    told += [
        *said,
        finding(
            "job-traced", Severity.NOTE, file, f"{_many(moved)}{whence}", remedy="look at it on the sheet of the floor"
        ),
    ]
    return Traced(pieces=moved, repeat=repeat, findings=tuple(told))


def _svg(content: bytes) -> Contents:
    try:
        return svg_contents(content)
    except SvgError as fault:
        raise _RefusedError(str(fault), "an SVG drawing of straight-sided pieces", fault.remedy) from fault


def _dxf(content: bytes, file: str, told: list[Finding]) -> Contents:
    document, faults = document_of(content)
    if document is None:
        raise _RefusedError(faults[0], "a DXF drawing", "save it again as DXF (R2000 or later)")
    told += repaired(faults, file)
    return contents_of(document)


def _many(pieces: tuple[tuple[str, tuple[Pair, ...]], ...]) -> str:
    kinds = list(dict.fromkeys(kind for kind, _ in pieces))
    count = "1 piece" if len(pieces) == 1 else f"{len(pieces)} pieces"
    return count if len(kinds) == 1 else f"{count} of {len(kinds)} kinds: {', '.join(kinds)}"


def _layers(contents: Contents, layers: tuple[str, ...]) -> tuple[dict[str, list[Chain]], list[Chain]]:
    """The runs of the layers that hold pieces, by layer, and those of the repeat's layer."""
    names = sorted({*contents.chains, *contents.rounds})
    lines = [chain for name in names if name.casefold() == REPEAT for chain in contents.chains.get(name, [])]
    there = {name.casefold(): name for name in names if name.casefold() != REPEAT}
    missing = [name for name in layers if name.casefold() not in there]
    if missing:
        shown = listed([_layer_text(name) for name in there.values()]) if there else "none has any"
        raise _RefusedError(
            f"no lines on {_layer_text(missing[0])}", f"a layer with lines: {shown}", "name that in `layers`"
        )
    wanted = [there[name.casefold()] for name in layers] or list(there.values())
    for name in wanted:
        curved = [chain for chain in contents.chains.get(name, []) if chain.is_curved] + contents.rounds.get(name, [])
        if curved:
            raise _RefusedError(
                f"{_count(len(curved), 'outline')} with a curve on {_layer_text(name)}",
                "pieces of straight sides",
                "draw the curve as short straight sides, or lay `fish scale` or a zone of `rings`",
            )
    own = {name: contents.chains[name] for name in wanted if contents.chains.get(name)}
    if not own:
        passed = [*contents.broken[:1], *([counted(contents.passed_over)] if contents.passed_over else [])]
        raise _RefusedError(
            f"nothing that makes a piece{f', only {passed[0]}' if passed else ''}",
            "each piece a closed outline",
            "draw the pieces of one repeat, each as one closed outline",
        )
    return own, lines


def _layer_text(name: str) -> str:
    return f"layer {name}" if name else "no layer"


def _count(number: int, what: str) -> str:
    return f"1 {what}" if number == 1 else f"{number} {what}s"


def _scale(
    own: dict[str, list[Chain]], contents: Contents, drawn_in: str | None, file: str
) -> tuple[float, tuple[Finding, ...]]:
    """The mm of the drawing's unit, and the note that it was taken at its word."""
    across = max(chain.across() for chains in own.values() for chain in chains)
    fitting = [f"{unit} ({_size(across, unit)})" for unit in units_that_fit(across, SMALLEST, LARGEST)]
    meant = f"the size of a piece, as it would be in {listed(fitting)}" if fitting else "the size of a piece"
    unit = drawn_in or contents.header
    if not unit:
        raise _RefusedError(
            f"a drawing that does not say its unit, its largest piece {across:.6g} across",
            meant,
            'write drawn_in = "mm", or what it is',
        )
    if not across > 0.0 or unit not in units_that_fit(across, SMALLEST, LARGEST):
        says = f"in {UNIT_WORDS[unit]}" if drawn_in else f"as the file says that it is in {UNIT_WORDS[unit]}"
        raise _RefusedError(
            f"a largest piece {_size(across, unit)} across, {says}", meant, "look at the unit, and write drawn_in"
        )
    note = finding(
        "job-drawing-unit", Severity.NOTE, file,
        f"a largest piece {_size(across, unit)} across, as the file says that it is in {UNIT_WORDS[unit]}",
        remedy="write drawn_in if it is in another unit",
    )  # fmt: skip
    return float(MM_IN[unit]), () if drawn_in else (note,)


def _size(across: float, unit: str) -> str:
    return f"{across * float(MM_IN[unit]):.5g} mm"


def _pieces(
    own: dict[str, list[Chain]], contents: Contents, scale: float, file: str, told: list[Finding]
) -> list[tuple[str, tuple[Pair, ...]]]:
    """The closed outlines in mm, each with its kind; what is left out is told of."""
    found: list[tuple[str, tuple[Pair, ...]]] = []
    loose = 0
    for layer, chains in own.items():
        for chain in chains:
            ring = _ring(chain.scaled(scale))
            if ring is None:
                loose += 1
                continue
            found.append((layer, ring))
    if not found:
        raise _RefusedError(
            f"{_count(loose, 'line')} that {'does' if loose == 1 else 'do'} not close",
            "each piece a closed outline",
            "join the sides of each piece to one closed outline",
        )
    if len(found) > MOST_PIECES:
        raise _RefusedError(
            f"{len(found)} closed outlines", f"{MOST_PIECES} at most", "draw the pieces of one repeat alone"
        )
    most = max(len(ring) for _, ring in found)
    if most > MOST_CORNERS:
        raise _RefusedError(f"a piece of {most} corners", f"{MOST_CORNERS} at most", "draw it with fewer")
    left_out = [_count(loose, "line") + " that do not close"] if loose else []
    left_out += [counted(contents.passed_over)] if contents.passed_over else []
    left_out += contents.broken[:MOST_TOLD]
    if left_out:
        told.append(finding(
            "job-traced-left-out", Severity.WARNING, file, f"left out: {'; '.join(left_out)}",
            "each piece a closed outline", "join the sides of each piece, or take out what is no piece",
        ))  # fmt: skip
    kinds = {layer for layer, _ in found}
    return [(layer if len(kinds) > 1 and layer else PIECE, ring) for layer, ring in found]


def _ring(chain: Chain) -> tuple[Pair, ...] | None:
    """The corners of a run that closes, none of them twice; None of one that does not."""
    corners: list[Pair] = []
    for x, y, _ in chain.vertices:
        if not corners or math.dist(corners[-1], (x, y)) > CLOSES:
            corners.append((x, y))
    comes_back = len(corners) > 3 and math.dist(corners[0], corners[-1]) <= CLOSES
    if comes_back:
        corners.pop()
    return tuple(corners) if (chain.closed or comes_back) and len(corners) > 2 else None


def _repeat(lines: list[Chain], scale: float) -> tuple[Pair, Pair]:
    """The two repeat vectors, mm, in the order in which their lines are drawn."""
    runs = list(_straight(lines))
    if len(runs) != 2:
        raise _RefusedError(
            f"{_count(len(runs), 'straight line')} on a layer `{REPEAT}`"
            if runs
            else f"no lines on a layer `{REPEAT}`",
            "two lines, each from a piece to the same piece of the next repeat",
            "draw them, or write `across` and `along` in the job file",
        )
    first, second = ((scale * (x1 - x0), scale * (y1 - y0)) for (x0, y0), (x1, y1) in runs)
    return first, second


def _straight(lines: list[Chain]) -> Iterator[tuple[Pair, Pair]]:
    for chain in lines:
        if len(chain.vertices) == 2 and not chain.is_curved:
            (x0, y0, _), (x1, y1, _) = chain.vertices
            yield (x0, y0), (x1, y1)
