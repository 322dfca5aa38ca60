"""A slab as far as scoring asks of it, and the trade's figures for its joints.

The figures stand in the standards of the American Concrete Institute; they were read second-hand, in the places named
beside each. The contract and the local code govern.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from floorwright.geometry.region import Region
from floorwright.scoring.design import OldJoint
from floorwright.scoring.panels import LooseEnd, Panel, bare_corners, loose_ends, panels
from floorwright.units import FOOT, INCH

SPACING: Final = (24, 36)
"""Contraction joints of a plain slab are so many times its thickness apart: ACI 302.1R-96, as quoted in Concrete
Producer, "Responsibility for floor cracks"; CSA A23.1-94 as quoted in a forum."""

MIXES: Final = {"higher slump, small stone": 24, "higher slump, large stone": 30, "lower slump": 36}
"""Times its thickness that a slab's joints are apart at the most by its concrete; small stone is under 3/4 in. Concrete
Floors on Ground, Portland Cement Association, 2nd ed. 1983, its table as printed in a reference on the web."""

SPACING_MOST: Final = float(15 * FOOT)
"""mm, and no farther than this: not more than 15 ft both ways on the ground about houses (Concrete Construction,
"Treatment of joints and embedded items"). CSA A23.1-94 says 5 m, as quoted in a forum, ACI 302.1R-96 18 ft, and newer
ACI documents about 15 to 18 ft by how much the concrete shrinks (from memory): where they differ the smallest governs.
"""

RATIO: Final = (1.25, 1.5)
"""The long side of a panel over the short one: the better limit and the most. ACI 302.1R-80, 2.3.2, and K. Basham,
"Rules for designing contraction joints", both second-hand."""

DEPTH: Final = 1 / 4
"""Of the slab's thickness that a sawn joint takes at least: ACI 327R-14, as quoted in the ACI's answers, no. 915. CSA
A23.1-94 has it between a quarter and a third, as quoted in a forum."""

EARLY_DEPTH: Final = float(INCH)
EARLY_THICKEST: Final = float(9 * INCH)
"""mm: a joint sawn in the first hours with an early-entry saw is no shallower than the one, in a slab no thicker than
the other. ACI 302.1R, from memory: to be asked about before anyone relies on it."""

PLACE: Final = {"imperial": float(Fraction(3, 4) * INCH), "metric": 19.0}
"""mm by system that a sawn joint may lie from where it was drawn: ACI 117-90, in a commentary on a military
specification."""

STRAIGHT: Final = {"imperial": (float(INCH / 8), float(10 * FOOT)), "metric": (3.0, 3000.0)}
"""By system: a score line strays from straight by no more than this, in so much of its length, mm. Our default, common
practice: no document was found that says it of decorative lines."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """Attributes:
    thickness: mm; None where nobody said.
    mix: its concrete, see `MIXES`; empty where nobody said.
    scanned: whether cables, pipes and heating in it have been looked for.
    joints: that are there.
    panels: that they make.
    loose: ends of joints inside it.
    bare: corners that turn in with no joint from them.
    """

    thickness: float | None
    mix: str
    scanned: bool
    joints: tuple[OldJoint, ...]
    panels: tuple[Panel, ...]
    loose: tuple[LooseEnd, ...]
    bare: int


def slab_of(
    floor: Region, joints: Sequence[OldJoint], thickness: float | None, *, scanned: bool, mix: str = ""
) -> Slab:
    """Returns what the joints make of a slab.

    Args:
        floor: the slab.
        joints: that are there.
        thickness: mm.
        scanned, mix: as in `Slab`.
    """
    return Slab(
        thickness=thickness,
        mix=mix,
        scanned=scanned,
        joints=tuple(joints),
        panels=panels(floor, joints),
        loose=loose_ends(floor, joints),
        bare=bare_corners(floor, joints),
    )


def least_depth(thickness: float) -> float:
    """Returns the least depth of a sawn contraction joint, mm.

    >>> least_depth(125)
    31.25
    """
    return DEPTH * thickness


def early_depth(thickness: float) -> float | None:
    """Returns the least depth of a joint sawn with an early-entry saw, mm; None of a slab too thick for it."""
    return EARLY_DEPTH if thickness <= EARLY_THICKEST else None


def depth_needed(joint: OldJoint, thickness: float) -> float:
    """Returns the least depth of a joint that is there, mm; in a slab too thick for early entry that of all others."""
    early = early_depth(thickness) if joint.early else None
    return least_depth(thickness) if early is None else early


def spacing(thickness: float, mix: str = "") -> tuple[float, float]:
    """Returns how far apart contraction joints are by the slab's thickness, mm: the least and the most.

    Args:
        thickness: mm.
        mix: see `MIXES`; empty where nobody knows the concrete.

    >>> spacing(150)
    (3600, 5400)
    """
    return SPACING[0] * thickness, MIXES.get(mix, SPACING[1]) * thickness


def most_spacing(thickness: float, mix: str = "") -> float:
    """Returns how far apart contraction joints may be, mm: by thickness and mix, and no more than 15 ft."""
    return min(spacing(thickness, mix)[1], SPACING_MOST)
