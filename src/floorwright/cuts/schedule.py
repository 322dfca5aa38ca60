"""The numbered cut list of a layout."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SawLine:
    """One straight saw cut on a tile, given by marks from the tile's kept corners.

    Attributes:
        wall: the wall that it fits to.
        start, end: where the line meets the tile, (x, y) mm in the tile's own frame (origin at its lower left corner,
            x along its length).
        start_mark, end_mark: mm from the nearest kept factory corner along the tile's edge to that place; None where the line
            stops inside the tile (an inside corner: drill or stop the saw there).
        length: mm of sawing.
    """

    wall: str
    start: tuple[float, float]
    end: tuple[float, float]
    start_mark: float | None
    end_mark: float | None
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPiece:
    """A cut piece.

    Attributes:
        id: of the piece.
        label: printed number, `1` up, in walking order along the walls.
        walls: names of the walls that it is sawn to.
        kind: `straight` (one saw line across the tile), `corner` (two that meet at a corner of the piece), `notch` (an L or U or a
            hole), `angled` (one line that takes off a corner or is not along the tile).
        thin, fat: mm left of the tile at the two ends of a `straight` cut; else the two sides of the piece's bounding
            rectangle in the tile's frame, smaller first.
        saws: the saw lines.
        outline: rings in the tile's frame, tuples of (x, y) mm: for drawing.
        factory: sides left as made, of `left right top bottom`, in the tile's frame.
        same_as: label of the first piece with the same marks (within the print step), its own label if it is the first.
    """

    id: str
    label: str
    walls: tuple[str, ...]
    kind: str
    thin: float
    fat: float
    saws: tuple[SawLine, ...]
    outline: tuple[tuple[tuple[float, float], ...], ...]
    factory: tuple[str, ...]
    same_as: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CutList:
    """All cut pieces of a zone, in order of label.

    Attributes:
        zone: its name.
        pieces: see there.
        sawn: mm of saw line in all.
        tiles: tiles used with one cut piece from each tile.
    """

    zone: str
    pieces: tuple[CutPiece, ...]
    sawn: float
    tiles: int
