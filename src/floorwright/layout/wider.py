"""Joints wider than the one asked for: the least that makes a row fit, and at which joints all positions are searched.

A row is offered the least joint at which it keeps the limit. Where no joint that is allowed does that, and the row does
not fit at all at the joint asked for, it is offered the least at which it fits.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from floorwright.layout.options import CENTRED, Line, Tried, best_way, lines_of, paired, phrase, thin_limit, ways_of
from floorwright.layout.positions import Placed, Position, least_joint, place
from floorwright.layout.score import Floor, least_sawn
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import TOUCH

MOST_JOINTS = 6
"""At how many joints of a range all positions are searched, beside those at which a row is offered: each takes about a
tenth of a second in a room."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A joint at which a position fits that does not fit, or breaks the limit, at the joint asked for.

    Attributes:
        position: name of the position on its axis, `full tile at S`, or of a whole option.
        thinnest: mm, no thin end of the row is under this: the limit, or what can be sawn where no joint keeps that.
        least: mm, the least joint that does it; None for a whole option, of which only the steps are tried.
        joint: mm, the first whole spacer step that does, or None where none up to the most does.
        option: name of the option laid with that joint; empty where there is none.
    """

    position: str
    thinnest: float
    least: float | None
    joint: float | None
    option: str


def spread(steps: Sequence[float], offers: Sequence[Offer]) -> list[float]:
    """Returns the joints at which all positions are searched, least first.

    Args:
        steps: mm, the joint asked for and the whole spacer steps over it, least first. All are taken if they are few;
            else `MOST_JOINTS` of them, as even as can be, the first and the last among them.
        offers: their joints are taken in any case.
    """
    taken = set(steps)
    if len(steps) > MOST_JOINTS:
        last = len(steps) - 1
        taken = {steps[round(number * last / (MOST_JOINTS - 1))] for number in range(MOST_JOINTS)}
    return sorted(taken | {offer.joint for offer in offers if offer.joint is not None})


def with_wider_joints(
    floor: Floor, make_cell: Callable[[float], UnitCell], angle: float, *, steps: Sequence[float], most: float
) -> tuple[list[Tried], list[Offer]]:
    """Returns the positions that an opened joint makes fit, scored, and what is offered.

    Taken are the full tiles at walls and the balances that leave a strip, or a thin end under the limit, at the joint
    asked for.

    Args:
        floor, make_cell, angle: as everywhere.
        steps: mm, the joint asked for and the whole spacer steps over it, least first.
        most: mm, the widest joint allowed.
    """
    cell = make_cell(steps[0])
    tried, offers = [], []
    for row, line in enumerate(lines_of(floor, cell, angle)):
        for way in ways_of(floor, line):
            if way.position.name in CENTRED:
                continue
            aims = [thinnest for thinnest in _aims(floor, cell) if not _keeps(way, thinnest)]
            made = [_offer(floor, make_cell, angle, (row, line), way.position, aim, steps, most) for aim in aims]
            found = [each for each in made if each is not None]
            if not found:
                continue
            offer, option = next((each for each in found if each[1] is not None), found[0])
            offers.append(offer)
            tried += [option] if option is not None else []
    return tried, offers


def _aims(floor: Floor, cell: UnitCell) -> list[float]:
    """Returns the thin ends to aim at, the better first: good enough, and no more than can be sawn."""
    return sorted({thin_limit(floor, cell), least_sawn(cell)}, reverse=True)


def _keeps(way: Placed, thinnest: float) -> bool:
    return way.fits and way.thin >= thinnest - TOUCH


def _offer(
    floor: Floor,
    make_cell: Callable[[float], UnitCell],
    angle: float,
    at: tuple[int, Line],
    position: Position,
    thinnest: float,
    steps: Sequence[float],
    most: float,
) -> tuple[Offer, Tried | None] | None:
    """Returns the least joint that brings the row to a thin end, with the option at the first step; None if none is."""
    row, line = at
    least = least_joint(position, line.faces, line.axis, line.centre, floor.spare, most=most, thinnest=thinnest)
    if least is None:
        return None
    joints = [step for step in steps[1:] if step >= least - TOUCH]
    found = _first_step(floor, make_cell, angle, row, position, thinnest, joints)
    offer = Offer(
        position=phrase(position, line.axis),
        thinnest=thinnest,
        least=least,
        joint=None if found is None else found.option.joint,
        option="" if found is None else found.option.name,
    )
    return offer, found


def _first_step(
    floor: Floor,
    make_cell: Callable[[float], UnitCell],
    angle: float,
    row: int,
    position: Position,
    thinnest: float,
    joints: Sequence[float],
) -> Tried | None:
    """Returns the position, with the best of the other axis, at the first of the joints at which it can be laid."""
    for joint in joints:
        cell = make_cell(joint)
        lines = lines_of(floor, cell, angle)
        line = lines[row]
        way = place(position, line.faces, line.axis, line.centre, floor.spare)
        if not _keeps(way, thinnest):
            continue
        other = best_way(floor, cell, ways_of(floor, lines[1 - row]))
        tried = paired(floor, cell, angle, lines, (way, other) if row == 0 else (other, way))
        if not tried.option.refused:
            return opened(floor, tried)
    return None


def now_laid(
    floor: Floor, asked: Sequence[Tried], hand: Sequence[Tried], offers: Sequence[Offer]
) -> tuple[list[Tried], list[Offer]]:
    """Returns the positions by hand that can be laid at a joint, and could not at the one asked for.

    Their rows may well fit by themselves: it is a piece beside a column or in a corner that was in the way.

    Args:
        floor: what they are scored against.
        asked: by hand, at the joint asked for.
        hand: by hand, at the joint in question.
        offers: made so far: what these offer is left out.
    """
    refused = {one.option.name for one in asked if one.option.refused}
    offered = {offer.position for offer in offers if offer.joint is not None}
    tried, made = [], []
    for one in hand:
        name = one.option.name
        if one.option.refused or name not in refused or offered & {name, *name.split(", ")}:
            continue
        offered.add(name)
        option = opened(floor, one)
        tried.append(option)
        made.append(Offer(position=name, thinnest=0.0, least=None, joint=one.option.joint, option=option.option.name))
    return tried, made


def opened(floor: Floor, tried: Tried) -> Tried:
    """Returns a position whose name tells its joint, for one that is not the joint asked for."""
    name = f"{tried.option.name}, joint {floor.style.entered_text(tried.option.joint, unit=True)}"
    return replace(tried, option=replace(tried.option, name=name))
