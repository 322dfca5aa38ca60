"""How many pieces of each kind a layout has, where its pattern has several."""

from collections import Counter
from dataclasses import dataclass

from floorwright.layout.layout import Layout


@dataclass(frozen=True, slots=True, kw_only=True)
class KindCount:
    """Pieces of one kind.

    Attributes:
        kind: as the pattern calls it.
        full, cut: how many; a tile that leaves several pieces counts for each.
    """

    kind: str
    full: int
    cut: int


def counts_by_kind(layout: Layout) -> tuple[KindCount, ...]:
    """Returns the counts of every kind in the pattern's order; nothing for a pattern of one kind."""
    if not layout.cell.kinds:
        return ()
    counted = Counter((layout.cell.kind(piece.index[2]), piece.full) for piece in layout.pieces)
    kinds = dict.fromkeys([*(sized.name for sized in layout.cell.sizes), *layout.cell.kinds])
    return tuple(KindCount(kind=kind, full=counted[kind, True], cut=counted[kind, False]) for kind in kinds)
