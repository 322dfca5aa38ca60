"""Rows laid at random by rules, the same every time for one seed: planks and setts.

What is drawn is a large repeat that keeps its rules over its own seams too, so that a floor of any size keeps them.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.pattern.cell import LineFamily, RowRules, Size, Sized, UnitCell
from floorwright.pattern.shape import check_goods, rectangle

ROWS: Final = 16
"""After so many rows the pattern repeats."""

TRIES: Final = 400
"""Rows drawn before a rule is called too strict, for each row that is kept."""

RESTARTS: Final = 40

LENGTH: Final = "length"
"""With a number what pieces of one of several lengths are called, until somebody who can write lengths names them."""

SETTS: Final = 5
"""Lengths of setts between the shortest and the longest."""


def random_rows(
    name: str, size: Size, joint: float, *, lengths: Sequence[float], stagger: float, seed: int, by_length: bool = False
) -> UnitCell:
    """Returns rows of pieces with their ends at random.

    In every row each length comes equally often. Ends keep `stagger` from those in the next row, and half of it from
    those two rows off, so that no joint repeats there.

    Args:
        name: of the pattern.
        size: of the goods, mm: the width is that of a row.
        joint: mm.
        lengths: of the pieces, mm.
        stagger: mm between joints of neighbouring rows, at least.
        seed: any whole number.
        by_length: whether pieces of each length are a kind of their own, `length 1` the shortest.

    Raises:
        FloorwrightValueError: if no rows are found that keep the stagger.
    """
    check_goods(size, joint)
    for length in lengths:
        check_goods((length, size[1]), joint)
    pitches = np.array([length + joint for length in lengths])
    rng = np.random.Generator(np.random.PCG64(seed))
    rows = _rows(pitches, stagger, rng)
    high, wide = size[1] + joint, float(pitches.sum())
    kinds = _length_kinds(lengths) if by_length else {}
    pieces = [
        rectangle((float(pitches[which] - joint), size[1]), (float(start), row * high)) + joint / 2
        for row, (order, starts) in enumerate(rows)
        for which, start in zip(order, starts, strict=True)
    ]
    return UnitCell(
        name=name,
        a=np.array([wide, 0.0]),
        b=np.array([0.0, ROWS * high]),
        pieces=tuple(pieces),
        joint=joint,
        size=size,
        lines=(LineFamily(name="rows", angle=0.0, offset=0.0, spacing=high),),
        kinds=tuple(kinds[lengths[which]] for order, _ in rows for which in order) if kinds else (),
        sizes=tuple(Sized(name=name, size=(length, size[1])) for length, name in kinds.items()),
        rows=RowRules(pitch=high, stagger=stagger),
    )


def _length_kinds(lengths: Sequence[float]) -> dict[float, str]:
    """Returns what pieces of each length are called, the shortest first; nothing where all are of one."""
    each = sorted(set(lengths))
    return {length: f"{LENGTH} {n}" for n, length in enumerate(each, start=1)} if len(each) > 1 else {}


Row = tuple[np.ndarray, np.ndarray]
"""Which length comes after which, and where each begins, mm."""


def _rows(pitches: np.ndarray, stagger: float, rng: np.random.Generator) -> list[Row]:
    for _ in range(RESTARTS):
        rows: list[Row] = []
        while len(rows) < ROWS:
            found = _next_row(rows, pitches, stagger, rng)
            if found is None:
                break
            rows.append(found)
        else:
            return rows
    raise FloorwrightValueError(f"no rows keep their joints {stagger:g} apart")


def _next_row(rows: list[Row], pitches: np.ndarray, stagger: float, rng: np.random.Generator) -> Row | None:
    """Returns a row that goes on from those there are, and back to the first ones where it is one of the last."""
    wide = float(pitches.sum())
    number = len(rows)
    near = [(rows[at][1], off) for at, off in ((number - 1, stagger), (number - 2, stagger / 2)) if at >= 0]
    near += [
        (rows[number + step - ROWS][1], off)
        for step, off in ((1, stagger), (2, stagger / 2))
        if number + step >= ROWS and rows
    ]
    for _ in range(TRIES):
        order = np.argsort(rng.random(len(pitches)), kind="stable")
        # Whole millimetres: nobody marks finer.
        start = math.floor(float(rng.random()) * wide)
        starts = start + np.concatenate([[0.0], np.cumsum(pitches[order])[:-1]])
        if all(_apart(starts, other, wide) >= off for other, off in near):
            return order, starts
    return None


def _apart(one: np.ndarray, other: np.ndarray, wide: float) -> float:
    gap = np.abs(one[:, None] - other[None]) % wide
    return float(np.minimum(gap, wide - gap).min())


def planks(
    size: Size, joint: float, *, lengths: Sequence[float], stagger: float | None, end_least: float | None, seed: int
) -> UnitCell:
    """Returns planks with their ends at random: of one length, or as many of each of several.

    Args:
        size: of the goods, mm.
        joint: mm.
        lengths: mm; none for that of the goods.
        stagger: mm between joints of neighbouring rows; None for `plank_stagger`.
        end_least: mm, the shortest piece at the end of a row that is no fault; None for `plank_end`.
        seed: any whole number.
    """
    kept = plank_stagger(size, lengths) if stagger is None else stagger
    cell = random_rows(
        "planks, random lengths" if len(lengths) > 1 else "planks, random joints",
        size,
        joint,
        lengths=tuple(lengths) or (size[0],),
        stagger=kept,
        seed=seed,
        by_length=True,
    )
    rules = RowRules(
        pitch=size[1] + joint,
        stagger=kept,
        end_least=plank_end(size) if end_least is None else end_least,
        stagger_is_own=stagger is not None,
        end_is_own=end_least is not None,
    )
    return replace(cell, rows=rules)


def plank_end(size: Size) -> float:
    """Returns the shortest piece at the end of a row unless one is given, mm: as long as a plank is wide (common
    practice, no source)."""
    return size[1]


def plank_stagger(size: Size, lengths: Sequence[float]) -> float:
    """Returns the least stagger unless one is given, mm: a quarter of the shortest plank (common practice, no
    source)."""
    return min(lengths, default=size[0]) / 4


def setts(size: Size, joint: float, *, vary: float, stagger: float | None, seed: int) -> UnitCell:
    """Returns setts of one width in rows, from so much shorter to so much longer than their size.

    Args:
        size: mean length, and width, mm.
        joint: mm.
        vary: the part of the length that the longest is over it, and the shortest under it.
        stagger: mm that joints of neighbouring rows keep apart at least; None for `sett_stagger`.
        seed: any whole number.
    """
    lengths = size[0] * np.linspace(1 - vary, 1 + vary, SETTS)
    kept = sett_stagger(size) if stagger is None else stagger
    cell = random_rows(
        "setts in rows",
        size,
        joint,
        lengths=tuple(float(length) for length in lengths),
        stagger=kept,
        seed=seed,
    )
    return replace(cell, rows=RowRules(pitch=size[1] + joint, stagger=kept, stagger_is_own=stagger is not None))


def sett_stagger(size: Size) -> float:
    """Returns the least stagger of setts unless one is given, mm: a sixth of the length (common practice, no
    source)."""
    return size[0] / 6
