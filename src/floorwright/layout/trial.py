"""What a search is for, and what one position makes of it."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from floorwright.geometry.region import Points, Region
from floorwright.layout.aims import FEWEST_CUTS, FEWEST_TILES
from floorwright.layout.clip import Clipped, clip, grouped, rings_of
from floorwright.layout.flat import Bools, Floats
from floorwright.layout.ground import Ground
from floorwright.layout.link import Rings
from floorwright.layout.measure import measure
from floorwright.layout.motion import HalfPlanes, narrow_moves, tiles_under
from floorwright.layout.shapes import Shapes
from floorwright.layout.walk import Edges

MOST_TILES = 4
"""Tiles with narrow pieces, at a position tried, that places are ruled out by."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Width:
    """No piece may be narrower than this.

    Attributes:
        least: mm.
        counts: which edges of the region count, None for all.
    """

    least: float
    counts: Bools | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Count:
    """A number that is to be the least, or at most so many.

    Attributes:
        name: `fewest cuts`, `fewest tiles` or `fewest small pieces`.
        shapes: of each tile that may be counted the places at which it surely is.
        partings: with `fewest cuts`, what may change how many pieces a tile is cut in (`contact.partings`).
        most: how many are allowed.
        width: with `fewest small pieces`, under what a piece is small.
    """

    name: str
    shapes: Shapes
    partings: Shapes | None = None
    most: float = np.inf
    width: Width | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Task:
    """What is searched for.

    Attributes:
        ground, region: of the search.
        barred: the places that are ruled out.
        widths: limits that every position is tried against; `barred` need not rule out all that break them.
        counts: the numbers; the first is to be the least, unless any position that keeps the limits will do.
        any_will_do: whether the first position that keeps to all limits ends the search.
    """

    ground: Ground
    region: Region
    barred: Shapes
    widths: tuple[Width, ...]
    counts: tuple[Count, ...]
    any_will_do: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Trial:
    """What a position makes of a task.

    Attributes:
        values: of each count.
        kept: whether every piece is as wide as the limits ask.
        edges, rings, pieces: of the room at that position, in the pattern's frame.
    """

    values: tuple[int, ...]
    kept: bool
    edges: Edges
    rings: Rings
    pieces: Clipped

    @property
    def parted(self) -> int:
        """How many pieces there are beyond the first of each tile cut."""
        return int((self.pieces.part > 1).sum())


def try_at(task: Task, place: Points) -> Trial:
    """Returns what a place makes of a task."""
    ground = task.ground
    edges = ground.edges_at(place)
    rings = rings_of(edges, ground.repeat)
    pieces = grouped(rings)
    return Trial(
        values=tuple(_value(task, count, pieces, place) for count in task.counts),
        kept=all((_narrowest(pieces, width) >= width.least).all() for width in task.widths),
        edges=edges,
        rings=rings,
        pieces=pieces,
    )


def _narrowest(pieces: Clipped, width: Width) -> Floats:
    return measure(pieces, width.counts).narrowest


def _value(task: Task, count: Count, pieces: Clipped, place: Points) -> int:
    if count.name == FEWEST_CUTS:
        return len(pieces.index)
    if count.name == FEWEST_TILES:
        whole = clip(task.region, task.ground.cell, task.ground.placement(place))
        return whole.runs.count + len(np.unique(whole.index, axis=0))
    assert count.width is not None, count.name
    return int((_narrowest(pieces, count.width) < count.width.least).sum())


def broken_moves(task: Task, tried: Trial) -> Iterator[HalfPlanes]:
    """Yields moves of the pattern, each of which leaves some piece under a limit that the position breaks."""
    for width in task.widths:
        narrowest = _narrowest(tried.pieces, width)
        under = tiles_under(narrowest, tried.pieces.index, tried.rings, width.least)
        for tile in under[:MOST_TILES].tolist():
            yield from _moves(task, tried, tile, width)


def small_moves(task: Task, tried: Trial, number: int) -> Iterator[HalfPlanes]:
    """Yields for each small piece the moves of the pattern that leave it so; of a tile that leaves several, for each.

    Args:
        task: see there.
        tried: a position.
        number: of the count.
    """
    width = task.counts[number].width
    assert width is not None, task.counts[number].name
    under = tiles_under(_narrowest(tried.pieces, width), tried.pieces.index, tried.rings, width.least)
    for tile in under.tolist():
        yield from _moves(task, tried, tile, width)


def _moves(task: Task, tried: Trial, tile: int, width: Width) -> list[HalfPlanes]:
    ground = task.ground
    if tried.rings.broken[tile]:
        return []
    piece = int(tried.rings.index[tile, 2])
    return narrow_moves(
        tried.rings,
        tile,
        tried.edges,
        ground.within.of(piece),
        tuple(part.outline for part in ground.parts if part.piece == piece),
        tried.rings.index[tile, :2] @ ground.cell.repeat,
        width.least,
        width.counts,
    )
