"""Options weighed one aim after another: the laws of the order, and what a list of aims does to a job."""

from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import floorwright
from floorwright.job.load import load_text
from floorwright.job.solve import solve
from floorwright.layout.aims import FIRM, NO_PIECE_UNDER, WIDEST, Aim, completed, default_aims, is_kept, loss
from floorwright.layout.layout import Layout
from floorwright.layout.weigh import first, in_order, left_by
from floorwright.tolerance import RANK_STEP

KITCHEN = (Path(floorwright.__file__).parent / "examples" / "larch-row-kitchen.toml").read_text(encoding="utf-8")


@st.composite
def weighed(draw: st.DrawFn) -> tuple[np.ndarray, list[float]]:
    aims = draw(st.integers(1, 4))
    options = draw(st.integers(1, 7))
    rows = draw(st.lists(st.lists(st.integers(0, 6), min_size=aims, max_size=aims), min_size=options, max_size=options))
    within = draw(st.lists(st.integers(0, 3), min_size=aims, max_size=aims))
    return np.array(rows, dtype=np.float64), [float(each) for each in within]


@given(weighed())
def test_each_aim_keeps_to_its_tolerance_of_what_those_before_it_left(table: tuple[np.ndarray, list[float]]) -> None:
    losses, within = table
    winner, _ = first(losses, within)
    rivals = list(range(len(losses)))
    for aim, tolerance in enumerate(within):
        least = min(losses[n, aim] for n in rivals)
        assert losses[winner, aim] <= least + tolerance
        rivals = [n for n in rivals if losses[n, aim] <= least + tolerance]
    assert winner == rivals[0]


@given(weighed(), st.data())
def test_an_aim_at_the_end_gives_nothing_of_the_earlier_away(
    table: tuple[np.ndarray, list[float]], data: st.DataObject
) -> None:
    losses, within = table
    last = data.draw(st.lists(st.integers(0, 6), min_size=len(losses), max_size=len(losses)))
    more = np.column_stack([losses, np.array(last, dtype=np.float64)])
    assert set(left_by(more, [*within, 0.0])) <= set(left_by(losses, within))
    # Without tolerances the earlier figures themselves stay.
    exact = [0.0] * len(within)
    assert (losses[first(more, [*exact, 0.0])[0]] == losses[first(losses, exact)[0]]).all()


@given(weighed(), st.randoms(use_true_random=False))
def test_the_order_given_changes_no_figure(table: tuple[np.ndarray, list[float]], random: object) -> None:
    losses, within = table
    shuffled = list(range(len(losses)))
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    exact = [0.0] * len(within)
    one, other = in_order(losses, exact), in_order(losses[shuffled], exact)
    assert (losses[one.best_first] == losses[shuffled][other.best_first]).all()
    assert sorted(one.best_first) == list(range(len(losses)))
    assert set(left_by(losses, within)) == {shuffled[n] for n in left_by(losses[shuffled], within)}


def test_the_aim_that_decides_is_the_last_that_left_a_rival_behind() -> None:
    losses = np.array([[0.0, 5.0, 1.0], [0.0, 4.0, 2.0], [3.0, 0.0, 0.0]])
    assert first(losses, [0.0, 0.0, 0.0]) == (1, 1)
    assert first(losses, [0.0, 1.0, 0.0]) == (0, 2)
    assert first(losses[:1], [0.0, 0.0, 0.0]) == (0, -1)


def test_a_limit_that_is_kept_cannot_be_kept_better() -> None:
    aim = Aim(name=NO_PIECE_UNDER, limit=150.0)
    assert loss(aim, 150.0) == loss(aim, 220.0) == 0.0
    assert loss(aim, 100.0) == pytest.approx(50.0)
    assert (is_kept(aim, 149.0), is_kept(aim, 150.0), is_kept(Aim(name=WIDEST), 150.0)) == (False, True, None)
    few = Aim(name="fewest cuts", at_most=20)
    assert loss(few, 20.0) == loss(few, 3.0) == 0.0 < loss(few, 21.0)


def test_a_list_is_completed_after_its_limits_and_at_its_end() -> None:
    names = [aim.name for aim in completed((Aim(name="no thin trim"), Aim(name="fewest tiles")))]
    assert names[:3] == ["no thin trim", FIRM, "fewest tiles"]
    assert names[3:] == ["joint as asked", "lined up", "fewest cuts", WIDEST]
    own = [aim.own for aim in completed((Aim(name=WIDEST, walls=("S",)),))]
    assert own == [False, True, False, False, False, False]
    assert [aim.name for aim in default_aims(150.0, runs_along=False)][:2] == ["fewest small pieces", FIRM]


def laid(order: str) -> Layout:
    loaded = load_text(KITCHEN.replace("[order]", f"{order}\n[order]"), "job.toml")
    assert loaded.job is not None
    assert not loaded.findings
    (layout,) = solve(loaded.job).layouts
    return layout


def test_a_person_s_order_decides_through_the_job_file() -> None:
    ours = laid("")
    assert [reached.aim.name for reached in ours.aims if reached.decided] == ["fewest cuts"]
    theirs = laid('[[aims.order]]\naim = "joint as asked"\n[[aims.order]]\naim = "widest worst piece"\n')
    assert theirs.chosen.joint == 3.0
    widest = max(o.worst for o in theirs.options if o.joint == 3.0 and not o.refused)
    assert theirs.chosen.worst == pytest.approx(widest, abs=RANK_STEP)
    assert len({o.name for o in theirs.options}) == len(theirs.options)
    assert [reached.aim.own for reached in theirs.aims][:3] == [False, True, True]
    full = laid('[[aims.order]]\naim = "full tile"\nwalls = ["N"]\n')
    cut = next(wall for wall in full.chosen.walls if wall.wall == "N")
    assert cut.thin == min(cut.tile - figure for figure in [full.aims[0 if full.aims[0].aim.own else 1].value or 0.0])
    line = laid('[[aims.order]]\naim = "joint on line"\non = "door"\n')
    assert "a joint at the middle of door" in line.chosen.lines_up
    trim = laid('[[aims.order]]\naim = "no thin trim"\n')
    assert trim.aims[0].kept


def test_hidden_walls_are_excused_by_an_aim_of_the_visible_ones() -> None:
    every = laid('[[aims.order]]\naim = "fewest small pieces"\nunder = 280\n')
    seen = laid('[[aims.order]]\naim = "fewest small pieces"\nunder = 280\nvisible = true\n')
    own = [next(reached for reached in layout.aims if reached.aim.own) for layout in (every, seen)]
    assert own[0].value is not None
    assert own[1].value is not None
    assert own[1].value <= own[0].value
    # E and W are hidden: of the same option fewer small pieces count.
    same = [next(o for o in layout.options if o.name == "widest worst piece") for layout in (every, seen)]
    assert same[1].figures[1] < same[0].figures[1]  # type: ignore[operator]
