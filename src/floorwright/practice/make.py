"""Exercises by kind and number."""

from collections.abc import Callable, Sequence
from typing import Final

from floorwright.practice.balance import balance
from floorwright.practice.bend import arc, mitre
from floorwright.practice.cross import bisect, square
from floorwright.practice.diagonal import diagonal
from floorwright.practice.drop import parallel, perpendicular
from floorwright.practice.exercise import Exercise, Kind
from floorwright.practice.wrong_reading import wrong_reading

MAKERS: Final[dict[Kind, Callable[[int, str], Exercise]]] = {
    "square": square,
    "bisect": bisect,
    "perpendicular": perpendicular,
    "parallel": parallel,
    "mitre": mitre,
    "arc": arc,
    "balance": balance,
    "wrong reading": wrong_reading,
    "diagonal": diagonal,
}


def exercises(
    kinds: Sequence[Kind], *, first: int, count: int, units: str, line: float | None = None
) -> tuple[Exercise, ...]:
    """Returns the exercises of every kind for `count` variations, all kinds of the first variation first.

    A variation depends on its number, the units and the line alone: it can be made again without the others.

    Args:
        kinds: in order.
        first: number of the first variation.
        count: of variations.
        units: `mm` or `in`.
        line: mm, length of the line that a square is raised on; drawn by lot where none is given.
    """
    return tuple(
        MAKERS[kind](number, units) if line is None or kind not in LINED else LINED[kind](number, units, line=line)
        for number in range(first, first + count)
        for kind in kinds
    )


LINED: Final[dict[Kind, Callable[..., Exercise]]] = {"square": square, "bisect": bisect}
"""Kinds that stand on a line whose length can be asked for."""
