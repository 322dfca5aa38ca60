"""Angles and offsets of a job file as observations, and what cannot be so in them."""

import math

import pytest

from floorwright.geometry.measure import offset_from_line
from floorwright.job.inputs.observations import observations
from floorwright.job.load import load_text
from floorwright.job.solve import solve
from floorwright.job.write.text import job_text
from floorwright.survey.observation import Along, Angle, Offset

BOOKED = """\
schema = 1
units = "mm"
[survey]
outline = ["A", "B", "C", "D"]
direction = "DIRECTION"
[survey.walls]
S = "A-B"
[survey.distances]
A-B = [4000, 4001]
B-C = 3000
[[survey.angles]]
corner = "B"
angle = 90.2
within_degrees = 0.1
[[survey.offsets]]
point = "D"
wall = "S"
from = "B"
along = 4003
out = 2998
[[survey.offsets]]
point = "P"
line = ["A", "B"]
along = 1000
out = -20
within = 2
"""


def booked(direction: str = "anticlockwise", **changes: str) -> str:
    text = BOOKED.replace("DIRECTION", direction)
    for old, new in changes.items():
        assert old in text
        text = text.replace(old, new)
    return text


def test_signs_and_ends() -> None:
    job = load_text(booked()).job
    assert job is not None
    by_key = {o.key: o for o in observations(job)}
    assert list(by_key) == ["A-B", "A-B/2", "B-C", "angle B", "D along S", "D off S", "P along A-B", "P off A-B"]
    assert by_key["angle B"] == Angle(
        key="angle B", at="B", a="C", b="A", measured=math.radians(90.2), sd=math.radians(0.1)
    )
    along, off = by_key["D along S"], by_key["D off S"]
    assert isinstance(along, Along)
    assert (along.a, along.b, along.measured) == ("B", "A", 4003.0)
    assert along.sd > 0.01 * 2998
    assert isinstance(off, Offset)
    assert (off.a, off.b, off.measured) == ("A", "B", 2998.0)
    outside = by_key["P off A-B"]
    assert isinstance(outside, Offset)
    assert (outside.measured, outside.sd) == (-20.0, 2.0)


def test_out_from_a_wall_is_into_the_room_whichever_way_it_was_booked() -> None:
    text = booked("clockwise").replace('["A", "B", "C", "D"]', '["D", "C", "B", "A"]')
    job = load_text(text).job
    assert job is not None
    result = solve(job).survey
    assert result.adjustment is not None
    assert result.area == pytest.approx(12.02e6, rel=1e-3)


def test_written_and_read_again() -> None:
    job = load_text(booked()).job
    assert job is not None
    again = load_text(job_text(job))
    assert again.job == job


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('corner = "B"', 'corner = "X"', "job-unknown-corner"),
        ("angle = 90.2", "angle = 400", "job-number"),
        ("angle = 90.2", 'angle = 90.2\nbetween = ["A", "A"]', "job-distance"),
        ('wall = "S"', 'wall = "W9"', "job-unknown-wall"),
        ('wall = "S"\nfrom = "B"', "", "job-missing-key"),
        ('wall = "S"', 'wall = "S"\nline = ["A", "C"]', "job-range"),
        ('from = "B"', 'from = "C"', "job-unknown-corner"),
        ('point = "D"', 'point = "A"', "job-distance"),
        ('line = ["A", "B"]', 'line = ["A", "Z"]', "job-unknown-corner"),
        ('line = ["A", "B"]', 'line = ["A"]', "job-size"),
    ],
)
def test_what_cannot_be_so(old: str, new: str, code: str) -> None:
    loaded = load_text(booked(**{old: new}))
    assert loaded.job is not None
    errors = [finding for finding in loaded.findings if finding.severity == "error"]
    assert [finding.code for finding in errors] == [code]
    assert all(":" in finding.place for finding in errors)


BOWED = """\
schema = 1
units = "mm"
[survey]
outline = ["A", "P", "Q", "B", "C", "D"]
DIRECTION
[survey.distances]
A-B = 4000
B-C = 3000
C-D = 4010
D-A = 3010
A-C = 5002
B-D = 5014
[[survey.offsets]]
point = "P"
line = ["A", "B"]
held = 20
along = 1000
out = 11
[[survey.offsets]]
point = "Q"
line = ["B", "A"]
held = 20
along = 2000
out = 6
"""


@pytest.mark.parametrize("clockwise", [False, True])
@pytest.mark.parametrize("turned", [False, True])
def test_a_wall_by_a_string_held_off_it(clockwise: bool, turned: bool) -> None:
    """Held 20 off both corners, the string is 11 off the wall at P and 6 at Q: the wall bows in by 9 and by 14."""
    text = BOWED.replace("DIRECTION", f'direction = "{"clockwise" if clockwise else "anticlockwise"}"')
    if clockwise:
        text = text.replace('["A", "P", "Q", "B", "C", "D"]', '["D", "C", "B", "Q", "P", "A"]')
    if turned:
        text = text.replace('line = ["A", "B"]\nheld = 20\nalong = 1000', 'line = ["B", "A"]\nheld = 20\nalong = 3000')
    job = load_text(text).job
    assert job is not None
    result = solve(job).survey
    (wall,) = result.straightness
    assert wall.at == "Q"
    assert wall.out == pytest.approx(14.0, abs=0.1)
    ends = {corner.name: (corner.x, corner.y) for corner in result.corners}
    bow = offset_from_line([ends["P"]], ends["A"], ends["B"])
    assert float(bow[0]) == pytest.approx(9.0, abs=0.1)
    (said,) = [finding for finding in result.findings if finding.code == "survey-out-of-straight"]
    assert "bows into the room: out of straight by 14 over 4000" in said.found


def test_a_string_is_held_off_corners_only() -> None:
    loaded = load_text(BOWED.replace("DIRECTION", "").replace('line = ["A", "B"]', 'line = ["A", "S"]'))
    assert {"job-unknown-corner", "job-range"} >= {f.code for f in loaded.findings if f.severity == "error"}
    assert loaded.job is not None
    assert len(loaded.job.survey.offsets) == 1
