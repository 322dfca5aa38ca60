"""Borders and squares that land on the joints in the slab: every whole number of steps tried, in whole numbers."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from floorwright.scoring.design import Limits


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """What a row of squares runs between, and on to: along the first line, or square to it.

    Attributes:
        edges: of the slab, mm from the first of them, each with 1 where the slab lies past it and -1 where before.
        joints: in the slab, mm from the same place, square to the axis.
    """

    edges: tuple[tuple[float, int], ...]
    joints: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Landing:
    """Squares of a size, with the borders that make them whole and bring a line on every joint.

    Attributes:
        size: mm.
        ends, sides: borders, mm, the least first; any of the one goes with any of the other.
    """

    size: float
    ends: tuple[float, ...]
    sides: tuple[float, ...]

    @property
    def equal(self) -> tuple[float, ...]:
        """Borders that may be the same all round, mm."""
        return tuple(border for border in self.ends if border in self.sides)


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """All there is to find.

    Attributes:
        landings: every size with borders both ways, the smallest first; there is no other within the limits.
        limits: as asked.
        sizes, borders: how many were tried each way.
        moved: mm, the most that an edge or a joint lies from the whole step that it was taken for.
    """

    landings: tuple[Landing, ...]
    limits: Limits
    sizes: int
    borders: int
    moved: float


def search(ends: Axis, sides: Axis, limits: Limits) -> Search:
    """Returns every size of square, and every border, with which squares are whole and a line lies on every joint.

    Edges and joints are taken at the nearest whole step; from there on all is whole numbers, so nothing is rounded.

    Args:
        ends: along the first line: the border at the slab's ends.
        sides: square to it.
        limits: what to try.
    """
    step = limits.step
    axes = [_in_steps(axis, step) for axis in (ends, sides)]
    borders = range(_up(limits.border_least, step), _down(limits.border_most, step) + 1)
    most = min(max(edge for edge, _ in edges) for edges, _ in axes)
    sizes = range(max(1, _up(limits.size_least, step)), most + 1)
    landings = []
    for size in sizes:
        fits = [tuple(step * border for border in borders if _lands(*axis, border, size)) for axis in axes]
        if all(fits):
            landings.append(Landing(size=step * size, ends=fits[0], sides=fits[1]))
    figures = [figure for axis in (ends, sides) for figure in (*(edge for edge, _ in axis.edges), *axis.joints)]
    return Search(
        landings=tuple(landings),
        limits=limits,
        sizes=len(sizes),
        borders=len(borders),
        moved=max((abs(figure - step * round(figure / step)) for figure in figures), default=0.0),
    )


def _lands(edges: Sequence[tuple[int, int]], joints: Sequence[int], border: int, size: int) -> bool:
    """Whether all lines of the border, and all joints, are whole squares from the first line; all in steps."""
    borders = [edge + side * border for edge, side in edges]
    first, last = min(edge for edge, _ in edges) + border, max(edge for edge, _ in edges) - border
    if last - first < size or any(not first <= joint <= last for joint in joints):
        return False
    return all((place - first) % size == 0 for place in (*borders, *joints))


def _in_steps(axis: Axis, step: float) -> tuple[tuple[tuple[int, int], ...], tuple[int, ...]]:
    return tuple((round(edge / step), side) for edge, side in axis.edges), tuple(round(at / step) for at in axis.joints)


def _up(length: float, step: float) -> int:
    return math.ceil(_whole(length, step))


def _down(length: float, step: float) -> int:
    return math.floor(_whole(length, step))


def _whole(length: float, step: float) -> Fraction:
    """A length in steps, exact as it was written: 6 in of 1 in is 6, whatever a double of mm makes of it."""
    return (Fraction(length) / Fraction(step)).limit_denominator(10_000)
