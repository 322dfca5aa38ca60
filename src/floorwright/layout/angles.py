"""The angles at which a pattern is tried: those that a person names, or a range and what lines up with walls in it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from floorwright.errors import FloorwrightValueError
from floorwright.layout.sides import Side
from floorwright.tolerance import TURN_STEP

FIRST_LINE: Final = "first line"
LONG_WALL: Final = "long wall"
MEAN_OF_WALLS: Final = "mean of walls"

STEPS: Final = 5
"""Angles tried at even steps over a range, its two ends among them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Turns:
    """What a person says of the angle, radians from the first line.

    Attributes:
        named: angles, or `first line`, `long wall`, `mean of walls`; empty where there is a range.
        walls: the two walls of `mean of walls`.
        about: what a range is counted from, a word as above.
        span: from and to, of a range.
        stand: what comes to each: how the pattern stands.
    """

    named: tuple[float | str, ...] = (0.0,)
    walls: tuple[str, ...] = ()
    about: str = FIRST_LINE
    span: tuple[float, float] | None = None
    stand: float = 0.0


def angles_of(turns: Turns, sides: Sequence[Side], first: float) -> tuple[float, ...]:
    """Returns the angles to try, radians in the floor frame, in the order asked for, none twice.

    Over a range these are even steps, the direction of every visible straight wall that lies in it, and the mean of
    every two of them: the greatest taper along any of some walls is least at one of those, since it grows as the
    pattern turns away from a wall on either side.

    Args:
        turns: what a person says.
        sides: the walls of the room.
        first: radians, the first line.

    Raises:
        FloorwrightValueError: a word names walls, and the room has no straight ones.
    """
    if turns.span is None:
        found = [_angle_of(named, turns, sides, first) for named in turns.named]
    else:
        about = _angle_of(turns.about, turns, sides, first)
        low, high = turns.span
        found = [about + low + (high - low) * step / (STEPS - 1) for step in range(STEPS)]
        found += [about + off for off in _off_walls(sides, about) if low <= off <= high]
    kept: dict[int, float] = {}
    for angle in (each + turns.stand for each in found):
        kept.setdefault(round(angle / TURN_STEP), angle)
    return tuple(kept.values())


def span_of(turns: Turns | None, sides: Sequence[Side], first: float) -> tuple[float, float] | None:
    """Returns the two ends of a range, radians in the floor frame; None where there is none. Arguments as above."""
    if turns is None or turns.span is None:
        return None
    about = _angle_of(turns.about, turns, sides, first) + turns.stand
    return about + turns.span[0], about + turns.span[1]


def _angle_of(named: float | str, turns: Turns, sides: Sequence[Side], first: float) -> float:
    if isinstance(named, float | int):
        return first + named
    if named == FIRST_LINE:
        return first
    straight = [side for side in sides if side.wall and not side.arc]
    if named == LONG_WALL:
        walls = [max(straight, key=lambda side: math.dist(side.start, side.end))] if straight else []
    else:
        walls = [side for side in straight if side.name in turns.walls]
    if not walls or (named == MEAN_OF_WALLS and len({side.name for side in walls}) < 2):
        raise FloorwrightValueError(f"the room has no straight walls for the angle of the {named}")
    offs = [_off(side, first) for side in walls]
    return first + sum(offs) / len(offs)


def _off(side: Side, angle: float) -> float:
    """Returns how far a side is turned from an angle or from square to it, radians, within 45 degrees either way."""
    x, y = side.end - side.start
    quarter = math.pi / 2
    return (math.atan2(y, x) - angle + quarter / 2) % quarter - quarter / 2


def _off_walls(sides: Sequence[Side], about: float) -> Iterator[float]:
    offs = [_off(side, about) for side in sides if side.wall and not side.arc and not side.hidden]
    yield from offs
    for n, one in enumerate(offs):
        for other in offs[n + 1 :]:
            yield (one + other) / 2


def turn_text(angle: float, first: float) -> str:
    """Returns an angle as it stands in the name of an option: `at 45°`, `at -1.25°`, from the first line."""
    degrees = round(math.degrees(angle - first), 2) + 0.0
    return f"at {degrees:g}°"
