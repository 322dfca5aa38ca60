"""Change the job, not the cuts: what is proposed comes out when the job is changed so and solved anew."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorwright.errors import FloorwrightValueError
from floorwright.job.model import Job
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.layout.change import LIMIT, NO_CUTS, Change
from floorwright.layout.options import breaks_limit
from floorwright.plan.moved import with_wall_moved
from floorwright.plan.room import Room

Ring = dict[str, tuple[float, float]]


def rectangle(width: float, height: float) -> Ring:
    return {"A": (0.0, 0.0), "B": (width, 0.0), "C": (width, height), "D": (0.0, height)}


def ell(width: float, height: float, wide: float, high: float) -> Ring:
    return {
        "A": (0.0, 0.0),
        "B": (width, 0.0),
        "C": (width, high),
        "D": (wide, high),
        "E": (wide, height),
        "F": (0.0, height),
    }


def job_of(corners: Ring, *free: dict[str, Any], option: str = "", tile: float = 300.0, **zone: Any) -> Job:
    given_ = {"goods": "tile", "joint": 3, "gap": 5} | zone
    return Job.model_validate(
        {
            "survey": {
                "outline": list(corners),
                "inward": ["D"] if len(corners) == 6 else [],
                "points": {name: list(place) for name, place in corners.items()},
            },
            "control": {
                "first_line": {"by": "parallel", "wall": "A-B"},
                "centre": {"by": "mid-point", "wall": "A-B"},
            },
            "goods": [{"name": "tile", "length": tile, "width": tile}],
            "zones": [given_],
            "aims": {"option": option},
            "free": list(free),
        }
    )


def changed(solution: Solution, change: Change) -> Ring:
    room = solution.room
    assert room is not None
    for wall, by in change.moves:
        room = with_wall_moved(room, wall, by)
    return {corner.name: (corner.x, corner.y) for corner in room.corners}


def check_all(corners: Ring, *free: dict[str, Any], **given_: Any) -> Solution:
    """Applies every change that is proposed and holds what comes of it against what was said."""
    solution = solve(job_of(corners, *free, **given_))
    for change in solution.changes:
        anew = solve(job_of(changed(solution, change), *free, option=change.option.name, **given_))
        layout = anew.layouts[0]
        assert layout.chosen.name == change.option.name
        assert (layout.chosen.full, layout.chosen.cut) == (change.option.full, change.option.cut)
        assert sum(piece.full for piece in layout.pieces) == change.option.full
        assert layout.chosen.worst == pytest.approx(change.option.worst, abs=1e-4)
        if change.aim == NO_CUTS:
            assert layout.chosen.cut == 0
        if change.aim == LIMIT:
            assert not breaks_limit(layout.chosen, layout.limit)
            assert breaks_limit(solution.layouts[0].options[0], layout.limit) or change.joint is not None
    return solution


def test_a_patio_twelve_longer_has_no_cuts() -> None:
    # 8 tiles of 597 with 7 joints of 3 are 4797, 11 are 6597; there is 12 less.
    corners = rectangle(4797.0, 6585.0)
    solution = check_all(corners, {"wall": "C-D", "out": 50}, tile=597.0, gap=0)
    (change,) = solution.changes
    assert change.aim == "no cuts along"
    assert change.exact
    ((wall, by),) = change.moves
    assert wall == "C-D"
    assert by == pytest.approx(12, abs=2e-3)
    assert (change.option.full, change.option.cut) == (88, 0)
    told = next(finding for finding in solution.findings if finding.code == "layout-change")
    assert told.found == "wall C-D 12 mm farther out: no cuts along"
    assert told.expected.startswith("88 full and 0 cut, in place of ")


def test_two_free_edges_do_away_with_all_cuts() -> None:
    free = {"wall": "C-D", "out": 300, "in": 300}, {"wall": "B-C", "out": 300, "in": 300}
    solution = check_all(rectangle(3333.0, 2777.0), *free)
    last = solution.changes[-1]
    assert last.aim == NO_CUTS
    assert len(last.moves) == 2
    assert last.option.cut == 0


def test_an_edge_that_is_not_free_enough_is_left() -> None:
    corners = rectangle(4797.0, 6585.0)
    assert not solve(job_of(corners, {"wall": "C-D", "out": 11}, tile=597.0, gap=0)).changes
    assert not solve(job_of(corners, tile=597.0, gap=0)).changes


def test_the_joint_is_a_change_too() -> None:
    # 10 tiles with 9 joints of 4 and two gaps are 3046: with joints of 3 that is 9 over.
    solution = check_all(rectangle(3046.0, 3046.0), joint_most=5)
    found = [change for change in solution.changes if change.aim.startswith(NO_CUTS)]
    assert found
    assert {change.joint for change in found} == {4.0}


lengths = st.integers(1500, 4500).map(float)
reach = st.integers(0, 160)


@settings(max_examples=8)
@given(lengths, lengths, reach, reach, st.sampled_from(["B-C", "C-D", "D-A"]))
def test_proposals_for_rectangles_come_out_and_are_the_least(
    width: float, height: float, out: int, inward: int, wall: str
) -> None:
    free = {"wall": wall, "out": out, "in": inward}
    solution = check_all(rectangle(width, height), free, joint_most=4)
    found = [change for change in solution.changes if change.moves and change.aim != LIMIT]
    length = height if wall == "C-D" else width
    # By the sum that a setter does: tiles, a joint less, and two gaps.
    needed = [n * 303.0 - 3.0 + 10.0 - length for n in range(1, 30)]
    within = [by for by in needed if -inward - 1e-9 <= by <= out + 1e-9 and abs(by) > 1e-9]
    if not within or any(abs(by) <= 1e-9 for by in needed):
        assert not found
    else:
        assert abs(found[0].moves[0][1]) == pytest.approx(min(map(abs, within)), abs=2e-3)


@settings(max_examples=5)
@given(lengths, lengths, st.floats(0.3, 0.7), st.floats(0.3, 0.7), st.sampled_from(["B-C", "C-D", "D-E", "E-F"]))
def test_proposals_for_ells_come_out(width: float, height: float, wide: float, high: float, wall: str) -> None:
    corners = ell(width, height, round(width * wide), round(height * high))
    check_all(corners, {"wall": wall, "out": 150, "in": 150})


@settings(max_examples=3)
@given(st.floats(-20, 20), st.floats(-20, 20), lengths)
def test_proposals_for_crooked_rooms_come_out(lean: float, rise: float, width: float) -> None:
    corners = {"A": (0.0, 0.0), "B": (width, 0.0), "C": (width + lean, 2000.0 + rise), "D": (0.0, 2000.0)}
    solution = check_all(corners, {"wall": "C-D", "out": 120, "in": 120})
    assert all(not change.exact for change in solution.changes if abs(lean) > 0.1 and abs(rise) > 0.1)


def moved(room: Room, wall: str, by: float) -> list[tuple[float, float]]:
    return [(round(x, 6), round(y, 6)) for x, y in with_wall_moved(room, wall, by).outline]


def test_openings_stay_where_they_are_when_a_wall_beside_them_moves() -> None:
    data = job_of(rectangle(2000.0, 1000.0)).model_dump(by_alias=True)
    door = {"name": "door", "wall": "A-B", "from": "A", "offset": 300, "width": 700}
    room = solve(Job.model_validate(data | {"openings": [door]})).room
    assert room is not None
    longer = with_wall_moved(room, "D-A", 50.0)
    assert longer.openings[0].start == pytest.approx(350.0)
    assert longer.ends("A-B")[0][0] + longer.openings[0].start == pytest.approx(300.0)
    shorter = with_wall_moved(room, "D-A", -50.0)
    assert shorter.openings[0].start == pytest.approx(250.0)
    assert with_wall_moved(room, "B-C", 50.0).openings[0].start == pytest.approx(300.0)


def test_moving_a_wall_takes_its_neighbours_with_it() -> None:
    room = solve(job_of(rectangle(2000.0, 1000.0))).room
    assert room is not None
    assert moved(room, "C-D", 12.0) == [(0, 0), (2000, 0), (2000, 1012), (0, 1012)]
    assert moved(room, "D-A", 12.0) == [(-12, 0), (2000, 0), (2000, 1000), (-12, 1000)]
    with pytest.raises(FloorwrightValueError, match="leaves nothing"):
        with_wall_moved(room, "C-D", -1000.0)
