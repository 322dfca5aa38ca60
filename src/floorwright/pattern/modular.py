"""Modular patterns: rectangles of several sizes on one module, in a repeat in which no joint runs far."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np

from floorwright.geometry.region import Points
from floorwright.pattern.cell import Anchor, LineFamily, Size, Sized, UnitCell
from floorwright.pattern.shape import check_goods, rectangle

Spans: TypeAlias = tuple[tuple[str, tuple[int, int]], ...]
"""Modules that a piece of each kind is long and wide, the main kind first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place for a piece in a modular repeat, in modules.

    Attributes:
        kind: of the piece.
        at: lower left corner.
        span: modules along and across.
    """

    kind: str
    at: tuple[int, int]
    span: tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Modular:
    """A repeat on a module.

    Attributes:
        spans: see there.
        a, b: repeat, modules.
        places: see there.
    """

    spans: Spans
    a: tuple[int, int]
    b: tuple[int, int]
    places: tuple[Place, ...]


# Of all repeats with one piece of each kind these have the shortest straight joint (every lattice of that area and
# every filling of it was tried), and no four corners meet in either.
THREE_SIZES: Final = Modular(
    spans=(("large", (2, 2)), ("long", (2, 1)), ("small", (1, 1))),
    a=(3, 1),
    b=(-1, 2),
    places=(
        Place(kind="small", at=(0, 0), span=(1, 1)),
        Place(kind="large", at=(1, 0), span=(2, 2)),
        Place(kind="long", at=(3, 0), span=(2, 1)),
    ),
)

FOUR_SIZES: Final = Modular(
    spans=(("largest", (3, 2)), ("large", (2, 2)), ("long", (2, 1)), ("small", (1, 1))),
    a=(4, -1),
    b=(1, 3),
    places=(
        Place(kind="large", at=(0, 0), span=(2, 2)),
        Place(kind="long", at=(2, 0), span=(2, 1)),
        Place(kind="largest", at=(6, 0), span=(3, 2)),
        Place(kind="small", at=(9, 0), span=(1, 1)),
    ),
)


def module(sizes: Mapping[str, Size], spans: Spans, joint: float) -> float:
    """Returns the module at which no joint is under width, mm: the greatest that any side asks for."""
    return max((side + joint) / count for kind, span in spans for side, count in zip(sizes[kind], span, strict=True))


def modular(name: str, form: Modular, sizes: Mapping[str, Size], joint: float) -> UnitCell:
    """Returns a modular pattern; pieces too small for their place lie in its middle, with wider joints.

    Args:
        name: of the pattern.
        form: of its repeat.
        sizes: of each kind, mm.
        joint: mm.
    """
    for size in sizes.values():
        check_goods(size, joint)
    unit = module(sizes, form.spans, joint)
    a, b = np.array(form.a) * unit, np.array(form.b) * unit
    return UnitCell(
        name=name,
        a=a,
        b=b,
        pieces=tuple(in_place(place, sizes[place.kind], unit) for place in form.places),
        joint=joint,
        size=sizes[form.spans[0][0]],
        lines=module_lines(unit),
        kinds=tuple(place.kind for place in form.places),
        sizes=tuple(Sized(name=kind, size=sizes[kind]) for kind, _ in form.spans),
        anchors=module_anchors(form.places, unit),
    )


def in_place(place: Place, size: Size, unit: float) -> Points:
    """Returns a piece in the middle of its place, turned by a quarter where the place is."""
    length, width = size
    if (place.span[0] < place.span[1]) != (length < width):
        length, width = width, length
    room = np.array(place.span) * unit
    low = np.array(place.at) * unit + (room - (length, width)) / 2
    return rectangle((length, width), (float(low[0]), float(low[1])))


def module_lines(unit: float) -> tuple[LineFamily, LineFamily]:
    """Returns the lines of the module, both ways: a piece lies against every one of them somewhere."""
    return (
        LineFamily(name="module rows", angle=0.0, offset=0.0, spacing=unit, through=False),
        LineFamily(name="module columns", angle=math.pi / 2, offset=0.0, spacing=unit, through=False),
    )


def module_anchors(places: tuple[Place, ...], unit: float) -> tuple[Anchor, ...]:
    """Returns a corner and the middle of the first piece of each kind."""
    firsts = {place.kind: place for place in reversed(places)}
    largest = max(firsts.values(), key=lambda place: place.span[0] * place.span[1])
    found = [Anchor(name=f"corner of a {largest.kind} on centre", at=np.array(largest.at) * unit)]
    for kind, place in firsts.items():
        middle = (np.array(place.at) + np.array(place.span) / 2) * unit
        found.append(Anchor(name=f"{kind} on centre", at=middle))
    return tuple(found)
