"""`lay_out`: the pattern of one zone laid on the floor. Read this first."""

from collections.abc import Callable
from dataclasses import replace
from functools import cache, partial

from floorwright.control.control import Control
from floorwright.layout.aims import Aim, completed, default_aims
from floorwright.layout.angles import Turns, angles_of, span_of, turn_text
from floorwright.layout.at_angles import AtAngle, tried_at
from floorwright.layout.axis import axes_of, wall_faces
from floorwright.layout.choice import choice_of
from floorwright.layout.floor_lines import floor_lines
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option, Proof
from floorwright.layout.options import Tried, settled
from floorwright.layout.pieces import pieces_of
from floorwright.layout.positions import UNALIGNED, YOUR_OWN, whole_steps
from floorwright.layout.reached import reached
from floorwright.layout.rooms import decided_by, room_parts
from floorwright.layout.said import Said
from floorwright.layout.say import findings_of
from floorwright.layout.score import Floor, score, smallest_side
from floorwright.layout.sides import sides_of_room
from floorwright.layout.sought import begin
from floorwright.layout.trade_off import Trade, trade_off
from floorwright.layout.wider import spread
from floorwright.layout.zones import Part
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.plan.room import Room
from floorwright.tolerance import RANK_STEP
from floorwright.units import LengthStyle


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
    # Random rows and ashlar are laid out anew each time that they are asked for.
    make_cell = cache(make_cell)
    rooms = tuple(one for one in room.rooms if not part.rooms or one.name in part.rooms)
    first_line = next(line for line in control.lines if line.name == "first line")
    along = first_line.angle if part.outline is None else part.outline.along
    sides = sides_of_room(room, 0.0)
    angles = (angle + along,) if turns is None else angles_of(turns, sides, along)
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
    if at is not None:
        tried.append(_given(floor, cell, angles[0], YOUR_OWN, at, UNALIGNED))
        choose = choose or YOUR_OWN
    made, between = tried_at(
        floor, make_cell, angles, span_of(turns, sides, along), (steps, closer), joint_most, report
    )
    at_angles: dict[float, AtAngle] = {}
    for each, one in made.items():
        decided = replace(one, proofs=decided_by(room, rooms, one.proofs))
        at_angles[each] = decided if len(made) == 1 else decided.named(turn_text(each, along))
    tried += [one for found in at_angles.values() for one in found.tried]
    proofs = tuple(proof for found in at_angles.values() for proof in found.proofs)
    proofs += () if between is None else (between,)

    report("ranking options", 0.9)
    choice = choice_of(
        floor,
        make_cell,
        tried,
        at_angles,
        wanted=choose,
        made_for=[name for name, _ in finish],
        is_range=turns is not None and turns.span is not None,
    )
    chosen, laid = choice.chosen, make_cell(choice.chosen.joint)
    report("weighing cuts against the worst piece", 0.0)
    traded = _traded(floor, laid, chosen, proofs, report)
    own = at_angles[choice.turned].proofs
    findings = findings_of(
        floor,
        Said(
            chosen=chosen,
            recommended=choice.recommended,
            options=choice.told,
            wanted=choose,
            named=choice.named,
            steps=tuple(steps),
            cell=laid,
            offers=choice.offers,
            proofs=tuple(proof for proof in own if proof.number < 0),
            troubles=choice.troubles,
            staged=tuple(proof for proof in own if proof.number >= 0),
            angles=tuple(at_angles) if len(at_angles) > 1 else (),
            between=between,
            along=along,
            traded=traded is not None,
        ),
    )
    pieces = pieces_of(part.name, floor.region, laid, chosen.placement)
    return Layout(
        zone=part.name,
        cell=laid,
        region=floor.region,
        gap=gap,
        limit=limit,
        chosen=chosen,
        options=choice.told,
        pieces=pieces,
        proofs=proofs,
        findings=findings,
        troubles=choice.troubles,
        rooms=room_parts(rooms, floor.region, pieces, smallest_side(laid)),
        trade_off=traded or (),
        aims=reached(floor.aims, chosen, choice.options, proofs, choice.decided),
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
