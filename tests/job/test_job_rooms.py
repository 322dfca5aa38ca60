"""Rooms that run through, from the job file on."""

import pytest

import floorwright
from floorwright.findings import has_error
from floorwright.geometry.measure import region_area
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.write.text import job_text
from floorwright.sheets.pack import pack

TWO = """
schema = 1
title = "Two rooms"
units = "mm"
[survey]
name = "dining"
outline = ["A", "B", "C", "D"]
square = [{ corner = "A" }, { corner = "B" }, { corner = "C" }, { corner = "E" }, { corner = "F" }, { corner = "G" }]
[survey.distances]
A-B = 4000
B-C = 3000
C-D = 4000
D-A = 3000
D-E = 100
E-F = 3500
F-G = 2500
G-H = 3500
H-E = 2500
C-F = 509.9
[[survey.straight]]
points = ["A", "D", "E"]
[[rooms]]
name = "study"
outline = ["E", "F", "G", "H"]
[[openings]]
name = "dining side"
wall = "C-D"
from = "D"
offset = 1000
width = 800
[[openings]]
name = "study side"
wall = "E-F"
from = "E"
offset = 1000
width = 800
[[openings]]
name = "window"
wall = "A-B"
from = "A"
offset = 1500
width = 900
[[links]]
rooms = ["dining", "study"]
openings = ["dining side", "study side"]
name = "arch"
[control]
first_line = { by = "opening", opening = "dining side" }
centre = { by = "mid-point", wall = "C-D" }
[[goods]]
name = "White 300"
length = 297
[[zones]]
goods = "White 300"
joint = 3
gap = 5
[aims]
least_piece = "third"
"""


def solved(text: str) -> Solution:
    loaded = load_text(text)
    assert loaded.job is not None
    assert loaded.is_sound, loaded.findings
    return floorwright.solve(loaded.job, findings=loaded.findings)


@pytest.fixture(scope="module")
def two() -> Solution:
    return solved(TWO)


def test_a_doorway_joins_two_rooms(two: Solution) -> None:
    assert not has_error(two.findings), two.findings
    assert two.room is not None
    assert two.region is not None
    assert [room.name for room in two.survey.rooms] == ["dining", "study"]
    assert region_area(two.region) == pytest.approx(4000 * 3000 + 3500 * 2500 + 800 * 100, rel=1e-3)
    assert {"arch jamb left", "arch jamb right", "C-D left", "C-D right"} <= {wall.name for wall in two.room.walls}
    assert [opening.name for opening in two.room.openings] == ["window"]


def test_the_line_of_a_linked_doorway_and_the_whole_of_a_divided_wall_can_be_named(two: Solution) -> None:
    assert two.control is not None
    assert two.control.first_how == "in line with dining side"
    first = next(line for line in two.control.lines if line.name == "first line")
    assert first.through[0] == pytest.approx(1400, abs=1)


def test_one_lattice_runs_through_the_doorway(two: Solution) -> None:
    (layout,) = two.layouts
    dining, study = layout.rooms
    assert (dining.room, study.room) == ("dining", "study")
    assert dining.full + dining.cut + study.full + study.cut == len(layout.pieces)
    assert min(dining.worst, study.worst) == pytest.approx(layout.chosen.worst)
    assert layout.chosen.decides
    # Tiles run on past one face of the wall at least: there is no joint of a threshold there, and no gap.
    ends = [(piece.rings[0][:, 1].min(), piece.rings[0][:, 1].max()) for piece in layout.pieces]
    assert any(low < face - 10 and high > face + 10 for low, high in ends for face in (3000, 3100))


def test_it_is_written_as_it_was_read(two: Solution) -> None:
    text = job_text(two.job)
    again = load_text(text)
    assert again.job == two.job
    assert job_text(again.job) == text


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('points = ["A", "D", "E"]', 'points = ["A", "D", "E"]\n', ""),
        ('[[links]]\nrooms = ["dining", "study"]\nopenings = ["dining side", "study side"]\nname = "arch"\n', "",
         "plan-room-apart"),
        ('openings = ["dining side", "study side"]\n', "", "plan-no-mouth"),
        ('wall = "E-F"\nfrom = "E"\noffset = 1000', 'wall = "E-F"\nfrom = "E"\noffset = 2600', "plan-link-not-facing"),
    ],
    ids=["sound", "no link", "no mouth", "not facing"],
)  # fmt: skip
def test_what_is_wrong_with_rooms_is_one_error_with_its_place(old: str, new: str, code: str) -> None:
    assert old in TWO
    errors = [finding for finding in solved(TWO.replace(old, new)).findings if finding.severity == "error"]
    assert [finding.code for finding in errors] == ([code] if code else [])
    assert all(finding.place and finding.expected and finding.remedy for finding in errors)


def test_the_sheets_of_two_rooms_are_made(two: Solution) -> None:
    keys = [sheet.key for sheet in pack(two).sheets]
    assert {"room", "layout", "client"} <= set(keys)
