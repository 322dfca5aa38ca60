"""Sizes of the pieces of a pattern that close about its main one: where nothing is bought, any size is to be had."""

from collections.abc import Callable, Mapping
from typing import Final

from floorwright.pattern.ashlar import SPANS
from floorwright.pattern.cell import Size
from floorwright.pattern.modular import FOUR_SIZES, THREE_SIZES, Spans
from floorwright.pattern.polygons import octagon_dot
from floorwright.pattern.weave import windmill_dot


def fitted(pattern: str, size: Size) -> dict[str, Size]:
    """Returns the size of every kind of piece that closes about a main one with lines of no width, mm.

    Args:
        pattern: of the catalogue, by its name; nothing comes back for one whose other sizes are free.
        size: of the main piece; on a module its length says all.

    >>> {kind: round(size[0], 2) for kind, size in fitted("octagon and dot", (600.0, 600.0)).items()}
    {'dot': 248.53}
    """
    make = _MAKERS.get(pattern)
    return make(size) if make else {}


def _modular(spans: Spans) -> Callable[[Size], dict[str, Size]]:
    (_, main), *_ = spans

    def sizes(size: Size) -> dict[str, Size]:
        unit = size[0] / main[0]
        return {kind: (span[0] * unit, span[1] * unit) for kind, span in spans}

    return sizes


def _dot(side: Callable[[Size], float]) -> Callable[[Size], dict[str, Size]]:
    return lambda size: {"dot": (side(size), side(size))}


_MAKERS: Final[Mapping[str, Callable[[Size], dict[str, Size]]]] = {
    "octagon and dot": _dot(lambda size: octagon_dot(size[0], 0.0)),
    "five-fold rhombs": lambda size: {"narrow": size},
    "windmill": _dot(lambda size: windmill_dot(size, 0.0)),
    "modular, three sizes": _modular(THREE_SIZES.spans),
    "modular, four sizes": _modular(FOUR_SIZES.spans),
    "random ashlar": _modular(SPANS),
}
