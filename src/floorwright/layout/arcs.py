"""Where along an axis a tile may begin, as arcs of one pitch: what every wall allows, and what moving one would change.

All there is to know about the cut at a wall follows from where a tile begins, up to a pitch. A wall therefore allows an
arc of a circle that is one pitch round; walls together allow what their arcs share; and a wall that moves takes its arc
with it. Which move is the least that leaves anything shared is a question about ends of arcs alone.
"""

import math
from collections.abc import Iterable, Sequence
from typing import TypeAlias

from floorwright.layout.axis import Axis, Face, most_left
from floorwright.tolerance import TOUCH

Arc: TypeAlias = tuple[float, float]
"""From and to, mm along the axis, the second no less than the first; all that differ by pitches are one."""


def arc_of(face: Face, axis: Axis, least: float, spare: float, phase: float = 0.0) -> Arc | None:
    """Returns where a tile may begin for a wall's cut to be no thinner than `least` and to fit; None if nowhere.

    Args:
        face: the wall, its gap off.
        axis: that it is square to.
        least: mm; the tile's size for no cut at all.
        spare: mm by which the gap may be wider than it is.
        phase: mm by which the row is shifted.
    """
    most = float(most_left(axis.size, axis.joint, face.spare(spare))) - face.rise
    if least > most + TOUCH:
        return None
    low, high = (
        (face.near - most, face.near - least)
        if face.sign > 0
        else (least - face.near - axis.size, most - face.near - axis.size)
    )
    return low - phase - TOUCH / 2, high - phase + TOUCH / 2


def shared(arcs: Iterable[Arc | None], pitch: float) -> list[Arc]:
    """Returns what all arcs share, each within one pitch from 0 up to twice that; the whole pitch for no arc at all."""
    left: list[Arc] = [(0.0, pitch)]
    for arc in arcs:
        if arc is None:
            return []
        low, high = arc
        if high - low >= pitch:
            continue
        start = low % pitch
        parts = [(start, start + high - low), (start - pitch, start - pitch + high - low)]
        left = [(max(a, c), min(b, d)) for a, b in left for c, d in parts if max(a, c) <= min(b, d)]
    return left


def least_shift(free: Sequence[Arc], fixed: Sequence[Arc], pitch: float, low: float, high: float) -> float | None:
    """Returns the least shift of the free arcs, mm either way, at which they meet the fixed ones; None if none does.

    Args:
        free: that shift.
        fixed: that stay.
        pitch: mm round.
        low, high: between which the shift must lie, mm, `low` no more than 0 and `high` no less.
    """
    found: list[float] = []
    for p, q in free:
        for a, b in fixed:
            start, end = a - q, b - p
            first, last = math.floor((low - end) / pitch), math.ceil((high - start) / pitch)
            for turn in range(first, last + 1):
                least, most = max(start + turn * pitch, low), min(end + turn * pitch, high)
                if least <= most:
                    found.append(min(max(0.0, least), most))
    return min(found, key=lambda shift: (abs(shift), shift)) if found else None
