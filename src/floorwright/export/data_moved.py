"""A pattern that a person moves, as data: what a position makes of a zone, and its pieces to be drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.export.data import number
from floorwright.export.data_floor import scores_data, wall_data

if TYPE_CHECKING:
    from floorwright.export.data import Data
    from floorwright.geometry.region import Points
    from floorwright.layout.catches import Catch
    from floorwright.layout.elsewhere import Outlines
    from floorwright.layout.option import Option

DRAWN_DECIMALS = 2
"""Of a mm: finer than a screen shows."""


def option_data(option: Option) -> Data:
    """Returns the figures of a position, without what only the ranking knows."""
    return {**scores_data(option), "refused": option.refused, "walls": [wall_data(wall) for wall in option.walls]}


def drawn_data(outlines: Outlines) -> Data:
    """Returns outlines to be drawn: each shape of a full tile once with the places where it lies, and the cut ones."""
    return {
        "full": [
            {"outline_mm": _ring(outline), "at_mm": _ring(places)}
            for outline, places in zip(outlines.full, outlines.at, strict=True)
        ],
        "cut": [
            {"outline_mm": _ring(ring), "under": under}
            for ring, under in zip(outlines.cut, outlines.under, strict=True)
        ],
    }


def catch_data(catch: Catch) -> Data:
    """Returns where the pattern catches: its origin at `at_mm` along a direction, and every `pitch_mm` from there."""
    return {
        "words": catch.words,
        "direction": [float(value) for value in catch.direction],
        "at_mm": number(catch.at),
        "pitch_mm": number(catch.pitch),
    }


def _ring(points: Points) -> list[list[float]]:
    rounded: list[list[float]] = points.round(DRAWN_DECIMALS).tolist()
    return rounded
