"""Lines that are found from others: a square dropped from a point on to a line, a parallel by two offsets."""

from math import hypot, sqrt
from typing import TYPE_CHECKING, Final

from floorwright.control.choices import Tools
from floorwright.control.predicted import dropped_square, parallel_turn
from floorwright.control.station import HANDY
from floorwright.control.words import fine, out_over
from floorwright.practice.bay import PAPER_SCALE, style_of
from floorwright.practice.exercise import Answer, Check, Exercise, Picture, Stroke, Struck
from floorwright.practice.lots import Lots, feet
from floorwright.practice.say import at_scale, number_of, paired, said

if TYPE_CHECKING:
    from floorwright.control.sight import Point

EXACT: Final = {"mm": 1.0, "in": 25.4 / 32}
"""mm. How true every length is set in the exercises; a mark counts as exact."""

WALL: Final = {"mm": 4000.0, "in": feet(12)}
"""The wall that the error is told over."""


def hand(units: str, compass: float = 0.0) -> Tools:
    """Returns the tools of an exercise."""
    return Tools(compass=compass, tape=8000.0, mark=0.0, set=EXACT[units])


def perpendicular(number: int, units: str) -> Exercise:
    """Returns the exercise of dropping a square from a point on to a line, all arcs at one opening."""
    lots, style = Lots("perpendicular", number), style_of(units)
    handy = HANDY[style.system]
    length = lots.step(3500, 3700, 50) if units == "mm" else feet(lots.step(10, 11.5, 0.5))
    away = handy * (lots.whole(18, 22) if units == "mm" else lots.whole(34, 42))
    start = length / 2 + handy * lots.whole(-4, 4)
    # Arcs that cross the line at 45 degrees cut it as truly as they cross each other.
    opening = handy * round(sqrt(2) * away / handy)
    foot = sqrt(opening**2 - away**2)
    turn = dropped_square(foot, away, away, hand(units, opening))
    point, under = (start, away), (start, -away)
    cuts = {"F1": (start - foot, 0.0), "F2": (start + foot, 0.0)}
    box = (0.0, -away, length, away)
    line = Stroke(points=((0.0, 0.0), (length, 0.0)), as_="line")
    scale = PAPER_SCALE[units]
    return Exercise(
        kind="perpendicular",
        number=number,
        style=style,
        title="Drop a square from the point on to the line, by compass",
        task=(
            f"The line and the point P are drawn at {at_scale(units)}. P lies {paired(away, units)} off the line.",
            f"Set the compass to {paired(opening, units)} and leave it so. From P cut the line on both sides, at F1 "
            "and F2.",
            "From both cuts cross arcs on the other side of the line, at X, and draw the line from P through X.",
            "Work out how far each cut lies from the foot of the square, and how far X lies from P. Write down how far "
            f"out the square may be over {said(WALL[units], style)}, when every length is good to "
            f"{fine(EXACT[units], style)}.",
        ),
        given=Picture(scale=scale, box=box, strokes=(line,), points=(("P", point),)),
        table=None,
        answers=(
            Answer(
                what="from the foot to each cut",
                figure=paired(foot, units),
                sum=f"√({number_of(opening, style)}² − {number_of(away, style)}²) = {number_of(foot, style)}",
            ),
            Answer(
                what="from P to X",
                figure=paired(2 * away, units),
                sum=f"one opening all round: X is as far under the line as P is over it, 2 × {number_of(away, style)}",
            ),
            Answer(
                what=f"how far out over {said(WALL[units], style)}, two times in three",
                figure=fine(turn * WALL[units], style),
                sum=f"opening ÷ (foot to cut × P to X) × {fine(EXACT[units], style)} = {out_over(turn, style)}, × wall",
            ),
        ),
        checks=(
            Check(what="from F1 to F2", expected=2 * foot / scale),
            Check(what="from P to X", expected=2 * away / scale),
            Check(what="from F1 to X", expected=opening / scale),
            Check(what="the distance from foot to cut you wrote down", expected=foot, on_paper=False),
        ),
        solved=Picture(
            scale=scale,
            box=box,
            strokes=(line, Stroke(points=(point, under), as_="line")),
            arcs=(
                *(Struck(centre=point, radius=opening, near=at) for at in cuts.values()),
                *(Struck(centre=at, radius=opening, near=under) for at in cuts.values()),
            ),
            points=(("P", point), ("X", under), *cuts.items()),
        ),
        why=(
            "An opening of 1.4 times the distance lets the arcs cut the line at 45 degrees and each other square.",
            "All arcs at one setting: an error of the setting moves both cuts alike, and cancels.",
        ),
    )


def parallel(number: int, units: str) -> Exercise:
    """Returns the exercise of a parallel to a line by two equal offsets, as far apart as the line allows."""
    lots, style = Lots("parallel", number), style_of(units)
    handy = HANDY[style.system]
    length = lots.step(3500, 3700, 50) if units == "mm" else feet(lots.step(10, 11.5, 0.5))
    off = handy * (lots.whole(16, 24) if units == "mm" else lots.whole(30, 46))
    inset = handy * (2 if units == "mm" else 4)
    apart = length - 2 * inset
    turn = parallel_turn(apart, hand(units))
    scale = PAPER_SCALE[units]
    marks: dict[str, Point] = {"A": (inset, 0.0), "B": (length - inset, 0.0)}
    tops = {name: (x, off) for name, (x, _) in marks.items()}
    line = Stroke(points=((0.0, 0.0), (length, 0.0)), as_="line")
    box = (0.0, 0.0, length, off)
    return Exercise(
        kind="parallel",
        number=number,
        style=style,
        title="Draw a parallel to the line, by two offsets",
        task=(
            f"The line is drawn at {at_scale(units)}. Draw a parallel to it, {paired(off, units)} above.",
            f"Mark A and B on the line, each {paired(inset, units)} from its end. From both swing an arc of "
            f"{paired(off, units)} over the line.",
            "Draw the line that just touches both arcs at their tops.",
            f"Write down how far it may be out of parallel over {said(WALL[units], style)}, when every length is good "
            f"to {fine(EXACT[units], style)}; and what it would be with the marks half as far apart.",
        ),
        given=Picture(scale=scale, box=box, strokes=(line,)),
        table=None,
        answers=(
            Answer(
                what="from A to B",
                figure=paired(apart, units),
                sum=f"{number_of(length, style)} − 2 × {number_of(inset, style)} = {number_of(apart, style)}",
            ),
            Answer(
                what=f"out of parallel over {said(WALL[units], style)}, two times in three",
                figure=fine(turn * WALL[units], style),
                sum=f"√2 × {fine(EXACT[units], style)} ÷ {number_of(apart, style)} = {out_over(turn, style)}, × wall",
            ),
            Answer(
                what="with the marks half as far apart",
                figure=fine(parallel_turn(apart / 2, hand(units)) * WALL[units], style),
                sum="half as far apart, twice as much",
            ),
        ),
        checks=(
            *(Check(what=f"from {name} square up to the parallel", expected=off / scale) for name in marks),
            Check(what="square up to it half way between A and B", expected=off / scale),
            Check(what="from A to where the arc of B touches it", expected=hypot(apart, off) / scale),
        ),
        solved=Picture(
            scale=scale,
            box=box,
            strokes=(line, Stroke(points=((0.0, off), (length, off)), as_="line")),
            arcs=tuple(Struck(centre=marks[name], radius=off, near=tops[name]) for name in marks),
            points=tuple(marks.items()),
        ),
        why=(
            "A line laid to the tops of two arcs needs no square: the top of an arc is square over its centre anyway.",
            "What turns it is the difference of the two offsets over their distance: set both at one opening, and put "
            "them as far apart as there is room.",
        ),
    )
