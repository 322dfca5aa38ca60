"""A slab as far as scoring asks of it, and the trade's figures for its joints.

The figures stand in the standards of the American Concrete Institute; they were read second-hand, in the places named
beside each. The contract and the local code govern.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from floorwright.geometry.region import Region
from floorwright.scoring.design import OldJoint
from floorwright.scoring.panels import LooseEnd, Panel, bare_corners, loose_ends, panels
from floorwright.units import FOOT

SPACING: Final = (24, 36)
"""Contraction joints of a plain slab are so many times its thickness apart: ACI 302.1R-96, as quoted in Concrete
Producer, "Responsibility for floor cracks"."""

SPACING_MOST: Final = float(18 * FOOT)
"""mm, and no farther than this: the same."""

RATIO: Final = (1.25, 1.5)
"""The long side of a panel over the short one: the better limit and the most. ACI 302.1R-80, 2.3.2, and K. Basham,
"Rules for designing contraction joints", both second-hand."""

DEPTH: Final = 1 / 4
"""Of the slab's thickness that a sawn joint takes at least: ACI 327R-14, as quoted in the ACI's answers, no. 915."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """Attributes:
    thickness: mm; None where nobody said.
    scanned: whether cables, pipes and heating in it have been looked for.
    joints: that are there.
    panels: that they make.
    loose: ends of joints inside it.
    bare: corners that turn in with no joint from them.
    """

    thickness: float | None
    scanned: bool
    joints: tuple[OldJoint, ...]
    panels: tuple[Panel, ...]
    loose: tuple[LooseEnd, ...]
    bare: int


def slab_of(floor: Region, joints: Sequence[OldJoint], thickness: float | None, *, scanned: bool) -> Slab:
    """Returns what the joints make of a slab.

    Args:
        floor: the slab.
        joints: that are there.
        thickness: mm.
        scanned: as in `Slab`.
    """
    return Slab(
        thickness=thickness,
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


def most_spacing(thickness: float) -> float:
    """Returns how far apart contraction joints may be, mm: 36 times the thickness, and no more than 18 ft."""
    return min(SPACING[1] * thickness, SPACING_MOST)
