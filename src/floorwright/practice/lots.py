"""Numbers for a variation: drawn from its own number, alike on every machine."""

from collections.abc import Sequence
from random import Random
from typing import TypeVar

from floorwright.units import FOOT, INCH

Thing = TypeVar("Thing")


class Lots:
    """Draws from a variation's number.

    Only `Random.random` is used: its sequence for a seed is promised not to change between releases of Python.
    """

    def __init__(self, kind: str, number: int) -> None:
        self._random = Random(f"{kind} {number}")  # noqa: S311 - it must come out alike again

    def pick(self, things: Sequence[Thing]) -> Thing:
        """Returns one of several things."""
        return things[int(self._random.random() * len(things))]

    def step(self, least: float, most: float, step: float) -> float:
        """Returns a length between two others, mm, a whole number of steps over the least."""
        return least + step * int(self._random.random() * (round((most - least) / step) + 1))

    def whole(self, least: int, most: int) -> int:
        """Returns a whole number from `least` to `most`."""
        return least + int(self._random.random() * (most - least + 1))


def either(units: str, metric: float, imperial_inches: float) -> float:
    """Returns a length in mm: one for metric exercises, or one in inches for those in feet and inches."""
    return metric if units == "mm" else imperial_inches * float(INCH)


def feet(count: float) -> float:
    """Returns so many feet in mm."""
    return count * float(FOOT)
