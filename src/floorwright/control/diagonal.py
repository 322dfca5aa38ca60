"""The two 45s, from four equal marks on the arms of the cross."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from floorwright.control.accuracy import equal_marks_45
from floorwright.control.choices import Tools
from floorwright.control.control import Construction, Step
from floorwright.control.sight import Point
from floorwright.control.square import CENTRE, arc, join, mark, numbered
from floorwright.control.station import QUARTERS, Station

ARMS: Final = ((1, 0), (0, 1), (-1, 0), (0, -1))
"""Of the cross, anticlockwise from ahead; arm i and the next one bound quarter i."""

LINES: Final = {"45 left": (0, 2), "45 right": (3, 1)}
"""The quarters that each 45 runs through, ahead first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Try:
    """A 45 that may be raised: its arm, the quarters with a crossing (ahead first), its accuracy."""

    name: str
    arm: float
    quarters: tuple[int, ...]
    sd: float


def four_equal_marks(station: Station, tools: Tools, square: float) -> tuple[Construction, ...]:
    """Returns the constructions of both 45s, those that fit; empty where neither does.

    Equal marks on the arms, then arcs of the same length from neighbouring marks, crossing square in the outer corner
    of each quarter. A 45 is struck through the crossings of two opposite quarters, or from the centre through one where
    that is truer or the floor has no room for the other. Both 45s share one arm wherever both fit.

    Args:
        station: the cross.
        tools: to hand; a tape swings the arcs where there is no compass.
        square: standard deviation of the square line's angle, radians.
    """
    tool, reach = ("compass", tools.compass) if tools.compass > 0 else ("tape", tools.tape)
    sizes = station.sizes(min(reach, max(station.run(*arm) for arm in ARMS)))
    tries: list[tuple[_Try, ...]] = []
    for arm in sizes:
        found = (_truest(station, tools, name, arm, square) for name in LINES)
        tries.append(tuple(made for made in found if made is not None))
        if [len(made.quarters) for made in tries[-1]] == [2, 2]:
            break  # a smaller arm is worse
    best = min(tries, key=lambda pair: (-len(pair), max((made.sd for made in pair), default=math.inf)), default=())
    return tuple(_construction(station, tool, made) for made in best)


def _truest(station: Station, tools: Tools, name: str, arm: float, square: float) -> _Try | None:
    """One 45 at one size: through two crossings where they fit, else through one."""
    for quarters in (LINES[name], LINES[name][:1], LINES[name][1:]):
        marks, corners = _points(station, arm, quarters)
        reaches = [(marks[side], corners[quarter]) for quarter in quarters for side in (quarter, (quarter + 1) % 4)]
        if station.fits([*corners.values(), *marks.values()], reaches):
            sd = equal_marks_45(arm, square, tools, sides=len(quarters))
            return _Try(name=name, arm=arm, quarters=quarters, sd=sd)
    return None


def _points(station: Station, arm: float, quarters: tuple[int, ...]) -> tuple[dict[int, Point], dict[int, Point]]:
    """The marks on the arms that quarters are bounded by, and the crossings in their outer corners."""
    sides = sorted({side for quarter in quarters for side in (quarter, (quarter + 1) % 4)})
    marks = {side: station.place(*(arm * way for way in ARMS[side])) for side in sides}
    return marks, {quarter: station.place(*(arm * way for way in QUARTERS[quarter])) for quarter in quarters}


def _construction(station: Station, tool: str, made: _Try) -> Construction:
    return Construction(
        makes=made.name,
        method="four equal marks",
        size=made.arm,
        steps=numbered(_steps(station, made, tool)),
        sd_angle=made.sd,
        why="Four equal marks, then four equal arcs: the chords between neighbouring marks must all read alike.",
    )


def _steps(station: Station, made: _Try, tool: str) -> Iterator[Step]:
    marks, corners = _points(station, made.arm, made.quarters)
    for side, at in marks.items():
        yield mark("tape", CENTRE, f"E{side + 1}", made.arm, at)
    for quarter, near in corners.items():
        for side in (quarter, (quarter + 1) % 4):
            yield arc(tool, f"E{side + 1}", f"Y{quarter + 1}", made.arm, marks[side], near)
    (ahead, at), *behind = corners.items()
    if behind:
        back, back_at = behind[0]
        yield join(f"Y{back + 1}", f"Y{ahead + 1}", back_at, at)
    else:
        yield join(CENTRE, f"Y{ahead + 1}", station.centre, at)
