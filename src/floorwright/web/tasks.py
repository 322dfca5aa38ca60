"""The work that processes do for the app: each task is one call of the same functions as the command line's.

A task takes plain values and a `tell`, and returns plain values, since both go from process to process. It is given the
whole text of the job, so that any process can do it; what one process has just worked out it keeps for the next call.
"""

from __future__ import annotations

import json
import pickle
from collections import OrderedDict
from math import radians
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from floorwright.export import data, data_cuts, data_floor, data_patterns, data_setout
from floorwright.export.data_compared import compared_data
from floorwright.export.data_moved import catch_data, drawn_data, option_data
from floorwright.export.data_plan import plan_data
from floorwright.export.files import pack_files
from floorwright.job.load import load_text
from floorwright.job.read.beside import layers_beside
from floorwright.job.solve import solve
from floorwright.layout import elsewhere
from floorwright.layout.catches import catches
from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.sheets.pack import pack
from floorwright.web.card import card_data, sketch_data
from floorwright.web.written import as_written

if TYPE_CHECKING:
    from collections.abc import Callable

    from floorwright.job.load import Loaded
    from floorwright.job.solution import Solution
    from floorwright.layout.score import Floor

KEPT: Final = 4
"""Solved jobs that a process keeps."""

Asked = tuple[str, float, float, float, bool]

_GROUNDS: Final[dict[str, dict[str, tuple[Floor | None, UnitCell]]]] = {}
"""What this process moves patterns over, of the one job that is being moved."""

_SOLVED: Final[OrderedDict[str, Solution]] = OrderedDict()
"""What this process solved last, by all that the job holds: a drawing that it names may change under the same text."""


def measured(text: str, name: str, folder: str, _tell: Callable[[str, float], None]) -> str:
    """Returns, as JSON, what the readings of a job make, and its control lines: quick, and nothing is laid."""
    loaded = load_text(text, f"{name}.toml", Path(folder))
    written = as_written(text)
    if loaded.job is None:
        return data.as_line({**data.unread_data(loaded.findings), "file": written, "layers": []})
    solution = _measured(loaded)
    parts: dict[str, Any] = {
        "job": _form(loaded),
        "file": written,
        "layers": layers_beside(written, Path(folder)) if solution.room is None else [],
        "plan": plan_data(solution),
        "survey": data.survey_data(solution),
        "control": data_setout.lines_data(solution) if solution.control else None,
    }
    for part in (parts["survey"], parts["control"]):
        # They are said once, for all parts.
        if part is not None:
            del part["findings"]
    if solution.survey.adjustment is None:
        parts["sketch"] = sketch_data(loaded.job)
    return data.as_line(data.result(solution, **parts))


def card(text: str, name: str, folder: str, _tell: Callable[[str, float], None]) -> str:
    """Returns, as JSON, what a list of jobs shows of one: its picture and what state it is in."""
    loaded = load_text(text, f"{name}.toml", Path(folder))
    return data.as_line(card_data(loaded, _measured(loaded) if loaded.job else None))


def _measured(loaded: Loaded) -> Solution:
    """Returns the readings of a job adjusted, and nothing laid on the room."""
    assert loaded.job is not None
    return solve(loaded.job, findings=loaded.findings, lay=False)


def patterns(_tell: Callable[[str, float], None]) -> str:
    """Returns, as JSON, the catalogue of patterns with a drawing of each."""
    found = data_patterns.catalogue_data(tuple(PATTERNS.values()))
    return data.as_line({**found, "drawings": data_patterns.drawings()})


def solved(text: str, name: str, folder: str, tell: Callable[[str, float], None]) -> tuple[str, bytes]:
    """Returns, as JSON, everything there is to know of a job, and what `placed` moves its patterns over."""
    loaded = load_text(text, f"{name}.toml", Path(folder))
    if loaded.job is None:
        return data.as_line(data.unread_data(loaded.findings)), b""
    solution = _solution(loaded, tell)
    parts = {
        "survey": data.survey_data(solution),
        "control": data_setout.lines_data(solution) if solution.control else None,
        "layout": data_floor.layout_data(solution) if solution.layouts or solution.scored else None,
        "cuts": data_cuts.cuts_data(solution) if solution.cuts else None,
        "takeoff": data_cuts.takeoff_data(solution) if solution.orders else None,
    }
    for part in parts.values():
        # They are said once, for all parts.
        if part is not None:
            del part["findings"]
    grounds = {layout.zone: (layout.floor, layout.cell) for layout in solution.layouts}
    whole = data.as_line(data.result(solution, job=_form(loaded), plan=plan_data(solution), **parts))
    return whole, pickle.dumps(grounds)


def placed(key: str, grounds: bytes, asked: Asked, _tell: Callable[[str, float], None]) -> str:
    """Returns, as JSON, what a position makes of a zone; with its pieces, if asked for, also where it may catch.

    Empty without such a zone.

    Args:
        key: tells these grounds from others.
        grounds: of `solved`.
        asked: zone, x and y of the origin, degrees, whether to give the pieces.
    """
    if key not in _GROUNDS:
        _GROUNDS.clear()
        # Made by `solved` in another of our own processes; no request carries any.
        _GROUNDS[key] = pickle.loads(grounds)  # noqa: S301
    zone, x, y, turn, pieces = asked
    floor, cell = _GROUNDS[key].get(zone, (None, None))
    if floor is None or cell is None:
        return ""
    placement = Placement(origin=(x, y), angle=radians(turn))
    found = option_data(elsewhere.placed(floor, cell, placement))
    if pieces:
        found["drawn"] = drawn_data(elsewhere.outlines(floor, cell, placement))
        found["catches"] = [catch_data(catch) for catch in catches(floor, cell, placement.angle)]
    return data.as_line(found)


def compared(text: str, name: str, folder: str, tell: Callable[[str, float], None]) -> str:
    """Returns, as JSON, every first line and centre that the room offers, with what each costs and its plan."""
    loaded = load_text(text, f"{name}.toml", Path(folder))
    if loaded.job is None:
        return data.as_line(data.unread_data(loaded.findings))
    return data.as_line(compared_data(_solution(loaded, tell), drawn=True))


def packed(text: str, name: str, folder: str, tell: Callable[[str, float], None]) -> dict[str, bytes]:
    """Returns the files of the pack, by name; none where the file cannot be read as a job."""
    loaded = load_text(text, f"{name}.toml", Path(folder))
    if loaded.job is None:
        return {}
    solution = _solution(loaded, tell)
    tell("drawing the sheets", 0.9)
    return pack_files(pack(solution))


def _solution(loaded: Loaded, tell: Callable[[str, float], None]) -> Solution:
    assert loaded.job is not None
    key = f"{loaded.job.model_dump_json()} {loaded.findings} {loaded.earlier!r}"
    if key not in _SOLVED:
        solution = solve(loaded.job, findings=loaded.findings, progress=tell, earlier=loaded.earlier)
        if any(proof.stopped for layout in solution.layouts for proof in layout.proofs):
            return solution
        _SOLVED[key] = solution
        while len(_SOLVED) > KEPT:
            _SOLVED.popitem(last=False)
    _SOLVED.move_to_end(key)
    return _SOLVED[key]


def _form(loaded: Loaded) -> dict[str, Any]:
    """Returns the job as the form has it, defaults filled in, lengths in mm."""
    assert loaded.job is not None
    form: dict[str, Any] = json.loads(loaded.job.model_dump_json(by_alias=True))
    return form
