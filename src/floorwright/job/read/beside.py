"""The files beside a job file: read, and put into its tables, the room as coordinates and an outline."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.findings import Severity
from floorwright.geometry.measure import area, turns
from floorwright.job.model.values import file_name
from floorwright.job.read.csv_points import read_points
from floorwright.job.read.dxf_outline import dxf_layers, read_dxf
from floorwright.job.read.file_beside import content_beside, unused_beside
from floorwright.job.read.geojson_outline import geojson_names, read_geojson
from floorwright.job.read.patterns_beside import with_patterns
from floorwright.job.read.problem import Problem
from floorwright.tolerance import ALONG
from floorwright.units import MM_IN

if TYPE_CHECKING:
    from pathlib import Path as FilePath

    from floorwright.findings import Finding
    from floorwright.job.read.drawing import Drawn, DrawnArc

MOST_CORNERS: Final = 200
"""As many as an outline may have."""

WITHIN: Final = "2 mm"
"""How true a drawing is taken to be without `coordinates_within`: as that key's own default."""

DECIMALS: Final = 6
"""Of a millimetre: coordinates are rounded to `tolerance.COINCIDENT`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """The tables of a job with what the file beside it holds.

    Attributes:
        data: the tables; those passed where no file is named, or none that can be read.
        problems: at the keys that name it.
        findings: in the file itself, each with its line.
    """

    data: dict[str, Any]
    problems: tuple[Problem, ...] = ()
    findings: tuple[Finding, ...] = ()


def with_files_beside(data: dict[str, Any], folder: FilePath | None) -> Beside:
    """Returns the tables of a job with what the files that it names hold: coordinates, outline and its turns, and the
    pieces and the repeat of drawn patterns.

    What the tables say of the outline themselves stays, except a direction that the coordinates belie.

    Args:
        data: tables of a job file; they stay as they are.
        folder: of the job file; None where it is in none.
    """
    surveyed = _with_survey(data, folder)
    drawn, problems, findings = with_patterns(surveyed.data, folder)
    return Beside(data=drawn, problems=(*surveyed.problems, *problems), findings=(*surveyed.findings, *findings))


def _with_survey(data: dict[str, Any], folder: FilePath | None) -> Beside:
    survey = data.get("survey")
    if not isinstance(survey, dict):
        return Beside(data=data)
    named = [key for key in ("coordinates", "traced") if isinstance(survey.get(key), str)]
    if not named:
        return Beside(data=data)
    key = named[0]
    problems = [unused_beside(("survey", other), f"`{other}` beside `{key}`") for other in named[1:]]
    if survey.get("points"):
        problems.append(unused_beside(("survey", "points"), f"`points` beside `{key}`"))
    try:
        name = file_name(survey[key])
    except FloorwrightValueError:
        # The reader of the keys says so.
        return Beside(data=data, problems=tuple(problems))
    content, problem = content_beside(name, folder, ("survey", key))
    if content is None:
        return Beside(data=data, problems=(*problems, problem) if problem else tuple(problems))
    drawn = _drawn(key, name, content, survey, str(data.get("units", "mm")))
    if len(drawn.points) < 3:
        return Beside(data=data, problems=tuple(problems), findings=drawn.findings)
    filled = copy.deepcopy(data)
    problems += _fill(filled["survey"], drawn)
    return Beside(data=filled, problems=tuple(problems), findings=drawn.findings)


def layers_beside(data: dict[str, Any], folder: FilePath | None) -> list[str]:
    """Returns what `layer` can name in the drawing that a job is traced from; none without one, or of one alone.

    Args:
        data: tables of a job file.
        folder: of the job file; None where it is in none.
    """
    survey = data.get("survey")
    named = survey.get("traced") if isinstance(survey, dict) else None
    try:
        name = file_name(named)
    except FloorwrightValueError:
        return []
    content, _ = content_beside(name, folder, ("survey", "traced"))
    if content is None:
        return []
    names = geojson_names(content) if _is_geojson(name) else dxf_layers(content)
    return names if len(names) > 1 else []


def _is_geojson(name: str) -> bool:
    return name.lower().endswith((".geojson", ".json"))


def _drawn(key: str, name: str, content: bytes, survey: dict[str, Any], unit: str) -> Drawn:
    if key == "coordinates":
        return read_points(content, name, unit)
    layer = survey.get("layer")
    layer = layer if isinstance(layer, str) and layer else None
    drawn_in = survey.get("drawn_in")
    drawn_in = drawn_in if isinstance(drawn_in, str) and drawn_in in MM_IN else None
    reader = read_geojson if _is_geojson(name) else read_dxf
    return reader(content, name, layer, drawn_in)


def _fill(survey: dict[str, Any], drawn: Drawn) -> list[Problem]:
    """Puts the points into a survey's table, and says what of it they belie."""
    first_x, first_y = drawn.points[0][1:]
    # From the first point on, so that seven-figure grid coordinates lose nothing and stay in what a length may be.
    places = {name: (x - first_x, y - first_y) for name, x, y in drawn.points}
    survey["points"] = {name: [_text(x), _text(y)] for name, (x, y) in places.items()}
    outline = survey.setdefault("outline", [name for name, _, _ in drawn.points][: MOST_CORNERS + 1])
    if not isinstance(outline, list) or len(outline) < 3 or not all(name in places for name in outline):
        return []
    ring = np.array([places[name] for name in outline])
    way = "anticlockwise" if area(ring) > 0 else "clockwise"
    problems = []
    if survey.get("direction", way) != way:
        problems.append(
            Problem(
                path=("survey", "direction"),
                code="job-direction",
                found=f"{survey['direction']}, but the coordinates run {way}",
                expected=way,
                remedy=f'write direction = "{way}"; it is taken so',
                severity=Severity.WARNING,
            )
        )
    survey["direction"] = way
    if drawn.arcs:
        survey.setdefault("arcs", [_arc(arc, survey) for arc in drawn.arcs if {arc.start, arc.end} <= set(outline)])
    side = 1.0 if way == "anticlockwise" else -1.0
    turned = side * turns(ring)
    survey.setdefault("inward", [name for name, turn in zip(outline, turned, strict=True) if turn < -ALONG])
    return problems


def _arc(arc: DrawnArc, survey: dict[str, Any]) -> dict[str, Any]:
    """A wall that is drawn as an arc, as though its rise had been read as truly as its corners."""
    return {
        "wall": f"{arc.start}-{arc.end}",
        "bows": "out" if arc.rise > 0 else "in",
        "rise": _text(abs(arc.rise)),
        "within": survey.get("coordinates_within", WITHIN),
    }


def _text(mm: float) -> str:
    return f"{round(mm, DECIMALS) + 0.0:.{DECIMALS}f} mm"
