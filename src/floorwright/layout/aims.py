"""What a layout aims for, in the person's order.

An aim is a limit (a figure that is kept or broken: among those that keep it none is better) or a wish (the more the
better, as far as its tolerance). Each in turn leaves only the options that come within its tolerance of the best of
those that the aims before it left; so an aim never gives way to one after it by more than its tolerance.

Without a list of the person's own, the order is the one that `default_aims` gives.
"""

from dataclasses import dataclass, replace
from typing import Final

from floorwright.tolerance import RANK_STEP

NO_PIECE_UNDER: Final = "no piece under"
WIDEST: Final = "widest worst piece"
FEWEST_SMALL: Final = "fewest small pieces"
LEAST_SMALL_EDGE: Final = "least small edge"
FEWEST_CUTS: Final = "fewest cuts"
FEWEST_TILES: Final = "fewest tiles"
BALANCED_CUTS: Final = "balanced cuts"
FULL_TILE: Final = "full tile"
JOINT_ON: Final = "joint on line"
TILE_ON: Final = "tile on line"
LEAST_TAPER: Final = "least taper"
NO_THIN_TRIM: Final = "no thin trim"
FIRM: Final = "firm"
JOINT_AS_ASKED: Final = "joint as asked"
LINED_UP: Final = "lined up"

COUNTS: Final = frozenset({FEWEST_SMALL, FEWEST_CUTS, FEWEST_TILES, NO_THIN_TRIM})
"""Aims whose figure is a number of pieces, tiles or walls."""

LIMITED: Final = frozenset({NO_PIECE_UNDER, FEWEST_SMALL, LEAST_SMALL_EDGE})
"""Aims that need the width under which a piece is small."""

AT_WALLS: Final = frozenset({NO_PIECE_UNDER, WIDEST, FEWEST_SMALL, LEAST_SMALL_EDGE})
"""Aims that may be of the pieces at some walls only."""

PLACED: Final = frozenset({FULL_TILE, JOINT_ON, TILE_ON, BALANCED_CUTS})
"""Wishes that say where the pattern lies along an axis: a position has it or has not."""

SEARCHED: Final = frozenset({NO_PIECE_UNDER, WIDEST, FEWEST_SMALL, FEWEST_CUTS, FEWEST_TILES})
"""Aims for which all positions are searched; the others are weighed between the options that are tried."""

YES: Final = frozenset({FIRM})
"""Aims that are kept or not, without a figure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """One aim.

    Attributes:
        name: one of those above.
        limit: mm, the width under which a piece is small, for an aim of `LIMITED`; else 0.
        at_most: of a count, the figure that is good enough; None for a wish.
        within: mm or a count: how far from the best an option may be and still be as good.
        walls: names of the walls whose pieces or cuts count; empty for all.
        visible: hidden walls do not count.
        on: what the line is called, for `joint on line` and `tile on line`.
        own: whether a person asked for it.
    """

    name: str
    limit: float = 0.0
    at_most: int | None = None
    within: float = 0.0
    walls: tuple[str, ...] = ()
    visible: bool = False
    on: str = ""
    own: bool = False

    @property
    def is_limit(self) -> bool:
        """Whether it is a limit, kept or broken."""
        return self.name in {NO_PIECE_UNDER, FIRM, NO_THIN_TRIM} or self.at_most is not None

    @property
    def unit(self) -> str:
        """`count`, `yes` or `mm`."""
        if self.name in YES:
            return "yes"
        return "count" if self.name in COUNTS or self.name == LINED_UP else "mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """What the chosen option makes of an aim.

    Attributes:
        aim: see there.
        value: mm or a count; None where the aim says nothing of this pattern in this room.
        best: of all options that can be laid, by this aim alone.
        kept: for a limit, whether it is kept.
        status: `proved`, `best found`, or `of the options` where only those tried are weighed.
        bound: for a search, no position that keeps to the aims before this one does better.
        tolerance: of the proof, mm.
        why: why the search stopped, when it is not proved.
        decided: whether this is the aim that left the recommended option alone.
        ruled_out: for an aim of `PLACED`, whether no position has it and keeps to the aims before it.
    """

    aim: Aim
    value: float | None
    best: float | None
    kept: bool | None
    status: str
    bound: float | None = None
    tolerance: float = 0.0
    why: str = ""
    decided: bool = False
    ruled_out: bool = False


def default_aims(limit: float, *, runs_along: bool) -> tuple[Aim, ...]:
    """Returns the order in which options are recommended when a person gives none.

    Args:
        limit: mm, no piece should be narrower; 0 for none.
        runs_along: whether any wall runs along the pattern. Where none does, as round a herringbone or a diagonal,
            small pieces at the edges cannot be avoided, and a single one must not outweigh how many there are.
    """
    first = [Aim(name=WIDEST)]
    if limit > 0:
        first = [Aim(name=NO_PIECE_UNDER, limit=limit)]
        if not runs_along:
            first = [Aim(name=FEWEST_SMALL, limit=limit, visible=True)]
    return completed((*first, Aim(name=FIRM)), own=False)


LAST: Final = (
    Aim(name=JOINT_AS_ASKED),
    Aim(name=LINED_UP),
    Aim(name=FEWEST_CUTS),
    Aim(name=WIDEST),
)
"""What decides where nothing weightier does."""


def completed(asked: tuple[Aim, ...], *, own: bool = True) -> tuple[Aim, ...]:
    """Returns a list with what was left out: after its first limits and places, that a hand a little out does not spoil
    it; and at the end, what decides between equals.

    Args:
        asked: in order.
        own: whether a person gave it.
    """
    listed = tuple(replace(aim, own=own) for aim in asked)
    # An aim of the pieces at some walls says nothing of the others.
    names = {aim.name for aim in listed if not aim.walls and not aim.visible}
    if FIRM not in names:
        before = next((n for n, aim in enumerate(listed) if not (aim.is_limit or aim.name in PLACED)), len(listed))
        listed = (*listed[:before], Aim(name=FIRM), *listed[before:])
    return (*listed, *(aim for aim in LAST if aim.name not in names))


def loss(aim: Aim, value: float | None) -> float:
    """Returns how far a figure falls short of an aim, so that less is better; to `tolerance.RANK_STEP`.

    Of a limit that is kept it is 0.
    """
    if value is None:
        return 0.0
    if aim.name == NO_PIECE_UNDER:
        short = aim.limit - value
        return 0.0 if short <= RANK_STEP else round(short / RANK_STEP) * RANK_STEP
    if aim.name in {WIDEST, FIRM}:
        return -round(value / RANK_STEP) * RANK_STEP
    if aim.at_most is not None and value <= aim.at_most:
        return 0.0
    return round(value / RANK_STEP) * RANK_STEP


def is_kept(aim: Aim, value: float | None) -> bool | None:
    """Returns whether a limit is kept; None for a wish, or where it says nothing."""
    if value is None or not aim.is_limit:
        return None
    if aim.name == FIRM:
        return value > 0
    if aim.name == NO_THIN_TRIM:
        return value == 0
    return loss(aim, value) == 0
