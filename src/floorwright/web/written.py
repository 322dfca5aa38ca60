"""A job file as it is written: what each key holds, before anything is read into it."""

from __future__ import annotations

import datetime as dt
import math
import tomllib
from typing import Any


def as_written(text: str) -> dict[str, Any]:
    """Returns the tables of a job file as JSON can hold them, dates as text; empty where it is no TOML."""
    try:
        tables = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError):
        return {}
    plain: dict[str, Any] = _plain(tables)
    return plain


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_plain(one) for one in value]
    if isinstance(value, dt.date | dt.time):
        return value.isoformat()
    if isinstance(value, float) and not math.isfinite(value):
        return str(value)
    return value
