"""What is tried at each angle of the pattern: positions by hand, all joints that are allowed, and the searches."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from floorwright.layout.axis import axes_of
from floorwright.layout.between import between_angles, proof_between
from floorwright.layout.option import Proof
from floorwright.layout.options import Tried, best_of, by_hand, lines_of, placed_at, settled
from floorwright.layout.positions import UNALIGNED, WIDEST
from floorwright.layout.rectilinear import best_on_axis, is_rectilinear
from floorwright.layout.score import Floor, score
from floorwright.layout.search import search
from floorwright.layout.sought import begin, seek
from floorwright.layout.wider import Offer, now_laid, opened, spread, with_wider_joints
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import RANK_STEP

STARTS = 3
"""How many of the best positions by hand the search starts from."""

BETWEEN: Final = "searching between the angles"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AtAngle:
    """What was tried at one angle, what is offered at wider joints there, and what is proved."""

    tried: list[Tried]
    offers: list[Offer]
    proofs: tuple[Proof, ...]

    def named(self, text: str) -> "AtAngle":
        """Returns the same where other angles were tried too: every option's name tells its angle."""

        def renamed(one: Tried) -> Tried:
            return replace(one, option=replace(one.option, name=f"{one.option.name}, {text}"))

        at = self.tried[0].option.placement.angle
        return AtAngle(
            tried=[renamed(one) for one in self.tried],
            offers=[
                replace(
                    offer,
                    position=offer.position if offer.least is not None else f"{offer.position}, {text}",
                    option=f"{offer.option}, {text}" if offer.option else "",
                )
                for offer in self.offers
            ],
            proofs=tuple(replace(proof, angle=at) for proof in self.proofs),
        )


def tried_at(
    floor: Floor,
    make_cell: Callable[[float], UnitCell],
    angles: tuple[float, ...],
    span: tuple[float, float] | None,
    joints: tuple[list[float], list[float]],
    joint_most: float | None,
    report: Callable[[str, float], None],
) -> tuple[dict[float, AtAngle], Proof | None]:
    """Returns what there is at each angle, and over a range of them what is known of all angles in it: one more of them
    is tried where it does better."""
    made: dict[float, AtAngle] = {}
    for each in angles:
        report("trying positions", 0.0)
        made[each] = _at_angle(floor, make_cell, each, joints, joint_most, report)
        if any(proof.stopped for proof in made[each].proofs):
            return made, None
    if span is None:
        return made, None
    joint = joints[0][0]
    found = between_angles(
        floor.region,
        make_cell(joint),
        span,
        known=_best_worst(made, joint),
        spare=floor.spare,
        progress=lambda share: report(BETWEEN, share),
    )
    if found.angle is not None and not found.stopped:
        made[found.angle] = _at_angle(floor, make_cell, found.angle, joints, joint_most, report)
    return made, proof_between(found, span, _best_worst(made, joint), joint, WIDEST)


def _best_worst(made: Mapping[float, AtAngle], joint: float) -> float:
    """Returns the widest worst piece of all that can be laid at a joint, mm."""
    tried = (one.option for at in made.values() for one in at.tried)
    return max((option.worst for option in tried if option.joint == joint and not option.refused), default=0.0)


def _at_angle(
    floor: Floor,
    make_cell: Callable[[float], UnitCell],
    angle: float,
    joints: tuple[list[float], list[float]],
    joint_most: float | None,
    report: Callable[[str, float], None],
) -> AtAngle:
    """Returns what there is at one angle; `joints` are the one asked for with the wider ones, and the closer ones."""
    steps, closer = joints
    hand = by_hand(floor, make_cell(steps[0]), angle)
    tried, offers = [*hand], list[Offer]()
    if joint_most is not None and joint_most > steps[0]:
        wider, offers = with_wider_joints(floor, make_cell, angle, steps=steps, most=joint_most)
        tried += wider
    searched = [*spread(steps, offers), *closer]
    found, more, proofs = _at_joints(floor, make_cell, angle, searched, hand, offers, report)
    return AtAngle(tried=[*tried, *found], offers=[*offers, *more], proofs=proofs)


def _at_joints(
    floor: Floor,
    make_cell: Callable[[float], UnitCell],
    angle: float,
    joints: list[float],
    asked: list[Tried],
    offers: list[Offer],
    report: Callable[[str, float], None],
) -> tuple[list[Tried], list[Offer], tuple[Proof, ...]]:
    """Returns the widest position at each joint, what more is offered at other ones, and what is proved.

    At another joint the best by hand is taken too, and those that could not be laid at the first joint, the one asked
    for; `asked` are the positions by hand there.
    """
    tried: list[Tried] = []
    more: list[Offer] = []
    proofs: list[Proof] = []
    for joint in joints:
        cell = make_cell(joint)
        hand = asked if joint == joints[0] else by_hand(floor, cell, angle)
        widest, found = _widest(floor, cell, angle, hand, report)
        proofs += found
        if joint == joints[0]:
            tried += [widest] if widest is not None else []
        else:
            best = best_of(floor, make_cell, hand)
            tried += [opened(floor, one) for one in (*best, widest) if one is not None]
            laid, offered = now_laid(floor, asked, hand, [*offers, *more])
            tried += laid
            more += offered
        if floor.aims_asked and not any(proof.stopped for proof in found):
            sought, found = _sought(floor, cell, angle, hand, report)
            tried += sought if joint == joints[0] else [opened(floor, one) for one in sought]
            proofs += found
        if any(proof.stopped for proof in found):
            break
    return tried, more, tuple(proofs)


def _widest(
    floor: Floor, cell: UnitCell, angle: float, hand: list[Tried], report: Callable[[str, float], None]
) -> tuple[Tried | None, tuple[Proof, ...]]:
    """Returns the position whose worst piece is widest, with its proof: exact by axis where the room allows it."""
    exact = _by_axis(floor, cell, angle)
    if exact is not None:
        return exact
    starts = [one.option for one in hand if not one.option.refused]
    starts.sort(key=lambda option: -round(option.worst / RANK_STEP))
    report("searching all positions", 0.0)
    found = search(
        floor.region,
        cell,
        angle=angle,
        centre=floor.centre,
        spare=floor.spare,
        aim=WIDEST,
        starts=tuple(option.placement for option in starts[:STARTS]),
        progress=lambda share: report("searching all positions", share),
    )
    if found.placement is None:
        return None, (found.proof,)
    placement = settled(floor, cell, found.placement)
    return Tried(option=score(floor, cell, placement, WIDEST), rank=UNALIGNED), (found.proof,)


def _sought(
    floor: Floor, cell: UnitCell, angle: float, hand: list[Tried], report: Callable[[str, float], None]
) -> tuple[list[Tried], tuple[Proof, ...]]:
    """Returns the positions found for a person's aims, one after another, each with its proof."""
    report("searching for your aims", 0.0)
    starts = [one.option.placement for one in hand if not one.option.refused][:STARTS]
    stages = seek(begin(floor, cell, angle, starts, lambda share: report("searching for your aims", share)))
    tried = [
        Tried(option=score(floor, cell, settled(floor, cell, stage.placement), stage.name), rank=UNALIGNED)
        for stage in stages
        if stage.placement is not None
    ]
    return tried, tuple(stage.proof for stage in stages)


def _by_axis(floor: Floor, cell: UnitCell, angle: float) -> tuple[Tried, tuple[Proof, ...]] | None:
    """Returns the exact answer, or None where the room is not square to the pattern, or two walls share one tile."""
    if not is_rectilinear(floor.region, cell, angle):
        return None
    first, second = [
        best_on_axis(floor.region, axis, float(np.array(floor.centre) @ axis.direction), floor.spare, WIDEST)
        for axis in axes_of(cell, angle)
    ]
    if first is None or second is None:
        return None
    placement = placed_at(floor, cell, angle, lines_of(floor, cell, angle), (first.low, second.low))
    option = score(floor, cell, placement, WIDEST)
    if option.worst < min(first.worst, second.worst) - RANK_STEP:
        return None
    proofs = sorted((first.proof, second.proof), key=lambda proof: proof.axis)
    return Tried(option=option, rank=UNALIGNED), tuple(proofs)
