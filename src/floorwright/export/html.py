"""The site copy as one HTML file: no server, no network, opened from a message or a cable.

The file holds its own style, script and data. Its policy lets run what it was made with, told by hashes, and nothing
else: a name in a job that looks like a script is text.
"""

from __future__ import annotations

import base64
import hashlib
import html
import json
import re
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any, Final

from floorwright.export.outlines import TENTHS, by_kind, fill_path, line_path, placed, ring_path, tile_path

if TYPE_CHECKING:
    from collections.abc import Sequence

    from floorwright.draw.sheet import Pack, Prose
    from floorwright.draw.site import Box, SiteAlike, SiteCheck, SiteCopy, SitePlan, SiteSteps, SiteTask
    from floorwright.draw.view import Point

MODULES: Final = (
    "lengths",
    "verdict",
    "kept",
    "parts",
    "view",
    "gestures",
    "plan",
    "tasks",
    "prove",
    "cuts",
    "about",
    "main",
)
"""Of the script, each after those that it imports from."""

DIGITS: Final = 16
"""Hex digits that tell one copy from another, so that ticks of one never show on the next."""

_SOURCES: Final = files("floorwright") / "export" / "site"
_IMPORT: Final = re.compile(r"^import [^;]*;\n", re.MULTILINE)
_REMARK: Final = re.compile(r"^// [^\n]*\n|[ \t]*/\*\*.*?\*/\n?", re.MULTILINE | re.DOTALL)
_EXPORT: Final = re.compile(r"^export (?=const|function|class)", re.MULTILINE)

Data = dict[str, Any]


def site_html(pack: Pack, site: SiteCopy) -> bytes:
    """Returns the site copy of a job as one HTML file, the same bytes for the same job."""
    data = _json(_data(pack, site))
    style, script = _source("site.css"), _script()
    key = hashlib.sha256(data.encode()).hexdigest()[:DIGITS]
    policy = (
        "default-src 'none'",
        f"script-src '{_hash(script)}'",
        f"style-src '{_hash(style)}'",
        "base-uri 'none'",
        "form-action 'none'",
    )
    slots = {
        "policy": "; ".join(policy),
        "language": "en-US" if pack.words == "US" else "en-GB",
        "title": html.escape(pack.job),
        "style": style,
        "key": key,
        "data": data,
        "script": script,
    }
    page = _source("page.html")
    return re.sub(r"\{\{ (\w+) \}\}", lambda slot: slots[slot[1]], page).encode()


def _source(name: str) -> str:
    return (_SOURCES / name).read_text(encoding="utf-8")


@cache
def _script() -> str:
    """Returns the modules as one script without imports, which a page opened from a file may not load, and without
    remarks, which a phone does not need."""
    parts = [_EXPORT.sub("", _IMPORT.sub("", _REMARK.sub("", _source(f"{name}.js")))) for name in MODULES]
    return f'(() => {{\n"use strict";\n{"".join(parts)}}})();\n'


def _hash(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


def _json(data: Data) -> str:
    """Returns data as JSON that can stand in a page: nothing in it ends the element that it stands in."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")


def _data(pack: Pack, site: SiteCopy) -> Data:
    box = site.plan.box
    return {
        "job": pack.job,
        "title": site.title,
        "of": [
            part for part in (pack.client, pack.by, pack.revision and f"Revision {pack.revision}", pack.date) if part
        ],
        "units": pack.units,
        "system": site.system,
        "column": site.column,
        "unit": site.unit,
        "plan": _plan(site.plan),
        "first": _said(site.first),
        "steps": [_steps(steps, box) for steps in site.steps],
        "checks": [_check(check, box) for check in site.checks],
        "nail": site.nail,
        "lines": [_task(line, box) for line in site.lines],
        "cuts": [
            {"heading": one.heading, "ends": one.ends, "rows": [_alike(alike) for alike in one.cuts]}
            for one in site.cuts
        ],
        "scored": [_steps(steps, box) for steps in site.scored],
        "snapping": _said(site.before_snapping),
        "sawing": _said(site.before_sawing),
    }


def _said(parts: Sequence[Prose]) -> list[Data]:
    return [{"heading": part.heading, "lines": part.lines, "tone": part.tone} for part in parts]


def _plan(plan: SitePlan) -> Data:
    left, low, right, high = box = plan.box
    return {
        "size": [round((right - left) * TENTHS), round((high - low) * TENTHS)],
        "floor": by_kind(plan.floor, box),
        "tiles": [[tile_path(tiles.outline), _flat(placed(tiles.places, box))] for tiles in plan.tiles],
        "cuts": [[cut.label, fill_path(cut.shape, box), int(cut.is_under)] for cut in plan.cuts],
        "sawn": "".join(line_path(line, box) for line in plan.sawn),
        "walls": by_kind(plan.walls, box),
        "names": [
            [*placed([name.at], box)[0], round(name.away[0], 3), round(-name.away[1], 3), name.text, name.what]
            for name in plan.names
        ],
    }


def _steps(steps: SiteSteps, box: Box) -> Data:
    return {"heading": steps.heading, "why": steps.why, "tasks": [_task(task, box) for task in steps.tasks]}


def _task(task: SiteTask, box: Box) -> Data:
    return {
        "name": task.name,
        "text": task.text,
        "figures": task.figures,
        "points": [[*placed([point], box)[0], name] for name, point in task.points],
        "lines": [_flat(placed(line, box)) for line in task.lines],
        "arcs": [_flat(placed(arc, box)) for arc in task.arcs],
    }


def _check(check: SiteCheck, box: Box) -> Data:
    return {
        "heading": check.heading,
        "ends": check.ends,
        "reads": check.reads,
        "within": check.within,
        "why": check.why,
        "points": [[*point, ""] for point in placed(check.points, box)],
        "expected": check.expected,
        "arms": check.arms,
        "way": check.way,
        "at": check.at,
        "limits": check.limits,
        "rough": check.is_rough,
        "out": check.out,
        "doubtful": check.doubtful,
        "cannot": check.cannot,
        "told": check.told,
    }


def _alike(alike: SiteAlike) -> Data:
    picture = alike.picture
    xs, ys = zip(*picture.tile, strict=True)
    box = (min(xs), min(ys), max(xs), max(ys))
    return {
        "no": alike.numbers,
        "pieces": alike.pieces,
        "kept": alike.kept,
        "note": alike.note,
        "also": alike.also,
        "size": [round((box[2] - box[0]) * TENTHS), round((box[3] - box[1]) * TENTHS)],
        "tile": ring_path(picture.tile, box),
        "left": fill_path(picture.kept, box),
        "sawn": "".join(line_path(line, box) for line in picture.sawn),
        "marks": [[*_flat(placed([at, corner], box)), text] for at, corner, text in picture.marks],
    }


def _flat(points: Sequence[Point]) -> list[float]:
    return [value for point in points for value in point]
