"""Squares dropped, parallels, mitres and arcs: what is marked follows from the geometry of what is drawn."""

import math

import pytest

from floorwright.practice.exercise import Exercise, Kind
from floorwright.practice.make import exercises
from floorwright.units import parse_length


def one(kind: Kind, number: int, units: str) -> Exercise:
    (made,) = exercises((kind,), first=number, count=1, units=units)
    return made


def figure(exercise: Exercise, what: str) -> float:
    """The length of an answer, mm."""
    (found,) = [answer.figure for answer in exercise.answers if answer.what.startswith(what)]
    return parse_length(found.split(" (")[0], "mm" if exercise.style.system == "metric" else "in")


def on_paper(exercise: Exercise) -> dict[str, float]:
    """What must be read on the paper, as it is on the floor, mm."""
    return {check.what: check.expected * exercise.given.scale for check in exercise.checks if check.on_paper}


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("number", [1, 2, 7, 40])
class TestFurtherConstructions:
    def test_a_dropped_square_is_square(self, number: int, units: str) -> None:
        """P, X and both cuts: four equal sides, so that its diagonals cross square (a rhombus) and halve each other."""
        made = one("perpendicular", number, units)
        read, at = on_paper(made), dict(made.solved.points)
        sides = [math.dist(at[a], at[b]) for a in ("P", "X") for b in ("F1", "F2")]
        assert sides == pytest.approx([read["from F1 to X"]] * 4, abs=1e-6)
        assert math.hypot(read["from F1 to F2"], read["from P to X"]) == pytest.approx(2 * sides[0])
        (across,) = [check.expected for check in made.checks if not check.on_paper]
        assert across == pytest.approx(read["from F1 to F2"] / 2)

    def test_a_parallel_is_as_far_off_at_both_ends(self, number: int, units: str) -> None:
        made = one("parallel", number, units)
        read = on_paper(made)
        offs = [off for what, off in read.items() if "square up" in what]
        assert len(offs) == 3
        assert offs == pytest.approx([offs[0]] * 3)
        marks = dict(made.solved.points)
        apart = math.dist(marks["A"], marks["B"])
        assert read["from A to where the arc of B touches it"] == pytest.approx(math.hypot(apart, offs[0]))
        # Half as far apart, twice as far out; both are printed to a tenth of a mm or a thirty-second.
        step = 0.1 if units == "mm" else 25.4 / 32
        assert figure(made, "with the marks half") == pytest.approx(2 * figure(made, "out of parallel"), abs=1.6 * step)

    def test_a_mitre_halves_its_corner(self, number: int, units: str) -> None:
        made = one("mitre", number, units)
        at, read = dict(made.solved.points), on_paper(made)
        first, second, mitre = (math.atan2(at[name][1], at[name][0]) for name in ("E1", "E2", "X"))
        assert mitre - first == pytest.approx(second - mitre)
        assert math.degrees(mitre - first) == pytest.approx(float(made.answers[0].figure.rstrip("°")), abs=0.051)
        assert abs(math.degrees(second - first) - 90) > 5
        assert read["from K to X"] == pytest.approx(math.hypot(*at["X"]))
        assert read["from E1 to E2"] == pytest.approx(math.dist(at["E1"], at["E2"]))

    def test_an_arc_lies_on_one_circle(self, number: int, units: str) -> None:
        """Every mark is a radius from the centre that the three points of chord and rise have."""
        made = one("arc", number, units)
        (radius,) = [check.expected for check in made.checks if not check.on_paper]
        at = dict(made.solved.points)
        rise = made.solved.box[3]
        centre = (0.0, rise - radius)
        marks = [place for name, place in at.items() if name != "M"]
        assert [math.dist(place, centre) for place in marks] == pytest.approx([radius] * len(marks))
        read = list(on_paper(made).values())
        assert read[0] == pytest.approx(read[1])
        assert read[0] == pytest.approx(at["1"][1])
