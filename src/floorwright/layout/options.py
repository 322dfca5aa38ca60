"""Which positions are tried, and in what order they are recommended.

What can be laid comes before what cannot; then the aims decide, in their order (`layout.aims`), and last the name, so
that the order never hangs on chance. Where a person gives no list of aims:

1. no piece and no thin end under the limit before any; where there is one, the wider worst piece first, a fragile one
   as wide as a hand that is a little out leaves it;
2. what a hand a little out does not spoil;
3. the joint as asked before one that is opened, and that by as little as may be;
4. a joint or a tile on the control lines, before balanced cuts, before a full tile at a wall, before a position that is
   only a figure: it is easier to set out and to see;
5. fewer cut pieces;
6. the wider worst piece.

Walls that are hidden count like any other unless an aim is of the visible ones only.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from floorwright.geometry.region import Points
from floorwright.layout.aims import FIRM, LINED_UP, NO_PIECE_UNDER, Aim, loss
from floorwright.layout.axis import ACROSS, ALONG_FLOOR, Axis, Face, axes_of, wall_faces
from floorwright.layout.clip import turn
from floorwright.layout.flat import Floats
from floorwright.layout.floor_lines import lines_up
from floorwright.layout.option import Option
from floorwright.layout.positions import (
    BALANCED,
    FULL_AT,
    JOINT_ON_CENTRE,
    TILE_ON_CENTRE,
    Placed,
    Position,
    place,
    positions_of,
)
from floorwright.layout.reach import figures
from floorwright.layout.rooms import room_centres
from floorwright.layout.score import Floor, is_fragile, is_spoilt, least_sawn, score, shake
from floorwright.layout.weigh import in_order, left_by
from floorwright.pattern.cell import Anchor, Placement, UnitCell
from floorwright.tolerance import COINCIDENT, RANK_STEP, TOUCH, TURN_STEP


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """An option with what ranks it beside its figures.

    Attributes:
        option: as scored.
        rank: how readily it is set out, 0 best; see the order above.
        others: further names of the same position.
    """

    option: Option
    rank: int
    others: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Line:
    """One axis of the pattern with the walls square to it.

    Attributes:
        axis, faces: see there.
        centre: of the control lines, mm along the axis.
        centres: of each of several rooms that run through, by its name.
    """

    axis: Axis
    faces: tuple[Face, ...]
    centre: float
    centres: tuple[tuple[str, float], ...] = ()


def lines_of(floor: Floor, cell: UnitCell, angle: float) -> tuple[Line, ...]:
    """Returns the axes of the pattern, each with its walls; nothing for a pattern that has none."""
    return tuple(
        Line(
            axis=axis,
            faces=wall_faces(floor.sides, axis),
            centre=float(np.array(floor.centre) @ axis.direction),
            centres=room_centres(floor.rooms, axis),
        )
        for axis in axes_of(cell, angle)
    )


def placed_at(floor: Floor, cell: UnitCell, angle: float, lines: tuple[Line, ...], lows: Iterable[float]) -> Placement:
    """Returns the placement with a tile beginning at each of these places, its origin within a repeat of the centre."""
    origin = np.zeros(2)
    for line, low in zip(lines, lows, strict=True):
        origin += (low - line.axis.joint / 2) * line.axis.direction
    return settled(floor, cell, Placement(origin=(float(origin[0]), float(origin[1])), angle=angle))


def settled(floor: Floor, cell: UnitCell, placement: Placement) -> Placement:
    """Returns the same pattern on the same floor, counted from the crossing nearest to the centre."""
    shift = _shift(floor, cell, placement)
    shift -= np.floor(shift + 0.5 - COINCIDENT)
    x, y = turn(placement.angle) @ (shift @ cell.repeat) + floor.centre
    return Placement(origin=(float(x), float(y)), angle=placement.angle)


def _shift(floor: Floor, cell: UnitCell, placement: Placement) -> Points:
    away = (np.array(placement.origin) - floor.centre) @ turn(placement.angle)
    return np.asarray(away @ np.linalg.inv(cell.repeat))


def by_hand(floor: Floor, cell: UnitCell, angle: float) -> list[Tried]:
    """Returns the positions that a setter would try, scored: on the centre, full at each wall, balanced."""
    lines = lines_of(floor, cell, angle)
    if not lines:
        return _on_centre(floor, cell, angle)
    placed = [ways_of(floor, line) for line in lines]
    best = [best_way(floor, cell, ways) for ways in placed]
    pairs: list[tuple[Placed, Placed]] = [
        (across, along)
        for across in placed[0]
        for along in placed[1]
        if {across.position.name, along.position.name} <= CENTRED
    ]
    pairs += [(way, best[1]) for way in placed[0] if way.position.name not in CENTRED]
    pairs += [(best[0], way) for way in placed[1] if way.position.name not in CENTRED]
    pairs += [
        (across, along)
        for across in placed[0]
        for along in placed[1]
        if across.position.name == along.position.name == BALANCED
    ]
    return [paired(floor, cell, angle, lines, pair) for pair in pairs]


CENTRED = {JOINT_ON_CENTRE, TILE_ON_CENTRE}


def ways_of(floor: Floor, line: Line) -> list[Placed]:
    """Returns the positions to try on one axis, at its own joint."""
    return [
        place(position, line.faces, line.axis, line.centre, floor.spare)
        for position in positions_of(line.faces, line.centres)
    ]


def best_way(floor: Floor, cell: UnitCell, ways: list[Placed]) -> Placed:
    """Returns the best of the centred and balanced ways, by the order above as far as one axis tells."""
    ways = [way for way in ways if not way.position.name.startswith(FULL_AT)]
    least = thin_limit(floor, cell)

    def worth(way: Placed) -> tuple[bool, bool, int, float]:
        enough = way.thin >= least - TOUCH
        return way.fits, enough, -way.position.rank if enough else 0, round(way.thin / RANK_STEP)

    return max(ways, key=worth)


def thin_limit(floor: Floor, cell: UnitCell) -> float:
    """Returns the least thin end that is good enough, mm."""
    return floor.limit if floor.limit > 0 else least_sawn(cell)


def paired(floor: Floor, cell: UnitCell, angle: float, lines: tuple[Line, ...], pair: tuple[Placed, Placed]) -> Tried:
    """Returns a position on each axis made one of the floor, scored."""
    placement = placed_at(floor, cell, angle, lines, (way.low for way in pair))
    phrases = {line.axis.name: phrase(way.position, line.axis) for way, line in zip(pair, lines, strict=True)}
    name = f"{phrases[ACROSS]}, {phrases[ALONG_FLOOR]}"
    return Tried(option=score(floor, cell, placement, name), rank=sum(way.position.rank for way in pair))


def phrase(position: Position, axis: Axis) -> str:
    """Returns a position in trade words: `joint on centre across`, `full tile at S`."""
    return position.name if position.name.startswith(FULL_AT) else f"{position.name} {axis.name}"


def _on_centre(floor: Floor, cell: UnitCell, angle: float) -> list[Tried]:
    """Returns the positions of a pattern without rows: each of its anchors on the centre."""
    anchors = cell.anchors or (
        Anchor(name=JOINT_ON_CENTRE, at=np.zeros(2)),
        Anchor(name=TILE_ON_CENTRE, at=cell.pieces[0].mean(axis=0)),
    )
    tried = []
    for anchor in anchors:
        x, y = floor.centre - turn(angle) @ anchor.at
        placement = settled(floor, cell, Placement(origin=(float(x), float(y)), angle=angle))
        tried.append(Tried(option=score(floor, cell, placement, anchor.name), rank=0))
    return tried


def distinct(floor: Floor, make_cell: Callable[[float], UnitCell], tried: list[Tried]) -> list[Tried]:
    """Returns the options with those that are the same position made one, under the name that came first."""
    kept: dict[tuple[float, ...], Tried] = {}
    for one in tried:
        option = one.option
        cell = make_cell(option.joint)
        lengths = np.hypot(cell.repeat[:, 0], cell.repeat[:, 1])
        steps = np.round(lengths / RANK_STEP)
        place = np.round((_shift(floor, cell, option.placement) % 1.0) * steps) % steps
        turned = round(option.placement.angle / TURN_STEP)
        key = (round(option.joint / RANK_STEP), turned, *place.tolist())
        first = kept.setdefault(key, one)
        if first is not one:
            kept[key] = replace(first, others=(*first.others, option.name), rank=min(first.rank, one.rank))
    return list(kept.values())


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ranked:
    """Options in order.

    Attributes:
        best_first: those that can be laid, best first, then those that cannot.
        decided: which of the floor's aims left the first of them alone; -1 where all of them are equal.
    """

    best_first: tuple[Tried, ...]
    decided: int


def ranked(floor: Floor, make_cell: Callable[[float], UnitCell], tried: list[Tried]) -> Ranked:
    """Returns the options best first, each that can be laid shaken by the setting-out error and weighed."""
    named = [_weighed(floor, make_cell, _shaken(floor, make_cell, one)) for one in _by_name(tried)]
    within = [aim.within for aim in floor.aims]
    best_first: list[Tried] = []
    decided = -1
    for refused in (False, True):
        alike = [one for one in named if bool(one.option.refused) is refused]
        order = in_order(_losses(floor, alike), within)
        if alike and not best_first:
            decided = int(order.decided[0])
        best_first += [alike[n] for n in order.best_first]
    return Ranked(best_first=tuple(best_first), decided=decided)


def best_of(floor: Floor, make_cell: Callable[[float], UnitCell], tried: list[Tried]) -> list[Tried]:
    """Returns the one of some options at one joint that ranks first, none where none can be laid.

    No more of them are shaken than it takes.
    """
    laid = [_weighed(floor, make_cell, one) for one in _by_name(tried) if not one.option.refused]
    if not laid:
        return []
    within = [aim.within for aim in floor.aims]
    firm = next(n for n, aim in enumerate(floor.aims) if aim.name == FIRM)
    # Unshaken all of them are firm: what the aims before that one leave, in the order of those after it.
    kept = [laid[n] for n in left_by(_losses(floor, laid)[:, :firm], within[:firm])]
    kept = [kept[n] for n in in_order(_losses(floor, kept)[:, firm + 1 :], within[firm + 1 :]).best_first]
    return [next((one for one in kept if not is_spoilt(floor, make_cell(one.option.joint), one.option)), kept[0])]


def _by_name(tried: list[Tried]) -> list[Tried]:
    """So that what is equal in every aim never hangs on chance."""
    return sorted(tried, key=lambda one: one.option.name)


def _losses(floor: Floor, tried: list[Tried]) -> Floats:
    table = [_losses_of(floor.aims, one.option) for one in tried]
    return np.array(table, dtype=np.float64).reshape(len(tried), len(floor.aims))


def _losses_of(aims: Sequence[Aim], option: Option) -> list[float]:
    return [loss(aim, _weight(aim, figure, option)) for aim, figure in zip(aims, option.figures, strict=True)]


def _weight(aim: Aim, figure: float | None, option: Option) -> float | None:
    """Returns the figure that an option is weighed by.

    Of a limit that is broken anyway a fragile worst piece is worth what a hand a little out makes of it. A person's own
    limit is searched for, and what is proved of it is of the pieces as they are meant.
    """
    broken = aim.name == NO_PIECE_UNDER and not aim.own and figure is not None and loss(aim, figure) > 0
    return min(figure, option.shaken) if broken and option.fragile and figure is not None else figure


def weighed(floor: Floor, cell: UnitCell, option: Option, rank: int) -> Option:
    """Returns an option with what it makes of each aim, and with what lines up with what."""
    axes = axes_of(cell, option.placement.angle)
    up = lines_up(floor.lines, axes, np.array(option.placement.origin), option.walls)
    return replace(option, figures=figures(floor, cell, option, rank), lines_up=up)


def _weighed(floor: Floor, make_cell: Callable[[float], UnitCell], one: Tried) -> Tried:
    return replace(one, option=weighed(floor, make_cell(one.option.joint), one.option, one.rank))


def order_of(aims: Sequence[Aim], options: Sequence[Option]) -> list[int]:
    """Returns the numbers of weighed options of different first lines, best first, those that cannot be laid last.

    Equals stay as they are given. That a joint lies on a line of the cross tells nothing between one cross and another,
    so only a person's own wish for it counts.
    """
    told = [n for n, aim in enumerate(aims) if aim.own or aim.name != LINED_UP]
    within = [aims[n].within for n in told]
    losses = np.array([_losses_of(aims, option) for option in options], dtype=np.float64)
    losses = losses.reshape(len(options), len(aims))[:, told]
    order: list[int] = []
    for refused in (False, True):
        alike = [n for n, option in enumerate(options) if bool(option.refused) is refused]
        order += [alike[n] for n in in_order(losses[alike], within).best_first]
    return order


def _shaken(floor: Floor, make_cell: Callable[[float], UnitCell], one: Tried) -> Tried:
    option = one.option
    if option.refused:
        return one
    least = shake(floor, make_cell(option.joint), option.placement)
    return replace(one, option=replace(option, shaken=least, fragile=is_fragile(option, least, floor.limit)))


def breaks_limit(option: Option, limit: float) -> bool:
    """Returns whether a piece, or the thin end of a cut along a wall, is under the limit."""
    return option.under > 0 or option.worst_thin < limit - RANK_STEP
