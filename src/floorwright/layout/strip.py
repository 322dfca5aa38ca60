"""`lay_strip`: the pattern of a border laid along one of its walls, full on the inside line, its two ends balanced."""

from collections.abc import Callable
from math import atan2

import numpy as np

from floorwright.geometry.region import Points
from floorwright.layout.aims import default_aims
from floorwright.layout.layout import Layout
from floorwright.layout.options import Tried, ranked
from floorwright.layout.say import taper_of_strip
from floorwright.layout.score import Floor, score
from floorwright.layout.unsearched import unsearched
from floorwright.layout.zones import Part
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import COINCIDENT
from floorwright.units import LengthStyle

JOINT_ON_MIDDLE, TILE_ON_MIDDLE = "joint on its middle", "tile on its middle"


def lay_strip(
    *,
    part: Part,
    gap: tuple[float, float],
    make_cell: Callable[[float], UnitCell],
    joint: float,
    limit: float,
    choose: str,
    shift_sd: float,
    turn_sd: float,
    style: LengthStyle,
) -> Layout:
    """Returns one side of a border laid out.

    Its rows run along its inside line, a full row at that line: a border narrower than its rows is sawn at the wall,
    where it is seen least. Along it a joint or a tile lies on the middle, so that both ends are cut alike; the one with
    the wider narrowest piece is recommended.

    Args:
        part: the side, with its strip.
        gap, make_cell, joint, limit, shift_sd, turn_sd, style: as for `layout.lay.lay_out`.
        choose: the option that the person wants, or empty.
    """
    assert part.strip is not None
    cell = make_cell(joint)
    inner = part.strip.inner
    along = np.array([inner.normal[1], -inner.normal[0]])
    angle = atan2(along[1], along[0])
    at = _middle(part.region.rings[0], inner.normal, along, inner.reach) + inner.normal * joint / 2
    floor = Floor(
        zone=part.name,
        region=part.region,
        sides=part.sides,
        gap=gap,
        limit=limit,
        centre=(float(at[0]), float(at[1])),
        shift_sd=shift_sd,
        turn_sd=turn_sd,
        style=style,
        joint=joint,
        angle=angle,
        aims=default_aims(limit, runs_along=True),
    )
    pitch = cell.size[0] + joint
    tried = [
        Tried(option=score(floor, cell, Placement(origin=_point(at + along * shift), angle=angle), name), rank=0)
        for name, shift in ((JOINT_ON_MIDDLE, 0.0), (TILE_ON_MIDDLE, pitch / 2))
    ]
    options = tuple(one.option for one in ranked(floor, make_cell, tried).best_first)
    named = {option.name: option for option in options}
    # A name that is none of these may be meant for what the border makes of the field; see `layout.finish`.
    chosen = named.get(choose, options[0])
    return unsearched(
        part,
        floor,
        cell,
        options,
        chosen=chosen,
        wanted=choose if choose in named else "",
        findings=tuple(taper_of_strip(floor, part.strip.wall, part.strip.thin, part.strip.fat)),
    )


def _middle(ring: Points, normal: Points, along: Points, reach: float) -> Points:
    """The middle of the inside line as far as the region runs along it."""
    on_line = ring[np.abs(ring @ normal - reach) < COINCIDENT]
    stretch = (on_line if len(on_line) > 1 else ring) @ along
    return np.asarray(normal * reach + along * (stretch.min() + stretch.max()) / 2)


def _point(at: Points) -> tuple[float, float]:
    return float(at[0]), float(at[1])
