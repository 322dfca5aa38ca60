"""What there is to speak of in a layout, and how its lengths are written."""

from collections.abc import Mapping
from dataclasses import dataclass

from floorwright.layout.option import Option, Proof
from floorwright.layout.score import Floor
from floorwright.layout.way_out import Trouble
from floorwright.layout.wider import Offer
from floorwright.pattern.cell import UnitCell


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Said:
    """What there is to speak of.

    Attributes:
        chosen, recommended: the option laid, and the first of the ranked ones.
        options: all, ranked.
        wanted: the name that the person asked for, or empty.
        named: every name that can be asked for, with its option.
        steps: mm, the joint asked for and the whole spacer steps over it that are allowed.
        cell: the pattern as laid.
        offers: joints at which positions fit.
        proofs: of the position with the widest worst piece.
        troubles: walls at which a position does not fit or tapers, with the ways out.
        staged: of the positions searched for a person's aims.
        traded: whether it was worked out what more cuts buy.
        angles: those tried, radians in the floor frame, where there are several.
        between: what is known of all angles of a range; None where single ones were asked for.
        along: radians, what a person counts angles from.
    """

    chosen: Option
    recommended: Option
    options: tuple[Option, ...]
    wanted: str
    named: Mapping[str, Option]
    steps: tuple[float, ...]
    cell: UnitCell
    offers: tuple[Offer, ...]
    proofs: tuple[Proof, ...]
    troubles: tuple[Trouble, ...] = ()
    staged: tuple[Proof, ...] = ()
    traded: bool = True
    angles: tuple[float, ...] = ()
    between: Proof | None = None
    along: float = 0.0

    @property
    def joint(self) -> float:
        """Mm, as asked for."""
        return self.steps[0]

    @property
    def searched(self) -> tuple[float, ...]:
        """The joints at which all positions were searched, mm, least first."""
        return tuple(sorted({proof.joint for proof in self.proofs}))


def zone(floor: Floor) -> str:
    """Returns how the zone is called in a finding."""
    return f"zone {floor.zone}"


def side(floor: Floor, name: str) -> str:
    """Returns how a side is called in a finding: `wall S`, `border at S`."""
    return name if any(side.name == name and not side.wall for side in floor.sides) else f"wall {name}"


def text(floor: Floor, mm: float) -> str:
    """Returns a cut or a gap in the units of the job, without its unit."""
    return floor.style.text(mm, feet=False)


def joint_text(floor: Floor, mm: float) -> str:
    """Returns a joint as it was entered, with its unit."""
    return floor.style.entered_text(mm, unit=True)
