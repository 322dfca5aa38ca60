"""Find the wrong reading: a room of five corners, every distance taken, one of them booked wrong."""

from math import dist
from typing import Final

from floorwright.errors import FloorwrightError
from floorwright.job.solution import Solution
from floorwright.practice.bay import Corners, all_pairs, readings, solved, style_of
from floorwright.practice.exercise import Answer, Check, Exercise, Given, Picture, Stroke
from floorwright.practice.lots import Lots, feet

TRIES: Final = 40

SCALE: Final = {"mm": 50.0, "in": 48.0}
"""1:50, or a quarter of an inch to the foot: the whole room stands on the paper."""

SLIPS: Final = {"mm": (100.0, -100.0, 200.0, -50.0, 300.0), "in": (feet(1), -feet(1), feet(0.5))}
"""What a reading is out by: units lost on the tape."""


def wrong_reading(number: int, units: str) -> Exercise:
    """Returns the exercise of finding the one reading of ten that is wrong, and what it should have been.

    Only such a slip is set as the survey itself names alone: what the readings cannot tell is no exercise.
    """
    lots = Lots("wrong reading", number)
    for _ in range(TRIES):
        corners = _room(lots, units)
        pairs = all_pairs(corners)
        wrong, slip = lots.pick(pairs), lots.pick(SLIPS[units])
        booked = _booked(corners, pairs, wrong, slip, units)
        solution = solved(units, corners, {}, booked)
        explained = solution.survey.explanations
        if len(explained) == 1 and explained[0].key == wrong:
            return _exercise(number, units, corners, booked, solution)
    raise FloorwrightError(f"variation {number}: no slip that the readings tell in {TRIES} draws")


def _room(lots: Lots, units: str) -> Corners:
    """A room with one corner cut off, none of its corners square."""
    if units == "mm":
        length, width, step = lots.step(3800, 5200, 100), lots.step(3000, 4200, 100), 5.0
        off = [step * lots.whole(-8, 8) for _ in range(4)]
        cut = lots.step(900, 1500, 50), lots.step(900, 1500, 50)
    else:
        length, width = feet(lots.step(13, 17, 0.5)), feet(lots.step(10, 14, 0.5))
        off = [feet(lots.whole(-4, 4) / 24) for _ in range(4)]
        cut = feet(lots.step(3, 5, 0.5)), feet(lots.step(3, 5, 0.5))
    return {
        "A": (0.0, 0.0),
        "B": (length, 0.0),
        "C": (length + off[0], width - cut[1]),
        "D": (length - cut[0], width + off[1]),
        "E": (off[2], width + off[3]),
    }


def _booked(corners: Corners, pairs: tuple[str, ...], wrong: str, slip: float, units: str) -> dict[str, str]:
    """Every distance to the mm or the sixteenth, the wrong one out by its slip."""
    grain = 1.0 if units == "mm" else 25.4 / 16
    booked = {}
    for pair in readings(corners, pairs):
        start, end = pair.split("-")
        read = dist(corners[start], corners[end]) + (slip if pair == wrong else 0.0)
        booked[pair] = f"{round(read / grain) * grain:.4f} mm"
    return booked


def _exercise(number: int, units: str, corners: Corners, booked: dict[str, str], solution: Solution) -> Exercise:
    style, scale = style_of(units), SCALE[units]
    explained = solution.survey.explanations[0]
    found = {one.key: one for one in solution.survey.residuals}
    measured = found[explained.key].measured
    box = _box(corners)
    base = Stroke(points=(corners["A"], corners["B"]), as_="wall")
    names = list(booked)
    rows = tuple((pair, style.text(_mm(booked[pair]), unit=True)) for pair in names)
    rest = explained.rest
    places = {name: (float(x), float(y)) for name, (x, y) in zip(rest.points, rest.xy, strict=True)}
    start, end = explained.key.split("-")
    looks = f"; it looks like {explained.recognised.what}" if explained.recognised else ""
    walls = all_pairs(corners)[: len(corners)]
    return Exercise(
        kind="wrong reading",
        number=number,
        style=style,
        title="One of these ten readings is wrong: find it",
        task=(
            f"A-B is drawn at {'1:50' if units == 'mm' else '¼ inch to the foot'}. Draw the room from the readings, by "
            "arcs about known corners.",
            "Nine readings agree. Name the one that does not, and write down what it should read.",
        ),
        given=Picture(
            scale=scale, box=box, strokes=(base,), points=tuple((name, corners[name]) for name in ("A", "B"))
        ),
        table=Given(headings=("from-to", "booked"), rows=rows),
        answers=(
            Answer(
                what="the wrong reading",
                figure=explained.key,
                sum="left out, the other nine agree; with any other left out they do not",
            ),
            Answer(
                what=f"{explained.key} should read",
                figure=style.text(explained.would_read, unit=True),
                sum=f"from the nine others; booked {style.text(measured, unit=True)}, out by "
                f"{style.text(abs(explained.slip), feet=False, unit=True)}{looks}",
            ),
        ),
        checks=(
            Check(what=f"what {explained.key} should read, as you wrote it", expected=explained.would_read,
                  on_paper=False),
            Check(what=f"{explained.key} on your drawing", expected=explained.would_read / scale),
            *(
                Check(what=f"{pair} on your drawing", expected=dist(places[pair[0]], places[pair[2]]) / scale)
                for pair in names
                if pair in {"B-E", "A-D", "E-B", "D-A"} and pair != explained.key
            ),
        ),
        solved=Picture(
            scale=scale,
            box=box,
            strokes=(
                *(Stroke(points=(places[a], places[b]), as_="wall") for a, b in (wall.split("-") for wall in walls)),
                Stroke(points=(places[start], places[end]), as_="suspect"),
            ),
            points=tuple(places.items()),
        ),
        why=(
            "A wrong reading spoils every triangle that it is in and no other: all bad triangles share it.",
            "With one reading to spare nothing could be told; here three are.",
        ),
        exact=explained.key,
    )  # fmt: skip


def _mm(text: str) -> float:
    return float(text.removesuffix(" mm"))


def _box(corners: Corners) -> tuple[float, float, float, float]:
    xs, ys = zip(*corners.values(), strict=True)
    return min(xs), min(ys), max(xs), max(ys)
