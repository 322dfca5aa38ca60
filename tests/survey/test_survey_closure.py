"""A room walked round by its walls and angles: what it fails to close by, how true that is, and what a job is told."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.survey.rooms import random_room

from floorwright.cli.report import survey_text
from floorwright.export.data import survey_data
from floorwright.job.load import load_text
from floorwright.job.solve import solve
from floorwright.survey.closure import Loop, loop_of
from floorwright.survey.observation import Angle, Distance, Observation, Square
from floorwright.survey.outline import Outline


def outline(names: str, inward: str = "") -> Outline:
    return Outline(corners=tuple(names), inward=frozenset(inward), straight=frozenset(), name="room")


def walls_and_angles(places: np.ndarray, names: str, rng: np.random.Generator | None = None) -> list[Observation]:
    """Every wall to 2 mm and every inside angle to 1 mm in a metre, with errors where they are drawn."""
    taken: list[Observation] = []
    for i, name in enumerate(names):
        after, before = (i + 1) % len(names), i - 1
        out, back = places[after] - places[i], places[before] - places[i]
        inside = math.atan2(back[1], back[0]) - math.atan2(out[1], out[0])
        drawn = rng.normal(size=2) if rng else (0.0, 0.0)
        wall = math.hypot(*out) + 2.0 * drawn[0]
        angle = inside % (2 * math.pi) + 1e-3 * drawn[1]
        taken.append(Distance(key=f"{name}-{names[after]}", a=name, b=names[after], measured=wall, sd=2.0))
        taken.append(Angle(key=f"angle {name}", at=name, a=names[after], b=names[before], measured=angle, sd=1e-3))
    return taken


ELL = np.array([[0, 0], [5000, 0], [5000, 3000], [2200, 3000], [2200, 4500], [0, 4500]], dtype=float)


def test_true_readings_close() -> None:
    loop = loop_of(outline("ABCDEF", "D"), walls_and_angles(ELL, "ABCDEF"))
    assert loop is not None
    assert loop.linear < 1e-9
    assert math.isinf(loop.ratio)
    assert loop.angle == pytest.approx(0.0, abs=1e-12)
    assert np.cumsum(loop.legs, axis=0) == pytest.approx(np.roll(ELL, -1, axis=0), abs=1e-9)


@pytest.mark.parametrize("unread", ["", "C", "A"])
def test_its_accuracy_is_that_of_many_walks(unread: str) -> None:
    """One standard deviation in the worst direction, against 4000 walks round the same room, within 5 %."""
    rng = np.random.default_rng(4)
    gaps, first = [], None
    for _ in range(4000):
        taken = [o for o in walls_and_angles(ELL, "ABCDEF", rng) if o.key != f"angle {unread}"]
        loop = loop_of(outline("ABCDEF", "D"), taken)
        assert loop is not None
        assert (loop.angle is None) == bool(unread)
        assert loop.corners[0] == (unread or "A")
        first = first or loop
        gaps.append(loop.gap)
    assert first is not None
    assert first.sd == pytest.approx(math.sqrt(np.linalg.eigvalsh(np.cov(np.array(gaps).T))[-1]), rel=0.05)


def test_no_loop_without_every_wall_and_all_corners_but_one() -> None:
    taken = walls_and_angles(ELL, "ABCDEF")
    assert loop_of(outline("ABCDEF", "D"), [o for o in taken if o.key != "B-C"]) is None
    assert loop_of(outline("ABCDEF", "D"), [o for o in taken if o.key not in ("angle B", "angle E")]) is None


def test_a_square_corner_counts_and_turns_in_where_it_is_booked_so() -> None:
    taken: list[Observation] = [o for o in walls_and_angles(ELL, "ABCDEF") if isinstance(o, Distance)]
    taken += [
        Square(key=f"square {name}", at=name, a="ABCDEF"[(i + 1) % 6], b="ABCDEF"[i - 1], sd=2e-3)
        for i, name in enumerate("ABCDEF")
    ]
    loop = loop_of(outline("ABCDEF", "D"), taken)
    assert loop is not None
    assert loop.linear < 1e-9


@given(st.integers(0, 10_000))
@settings(max_examples=30, deadline=None)
def test_the_compass_rule_closes_any_room(seed: int) -> None:
    rng = np.random.default_rng(seed)
    places = np.array(list(random_room(rng)[0].values()))
    names = "ABCDEFGHIJKLMN"[: len(places)]
    loop = loop_of(outline(names), walls_and_angles(places, names, rng))
    assert isinstance(loop, Loop)
    assert np.abs(loop.balanced.sum(axis=0)).max() < 1e-8
    moved = np.linalg.norm(loop.balanced - loop.legs, axis=1)
    assert moved == pytest.approx(np.array(loop.lengths) / loop.perimeter * loop.linear)


def test_a_repeat_counts_by_its_mean() -> None:
    taken = walls_and_angles(ELL, "ABCDEF")
    again = [Distance(key="A-B/2", a="B", b="A", measured=5008.0, sd=2.0)]
    loop = loop_of(outline("ABCDEF", "D"), [*taken, *again])
    assert loop is not None
    assert loop.lengths[0] == pytest.approx(5004.0)
    assert loop.linear == pytest.approx(4.0)


JOB = """\
schema = 1
units = "{units}"
[survey]
outline = ["A", "B", "C", "D"]
[survey.distances]
A-B = {walls[0]}
B-C = {walls[1]}
C-D = {walls[2]}
D-A = {walls[3]}
[[survey.angles]]
corner = "A"
angle = 90.1
[[survey.angles]]
corner = "B"
angle = 89.9
[[survey.angles]]
corner = "C"
angle = 90.2
[[survey.angles]]
corner = "D"
angle = 90.0
"""


@pytest.mark.parametrize(
    ("units", "walls", "said"),
    [
        ("mm", (4000, 3000, 4010, 3004), "fail to close by 16 mm in 14014 mm, 1 in 890"),
        ("in", ('"13ft"', '"10ft"', '"13ft 1/2in"', '"10ft 1/8in"'), 'fail to close by 3/4" in 46\'-0 5/8", 1 in'),
    ],
)
def test_a_job_is_told(units: str, walls: tuple[object, ...], said: str) -> None:
    loaded = load_text(JOB.format(units=units, walls=walls), "room.toml")
    assert loaded.job is not None
    solution = solve(loaded.job, findings=loaded.findings)
    (found,) = [finding for finding in solution.findings if finding.code == "survey-misclosure"]
    assert said in found.found
    assert "its angles add up to 0.20 degrees over 360" in found.found
    (loop,) = survey_data(solution)["loops"]
    assert loop["angle_deg"] == pytest.approx(0.2)
    assert sum(leg["balanced_x_mm"] for leg in loop["legs"]) == pytest.approx(0.0, abs=1e-3)
    assert "Walked round room:" in survey_text(solution)
