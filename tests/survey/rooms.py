"""Rooms and readings shared by the tests of the survey. All made-up; random ones are drawn by a seeded generator."""

import math
from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from floorwright.geometry.measure import turns
from floorwright.geometry.region import Points
from floorwright.survey.accuracy import EU_II, sd
from floorwright.survey.adjustment import Datum
from floorwright.survey.observation import Distance, Observation, Square
from floorwright.survey.survey import Direction, SurveyResult, survey_room
from floorwright.units import METRIC

Places = Mapping[str, tuple[float, float]]

KITCHEN = {"SW-SE": 4200.0, "SE-NE": 3612.0, "NE-NW": 4210.0, "NW-SW": 3588.0, "SW-NE": 5530.0, "SE-NW": 5541.0}
"""Larch Row kitchen, scenario S2: walls from the SW corner and both diagonals."""

KITCHEN_OUTLINE = ("SW", "SE", "NE", "NW")

ELL: Places = {
    "A": (0.0, 0.0), "B": (6000.0, 0.0), "C": (6000.0, 2500.0), "D": (3000.0, 2500.0), "E": (3000.0, 5000.0),
    "F": (0.0, 5000.0),
}  # fmt: skip
ELL_WALLS = ("A-B", "B-C", "C-D", "D-E", "E-F", "F-A")


def tape(key: str, measured: float) -> Distance:
    """A distance read with a class II tape; the key may end in /2 for a repeat."""
    a, b = key.split("/")[0].split("-")
    return Distance(key=key, a=a, b=b, measured=measured, sd=sd(measured, EU_II))


def readings(measured: Mapping[str, float]) -> list[Observation]:
    return [tape(key, value) for key, value in measured.items()]


def exact(places: Places, keys: Iterable[str]) -> dict[str, float]:
    """What each pair of points reads with no error at all."""
    return {key: math.dist(*(places[name] for name in key.split("/")[0].split("-"))) for key in keys}


def square(at: str, after: str, before: str, within: float = 2.0) -> Square:
    """A corner taken as square, within so many mm over a metre."""
    return Square(key=f"square {at}", at=at, a=after, b=before, sd=math.atan2(within, 1000.0))


def survey(
    outline: Sequence[str],
    observations: Sequence[Observation],
    *,
    direction: Direction = "anticlockwise",
    inward: Sequence[str] = (),
    wall_names: Mapping[str, tuple[str, str]] | None = None,
    hidden: Sequence[str] = (),
    datum: Datum | None = None,
) -> SurveyResult:
    return survey_room(
        name="room",
        outline=outline,
        direction=direction,
        inward=inward,
        observations=observations,
        wall_names=wall_names or {},
        hidden=hidden,
        datum=datum,
        style=METRIC,
    )


def codes(result: SurveyResult) -> list[str]:
    return [finding.code for finding in result.findings]


def random_room(rng: np.random.Generator) -> tuple[Places, list[str]]:
    """A convex room of 4 to 7 corners or an L out of square, and its corners that turn in."""
    if rng.integers(2):
        count = int(rng.integers(4, 8))
        around = 2 * np.pi * (np.arange(count) + rng.uniform(-0.25, 0.25, count)) / count
        ring = np.column_stack([rng.uniform(1500, 5000) * np.cos(around), rng.uniform(1500, 4000) * np.sin(around)])
    else:
        w, h = rng.uniform(3000, 7000, 2)
        p, q = rng.uniform(0.35, 0.7, 2)
        ring = np.array([[0, 0], [w, 0], [w, q * h], [p * w, q * h], [p * w, h], [0, h]]) + rng.normal(0, 15, (6, 2))
    names = [chr(ord("A") + i) for i in range(len(ring))]
    inward = [name for name, turn in zip(names, turns(ring), strict=True) if turn < 0]
    return {name: (float(x), float(y)) for name, (x, y) in zip(names, ring, strict=True)}, inward


def from_first_corner(places: Places) -> Points:
    """The true room in the frame of a survey: first corner (0, 0), the next along x."""
    ring = np.array(list(places.values()))
    moved = ring - ring[0]
    x, y = moved[1] / np.hypot(*moved[1])
    return np.asarray(moved @ np.array([[x, -y], [y, x]]), dtype=np.float64)


def at(result: SurveyResult) -> Points:
    """The corners of a result, (n, 2) mm."""
    return np.array([(corner.x, corner.y) for corner in result.corners])
