"""What an option makes of each aim: the figures that options are weighed by."""

import math

import numpy as np

from floorwright.layout.aims import (
    BALANCED_CUTS,
    FEWEST_CUTS,
    FEWEST_SMALL,
    FEWEST_TILES,
    FIRM,
    FULL_TILE,
    JOINT_AS_ASKED,
    JOINT_ON,
    LEAST_SMALL_EDGE,
    LEAST_TAPER,
    LINED_UP,
    NO_PIECE_UNDER,
    NO_THIN_TRIM,
    TILE_ON,
    WIDEST,
    Aim,
)
from floorwright.layout.axis import Axis, axes_of
from floorwright.layout.clip import Clipped, clip
from floorwright.layout.flat import Bools, following
from floorwright.layout.floor_lines import JOINT, TILE, off_line
from floorwright.layout.link import FACTORY
from floorwright.layout.measure import measure
from floorwright.layout.option import Option, WallCut
from floorwright.layout.score import Floor, smallest_side
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import LEAST_TRIM, RANK_STEP, STRIP


def figures(floor: Floor, cell: UnitCell, option: Option, rank: int) -> tuple[float | None, ...]:
    """Returns what an option makes of each of the floor's aims: mm, a count, or for `firm` 1 or 0.

    None stands where an aim says nothing of the option: a wall that does not run along the pattern, or a line.

    Args:
        floor: with the aims.
        cell: the pattern at the option's joint.
        option: shaken, if one of the aims is that it be firm.
        rank: how readily it is set out, 0 best.
    """
    axes = axes_of(cell, option.placement.angle)
    needs_pieces = any(_needs_pieces(aim) for aim in floor.aims)
    clipped = clip(floor.region, cell, option.placement) if needs_pieces else None
    return tuple(_figure(floor, cell, axes, option, rank, clipped, aim) for aim in floor.aims)


def _needs_pieces(aim: Aim) -> bool:
    if aim.name in {NO_PIECE_UNDER, WIDEST, FEWEST_SMALL}:
        return bool(aim.walls) or aim.visible or aim.name == FEWEST_SMALL
    return aim.name in {LEAST_SMALL_EDGE, FEWEST_TILES}


def _figure(
    floor: Floor,
    cell: UnitCell,
    axes: tuple[Axis, ...],
    option: Option,
    rank: int,
    clipped: Clipped | None,
    aim: Aim,
) -> float | None:
    if aim.name == NO_PIECE_UNDER and not (aim.walls or aim.visible):
        # A wall that leaves the whole piece wide may still have a thin end.
        if option.under == 0 and option.worst >= aim.limit - RANK_STEP > option.worst_thin:
            return min(option.worst_thin, aim.limit - 2 * RANK_STEP)
        return option.worst
    if aim.name == WIDEST and not (aim.walls or aim.visible):
        return option.worst
    if clipped is not None and _needs_pieces(aim):
        return _of_pieces(floor, cell, clipped, aim)
    if aim.name == FEWEST_CUTS:
        return float(option.cut)
    if aim.name == FIRM:
        return 0.0 if option.fragile else 1.0
    if aim.name == JOINT_AS_ASKED:
        return abs(option.joint - floor.joint)
    if aim.name == LINED_UP:
        return float(rank)
    if aim.name in {JOINT_ON, TILE_ON}:
        line = next((line for line in floor.lines if line.name == aim.on), None)
        what = JOINT if aim.name == JOINT_ON else TILE
        return None if line is None else off_line(line, axes, np.array(option.placement.origin), what)
    if aim.name == LEAST_TAPER:
        return taper(floor, axes, aim)
    return _of_walls(floor, option.walls, aim)


def counted(floor: Floor, aim: Aim) -> Bools | None:
    """Returns which edges of the region an aim counts, over all its rings; None for all."""
    if not aim.walls and not aim.visible:
        return None
    names = [name for ring in floor.region.edges for name in ring]
    hidden = {side.name for side in floor.sides if side.hidden}
    return np.array([not (aim.visible and name in hidden) and name in (aim.walls or (name,)) for name in names])


def _of_pieces(floor: Floor, cell: UnitCell, clipped: Clipped, aim: Aim) -> float:
    if aim.name == FEWEST_TILES:
        return float(tiles(clipped))
    narrowest = measure(clipped, counted(floor, aim)).narrowest
    if aim.name in {NO_PIECE_UNDER, WIDEST}:
        return float(narrowest.min(initial=smallest_side(cell)))
    small = narrowest < aim.limit - RANK_STEP
    if aim.name == FEWEST_SMALL:
        return float(small.sum())
    run = clipped.points[following(clipped.first)] - clipped.points
    owner = np.repeat(clipped.piece, np.diff(clipped.first))
    return float(np.hypot(run[:, 0], run[:, 1])[(clipped.edge != FACTORY) & small[owner]].sum())


def tiles(clipped: Clipped) -> int:
    """Returns how many tiles a position touches, each cut piece of one tile being of that tile."""
    return clipped.runs.count + len(np.unique(clipped.index, axis=0))


def taper(floor: Floor, axes: tuple[Axis, ...], aim: Aim) -> float | None:
    """Returns the greatest taper from one tile to the next along any wall that counts, mm.

    A wall is held against the direction of the pattern that it is nearest to.
    """
    if not axes:
        return None
    greatest = 0.0
    for wall in floor.sides:
        if wall.name not in (aim.walls or (wall.name,)) or (aim.visible and wall.hidden):
            continue
        start, end = wall.start, wall.end
        unit = (end - start) / math.dist(start, end)
        along = max(axes, key=lambda axis: abs(float(unit @ axis.direction)))
        cos = abs(float(unit @ along.direction))
        greatest = max(greatest, math.sqrt(max(0.0, 1.0 - cos**2)) / cos * along.pitch)
    return greatest


def _of_walls(floor: Floor, walls: tuple[WallCut, ...], aim: Aim) -> float | None:
    if aim.name == NO_THIN_TRIM:
        return float(len(thin_trims(walls)))
    if aim.name == FULL_TILE:
        own = [wall for wall in walls if wall.wall in aim.walls]
        return max((wall.tile - wall.thin for wall in own), default=None)
    assert aim.name == BALANCED_CUTS, aim.name
    cuts = {wall.wall: wall for wall in walls}
    pairs = [aim.walls] if aim.walls else opposite(floor, walls)
    found = [abs(cuts[one].thin - cuts[other].thin) for one, other in pairs if one in cuts and other in cuts]
    return max(found, default=None)


def opposite(floor: Floor, walls: tuple[WallCut, ...]) -> list[tuple[str, str]]:
    """Returns the walls that face each other across the floor: of several on one side, the longest."""
    sides: dict[int, tuple[float, str]] = {}
    for wall in walls:
        start, end = floor.ends(wall.wall)
        turn = math.atan2(*(end - start)[::-1])
        side = round((turn - floor.angle) / (math.pi / 2)) % 4
        sides[side] = max(sides.get(side, (0.0, "")), (math.dist(start, end), wall.wall))
    return [(sides[one][1], sides[one + 2][1]) for one in (0, 1) if one in sides and one + 2 in sides]


def thin_trims(walls: tuple[WallCut, ...]) -> list[tuple[WallCut, float, bool]]:
    """Returns the walls at which a strip too thin to saw comes off the tiles: the wall, the strip, mm, and whether it
    is so all along or only at the fat end of the cut."""
    found = []
    for wall in walls:
        least, most = wall.tile - wall.fat, wall.tile - wall.thin
        all_along = most < LEAST_TRIM - RANK_STEP
        off = most if all_along else least
        if wall.fits and STRIP < off < LEAST_TRIM - RANK_STEP:
            found.append((wall, off, all_along))
    return found
