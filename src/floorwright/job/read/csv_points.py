"""Coordinates from a total station: a CSV file of name, east and north."""

import csv
import io
import re
from collections.abc import Sequence
from typing import Final

from floorwright.errors import FloorwrightValueError
from floorwright.findings import Finding, Severity
from floorwright.job.model.values import corner_name
from floorwright.job.read.drawing import Drawn, finding, refusal, size_text, units_text, units_that_fit
from floorwright.job.read.syntax import LONGEST_LINE
from floorwright.units import MM_IN, UNIT_NAMES

CODE: Final = "job-csv"
COLUMNS: Final = {
    "name": ("name", "point", "pt", "id", "no", "number", "corner"),
    "east": ("east", "easting", "e", "x"),
    "north": ("north", "northing", "n", "y"),
}
"""Columns that are read, and what their heads may be."""

FARTHEST: Final = 10_000_000.0
"""m. A coordinate beyond this is no coordinate on any grid."""

MOST: Final = 1000
"""Points that are read."""

_HEAD: Final = re.compile(r"\s*([a-z]+)\s*(?:[_\s\[(]+\s*([a-z]+)\s*[\])]?)?\s*")


def read_points(content: bytes, file: str, unit: str) -> Drawn:
    """Returns the points of a CSV file in their order.

    Columns are parted by commas, semicolons or tabs. A first line of heads may name them in any order, with a unit
    (`east_m`, `east (m)`); without one they are name, east, north in the job's unit. Lines that are empty or begin with
    `#` are passed over.

    Args:
        content: of the file.
        file: its name, for the findings: `points.csv:3 east`.
        unit: of a coordinate whose column has none.
    """
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return refusal(CODE, file, "a file that is no plain text", "UTF-8 text", "save it as CSV, UTF-8")
    lines = [(i, line) for i, line in enumerate(text.splitlines(), 1) if line.strip() and not line.startswith("#")]
    if not lines:
        return refusal(CODE, file, "no point in it", "name, east and north of each corner", "look at what was exported")
    longest = next((i for i, line in lines if len(line) > LONGEST_LINE), None)
    if longest is not None:
        found, expected = "a line too long to hold a point", f"at most {LONGEST_LINE} characters"
        return refusal(CODE, f"{file}:{longest}", found, expected, "is it the right file?")
    part = max(";\t,", key=lambda sign: min(line.count(sign) for _, line in lines))
    rows = [(i, [cell.strip() for cell in next(csv.reader(io.StringIO(line), delimiter=part))]) for i, line in lines]
    heads, told = _heads(rows[0][1], f"{file}:{rows[0][0]}")
    if told:
        return Drawn(findings=tuple(told))
    body = rows[1:] if heads else rows
    columns = heads or {"name": (0, ""), "east": (1, ""), "north": (2, "")}
    points: list[tuple[str, float, float]] = []
    findings: list[Finding] = []
    for i, cells in body[:MOST]:
        point, wrong = _point(cells, columns, f"{file}:{i}", unit, [name for name, _, _ in points])
        findings += wrong
        if point:
            points.append(point)
    if len(body) > MOST:
        findings.append(_wrong(f"{file}:{body[MOST][0]}", f"{len(body)} points", f"at most {MOST}", "keep the room's"))
    if findings:
        return Drawn(findings=tuple(findings))
    return _sized(points, file, unit if not columns["east"][1] else "")


def _heads(cells: Sequence[str], place: str) -> tuple[dict[str, tuple[int, str]], list[Finding]]:
    """Column and unit of each head; none where the first line already holds a point."""
    found: dict[str, tuple[int, str]] = {}
    for i, cell in enumerate(cells):
        match = _HEAD.fullmatch(cell.lower())
        key = next((key for key, names in COLUMNS.items() if match and match[1] in names), None)
        if match and key and key not in found:
            unit = UNIT_NAMES.get(match[2] or "", match[2] or "")
            if unit and unit not in MM_IN:
                return {}, [_wrong(f"{place} {cell}", f"a column in {unit}", "mm, cm, m, in or ft", "name its unit")]
            found[key] = (i, unit)
    if len(found) == len(COLUMNS):
        return found, []
    if len(cells) > 2 and _number(cells[1]) is not None and _number(cells[2]) is not None:
        return {}, []
    missing = [key for key in COLUMNS if key not in found]
    return {}, [
        _wrong(place, f"no column {missing[0]}", "columns name, east and north", "write name,east,north above them")
    ]


def _point(
    cells: Sequence[str], columns: dict[str, tuple[int, str]], place: str, unit: str, before: Sequence[str]
) -> tuple[tuple[str, float, float] | None, list[Finding]]:
    if len(cells) <= max(column for column, _ in columns.values()):
        return None, [_wrong(place, f"{len(cells)} columns", "name, east and north", "look at the line")]
    name = cells[columns["name"][0]]
    wrong: list[Finding] = []
    try:
        name = corner_name(name)
    except FloorwrightValueError as error:
        wrong.append(_wrong(f"{place} name", f"`{name[:40]}`", str(error), "give the point a plain name"))
    if name in before:
        wrong.append(_wrong(f"{place} name", f"{name} a second time", "a name of its own for each", "take one out"))
    values: list[float] = []
    for key in ("east", "north"):
        column, own = columns[key]
        value = _number(cells[column])
        if value is None or abs(value) * float(MM_IN[own or unit]) > FARTHEST * 1000:
            remedy = "write a point for decimals" if "," in cells[column] else "look at the line"
            wrong.append(_wrong(f"{place} {key}", f"`{cells[column][:40]}`", "a coordinate", remedy))
        else:
            values.append(value * float(MM_IN[own or unit]))
    return ((name, values[0], values[1]) if not wrong else None), wrong


def _number(text: str) -> float | None:
    return float(text) if re.fullmatch(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)", text) else None


def _sized(points: Sequence[tuple[str, float, float]], file: str, assumed: str) -> Drawn:
    """The points, questioned where the unit was assumed and makes no room of them."""
    spans = [max(values) - min(values) for values in ([x for _, x, _ in points], [y for _, _, y in points])]
    across = max(spans) / float(MM_IN[assumed or "mm"])
    if len(points) < 3:
        return refusal(CODE, file, f"{len(points)} points", "three corners or more", "measure the others")
    if (assumed or "mm") in units_that_fit(across):
        return Drawn(points=tuple(points))
    meant = units_text(across) if assumed else ""
    return refusal(
        "job-csv-unit",
        file,
        f"points {size_text(across, assumed or 'mm')} apart"
        + (f", read in {assumed} as the job is" if assumed else ""),
        "points of one room" + (f", as they would be in {meant}" if meant else ""),
        "write the unit in the heads: east_m, north_m" if assumed else "look at the unit in the heads",
    )


def _wrong(place: str, found: str, expected: str, remedy: str) -> Finding:
    return finding(CODE, Severity.ERROR, place, found, expected, remedy)
