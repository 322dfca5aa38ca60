"""The catalogue of patterns as data, and a small drawing of each."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

import numpy as np

from floorwright.export.data import SCHEMA
from floorwright.geometry.region import Region
from floorwright.layout.pieces import pieces_of
from floorwright.pattern.cell import Placement
from floorwright.pattern.shown import SHOWN

if TYPE_CHECKING:
    from collections.abc import Sequence

    from floorwright.pattern.cell import UnitCell
    from floorwright.pattern.entry import Pattern

WIDE, HIGH = 120.0, 80.0
"""Of a drawing, its own units, y down."""

ACROSS: Final = 6.0
"""Sides of a square with the area of a piece that a drawing is wide."""


def catalogue_data(patterns: Sequence[Pattern]) -> dict[str, Any]:
    """Returns patterns as data, with the keys that every result carries."""
    return {
        "schema": SCHEMA,
        "units": "mm",
        "findings": [],
        "patterns": [
            {
                "name": pattern.name,
                "says": pattern.says,
                "goods": [{"kind": kind.name, "measured": kind.measured, "own": kind.own} for kind in pattern.kinds],
                "keys": [
                    {
                        "key": one.key,
                        "meaning": one.meaning,
                        "default": None if one.default in (None, ()) else str(one.default),
                        "least": one.least,
                        "most": one.most,
                        "choices": list(one.choices),
                    }
                    for one in pattern.parameters
                ],
                "closes": pattern.closes,
                "lines": pattern.lines,
                "angles": pattern.angles,
                "cautions": list(pattern.cautions),
                "must_say_how_it_stands": pattern.stands,
            }
            for pattern in patterns
        ],
    }


def drawings() -> dict[str, Any]:
    """Returns a small drawing of each pattern of ours by its name: paths by the kind of piece, in a box of `WIDE` by
    `HIGH`."""
    return {shown.pattern: {"size": [WIDE, HIGH], "paths": _drawing(shown.cell())} for shown in SHOWN}


def _drawing(cell: UnitCell) -> list[str]:
    side = float(abs(np.linalg.det(cell.repeat)) / len(cell.pieces)) ** 0.5
    scale = WIDE / (ACROSS * side)
    rim = np.array([[0.0, 0.0], [WIDE, 0.0], [WIDE, HIGH], [0.0, HIGH]]) / scale
    patch = Region(rings=(rim,), edges=(("foot", "right", "top", "left"),))
    x, y = rim.mean(axis=0) - (cell.anchors[0].at if cell.anchors else np.zeros(2))
    paths: dict[str, str] = dict.fromkeys(cell.kinds or ("",), "")
    for piece in pieces_of("patch", patch, cell, Placement(origin=(float(x), float(y)), angle=0.0)):
        for ring in piece.rings:
            points = [f"{px * scale:.1f} {HIGH - py * scale:.1f}" for px, py in ring.tolist()]
            paths[cell.kind(piece.index[2])] += f"M{'L'.join(points)}Z"
    return list(paths.values())
