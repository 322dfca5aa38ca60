"""One slip in a random over-measured room: it is found, and no good reading is blamed with confidence."""

import numpy as np
from benchmarks.snooping import WELL, case

ROOMS = 40


def test_the_wrong_reading_comes_first_and_none_is_wronged() -> None:
    rng = np.random.default_rng(7)
    cases = [case(rng) for _ in range(ROOMS)]
    well = [one.outcome for one in cases if one.redundancy > WELL]
    assert len(well) > ROOMS // 3
    assert sum(outcome in ("named", "first of a tie") for outcome in well) >= 0.95 * len(well)
    assert sum(one.outcome == "wronged" for one in cases) <= 0.02 * ROOMS
    assert all(one.outcome != "missed" for one in cases)
