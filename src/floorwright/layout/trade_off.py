"""The worst piece against the number of cuts: what more cuts buy."""

from dataclasses import dataclass

from floorwright.layout.aims import FEWEST_CUTS, Aim
from floorwright.layout.score import least_sawn
from floorwright.layout.sought import Search, count_of, narrowest_at
from floorwright.layout.trial import Width
from floorwright.pattern.cell import Placement
from floorwright.tolerance import RANK_STEP

LEVELS = 8
"""Widths at which the fewest cuts are searched for, from what can be sawn up to the widest worst piece there is."""

MOST_SHAPES = 600
"""Where tiles and edges that may meet are more than this, the trade-off is not worked out: a house room has a third of
it, and a hall would take longer over it than over all the rest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trade:
    """A position that no other beats in both its cuts and its worst piece, to the levels that were searched.

    Attributes:
        cut: pieces cut, the fewest there are with no piece under `least`.
        worst: mm, its narrowest piece.
        least: mm, the least width that was asked for.
        placement: where it lies.
        status: `proved`, or `best found` where the search stopped before it had ruled out fewer cuts.
    """

    cut: int
    worst: float
    least: float
    placement: Placement
    status: str


def trade_off(search: Search, widest: float) -> tuple[Trade, ...] | None:
    """Returns the positions with the fewest cuts for one width after another, the fewest first.

    Args:
        search: over all positions that can be laid.
        widest: mm, the widest worst piece there is.

    Returns:
        None where the room has too many edges for it to be quick.
    """
    count = count_of(search, Aim(name=FEWEST_CUTS))
    if len(count.shapes) > MOST_SHAPES:
        return None
    level = least_sawn(search.ground.cell)
    step = max(RANK_STEP, (widest - level) / LEVELS)
    trades: list[Trade] = []
    try:
        while level <= widest:
            found = search.under(Width(least=level - RANK_STEP)).fewest(count)
            if found.placement is None:
                break
            worst = narrowest_at(search, found.placement, None)
            if trades and trades[-1].cut == int(found.value):
                trades.pop()
            status = "best found" if found.why else "proved"
            trades.append(
                Trade(cut=int(found.value), worst=worst, least=level, placement=found.placement, status=status)
            )
            if found.stopped:
                break
            # The last step lands on the widest itself, however the steps before it fell.
            onward = max(worst + RANK_STEP, level + step)
            level = widest if level < widest < onward and worst < widest - RANK_STEP else onward
    except KeyboardInterrupt:
        pass  # What is weighed so far is told; the layout itself is searched already.
    return tuple(trades)
