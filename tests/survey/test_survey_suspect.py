"""Which reading is wrong: the published networks where it can be told and where it cannot."""

import numpy as np
import pytest
from tests.published.krumm.test_krumm_distances import TestHoepke as Hoepke
from tests.survey.rooms import KITCHEN, KITCHEN_OUTLINE, readings

from floorwright.survey.adjustment import Datum
from floorwright.survey.observation import Distance, Observation
from floorwright.survey.solve import adjust
from floorwright.survey.suspect import Suspicion, suspicion, unchecked

START = np.array([[0.0, 0.0], [4200.0, 0.0], [4190.0, 3600.0], [0.0, 3600.0]])
WALL = Datum(kind="first wall", points=("SW", "SE"))


def judged(observations: list[Observation]) -> Suspicion:
    return suspicion(adjust(KITCHEN_OUTLINE, START, observations, WALL), observations, WALL)


def test_strang_and_borre_cannot_be_told() -> None:
    """R-01: one degree of freedom, T = 10.909, every standardised residual 3.303: wrong, but nobody can say which."""
    names = ("1", "2", "3", "P")
    start = 1000 * np.array([(170.71, 270.71), (100.00, 100.00), (241.42, 100.00), (170.71, 170.71)])
    observations = [
        Distance(key=f"{a}-P", a=a, b="P", measured=measured, sd=10.0)
        for a, measured in (("1", 100010.0), ("2", 100020.0), ("3", 100030.0))
    ]
    datum = Datum(kind="fixed points", points=("1", "2", "3"))
    found = suspicion(adjust(names, start, observations, datum), observations, datum)
    assert found.verdict == "cannot be told"
    assert set(found.adjustment.suspects) == {"1-P", "2-P", "3-P"}


def test_ghilani_cannot_be_told() -> None:
    """R-03: five readings, one degree of freedom; 5870.640 for Badger-Wisconsin is one of five ways out."""
    names = ("Badger", "Bucky", "Wisconsin", "Campus")
    start = 1000 * np.array(
        [(2410000.0, 390000.0), (2411820.0, 386881.222), (2415776.819, 391043.461), (2416892.670, 387603.450)]
    )
    observations = [
        Distance(key=f"{a}-{b}", a=a, b=b, measured=1000 * measured, sd=10.0)
        for a, b, measured in [
            ("Badger", "Wisconsin", 5870.302), ("Badger", "Campus", 7297.588), ("Wisconsin", "Campus", 3616.434),
            ("Wisconsin", "Bucky", 5742.878), ("Campus", "Bucky", 5123.760),
        ]
    ]  # fmt: skip
    datum = Datum(kind="fixed points", points=("Badger", "Bucky"))
    found = suspicion(adjust(names, start, observations, datum), observations, datum)
    assert found.verdict == "cannot be told"
    assert len(found.explanations) == 5
    first = next(e for e in found.explanations if e.key == "Badger-Wisconsin")
    assert first.would_read == pytest.approx(5870640.0, abs=1.0)


def test_hoepke_typing_error_is_the_one_suspect() -> None:
    """R-04, second version: 1059-75 read 50 mm long; the rest still strain the millimetre that is claimed for them."""
    network = Hoepke()
    start = 1000 * np.array(list(network.places.values()))
    observations = [
        Distance(key=f"{a}-{b}", a=a, b=b, measured=1000 * measured, sd=1.0)
        for a, b, measured in network.readings(1789.499)
    ]
    datum = Datum(kind="inner constraints")
    found = suspicion(adjust(tuple(network.places), start, observations, datum), observations, datum)
    assert found.verdict == "one suspect"
    assert found.adjustment.suspects == ("1059-75",)
    assert found.explanations[0].slip == pytest.approx(50.1, abs=0.1)
    assert not found.rest_agrees


def test_hoepke_without_it_names_nobody() -> None:
    """R-04 as published: s0 is five times what is claimed, and the largest residual is not clearly the largest."""
    network = Hoepke()
    start = 1000 * np.array(list(network.places.values()))
    observations = [
        Distance(key=f"{a}-{b}", a=a, b=b, measured=1000 * measured, sd=1.0)
        for a, b, measured in network.readings(1789.449)
    ]
    datum = Datum(kind="inner constraints")
    found = suspicion(adjust(tuple(network.places), start, observations, datum), observations, datum)
    assert found.verdict == "disagree"
    assert found.adjustment.suspects == ()


def test_good_readings_agree() -> None:
    assert judged(readings(KITCHEN)).verdict == "agree"


@pytest.mark.parametrize("slip", [-50.0, 50.0])
def test_slip_has_the_sign_of_the_reading(slip: float) -> None:
    """Measured less slip is what it would have read; so a reading too long has a slip over zero."""
    repeats = {f"{key}/2": value for key, value in KITCHEN.items()}
    found = judged(readings(KITCHEN | repeats | {"SE-NW": KITCHEN["SE-NW"] + slip}))
    assert found.verdict == "one suspect"
    (explanation,) = found.explanations
    assert explanation.key == "SE-NW"
    assert explanation.slip == pytest.approx(slip, abs=0.1)
    assert explanation.would_read == pytest.approx(5541.0, abs=0.1)
    (marked,) = [r for r in found.adjustment.residuals if r.suspect]
    assert marked.slip == pytest.approx(slip, abs=2.0)


def test_two_slips_are_not_blamed_on_one() -> None:
    repeats = {f"{key}/2": value for key, value in KITCHEN.items()}
    found = judged(readings(KITCHEN | repeats | {"SE-NW": 5541.0 + 60, "SW-SE": 4200.0 - 60}))
    assert found.verdict in ("disagree", "one suspect", "cannot be told")
    assert not found.rest_agrees
    assert set(found.adjustment.suspects) <= {"SE-NW", "SW-SE"}


def test_an_explanation_that_makes_another_room_is_none() -> None:
    observations = readings(KITCHEN | {"SW-NE": 5580.0})
    adjustment = adjust(KITCHEN_OUTLINE, START, observations, WALL)
    everything = suspicion(adjustment, observations, WALL)
    nothing = suspicion(adjustment, observations, WALL, fits=lambda _: False)
    assert len(everything.explanations) == 6
    assert nothing.verdict == "disagree"


def test_unchecked_readings() -> None:
    walls_and_one = readings(KITCHEN)[:5]
    adjustment = adjust(KITCHEN_OUTLINE, START, walls_and_one, WALL)
    assert len(unchecked(adjustment)) == 5
    assert all(r.standardised == 0.0 and r.slip == 0.0 for r in adjustment.residuals)
    assert unchecked(adjust(KITCHEN_OUTLINE, START, readings(KITCHEN), WALL)) == ()
