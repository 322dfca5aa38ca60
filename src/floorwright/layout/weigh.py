"""Options weighed one aim after another, each within its tolerance."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from floorwright.layout.flat import Floats, Ints
from floorwright.tolerance import RANK_STEP


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Order:
    """Some options in order.

    Attributes:
        best_first: (n,) their numbers.
        decided: (n,) of each but the last, in that order: the aim at which the last of those after it was left behind;
            -1 where all aims are equal and only what was given last tells them apart.
    """

    best_first: Ints
    decided: Ints


def in_order(losses: Floats, within: Sequence[float]) -> Order:
    """Returns the order of some options by their losses.

    The first is found by taking the aims in turn: each leaves those whose loss is within its tolerance of the least of
    those that are left. The next is found so among all the others, and so on. Equals stay in the order given.

    Args:
        losses: (n, aims), less is better.
        within: (aims,) the tolerances.
    """
    left = list(range(len(losses)))
    order, decided = [], []
    while left:
        best, aim = first(losses[left], within)
        order.append(left.pop(best))
        decided.append(aim)
    return Order(best_first=np.array(order, dtype=np.intp), decided=np.array(decided, dtype=np.intp))


def first(losses: Floats, within: Sequence[float]) -> tuple[int, int]:
    """Returns which option comes first, and the last aim that left any of the others behind (-1 if none did)."""
    kept, decided = _left(losses, within)
    return int(kept[0]), decided


def left_by(losses: Floats, within: Sequence[float]) -> Ints:
    """Returns the options that are left by the aims: all within the tolerances of the best, aim after aim."""
    return _left(losses, within)[0]


def _left(losses: Floats, within: Sequence[float]) -> tuple[Ints, int]:
    kept = np.arange(len(losses))
    decided = -1
    for aim, tolerance in enumerate(within):
        if len(kept) <= 1:
            break
        loss = losses[kept, aim]
        near = loss <= loss.min() + tolerance + RANK_STEP / 2
        if not near.all():
            kept, decided = kept[near], aim
    return kept, decided
