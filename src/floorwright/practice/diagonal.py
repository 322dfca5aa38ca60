"""Set out a diagonal floor: the points of its diamonds along both lines of the cross, and a node by two tapes."""

from math import cos, degrees, dist, sin
from typing import Final

from floorwright.control.control import Mark
from floorwright.control.sight import Point, crossing
from floorwright.job.solution import Solution
from floorwright.practice.bay import PAPER_SCALE, rectangle, solved, sound, style_of
from floorwright.practice.exercise import Answer, Check, Exercise, Given, Picture, Stroke, Struck
from floorwright.practice.lots import Lots, either, feet
from floorwright.practice.say import at_scale, number_of
from floorwright.setout.snap import SnapLine
from floorwright.setout.ties import Tie
from floorwright.units import LengthStyle

EDGE: Final = 50.0
"""mm. Points of the diamonds nearer to a wall than this are not asked for."""


def diagonal(number: int, units: str) -> Exercise:
    """Returns the exercise of setting out a diagonal floor from its first joints.

    The layout places the pattern, its proved best position; where its first row and column meet the first line is
    given, and the learner works out the others.
    """
    lots, style = Lots("diagonal", number), style_of(units)
    length, width = (
        (lots.step(3600, 4000, 50), lots.step(2700, 3000, 50))
        if units == "mm"
        else (feet(lots.step(9.5, 11, 0.5)), feet(lots.step(8, 9, 0.5)))
    )
    tile = float(lots.whole(280, 340)) if units == "mm" else lots.whole(46, 54) * either("in", 0, 0.25)
    joint = float(lots.whole(2, 4)) if units == "mm" else either("in", 0, lots.pick((0.125, 0.1875)))
    solution = sound(
        solved(
            units,
            rectangle(length, width),
            {
                "control": {
                    "first_line": {"by": "mid-points", "walls": ["D-A", "B-C"]},
                    "centre": {"by": "mid-point"},
                    "tape": "8 m" if units == "mm" else "25ft",
                },
                "goods": [{"name": "tile", "length": f"{tile} mm"}],
                "zones": [{"goods": "tile", "joint": f"{joint} mm", "gap": "5 mm", "angle": 45}],
                "setout": {"ties": True},
            },
        )
    )
    return _exercise(number, units, style, solution)


def _exercise(number: int, units: str, style: LengthStyle, solution: Solution) -> Exercise:
    assert solution.control is not None
    layout, scale = solution.layouts[0], PAPER_SCALE[units]
    tile, joint = layout.cell.size[0], layout.chosen.joint
    families = {line.name: _points(solution, line.name) for line in layout.cell.lines}
    step = next(places[1] - places[0] for places in families.values())
    tie = _tie(solution)
    check = tie.check
    assert check is not None
    tapes = " and ".join(f"{number_of(leg.reads, style)} from {leg.held}" for leg in tie.legs)
    checks = [Check(what="the step you wrote down", expected=step, on_paper=False)]
    checks += [
        Check(what=f"from the left wall to the {which} point of the {name}", expected=places[n] / scale)
        for name, places in families.items()
        for which, n in (("second", 1), ("last", -1))
    ]
    checks.append(Check(what=f"from {check.held} to node {tie.node.name}", expected=check.reads / scale))
    return Exercise(
        kind="diagonal",
        number=number,
        style=style,
        title="Set out a diagonal floor, and a node by two tapes",
        task=(
            f"The bay and its cross are drawn at {at_scale(units)}. The floor is laid at 45 degrees to the first line.",
            "The joints of the rows, and those of the columns, meet the first line at equal steps. Work out the step; "
            "from the first point of each, mark all the others on the first line, running from the left wall.",
            f"Mark node {tie.node.name} with two tapes: {tapes}. Read the third, from {check.held}.",
            "Snap one row and one column at 45 degrees through your marks.",
        ),
        given=_picture(solution, scale),
        table=Given(
            headings=("a tile, measured", "joint", *(f"first of the {name}" for name in families)),
            rows=(
                (
                    style.entered_text(tile, unit=True),
                    style.entered_text(joint, unit=True),
                    *(style.text(places[0], unit=True) for places in families.values()),
                ),
            ),
        ),
        answers=(
            Answer(
                what="the step along the first line",
                figure=style.text(step, unit=True, feet=False),
                sum=f"({number_of(tile, style)} + {style.entered_text(joint)}) × √2 = {number_of(step, style)}",
            ),
            *(
                Answer(
                    what=f"points of the {name}, from the left wall",
                    figure=", ".join(style.text(at) for at in places),
                    sum="" if n else "the first, and then whole steps from it, unrounded, each measured from the wall",
                )
                for n, (name, places) in enumerate(families.items())
            ),
            Answer(
                what=f"third tape to {tie.node.name}, from {check.held}",
                figure=style.text(check.reads, unit=True),
                sum=f"{number_of(check.reads / scale, style)} on paper",
            ),
        ),
        checks=tuple(checks),
        solved=_picture(solution, scale, tie=tie),
        why=(
            "Along a line at 45 degrees a diagonal floor repeats by (tile + joint) × √2: the joint counts as well.",
            f"The arcs of the two tapes cross at {_degrees(tie):.0f} degrees; nearly in line they would fix nothing.",
        ),
    )


def _points(solution: Solution, family: str) -> list[float]:
    """Where the lines of a family meet the first line, from its left end, in order, mm."""
    assert solution.control is not None
    assert solution.snap is not None
    first = solution.control.lines[0]
    start, end = _place(first.marks[0]), _place(first.marks[-1])
    found = (_meets(line, start, first.angle) for line in solution.snap.lines if line.family == family and line.marks)
    return sorted(at for at in found if EDGE < at < dist(start, end) - EDGE)


def _meets(line: SnapLine, start: Point, angle: float) -> float:
    """How far along from a point, in a direction, a line is met; below 0 behind it, mm."""
    at = crossing(start, angle, _place(line.marks[0]), line.angle)
    assert at is not None
    return (at[0] - start[0]) * cos(angle) + (at[1] - start[1]) * sin(angle)


def _place(mark: Mark) -> Point:
    return mark.x, mark.y


def _tie(solution: Solution) -> Tie:
    """The first node whose third tape is held at a corner."""
    assert solution.setout is not None
    assert solution.setout.ties is not None
    return next(
        tie
        for tie in solution.setout.ties.ties
        if tie.check is not None and all(leg.held.startswith("corner") for leg in (*tie.legs, tie.check))
    )


def _picture(solution: Solution, scale: float, tie: Tie | None = None) -> Picture:
    """The bay with its cross and corners; with a tie also every joint line and the node's arcs."""
    assert solution.control is not None
    assert solution.room is not None
    corners = {corner.name: (corner.x, corner.y) for corner in solution.room.corners}
    names = list(corners)
    walls = [
        Stroke(points=(corners[a], corners[b]), as_="wall") for a, b in zip(names, [*names[1:], names[0]], strict=True)
    ]
    lines = [
        Stroke(points=(_place(line.marks[0]), _place(line.marks[-1])), as_="line")
        for line in solution.control.lines[:2]
    ]
    xs, ys = zip(*corners.values(), strict=True)
    box = min(xs), min(ys), max(xs), max(ys)
    if tie is None:
        return Picture(scale=scale, box=box, strokes=(*walls, *lines), points=tuple(corners.items()))
    at = tie.node.x, tie.node.y
    joints = [
        Stroke(points=(_place(line.marks[0]), _place(line.marks[-1])), as_="joint")
        for line in (solution.snap.lines if solution.snap else ())
        if line.family != "control" and len(line.marks) > 1
    ]
    arcs = tuple(
        Struck(centre=corners[leg.held.removeprefix("corner ")], radius=leg.reads, near=at) for leg in tie.legs
    )
    points = (*corners.items(), (tie.node.name, at))
    return Picture(scale=scale, box=box, strokes=(*joints, *walls, *lines), arcs=arcs, points=points)


def _degrees(tie: Tie) -> float:
    return degrees(tie.angle)
