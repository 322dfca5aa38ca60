"""The outline of an SVG path: its commands followed from corner to corner, straight ones only."""

from __future__ import annotations

import math
import re
from typing import Final, TypeAlias

from floorwright.errors import FloorwrightValueError

NUMBER: Final = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
_NUMBER = re.compile(NUMBER)
_BETWEEN = re.compile(r"[\s,]*")
_TOKEN = re.compile(rf"[\s,]*([A-Za-z]|{NUMBER})")

LONGEST: Final = 200_000
"""Characters of an outline that are read: a piece has a hundred corners at most."""

CURVES: Final = frozenset("CSQTA")
TAKES: Final = {"M": 2, "L": 2, "H": 1, "V": 1, "Z": 0}
"""Numbers that each straight command takes at a time (SVG 2, section 9.3)."""

Run: TypeAlias = tuple[list[tuple[float, float]], bool]
"""Corners in order, and whether the last side goes back to the first."""


class CurveError(FloorwrightValueError):
    """A path of which a side is no straight line."""


def numbers(text: str) -> list[float]:
    """Returns the numbers of a list of them, apart by spaces or commas.

    Raises:
        FloorwrightValueError: there is something else in it, or a number too large.
    """
    found, end = [], _past(text, 0)
    while end < len(text):
        match = _NUMBER.match(text, end)
        if match is None:
            raise FloorwrightValueError(f"{text[end : end + 20]!r} for a number")
        found.append(float(match[0]))
        end = _past(text, match.end())
    if not all(map(math.isfinite, found)):
        raise FloorwrightValueError("a number too large")
    return found


def _past(text: str, start: int) -> int:
    found = _BETWEEN.match(text, start)
    return found.end() if found else start


def runs_of(path: str) -> list[Run]:
    """Returns the runs of corners of a path's `d`.

    A run that comes back to its first corner is closed, whether it ends in Z or not.

    Raises:
        CurveError: a command is a curve.
        FloorwrightValueError: it is no path.
    """
    runs: list[Run] = []
    corners: list[tuple[float, float]] = []
    at = begun = (0.0, 0.0)
    for command, values in _commands(path):
        kind = command.upper()
        if kind == "Z":
            if corners:
                runs.append((corners, True))
            corners, at = [], begun
            continue
        base = at if command.islower() else (0.0, 0.0)
        if kind == "H":
            at = (base[0] + values[0], at[1])
        elif kind == "V":
            at = (at[0], base[1] + values[0])
        else:
            at = (base[0] + values[0], base[1] + values[1])
        if kind == "M":
            runs += _ended(corners)
            corners, begun = [at], at
            continue
        if not corners:
            # After a Z the next run goes on from where that one began.
            corners = [begun]
        if at != corners[-1]:
            corners.append(at)
    return runs + _ended(corners)


def _ended(corners: list[tuple[float, float]]) -> list[Run]:
    """A run without a Z at its end; of one point nothing is left."""
    if len(corners) < 2:
        return []
    closed = len(corners) > 3 and corners[0] == corners[-1]
    return [(corners[:-1] if closed else corners, closed)]


def _commands(path: str) -> list[tuple[str, list[float]]]:
    """Every command with its numbers; numbers that go on after it are commands of their own, lines after a move."""
    if len(path) > LONGEST:
        raise FloorwrightValueError(f"an outline of {len(path)} characters")
    tokens, end = [], 0
    while found := _TOKEN.match(path, end):
        tokens.append(found[1])
        end = found.end()
    if path[end:].strip(" \t\r\n,"):
        raise FloorwrightValueError(f"{path[end : end + 20].strip()!r} in its outline")
    done: list[tuple[str, list[float]]] = []
    n = 0
    while n < len(tokens):
        command = tokens[n]
        if command.upper() in CURVES:
            raise CurveError(f"the command {command}")
        if command.upper() not in TAKES:
            raise FloorwrightValueError(f"{command[:20]!r} in its outline")
        if not done and command.upper() != "M":
            raise FloorwrightValueError("an outline that does not begin with a move")
        n += 1
        takes = TAKES[command.upper()]
        if not takes:
            done.append((command, []))
        first = True
        while takes and (first or (n < len(tokens) and not tokens[n].isalpha())):
            values = tokens[n : n + takes]
            if len(values) < takes or any(value.isalpha() for value in values):
                raise FloorwrightValueError(f"too few numbers after {command}")
            done.append((command, [float(value) for value in values]))
            n += takes
            first = False
            command = {"M": "L", "m": "l"}.get(command, command)
    return done
