"""Balance a wall: equal cuts at both ends, neither of them small; gaps, cuts, tiles and joints make the wall."""

from typing import Final

from floorwright.errors import FloorwrightError
from floorwright.job.solution import Solution
from floorwright.practice.bay import PAPER_SCALE, rectangle, solved, style_of
from floorwright.practice.exercise import Answer, Check, Exercise, Given, Picture, Stroke
from floorwright.practice.lots import Lots, either
from floorwright.setout.course import Course, printed
from floorwright.units import FINEST_MM, LengthStyle

TRIES: Final = 40
"""Draws until a wall comes out in equal cuts; about one in two does."""

STRIP: Final = 400.0
"""mm of floor, how high the course is drawn."""

EQUAL: Final = 0.5
"""mm; cuts that differ by less are equal to the graduation."""


def balance(number: int, units: str) -> Exercise:
    """Returns the exercise of balancing a wall: how many full tiles, how wide the two cuts.

    The layout decides: its proved best position of a grid in a bay that is square, of which one course is asked for.
    """
    lots, style = Lots("balance", number), style_of(units)
    for _ in range(TRIES):
        found = _wall(lots, units)
        if found is not None:
            return _exercise(number, units, style, *found)
    raise FloorwrightError(f"variation {number}: no wall that balances in {TRIES} draws")


def _wall(lots: Lots, units: str) -> tuple[Solution, Course] | None:
    """A wall drawn by lot with its course; None where the best position has no equal cuts or the sum is too plain."""
    inch = units == "in"
    tile = lots.whole(46, 52) * either("in", 0, 0.25) if inch else float(lots.whole(290, 330))
    joint = either("in", 0, lots.pick((0.125, 0.1875, 0.25))) if inch else float(lots.whole(2, 4))
    gap = either("in", 0, 0.25) if inch else 5.0
    length = lots.whole(9 * 16 * 8, 9 * 16 * 12) * either("in", 0, 0.125) if inch else float(lots.whole(2800, 3900))
    width = tile * 5 + joint * 4 + 2 * gap
    solution = solved(
        units,
        rectangle(length, width),
        {
            "control": {"first_line": {"by": "parallel", "wall": "A-B"}, "centre": {"by": "mid-point", "wall": "A-B"}},
            "goods": [{"name": "tile", "length": f"{tile} mm"}],
            "zones": [{"goods": "tile", "joint": f"{joint} mm", "gap": f"{gap} mm"}],
            "aims": {"least_piece": "half"},
        },
    )
    rows = [course for course in solution.courses if course.name.startswith("row") and "," not in course.name]
    if not rows:
        return None
    cuts = [part.length for part in rows[0].parts if part.kind == "cut"]
    equal = len(cuts) == 2 and abs(cuts[0] - cuts[1]) < EQUAL
    return (solution, rows[0]) if equal else None


def _exercise(number: int, units: str, style: LengthStyle, solution: Solution, course: Course) -> Exercise:
    layout = solution.layouts[0]
    tile, joint, gap = layout.cell.size[0], layout.chosen.joint, layout.gap[0]
    told = printed(course, style)
    tiles = sum(part.kind == "tile" for part in course.parts)
    joints = sum(part.kind == "joint" for part in course.parts)
    cut = next(part.length for part in course.parts if part.kind == "cut")
    clear = course.length - 2 * gap
    used = tiles * tile + joints * joint
    figures = [float(figure) for figure in told.figures]
    scale = PAPER_SCALE[units]

    def say(mm: float) -> str:
        is_graduated = abs(style.mm(style.steps(mm)) - mm) < float(FINEST_MM) / 2
        return style.text(mm, feet=False) if is_graduated else style.entered_text(mm)

    return Exercise(
        kind="balance",
        number=number,
        style=style,
        title="Balance the wall: equal cuts, none under half a tile",
        task=(
            "How many full tiles stand in a course along this wall, and how wide are the two cuts, when both are equal "
            "and neither is under half a tile?",
            "Write down the sum, from wall to wall: it must add up.",
            f"Draw the joints of the course on the wall, to scale {'1:25' if units == 'mm' else '½ inch to the foot'}.",
        ),
        given=Picture(scale=scale, box=(0.0, 0.0, course.length, STRIP), strokes=_walls(course.length)),
        table=Given(
            headings=("the wall", "a tile, measured", "joint", "gap at each wall"),
            rows=(
                (
                    style.text(course.length, unit=True),
                    style.entered_text(tile, unit=True),
                    style.entered_text(joint, unit=True),
                    style.entered_text(gap, unit=True),
                ),
            ),
        ),
        answers=(
            Answer(
                what="full tiles",
                figure=str(tiles),
                sum=f"between the gaps {say(course.length)} − 2 × {say(gap)} = {say(clear)}; "
                f"with one more {_one_more(cut - (tile + joint) / 2, style)}",
            ),
            Answer(
                what="each cut",
                figure=style.text(cut, feet=False, unit=True),
                sum=f"{tiles} × {say(tile)} + {joints} × {say(joint)} = {say(used)}; "
                f"({say(clear)} − {say(used)}) / 2 = {style.text(cut, feet=False)}",
            ),
            Answer(
                what="the wall",
                figure=style.text(float(told.total), unit=True),
                sum=" + ".join(say(figure) for figure in _folded(figures, course)) + f" = {say(float(told.total))}",
            ),
        ),
        checks=(
            Check(what="the cut you wrote down", expected=cut, on_paper=False),
            *(
                Check(what=what, expected=at / scale)
                for what, at in (
                    ("from the left wall to where the first full tile begins", gap + cut + joint),
                    ("from the left wall to where the last full tile ends", course.length - gap - cut - joint),
                )
            ),
            Check(what="your sum from wall to wall", expected=float(told.total), on_paper=False),
        ),
        solved=Picture(
            scale=scale,
            box=(0.0, 0.0, course.length, STRIP),
            strokes=(*_walls(course.length), *_drawn(course, figures)),
        ),
        why=(
            "A course with two cuts has a joint beside each of them: one joint more than there are full tiles.",
            "Where the cuts come out too small, leave a full tile out: half of it and half a joint go to each side.",
        ),
        exact=f"{tiles} full tiles",
    )


def _one_more(cut: float, style: LengthStyle) -> str:
    """What comes of one full tile more: it takes half of itself and half a joint from each cut."""
    return f"each cut would be {style.text(cut, feet=False)}" if cut > 0 else "there is no room for the cuts"


def _folded(figures: list[float], course: Course) -> list[float]:
    """The ends of a course as they are, all between them as one figure."""
    first = next(n for n, part in enumerate(course.parts) if part.kind == "cut") + 1
    last = len(figures) - first
    return [*figures[:first], sum(figures[first:last]), *figures[last:]]


def _walls(length: float) -> tuple[Stroke, ...]:
    ends = tuple(Stroke(points=((x, 0.0), (x, STRIP)), as_="wall") for x in (0.0, length))
    return (Stroke(points=((0.0, 0.0), (length, 0.0)), as_="joint"), *ends)


def _drawn(course: Course, figures: list[float]) -> tuple[Stroke, ...]:
    """Both edges of every joint of the course."""
    strokes, at = [], 0.0
    for part, figure in zip(course.parts, figures, strict=True):
        end = at + figure
        if part.kind in ("tile", "cut"):
            strokes += [Stroke(points=((x, 0.0), (x, STRIP)), as_="joint") for x in (at, end)]
            strokes.append(Stroke(points=((at, STRIP), (end, STRIP)), as_="joint"))
        at = end
    return tuple(strokes)
