"""Rings round a centre as one pattern: each a joint outside the one before, their joints broken or on spokes.

The whole of it is one repeat, larger than what it covers, so that all that is known of patterns holds for it.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from floorwright.geometry.region import Points
from floorwright.geometry.sector import circle_outline
from floorwright.pattern.cell import Size, Sized, UnitCell
from floorwright.pattern.ring import FULL, WHERE_NEEDED, Joints, Ring, RingMisfitError, Taper, ring
from floorwright.pattern.shape import turned
from floorwright.tolerance import ARC, COINCIDENT

STONE: Final = "centre stone"

RINGS, FAN, COPING = "rings", "fan", "coping"
"""What they are called: all the way round, part of a turn, along a wall."""

APART: Final = 4.0
"""In reaches: how far the repeats of the whole lie apart, so that no second one comes near."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A ring as asked for.

    Attributes:
        name: `ring 1`, counted from the middle.
        unit: (width along the ring, depth), mm.
        taper: when its pieces are tapered.
        pieces: a person's own number.
        broken: part of a step that its joints are turned on from those of the ring inside it.
        inside: mm, its own radius; without it a joint outside the ring before.
    """

    name: str
    unit: Size
    taper: Taper = WHERE_NEEDED
    pieces: int | None = None
    broken: float = 0.0
    inside: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rings:
    """Rings round a centre.

    Attributes:
        name: `rings`, `fan` or `coping`.
        names: of the rings, from the inside out.
        rings: see there.
        units: of each, mm as bought: (width along the ring, depth).
        joint: between rings, mm, where a corner comes nearest.
        joints: in the rings.
        stone: mm across, of a round stone in the middle; 0 for none.
        spokes: their number; 1 for none.
        wanted: what was asked for, one for each.
    """

    name: str
    names: tuple[str, ...]
    rings: tuple[Ring, ...]
    units: tuple[Size, ...]
    joint: float
    joints: Joints
    stone: float
    spokes: int
    wanted: tuple[Wanted, ...]

    @property
    def sweep(self) -> float:
        """Radians."""
        return self.rings[0].sweep

    @property
    def is_round(self) -> bool:
        """Whether they go all the way round."""
        return is_round(self.sweep)

    @property
    def inside(self) -> float:
        """From the centre to the first ring, mm."""
        return self.rings[0].inside

    @property
    def hollow(self) -> float:
        """Of the circle within all of them, mm: the inside, down to the next whole one."""
        return float(max(math.floor(self.inside - ARC), 0))

    @property
    def reach(self) -> float:
        """From the centre to the outermost corner, mm."""
        return max(one.reach for one in self.rings)

    @property
    def radius(self) -> float:
        """Of the circle that is struck round all of it, mm: the reach, up to the next whole one."""
        return float(math.ceil(self.reach + ARC))


def is_round(sweep: float) -> bool:
    """Returns whether an angle, radians, is a whole turn."""
    return sweep >= FULL - COINCIDENT


def rings_of(
    wanted: Sequence[Wanted],
    joints: Joints,
    *,
    stone: float = 0.0,
    inside: float = 0.0,
    sweep: float = FULL,
    spokes: int = 1,
    name: str = "",
) -> Rings:
    """Returns the rings from the inside out.

    Args:
        wanted: one for each, the innermost first.
        joints: in the rings; the one asked for lies between rings as well.
        stone: mm across; the first ring begins a joint outside it.
        inside: mm, the radius of the first ring where there is no stone.
        sweep: radians.
        spokes: the number of pieces in every ring is a multiple of this.
        name: what they are called; without it rings or a fan.

    Raises:
        RingMisfitError: a ring that cannot be made, named.
    """
    found: list[Ring] = []
    start, turn = (stone / 2 + joints.asked if stone else inside), 0.0
    for one in wanted:
        radius = start if one.inside is None else one.inside
        try:
            made = ring(one.unit, radius, joints, sweep=sweep, of=spokes, taper=one.taper, pieces=one.pieces)
        except RingMisfitError as fault:
            raise RingMisfitError(f"{one.name}: {fault.what}", **fault.lengths) from fault
        turn = math.fmod(turn + one.broken * made.step, made.step) if is_round(sweep) else 0.0
        found.append(replace(made, first=turn))
        start = made.reach + joints.asked
    return Rings(
        name=name or (RINGS if is_round(sweep) else FAN),
        names=tuple(one.name for one in wanted),
        rings=tuple(found),
        units=tuple(one.unit for one in wanted),
        joint=joints.asked,
        joints=joints,
        stone=stone,
        spokes=spokes,
        wanted=tuple(wanted),
    )


def cell_of(rings: Rings) -> UnitCell:
    """Returns the rings as the cell of a pattern: its origin the centre, x the direction of the first joint."""
    pieces: list[Points] = []
    kinds: list[str] = []
    sizes: list[Sized] = []
    if rings.stone:
        pieces.append(round_stone(rings.stone))
        kinds.append(STONE)
        sizes.append(Sized(name=STONE, size=(rings.stone, rings.stone), measured="across"))
    for name, one, unit in zip(rings.names, rings.rings, rings.units, strict=True):
        outline = one.outline()
        sizes.append(Sized(name=name, size=unit))
        for n in range(one.pieces):
            # The outline points up, a quarter turn on from the direction that angles count from.
            pieces.append(turned(outline, one.first + (n + 0.5) * one.step - math.pi / 2))
            kinds.append(name)
    apart = APART * max(rings.reach, rings.stone)
    return UnitCell(
        name=rings.name,
        a=np.array([apart, 0.0]),
        b=np.array([0.0, apart]),
        pieces=tuple(pieces),
        joint=rings.joint,
        size=rings.units[0],
        lines=(),
        kinds=tuple(kinds),
        sizes=tuple(sizes),
        outlines=(circle_outline((0.0, 0.0), rings.stone / 2, None), *(None,) * (len(pieces) - 1))
        if rings.stone
        else (),
    )


def round_stone(across: float) -> Points:
    """Returns a round piece as edges that stay within `tolerance.ARC` of it, (n, 2) mm about the origin."""
    radius = across / 2
    count = max(8, math.ceil(math.pi / math.acos(1 - min(ARC / radius, 0.5))))
    turns = math.tau * np.arange(count) / count
    return radius * np.column_stack([np.cos(turns), np.sin(turns)])
