"""What would make a drawn pattern close: sizes of its pieces, or a repeat, at which every joint has its width.

Where two sides face each other, the joint between them grows by what their pieces move apart along the normal and
shrinks by what the pieces grow: linear in both. So the moves, sizes and repeat at which all joints are at width are a
least-squares problem, and they close the pattern where nothing is left over.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import shapely

from floorwright.geometry.region import Points
from floorwright.pattern.cell import UnitCell
from floorwright.pattern.measured import SLANT, open_area
from floorwright.pattern.shape import set_in
from floorwright.tolerance import CLOSES, COINCIDENT, SLIVER_AREA

SQUARE_TO: Final = 1e-3
"""Sine of the angle within which the corners of a rectangle are square."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Facing:
    """Two sides that face each other across a joint.

    Attributes:
        piece, other: numbers of their pieces in the repeat.
        step: (2,) repeats from the first to the second.
        normal: (2,) out of the first.
        joint: mm, measured along it in the middle of what lies opposite; under 0 where they overlap.
    """

    piece: int
    other: int
    step: Points
    normal: Points
    joint: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing:
    """What closes a pattern.

    Attributes:
        sizes: mm, longer side first, of every kind of piece that must change, each way that there is.
        repeat: mm, the two vectors with which the pieces as and where they are close; None where none do.
    """

    sizes: tuple[dict[str, tuple[float, float]], ...]
    repeat: tuple[tuple[float, float], tuple[float, float]] | None


def closing(cell: UnitCell, reach: float) -> Closing:
    """Returns the sizes and the repeat that would close a pattern, each with the rest as it is drawn and nothing open.

    Args:
        cell: as drawn, its joint the one that is asked for.
        reach: mm; sides farther apart, or deeper in each other, do not face.
    """
    found = facings(cell, reach)
    if not found:
        return Closing(sizes=(), repeat=None)
    return Closing(sizes=_sizes(cell, found), repeat=_repeat(cell, found))


def facings(cell: UnitCell, reach: float) -> list[Facing]:
    """Returns every two sides that face each other, once from either of them.

    Args:
        cell: the repeat.
        reach: mm between them at most, either way.
    """
    corners = np.concatenate(cell.pieces)
    box = np.ptp(corners, axis=0) + reach
    over = np.abs(np.array([box, box * (1.0, -1.0)]) @ np.linalg.inv(cell.repeat)).max(axis=0)
    i_most, j_most = (np.ceil(over).astype(int) + 1).tolist()
    return [
        facing
        for k, outline in enumerate(cell.pieces)
        for other, ring in enumerate(cell.pieces)
        for i in range(-i_most, i_most + 1)
        for j in range(-j_most, j_most + 1)
        if (k, 0, 0) != (other, i, j)
        for facing in _between(k, outline, other, ring, np.array([i, j], dtype=np.float64), cell, reach)
    ]


def _between(
    k: int, outline: Points, other: int, ring: Points, step: Points, cell: UnitCell, reach: float
) -> list[Facing]:
    moved = ring + step @ cell.repeat
    if (moved.min(axis=0) > outline.max(axis=0) + reach).any() or (
        moved.max(axis=0) < outline.min(axis=0) - reach
    ).any():
        return []
    starts, runs = outline, np.roll(outline, -1, axis=0) - outline
    others, against = moved, np.roll(moved, -1, axis=0) - moved
    found = []
    for start, run in zip(starts, runs, strict=True):
        length = float(np.hypot(*run))
        along = run / length
        normal = np.array([along[1], -along[0]])
        for one, opposite in zip(others, against, strict=True):
            if abs(along[0] * opposite[1] - along[1] * opposite[0]) > SLANT * np.hypot(*opposite):
                continue
            low, high = sorted((float((one - start) @ along), float((one + opposite - start) @ along)))
            low, high = max(low, 0.0), min(high, length)
            joint = float((one + opposite / 2 - start) @ normal)
            if float(along @ opposite) < 0.0 and high - low > max(COINCIDENT, abs(joint)) and abs(joint) <= reach:
                found.append(Facing(piece=k, other=other, step=step, normal=normal, joint=joint))
    return found


def _sizes(cell: UnitCell, found: list[Facing]) -> tuple[dict[str, tuple[float, float]], ...]:
    """The sizes that close the pattern with its repeat as it is: one side changed where that does, else both."""
    boxes = [_box(outline) for outline in cell.pieces]
    if any(box is None for box in boxes):
        return ()
    kinds = list(dict.fromkeys(cell.kind(k) for k in range(len(cell.pieces))))
    sides = {cell.kind(k): (box[1], box[2]) for k, box in reversed(list(enumerate(boxes))) if box is not None}
    # Half of what a piece of a kind grows, longer and shorter side, lies in each joint that it has.
    grown = np.zeros((len(found), 2 * len(kinds)))
    for row, facing in enumerate(found):
        for k in (facing.piece, facing.other):
            box = boxes[k]
            assert box is not None
            short = int(abs(float(facing.normal @ box[0])) < 1 / 2)
            grown[row, 2 * kinds.index(cell.kind(k)) + short] -= 1 / 2
    every = list(range(2 * len(kinds)))
    ways: list[dict[str, tuple[float, float]]] = []
    for columns in [[0], [1], every] if len(kinds) == 1 else [every]:
        solved = None if ways and columns == every else _solved(cell, found, grown[:, columns])
        if solved is None:
            continue
        by = np.zeros(2 * len(kinds))
        by[columns] = solved[: len(columns)]
        change = {kind: by[2 * n : 2 * n + 2] for n, kind in enumerate(kinds)}
        made = _made(cell, change, solved[len(columns) :].reshape(-1, 2))
        if made is not None and open_area(made, made.joint) <= SLIVER_AREA:
            ways.append({kind: _grown(sides[kind], by) for kind, by in change.items() if np.abs(by).max() > COINCIDENT})
    return tuple(ways)


def _grown(sides: tuple[float, float], by: Points) -> tuple[float, float]:
    shorter, longer = sorted((sides[0] + float(by[0]), sides[1] + float(by[1])))
    return longer, shorter


def _made(cell: UnitCell, change: dict[str, Points], moves: Points) -> UnitCell | None:
    """The pattern with its rectangles grown and moved; None where nothing would be left of one."""
    pieces = []
    for k, (outline, move) in enumerate(zip(cell.pieces, moves, strict=True)):
        box, by = _box(outline), change[cell.kind(k)]
        assert box is not None
        if min(box[1] + by[0], box[2] + by[1]) <= 0.0:
            return None
        axes = np.array([box[0], (-box[0][1], box[0][0])])
        off = (outline - outline.mean(axis=0)) @ axes.T
        pieces.append(outline + move + (np.sign(off) * by / 2) @ axes)
    return replace(cell, pieces=tuple(pieces))


def _repeat(cell: UnitCell, found: list[Facing]) -> tuple[tuple[float, float], tuple[float, float]] | None:
    steps = np.array([np.outer(facing.step, facing.normal).ravel() for facing in found])
    change = _solved(cell, found, steps, moving=False)
    if change is None:
        return None
    a, b = cell.repeat + change.reshape(2, 2)
    if open_area(replace(cell, a=a, b=b), cell.joint) > SLIVER_AREA:
        return None
    return (float(a[0]), float(a[1])), (float(b[0]), float(b[1]))


def _solved(cell: UnitCell, found: list[Facing], changes: Points, *, moving: bool = True) -> Points | None:
    """The least changes with which every joint is at width, and after them how pieces must move, x and y of each; None
    where there are none."""
    columns = changes
    if moving:
        moves = np.zeros((len(found), 2 * len(cell.pieces)))
        for row, facing in enumerate(found):
            moves[row, 2 * facing.other : 2 * facing.other + 2] += facing.normal
            moves[row, 2 * facing.piece : 2 * facing.piece + 2] -= facing.normal
        columns = np.hstack([changes, moves])
    wanted = np.array([cell.joint - facing.joint for facing in found])
    answer, *_ = np.linalg.lstsq(columns, wanted, rcond=None)
    return answer if np.abs(columns @ answer - wanted).max() <= CLOSES else None


def _box(outline: Points) -> tuple[Points, float, float] | None:
    """The direction of the longer side of a rectangle, and both sides; None where it is none."""
    if len(outline) != 4:
        return None
    sides = np.roll(outline, -1, axis=0) - outline
    lengths = np.hypot(sides[:, 0], sides[:, 1])
    units = sides / lengths[:, None]
    if np.abs((units * np.roll(units, -1, axis=0)).sum(axis=1)).max() > SQUARE_TO:
        return None
    longer = int(lengths[0] < lengths[1])
    return units[longer], float(lengths[longer]), float(lengths[1 - longer])


@dataclass(frozen=True, slots=True, kw_only=True)
class Missed:
    """Two corners that nearly meet.

    Attributes:
        piece, other: numbers of their pieces in the repeat.
        by: mm.
    """

    piece: int
    other: int
    by: float


def missed_corner(cell: UnitCell, reach: float) -> Missed | None:
    """Returns the two corners that miss each other by the most, of those nearer than `reach`; None where all meet or
    keep clear.

    Corners are those of the modules, a piece and half a joint round it: true ones meet, or stand clear on a side.

    Args:
        cell: the repeat, its joints at width.
        reach: mm.
    """
    modules = [set_in(outline, -cell.joint / 2) for outline in cell.pieces]
    numbers = np.concatenate([np.full(len(module), k) for k, module in enumerate(modules)])
    corners = np.concatenate(modules)
    box = np.abs(np.array([np.ptp(corners, axis=0), np.ptp(corners, axis=0) * (1.0, -1.0)]))
    over = np.ceil(np.abs(box @ np.linalg.inv(cell.repeat)).max(axis=0)).astype(int) + 1
    steps = [(i, j) for i in range(-over[0], over[0] + 1) for j in range(-over[1], over[1] + 1)]
    around = np.concatenate([corners + np.array(step) @ cell.repeat for step in steps])
    tree = shapely.STRtree(np.asarray(shapely.points(around)))
    own, near = tree.query(shapely.points(corners), predicate="dwithin", distance=reach)
    away = np.hypot(*(corners[own] - around[near]).T)
    missed = np.flatnonzero(away > CLOSES)
    if not len(missed):
        return None
    # Of equals the first pair as they are drawn.
    worst = min(missed.tolist(), key=lambda n: (-round(float(away[n]), 3), int(own[n]), int(near[n])))
    return Missed(piece=int(numbers[own[worst]]), other=int(numbers[near[worst] % len(corners)]), by=float(away[worst]))
