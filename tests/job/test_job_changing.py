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


def test_a_joint_that_leaves_more_cuts_is_no_change() -> None:
    # 11 tiles with joints of 4 end at both walls; across, where 8 tiles with joints of 3 do, they then do not.
    solution = solve(job_of(rectangle(4797.0, 6607.0), tile=597.0, gap=0, joint_most=5))
    assert all(change.option.cut < change.before.cut for change in solution.changes)


def test_an_edge_of_an_ell_may_save_its_own_cuts_alone() -> None:
    corners = ell(5210.0, 4480.0, 3105.0, 2730.0)
    solution = check_all(corners, {"wall": "C-D", "out": 250, "in": 250}, tile=600.0)
    (change,) = solution.changes
    assert change.aim == "no cuts at C-D"
    assert change.moves[0][1] == pytest.approx(116.5)
    assert change.option.cut < change.before.cut
    assert not breaks_limit(change.option, solution.layouts[0].limit)


def left(solution: Solution) -> dict[str, str]:
    return {one.edge.wall: one.why for one in solution.unmoved}


def test_an_edge_that_had_better_stay_is_told_with_why() -> None:
    arc = [{"wall": "C-D", "rise": 600}]
    bowed = job_of(rectangle(4000.0, 5000.0), {"wall": "C-D", "out": 60}, {"wall": "B-C", "out": 9}, gap=0, tile=597.0)
    data = bowed.model_dump(by_alias=True)
    data["survey"]["arcs"] = arc
    solution = solve(Job.model_validate(data))
    assert not solution.changes
    assert left(solution)["C-D"].startswith("it is an arc")
    assert left(solution)["B-C"].startswith("the wall beside it is an arc")
    told = next(finding for finding in solution.findings if finding.code == "layout-no-change")
    assert told.found.startswith("moved up to 60 mm out, wall C-D saves nothing: it is an arc")

    crooked = {"A": (0.0, 0.0), "B": (3600.0, 0.0), "C": (3600.0, 4510.0), "D": (0.0, 4470.0)}
    assert "out of true" in left(solve(job_of(crooked, {"wall": "C-D", "out": 1})))["C-D"]
    skewed = left(solve(job_of(rectangle(3000.0, 2000.0), {"wall": "C-D", "out": 50}, angle=30.0)))
    assert skewed["C-D"] == "the pattern does not run along it"
    full = left(solve(job_of(rectangle(3037.0, 2128.0), {"wall": "C-D", "out": 50})))
    assert full["C-D"] == "the tiles can end full there as it is"
    assert left(solve(job_of(rectangle(3000.0, 2000.0), {"wall": "C-D", "out": 2})))["C-D"].startswith("nowhere so far")


def test_an_arc_moves_with_its_shape() -> None:
    data = job_of(rectangle(4000.0, 5000.0)).model_dump(by_alias=True)
    data["survey"]["arcs"] = [{"wall": "C-D", "rise": 600}]
    room = solve(Job.model_validate(data)).room
    assert room is not None
    farther = with_wall_moved(room, "C-D", 50.0)
    assert [wall.bulge for wall in farther.walls] == [wall.bulge for wall in room.walls]
    corners = [(round(corner.x, 6), round(corner.y, 6)) for corner in farther.corners]
    assert corners == [(0, 0), (4000, 0), (4000, 5050), (0, 5050)]
    with pytest.raises(FloorwrightValueError, match="arc"):
        with_wall_moved(room, "B-C", 50.0)


def bordered(width: float | None = None, rows: int = 2) -> Job:
    data = job_of(rectangle(5160.0, 4296.0)).model_dump(by_alias=True)
    border = {"name": "frame", "kind": "border", "goods": "strip", "joint": 3, "gap": 5, "rows": rows}
    data["goods"] = [*data["goods"], {"name": "strip", "length": 200, "width": 100}]
    data["zones"] = [border | ({} if width is None else {"width": width}), {"name": "field", **data["zones"][0]}]
    data["zones"][1]["name"] = "field"
    return Job.model_validate(data)


def test_a_border_of_another_width_lets_the_field_end_full() -> None:
    """Along: 4296 less two gaps, two borders and two joints beside them are 13 tiles of 300 with 12 joints less."""
    solution = solve(bordered())
    found = {change.aim: change for change in solution.changes}
    # n tiles with their joints, the joints beside the border among them: 303 n + 3 between two borders.
    across = [(5160.0 - 10 - 303 * n - 3) / 2 for n in range(1, 17)]
    along = [(4296.0 - 10 - 303 * n - 3) / 2 for n in range(1, 14)]
    for aim, widths in (("no cuts across", across), ("no cuts along", along)):
        change = found[aim]
        assert change.border is not None
        zone, width = change.border
        nearest = min((one for one in widths if 101.5 <= one <= 203), key=lambda one: abs(one - 203))
        assert zone == "frame"
        assert width == pytest.approx(nearest, abs=2e-3)
        anew = solve(bordered(width))
        field = next(layout for layout in anew.layouts if layout.is_field)
        option = next(one for one in field.options if one.name == change.option.name)
        assert (option.full, option.cut) == (change.option.full, change.option.cut)
        assert change.option.cut < change.before.cut
    told = [finding.found for finding in solution.findings if finding.code == "layout-change"]
    assert told[0].startswith("frame ")
    assert " mm wide: no cuts " in told[0]


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
