"""Jobs solved once: a crooked kitchen in mm, a small bath in feet and inches, a bay to practise in, and rooms that turn
in, with a reveal, a column and a point to tie them by."""

from collections.abc import Callable
from importlib.resources import files

import pytest

from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve

UTILITY = """
schema = 1
title = "Willow End utility"
client = "Ms Hart"
by = "D. Price"
date = 2026-03-04
revision = "B"
units = "mm"

[survey]
outline = ["A", "B", "C", "D", "E", "F"]
direction = "anticlockwise"
inward = ["D"]

[survey.distances]
A-B = 4800
B-C = 2410
C-D = 1992
D-E = 1392
E-F = 2808
F-A = 3802
A-C = 5371
A-D = 3699.5
B-D = 3126.5
F-D = 3134
B-F = 6123.5

[[openings]]
name = "back door"
wall = "A-B"
from = "A"
offset = 600
width = 850
reveal = 120

[[obstacles]]
name = "column"
kind = "column"
wall = "F-A"
from = "A"
along = 1500
out = 700
length = 300
width = 250

[[obstacles]]
name = "pipe"
kind = "pipe"
wall = "E-F"
from = "E"
along = 900
out = 250
diameter = 22

[control]
first_line = { by = "opening", opening = "back door" }
centre = { by = "opening", opening = "back door" }

[[goods]]
name = "Slate"
length = 597
width = 297
box = 8

[[zones]]
goods = "Slate"
pattern = "brick bond"
fraction = "1/3"
joint = 3
gap = 6

[aims]
least_piece = "third"

[order]
spares = 6
"""

CROOKED = """
schema = 1
title = "Crooked L"
date = 2026-03-02
revision = "A"
units = "mm"
words = "UK"
paper = "A4"
rounding = 0.5

[survey]
outline = ["A", "B", "C", "D", "E", "F"]
direction = "anticlockwise"
inward = ["D"]
datum = "first wall"
[survey.tape]
class = "EU II"
reading = 0.5
[survey.walls]
near = "A-B"
right = "B-C"
[survey.distances]
A-B = 5012
B-C = 2417
C-D = 2235
D-E = 1902
E-F = 2800
F-A = 4290
A-C = 5582
A-D = 3687
B-D = 3270
A-E = 5127
B-F = 6611
D-F = 3387
A-T = 2343
B-T = 3946
F-T = 2916
D-T = 1430

[[openings]]
name = "door"
wall = "near"
from = "A"
offset = 800
width = 838
reveal = 70

[[obstacles]]
name = "column"
kind = "column"
wall = "right"
from = "B"
along = 900
out = 600
length = 300
width = 250

[control]
first_line = { by = "opening", opening = "door" }
centre = { by = "visual" }
compass = 2000
tape = 8000

[[goods]]
name = "Stone 400"
length = 398
width = 398
thickness = 12
box = 5

[[zones]]
name = "floor"
goods = "Stone 400"
pattern = "brick bond"
fraction = "1/3"
joint = 4
joint_most = 6
gap = 6
gap_most = 8

[aims]
least_piece = "third"
hidden = ["right"]

[order]
spares = 3
"""

CROOKED_INCHES = """
schema = 1
title = "Crooked L imperial"
date = 2026-03-02
revision = "A"
units = "in"
words = "US"
paper = "Letter"
rounding = "1/16in"

[survey]
outline = ["A", "B", "C", "D", "E", "F"]
direction = "anticlockwise"
inward = ["D"]
[survey.tape]
class = "US metal"
[survey.walls]
near = "A-B"
right = "B-C"
[survey.distances]
A-B = "16ft 5 5/16in"
B-C = "7ft 11 3/16in"
C-D = "7ft 4in"
D-E = "6ft 2 7/8in"
E-F = "9ft 2 3/16in"
F-A = "14ft 0 7/8in"
A-C = "18ft 3 3/4in"
A-D = "12ft 1 3/16in"
B-D = "10ft 8 3/4in"
A-E = "16ft 9 13/16in"
B-F = "21ft 8 5/16in"
D-F = "11ft 1 5/16in"
A-T = "7ft 8 1/4in"
B-T = "12ft 11 3/8in"
F-T = "9ft 6 13/16in"
D-T = "4ft 8 5/16in"

[[openings]]
name = "door"
wall = "near"
from = "A"
offset = "2ft 7 1/2in"
width = 33
reveal = "2 3/4in"

[[obstacles]]
name = "column"
kind = "column"
wall = "right"
from = "B"
along = "2' 11 1/2in"
out = 24
length = 12
width = 10

[control]
first_line = { by = "parallel", wall = "near" }
centre = { by = "mid-point", wall = "near" }

[[goods]]
name = "Porcelain 12"
length = "11 13/16in"
thickness = "3/8in"
box = 12

[[zones]]
name = "floor"
goods = "Porcelain 12"
joint = "3/16in"
angle = 45
gap = "1/4in"

[order]
spares = 6
"""


def solved(text: str) -> Solution:
    loaded = load_text(text)
    assert loaded.job is not None, loaded.findings
    return solve(loaded.job, findings=loaded.findings)


def example(name: str) -> str:
    return files("floorwright.examples").joinpath(f"{name}.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def solve_text() -> Callable[[str], Solution]:
    return solved


@pytest.fixture(scope="session")
def kitchen_text() -> str:
    return example("larch-row-kitchen")


@pytest.fixture(scope="session")
def kitchen(kitchen_text: str) -> Solution:
    return solved(kitchen_text)


@pytest.fixture(scope="session")
def bath() -> Solution:
    return solved(example("plot-7-bath"))


@pytest.fixture(scope="session")
def utility() -> Solution:
    return solved(UTILITY)


@pytest.fixture(scope="session")
def bay() -> Solution:
    return solved(example("training-bay"))


@pytest.fixture(scope="session", params=["kitchen", "bath", "utility"])
def solution(request: pytest.FixtureRequest) -> Solution:
    found: Solution = request.getfixturevalue(request.param)
    return found


@pytest.fixture(scope="session")
def crooked() -> Solution:
    return solved(CROOKED)


@pytest.fixture(scope="session")
def crooked_inches() -> Solution:
    return solved(CROOKED_INCHES)


@pytest.fixture(scope="session", params=["kitchen", "bath", "utility", "bay", "crooked", "crooked_inches"])
def any_room(request: pytest.FixtureRequest) -> Solution:
    found: Solution = request.getfixturevalue(request.param)
    return found
