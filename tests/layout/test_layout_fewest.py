"""The proof of the search for the fewest: no position of a dense grid has fewer, over many rooms and five patterns."""

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from tests.layout.jobs import control_at, rectangle_room
from tests.layout.oracle import Judge, leaves_strip
from tests.layout.rooms import rectilinear, region_of, star
from tests.layout.test_layout_proof import CELLS

from floorwright.geometry.region import Region
from floorwright.layout.aims import FEWEST_CUTS, FEWEST_SMALL, FEWEST_TILES, WIDEST, Aim
from floorwright.layout.fewest import Fewest, fewest
from floorwright.layout.floor_lines import floor_lines
from floorwright.layout.score import Floor, least_sawn
from floorwright.layout.shapes import Shapes
from floorwright.layout.sides import sides_of_room
from floorwright.layout.sought import Search, begin, count_of, narrowest_at, seek
from floorwright.layout.trade_off import trade_off
from floorwright.layout.trial import Width
from floorwright.pattern.catalogue import grid
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import PROOF, RANK_STEP, TOUCH
from floorwright.units import METRIC

NAMES = (FEWEST_CUTS, FEWEST_TILES, FEWEST_SMALL)
SMALL = 60.0
FEW = range(30)
MANY = range(30, 180)


def floor_of(region: Region, aims: tuple[Aim, ...] = ()) -> Floor:
    room = rectangle_room(4000.0, 3000.0)
    return Floor(
        zone="floor",
        sides=sides_of_room(room, 0.0),
        region=region,
        gap=(0.0, 0.0),
        limit=0.0,
        centre=(0.0, 0.0),
        shift_sd=0.0,
        turn_sd=0.0,
        style=METRIC,
        aims=aims,
        lines=floor_lines(room, control_at((2000.0, 1500.0))),
    )


@cache
def case(seed: int) -> tuple[Region, UnitCell, float]:
    rng = np.random.default_rng(1000 + seed)
    cell = CELLS[seed % len(CELLS)]
    if seed // len(CELLS) % 2:
        return rectilinear(rng, 0.4), cell, (0.0, math.pi / 4, math.pi / 2)[seed % 3]
    region = star(rng, int(rng.integers(3, 41)), float(rng.uniform(1.5, 4)), int(rng.integers(0, 3)))
    return region, cell, (0.0, float(rng.uniform(0, math.pi)))[seed % 2]


def found(search: Search) -> dict[str, Fewest]:
    return {name: search.fewest(count_of(search, Aim(name=name, limit=SMALL))) for name in NAMES}


def dense(region: Region, cell: UnitCell, angle: float, steps: int, near: Placement | None) -> list[tuple[int, ...]]:
    """What every position of a grid that can be laid makes: cut, touched, small."""
    judge = Judge(region, cell)
    share = (np.arange(steps) + 0.37) / steps
    tried = [np.array([s, t]) @ cell.repeat for s in share for t in share]
    cos, sin = math.cos(angle), math.sin(angle)
    if near is not None:
        at = np.array(near.origin) @ np.array([[cos, -sin], [sin, cos]])
        tried += [at + np.array([dx, dy]) for dx in (-1.5, 0.3) for dy in (-0.2, 0.9)]
    made: list[tuple[int, ...]] = []
    for x, y in tried:
        placement = Placement(origin=(cos * x - sin * y, sin * x + cos * y), angle=angle)
        cut, touched, small, narrowest = judge.counts(placement, SMALL - RANK_STEP)
        if narrowest > least_sawn(cell) and not leaves_strip(region, cell, placement):
            made.append((cut, touched, small))
    return made


def check(seed: int, steps: int) -> int:
    """Returns how many of the counts are proved, having checked all of them."""
    region, cell, angle = case(seed)
    results = found(begin(floor_of(region), cell, angle, ()))
    judge = Judge(region, cell)
    for column, name in enumerate(NAMES):
        one = results[name]
        assert one.bound <= one.value
        if one.placement is not None:
            real = judge.counts(one.placement, SMALL - RANK_STEP)
            assert real[column] == one.value, name
            assert real[3] > least_sawn(cell) - 2 * TOUCH - RANK_STEP
        for made in dense(region, cell, angle, steps, one.placement):
            assert made[column] >= one.bound, name
    return sum(not one.why for one in results.values())


@pytest.mark.parametrize("seed", FEW)
def test_no_position_has_fewer(seed: int) -> None:
    assert check(seed, 4) == len(NAMES)


@pytest.mark.slow
@pytest.mark.parametrize("seed", MANY)
def test_no_position_of_many_rooms_has_fewer(seed: int) -> None:
    assert check(seed, 7) == len(NAMES)


def test_polygons_that_count_too_much_are_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    honest = Shapes.against

    def spoilt(shapes: Shapes, which: np.ndarray, corners: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        sure, unsure = honest(shapes, which, corners)
        return (sure | unsure, unsure & False) if shapes.owners > 1 else (sure, unsure)

    monkeypatch.setattr(Shapes, "against", spoilt)
    caught = 0
    for seed in range(8):
        try:
            check(seed, 6)
        except AssertionError:
            caught += 1
    assert caught >= 4


@pytest.mark.parametrize("seed", [33, 168])
def test_a_tile_that_need_not_be_cut_in_two_is_not(seed: int) -> None:
    """A corner of the room that turns in may stand in a tile, or just outside it and part what is left in two: no edge
    that cuts the tile tells which. Without those corners the search would call one cut too many the fewest."""
    region, cell, angle = case(seed)
    search = begin(floor_of(region), cell, angle, ())
    count = count_of(search, Aim(name=FEWEST_CUTS))
    best = search.fewest(count)
    assert best.placement is not None
    assert Judge(region, cell).counts(best.placement, SMALL)[0] == best.value == best.bound

    none = np.zeros(0, dtype=np.intp)
    empty = Shapes(normals=np.zeros((0, 1, 2)), limits=np.zeros((0, 1)), owner=none, owners=0)
    assert search.fewest(replace(count, partings=empty)).bound > best.value


def test_both_small_pieces_of_a_tile_count() -> None:
    """The tips of a diagonal grid at a column's sides: one tile leaves two small pieces, which only trying tells."""
    region = region_of(
        [(0.0, 0.0), (4010.0, 0.0), (4010.0, 3170.0), (0.0, 3170.0)],
        [(1500.0, 1200.0), (1914.0, 1200.0), (1914.0, 1614.0), (1500.0, 1614.0)],
    )
    cell, angle = grid((300.0, 300.0), 3.0), math.pi / 4
    search = begin(floor_of(region), cell, angle, ())
    limit = 120.0
    best = search.fewest(count_of(search, Aim(name=FEWEST_SMALL, limit=limit)))
    assert (best.why, best.bound) == ("", best.value)
    assert best.placement is not None
    judge = Judge(region, cell)
    assert judge.counts(best.placement, limit - RANK_STEP)[2] == best.value
    share = (np.arange(12) + 0.37) / 12
    for s, t in ((s, t) for s in share for t in share):
        x, y = np.array([s, t]) @ cell.repeat
        placement = Placement(origin=((x - y) / math.sqrt(2), (x + y) / math.sqrt(2)), angle=angle)
        small, narrowest = judge.counts(placement, limit - RANK_STEP)[2:]
        assert narrowest <= least_sawn(cell) or small >= best.value


def test_a_search_that_runs_out_says_how_far_it_may_fall_short() -> None:
    region, cell, angle = case(3)
    search = begin(floor_of(region), cell, angle, ())
    count = count_of(search, Aim(name=FEWEST_CUTS))
    whole = search.fewest(count)
    task = search._task((count,), any_will_do=False)
    part = fewest(task, allowance=20)
    assert part.bound <= whole.value <= part.value
    assert part.why == "stopped after 21 parts of the positions" or "20" in part.why


def test_ctrl_c_gives_the_best_so_far() -> None:
    region, cell, angle = case(3)
    search = begin(floor_of(region), cell, angle, ())
    task = search._task((count_of(search, Aim(name=FEWEST_CUTS)),), any_will_do=False)

    def stop(_share: float) -> None:
        raise KeyboardInterrupt

    import floorwright.layout.fewest as module

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "NEWS", 1)
        ended = fewest(task, progress=stop)
    assert ended.stopped
    assert ended.bound <= ended.value
    assert "by hand" in ended.why


def test_each_aim_is_searched_for_under_those_before_it() -> None:
    """A floor of 4000 x 3000 with tiles of 300 (our own calculation)."""
    ring = [(0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0)]
    region = Region(rings=(np.array(ring),), edges=(("S", "E", "N", "W"),))
    cell = grid((300.0, 300.0), 3.0)
    aims = (
        Aim(name=FEWEST_CUTS, within=5.0, own=True),
        Aim(name=WIDEST, own=True),
        Aim(name="full tile", walls=("S",), own=True),
        Aim(name=WIDEST, walls=("W",), own=True),
    )
    stages = seek(begin(floor_of(region, aims), cell, 0.0, ()))
    cuts, wide, full, west = stages
    # 13 x 303 and a tile's 61 over across, 9 x 303 and 273 along: a full tile at W and at S leaves 13 + 10 to cut.
    assert (cuts.proof.status, cuts.proof.best, cuts.proof.bound) == ("proved", 23.0, 23.0)
    assert wide.proof.best == pytest.approx(61.0, abs=PROOF)
    assert wide.proof.bound - wide.proof.best <= PROOF
    assert full.placement is not None
    assert (full.placement.origin[1] + 1.5 + 100.0) % 303.0 == pytest.approx(100.0, abs=0.02)
    assert west.proof.best == pytest.approx(300.0, abs=PROOF)


def test_more_cuts_buy_a_wider_worst_piece() -> None:
    ring = [(0, 0), (5230, 0), (5230, 2410), (3380, 2410), (3380, 3170), (2940, 3170), (2940, 4650), (0, 4650)]
    region = Region(rings=(np.array(ring, dtype=float),), edges=(tuple("ABCDEFGH"),))
    cell = grid((600.0, 600.0), 3.0)
    search = begin(floor_of(region), cell, 0.0, ())
    trades = trade_off(search, 213.0)
    assert trades is not None
    assert len(trades) > 1
    assert [trade.cut for trade in trades] == sorted({trade.cut for trade in trades})
    assert [trade.worst for trade in trades] == sorted(trade.worst for trade in trades)
    assert trades[-1].worst == pytest.approx(213.0, abs=0.1)
    for trade in trades:
        assert trade.status == "proved"
        assert narrowest_at(search, trade.placement, None) == trade.worst
        fewer = search.under(Width(least=trade.least - RANK_STEP)).fewest(count_of(search, Aim(name=FEWEST_CUTS)))
        assert fewer.bound == trade.cut
