"""R-05. A loop of sides and directions, its misclosure and the compass rule: J. Mahun, open-access surveying notes,
Traverse Computations, chapter I "Coordinates", loop traverse example (jerrymahun.com). Feet.

R-06. A five-sided field: R. Patterson's prize question in The Analyst (1808), as quoted in an open text on least
squares (math.psu.edu); no answer was printed there, so that what is held against is recomputed. Perches.
"""

import math

import numpy as np
import pytest

from floorwright.survey.closure import Loop, loop_of
from floorwright.survey.observation import Angle, Distance, Observation
from floorwright.survey.outline import Outline
from floorwright.survey.survey import survey_room
from floorwright.units import METRIC


def dms(degrees: int, minutes: int, seconds: int) -> float:
    return degrees + minutes / 60 + seconds / 3600


LOOP = {
    "A": (180 + dms(68, 5, 35), 472.68),  # S 68 05 35 W
    "B": (360 - dms(19, 46, 0), 216.13),  # N 19 46 00 W
    "C": (dms(45, 55, 20), 276.52),  # N 45 55 20 E
    "D": (180 - dms(54, 59, 15), 382.24),  # S 54 59 15 E
}
"""Azimuth of the side from a corner to the next, degrees from north clockwise, and its length."""

LATITUDES = (-176.357, 203.395, 192.357, -219.312)
DEPARTURES = (-438.548, -73.093, 198.651, 313.065)
BALANCED = (-176.386, 203.382, 192.340, -219.336), (-438.574, -73.105, 198.636, 313.044)

FIELD = {"A": (45.0, 40.0), "B": (210.0, 25.0), "C": (175.0, 36.0), "D": (270.0, 29.6), "E": (20.0, 31.0)}
"""Degrees from north, clockwise, and perches: N 45 E 40; S 30 W 25; S 5 E 36; W 29.6; N 20 E 31."""


def booked(walk: dict[str, tuple[float, float]]) -> tuple[Outline, list[Observation]]:
    """The sides and the angles between them, of a loop walked clockwise, as a room anticlockwise."""
    names = list(walk)
    corners = (names[0], *reversed(names[1:]))
    outline = Outline(corners=corners, inward=frozenset(), straight=frozenset(), name="field")
    taken: list[Observation] = []
    for i, name in enumerate(names):
        ahead, behind = names[(i + 1) % len(names)], names[i - 1]
        taken.append(Distance(key=f"{name}-{ahead}", a=name, b=ahead, measured=walk[name][1], sd=0.05))
        # From the side ahead clockwise to the one behind, the inside on the right.
        inside = math.radians((walk[behind][0] + 180 - walk[name][0]) % 360)
        taken.append(Angle(key=f"angle {name}", at=name, a=behind, b=ahead, measured=inside, sd=1e-4))
    return outline, taken


def turned(legs: np.ndarray, loop: Loop, walk: dict[str, tuple[float, float]]) -> dict[str, tuple[float, float]]:
    """North and east of each leg, from the corner that it was booked from: ours are walked the other way, the first
    along x."""
    first = math.radians(90 - walk[loop.corners[1]][0])
    x, y = -legs.T
    east, north = x * math.cos(first) - y * math.sin(first), x * math.sin(first) + y * math.cos(first)
    starts = (*loop.corners[1:], loop.corners[0])
    # Along x runs the side booked from corners[1] to corners[0], backwards.
    return {name: (-float(n), -float(e)) for name, n, e in zip(starts, north, east, strict=True)}


class TestMahun:
    outline, taken = booked(LOOP)
    loop = loop_of(outline, taken)

    def test_misclosure(self) -> None:
        """Printed: +0.083 and +0.075 from rounded columns; unrounded 0.0827 and 0.0744, 0.1112 ft in 1347.57."""
        assert self.loop is not None
        assert self.loop.perimeter == pytest.approx(1347.57, abs=1e-9)
        assert self.loop.linear == pytest.approx(0.1112, abs=5e-5)
        assert self.loop.ratio == pytest.approx(12_116, abs=6)
        assert self.loop.angle == pytest.approx(0.0, abs=1e-9)

    def test_latitudes_and_departures(self) -> None:
        assert self.loop is not None
        found = turned(self.loop.legs, self.loop, LOOP)
        assert [found[name][0] for name in "ABCD"] == pytest.approx(LATITUDES, abs=6e-4)
        assert [found[name][1] for name in "ABCD"] == pytest.approx(DEPARTURES, abs=6e-4)
        assert sum(north for north, _ in found.values()) == pytest.approx(0.0827, abs=5e-5)
        assert sum(east for _, east in found.values()) == pytest.approx(0.0744, abs=6e-5)

    def test_compass_rule(self) -> None:
        """Printed to a thousandth, from rounded columns."""
        assert self.loop is not None
        found = turned(self.loop.balanced, self.loop, LOOP)
        assert [found[name][0] for name in "ABCD"] == pytest.approx(BALANCED[0], abs=1.1e-3)
        assert [found[name][1] for name in "ABCD"] == pytest.approx(BALANCED[1], abs=1.1e-3)
        assert np.abs(self.loop.balanced.sum(axis=0)).max() < 1e-9


def test_patterson() -> None:
    """0.1244 perches in 161.6, 1 in 1299."""
    loop = loop_of(*booked(FIELD))
    assert loop is not None
    assert loop.perimeter == pytest.approx(161.6)
    assert loop.linear == pytest.approx(0.1244, abs=5e-5)
    assert loop.ratio == pytest.approx(1299, abs=0.5)
    found = turned(loop.legs, loop, FIELD)
    assert found["A"] == pytest.approx((28.284, 28.284), abs=5e-4)
    assert found["D"] == pytest.approx((0.0, -29.6), abs=5e-4)
    ring = np.cumsum(loop.balanced, axis=0)
    x, y = ring.T
    assert (x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2 == pytest.approx(854.65, abs=5e-3)


def test_survey_tells_of_it_before_it_adjusts() -> None:
    """The loop of R-05 as a room in feet: the same misclosure, in feet and inches, and a room that closes."""
    outline, taken = booked({name: (azimuth, 304.8 * side) for name, (azimuth, side) in LOOP.items()})
    result = survey_room(
        name="field", outline=outline.corners, direction="anticlockwise", inward=(), observations=taken,
        wall_names={}, hidden=(), datum=None, style=METRIC,
    )  # fmt: skip
    (said,) = [finding for finding in result.findings if finding.code == "survey-misclosure"]
    assert "fail to close by 34 mm in 410739" in said.found
    assert "1 in 12 1" in said.found
    assert result.area / 304.8**2 == pytest.approx(102_936, abs=60)
