"""The layout of a zone: the chosen option laid out piece by piece, the others ranked beside it."""

from dataclasses import dataclass

from floorwright.findings import Finding
from floorwright.geometry.region import Region
from floorwright.layout.aims import Reached
from floorwright.layout.option import Option, Proof
from floorwright.layout.piece import Piece
from floorwright.layout.rooms import RoomPart
from floorwright.layout.score import Floor
from floorwright.layout.trade_off import Trade
from floorwright.layout.way_out import Trouble
from floorwright.layout.zones import BORDER, FIELD, Part
from floorwright.pattern.cell import UnitCell
from floorwright.pattern.rings import Rings


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Layout:
    """One zone laid out.

    Attributes:
        zone: its name.
        cell: the pattern at the chosen joint.
        region: what is covered: the floor less the perimeter gap.
        gap: (least, most) perimeter gap, mm.
        limit: mm, no piece should be narrower; 0 for none.
        chosen: the option laid out in `pieces`.
        options: ranked, best first, refused ones last; the chosen one among them.
        pieces: every piece of the chosen option, by index.
        proofs: of the searched positions.
        aims: in order, what the chosen option makes of each.
        trade_off: what more cuts buy at the chosen joint and angle, the fewest cuts first; empty where it was not
            worked out.
        findings: limits broken, options refused, fragile choices.
        rooms: of rooms that run through, what each makes of the chosen option; none for a room by itself.
        troubles: walls at which a position does not fit or tapers, with the ways out.
        part: the part of the floor that it lies on.
        floor: what its positions are scored against.
    """

    zone: str
    cell: UnitCell
    region: Region
    gap: tuple[float, float]
    limit: float
    chosen: Option
    options: tuple[Option, ...]
    pieces: tuple[Piece, ...]
    proofs: tuple[Proof, ...]
    findings: tuple[Finding, ...]
    aims: tuple[Reached, ...] = ()
    trade_off: tuple[Trade, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    part: Part | None = None
    rooms: tuple[RoomPart, ...] = ()
    floor: Floor | None = None

    @property
    def is_border(self) -> bool:
        """Whether it is a side of a border."""
        return self.part is not None and self.part.kind == BORDER

    @property
    def is_field(self) -> bool:
        """Whether it covers what borders and insets leave of the floor."""
        return self.part is not None and self.part.kind == FIELD

    @property
    def rings(self) -> Rings | None:
        """The rings that it is laid in, if it is."""
        rounded = self.part.outline.rounded if self.part is not None and self.part.outline is not None else None
        return rounded.rings if rounded is not None else None
