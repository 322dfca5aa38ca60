"""A value that does not fit its place in the form, told in plain words instead of pydantic's."""

import datetime as dt
from collections.abc import Iterable
from typing import Any, Final

from pydantic_core import ErrorDetails

from floorwright.findings import Severity
from floorwright.job.model import SCHEMA
from floorwright.job.model.form import choices_at, fields_of, headers_with, table_at
from floorwright.job.model.values import FieldError
from floorwright.job.read.positions import Path
from floorwright.job.read.problem import Problem, did_you_mean, listed
from floorwright.units import UNIT_NAMES

KEY_MARK: Final = "[key]"
"""How pydantic says that it means the key of a table, not its value."""

LONGEST_SHOWN: Final = 40

_KINDS: Final = {
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "float_type": "a number",
    "finite_number": "a number",
    "bool_type": "true or false",
    "dict_type": "a table",
    "model_type": "a table",
    "tuple_type": "a list",
}
_BOUNDS: Final = {
    "greater_than_equal": ("ge", "{} or more"),
    "less_than_equal": ("le", "{} or less"),
    "greater_than": ("gt", "over {}"),
    "less_than": ("lt", "under {}"),
}


def value_at(data: object, path: Iterable[str | int]) -> Any:
    """Returns the value at a path of the file's tables; None if there is none."""
    item: Any = data
    for step in path:
        if isinstance(item, dict):
            item = item.get(step)
        elif isinstance(item, list) and isinstance(step, int) and step < len(item):
            item = item[step]
        else:
            return None
    return item


def shown(value: object) -> str:
    """Returns a value of the file as a person would point at it."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, int | float):
        return f"{value:.12g}" if abs(value) < 1e15 else "a number of too many figures"
    if isinstance(value, dt.datetime):
        return "a date with a time of day"
    if isinstance(value, dt.date | dt.time):
        return value.isoformat()
    return quoted(str(value))


def quoted(text: str) -> str:
    """Returns a text between backquotes, on one line and not too long."""
    line = " ".join(text.split())
    return f"`{line}`" if len(line) <= LONGEST_SHOWN else f"`{line[:LONGEST_SHOWN]}...`"


def problem_of(data: dict[str, Any], error: ErrorDetails) -> Problem:
    """Returns the problem for what pydantic has against a value of the file's tables."""
    path: Path = error["loc"]
    kind = error["type"]
    if path[-1] == KEY_MARK:
        path = path[:-1]
        found = quoted(str(path[-1]))
    else:
        found = shown(value_at(data, path))
    if kind == "extra_forbidden":
        return _unknown(data, path)
    if kind == "missing":
        return _missing(path)
    drop = _droppable(data, path)
    cause = error.get("ctx", {}).get("error")
    if isinstance(cause, FieldError):
        found = cause.found or found
        return Problem(path=path, code=cause.code, found=found, expected=cause.expected, remedy=cause.remedy, drop=drop)
    if kind == "literal_error" and path == ("schema",):
        expected, remedy = f"schema {SCHEMA}, which is all that this version reads", f"write schema = {SCHEMA}"
        return Problem(path=path, code="job-schema", found=found, expected=expected, remedy=remedy, drop=drop)
    if kind == "literal_error":
        return choice(path, value_at(data, path), drop)
    if kind in ("too_long", "too_short"):
        return _size(path, error, drop)
    if kind in _BOUNDS:
        bound, text = _BOUNDS[kind]
        expected = text.format(error["ctx"][bound])
        return Problem(
            path=path, code="job-number", found=found, expected=expected, remedy="look at it again", drop=drop
        )
    return _kind(path, kind, found, value_at(data, path), error["msg"], drop)


def choice(path: Path, value: object, drop: Path) -> Problem:
    """Returns the problem for a value that is none of the words it may be."""
    words = choices_at(path)
    near = did_you_mean(value, words, alone=True) if isinstance(value, str) else None
    if path == ("units",) and isinstance(value, str):
        near = UNIT_NAMES.get(value.lower())
    remedy = f'write "{near}"' if near else "write one of them"
    return Problem(path=path, code="job-choice", found=shown(value), expected=listed(words), remedy=remedy, drop=drop)


def _droppable(data: object, path: Path) -> Path:
    """Returns what to leave out for a wrong value: it, or the whole list of plain values that it is one of."""
    while len(path) > 1 and isinstance(path[-1], int) and not isinstance(value_at(data, path), dict):
        path = path[:-1]
    return path


def _size(path: Path, error: ErrorDetails, drop: Path) -> Problem:
    bounds = error["ctx"]
    most = bounds.get("max_length")
    return Problem(
        path=path,
        code="job-size",
        found=f"{bounds['actual_length']} of them",
        expected=f"at least {bounds['min_length']}" if most is None else f"at most {most}",
        remedy="add what is missing" if most is None else "take some out",
        drop=drop,
    )


def _kind(path: Path, kind: str, found: str, value: object, message: str, drop: Path) -> Problem:
    expected = _KINDS.get(kind, message)
    remedy = f"write {expected}"
    dotted = ".".join(str(step) for step in path)
    if kind == "tuple_type" and isinstance(value, dict):
        found, expected, remedy = f"one [{dotted}]", "a list of one or several", f"write [[{dotted}]]"
    elif kind in ("model_type", "dict_type") and isinstance(value, list):
        found, expected, remedy = f"[[{dotted}]] or a list", "one table", f"write [{dotted}]"
    return Problem(path=path, code="job-type", found=found, expected=expected, remedy=remedy, drop=drop)


def _missing(path: Path) -> Problem:
    return Problem(
        path=path,
        code="job-missing-key",
        found=f"no `{path[-1]}`",
        expected="one, because it has no default",
        remedy=f"add {path[-1]} = ...",
        drop=path[:-1],
    )


def _unknown(data: dict[str, Any], path: Path) -> Problem:
    key = str(path[-1])
    table = table_at(path[:-1])
    own = set(fields_of(table)) if table else set()
    there = set(value_at(data, path[:-1]))
    near = did_you_mean(key, own - there)
    homes = headers_with(key)
    if near:
        remedy = f"write {near}"
    elif double := did_you_mean(key, own & there):
        remedy = f"take it out, or put it together with {double}"
    elif homes:
        remedy = f"move it to {listed(homes)}" if "" not in homes else "move it to the top, before the first [table]"
    else:
        remedy = f"take it out; the keys here are {listed(sorted(own))}"
    return Problem(
        path=path,
        code="job-unknown-key",
        found=quoted(key),
        expected="a key that means something here",
        remedy=remedy,
        severity=Severity.WARNING,
        meant=near or "",
        drop=path,
    )
