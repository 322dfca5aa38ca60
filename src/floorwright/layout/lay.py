"""`lay_out`: the pattern of one zone laid on the floor. Read this first."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from floorwright.control.control import Control
from floorwright.layout.aims import Aim, completed, default_aims
from floorwright.layout.angles import Turns, angles_of, turn_text
from floorwright.layout.axis import axes_of, wall_faces
from floorwright.layout.floor_lines import floor_lines
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option, Proof
from floorwright.layout.options import Tried, best_of, by_hand, distinct, lines_of, placed_at, ranked, settled, weighed
from floorwright.layout.pieces import pieces_of
from floorwright.layout.positions import WIDEST, YOUR_OWN, whole_steps
from floorwright.layout.reached import reached
from floorwright.layout.rectilinear import best_on_axis, is_rectilinear
from floorwright.layout.rooms import decided_by, room_parts
from floorwright.layout.said import Said
from floorwright.layout.say import findings_of
from floorwright.layout.score import Floor, score, smallest_side
from floorwright.layout.search import search
from floorwright.layout.sides import sides_of_room
from floorwright.layout.sought import begin, seek
from floorwright.layout.trade_off import Trade, trade_off
from floorwright.layout.ways_out import allowed_ways, ways_out, with_chosen
from floorwright.layout.wider import Offer, now_laid, opened, spread, with_wider_joints
from floorwright.layout.zones import Part
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.plan.room import Room
from floorwright.tolerance import RANK_STEP
from floorwright.units import LengthStyle

UNALIGNED = 6
"""Rank of a position that lines up with nothing, after every pair of positions by hand."""

STARTS = 3
"""How many of the best positions by hand the search starts from."""


def lay_out(
    *,
    part: Part,
    room: Room,
    gap: tuple[float, float],
    control: Control,
    make_cell: Callable[[float], UnitCell],
    joint: float,
    joint_most: float | None,
    joint_step: float,
    joint_least: float | None = None,
    angle: float,
    limit: float,
    choose: str,
    shift_sd: float,
    turn_sd: float,
    style: LengthStyle,
    aims: tuple[Aim, ...] = (),
    at: tuple[float, float] | None = None,
    finish: tuple[tuple[str, tuple[float, float]], ...] = (),
    turns: Turns | None = None,
    progress: Callable[[str, float], None] | None = None,
) -> Layout:
    """Returns the zone laid out: the options ranked, the chosen one piece by piece, and what there is to say.

    Tried are the four classical positions (a joint or a tile on each centre line), cuts balanced on their thin ends,
    a full tile at each wall that runs along the pattern, the same with the joint opened as far as allowed where that
    makes them fit, and at each joint that is allowed (`layout.wider` says which, where those are many) the best of them
    all and the position that the proved search finds. `layout.options` says how they are ranked.

    Args:
        part: what it covers and what its cuts are measured to; see `layout.zones`.
        room: as adjusted, whose lines a joint or a tile may lie on.
        gap: (least, most) perimeter gap, mm.
        control: its first line gives the direction and its centre the place to count from, but for an inset, which has
            both of its own.
        make_cell: the pattern at a joint, mm.
        joint: mm, as asked for.
        joint_most: mm, how far joints may be opened, or None.
        joint_step: mm, spacers come in whole steps of this, counted from zero.
        joint_least: mm, how far joints may be closed, or None.
        angle: radians from the first line to the pattern's rows.
        limit: mm, no piece should be narrower; 0 for none.
        choose: name of the option that the person wants, or empty for the recommended one.
        shift_sd, turn_sd: mm and radians, how far out control predicts the pattern may be laid: one standard deviation.
        style: how lengths are written in findings.
        aims: a person's list, in order; without one the options are ranked in our own.
        at: mm, where the person wants the pattern's origin, at the joint asked for; it is laid unless `choose` names
            another option.
        finish: positions by name, mm, that the border around it was made for: the best of them is laid, whatever else
            could be, unless the person chooses another.
        turns: several angles to try instead of the one.
        progress: told what is being done and the share of it done.
    """
    report = progress or _silent
    rooms = tuple(one for one in room.rooms if not part.rooms or one.name in part.rooms)
    first_line = next(line for line in control.lines if line.name == "first line")
    along = first_line.angle if part.outline is None else part.outline.along
    angles = (angle + along,) if turns is None else angles_of(turns, sides_of_room(room, 0.0), along)
    cell = make_cell(joint)
    floor = Floor(
        zone=part.name,
        region=part.region,
        sides=part.sides,
        gap=gap,
        limit=limit,
        centre=control.centre if part.outline is None else part.outline.centre,
        shift_sd=shift_sd,
        turn_sd=turn_sd,
        style=style,
        joint=joint,
        angle=angles[0],
        aims=completed(aims)
        if aims
        else default_aims(limit, runs_along=any(_runs_along(part, cell, each) for each in angles)),
        lines=floor_lines(room, control, part.rooms),
        rooms=rooms,
    )
    steps = [joint]
    if joint_most is not None and joint_most > joint:
        steps += [step for step in whole_steps(joint, joint_most, joint_step) if step > joint + RANK_STEP]
    closer = _closer(joint, joint_least, joint_step)
    tried = [_given(floor, cell, angles[0], name, origin) for name, origin in finish]
    at_angles: dict[float, AtAngle] = {}
    if at is not None:
        tried.append(_given(floor, cell, angles[0], YOUR_OWN, at, UNALIGNED))
        choose = choose or YOUR_OWN
    for each in angles:
        report("trying positions", 0.0)
        made = _at_angle(floor, make_cell, each, (steps, closer), joint_most, report)
        made = replace(made, proofs=decided_by(room, rooms, made.proofs))
        at_angles[each] = made if len(angles) == 1 else made.named(turn_text(each, along))
        tried += at_angles[each].tried
        if any(proof.stopped for proof in made.proofs):
            break
    proofs = tuple(proof for made in at_angles.values() for proof in made.proofs)

    report("ranking options", 0.9)
    order = ranked(floor, make_cell, distinct(floor, make_cell, tried))
    options = tuple(one.option for one in order.best_first)
    named = {name: one.option for one in order.best_first for name in (one.option.name, *one.others)}
    # What is offered beside the options is so at the angle of the best of them.
    turned = options[0].placement.angle
    offers = at_angles[turned].offers
    troubles = ways_out(floor, make_cell, turned, joint=joint, ranked=options, offers=offers)
    named = allowed_ways(troubles) | named
    made_for = {name for name, _ in finish}
    meant = next((one.option for one in order.best_first if made_for & {one.option.name, *one.others}), options[0])
    chosen = named.get(choose, meant)
    if chosen not in options:
        chosen = weighed(floor, make_cell(chosen.joint), chosen, UNALIGNED)
        options = with_chosen(options, chosen)
    report("weighing cuts against the worst piece", 0.0)
    traded = _traded(floor, make_cell(chosen.joint), chosen, proofs, report)
    findings = findings_of(
        floor,
        Said(
            chosen=chosen,
            recommended=meant,
            options=options,
            wanted=choose,
            named=named,
            steps=tuple(steps),
            cell=make_cell(chosen.joint),
            offers=tuple(offers),
            proofs=tuple(proof for proof in at_angles[turned].proofs if proof.number < 0),
            troubles=troubles,
            staged=tuple(proof for proof in at_angles[turned].proofs if proof.number >= 0),
            angles=tuple(at_angles) if len(angles) > 1 else (),
            span=turns is not None and turns.span is not None,
            along=along,
            traded=traded is not None,
        ),
    )
    pieces = pieces_of(part.name, floor.region, make_cell(chosen.joint), chosen.placement)
    return Layout(
        zone=part.name,
        cell=make_cell(chosen.joint),
        region=floor.region,
        gap=gap,
        limit=limit,
        chosen=chosen,
        options=options,
        pieces=pieces,
        proofs=proofs,
        findings=findings,
        troubles=troubles,
        rooms=room_parts(rooms, floor.region, pieces, smallest_side(make_cell(chosen.joint))),
        trade_off=traded or (),
        aims=reached(floor.aims, chosen, options, proofs, order.decided if chosen is options[0] else -1),
        part=part,
        floor=floor,
    )


def _given(floor: Floor, cell: UnitCell, angle: float, name: str, origin: tuple[float, float], rank: int = 0) -> Tried:
    """Returns a position with a crossing of joints at a place; it goes by the name of one before it where it is the
    same."""
    placement = settled(floor, cell, Placement(origin=origin, angle=angle))
    return Tried(option=score(floor, cell, placement, name), rank=rank)


def _runs_along(part: Part, cell: UnitCell, angle: float) -> bool:
    """Returns whether any side runs along the pattern."""
    return any(wall_faces(part.sides, axis) for axis in axes_of(cell, angle))


def _closer(joint: float, least: float | None, step: float) -> list[float]:
    """Returns the whole steps under the joint asked for, widest first; some of them if they are many."""
    if least is None or least >= joint:
        return []
    steps = [each for each in whole_steps(least, joint, step) if each < joint - RANK_STEP]
    return spread(steps, ())[::-1] if steps else []


def _silent(_what: str, _share: float) -> None:
    """Shows no progress."""


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


def _traded(
    floor: Floor,
    cell: UnitCell,
    chosen: Option,
    proofs: tuple[Proof, ...],
    report: Callable[[str, float], None],
) -> tuple[Trade, ...] | None:
    """Returns what more cuts buy at the joint and angle that are laid; None where it would take too long."""
    widest = min((proof.bound for proof in proofs if proof.tells_of(chosen) and proof.number < 0), default=0.0)
    if any(proof.stopped for proof in proofs):
        return None
    starts = () if chosen.refused else (chosen.placement,)
    told = partial(report, "weighing cuts against the worst piece")
    return trade_off(begin(floor, cell, chosen.placement.angle, starts, told), widest)


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
