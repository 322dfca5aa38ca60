"""What a DXF drawing holds: its lines, arcs and polylines, as true as the file is sound."""

from __future__ import annotations

import io
import logging
import math
from collections import Counter
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from floorwright.job.read.contents import Contents
from floorwright.job.read.ring import Chain

if TYPE_CHECKING:
    from collections.abc import Iterator

HEADER_UNITS: Final = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m"}
"""$INSUNITS of the DXF reference."""

DRAWN: Final = ("LINE", "ARC", "LWPOLYLINE", "POLYLINE")
"""Entities that an outline is made of."""

ROUND: Final = "CIRCLE"


def document_of(content: bytes) -> tuple[Any, list[str]]:
    """Returns the drawing and what was repaired in it; None and what is wrong where it cannot be read."""
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


def contents_of(document: Any) -> Contents:
    """Returns what is drawn in the model space of a drawing."""
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
        chains=chains,
        rounds=rounds,
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
