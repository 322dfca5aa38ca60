"""Walls that are arcs: sizes by hand, accuracy by Monte Carlo, several points against scipy's least squares."""

import math

import numpy as np
import pytest
from scipy.optimize import least_squares
from tests.survey.rooms import codes, exact, readings, tape

from floorwright.geometry.arc import by_rise
from floorwright.survey.arcs import ArcReading, BookedArc
from floorwright.survey.observation import Along, Observation, Offset
from floorwright.survey.survey import SurveyResult, survey_room
from floorwright.units import METRIC

ROOM = {"A": (0.0, 0.0), "B": (3600.0, 0.0), "C": (3600.0, 3000.0), "D": (0.0, 3000.0)}
TAPED = ("A-B", "B-C", "C-D", "D-A", "A-C", "B-D")
ARC = by_rise(ROOM["C"], ROOM["D"], 700.0)


def booked(**more: object) -> BookedArc:
    return BookedArc(**{"wall": "bay", "start": "C", "end": "D", "sd": 1.0, **more})  # type: ignore[arg-type]


def room(arc: BookedArc, points: dict[str, tuple[float, float]] | None = None, off: float = 0.0) -> SurveyResult:
    places = {**ROOM, **(points or {})}
    keys = [*TAPED, *(f"{corner}-{name}" for name in points or {} for corner in "AB")]
    return survey_room(
        name="room",
        outline=("A", "B", "C", "D"),
        direction="anticlockwise",
        inward=(),
        observations=readings({key: read + off for key, read in exact(places, keys).items()}),
        wall_names={"bay": ("C", "D")},
        hidden=(),
        datum=None,
        style=METRIC,
        arcs=(arc,),
    )


def on_arc(*shares: float) -> dict[str, tuple[float, float]]:
    return {f"P{n}": ARC.at(share * ARC.length) for n, share in enumerate(shares)}


def test_rise_gives_the_arc_the_area_and_the_perimeter() -> None:
    result = room(booked(readings=(ArcReading(kind="rise", measured=700.0, sd=1.0),)))
    (found,) = result.arcs
    assert found.arc.rise == pytest.approx(700)
    assert found.arc.radius == pytest.approx(3600**2 / 5600 + 350)
    assert result.area == pytest.approx(3600 * 3000 + ARC.segment)
    assert result.perimeter == pytest.approx(3600 + 6000 + ARC.length)
    assert found.bows == "out"
    assert [wall.bulge for wall in result.walls] == pytest.approx([0, 0, 2 * 700 / 3600, 0])


def test_a_wall_that_bows_in_takes_floor_away() -> None:
    result = room(booked(out=False, readings=(ArcReading(kind="rise", measured=700.0, sd=1.0),)))
    assert result.area == pytest.approx(3600 * 3000 - ARC.segment)
    assert result.arcs[0].bows == "in"


def test_radius_gives_the_same_arc() -> None:
    result = room(booked(readings=(ArcReading(kind="radius", measured=ARC.radius, sd=2.0),)))
    assert result.arcs[0].arc.rise == pytest.approx(700)
    assert result.arcs[0].sd_radius == pytest.approx(2.0, rel=0.02)


def test_third_point_says_which_way_it_bows() -> None:
    for points in (on_arc(0.4), {"P0": (1500.0, 2800.0)}):
        result = room(booked(out=None, points=("P0",)), points)
        assert result.arcs[0].arc.rise * (1 if points["P0"][1] > 3000 else -1) > 0
    result = room(booked(out=None, points=("P0",)), on_arc(0.4))
    assert result.arcs[0].arc.rise == pytest.approx(700, abs=1e-3)


def test_accuracy_of_rise_radius_and_centre_is_that_of_trials() -> None:
    points = on_arc(0.35)
    result = room(booked(out=None, points=("P0",), sd=0.8), points)
    adjustment = result.adjustment
    assert adjustment is not None
    rng = np.random.default_rng(11)
    flat = adjustment.xy.ravel()
    trials = rng.multivariate_normal(flat, adjustment.covariance, 40_000, method="eigh").reshape(40_000, -1, 2)
    c, d, p = (trials[:, adjustment.points.index(name)] for name in ("C", "D", "P0"))
    out = (points["P0"] - np.array(ARC.centre)) / ARC.radius
    p = p + rng.normal(0, 0.8, (len(p), 1)) * out
    # The circle through three points, by its perpendicular bisectors.
    m = np.stack([d - c, p - c], axis=1)
    rhs = np.stack([(d**2).sum(1) - (c**2).sum(1), (p**2).sum(1) - (c**2).sum(1)], axis=1) / 2
    centre = np.linalg.solve(m, rhs[..., None])[..., 0]
    radius = np.hypot(*(centre - c).T)
    rise = radius - np.hypot(*((c + d) / 2 - centre).T)
    (found,) = result.arcs
    assert found.sd_radius == pytest.approx(radius.std(), rel=0.03)
    assert found.sd_rise == pytest.approx(rise.std(), rel=0.03)
    assert found.sd_centre == pytest.approx(tuple(centre.std(axis=0)), rel=0.03)


def test_several_points_and_a_rise_give_the_least_squares_arc() -> None:
    points = on_arc(0.2, 0.45, 0.8)
    bent = {name: (x + 3 * (-1) ** n, y + 4 * (n - 1)) for n, (name, (x, y)) in enumerate(points.items())}
    reading = ArcReading(kind="rise", measured=704.0, sd=1.5)
    result = room(booked(out=None, points=tuple(bent), readings=(reading,), sd=5.0), bent)
    adjustment = result.adjustment
    assert adjustment is not None
    names = ("C", "D", *bent)
    index = [2 * adjustment.points.index(name) + axis for name in names for axis in (0, 1)]
    # The wall's first corner may not move at all, so the covariance has no inverse: its root's is taken.
    values, vectors = np.linalg.eigh(adjustment.covariance[np.ix_(index, index)])
    kept = values > 1e-9
    start = adjustment.xy.ravel()[index]

    def off(
        unknown: np.ndarray[tuple[int, ...], np.dtype[np.float64]],
    ) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        rise, shares = unknown[0], unknown[1:]
        xy = (start + vectors[:, kept] @ (np.sqrt(values[kept]) * shares)).reshape(-1, 2)
        arc = by_rise(tuple(xy[0]), tuple(xy[1]), rise)
        away = (np.hypot(*(xy[2:] - arc.centre).T) - arc.radius) / 5.0
        return np.concatenate([shares, away, [(rise - 704.0) / 1.5]])

    best = least_squares(off, np.concatenate([[700.0], np.zeros(int(kept.sum()))]), xtol=1e-14)
    (found,) = result.arcs
    assert found.arc.rise == pytest.approx(best.x[0], abs=0.02)
    covariance = np.linalg.inv(best.jac.T @ best.jac)
    assert found.sd_rise == pytest.approx(math.sqrt(covariance[0, 0]), rel=0.01)


def test_readings_that_disagree_are_said() -> None:
    reads = tuple(ArcReading(kind="rise", measured=read, sd=1.0) for read in (700.0, 701.0, 720.0))
    assert "survey-arc-disagree" in codes(room(booked(readings=reads)))
    assert "survey-arc-disagree" not in codes(room(booked(readings=reads[:2])))


def test_a_chord_that_disagrees_with_rise_and_radius_is_said() -> None:
    """The corners as taped lie 60 mm nearer than an arc of that rise and radius has them, and nothing tells."""
    reads = (
        ArcReading(kind="rise", measured=700.0, sd=1.0),
        ArcReading(kind="radius", measured=(3660.0**2 / 5600 + 350), sd=2.0),
    )
    (said,) = [one for one in room(booked(readings=reads)).findings if one.code == "survey-arc-disagree"]
    assert "by rise it rises 700 mm and by radius it rises" in said.found
    assert "one of them is wrong, or the chord C-D is" in said.found
    assert said.remedy.startswith("measure rise, radius, the chord C-D again")


def test_a_point_that_disagrees_with_the_rise_is_said() -> None:
    off = {"P0": (ARC.at(ARC.length / 2)[0], ARC.at(ARC.length / 2)[1] + 25.0)}
    arc = booked(points=("P0",), readings=(ArcReading(kind="rise", measured=700.0, sd=1.0),))
    (said,) = [one for one in room(arc, off).findings if one.code == "survey-arc-disagree"]
    assert "by P0 it rises 725 mm and by rise it rises 700 mm" in said.found


@pytest.mark.parametrize(
    ("arc", "points", "word"),
    [
        ({"readings": (ArcReading(kind="radius", measured=1500.0, sd=1.0),)}, {}, "less than half of its chord"),
        ({"points": ("P0",), "out": None}, {"P0": (1800.0, 3000.0)}, "in line with"),
        ({"points": ("P0",), "out": True}, {"P0": (1800.0, 2800.0)}, "lies in the room"),
        ({"points": ("Q",), "out": None}, {}, "no reading fixes point Q"),
    ],
)
def test_what_makes_no_arc_is_said_and_the_wall_stays_straight(
    arc: dict[str, object], points: dict[str, tuple[float, float]], word: str
) -> None:
    result = room(booked(**arc), points)
    (finding,) = [one for one in result.findings if one.code == "survey-arc"]
    assert word in finding.found
    assert not result.arcs
    assert all(wall.bulge == 0 for wall in result.walls)


def test_more_than_half_a_circle_is_said() -> None:
    result = room(booked(readings=(ArcReading(kind="rise", measured=2400.0, sd=1.0),)))
    (finding,) = [one for one in result.findings if one.code == "survey-arc-wall"]
    assert "more than half a circle" in finding.found


def test_corners_at_an_arc_are_not_called_out_of_square() -> None:
    crooked = {**exact(ROOM, TAPED), "A-C": 4700.0, "B-D": 4672.0}
    result = survey_room(
        name="room", outline=("A", "B", "C", "D"), direction="anticlockwise", inward=(),
        observations=[tape(key, read) for key, read in crooked.items()], wall_names={}, hidden=(), datum=None,
        style=METRIC, arcs=(booked(wall="C-D", readings=(ArcReading(kind="rise", measured=700.0, sd=1.0),)),),
    )  # fmt: skip
    said = {one.place for one in result.findings if one.code == "survey-out-of-square"}
    assert said == {"corner A", "corner B"}


def offsets_on(outs: dict[str, tuple[float, float]]) -> list[Observation]:
    """Along and out of points read from the string A-B; out is to the left, into the room."""
    found: list[Observation] = []
    for name, (along, out) in outs.items():
        found.append(Along(key=f"{name} along", a="A", at=name, b="B", measured=along, sd=2.0))
        found.append(Offset(key=f"{name} off", a="A", at=name, b="B", measured=out, sd=1.0))
    return found


def strung(outs: dict[str, tuple[float, float]], *, inward: tuple[str, ...] = ()) -> SurveyResult:
    taped = exact(ROOM, TAPED)
    return survey_room(
        name="room", outline=("A", *outs, "B", "C", "D"), direction="anticlockwise", inward=inward,
        observations=[*readings(taped), *offsets_on(outs)], wall_names={}, hidden=(), datum=None, style=METRIC,
    )  # fmt: skip


def test_offsets_from_a_string_that_lie_on_an_arc_say_so_and_what_to_write() -> None:
    bow = by_rise(ROOM["A"], ROOM["B"], 60.0)
    outs = {f"M{n}": (900.0 * n, -bow.offset(900.0 * n)) for n in (1, 2, 3)}
    (bowed,) = strung(outs).straightness
    assert bowed.is_arc
    assert bowed.radius == pytest.approx(bow.radius, rel=1e-3)
    (said,) = [one for one in strung(outs).findings if one.code == "survey-out-of-straight"]
    assert "lie on an arc of radius 27030 within" in said.found
    assert 'wall = "A-B", points = ["M1", "M2", "M3"]' in said.remedy


def test_offsets_of_a_wall_that_is_dented_fit_no_arc() -> None:
    outs = {"M1": (900.0, -40.0), "M2": (1800.0, -8.0), "M3": (2700.0, -35.0)}
    result = strung(outs, inward=("M2",))
    (bowed,) = result.straightness
    assert not bowed.is_arc
    (said,) = [one for one in result.findings if one.code == "survey-out-of-straight"]
    assert "stays from point to point" in said.found
    assert "survey.arcs" not in said.remedy


def test_one_offset_tells_nothing_of_an_arc() -> None:
    (bowed,) = strung({"M1": (1800.0, -40.0)}).straightness
    assert bowed.radius is None
