"""The proved search on named rooms, and how it ends before its time. See `test_layout_proof` for rooms by chance."""

import pytest
from tests.layout.oracle import over_the_bound
from tests.layout.rooms import irregular, rectangle, region_of

from floorwright.layout import cover
from floorwright.layout import search as module
from floorwright.layout.search import Found, search
from floorwright.pattern.catalogue import grid
from floorwright.tolerance import PROOF

CELL = grid((300.0, 300.0), 3.0)


def found_in(allowance: int = module.ALLOWANCE) -> Found:
    return search(irregular(), CELL, angle=0.3, centre=(0.0, 0.0), spare=0.0, aim="test", allowance=allowance)


def test_a_used_up_allowance_says_so_and_keeps_its_bound() -> None:
    full, short = found_in(), found_in(allowance=3)
    assert full.proof.status == "proved"
    assert short.tried < full.tried
    assert short.proof.status == "best found"
    assert short.proof.shortfall > PROOF
    assert short.proof.why.endswith("positions")
    assert short.narrowest <= full.narrowest + PROOF
    assert short.proof.bound >= full.narrowest
    assert not over_the_bound(irregular(), CELL, 0.3, short.proof.bound, short.placement, 8)


@pytest.mark.parametrize("after", [1, 3, 5])
def test_stopped_by_hand_returns_the_best_so_far(monkeypatch: pytest.MonkeyPatch, after: int) -> None:
    honest, calls = cover.try_at, 0

    def interrupted(*given: object) -> object:
        nonlocal calls
        calls += 1
        if calls > after:
            raise KeyboardInterrupt
        return honest(*given)  # type: ignore[arg-type]

    full = found_in()
    monkeypatch.setattr(module, "try_at", interrupted)
    found = found_in()
    assert found.stopped
    assert found.tried == after
    assert found.placement is not None
    assert found.proof.status == "best found"
    assert "by hand" in found.proof.why
    assert found.proof.bound >= full.narrowest > found.narrowest - PROOF


def test_progress_is_told_by_long_searches_only(monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[float] = []
    given = {"angle": 0.3, "centre": (0.0, 0.0), "spare": 0.0, "aim": "test", "progress": told.append}
    search(irregular(), CELL, **given)  # type: ignore[arg-type]
    assert told == []
    monkeypatch.setattr(module, "QUIET", 5)
    monkeypatch.setattr(module, "NEWS", 1)
    search(irregular(), CELL, **given)  # type: ignore[arg-type]
    assert told
    assert told == sorted(told)
    assert 0.0 <= told[0] <= told[-1] <= 1.0


def test_column_in_the_middle_of_a_tile_keeps_the_bound() -> None:
    # What a hole leaves must be held against the whole piece round it, or growing the tile lowers the measure.
    hole = [(260, 260), (340, 260), (340, 340), (260, 340)]
    region = region_of([(0, 0), (603, 0), (603, 603), (0, 603)], hole)
    cell = grid((600.0, 600.0), 3.0)
    found = search(region, cell, angle=0.3, centre=(0.0, 0.0), spare=0.0, aim="test")
    assert not over_the_bound(region, cell, 0.3, found.proof.bound, found.placement, 12)


def test_rectangle_in_named_cases() -> None:
    # 4000 x 5000 with 600 + 3: across 491, along 388, by hand: (4000 - 5 * 603 - 3) / 2 and (5000 - 7 * 603 - 3) / 2.
    found = search(
        rectangle(4000, 5000), grid((600.0, 600.0), 3.0), angle=0.0, centre=(0.0, 0.0), spare=0.0, aim="test"
    )
    assert found.proof.status == "proved"
    assert found.narrowest == pytest.approx(388.0, abs=PROOF)


def test_same_room_same_answer() -> None:
    one, other = found_in(), found_in()
    assert one == other


def test_a_floor_just_larger_than_a_tile_has_no_full_one() -> None:
    # 100.5 between walls square to a 100 tile with joint 3: a full tile never fits with nothing left over.
    region = region_of([(0, 0), (100.5, 0), (100.5, 102), (0, 102)])
    found = search(region, grid((100.0, 100.0), 3.0), angle=0.0, centre=(0.0, 0.0), spare=0.0, aim="test")
    assert found.narrowest < 100
