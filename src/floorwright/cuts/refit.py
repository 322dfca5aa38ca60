"""What a new measurement makes of a floor that is partly laid: nothing to do, cuts changed, or a limit broken."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from floorwright.cuts.changed import CutChange
from floorwright.layout.axis import axes_of, thin_end, wall_faces
from floorwright.layout.layout import Layout
from floorwright.layout.piece import Piece
from floorwright.layout.refit import Misfit
from floorwright.layout.sides import Side
from floorwright.tolerance import RANK_STEP, TOUCH

NOTHING: Final = "nothing to do"
CUTS: Final = "cuts changed"
BROKEN: Final = "limit broken"
MISFIT: Final = "what is laid does not fit"

VERDICTS: Final = (NOTHING, CUTS, BROKEN, MISFIT)
"""From the best to the worst."""

ACCEPT: Final = "accept it"
LIFT: Final = "lift what is laid"
OPEN: Final = "open the joints from here on"
CLOSE: Final = "close the joints from here on"


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One thing to do where a limit is broken.

    Attributes:
        what: `accept it`, `lift what is laid`, `open the joints from here on` or `close the joints from here on`.
        wall: at which; empty for all of the floor.
        pieces: that are under the limit if it is accepted, or that are lifted.
        by: mm by which each joint is opened or closed; else 0.
        rows: rows over which; else 0.
        joint: mm, what the joints become there; else 0.
        allowed: whether the joints of the job allow it; always so where joints play no part.
        narrowest: mm, the narrowest piece then, as far as it is known: of joints opened, at that wall.
        full, cut: counts then; None where they stay.
    """

    what: str
    wall: str = ""
    pieces: int = 0
    by: float = 0.0
    rows: int = 0
    joint: float = 0.0
    allowed: bool = True
    narrowest: float
    full: int | None = None
    cut: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Refit:
    """What has become of a floor that is partly laid.

    Attributes:
        since: revision of the job that it was laid by, such as `A`; its file where that has none.
        held: the two corners that both measurements are tied by.
        laid: ids of the pieces that are laid.
        verdict: `nothing to do`, `cuts changed`, `limit broken` or `what is laid does not fit`.
        changes: the pieces not laid yet that are not what they were.
        misfits: laid pieces that the floor as now measured does not suit.
        choices: what can be done where a limit is broken, each with its cost.
    """

    since: str
    held: tuple[str, str]
    laid: tuple[str, ...]
    verdict: str
    changes: tuple[CutChange, ...]
    misfits: tuple[Misfit, ...]
    choices: tuple[Choice, ...]


def verdict_of(
    changes: Sequence[CutChange], misfits: Sequence[Misfit], layout: Layout, before: Layout, laid: frozenset[str]
) -> str:
    """Returns what a new measurement comes to, the worst of all there is."""
    if any(misfit.over > 0 for misfit in misfits):
        return MISFIT
    if newly_broken(layout, before, laid):
        return BROKEN
    return CUTS if changes else NOTHING


def newly_broken(layout: Layout, before: Layout, laid: frozenset[str]) -> bool:
    """Returns whether a piece not laid yet is under the limit, or a wall leaves what nothing fills, and was not so."""
    if layout.chosen.refused and not before.chosen.refused:
        return True
    old = {piece.id: piece.narrowest for piece in before.pieces}
    return any(
        piece.narrowest < min(layout.limit, old.get(piece.id, layout.limit)) - RANK_STEP
        for piece in layout.pieces
        if piece.id not in laid
    )


def choices_of(
    layout: Layout, sides: Sequence[Side], laid: Sequence[Piece], anew: Layout | None, joint_most: float
) -> tuple[Choice, ...]:
    """Returns what can be done about a limit that is broken.

    Args:
        layout: as it is laid on.
        sides: that its cuts are measured to.
        laid: the pieces that are laid.
        anew: what would be laid if nothing were laid yet; None if nothing could be.
        joint_most: mm, how far joints may be opened.
    """
    chosen = layout.chosen
    found = [Choice(what=ACCEPT, pieces=chosen.under, narrowest=chosen.worst)]
    if anew is not None and not anew.chosen.refused:
        best = anew.chosen
        found.append(
            Choice(what=LIFT, pieces=len(laid), narrowest=best.worst, full=best.full, cut=best.cut, joint=best.joint)
        )
    return (*found, *_by_joints(layout, sides, laid, joint_most))


def _by_joints(layout: Layout, sides: Sequence[Side], laid: Sequence[Piece], joint_most: float) -> list[Choice]:
    """Returns for each wall where the limit is broken the joints that mend it over the rows still to lay.

    Opened, the thin cut goes and the row before it ends at the wall; closed, it comes up to the limit. Nothing is
    offered where a laid piece stands at the wall already.
    """
    axes = axes_of(layout.cell, layout.chosen.placement.angle)
    origin = np.array(layout.chosen.placement.origin)
    points = np.concatenate([piece.rings[0] for piece in laid])
    found = []
    for axis in axes:
        low = float(origin @ axis.direction) + axis.joint / 2
        for face in wall_faces(sides, axis):
            thin = float(thin_end(face, low, axis.size, axis.pitch))
            if thin >= layout.limit - RANK_STEP or not axis.through:
                continue
            left = face.near - float((face.sign * points @ axis.direction).max())
            rows = int((left - thin - axis.joint + TOUCH) // axis.pitch)
            if rows < 1:
                continue
            opened = (axis.joint + thin + face.rise) / rows
            closed = (layout.limit - thin) / (rows + 1)
            allowed = axis.joint + opened <= joint_most + TOUCH
            # Joints more than twice as wide as those beside them are for nobody to choose.
            if allowed or opened <= axis.joint + TOUCH:
                found.append(
                    Choice(
                        what=OPEN,
                        wall=face.name,
                        by=opened,
                        rows=rows,
                        joint=axis.joint + opened,
                        allowed=allowed,
                        narrowest=axis.size - face.rise,
                    )
                )
            if closed < axis.joint:
                found.append(
                    Choice(
                        what=CLOSE,
                        wall=face.name,
                        by=closed,
                        rows=rows + 1,
                        joint=axis.joint - closed,
                        allowed=False,
                        narrowest=layout.limit,
                    )
                )
    return found
