"""Patterns that a job file names a drawing for: their pieces and their repeat put into its tables."""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any, Final

from floorwright.errors import FloorwrightValueError
from floorwright.job.model.values import file_name
from floorwright.job.read.file_beside import content_beside, unused_beside
from floorwright.job.read.problem import Problem
from floorwright.job.read.traced_pattern import read_pattern
from floorwright.units import MM_IN

if TYPE_CHECKING:
    from pathlib import Path as FilePath

    from floorwright.findings import Finding
    from floorwright.job.read.positions import Path
    from floorwright.job.read.traced_pattern import Traced

DECIMALS: Final = 6
"""Of a millimetre: coordinates are rounded to `tolerance.COINCIDENT`."""

REPEATS: Final = ("across", "along")


def with_patterns(
    data: dict[str, Any], folder: FilePath | None
) -> tuple[dict[str, Any], tuple[Problem, ...], tuple[Finding, ...]]:
    """Returns the tables of a job with the pieces of every pattern that is traced, the problems at its keys, and what
    there is to say of the drawings themselves.

    Args:
        data: tables of a job file; they stay as they are.
        folder: of the job file; None where it is in none.
    """
    tables = data.get("patterns")
    traced = [i for i, one in enumerate(tables) if _is_traced(one)] if isinstance(tables, list) else []
    if not traced:
        return data, (), ()
    filled = copy.deepcopy(data)
    problems: list[Problem] = []
    findings: list[Finding] = []
    for i in traced:
        pattern, path = filled["patterns"][i], ("patterns", i)
        if pattern.pop("pieces", None):
            problems.append(unused_beside((*path, "pieces"), "`pieces` beside `traced`"))
        drawn = _drawn(pattern, path, folder, problems)
        if drawn is None:
            continue
        findings += drawn.findings
        _fill(pattern, drawn)
    return filled, tuple(problems), tuple(findings)


def _is_traced(table: object) -> bool:
    return isinstance(table, dict) and isinstance(table.get("traced"), str)


def _drawn(pattern: dict[str, Any], path: Path, folder: FilePath | None, problems: list[Problem]) -> Traced | None:
    """What the drawing holds; None where it cannot be read, which is a problem, or told of by the reader of keys."""
    try:
        name = file_name(pattern["traced"])
    except FloorwrightValueError:
        return None
    if not name.lower().endswith((".dxf", ".svg")):
        problems.append(
            Problem(
                path=(*path, "traced"),
                code="job-file-beside",
                found=name,
                expected="a drawing: a DXF or an SVG file",
                remedy="save the drawing as DXF or as plain SVG",
            )
        )
        return None
    content, problem = content_beside(name, folder, (*path, "traced"))
    if content is None:
        problems += [problem] if problem else []
        return None
    layers = pattern.get("layers")
    named = tuple(one for one in layers if isinstance(one, str)) if isinstance(layers, list) else ()
    unit = pattern.get("drawn_in")
    given = [key for key in REPEATS if key in pattern]
    if len(given) == 1:
        problems.append(unused_beside((*path, given[0]), f"`{given[0]}` alone beside `traced`"))
    return read_pattern(
        content, name, named, unit if isinstance(unit, str) and unit in MM_IN else None, with_repeat=len(given) < 2
    )


def _fill(pattern: dict[str, Any], drawn: Traced) -> None:
    if not drawn.pieces:
        return
    pattern["pieces"] = [
        {"name": kind, "corners": [[_text(x), _text(y)] for x, y in ring]} for kind, ring in drawn.pieces
    ]
    if drawn.repeat is not None:
        for key, (x, y) in zip(REPEATS, drawn.repeat, strict=True):
            pattern[key] = [_text(x), _text(y)]


def _text(mm: float) -> str:
    return f"{round(mm, DECIMALS) + 0.0:.{DECIMALS}f} mm"
