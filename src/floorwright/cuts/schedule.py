"""The numbered cut list of a layout.

A tile lies before the person face up, in its own frame: origin at its lower left corner, x along the first side of its
outline (`bottom`), as it lies in the pattern. Every line is marked on the full tile before any is sawn.
"""

from dataclasses import dataclass

from floorwright.geometry.arc import Arc


@dataclass(frozen=True, slots=True, kw_only=True)
class TileMark:
    """A pencil mark on the side of a full tile.

    Attributes:
        side: `bottom right top left`; of a tile that has not four sides `side 1` and on.
        corner: the factory corner at the kept end of that side, such as `top left` (or `corner 1` and on).
        distance: mm from that corner along the side; where the side is an arc, straight from the corner.
        at: (x, y) mm in the tile's own frame.
    """

    side: str
    corner: str
    distance: float
    at: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class SawLine:
    """One straight saw cut on a tile, given by marks from the tile's kept corners; what is kept lies on its left.

    Attributes:
        wall: the wall that it fits to.
        start, end: where the sawing starts and ends, (x, y) mm in the tile's own frame, in walking order along
            the wall. A line is sawn on through the waste to the tile's side, but stops at an inside corner.
        start_mark, end_mark: mm from the kept factory corner along the tile's side to that place; None where the line
            stops inside the tile (an inside corner: drill or stop the saw there).
        length: mm of sawing, from start to end.
        marks: where the pencil line, drawn right across the full tile, meets its sides: past the start, past the end.
    """

    wall: str
    start: tuple[float, float]
    end: tuple[float, float]
    start_mark: float | None
    end_mark: float | None
    length: float
    marks: tuple[TileMark, TileMark]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bore:
    """A round cut, the whole of a hole or a bite out of a side.

    Attributes:
        wall: the obstacle that it fits to.
        centre: (x, y) mm in the tile's own frame.
        radius: mm, the gap round the obstacle in it.
        length: mm of the round that is cut in this piece.
        marks: where lines square to the sides through the centre meet the nearest sides: along the tile, then across
            it. A mark is left out where the centre lies off that side, beyond the tile.
    """

    wall: str
    centre: tuple[float, float]
    radius: float
    length: float
    marks: tuple[TileMark, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcCut:
    """A cut along an arc of more than the tile, what is kept on the left of the way from start to end.

    Attributes:
        wall: the wall or obstacle that it fits to.
        start, end: where it starts and ends, (x, y) mm in the tile's own frame.
        bulge: see `geometry.arc`: over 0 where the piece bulges out past the line between the ends, under 0 where the
            arc bites into it.
        marks: where the start and the end lie on the tile's sides; None for one inside the tile.
        offsets: (along the line between the ends from the start, off it) mm, at even steps between; the sign is that
            of the rise.
    """

    wall: str
    start: tuple[float, float]
    end: tuple[float, float]
    bulge: float
    marks: tuple[TileMark | None, TileMark | None]
    offsets: tuple[tuple[float, float], ...]

    @property
    def arc(self) -> Arc:
        """The arc itself."""
        return Arc(start=self.start, end=self.end, bulge=self.bulge)

    @property
    def chord(self) -> float:
        """mm, from end to end in a straight line."""
        return self.arc.chord

    @property
    def rise(self) -> float:
        """mm that the arc lies off that line in its middle, over 0 where the piece bulges out."""
        return self.arc.rise

    @property
    def radius(self) -> float:
        """mm, to set the compass to."""
        return self.arc.radius

    @property
    def centre(self) -> tuple[float, float]:
        """(x, y) mm in the tile's own frame, mostly off the tile."""
        return self.arc.centre

    @property
    def length(self) -> float:
        """mm of sawing."""
        return self.arc.length


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPiece:
    """A cut piece.

    Attributes:
        id: of the piece.
        label: printed number, `1` up, in walking order along the walls.
        walls: names of the walls that it is sawn to, in walking order.
        kind: `curved` (an arc wider than the tile among its cuts), `straight` (one saw line that runs along the tile,
            side to side), `strip` (two of those, on opposite sides), `corner` (lines that meet at a corner of the
            piece), `notch` (an L or U or a hole), `angled` (a line that takes off a corner or is not along the tile).
        thin, fat: mm left of the tile at the two ends of a `straight` or `strip` cut; else the two sides of the piece's
            bounding rectangle in the tile's frame, smaller first.
        saws: the saw lines.
        outline: rings in the tile's frame, tuples of (x, y) mm: for drawing.
        factory: sides with something left as made, of the tile's sides by name.
        same_as: label of the first piece with the same marks (within the print step), its own label if it is the first.
        bores: round cuts no wider than the tile.
        arcs: cuts along wider rounds, or along walls that bow out.
        cut_from: the kind of tile, as the pattern calls it; empty where there is one.
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
    bores: tuple[Bore, ...] = ()
    arcs: tuple[ArcCut, ...] = ()
    cut_from: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutList:
    """All cut pieces of a zone, in order of label.

    Attributes:
        zone: its name.
        pieces: see there.
        sawn: mm of saw line in all.
        tiles: tiles to saw, one cut piece from each.
    """

    zone: str
    pieces: tuple[CutPiece, ...]
    sawn: float
    tiles: int
