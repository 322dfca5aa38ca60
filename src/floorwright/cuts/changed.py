"""Which cuts have changed since a floor was laid out before: what, where, before and after."""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely

from floorwright.cuts.frame import onto_tile, tile_of
from floorwright.cuts.schedule import CutList, CutPiece
from floorwright.geometry.region import Points
from floorwright.layout.layout import Layout
from floorwright.layout.piece import Piece
from floorwright.units import LengthStyle

CHANGED: Final = "cut anew"
TO_CUT: Final = "now cut"
TO_FULL: Final = "now full"
NEW: Final = "new piece"
GONE: Final = "no longer there"


@dataclass(frozen=True, slots=True, kw_only=True)
class CutChange:
    """One piece that is not what it was.

    Attributes:
        piece: its id.
        label: its number on the cut list now, or before where it is gone; empty for a full tile.
        label_before: its number on the cut list before; empty where it was none.
        what: `cut anew`, `now cut`, `now full`, `new piece` or `no longer there`.
        walls: that it is sawn to, now, or before where it is gone or full.
        before, after: mm, thin and fat end, of a full tile its size; None where there is no such piece.
        short: mm by which the piece as it was is too short, at the most, for what it must be now; 0 where it can be
            sawn down to it. Of no piece before, and of a full tile, 0.
    """

    piece: str
    label: str
    label_before: str
    what: str
    walls: tuple[str, ...]
    before: tuple[float, float] | None
    after: tuple[float, float] | None
    short: float


def changed_cuts(
    before: Layout, cuts_before: CutList, now: Layout, cuts_now: CutList, laid: Collection[str], style: LengthStyle
) -> tuple[CutChange, ...]:
    """Returns the pieces not laid yet that are not what they were, in the order of the cut list.

    Two pieces are the same where no corner is farther than half the print step from the other piece's outline.

    Args:
        before, cuts_before: as laid out before.
        now, cuts_now: as laid out now, with the same lattice.
        laid: ids of the pieces that stay.
        style: whose print step tells a change.
    """
    old = {piece.id: piece for piece in before.pieces if piece.id not in laid}
    new = {piece.id: piece for piece in now.pieces if piece.id not in laid}
    cut_old = {piece.id: piece for piece in cuts_before.pieces}
    cut_new = {piece.id: piece for piece in cuts_now.pieces}
    step = style.mm(1) / 2
    found = []
    for name in sorted(old.keys() | new.keys()):
        was, is_now = old.get(name), new.get(name)
        if was is not None and is_now is not None:
            outlines = _outline(was, before), _outline(is_now, now)
            if _farthest(*outlines) <= step and _farthest(*reversed(outlines)) <= step:
                continue
        short = 0.0
        if was is not None and is_now is not None and not was.full:
            away = _farthest(_outline(is_now, now), _outline(was, before))
            short = away if away > step else 0.0
        found.append(
            CutChange(
                piece=name,
                label=cut_new[name].label if name in cut_new else "",
                label_before=cut_old[name].label if name in cut_old else "",
                what=_what(was, is_now),
                walls=(cut_new.get(name) or cut_old[name]).walls if name in cut_new or name in cut_old else (),
                before=_size(was, cut_old.get(name), before),
                after=_size(is_now, cut_new.get(name), now),
                short=short,
            )
        )
    return tuple(sorted(found, key=lambda change: (_number(change.label), _number(change.label_before), change.piece)))


def _number(label: str) -> int:
    return int(label) if label.isdigit() else 1_000_000


def _what(was: Piece | None, is_now: Piece | None) -> str:
    if was is None:
        return NEW
    if is_now is None:
        return GONE
    if is_now.full:
        return TO_FULL
    return TO_CUT if was.full else CHANGED


def _size(piece: Piece | None, cut: CutPiece | None, layout: Layout) -> tuple[float, float] | None:
    if piece is None:
        return None
    if cut is None:
        length, width = layout.cell.size
        return min(length, width), max(length, width)
    return cut.thin, cut.fat


def _outline(piece: Piece, layout: Layout) -> Points:
    """The piece's outline in its tile's own frame, in which a piece before and after can be held together."""
    tile = tile_of(layout.cell, piece.index[2])
    return onto_tile(piece.rings[0], tile, layout.cell, layout.chosen.placement, piece.index)


def _farthest(points: Points, outline: Points) -> float:
    """How far the farthest of some points is outside an outline, mm."""
    return float(np.max(shapely.distance(shapely.points(points), shapely.Polygon(outline))))
