"""Positions that some wall will not have, and what makes them fit: wider joints, a turn, a wider gap, or a move."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from floorwright.layout.axis import Face, most_left, thin_end
from floorwright.layout.flat import Floats
from floorwright.layout.option import Option
from floorwright.layout.options import Line, best_way, lines_of, paired, phrase, thin_limit, ways_of
from floorwright.layout.positions import Placed, Position, ends, place, positions_of
from floorwright.layout.score import Floor, least_sawn
from floorwright.layout.turning import shaken, skew, turned
from floorwright.layout.walls import strip_at
from floorwright.layout.way_out import CLOSE, GAP, JOINTS, MOVE, TURN, Trouble, WayOut
from floorwright.layout.wider import Offer
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import COINCIDENT, PARALLEL, RANK_STEP, TOUCH

TURNS = 48
"""Turns tried each way before the least that fits is closed in on."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Case:
    """A position on one axis that does not fit.

    Attributes:
        floor, cell, angle: as everywhere.
        row: which axis.
        line: that axis with its walls.
        placed: the position.
        wall: the wall that will not have it.
    """

    floor: Floor
    cell: UnitCell
    angle: float
    row: int
    line: Line
    placed: Placed
    wall: str

    @property
    def position(self) -> str:
        """What the position is called."""
        return phrase(self.placed.position, self.line.axis)


def stuck(floor: Floor, cell: UnitCell, angle: float) -> Iterator[Case]:
    """Yields the positions that some wall will not have, each with the wall where most is over."""
    lines = lines_of(floor, cell, angle)
    for row, line in enumerate(lines):
        for placed in ways_of(floor, line):
            if placed.fits:
                continue
            over = [(_excess(floor, line, face, placed.low), face.name) for face in line.faces]
            wall = max(over, key=lambda found: round(found[0] / RANK_STEP))[1]
            yield Case(floor=floor, cell=cell, angle=angle, row=row, line=line, placed=placed, wall=wall)


def _excess(floor: Floor, line: Line, face: Face, low: float) -> float:
    """Returns by how much the fat end at a face is over what may be left there, mm; under 0 where it fits."""
    fat = float(thin_end(face, low, line.axis.size, line.axis.pitch)) + face.rise
    return fat - float(most_left(line.axis.size, line.axis.joint, face.spare(floor.spare)))


def of_stuck(case: Case, named: Mapping[str, Option], offers: Sequence[Offer], joint: float) -> Trouble:
    """Returns what is in the way of a position, with all that makes it fit and all that was tried and does not."""
    ways = [*_by_joints(case, named, offers, joint)]
    none = []
    tried = {GAP: _by_gap(case), MOVE: _by_moving(case)}
    if _most_skew(case) > PARALLEL:
        tried = {TURN: _by_turning(case), **tried}
    moved = tried[MOVE] is not None and not tried[MOVE].option.refused
    for how, found in tried.items():
        if found is None or found.option.refused:
            none += [] if how == GAP and moved else [how]
        else:
            ways.append(found)
    return Trouble(wall=case.wall, position=case.position, found=_needs(case), ways=tuple(ways), none=tuple(none))


def _needs(case: Case) -> str:
    """What the wall needs, and what a tile is."""
    style, axis = case.floor.style, case.line.axis
    face = next(face for face in case.line.faces if face.name == case.wall)
    thin = float(thin_end(face, case.placed.low, axis.size, axis.pitch))
    low, high = style.text(thin, feet=False), style.text(thin + face.rise, feet=False)
    needs = high if low == high else f"{low} to {high}"
    return f"{case.position} needs {needs} at {case.wall}, a tile is {style.entered_text(axis.size)}"


def _by_joints(case: Case, named: Mapping[str, Option], offers: Sequence[Offer], joint: float) -> Iterator[WayOut]:
    """Yields the joint that is offered for the position, where there is one."""
    for offer in offers:
        if offer.joint is None or case.position not in (offer.position, *offer.position.split(", ")):
            continue
        option = named.get(offer.option)
        if option is not None:
            yield WayOut(
                how=JOINTS if offer.joint > joint else CLOSE,
                wall=case.wall,
                position=case.position,
                by=abs(offer.joint - joint),
                option=option,
                note=f"{offer.least:.3f} mm is the least" if offer.least is not None else "",
            )


def _most_skew(case: Case) -> float:
    """Returns how far the most crooked wall is out of true with the pattern, radians."""
    lines = lines_of(case.floor, case.cell, case.angle)
    return max(abs(skew(case.floor, line, face)) for line in lines for face in line.faces)


def _by_turning(case: Case) -> WayOut | None:
    """Returns the least turn found, up to the one that is true to the most crooked wall, at which the position fits."""
    floor, cell = case.floor, case.cell
    most = _most_skew(case)
    found = [turn for side in (1.0, -1.0) if (turn := _least_turn(case, side * most)) is not None]
    if not found:
        return None
    turn = min(found, key=lambda one: (round(abs(one) / PARALLEL), one))
    lines = lines_of(floor, cell, case.angle + turn)
    line = lines[case.row]
    position = _same(case.placed.position, line)
    assert position is not None, "it fits at that turn"
    way = place(position, line.faces, line.axis, line.centre, floor.spare)
    other = best_way(floor, cell, ways_of(floor, lines[1 - case.row]))
    tried = paired(floor, cell, case.angle + turn, lines, (way, other) if case.row == 0 else (other, way))
    face = next(face for face in line.faces if face.name == case.wall)
    return turned(floor, cell, tried, TURN, turn, face, case.position)


def _least_turn(case: Case, most: float) -> float | None:
    """Returns the least turn from 0 to `most`, either sign, at which the position fits; None where none is found."""
    tried = np.linspace(0.0, most, TURNS + 1)
    first = next((n for n, turn in enumerate(tried) if _fits_turned(case, float(turn))), None)
    if first is None or first == 0:
        return None
    low, high = float(tried[first - 1]), float(tried[first])
    while abs(high - low) > PARALLEL:
        middle = (low + high) / 2
        low, high = (low, middle) if _fits_turned(case, middle) else (middle, high)
    return high


def _fits_turned(case: Case, turn: float) -> bool:
    floor = case.floor
    line = lines_of(floor, case.cell, case.angle + turn)[case.row]
    position = _same(case.placed.position, line)
    if position is None or all(face.name != case.wall for face in line.faces):
        return False
    way = place(position, line.faces, line.axis, line.centre, floor.spare)
    return way.fits and way.thin >= least_sawn(case.cell) - TOUCH


def _same(position: Position, line: Line) -> Position | None:
    """Returns the position of that name among those of another line; None where its wall no longer runs along."""
    return next((other for other in positions_of(line.faces, line.centres) if other.name == position.name), None)


def _by_gap(case: Case) -> WayOut | None:
    """Returns the least gap at which the row is laid full to the walls, the pattern moved to share it out.

    A gap may take over a joint and no more, or the next row would begin.
    """
    floor, axis = case.floor, case.line.axis
    moves = _breaks(case, axis.size)
    widest = np.zeros(len(moves))
    fits = np.abs(moves) <= axis.joint + COINCIDENT
    for face in case.line.faces:
        left = np.asarray(thin_end(face, case.placed.low + moves, axis.size, axis.pitch))
        over = left + face.rise - axis.size
        fits &= over <= face.spare(axis.joint) + TOUCH
        widest = np.maximum(widest, over)
    if not fits.any():
        return None
    moves, widest = moves[fits], widest[fits]
    if widest.min() <= TOUCH:
        # The least gap will do: only the pattern has to move.
        return None
    best = np.lexsort((moves, np.round(np.abs(moves) / RANK_STEP), np.round(widest / RANK_STEP)))[0]
    wider, move = float(widest[best]), float(moves[best])
    most = _up_to_graduation(floor, floor.gap[0] + wider)
    opened = replace(floor, gap=(floor.gap[0], most))
    text = floor.style.text(most, unit=True, feet=False)
    option = _moved(case, opened, move, f"gap up to {text}")
    return WayOut(
        how=GAP,
        wall=case.wall,
        position=case.position,
        by=most - floor.gap[0],
        needs="" if most <= floor.gap[1] + TOUCH else f"a gap of up to {text}",
        note=_gap_note(case),
        option=option,
    )


def _up_to_graduation(floor: Floor, mm: float) -> float:
    """Returns a length on the job's graduation that is no less."""
    steps = floor.style.steps(mm)
    return floor.style.mm(steps if floor.style.mm(steps) >= mm - COINCIDENT else steps + 1)


def _gap_note(case: Case) -> str:
    """What the gap at the one wall must be if the other is to keep to the end of a joint, or to its own gap."""
    floor, axis = case.floor, case.line.axis
    strip = None
    for face in case.line.faces:
        if face.name == case.wall and not face.is_joint:
            origin = (case.placed.low - axis.joint / 2) * axis.direction
            strip = strip_at(face, axis, axis, origin, floor.spare)
    others = [
        face.name
        for face in case.line.faces
        if face.name != case.wall
        and not face.is_joint
        and abs(float(thin_end(face, case.placed.low, axis.size, axis.pitch)) - axis.size) < TOUCH
    ]
    if strip is None or not strip.over or not others:
        return ""

    def text(mm: float) -> str:
        return floor.style.text(mm, feet=False)

    gap = floor.gap[0]
    return (
        f"or {text(gap + strip.over)} at {others[0]} and {text(gap + axis.joint)} at {case.wall}, "
        f"or {text(gap + strip.fat - strip.tile)} at {others[0]} alone"
    )


def _by_moving(case: Case) -> WayOut | None:
    """Returns the least move at which every wall fits and keeps the limit; where none does, the one with the widest
    thin end."""
    floor, axis = case.floor, case.line.axis
    joint = np.array([axis.joint])
    for least in (thin_limit(floor, case.cell), None):
        moves = _breaks(case, least if least is not None else axis.size)
        tried = [ends(case.line.faces, axis, case.placed.low + move, joint, floor.spare) for move in moves]
        good = [
            (0 if least is not None else -round(float(thin[0]) / RANK_STEP), round(abs(move) / RANK_STEP), move)
            for move, (fits, thin) in zip(moves.tolist(), tried, strict=True)
            if fits[0] and thin[0] >= (least if least is not None else least_sawn(case.cell)) - TOUCH
        ]
        if good:
            move = min(good)[2]
            text = floor.style.text(abs(move), unit=True, feet=False)
            towards = _towards(case, move)
            option = _moved(case, floor, move, " ".join(filter(None, ("moved", text, towards))))
            return WayOut(how=MOVE, wall=case.wall, position=case.position, by=abs(move), option=option, note=towards)
    return None


def _towards(case: Case, move: float) -> str:
    """Returns which wall the pattern moves towards, of several the longest; empty where none stands there."""
    ahead = [face for face in case.line.faces if face.sign * move > 0]
    return f"towards {max(ahead, key=lambda face: round(face.length)).name}" if ahead else ""


def _breaks(case: Case, least: float) -> Floats:
    """Returns the moves of the pattern, mm, at which what a wall leaves passes a bound or two walls leave the same."""
    floor, axis = case.floor, case.line.axis
    low, pitch = case.placed.low, axis.pitch
    left = {face: float(thin_end(face, low, axis.size, pitch)) for face in case.line.faces}
    moves = [0.0]
    for face, thin in left.items():
        most = float(most_left(axis.size, axis.joint, face.spare(floor.spare)))
        bounds = (least, axis.size - face.rise, most - face.rise)
        # A wall at the far side is left less the farther the pattern moves towards it, one at the near side more.
        moves += [face.sign * (thin - bound) for bound in bounds]
    for far in left:
        for near in left:
            if far.sign > 0 > near.sign:
                moves += [(left[far] - left[near]) / 2, (left[far] + far.rise - left[near] - near.rise) / 2]
    spread = np.array(moves)
    around = np.concatenate([spread, spread + pitch / 2])
    return np.asarray(np.mod(around + pitch / 2, pitch) - pitch / 2)


def _moved(case: Case, floor: Floor, move: float, how: str) -> Option:
    """Returns the position moved, with the best of the other axis, under a name that says so."""
    lines = lines_of(floor, case.cell, case.angle)
    way = replace(case.placed, low=case.placed.low + move)
    other = best_way(floor, case.cell, ways_of(floor, lines[1 - case.row]))
    tried = paired(floor, case.cell, case.angle, lines, (way, other) if case.row == 0 else (other, way))
    return shaken(floor, case.cell, replace(tried.option, name=f"{tried.option.name}, {how}"))
