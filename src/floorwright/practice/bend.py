"""Corners and curves: the mitre of a corner that is not square, and an arc from its chord."""

from itertools import pairwise
from math import asin, cos, degrees, pi, radians, sin
from typing import TYPE_CHECKING, Final

from floorwright.control.predicted import bisector_turn, chord_offset, radius_of, rise_offset
from floorwright.control.station import HANDY
from floorwright.control.words import fine, out_over
from floorwright.practice.bay import PAPER_SCALE, style_of
from floorwright.practice.drop import EXACT, hand
from floorwright.practice.exercise import Answer, Check, Exercise, Given, Picture, Stroke, Struck
from floorwright.practice.lots import Lots, feet
from floorwright.practice.say import at_scale, number_of, paired, said

if TYPE_CHECKING:
    from floorwright.control.sight import Point

BENDS: Final = 24
"""Straight pieces that an arc is drawn in."""


def mitre(number: int, units: str) -> Exercise:
    """Returns the exercise of halving a corner that is not square: the mitre of a border there."""
    lots, style = Lots("mitre", number), style_of(units)
    handy = HANDY[style.system]
    arm = handy * (lots.whole(24, 30) if units == "mm" else lots.whole(46, 58))
    wide = radians(lots.pick((66.0, 72.0, 78.0, 102.0, 108.0, 114.0)) + lots.whole(0, 3))
    half, wall = wide / 2, 1.35 * arm
    chord = 2 * arm * sin(half)
    across = 2 * arm * cos(half)
    turn = bisector_turn(arm, half, hand(units, arm))
    scale = PAPER_SCALE[units]
    ends = {"E1": (arm, 0.0), "E2": (arm * cos(wide), arm * sin(wide))}
    cross = (across * cos(half), across * sin(half))
    walls = (
        Stroke(points=((0.0, 0.0), (wall, 0.0)), as_="wall"),
        Stroke(points=((0.0, 0.0), (wall * cos(wide), wall * sin(wide))), as_="wall"),
    )
    box = (min(0.0, wall * cos(wide)), 0.0, max(wall, cross[0]), max(wall * sin(wide), cross[1]))
    return Exercise(
        kind="mitre",
        number=number,
        style=style,
        title="Halve the corner of the two walls: draw its mitre",
        task=(
            f"Two walls meet in the corner K, drawn at {at_scale(units)}; the corner is not square. A border runs "
            "along both, and its mitre halves the corner.",
            f"Mark E1 and E2 on the walls, {paired(arm, units)} from K each. From both swing arcs of that same "
            "opening; they cross at X. Draw the mitre from K through X.",
            f"E1 to E2 reads {said(chord, style)}. Work out the angle at which the border's ends are cut, and how "
            "far X lies from K.",
            f"Write down how far out the mitre may be, when every length is good to {fine(EXACT[units], style)}.",
        ),
        given=Picture(scale=scale, box=box, strokes=walls, points=(("K", (0.0, 0.0)),)),
        table=None,
        answers=(
            Answer(
                what="the cut of the border's ends",
                figure=f"{degrees(half):.1f}°",
                sum=f"half the chord over the arm is the sine of half the corner: {number_of(chord / 2, style)} ÷ "
                f"{number_of(arm, style)}, so {degrees(asin(chord / 2 / arm)):.1f}°",
            ),
            Answer(
                what="from K to X",
                figure=paired(across, units),
                sum=f"2 × √({number_of(arm, style)}² − {number_of(chord / 2, style)}²) = {number_of(across, style)}",
            ),
            Answer(
                what="how far out the mitre may be, two times in three",
                figure=out_over(turn, style),
                sum="two marks and two arcs, each good to the same, over the distance from K to X",
            ),
        ),
        checks=(
            Check(what="from E1 to E2", expected=chord / scale),
            Check(what="from K to X", expected=across / scale),
            *(Check(what=f"from {name} to X", expected=arm / scale) for name in ends),
            Check(what="the distance from K to X you wrote down", expected=across, on_paper=False),
        ),
        solved=Picture(
            scale=scale,
            box=box,
            strokes=(*walls, Stroke(points=((0.0, 0.0), cross), as_="line")),
            arcs=tuple(Struck(centre=at, radius=arm, near=cross) for at in ends.values()),
            points=(("K", (0.0, 0.0)), *ends.items(), ("X", cross)),
        ),
        why=(
            "Equal arms and equal arcs are alike on both sides of the mitre, whatever the corner: no protractor is "
            "needed.",
            "A corner that is not square has no 45: both ends of the border are cut to half of the corner.",
        ),
    )


def arc(number: int, units: str) -> Exercise:
    """Returns the exercise of setting out an arc whose centre is out of reach, by offsets from its chord."""
    lots, style = Lots("arc", number), style_of(units)
    half_steps = lots.whole(4, 5)
    step = 300.0 if units == "mm" else feet(1)
    chord = 2 * step * half_steps
    rise = lots.step(360, 560, 10) if units == "mm" else feet(lots.step(1.25, 1.75, 1 / 12))
    radius = radius_of(chord, rise)
    places = [step * n for n in range(half_steps)]
    offsets = [rise_offset(radius, chord, chord / 2 + place) for place in places]
    good = max(chord_offset(radius, chord, chord / 2 + place, hand(units)) for place in places)
    marks = [(f"{n}", (place, off)) for n, (place, off) in enumerate(zip(places, offsets, strict=True)) if n]
    scale = PAPER_SCALE[units]
    line = Stroke(points=((-chord / 2, 0.0), (chord / 2, 0.0)), as_="reading")
    ticks: dict[str, Point] = {"A": (-chord / 2, 0.0), "B": (chord / 2, 0.0), "M": (0.0, 0.0)}
    box = (-chord / 2, 0.0, chord / 2, rise)
    names = ("the middle", *(said(place, style) for place in places[1:]))
    return Exercise(
        kind="arc",
        number=number,
        style=style,
        title="Set out an arc from its chord: the centre is out of reach",
        task=(
            f"The chord from A to B is {said(chord, style)} long, drawn at {at_scale(units)}; M is its middle. The arc "
            f"rises {paired(rise, units)} over M.",
            "Work out its radius from chord and rise.",
            f"Work out how far the arc stands off the chord every {said(step, style)} from M, both ways alike, and "
            "mark it there, square off the chord.",
            "Bend a batten, or draw the curve by hand, through the marks.",
        ),
        given=Picture(scale=scale, box=box, strokes=(line,), points=tuple(ticks.items())),
        table=Given(headings=("chord", "rise"), rows=((said(chord, style), said(rise, style)),)),
        answers=(
            Answer(
                what="the radius",
                figure=said(radius, style),
                sum=f"chord² ÷ (8 × rise) + rise ÷ 2 = {number_of(chord**2 / (8 * rise), style)} + "
                f"{number_of(rise / 2, style)} = {number_of(radius, style)}",
            ),
            *(
                Answer(
                    what=f"off the chord at {name}",
                    figure=paired(off, units),
                    sum=f"the rise; the radius less it is {number_of(radius - rise, style)}"
                    if not n
                    else f"√({number_of(radius, style)}² − {number_of(place, style)}²) − "
                    f"{number_of(radius - rise, style)} = {number_of(off, style)}",
                )
                for n, (name, place, off) in enumerate(zip(names, places, offsets, strict=True))
            ),
            Answer(
                what="how far in or out a mark may be, two times in three",
                figure=fine(good, style),
                sum=f"its two lengths are good to {fine(EXACT[units], style)} each, and the arc leans there",
            ),
        ),
        checks=(
            *(
                Check(what=f"off the chord {said(places[n], style)} {side} of M", expected=offsets[n] / scale)
                for n, side in ((1, "left"), (1, "right"), (half_steps - 1, "left"), (half_steps - 1, "right"))
            ),
            Check(what="the radius you wrote down", expected=radius, on_paper=False),
        ),
        solved=Picture(
            scale=scale,
            box=box,
            strokes=(line, *_bent(radius, chord, rise)),
            points=(*ticks.items(), *marks),
        ),
        why=("Every offset is measured from one string; those left and right of M are alike, or one is a slip.",),
    )


def _bent(radius: float, chord: float, rise: float) -> tuple[Stroke, ...]:
    """An arc over its chord in straight pieces."""
    reach = asin(chord / 2 / radius)
    turns = [pi / 2 + reach * (1 - 2 * n / BENDS) for n in range(BENDS + 1)]
    points = [(radius * cos(turn), radius * sin(turn) - (radius - rise)) for turn in turns]
    return tuple(Stroke(points=pair, as_="line") for pair in pairwise(points))
