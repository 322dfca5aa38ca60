"""Rows laid at random, measured on the floor: how far their joints keep apart, and the shortest piece at an end."""

import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from floorwright.findings import Finding, Severity
from floorwright.layout.clip import turn
from floorwright.layout.layout import Layout
from floorwright.layout.piece import Piece
from floorwright.tolerance import CLOSES, STRIP
from floorwright.units import LengthStyle


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidRows:
    """What the rows of a floor keep.

    Attributes:
        next_row: mm, the least from a joint to one in the next row; infinite where no two rows have one each.
        two_off: mm, the same two rows off.
        shortest: mm, the shortest piece along its row.
        short: ids of pieces shorter than the rule, by length.
    """

    next_row: float
    two_off: float
    shortest: float
    short: tuple[str, ...]


def laid_rows(layout: Layout) -> LaidRows | None:
    """Returns what the rows of a layout keep, measured on its pieces; None of a pattern without rows at random."""
    rules = layout.cell.rows
    if rules is None:
        return None
    joints: dict[int, list[float]] = defaultdict(list)
    lengths: list[tuple[float, str]] = []
    for piece in layout.pieces:
        row, low, high, begins = _along(piece, layout)
        lengths.append((high - low, piece.id))
        if begins:
            joints[row].append(low)
    return LaidRows(
        next_row=_nearest(joints, 1),
        two_off=_nearest(joints, 2),
        shortest=min(lengths)[0],
        short=tuple(name for length, name in sorted(lengths) if length < rules.end_least - CLOSES),
    )


def _along(piece: Piece, layout: Layout) -> tuple[int, float, float, bool]:
    """The row of a piece, where it begins and ends along it, and whether it begins at a joint with another."""
    i, j, k = piece.index
    cell, placement = layout.cell, layout.chosen.placement
    assert cell.rows is not None
    tile = cell.pieces[k] + i * cell.a + j * cell.b
    ring = (piece.rings[0] - placement.origin) @ turn(placement.angle)
    low, high = float(ring[:, 0].min()), float(ring[:, 0].max())
    row = round(float(tile[0, 1] - cell.joint / 2) / cell.rows.pitch)
    return row, low, high, abs(low - float(tile[:, 0].min())) <= STRIP


def _nearest(joints: dict[int, list[float]], off: int) -> float:
    """The least distance along the rows between joints of rows so many apart."""
    found = math.inf
    for row, here in joints.items():
        there = joints.get(row + off)
        if there:
            found = min(found, float(np.abs(np.subtract.outer(here, there)).min()))
    return found


def rows_said(layout: Layout, style: LengthStyle) -> Iterator[Finding]:
    """Yields what the rows of a layout keep, and that pieces at their ends are short."""
    laid, rules = laid_rows(layout), layout.cell.rows
    if laid is None or rules is None:
        return

    def text(mm: float) -> str:
        return style.text(mm, unit=True, feet=False)

    place = f"zone {layout.zone}"
    kept = [f"{text(laid.next_row)} in the next row"] if math.isfinite(laid.next_row) else []
    kept += [f"{text(laid.two_off)} two rows off"] if math.isfinite(laid.two_off) else []
    if kept:
        yield Finding(
            code="layout-rows",
            severity=Severity.NOTE,
            place=place,
            found=f"joints as laid keep {' and '.join(kept)}; the shortest piece is {text(laid.shortest)}",
            expected=f"{text(rules.stagger)} in the next row and half of it two rows off",
            source="yours" if rules.stagger_is_own else "our default",
        )
    if laid.short:
        count = "1 piece is" if len(laid.short) == 1 else f"{len(laid.short)} pieces are"
        yield Finding(
            code="layout-short-end",
            severity=Severity.WARNING,
            place=place,
            found=f"{count} shorter than {text(rules.end_least)}, the shortest {text(laid.shortest)}",
            expected=f"no piece at the end of a row under {text(rules.end_least)}",
            remedy="take another `seed`, or begin those rows with a plank of another length; write `end_least` to say "
            "what is no fault",
            source="yours" if rules.end_is_own else "our default",
        )
