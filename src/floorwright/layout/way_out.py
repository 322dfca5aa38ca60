"""A way out of a cut that does not fit, or that tapers for all to see."""

from dataclasses import dataclass
from typing import Final

from floorwright.layout.option import Option

JOINTS: Final = "open the joints"
CLOSE: Final = "close the joints"
TURN: Final = "turn the pattern"
SHARE: Final = "share the taper"
GAP: Final = "widen the gap"
MOVE: Final = "move the pattern"


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """One thing to do about one wall.

    Attributes:
        how: `open the joints`, `close the joints`, `turn the pattern`, `share the taper`, `widen the gap` or `move the
            pattern`.
        wall: the wall whose cut it mends.
        position: the position that it makes fit (`full tile at S`); empty where it is the recommended one that tapers.
        by: mm: how much wider or narrower the joints are, how far the pattern turns over `over`, how much wider the gap
            is, or how far the pattern moves. Always positive.
        over: mm, the length of the wall that a turn is told over; else 0.
        turn: radians that the pattern turns, anticlockwise positive; else 0.
        needs: what the job does not allow yet (`gap_most = 7.5`); empty where it can be chosen as it is.
        note: what else there is to know, in a few words.
        option: what comes of it, scored like any other.
    """

    how: str
    wall: str
    position: str
    by: float
    over: float = 0.0
    turn: float = 0.0
    needs: str = ""
    note: str = ""
    option: Option


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """A wall at which a position does not fit, or tapers, and what can be done about it.

    Attributes:
        wall: its name.
        position: as in `WayOut`.
        found: what is wrong: what the wall needs and what a tile is, or from what to what the cut runs.
        ways: out of it, those that keep the limit first.
        none: what was tried and does nothing, in a few words each.
    """

    wall: str
    position: str
    found: str
    ways: tuple[WayOut, ...]
    none: tuple[str, ...] = ()
