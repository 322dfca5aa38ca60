"""A joint given as a range: what fits at a wider one is offered, and nothing better is ever kept quiet."""

from fractions import Fraction
from functools import partial
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.layout.jobs import lay, option, rectangle_room, room_of

from floorwright.findings import Finding
from floorwright.layout.layout import Layout
from floorwright.layout.options import breaks_limit
from floorwright.layout.wider import MOST_JOINTS, Offer, spread
from floorwright.pattern.catalogue import brick_bond
from floorwright.plan.room import Obstacle, Room
from floorwright.tolerance import PROOF


def said(layout: Layout, code: str) -> list[Finding]:
    return [finding for finding in layout.findings if finding.code == code]


def crooked_l() -> Room:
    """No two walls quite square, and a column at the wall on the right."""
    column = np.array([[4419.13, 904.7], [4421.49, 1204.69], [4171.5, 1206.66], [4169.13, 906.67]])
    return room_of(
        {
            "A": (0.0, 0.0),
            "B": (5012.02, 0.0),
            "C": (5031.06, 2417.03),
            "D": (2795.88, 2404.23),
            "E": (2782.33, 4306.22),
            "F": (-17.65, 4289.9),
        },
        ("near", "right", "C-D", "D-E", "E-F", "F-A"),
        obstacles=(Obstacle(name="column", kind="column", outline=column, centre=(4295.3, 1055.7)),),
    )


def lay_l(**given: Any) -> Layout:
    arguments: dict[str, Any] = {
        "make_cell": partial(brick_bond, (398.0, 398.0), fraction=Fraction(1, 3)),
        "joint": 4.0,
        "joint_most": 6.0,
        "angle": np.pi / 2,
        "gap": (6.0, 8.0),
        "limit": 398 / 3,
        "shift_sd": 1.1,
    }
    return lay(crooked_l(), (1219.0, 1866.66), **(arguments | given))


@pytest.fixture(scope="module")
def ranged() -> Layout:
    return lay_l()


class TestLimitThatNoJointKeeps:
    def test_every_joint_of_the_range_is_searched_and_proved(self, ranged: Layout) -> None:
        assert [(proof.joint, proof.status) for proof in ranged.proofs] == [
            (4.0, "proved"),
            (5.0, "proved"),
            (6.0, "proved"),
        ]

    def test_the_joint_with_the_widest_worst_piece_that_holds_is_recommended(self, ranged: Layout) -> None:
        alone = lay_l(joint_most=None)
        assert ranged.chosen.joint == 6.0
        assert ranged.chosen.worst > alone.chosen.worst + 1.0
        laid = [each for each in ranged.options if not each.refused]
        assert ranged.chosen.worst == max(each.worst for each in laid if not each.fragile)
        assert ranged.chosen.worst < max(each.worst for each in laid)

    def test_what_the_range_can_do_is_said(self, ranged: Layout) -> None:
        (finding,) = said(ranged, "layout-under-limit")
        widest = max((each for each in ranged.options if not each.refused), key=lambda each: each.worst)
        worst, shaken = (f"{round(2 * value) / 2:g}" for value in (widest.worst, widest.shaken))
        assert finding.remedy == (
            f"no whole step up to 6 mm brings every piece to the limit; a joint of 5 mm gives {worst}, "
            f"but {shaken} when laid as far out as your marks may be"
        )

    def test_that_nothing_better_exists_is_said_of_the_widest_that_holds(self) -> None:
        firm = lay_l(shift_sd=0.0)
        (finding,) = said(firm, "layout-under-limit")
        assert firm.chosen.joint == 5.0
        assert finding.remedy.endswith("; nothing better exists with a joint of 4 mm, 5 mm or 6 mm (proved)")

    def test_nothing_better_is_not_said_of_a_choice_that_a_wider_joint_betters(self) -> None:
        own = lay_l(choose="widest worst piece")
        assert own.chosen.joint == 4.0
        (finding,) = said(own, "layout-under-limit")
        assert "nothing better" not in finding.remedy
        assert "a joint of 5 mm gives" in finding.remedy

    def test_a_position_that_only_fits_at_a_wider_joint_is_offered(self, ranged: Layout) -> None:
        found = said(ranged, "layout-joint-offered")
        offered = {finding.found.partition(" with a joint")[0]: finding for finding in found}
        assert len(offered) == len(found) > 0
        for name, finding in offered.items():
            laid = [each for each in ranged.options if name in each.name and each.joint > 4.0 and not each.refused]
            assert laid, name
            assert "open all joints to" in finding.remedy


def test_row_that_no_joint_brings_to_the_limit_is_offered_where_it_fits() -> None:
    # Five tiles from W with joints of 3 leave 302 for the sixth, with joints of 3.4 just its 300 and of 4 only 297.
    room = rectangle_room(10 + 5 * 303 + 302.0, 10 + 3 * 303 + 60.0)
    layout = lay(room, (920.0, 490.0), limit=290.0, joint_most=5.0)
    found = [finding for finding in said(layout, "layout-joint-offered") if finding.found.startswith("full tile at W")]
    assert [finding.expected for finding in found] == ["a joint of 3.400 mm is the least that does it"]
    strict = lay(room, (920.0, 490.0), limit=400.0, joint_most=5.0)
    (finding,) = [each for each in said(strict, "layout-joint-offered") if each.found.startswith("full tile at W")]
    assert finding.expected == (
        "a joint of 3.400 mm is the least at which it fits; no whole step up to 5 mm brings its thin ends to 400"
    )
    assert finding.remedy == "open all joints to 4 mm, the first whole step"


def test_a_range_of_many_steps_is_searched_at_some_and_that_is_said() -> None:
    layout = lay(rectangle_room(3017.0, 2481.0), (1508.0, 1240.0), joint=2.0, joint_most=12.0)
    joints = sorted({proof.joint for proof in layout.proofs})
    assert joints[0] == 2.0
    assert joints[-1] == 12.0
    (finding,) = said(layout, "layout-joints-passed-over")
    assert all(f"{joint:g} mm" in finding.found for joint in joints)
    assert f"{11 - len(joints)} more of the whole steps up to 12 mm" in finding.found
    assert not said(lay(rectangle_room(3017.0, 2481.0), (1508.0, 1240.0), joint_most=5.0), "layout-joints-passed-over")


def test_spread_takes_the_ends_and_what_is_offered() -> None:
    steps = [float(step) for step in range(2, 13)]
    assert spread(steps[:6], []) == steps[:6]
    taken = spread(steps, [])
    assert len(taken) == MOST_JOINTS
    assert (taken[0], taken[-1]) == (2.0, 12.0)
    offers = [Offer(position="", thinnest=1.0, least=2.5, joint=joint, option="") for joint in (3.0, None)]
    assert spread(steps, offers) == sorted({*taken, 3.0})


def test_best_by_hand_at_every_step_is_among_the_options() -> None:
    layout = lay(rectangle_room(3017.0, 2481.0), (1508.0, 1240.0), joint_most=5.0)
    for joint in (4.0, 5.0):
        alone = lay(rectangle_room(3017.0, 2481.0), (1508.0, 1240.0), joint=joint)
        first = next(each for each in alone.options if each.name != "widest worst piece")
        assert option(layout, f"{first.name}, joint {joint:g} mm").worst == pytest.approx(first.worst)


@settings(max_examples=15, deadline=None)
@given(
    width=st.integers(1800, 3200),
    height=st.integers(1500, 2800),
    skew=st.integers(0, 25),
    share=st.sampled_from([0.0, 0.2, 0.5, 0.9]),
    most=st.sampled_from([4.0, 5.0]),
)
def test_a_range_never_makes_the_choice_worse(width: int, height: int, skew: int, share: float, most: float) -> None:
    corners = {"A": (0.0, 0.0), "B": (float(width), 0.0), "C": (float(width + skew), float(height)), "D": (0.0, height)}
    room, centre = room_of(corners, ("S", "E", "N", "W")), (width / 2, height / 2)
    limit = 300 * share
    alone = lay(room, centre, limit=limit)
    ranged = lay(room, centre, limit=limit, joint_most=most)
    assert bool(ranged.chosen.refused) <= bool(alone.chosen.refused)
    assert breaks_limit(ranged.chosen, limit) <= breaks_limit(alone.chosen, limit)
    if limit == 0 or (breaks_limit(alone.chosen, limit) and breaks_limit(ranged.chosen, limit)):
        assert ranged.chosen.worst >= alone.chosen.worst - PROOF
    elif not breaks_limit(alone.chosen, limit) and not alone.chosen.fragile:
        assert (ranged.chosen.name, ranged.chosen.joint) == (alone.chosen.name, 3.0)
    if any("nothing better" in finding.remedy for finding in said(ranged, "layout-under-limit")):
        assert all(each.worst <= ranged.chosen.worst + PROOF for each in ranged.options if not each.refused)
