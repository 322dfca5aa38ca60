"""Rooms read with angles and with offsets from a line, and what the survey says when one of those is wrong."""

import math

import numpy as np
import pytest
from tests.survey.rooms import codes, from_first_corner, readings, survey

from floorwright.survey.loci import Circle, Line, locus
from floorwright.survey.observation import Along, Angle, Observation, Offset

ROOM = {"A": (0.0, 0.0), "B": (4000.0, 0.0), "C": (4030.0, 2990.0), "D": (-15.0, 3010.0)}


def angle(at: str, a: str, b: str, off: float = 0.0, sd: float = math.radians(0.2)) -> Angle:
    """The true angle and so many degrees."""
    (px, py), (ax, ay), (bx, by) = (ROOM[name] for name in (at, a, b))
    true = (math.atan2(by - py, bx - px) - math.atan2(ay - py, ax - px)) % (2 * math.pi)
    return Angle(key=f"angle {at}", at=at, a=a, b=b, measured=true + math.radians(off), sd=sd)


def out_from_first_wall(point: str, *, wrong: float = 0.0) -> list[Observation]:
    x, y = ROOM[point]
    return [
        Along(key=f"{point} along A-B", a="A", at=point, b="B", measured=x, sd=3.0),
        Offset(key=f"{point} off A-B", a="A", at=point, b="B", measured=y + wrong, sd=1.0),
    ]


def tapes(*keys: str, wrong: float = 0.0) -> list[Observation]:
    return list(readings({key: math.dist(*(ROOM[name] for name in key.split("-"))) + wrong for key in keys}))


def test_walls_and_angles_fix_a_room() -> None:
    result = survey(tuple(ROOM), [*tapes("A-B", "B-C", "D-A"), angle("A", "B", "D"), angle("B", "C", "A")])
    assert result.adjustment is not None
    assert result.adjustment.xy == pytest.approx(from_first_corner(ROOM), abs=1e-3)


def test_offsets_from_one_wall_fix_a_room() -> None:
    result = survey(tuple(ROOM), [*tapes("A-B"), *out_from_first_wall("C"), *out_from_first_wall("D")])
    assert result.adjustment is not None
    assert result.adjustment.xy == pytest.approx(from_first_corner(ROOM), abs=1e-3)
    assert not {"survey-too-few", "survey-two-shapes"} & set(codes(result))


@pytest.mark.parametrize(("off", "way"), [(3.0, "too wide"), (-3.0, "too narrow")])
def test_a_wrong_angle_is_named(off: float, way: str) -> None:
    walls = tapes("A-B", "B-C", "C-D", "D-A", "A-C", "B-D")
    result = survey(tuple(ROOM), [*walls, angle("A", "B", "D", off)])
    (suspect,) = [finding for finding in result.findings if finding.code == "survey-suspect"]
    assert suspect.place == "angle A"
    assert way in suspect.found
    assert "degrees" in suspect.expected


def test_a_wrong_offset_is_named() -> None:
    walls = tapes("A-B", "B-C", "C-D", "D-A", "A-C", "B-D")
    result = survey(tuple(ROOM), [*walls, *out_from_first_wall("C", wrong=-60.0)])
    (suspect,) = [finding for finding in result.findings if finding.code == "survey-suspect"]
    assert suspect.place == "C off A-B"
    assert suspect.found.endswith("60 too short")


def test_a_corner_on_a_bowed_wall_may_turn_either_way() -> None:
    """P and Q lie 12 mm into the room and 8 mm behind the line A-B; nobody has to say which way they turn."""
    places = {"A": (0.0, 0.0), "P": (1500.0, 12.0), "Q": (2600.0, -8.0), "B": (4000.0, 0.0), "C": (4000.0, 3000.0)}
    places |= {"D": (0.0, 3000.0)}
    keys = ("A-B", "B-C", "C-D", "D-A", "A-C", "B-D")
    read: list[Observation] = list(
        readings({key: math.dist(*(places[name] for name in key.split("-"))) for key in keys})
    )
    for name in "PQ":
        x, y = places[name]
        read.append(Along(key=f"{name} along A-B", a="A", at=name, b="B", measured=x, sd=2.0))
        read.append(Offset(key=f"{name} off A-B", a="A", at=name, b="B", measured=y, sd=1.0))
    result = survey(tuple(places), read)
    assert result.adjustment is not None
    assert result.adjustment.xy == pytest.approx(from_first_corner(places), abs=1e-3)
    assert "survey-corner-turned" not in codes(result)
    (bowed,) = result.straightness
    assert (bowed.start, bowed.end, bowed.at) == ("A", "B", "P")
    assert bowed.out == pytest.approx(12.0, abs=0.01)
    assert bowed.over == pytest.approx(4000.0, abs=0.01)
    (said,) = [finding for finding in result.findings if finding.code == "survey-out-of-straight"]
    assert said.found == (
        "the wall from A to B bows into the room: out of straight by 12 over 4000, most at P; "
        "the best arc leaves it 7 off, so it stays from point to point"
    )


@pytest.mark.parametrize("degrees", [30.0, 90.0, 150.0, 180.0, 210.0, 300.0])
@pytest.mark.parametrize("point", ["P", "A", "B"])
def test_a_point_lies_on_the_locus_of_its_angle(degrees: float, point: str) -> None:
    """At the corner (P) the circle of equal angles, at either end (A, B) the line at that angle."""
    turned = math.radians(degrees)
    at = {"P": (300.0, -200.0), "A": (1300.0, 100.0)}
    ray = math.atan2(300.0, 1000.0) + turned
    at["B"] = (300.0 + 800.0 * math.cos(ray), -200.0 + 800.0 * math.sin(ray))
    observation = Angle(key="angle P", at="P", a="A", b="B", measured=turned, sd=0.01)
    where = locus(observation, point, {name: place for name, place in at.items() if name != point})
    if isinstance(where, Circle):
        assert point == "P"
        assert math.dist(where.centre, at[point]) == pytest.approx(where.radius, rel=1e-9)
    else:
        assert isinstance(where, Line)
        off = np.subtract(at[point], where.through)
        assert off[0] * where.direction[1] - off[1] * where.direction[0] == pytest.approx(0.0, abs=1e-6)
