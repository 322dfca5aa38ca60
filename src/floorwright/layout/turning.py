"""How far a wall is out of true with the pattern, and an option with the pattern turned."""

import math
from dataclasses import replace

import numpy as np

from floorwright.layout.axis import Face
from floorwright.layout.option import Option
from floorwright.layout.options import Line, Tried
from floorwright.layout.score import Floor, is_fragile, shake
from floorwright.layout.way_out import WayOut
from floorwright.pattern.cell import UnitCell


def skew(floor: Floor, line: Line, face: Face) -> float:
    """Returns by how much the pattern must turn to be true to a wall, radians, anticlockwise positive."""
    start, end = floor.ends(face.name)
    run = end - start
    out = np.array([run[1], -run[0]]) / math.hypot(*run)
    square = face.sign * line.axis.direction
    return math.atan2(float(square[0] * out[1] - square[1] * out[0]), float(square @ out))


def over_wall(turn: float, face: Face) -> float:
    """Returns how far a turn runs out over the length of a wall, mm."""
    return abs(math.tan(turn)) * face.length


def turned(
    floor: Floor, cell: UnitCell, tried: Tried, how: str, turn: float, face: Face, position: str, note: str = ""
) -> WayOut:
    by = over_wall(turn, face)
    side = "left" if turn > 0 else "right"
    name = f"{tried.option.name}, turned {side} {floor.style.text(by, unit=True, feet=False)} over {face.name}"
    option = shaken(floor, cell, replace(tried.option, name=name))
    return WayOut(
        how=how, wall=face.name, position=position, by=by, over=face.length, turn=turn, option=option, note=note
    )


def shaken(floor: Floor, cell: UnitCell, option: Option) -> Option:
    if option.refused:
        return option
    least = shake(floor, cell, option.placement)
    return replace(option, shaken=least, fragile=is_fragile(option, least, floor.limit))
