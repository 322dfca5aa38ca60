"""Jobs to start from: a room of so many corners with nothing measured yet, or an example."""

from __future__ import annotations

import json
import string
from importlib.resources import files
from typing import Final

from floorwright.errors import FloorwrightValueError

MOST_CORNERS: Final = 26
"""As many as there are letters to call them by."""

LEAST_OUTWARD: Final = 3


def blank(*, title: str, corners: int, inward: tuple[str, ...] = (), imperial: bool = False) -> str:
    """Returns the text of a job for a room with nothing measured yet.

    Args:
        title: of the job.
        corners: of the room; they are called A, B, C and so on, anticlockwise.
        inward: those that turn into the room.
        imperial: feet and inches, US words, Letter paper.

    Raises:
        FloorwrightValueError: a room cannot have those corners.
    """
    if not LEAST_OUTWARD <= corners <= MOST_CORNERS:
        raise FloorwrightValueError(
            f"a room to start from has {LEAST_OUTWARD} to {MOST_CORNERS} corners, not {corners}"
        )
    names = string.ascii_uppercase[:corners]
    strangers = [name for name in inward if name not in names]
    if strangers:
        raise FloorwrightValueError(f"{strangers[0]!r} is no corner: they are {names[0]} to {names[-1]}")
    if corners - len(set(inward)) < LEAST_OUTWARD:
        raise FloorwrightValueError(f"at least {LEAST_OUTWARD} corners of a room do not turn in")
    lines = [
        "schema = 1",
        f"title = {json.dumps(title, ensure_ascii=False)}",
        'revision = "A"',
        *(('units = "in"', 'words = "US"', 'paper = "Letter"') if imperial else ('units = "mm"',)),
        "",
        "[survey]",
        f"outline = {json.dumps(list(names))}",
        'direction = "anticlockwise"',
        *([f"inward = {json.dumps(list(inward))}"] if inward else []),
        "",
    ]
    return "\n".join(lines)


def examples() -> dict[str, str]:
    """Returns the text of each example by its name."""
    folder = files("floorwright") / "examples"
    found = sorted(item.name for item in folder.iterdir() if item.name.endswith(".toml"))
    return {name.removesuffix(".toml"): (folder / name).read_text(encoding="utf-8") for name in found}
