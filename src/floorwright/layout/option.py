"""A position of the pattern, scored; and the proof that goes with the best of them."""

from dataclasses import dataclass

from floorwright.pattern.cell import Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class WallCut:
    """The cut along one wall that runs along the pattern, measured along the pattern's square direction in the wall's
    two corners, gap off.

    Attributes:
        wall: its name.
        start, end: mm, at the wall's start and end corner. A full tile reads the tile's size; where the wall across
            from it cuts the same tile, what the two leave between them.
        tile: mm, the tile's size across this wall.
        taper: mm from one tile to the next along the wall (0 for a wall true to the pattern), always positive.
        fits: False where the fat end exceeds a tile: what is over cannot be cut, or nothing fills it.
        over: mm by which a tile and its joint leave something over at the fat end; 0 where it fits.
    """

    wall: str
    start: float
    end: float
    tile: float
    taper: float
    fits: bool
    over: float = 0.0

    @property
    def thin(self) -> float:
        """The thin end, mm."""
        return min(self.start, self.end)

    @property
    def fat(self) -> float:
        """The fat end, mm."""
        return max(self.start, self.end)


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What is known about how good a position is.

    Attributes:
        status: `proved` (nothing beats `best` by more than `tolerance`) or `best found`.
        aim: what was searched for, in trade words, such as `widest worst piece`.
        best: mm or a count, as the aim has it, at the best position found.
        bound: no position whatever does better than this.
        tolerance: mm; 0 for an exact search.
        joint: mm; every position was searched, but at this joint only.
        why: why the search stopped, when it is not proved.
        axis: `across`, `along` or `both`.
        angle: radians in the floor frame, where more than one was tried: every position was searched, but at this one
            only; else None.
        span: radians in the floor frame, where it is of every angle between two; else None.
        number: which of the layout's aims was searched for, those before it kept; -1 where it was on its own.
        stopped: whether a person stopped the search (Ctrl-C): the program should end once it has said what it has.
        walls: where it comes to `best`, known of an exact search.
        decides: the rooms of those walls, of rooms that run through.
        possible: False where no position has what was searched for and keeps to the aims before it.
    """

    status: str
    aim: str
    best: float
    bound: float
    tolerance: float
    joint: float
    why: str = ""
    axis: str = "both"
    angle: float | None = None
    span: tuple[float, float] | None = None
    number: int = -1
    stopped: bool = False
    walls: tuple[str, ...] = ()
    decides: tuple[str, ...] = ()
    possible: bool = True

    def tells_of(self, option: "Option") -> bool:
        """Returns whether it is of the joint and the angle that an option has; one of a range of angles is of none."""
        return self.span is None and self.joint == option.joint and self.angle in (None, option.placement.angle)

    @property
    def shortfall(self) -> float:
        """How far `best` may be from the best there is."""
        return max(0.0, self.bound - self.best)


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One position of the pattern.

    Attributes:
        name: in trade words, what lines up with what: `joint on centre across, full tile at S`.
        placement: where it lies.
        joint: mm.
        full, cut: piece counts.
        worst: mm, the narrowest piece of all.
        worst_piece: id of that piece, empty when none is cut.
        worst_thin: mm, the thinnest end of any cut along a wall.
        walls: one per wall that runs along the pattern.
        shaken: mm, the worst piece when the position is moved by the setting-out error that control predicts, either
            way.
        fragile: whether that brings the worst piece under the limit, or to less than half of what it was.
        refused: why it cannot be laid, empty when it can: what it needs and what there is.
        under: how many pieces are under the limit.
        figures: what it makes of each of the layout's aims: mm, a count, or for `firm` 1 or 0; None where an aim says
            nothing of it.
        lines_up: what lines up with what, as phrases: `a joint on the first line`.
        decides: of rooms that run through, those that have a piece as narrow as the worst.
    """

    name: str
    placement: Placement
    joint: float
    full: int
    cut: int
    worst: float
    worst_piece: str
    worst_thin: float
    walls: tuple[WallCut, ...]
    shaken: float
    fragile: bool
    refused: str
    under: int
    figures: tuple[float | None, ...] = ()
    lines_up: tuple[str, ...] = ()
    decides: tuple[str, ...] = ()
