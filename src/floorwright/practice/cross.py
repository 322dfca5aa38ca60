"""Raise a square, and halve it: the cross at the middle of a line, by compass."""

from math import dist, hypot, pi, sqrt
from typing import Final

from floorwright.control.accuracy import compass_square, reading_across, triangle_square
from floorwright.control.choices import Tools
from floorwright.control.control import Check as Reading
from floorwright.control.control import Construction, Control, Mark
from floorwright.control.square import CENTRE
from floorwright.control.station import HAND, HANDY
from floorwright.control.words import fine, out_over
from floorwright.errors import FloorwrightError
from floorwright.job.inputs.inputs import tools
from floorwright.job.solution import Solution
from floorwright.practice.bay import PAPER_SCALE, rectangle, solved, sound, style_of
from floorwright.practice.exercise import Answer, Check, Exercise, Picture, Stroke, Struck
from floorwright.practice.lots import Lots, either, feet
from floorwright.practice.say import at_scale, number_of, paired, said
from floorwright.tolerance import COINCIDENT

WALL: Final = {"mm": 4000.0, "in": feet(12)}
"""The wall that the error is told over."""

TRIANGLES: Final = {
    "mm": ((900.0, 1200.0), (1800.0, 2400.0), (3000.0, 4000.0)),
    "in": ((feet(3), feet(4)), (feet(6), feet(8)), (feet(9), feet(12))),
}
"""3-4-5 triangles to compare with, small to big."""

LINES: Final = {"mm": (3600.0, 6000.0), "in": (feet(12), feet(19))}
"""mm, the shortest and the longest line that leaves room to swing the arcs and stands on the paper."""

MARGIN: Final = 3.0
"""mm on paper about the bay: the line needs the width."""

BY_COMPASS: Final = ("compass", "four equal marks")

ABOUT: Final = {"mm": 1500.0, "in": feet(4.5)}
"""mm of floor that the drawing of an answer shows on either side of the middle."""

SIDES: Final = {"D-A": "left", "B-C": "right", "A-B": "near", "C-D": "far"}
"""Arms of the cross, by the wall that they run to: as they lie on the paper."""


def bay(number: int, units: str, line: float | None) -> Solution:
    """Returns the bay of a variation: a line, its middle, a compass, and what can be raised there.

    Args:
        number: of the variation.
        units: `mm` or `in`.
        line: mm, the length of the line; drawn by lot where none is given.
    """
    lots, handy = Lots("cross", number), HANDY[style_of(units).system]
    drawn = lots.step(4800, 6000, 100) if units == "mm" else feet(lots.step(15, 19, 0.5))
    length, width = (drawn if line is None else line), either(units, lots.step(2200, 2600, 50), lots.whole(86, 102))
    # As far as arcs that cross square have room, less a step or two by lot.
    steps = int(sqrt(2) * (width / 2 - HAND) / handy)
    reach = handy * (steps - lots.whole(0, 3))
    return sound(
        solved(
            units,
            rectangle(length, width),
            {
                "control": {
                    "first_line": {"by": "mid-points", "walls": ["D-A", "B-C"]},
                    "centre": {"by": "mid-point"},
                    "compass": f"{reach} mm",
                    "tape": "8 m" if units == "mm" else "25ft",
                    "mark": 0,
                    "set": "1 mm" if units == "mm" else "1/32in",
                }
            },
        )
    )


def square(number: int, units: str, *, line: float | None = None) -> Exercise:
    """Returns the exercise of raising a square at the middle of a line with a compass."""
    solution = bay(number, units, line)
    control = _control(solution)
    made, style = _chosen(control, "square line"), style_of(units)
    checks = tuple(_leg_check(check, units) for check in control.checks if check.legs and _is_345(check.legs))
    radius = next(step.length for step in made.steps if step.action == "arc")
    return Exercise(
        kind="square",
        number=number,
        style=style,
        title="Raise a square at the middle of the line, by compass",
        task=(
            f"The line is {said(_length(solution), style)} long, drawn at {at_scale(units)}. Find its middle.",
            f"Your compass opens to {paired(solution.job.control.compass, units)}. Choose the feet and the opening "
            "that make the truest square, swing the arcs on both sides of the line, and draw the square line.",
            f"Mark the legs of the check on both lines: {_legs(control, units)}.",
            "Write down the feet, the opening, and how far out the square may be over "
            f"{said(WALL[units], style)} when every length is good to {fine(solution.job.control.setting, style)}.",
        ),
        given=_given(solution, units),
        table=None,
        answers=_square_answers(solution, made, radius, units),
        checks=(
            *checks,
            Check(what="the feet you wrote down", expected=made.size, on_paper=False),
        ),
        solved=_solved(solution, ("square line",), ("first line", "square line"), units),
        why=_bigger_is_better(solution, made, radius, units),
    )


def bisect(number: int, units: str, *, line: float | None = None) -> Exercise:
    """Returns the exercise of halving the square: both 45s from four equal marks."""
    solution = bay(number, units, line)
    control = _control(solution)
    style = style_of(units)
    left = _chosen(control, "45 left")
    arm = left.size
    chords = [check for check in control.checks if check.legs and not _is_345(check.legs)]
    crossings = {name: at for step in left.steps if step.action == "arc" for name, *at in step.points if name[0] == "Y"}
    ends = sorted(crossings)
    across = dist(crossings[ends[0]], crossings[ends[-1]])
    whence = f"{ends[0]} to {ends[-1]}"
    return Exercise(
        kind="bisect",
        number=number,
        style=style,
        title="Halve the square: draw both 45s",
        task=(
            f"The cross is drawn at {at_scale(units)}. On each of its four arms mark E, {paired(arm, units)} from "
            "the middle.",
            "From neighbouring marks swing arcs of that same opening; they cross at Y in the corner of each quarter.",
            "Draw both 45s through the crossings.",
            "Write down what the four chords between neighbouring marks must read.",
        ),
        given=_given(solution, units, with_square=True),
        table=None,
        answers=(
            Answer(
                what="each chord between neighbouring marks",
                figure=paired(chords[0].expected, units),
                sum=f"{number_of(arm, style)} × √2 = {number_of(chords[0].expected, style)}",
            ),
            Answer(
                what=f"{whence}, along a 45",
                figure=paired(across, units),
                sum=f"twice the diagonal of a square of {number_of(arm, style)}: 2 × {number_of(arm, style)} × √2",
            ),
            Answer(what="how far out a 45 may be", figure=out_over(left.sd_angle, style)),
        ),
        checks=(
            *(
                Check(what=f"chord {number} of the four", expected=check.expected / PAPER_SCALE[units])
                for number, check in enumerate(chords, start=1)
            ),
            Check(what=f"{whence}, along a 45", expected=across / PAPER_SCALE[units]),
            Check(what="the chord you wrote down", expected=chords[0].expected, on_paper=False),
        ),
        solved=_solved(solution, ("45 left", "45 right"), ("first line", "square line", "45 left", "45 right"), units),
        why=(
            "When the four marks are equal and the chords read alike all round, the cross is square and the 45s halve "
            "it. Unlike chords tell which way the square leans.",
            "A square that is out by so much puts each 45 out by half of that.",
        ),
    )


def _square_answers(solution: Solution, made: Construction, radius: float, units: str) -> tuple[Answer, ...]:
    style, wall = style_of(units), WALL[units]
    apex = (radius**2 - made.size**2) ** 0.5
    out = made.sd_angle * wall
    hand = solution.job.control.setting
    return (
        Answer(
            what="feet either side of the middle",
            figure=paired(made.size, units),
            sum=f"arcs that cross square are best: feet = 0.707 × the opening = 0.707 × {number_of(radius, style)} = "
            f"{number_of(radius / 2**0.5, style)}, to a handy length",
        ),
        Answer(what="opening of the compass", figure=paired(radius, units)),
        Answer(
            what="the arcs cross above and below the line at",
            figure=paired(apex, units),
            sum=f"√({number_of(radius, style)}² − {number_of(made.size, style)}²) = {number_of(apex, style)}",
        ),
        Answer(
            what=f"how far out over {said(wall, style)}, two times in three",
            figure=fine(out, style),
            sum=f"half of {fine(hand, style)} × √(1/feet² + 1/rise²) = {out_over(made.sd_angle, style)}; × the wall",
        ),
    )


def _bigger_is_better(solution: Solution, made: Construction, radius: float, units: str) -> tuple[str, ...]:
    style, hand = style_of(units), tools(solution.job)
    exact = Tools(compass=hand.compass, tape=hand.tape, mark=0.0, set=hand.set)
    half = compass_square(made.size / 2, (radius**2 - made.size**2) ** 0.5 / 2, exact)
    wide = compass_square(made.size / 2, (radius**2 - made.size**2 / 4) ** 0.5, exact)
    triangles = ", ".join(
        f"{'-'.join(style.text(side) for side in (a, b, hypot(a, b)))} {out_over(triangle_square(a, b, exact), style)}"
        for a, b in TRIANGLES[units]
    )
    return (
        f"Bigger is better: with everything half as big the square is out {out_over(half, style)}, twice as much. "
        f"Longer arcs with the feet left at half give {out_over(wide, style)}: widen the feet with them.",
        f"By three taped lengths: {triangles}.",
        "Swing every arc at one setting: an error of the setting itself then cancels.",
    )


def _given(solution: Solution, units: str, *, with_square: bool = False) -> Picture:
    names = ("first line", "square line") if with_square else ("first line",)
    return Picture(
        scale=PAPER_SCALE[units], box=_box(solution), margin=MARGIN, strokes=_lines(_control(solution), names)
    )


def _solved(solution: Solution, raised: tuple[str, ...], drawn: tuple[str, ...], units: str) -> Picture:
    """The answer about the middle of the line, so that its sums stand beside it."""
    control = _control(solution)
    steps = [step for name in raised for step in _chosen(control, name).steps]
    points = {name: (x, y) for step in steps for name, x, y in step.points if name != CENTRE}
    _, low, _, high = _box(solution)
    middle, about = control.centre[0], ABOUT[units]
    return Picture(
        scale=PAPER_SCALE[units],
        box=(middle - about, low, middle + about, high),
        strokes=tuple(_trimmed(stroke, middle, about) for stroke in _lines(control, drawn)),
        arcs=tuple(Struck(centre=arc.centre, radius=arc.radius, near=arc.near) for step in steps for arc in step.arcs),
        points=tuple(points.items()),
    )


def _trimmed(stroke: Stroke, middle: float, about: float) -> Stroke:
    """A line cut off where the drawing of the answer ends."""
    (x0, y0), (x1, y1) = stroke.points
    ends = [
        (x, y0 + (y1 - y0) * (x - x0) / (x1 - x0)) if abs(x1 - x0) > COINCIDENT else (x, y)
        for x, y in ((min(max(x, middle - about), middle + about), y) for x, y in stroke.points)
    ]
    return Stroke(points=(ends[0], ends[1]), as_=stroke.as_)


def _lines(control: Control, names: tuple[str, ...]) -> tuple[Stroke, ...]:
    return tuple(
        Stroke(points=((line.marks[0].x, line.marks[0].y), (line.marks[-1].x, line.marks[-1].y)), as_="line")
        for line in control.lines
        if line.name in names
    )


def _box(solution: Solution) -> tuple[float, float, float, float]:
    assert solution.room is not None
    low, high = solution.room.outline.min(axis=0), solution.room.outline.max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def _control(solution: Solution) -> Control:
    assert solution.control is not None
    return solution.control


def _chosen(control: Control, makes: str) -> Construction:
    """The way by compass: the exercise is about that, whatever else would be truer in the bay."""
    ways = [made for made in control.constructions if made.makes == makes and made.method in BY_COMPASS]
    if not ways:
        raise FloorwrightError(f"a bay for practice in which no compass raises the {makes}")
    return ways[0]


def _length(solution: Solution) -> float:
    (start, end) = _control(solution).lines[0].marks
    return dist((start.x, start.y), (end.x, end.y))


def _is_345(legs: tuple[Mark, ...]) -> bool:
    """Whether a check holds a triangle, and no chord between equal marks."""
    return abs(legs[0].distance - legs[1].distance) > 1.0


def _legs(control: Control, units: str) -> str:
    """Returns the legs of the triangles that prove the square: `1200 (48) along, 900 (36) square`."""
    legs = next(check.legs for check in control.checks if check.legs and _is_345(check.legs))
    along, out = (paired(leg.distance, units) for leg in legs)
    return f"{along} along the line and {out} along the square line"


def _leg_check(check: Reading, units: str) -> Check:
    along, out = check.legs
    expected = reading_across(along.distance, out.distance, pi / 2)
    return Check(
        what=f"from the {SIDES[along.name]} leg to the {SIDES[out.name]} leg", expected=expected / PAPER_SCALE[units]
    )
