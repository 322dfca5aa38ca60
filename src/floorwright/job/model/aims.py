"""What the layout is to aim for, and the edges that may move for it."""

from typing import Literal

from pydantic import Field

from floorwright.job.model.table import Table, as_if_read
from floorwright.job.model.values import Count, Flag, LeastPiece, Length, Name, Note
from floorwright.layout.aims import NO_PIECE_UNDER


class Aim(Table):
    """One aim. Each in turn leaves only the positions that are as good as the best by it, within its tolerance."""

    aim: Literal[
        "no piece under",
        "widest worst piece",
        "fewest small pieces",
        "least small edge",
        "fewest cuts",
        "fewest tiles",
        "balanced cuts",
        "full tile",
        "joint on line",
        "tile on line",
        "least taper",
        "no thin trim",
        "firm",
        "joint as asked",
        "lined up",
    ]
    """What is wanted. `least small edge` is the length of saw cut on small pieces; `firm`, that the worst piece stays
    good when the floor is set out a little wrong; `lined up`, that a joint or a tile lies on the control lines."""
    under: LeastPiece | None = None
    """The width under which a piece is small; without it `least_piece`."""
    at_most: Count | None = None
    """Of a number: so many are good enough."""
    within: Length | None = None
    """Of a length: so far from the best is as good as the best."""
    within_count: Count | None = None
    """Of a number: so many more than the fewest are as good as the fewest."""
    walls: tuple[Name, ...] = ()
    """Only the pieces or cuts at these walls count; with `balanced cuts` two walls that face each other, with `full
    tile` the wall that the full tiles stand at."""
    visible: Flag = False
    """Pieces and cuts at hidden walls do not count."""
    on: Name | None = None
    """With `joint on line` and `tile on line`: `first line`, `square line`, an opening (its axis) or a wall."""


class Aims(Table):
    """What the layout is to aim for."""

    least_piece: LeastPiece = "half"
    """The least width of a piece: a share of a tile, or a length."""
    hidden: tuple[Name, ...] = ()
    """Walls where a taper or a small cut is seen by nobody."""
    option: Note = ""
    """Your own choice among the options, by its name."""
    order: tuple[Aim, ...] = Field(default=(), max_length=20)
    """Your own aims, the weightiest first; without them ours are taken, in our order."""

    @property
    def least(self) -> str | float:
        """`least_piece`; where that is left out, what the first aim that no piece be under a width says."""
        own = (aim.under for aim in self.order if aim.aim == NO_PIECE_UNDER and not (aim.walls or aim.visible))
        asked = next((under for under in own if under is not None), None)
        return self.least_piece if asked is None or "least_piece" in self.model_fields_set else asked


class FreeEdge(Table):
    """A wall that is not built yet, or an edge that may as well be elsewhere: how far it may move to save cuts."""

    wall: Name
    """The wall or edge."""
    out: Length = as_if_read("0 mm")
    """How far it may move out."""
    inward: Length = as_if_read("0 mm", alias="in")
    """How far it may move in."""
