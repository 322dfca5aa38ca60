"""Three jobs solved once: a crooked kitchen in mm, a small bath in feet and inches, and a room that turns in."""

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
