"""Rhombs of two widths in stars of five: a quasi-periodic pattern, taken at a repeat that it nearly has.

Five families of parallel lines, each turned by 72 degrees on the one before, make a rhomb at every crossing of two of
them (N. G. de Bruijn, "Algebraic theory of Penrose's non-periodic tilings of the plane", Indagationes Mathematicae 84
(1981), 39-66; quoted from memory). The directions of the lines hold the golden ratio, so that they never repeat; with
3 / 2 in its place they do. The rhombs stay true: only which one comes next to which is now and then another.
"""

import math
from collections.abc import Mapping
from functools import cache
from typing import Final

import numpy as np

from floorwright.geometry.region import Points
from floorwright.pattern.cell import Anchor, LineFamily, Size, Sized, UnitCell
from floorwright.pattern.shape import check_goods, set_in
from floorwright.tolerance import COINCIDENT

RATIO: Final = (3, 2)
"""In place of the golden ratio: two neighbours in the row 1, 1, 2, 3, 5 ... A later pair makes a longer repeat."""

OFFSETS: Final = (0.217, 0.183, 0.211, 0.196, 0.193)
"""Of the five families, in their steps: close to a fifth each, whole together, and no three lines through a point."""

WIDE, NARROW = "wide", "narrow"
SHARP: Final = {WIDE: math.radians(72.0), NARROW: math.radians(36.0)}
"""The sharp angle of each rhomb."""

SIDES: Final = 2 * math.pi / 5 * np.arange(5)
ALONG: Final = np.column_stack([np.cos(SIDES), np.sin(SIDES)])
"""(5, 2): the directions of the sides."""


def five_fold(sizes: Mapping[str, Size], joint: float) -> UnitCell:
    """Returns the rhombs, the middle of a star of five at the origin.

    Args:
        sizes: of `wide` and `narrow`, mm: the length of a side.
        joint: mm.
    """
    for size in sizes.values():
        check_goods(size, joint)
    pitch = sizes[WIDE][0] + joint / math.sin(SHARP[WIDE])
    repeat, modules, kinds = _modules()
    wide = sizes[WIDE][0]
    return UnitCell(
        name="five-fold rhombs",
        a=repeat[0] * pitch,
        b=repeat[1] * pitch,
        pieces=tuple(set_in(module * pitch, joint / 2) for module in modules),
        joint=joint,
        size=(wide, wide * math.sin(SHARP[WIDE])),
        lines=tuple(
            LineFamily(name=name, angle=angle, offset=0.0, spacing=step * pitch, through=False, joint=False)
            for name, angle, step in (
                ("rows of stars", 0.0, float(repeat[1, 1])),
                ("files of stars", math.pi / 2, float(repeat[0, 0])),
            )
        ),
        kinds=kinds,
        sizes=tuple(Sized(name=kind, size=sizes[kind], measured="along a side") for kind in (WIDE, NARROW)),
        anchors=(Anchor(name="star on centre", at=np.zeros(2)),),
    )


def narrow_side(wide: float, joint: float) -> float:
    """Returns the side of a narrow rhomb that closes with a wide one, mm: their modules have one side.

    >>> round(narrow_side(150.0, 3.0), 2)
    148.05
    """
    return wide + joint / math.sin(SHARP[WIDE]) - joint / math.sin(SHARP[NARROW])


@cache
def _modules() -> tuple[Points, tuple[Points, ...], tuple[str, ...]]:
    """The repeat, (2, 2), the modules of its rhombs, anticlockwise, and their kinds; all of side 1."""
    p, q = RATIO
    a, b, c = (p - q) / (2 * q), p / q, p / (2 * q)
    lines = np.array([[1.0, 0.0], [a, b], [-c, 1.0], [-c, -1.0], [a, -b]])
    period = np.array([2.0 * q, float(q)])
    steps = np.rint(lines * period).T  # whole steps of each family over the repeat, along x and along y
    found = []
    kinds = []
    for i in range(5):
        for j in range(i + 1, 5):
            own = np.array([lines[i], lines[j]])
            kind = WIDE if (j - i) in (1, 4) else NARROW
            for at in _crossings(own, (OFFSETS[i], OFFSETS[j]), period):
                below = np.ceil(lines @ at - OFFSETS)
                # On its own two lines a crossing is no more above than below.
                below[[i, j]] = np.rint(own @ at - np.array([OFFSETS[i], OFFSETS[j]]))
                corner = below @ ALONG
                ring = corner + np.array([np.zeros(2), ALONG[i], ALONG[i] + ALONG[j], ALONG[j]])
                turned = ALONG[i, 0] * ALONG[j, 1] - ALONG[i, 1] * ALONG[j, 0] > 0
                found.append(ring if turned else ring[::-1])
                kinds.append(kind)
    # Rectangular: what is off the axes is rounding.
    repeat = np.diag(np.diag(steps @ ALONG))
    star = _star(found, kinds)
    return repeat, tuple(ring - star for ring in found), tuple(kinds)


def _crossings(own: Points, offsets: tuple[float, float], period: Points) -> Points:
    """Where the lines of two families cross in one repeat, (n, 2)."""
    reach = np.ceil(np.abs(own) @ period).astype(int) + 1
    m, n = np.meshgrid(np.arange(-reach[0], reach[0] + 1), np.arange(-reach[1], reach[1] + 1), indexing="ij")
    at = np.column_stack([m.ravel(), n.ravel()]) + np.array(offsets)
    places = np.asarray(at @ np.linalg.inv(own).T)
    inside = (places >= -COINCIDENT).all(axis=1) & (places < period - COINCIDENT).all(axis=1)
    return np.asarray(places[inside])


def _star(rings: list[Points], kinds: list[str]) -> Points:
    """The corner where most sharp corners of wide rhombs meet, of several the first by x and y."""
    met: dict[tuple[int, int], list[Points]] = {}
    for ring, kind in zip(rings, kinds, strict=True):
        if kind != WIDE:
            continue
        for n in range(4):
            before, after = ring[n - 1] - ring[n], ring[(n + 1) % 4] - ring[n]
            if float(before @ after) > 0.0:
                key = (round(float(ring[n][0]) * 1000), round(float(ring[n][1]) * 1000))
                met.setdefault(key, []).append(ring[n])
    best = min(met, key=lambda key: (-len(met[key]), key))
    return met[best][0]
