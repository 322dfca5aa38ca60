"""Right angles with one tape, 45s, and goods by the square metre: figures of manuals, trade pages and plain geometry.

Each source stands beside its figure; what is only geometry says so.
"""

from math import degrees, hypot, pi, radians, sqrt

import numpy as np
import pytest

import floorwright
from floorwright.control.accuracy import drift, reading_across
from floorwright.control.choices import Tools
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.pattern.catalogue import PATTERNS

FOOT = 304.8
INCH = 25.4

YARD = """
schema = 1
units = "ft"
[survey]
outline = ["A", "B", "C", "D"]
[survey.points]
A = [0, 0]
B = [60, 0]
C = [60, 50]
D = [0, 50]
[control]
first_line = { by = "mid-points", walls = ["A-B", "C-D"] }
centre = { by = "mid-point" }
compass = 0
tape = 25
square = "3-4-5"
"""

PATIO = """
schema = 1
units = "in"
[survey]
outline = ["A", "B", "C", "D"]
[survey.points]
A = [0, 0]
B = ["12ft", 0]
C = ["12ft", "10ft"]
D = [0, "10ft"]
[[goods]]
name = "Paver"
length = 8
width = 4
[[zones]]
goods = "Paver"
pattern = "basketweave"
abreast = 2
joint = 0
gap = 0
"""


def solved(text: str) -> Solution:
    job = load_text(text).job
    assert job is not None
    return floorwright.solve(job)


@pytest.mark.parametrize(
    ("along", "out", "across"),
    [
        # S-02: survey notes (civilconstructionworld, "Survey methods"): a 10 m tape, 3 m, and 5 and 6 m held together.
        (10 - 6, 3, 5),
        # S-03: an old handbook: pegs 40 ft apart, 80 ft on them, the 50 ft mark pulled: 30, 40 and 50.
        (40, 80 - 50, 50),
        # S-04: a framing text (boulderlibrary.net, "Checking reference lines"): 20 by 15 ft is 25 across.
        (20, 15, 25),
        # S-01: FAO irrigation manual, ch. 4: 0 and 12 m in the corner, 3 m on the line, 8 m pulled tight.
        (3, 12 - 8, 8 - 3),
    ],
)
def test_one_tape_makes_a_right_angle(along: float, out: float, across: float) -> None:
    assert reading_across(1000.0 * along, 1000.0 * out, pi / 2) == pytest.approx(1000.0 * across)


def test_the_biggest_triangle_of_a_25_ft_tape() -> None:
    """S-04: with a 25 ft tape 20 by 15 ft is the longest triangle that it reaches across, and the longest is best."""
    control = solved(YARD).control
    assert control is not None
    (made,) = [one for one in control.constructions if one.makes == "square line" and one.method == "3-4-5"]
    told = sorted({round(step.length / FOOT, 3) for step in made.steps if step.length})
    assert told == [15.0, 20.0, 25.0]


def test_equal_distances_on_a_square_cross_make_45() -> None:
    """S-07: a how-to page (dummies.com, 4 ft used): the same on both lines, squared out by as much: 45 goes there."""
    control = solved(YARD.replace('square = "3-4-5"\n', "").replace("compass = 0", "compass = 8")).control
    assert control is not None
    left, right = (line.angle for line in control.lines if line.name in ("45 left", "45 right"))
    assert (degrees(left - right)) % 180 == pytest.approx(90.0)
    # Geometry: the chords of such a cross are all as long, the arm times sqrt 2.
    marks = {name: (x, y) for made in control.constructions for step in made.steps for name, x, y in step.points}
    arms = [hypot(*np.subtract(marks[f"E{number}"], control.centre)) for number in range(1, 5)]
    assert arms == pytest.approx([arms[0]] * 4)
    chords = [one.expected for one in control.checks if all(end.startswith("8'-0\"") for end in one.between)]
    assert len(chords) == 4
    assert chords == pytest.approx([arms[0] * sqrt(2)] * 4)


def test_one_degree_out_at_5_m() -> None:
    """Table of check values (geometry): 1 degree out is 87 mm over 5.0 m (87.3)."""
    assert drift(radians(1.0), 5000.0, Tools(compass=0, tape=8000, mark=0.0, set=1.0)) == pytest.approx(87.3, abs=0.05)


def test_pavers_by_the_square_foot() -> None:
    """Q-35, V-22: a how-to article (hunker.com): 4 x 8 in pavers, 144 / 32 = 4.5 to the square foot, 540 to 120."""
    cell = PATTERNS["basketweave"].cell({"": (8 * INCH, 4 * INCH)}, 0.0, {"abreast": 2})
    assert len(cell.pieces) / abs(np.linalg.det(cell.repeat)) * FOOT**2 == pytest.approx(4.5)
    solution = solved(PATIO)
    area = sum(piece.area for layout in solution.layouts for piece in layout.pieces)
    assert area / (32 * INCH**2) == pytest.approx(540.0)
    (order,) = solution.orders
    assert order.tiles == 540


def test_a_modular_size_is_a_work_size_and_a_joint() -> None:
    """Z-11: a tile dealer (fliesen-fessler.de) and an academic glossary: 97 x 197 and 3 make 100 x 200."""
    cell = PATTERNS["grid"].cell({"": (197.0, 97.0)}, 3.0, {})
    assert (hypot(*cell.a), hypot(*cell.b)) == pytest.approx((200.0, 100.0))
