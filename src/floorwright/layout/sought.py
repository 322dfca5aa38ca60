"""A person's aims searched for one after another, over every position, each under what the aims before it reached.

An aim that holds along an axis (a joint on a line, a full tile at a wall) rules out strips of places; a width rules out
places by the edges; a number is searched for, and is a limit from then on.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from floorwright.geometry.region import Points
from floorwright.layout.aims import (
    FEWEST_CUTS,
    FEWEST_SMALL,
    FEWEST_TILES,
    NO_PIECE_UNDER,
    NO_THIN_TRIM,
    PLACED,
    WIDEST,
    Aim,
)
from floorwright.layout.bands import ruled_out
from floorwright.layout.clip import cut_pieces
from floorwright.layout.contact import contacts, partings, small, touches, without_strips
from floorwright.layout.fewest import Fewest, fewest
from floorwright.layout.flat import Ints
from floorwright.layout.ground import Ground, ground_of
from floorwright.layout.measure import measure
from floorwright.layout.option import Proof
from floorwright.layout.reach import counted
from floorwright.layout.score import Floor, least_sawn, smallest_side
from floorwright.layout.shapes import Shapes, together
from floorwright.layout.trial import Count, Task, Width
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import PROOF, RANK_STEP

ALONG_AXES = PLACED | {NO_THIN_TRIM}

LEVELS = 14
"""How often the span of a width is halved: of a tile a metre wide a tenth of a millimetre is left."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stage:
    """What was found for one aim.

    Attributes:
        name: of the option.
        placement: None where no position keeps to the aims before it.
        proof: see there.
    """

    name: str
    placement: Placement | None
    proof: Proof


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Search:
    """The positions of one pattern, and the limits that are kept so far.

    Attributes:
        floor, ground: see there.
        barred: the places that are ruled out.
        widths, counts: the limits.
        starts: positions to have tried first.
        report: told the share of what is done.
    """

    floor: Floor
    ground: Ground
    barred: tuple[Shapes, ...]
    widths: tuple[Width, ...]
    counts: tuple[Count, ...]
    starts: tuple[Placement, ...]
    report: Callable[[float], None] | None

    def under(self, width: Width) -> "Search":
        """Returns the search with a width kept as well."""
        shapes = small(self.ground, width.least, width.counts)
        return replace(self, barred=(*self.barred, shapes), widths=(*self.widths, width))

    def any_position(self) -> Fewest:
        """Returns a position that keeps to the limits."""
        return self._fewest(self._task(self.counts, any_will_do=True))

    def fewest(self, count: Count) -> Fewest:
        """Returns the position with the fewest that keeps to the limits."""
        return self._fewest(self._task((count, *self.counts), any_will_do=False))

    def _fewest(self, task: Task) -> Fewest:
        # A position tried first is held to widths and counts as it is tried, but not to the strips that are ruled out.
        every = np.arange(len(task.barred))
        starts = [one for one in self.starts if not _is_within(task.barred, every, self.ground.place_of(one))]
        return fewest(task, starts, progress=self.report)

    def _task(self, counts: tuple[Count, ...], *, any_will_do: bool) -> Task:
        return Task(
            ground=self.ground,
            region=self.floor.region,
            barred=together(list(self.barred)),
            widths=self.widths,
            counts=counts,
            any_will_do=any_will_do,
        )


def _is_within(shapes: Shapes, which: Ints, place: Points) -> bool:
    """Returns whether a place lies inside one of some polygons."""
    return bool(shapes.against(which, place[None])[0].any())


def begin(
    floor: Floor,
    cell: UnitCell,
    angle: float,
    starts: Sequence[Placement],
    report: Callable[[float], None] | None = None,
) -> Search:
    """Returns the search over all positions that can be laid."""
    ground = ground_of(floor.region, cell, angle, floor.centre, floor.spare)
    bare = Search(
        floor=floor,
        ground=ground,
        barred=(without_strips(ground),),
        widths=(),
        counts=(),
        starts=tuple(starts),
        report=report,
    )
    return bare.under(Width(least=least_sawn(cell)))


def seek(search: Search) -> list[Stage]:
    """Returns what is found for each of a person's aims that positions are searched for, in order."""
    stages: list[Stage] = []
    for number, aim in enumerate(search.floor.aims):
        if not aim.own:
            continue
        if aim.name in ALONG_AXES:
            shapes = ruled_out(search.floor, search.ground, aim)
            if shapes is None:
                continue
            held = replace(search, barred=(*search.barred, shapes))
            found = held.any_position()
            stages.append(_stage(search, number, aim, found, best=0.0, bound=0.0, tolerance=0.0))
            # Where no position does it, the aims after it are searched for without it.
            search = search if found.placement is None else held
            if found.stopped:
                break
            continue
        if aim.name in {NO_PIECE_UNDER, WIDEST}:
            search, stage = _wide(search, number, aim)
        elif aim.name in {FEWEST_CUTS, FEWEST_TILES, FEWEST_SMALL}:
            search, stage = _few(search, number, aim)
        else:
            continue
        stages.append(stage)
        if stage.proof.stopped or stage.placement is None:
            break
    return stages


def _few(search: Search, number: int, aim: Aim) -> tuple[Search, Stage]:
    count = count_of(search, aim)
    found = search.fewest(count)
    most = max(found.value + aim.within, float(aim.at_most or 0))
    stage = _stage(search, number, aim, found, best=found.value, bound=found.bound, tolerance=0.0)
    return replace(search, counts=(*search.counts, replace(count, most=most))), stage


def count_of(search: Search, aim: Aim) -> Count:
    """Returns what is counted for an aim."""
    if aim.name == FEWEST_CUTS:
        return Count(name=aim.name, shapes=contacts(search.ground), partings=partings(search.ground))
    if aim.name == FEWEST_TILES:
        return Count(name=aim.name, shapes=touches(search.ground, search.floor.region))
    width = Width(least=aim.limit - RANK_STEP, counts=counted(search.floor, aim))
    return Count(name=aim.name, shapes=small(search.ground, width.least, width.counts), width=width)


def _wide(search: Search, number: int, aim: Aim) -> tuple[Search, Stage]:
    """Returns the search with the width kept that was found, and what was found: a limit if it can be, else the most.

    Of a limit that can be kept no more is asked than that.
    """
    counts = counted(search.floor, aim)
    if aim.name == NO_PIECE_UNDER:
        held = search.under(Width(least=aim.limit - RANK_STEP, counts=counts))
        found = held.any_position()
        if found.placement is not None:
            return held, _stage(search, number, aim, found, best=aim.limit, bound=aim.limit, tolerance=0.0)
    found, best, bound = _widest(search, counts)
    stage = _stage(search, number, aim, found, best=best, bound=bound, tolerance=PROOF)
    return search.under(Width(least=max(0.0, best - aim.within - RANK_STEP), counts=counts)), stage


def _widest(search: Search, counts: np.ndarray | None) -> tuple[Fewest, float, float]:
    """Returns the position with the widest narrowest piece, that width, and one over which there is none, mm."""
    best = Fewest(placement=None, value=0.0, bound=0.0, parts=0)
    low, high = 0.0, search.ground.most
    for _ in range(LEVELS):
        level = low + PROOF / 2 if best.placement is None else (low + high) / 2
        found = search.under(Width(least=level, counts=counts)).any_position()
        if found.placement is not None:
            best, low = found, max(level, narrowest_at(search, found.placement, counts))
        elif found.why:
            return replace(best, why=found.why, stopped=found.stopped), low, high
        else:
            high = level
        if high - low <= PROOF or best.placement is None:
            break
    return best, low, high


def narrowest_at(search: Search, placement: Placement, counts: np.ndarray | None) -> float:
    """Returns the narrowest piece of a position that counts, mm; a full tile's side where none does."""
    cell = search.ground.cell
    narrowest = measure(cut_pieces(search.floor.region, cell, placement), counts).narrowest
    return float(narrowest.min(initial=smallest_side(cell)))


def _stage(
    search: Search, number: int, aim: Aim, found: Fewest, *, best: float, bound: float, tolerance: float
) -> Stage:
    at = f" at {' and '.join(aim.walls)}" if aim.walls else " at visible walls" if aim.visible else ""
    on = f" {aim.on}" if aim.on else ""
    under = f" {search.floor.style.text(aim.limit, unit=True, feet=False)}" if aim.name == NO_PIECE_UNDER else ""
    return Stage(
        name=f"{aim.name}{under}{at}{on}, aim {number + 1}",
        placement=found.placement,
        proof=Proof(
            status="best found" if found.why else "proved",
            aim=aim.name,
            best=best,
            bound=bound,
            tolerance=tolerance,
            joint=search.ground.cell.joint,
            why=found.why,
            number=number,
            stopped=found.stopped,
            possible=found.placement is not None or bool(found.why),
        ),
    )
