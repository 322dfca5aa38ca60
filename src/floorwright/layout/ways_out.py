"""Ways out where a cut does not fit, or tapers for all to see: open the joints, turn the pattern, share the taper
between two walls, let the gap be wider, or move the pattern.

Two kinds of trouble are looked at: a position that a setter would try and that some wall will not have, and a wall in
view along which the cut of the recommended option tapers. Each way out is an option like any other, scored by the same
rules, and can be chosen by its name where the job allows it. None of them is recommended of itself: what the person
asked for, a joint, a direction and a gap, is theirs to change.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from floorwright.layout.axis import Face, axes_of
from floorwright.layout.option import Option
from floorwright.layout.options import best_of, breaks_limit, by_hand, lines_of
from floorwright.layout.score import Floor
from floorwright.layout.stuck import of_stuck, stuck
from floorwright.layout.turning import skew, turned
from floorwright.layout.way_out import CLOSE, JOINTS, SHARE, TURN, Trouble, WayOut
from floorwright.layout.wider import Offer
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import PARALLEL, RANK_STEP


def ways_out(
    floor: Floor,
    make_cell: Callable[[float], UnitCell],
    angle: float,
    *,
    joint: float,
    ranked: Sequence[Option],
    offers: Sequence[Offer],
) -> tuple[Trouble, ...]:
    """Returns every wall that is in the way of a position, or along which the recommended one tapers, with ways out.

    Args:
        floor, make_cell: as everywhere.
        angle: of the pattern as asked for, radians.
        joint: mm, as asked for.
        ranked: the options, best first.
        offers: wider joints at which positions fit.
    """
    cell = make_cell(joint)
    named = {option.name: option for option in ranked}
    found = [of_stuck(case, named, offers, joint) for case in stuck(floor, cell, angle)]
    best = ranked[0]
    if not best.refused:
        found += _of_tapers(floor, make_cell(best.joint), best)
    return tuple(replace(trouble, ways=_best_first(floor, trouble.ways)) for trouble in found)


def allowed_ways(troubles: Sequence[Trouble]) -> dict[str, Option]:
    """Returns the ways out that the job allows as it is, by the name that each is chosen by."""
    return {way.option.name: way.option for trouble in troubles for way in trouble.ways if not way.needs}


def with_chosen(options: tuple[Option, ...], chosen: Option) -> tuple[Option, ...]:
    """Returns the ranked options with a way out that was chosen, after those that can be laid."""
    laid = [option for option in options if not option.refused]
    return (*laid, chosen, *(option for option in options if option.refused))


def _best_first(floor: Floor, ways: Sequence[WayOut]) -> tuple[WayOut, ...]:
    """Returns the ways out that can be laid: those that keep the limit first, then those with the wider worst piece.

    What prints as a change of nothing is none; of two that print as the same change the better is told.
    """

    def order(way: WayOut) -> tuple[bool, bool, int, str]:
        option = way.option
        return (
            breaks_limit(option, floor.limit),
            option.fragile,
            -round(option.worst / RANK_STEP),
            option.name,
        )

    told: dict[tuple[str, int, bool, str], WayOut] = {}
    for way in sorted((way for way in ways if not way.option.refused), key=order):
        how = TURN if way.how == SHARE else way.how
        steps = floor.style.steps(way.by) if way.how not in (JOINTS, CLOSE) else round(way.by / RANK_STEP)
        if steps:
            told.setdefault((how, steps, way.turn > 0, way.needs), way)
    return tuple(told.values())


def _of_tapers(floor: Floor, cell: UnitCell, best: Option) -> Iterator[Trouble]:
    """Yields the walls in view along which the recommended option's cut tapers, with the turns that mend it."""
    hidden = {side.name for side in floor.sides if side.hidden}
    cuts = {cut.wall: cut for cut in best.walls}
    style, angle = floor.style, best.placement.angle
    shared: set[frozenset[str]] = set()
    for line in lines_of(floor, cell, angle):
        for face in line.faces:
            cut = cuts.get(face.name)
            if cut is None or face.name in hidden or abs(style.steps(cut.start) - style.steps(cut.end)) <= 1:
                continue
            low, high = style.text(cut.thin, feet=False), style.text(cut.fat, feet=False)
            turns = [(TURN, skew(floor, line, face), f"true to {face.name}")]
            across = [other for other in line.faces if other.sign != face.sign]
            if across:
                other = max(across, key=lambda one: (round(one.length), one.near))
                mean = (skew(floor, line, face) + skew(floor, line, other)) / 2
                pair = frozenset({face.name, other.name})
                turns += [(SHARE, mean, f"{face.name} and {other.name} share it")] if pair not in shared else []
                shared.add(pair)
            ways = [
                way
                for how, turn, note in turns
                if abs(turn) > PARALLEL and (way := _best_turned(floor, cell, angle + turn, turn, how, face, note))
            ]
            yield Trouble(
                wall=face.name,
                position="",
                found=f"the cut at {face.name} runs from {low} to {high}",
                ways=tuple(ways),
            )


def _best_turned(
    floor: Floor, cell: UnitCell, angle: float, turn: float, how: str, face: Face, note: str
) -> WayOut | None:
    """Returns the best position by hand with the pattern turned; None where none can be laid."""
    if not axes_of(cell, angle):
        return None
    best = best_of(floor, lambda _joint: cell, by_hand(floor, cell, angle))
    return turned(floor, cell, best[0], how, turn, face, "", note) if best else None
