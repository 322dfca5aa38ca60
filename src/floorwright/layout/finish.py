"""The border width that lets the field finish on whole points (a diagonal field) or on whole tiles (a square one).

Convention: points are crossings of joint centres, and the centre of the joint between border and field runs through
them. On each axis of a rectangular field these lines come at even steps, so that the width of a border is an affine
function of how many steps lie between its two sides: `width = (length - steps x step) / 2 - joint / 2` with both sides
alike, less or more by what the pattern is moved off the middle. The two axes have nothing to do with each other, and
every width allowed is tried, so the answer is exact.

Each choice comes with the position of the field that goes with it. Where no one width does all round, the nearest
choices are named with their figures.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from floorwright.layout.axis import axes_of
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import COINCIDENT, PARALLEL, RANK_STEP

POINTS, TILES = "points", "whole tiles"

STEPS_UNDER, STEPS_OVER = 1, 2
"""How many spacer steps under and over the joint asked for are tried beside it. Our default."""

ALIKE: Final = 0.5
"""Widths nearer than this are one, mm: nobody lays the difference."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """What lies between two facing sides of a border on one axis.

    Attributes:
        walls: the one where the axis begins, and the one where it ends.
        low, high: mm along the axis, where a border of no width would begin at either.
        centres: (name, mm along the axis) of lines that the pattern may be centred on; the middle is not among them.
    """

    walls: tuple[str, str]
    low: float
    high: float
    centres: tuple[tuple[str, float], ...] = ()

    @property
    def middle(self) -> float:
        """Mm along the axis."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class OnAxis:
    """A way to finish on one axis.

    Attributes:
        widths: mm of the border, at the start and at the end of the axis.
        steps: how many steps lie between the two joints.
        at: mm along the axis, a line of points.
        centre: name of the line that it is centred on, empty for the middle.
        moved: mm by which that line is missed, with its sign.
    """

    widths: tuple[float, float]
    steps: int
    at: float
    centre: str = ""
    moved: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """A choice of widths with the position of the field that goes with it.

    Attributes:
        name: in trade words.
        widths: mm by wall.
        positions: floor mm in the frame of the axes, crossings of joints; more than one where it is left to the rest.
        finishes: whether the field finishes all round.
        miss: by wall, mm by which the border is wider (it cuts into the points) or narrower (it stops short of them).
        moved: mm by which an axis is moved, 0 for none.
        axis: mm along its axis, where it is moved to.
    """

    name: str
    widths: dict[str, float]
    positions: tuple[tuple[float, float], ...]
    finishes: bool
    miss: dict[str, float]
    moved: float = 0.0
    axis: float | None = None

    @property
    def equal(self) -> bool:
        """Whether the border is as wide on every side."""
        return max(self.widths.values()) - min(self.widths.values()) < ALIKE


@dataclass(frozen=True, slots=True, kw_only=True)
class Finishes:
    """What there is to choose from.

    Attributes:
        what: `points` or `whole tiles`.
        spacing: mm from one to the next along each axis; of points twice the step, for they lie staggered.
        step: mm on each axis.
        choices: the recommended one first; empty where no width allowed finishes on either axis.
        alike: per axis, the widths with both sides alike that finish, least first.
        apart: by joint tried, mm, how far the widths of the two axes stay apart at best, mm.
    """

    what: str
    spacing: tuple[float, float]
    step: tuple[float, float]
    choices: tuple[Finish, ...]
    alike: tuple[tuple[float, ...], tuple[float, ...]]
    apart: dict[float, float]


def steps_of(cell: UnitCell, angle: float) -> tuple[str, tuple[float, float]] | None:
    """Returns what a field may finish on and the step of it on each axis, mm; None where there is no such thing.

    A grid along the axes finishes on whole tiles, its pitch the step. A grid of square tiles at 45 degrees finishes on
    points, the step half their spacing, pitch / sqrt(2). All else has no line on which every course ends alike.

    Args:
        cell: the pattern.
        angle: radians from the axes to its rows.
    """
    axes = axes_of(cell, 0.0)
    if not axes or any(not axis.through for axis in axes):
        return None
    eighths = angle / (math.pi / 4)
    eighth = round(eighths)
    if abs(eighths - eighth) > PARALLEL * 1e3:
        return None
    along, across = axes[0].pitch, axes[1].pitch
    if eighth % 2 == 0:
        return TILES, (along, across) if eighth % 4 == 0 else (across, along)
    if abs(along - across) > COINCIDENT:
        return None
    step = along / math.sqrt(2)
    return POINTS, (step, step)


def finishes(
    *,
    spans: tuple[Span, Span],
    make_cell: Callable[[float], UnitCell],
    angle: float,
    joint: float,
    joint_step: float,
    joint_between: float,
    least: float,
    most: float,
    round_to: float,
) -> Finishes | None:
    """Returns the border widths that let the field finish, the nearest choices first; None where nothing can finish.

    Args:
        spans: of the two axes.
        make_cell: the field's pattern at a joint, mm.
        angle: radians from the axes to the field's rows.
        joint, joint_step: of the field, mm, and of spacers.
        joint_between: mm, between border and field.
        least, most: mm, the widths allowed.
        round_to: mm, what an equal border that finishes on nothing is rounded to.
    """
    found = steps_of(make_cell(joint), angle)
    if found is None:
        return None
    what, step = found
    ways = tuple(_with_both_alike(span, one, joint_between, least, most) for span, one in zip(spans, step, strict=True))
    apart = {}
    for number in range(-STEPS_UNDER, STEPS_OVER + 1):
        tried = joint + number * joint_step
        other = steps_of(make_cell(tried), angle) if tried >= 0 else None
        if other is None:
            continue
        # The joint around the field opens with its own, where it is the same.
        between = joint_between + (tried - joint if abs(joint_between - joint) < COINCIDENT else 0.0)
        each = [_with_both_alike(span, one, between, least, most) for span, one in zip(spans, other[1], strict=True)]
        if all(each):
            apart[tried] = min(abs(a.widths[0] - b.widths[0]) for a in each[0] for b in each[1])
    choices = tuple(_choices(spans, (ways[0], ways[1]), what, step, joint_between, least, most, round_to))
    alike = [tuple(sorted(way.widths[0] for way in one)) for one in ways]
    return Finishes(
        what=what,
        spacing=(2 * step[0], 2 * step[1]) if what == POINTS else step,
        step=step,
        choices=choices,
        alike=(alike[0], alike[1]),
        apart=apart,
    )


def _with_both_alike(span: Span, step: float, joint: float, least: float, most: float) -> list[OnAxis]:
    """Every way on one axis with the same width at both sides, widest last but one: most steps first."""
    length = span.high - span.low
    fewest, largest = ((length - 2 * width - joint) / step for width in (most, least))
    return [
        OnAxis(
            widths=((length - joint - steps * step) / 2,) * 2,
            steps=steps,
            at=span.middle + steps % 2 * step / 2,
        )
        for steps in range(math.floor(largest + COINCIDENT), max(0, math.ceil(fewest - COINCIDENT)) - 1, -1)
        if steps > 0
    ]


def _on_centre(
    span: Span, name: str, at: float, what: str, step: float, joint: float, least: float, most: float
) -> list[OnAxis]:
    """The ways on one axis with a point or a tile on a centre, the sides least unlike first."""
    found = []
    # Points are staggered: where a line of them lies on the centre, so does a tile.
    for half in (0.0,) if what == POINTS else (0.0, 0.5):
        lines = at + half * step
        low = _widths(lines - span.low, step, joint, least, most)
        high = _widths(span.high - lines, step, joint, least, most)
        found += [
            OnAxis(
                widths=(one, other),
                steps=round((span.high - span.low - one - other - joint) / step),
                at=lines,
                centre=name,
            )
            for one in low
            for other in high
        ]
    return sorted(found, key=lambda way: (round(abs(way.widths[0] - way.widths[1]) / RANK_STEP), way.widths))


def _widths(reach: float, step: float, joint: float, least: float, most: float) -> list[float]:
    """The widths allowed that leave whole steps of a reach, less half a joint."""
    first = math.ceil((reach - most - joint / 2) / step - COINCIDENT)
    last = math.floor((reach - least - joint / 2) / step + COINCIDENT)
    return [reach - joint / 2 - number * step for number in range(first, last + 1)]


def _choices(
    spans: tuple[Span, Span],
    ways: tuple[list[OnAxis], list[OnAxis]],
    what: str,
    step: tuple[float, float],
    joint: float,
    least: float,
    most: float,
    round_to: float,
) -> Sequence[Finish]:
    """The choices: finishing all round in the middle, equal all round, on another centre, that centre moved."""
    if not ways[0] or not ways[1]:
        return []
    best = min(
        ((a, b) for a in ways[0] for b in ways[1]),
        key=lambda pair: (
            round(abs(pair[0].widths[0] - pair[1].widths[0]) / RANK_STEP),
            pair[0].steps % 2,
            -pair[0].steps,
        ),
    )
    found = [_finish(f"{what} all round, centred in the room", spans, best, what, step)]
    if not found[0].equal:
        found += _equal(spans, best, what, step, least, most, round_to)
    for axis, span in enumerate(spans):
        for name, at in span.centres:
            if abs(at - span.middle) < ALIKE:
                continue
            on = _on_centre(span, name, at, what, step[axis], joint, least, most)
            if on:
                pair = (on[0], best[1]) if axis == 0 else (best[0], on[0])
                found.append(_finish(f"{what} on {name}", spans, pair, what, step))
            moved = _moved(ways[axis], at, step[axis] if what == POINTS else step[axis] / 2)
            pair = (moved, best[1]) if axis == 0 else (best[0], moved)
            named = f"{what} all round, {name} moved"
            made = _finish(named, spans, pair, what, step, moved=moved.moved, axis=at + moved.moved)
            if all(abs(made.widths[wall] - found[0].widths[wall]) > ALIKE for wall in span.walls):
                found.append(made)
    return found


def _moved(ways: Sequence[OnAxis], at: float, step: float) -> OnAxis:
    """The way with both sides alike whose line of points, or of middles between them, is nearest to a centre."""

    def off(way: OnAxis) -> float:
        return math.remainder(way.at - at, step)

    way = min(ways, key=lambda one: (round(abs(off(one)) / RANK_STEP), one.widths))
    return OnAxis(widths=way.widths, steps=way.steps, at=way.at, moved=off(way))


def _finish(
    name: str,
    spans: tuple[Span, Span],
    pair: tuple[OnAxis, OnAxis],
    what: str,
    step: tuple[float, float],
    *,
    moved: float = 0.0,
    axis: float | None = None,
) -> Finish:
    widths = {
        wall: width
        for span, way in zip(spans, pair, strict=True)
        for wall, width in zip(span.walls, way.widths, strict=True)
    }
    return Finish(
        name=name,
        widths=widths,
        positions=_positions(pair, what, step),
        finishes=True,
        miss=dict.fromkeys(widths, 0.0),
        moved=moved,
        axis=axis,
    )


def _positions(pair: tuple[OnAxis, OnAxis], what: str, step: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    """Where a crossing of joints may lie: points are staggered, so that a crossing or the middle of a tile may."""
    x, y = (way.at for way in pair)
    return ((x, y), (x + step[0], y)) if what == POINTS else ((x, y),)


def _equal(
    spans: tuple[Span, Span],
    best: tuple[OnAxis, OnAxis],
    what: str,
    step: tuple[float, float],
    least: float,
    most: float,
    round_to: float,
) -> list[Finish]:
    """The border of one width all round that misses both by as little as may be."""
    width = round((best[0].widths[0] + best[1].widths[0]) / 2 / round_to) * round_to
    if not least - COINCIDENT <= width <= most + COINCIDENT:
        return []
    walls = [(wall, way.widths[0]) for span, way in zip(spans, best, strict=True) for wall in span.walls]
    return [
        Finish(
            name="equal all round",
            widths={wall: width for wall, _ in walls},
            positions=_positions(best, what, step),
            finishes=False,
            miss={wall: width - wanted for wall, wanted in walls},
        )
    ]
