"""Ways to raise the square line at the centre, each the biggest and truest that fits the floor and the tools."""

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

import numpy as np

from floorwright.control.accuracy import compass_square, compass_variance, diagonals_square, triangle_square
from floorwright.control.choices import Tools
from floorwright.control.control import Arc, Construction, Step
from floorwright.control.sight import Point
from floorwright.control.station import QUARTERS, Station
from floorwright.tolerance import COINCIDENT, TOUCH

CENTRE = "centre"

AT_ONCE: Final = 48
"""Compass squares that are held against the walls together."""


def compass(station: Station, tools: Tools) -> Construction | None:
    """Returns the square by compass: feet on the first line, arcs crossing on both sides of it, or on one where the
    floor has no more; None where there is no compass or it fits nowhere.

    Feet and radius are handy lengths. Of those that fit, the most accurate; of equals, the arcs nearest to square.
    """
    feet_run = min(station.run(1, 0), station.run(-1, 0))
    left, right = station.run(0, 1), station.run(0, -1)
    feet, radius = np.meshgrid(station.sizes(min(feet_run, tools.compass)), station.sizes(tools.compass), indexing="ij")
    crosses = radius > feet
    feet, radius = feet[crosses], radius[crosses]
    apex = np.sqrt(radius**2 - feet**2)
    tries = []
    for sides, run, side in ((2, min(left, right), 1), (1, left, 1), (1, right, -1)):
        reached = apex <= run
        f, r, h = feet[reached], radius[reached], apex[reached]
        same = np.ones(len(f))
        tries.append(
            np.column_stack([compass_variance(f, h, tools, sides=sides), abs(f - h), -side * same, f, r, sides * same])
        )
    table = np.vstack(tries)
    in_order = table[np.lexsort(table.T[::-1])]
    for start in range(0, len(in_order), AT_ONCE):
        placed = [_crosses(station, row) for row in in_order[start : start + AT_ONCE].tolist()]
        clear = iter(station.can_mark([point for ends, crossings, _ in placed for point in (*ends, *crossings)]))
        for ends, crossings, (foot, reach, top, sides) in placed:
            can_mark = [next(clear) for _ in (*ends, *crossings)]
            if all(can_mark) and station.reaches([(end, crossing) for end in ends for crossing in crossings]):
                return _compass(station, foot, reach, crossings, compass_square(foot, top, tools, sides=sides))
    return None


def _crosses(station: Station, row: list[float]) -> tuple[list[Point], list[Point], tuple[float, float, float, int]]:
    """The feet and the crossings of a compass square, and its sizes: foot, reach, apex, sides."""
    # The side to cross on first stands in the row with its sign turned, so that left is sorted before right.
    _, _, turned, foot, reach, sides = row
    top = math.sqrt(reach**2 - foot**2)
    crossings = [station.place(0, -turned * top), station.place(0, turned * top)][: int(sides)]
    return [station.place(foot, 0), station.place(-foot, 0)], crossings, (foot, reach, top, int(sides))


def three_four_five(station: Station, tools: Tools) -> Construction | None:
    """Returns the square by the biggest 3-4-5 triangle of taped lengths that fits a quarter; None where none does."""
    arms = {arm: station.run(*arm) for arm in ((1, 0), (-1, 0), (0, 1), (0, -1))}
    for size in station.sizes(_most_unit(arms, tools)):
        sides = sorted(
            (triangle_square(along, out, tools), along, out)
            for along, out in ((3 * size, 4 * size), (4 * size, 3 * size))
        )
        for sd, along, out in sides:
            for ahead, up in QUARTERS:
                if along > arms[ahead, 0] + TOUCH or out > arms[0, up] + TOUCH:
                    continue
                near, far = station.place(ahead * along, 0), station.place(0, up * out)
                if station.fits([near, far], [(station.centre, near), (station.centre, far), (near, far)]):
                    return _triangle(near, far, (along, out), station.centre, sd)
    return None


def best_triangle(station: Station, tools: Tools) -> float:
    """Returns how true a 3-4-5 would be that the arms and the tape allow, whatever stands in its way, radians; endless
    where they allow none."""
    arms = {arm: station.run(*arm) for arm in ((1, 0), (-1, 0), (0, 1), (0, -1))}
    unit = next(iter(station.sizes(_most_unit(arms, tools))), 0.0)
    if unit <= 0.0:
        return math.inf
    return min(triangle_square(a * unit, b * unit, tools) for a, b in ((3, 4), (4, 3)))


def _most_unit(arms: dict[tuple[int, int], float], tools: Tools) -> float:
    """The 1 of the biggest 3-4-5 that the tape and the longer arm of each line allow, mm."""
    along, out = max(arms[1, 0], arms[-1, 0]), max(arms[0, 1], arms[0, -1])
    return min(tools.tape / 5, min(along, out) / 3, max(along, out) / 4) + COINCIDENT


def equal_diagonals(station: Station, tools: Tools) -> Construction | None:
    """Returns the square by a rectangle with equal diagonals, the truest that fits a quarter; None where none does."""
    tries: list[tuple[float, int, float, float]] = []
    for quarter, (ahead, up) in enumerate(QUARTERS):
        corners = [
            (along, out)
            for along in station.sizes(station.run(ahead, 0))
            for out in station.sizes(station.run(0, up))
            if math.hypot(along, out) <= tools.tape
        ]
        clear = station.can_mark([station.place(ahead * along, up * out) for along, out in corners])
        tries += [
            (diagonals_square(*corner, tools), quarter, *corner)
            for corner, is_clear in zip(corners, clear, strict=True)
            if is_clear
        ]
    for sd, quarter, along, out in sorted(tries):
        ahead, up = QUARTERS[quarter]
        near = station.place(ahead * along, 0)
        far, corner = station.place(0, up * out), station.place(ahead * along, up * out)
        reaches = [
            (station.centre, near),
            (station.centre, far),
            (near, corner),
            (far, corner),
            (station.centre, corner),
        ]
        if station.fits([near, far, corner], [*reaches, (near, far)]):
            return _diagonals(near, far, corner, (along, out), station.centre, sd)
    return None


def numbered(steps: Iterator[Step]) -> tuple[Step, ...]:
    """Returns steps numbered from 1."""
    return tuple(replace(step, number=number) for number, step in enumerate(steps, start=1))


def mark(tool: str, start: str, end: str, length: float, at: Point) -> Step:
    """Returns the step of marking a point at a distance from another, not yet numbered."""
    return Step(number=0, action="mark", tool=tool, start=start, end=end, length=length, points=((end, *at),))


def arc(tool: str, start: str, end: str, length: float, centre: Point, near: Point) -> Step:
    """Returns the step of striking a short arc, not yet numbered."""
    struck = Arc(centre=centre, radius=length, near=near)
    points = ((start, *centre), (end, *near))
    return Step(number=0, action="arc", tool=tool, start=start, end=end, length=length, points=points, arcs=(struck,))


def join(start: str, end: str, start_at: Point, end_at: Point) -> Step:
    """Returns the step of striking a line through two points, not yet numbered."""
    points = ((start, *start_at), (end, *end_at))
    return Step(number=0, action="join", tool="chalk line", start=start, end=end, length=0.0, points=points)


def pull(start: str, end: str, length: float, start_at: Point, end_at: Point) -> Step:
    """Returns the step of reading a tape between two points, not yet numbered."""
    points = ((start, *start_at), (end, *end_at))
    return Step(number=0, action="pull", tool="tape", start=start, end=end, length=length, points=points)


def _compass(station: Station, feet: float, radius: float, crossings: list[Point], sd: float) -> Construction:
    ends = {"F1": station.place(feet, 0), "F2": station.place(-feet, 0)}
    tops = {f"X{number}": point for number, point in enumerate(crossings, start=1)}

    def steps() -> Iterator[Step]:
        for name, at in ends.items():
            yield mark("tape", CENTRE, name, feet, at)
        for top, near in tops.items():
            for name, at in ends.items():
                yield arc("compass", name, top, radius, at, near)
        if len(tops) == 2:
            yield join("X2", "X1", tops["X2"], tops["X1"])
        else:
            yield join(CENTRE, "X1", station.centre, tops["X1"])

    square = "arcs that cross square are the best use of a compass, so the feet stand about 7 tenths of the radius out"
    both = "a foot that is out along the line moves both crossings alike and turns nothing; " if len(tops) == 2 else ""
    return Construction(
        makes="square line",
        method="compass",
        size=feet,
        steps=numbered(steps()),
        sd_angle=sd,
        why=f"Swing all arcs at one setting: its error cancels, {both}{square}.",
    )


def _triangle(near: Point, far: Point, sides: tuple[float, float], centre: Point, sd: float) -> Construction:
    along, out = sides
    longest = math.hypot(along, out)

    def steps() -> Iterator[Step]:
        yield mark("tape", CENTRE, "T1", along, near)
        yield arc("tape", CENTRE, "T2", out, centre, far)
        yield arc("tape", "T1", "T2", longest, near, far)
        yield join(CENTRE, "T2", centre, far)

    return Construction(
        makes="square line",
        method="3-4-5",
        size=longest,
        steps=numbered(steps()),
        sd_angle=sd,
        why="Sides of 3, 4 and 5 make a square corner at the centre; twice the size halves the error.",
    )


def _diagonals(
    near: Point, far: Point, corner: Point, sides: tuple[float, float], centre: Point, sd: float
) -> Construction:
    along, out = sides
    diagonal = math.hypot(along, out)

    def steps() -> Iterator[Step]:
        yield mark("tape", CENTRE, "D1", along, near)
        yield mark("tape", CENTRE, "D2", out, far)
        yield arc("tape", "D1", "D3", out, near, corner)
        yield arc("tape", "D2", "D3", along, far, corner)
        yield pull(CENTRE, "D3", diagonal, centre, corner)
        yield pull("D1", "D2", diagonal, near, far)
        yield join(CENTRE, "D2", centre, far)

    return Construction(
        makes="square line",
        method="equal diagonals",
        size=diagonal,
        steps=numbered(steps()),
        sd_angle=sd,
        why=(
            "Slide D2 and D3 together along their own line until both diagonals read alike. Opposite sides must be "
            "equal as well: equal diagonals alone prove nothing."
        ),
    )
