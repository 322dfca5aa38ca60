"""The option that is laid: the recommended one, one that a border was made for, or the one that a person names."""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass

from floorwright.layout.at_angles import AtAngle
from floorwright.layout.option import Option
from floorwright.layout.options import Tried, distinct, ranked, weighed
from floorwright.layout.positions import UNALIGNED
from floorwright.layout.score import Floor
from floorwright.layout.way_out import Trouble
from floorwright.layout.ways_out import allowed_ways, ways_out, with_chosen
from floorwright.layout.wider import Offer
from floorwright.pattern.cell import UnitCell


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Choice:
    """What there is to choose from, and what is chosen.

    Attributes:
        options: all, best first.
        told: those that are told: of a range of angles each position at its best one alone.
        named: every name that can be asked for, with its option.
        offers: joints at which positions fit, at the angle of the best option.
        troubles: walls that are in the way there, or along which the best option tapers, with the ways out.
        recommended, chosen: among the options.
        decided: which aim left the best option alone; -1 for none.
        turned: radians, the angle of the best option.
    """

    options: tuple[Option, ...]
    told: tuple[Option, ...]
    named: Mapping[str, Option]
    offers: tuple[Offer, ...]
    troubles: tuple[Trouble, ...]
    recommended: Option
    chosen: Option
    decided: int
    turned: float


def choice_of(
    floor: Floor,
    make_cell: Callable[[float], UnitCell],
    tried: list[Tried],
    at_angles: Mapping[float, AtAngle],
    *,
    wanted: str,
    made_for: Collection[str],
    is_range: bool,
) -> Choice:
    """Returns the options ranked, and the one that is laid.

    Args:
        floor, make_cell: as everywhere.
        tried: positions, scored.
        at_angles: what was tried and is offered at each angle.
        wanted: the name that a person asks for, or empty.
        made_for: names of the positions that the border around it was made for: the best of them is recommended.
        is_range: whether the angles stand for a range.
    """
    order = ranked(floor, make_cell, distinct(floor, make_cell, tried))
    options = tuple(one.option for one in order.best_first)
    named = {name: one.option for one in order.best_first for name in (one.option.name, *one.others)}
    # What is offered beside the options is so at the angle of the best of them.
    turned = options[0].placement.angle
    offers = at_angles[turned].offers
    troubles = ways_out(floor, make_cell, turned, joint=floor.joint, ranked=options, offers=offers)
    named = allowed_ways(troubles) | named
    fitting = (one.option for one in order.best_first if {one.option.name, *one.others} & set(made_for))
    recommended = next(fitting, options[0])
    chosen = named.get(wanted, recommended)
    best = options[0]
    if chosen not in options:
        chosen = weighed(floor, make_cell(chosen.joint), chosen, UNALIGNED)
        options = with_chosen(options, chosen)
    return Choice(
        options=options,
        told=_each_at_its_best(options, chosen) if is_range else options,
        named=named,
        offers=tuple(offers),
        troubles=troubles,
        recommended=recommended,
        chosen=chosen,
        decided=order.decided if chosen is best else -1,
        turned=turned,
    )


def _each_at_its_best(options: tuple[Option, ...], chosen: Option) -> tuple[Option, ...]:
    """Returns of the same position at many angles of a range the best alone, and the chosen one; all keep their names.

    Args:
        options: best first, those that cannot be laid last.
        chosen: kept in any case.
    """
    kept: dict[str, Option] = {}
    for option in options:
        kept.setdefault(option.name.rsplit(", at ", 1)[0], option)
    return tuple(option for option in options if option is chosen or option in kept.values())
