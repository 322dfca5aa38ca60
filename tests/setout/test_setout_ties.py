"""Nodes and ties: which points of a pattern, which two tapes, how true, and the diagonals that prove them."""

import math
from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.control.rooms import l_room, rectangle
from tests.setout.floors import TOOLS, control_of, laid

from floorwright.control.checks import ALLOW
from floorwright.control.control import Control
from floorwright.control.sight import is_clear
from floorwright.geometry.region import Region
from floorwright.layout.layout import Layout
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Room
from floorwright.setout.grid import GridChoices
from floorwright.setout.nodes import Node, find_nodes
from floorwright.setout.set_out import SetOut, set_out
from floorwright.setout.snap import snap_list
from floorwright.setout.ties import WEAK, Held, Ties, crossing_angle, tie_nodes, tie_point, tie_spread, worst
from floorwright.units import METRIC

ROOM = rectangle(4200, 3600)
SQUARE = laid(ROOM, grid((300.0, 300.0), 3.0), (2100.0, 1800.0))
DIAGONAL = laid(ROOM, grid((300.0, 300.0), 3.0), (2100.0, 1800.0), angle=math.pi / 4)


def marked(room: Room, *layouts: Layout, with_ties: bool | None = True) -> SetOut:
    control = control_of(room)
    return set_out(
        room=room,
        region=floor_region(room),
        control=control,
        layouts=layouts,
        snap=snap_list(room=room, control=control, layouts=layouts),
        courses=[()] * len(layouts),
        tools=TOOLS,
        with_ties=with_ties,
        with_rods=False,
        grid=GridChoices(wanted=False, reach=1300.0, skins=0.0, first_pass=150.0),
        style=METRIC,
    )


def tied(room: Room, *layouts: Layout) -> Ties:
    found = marked(room, *layouts).ties
    assert found is not None
    return found


def held(x: float, y: float, sd: float = 0.0) -> Held:
    return Held(name="corner A", x=x, y=y, sd_x=sd, sd_y=sd, is_corner=True)


class TestNodes:
    def test_a_straight_floor_has_the_corners_and_middles_of_its_grid(self) -> None:
        places = {(round(node.x, 3), round(node.y, 3)) for node in marked(ROOM, SQUARE).nodes}
        # Lines 303 mm apart about 2100, 1800: the outermost that leave a hand's width to the wall are 6 and 5 away.
        assert places == {(2100 + 1818 * i, 1800 + 1515 * j) for i in (-1, 0, 1) for j in (-1, 0, 1)}

    def test_a_diagonal_floor_has_the_points_of_its_diamonds(self) -> None:
        """Diamond points lie (tile + joint) sqrt 2 apart along an axis: 428.507 for 300 and 3."""
        half = 303 * math.sqrt(2) / 2
        assert 2 * half == pytest.approx(428.507, abs=5e-4)
        steps = [((node.x - 2100) / half, (node.y - 1800) / half) for node in marked(ROOM, DIAGONAL).nodes]
        for along, up in steps:
            assert (along, up) == pytest.approx((round(along), round(up)), abs=1e-9)
            assert (round(along) + round(up)) % 2 == 0
        # The outermost towards each wall, a hand's width off it: 9 and 8 half steps of 214.3.
        assert {round(max(abs(x) for x, _ in steps)), round(max(abs(y) for _, y in steps))} == {9, 8}

    def test_names_count_on_and_say_what_crosses(self) -> None:
        nodes = marked(ROOM, SQUARE).nodes
        assert [node.name for node in nodes] == [f"N{n}" for n in range(1, 10)]
        assert nodes[0].lines == ("rows 6", "columns 13")

    def test_a_corner_called_as_a_node_gives_the_nodes_another_letter(self) -> None:
        corners = tuple(replace(c, name="N1" if c.name == "SW" else c.name) for c in ROOM.corners)
        walls = tuple(
            replace(w, start="N1" if w.start == "SW" else w.start, end="N1" if w.end == "SW" else w.end)
            for w in ROOM.walls
        )
        room = replace(ROOM, corners=corners, walls=walls)
        assert {node.name[0] for node in marked(room, SQUARE).nodes} == {"P"}

    def test_an_inset_has_its_corners_and_its_middle(self) -> None:
        ring = np.array([(1500.0, 1200.0), (2700.0, 1200.0), (2700.0, 2400.0), (1500.0, 2400.0)])
        inset = replace(SQUARE, zone="rug", region=Region(rings=(ring,), edges=(("",) * 4,)))
        own = {node.what: (node.x, node.y) for node in marked(ROOM, inset).nodes if not node.lines}
        assert own["rug, middle"] == (2100.0, 1800.0)
        assert {at for what, at in own.items() if "corner" in what} == {(float(x), float(y)) for x, y in ring}

    def test_of_a_bond_courses_and_perps_cross(self) -> None:
        bond = laid(ROOM, brick_bond((600.0, 300.0), 3.0, Fraction(1, 2)), (2100.0, 1800.0))
        assert marked(ROOM, bond).nodes[0].lines[0].startswith("courses")

    def test_no_zone_no_node(self) -> None:
        assert marked(ROOM).nodes == ()
        assert tied(ROOM) == Ties(ties=(), diagonals=(), findings=())


class TestTiePoint:
    def test_s17(self) -> None:
        """check-values S-17 (geometry): x = (r1^2 - r2^2 + b^2) / 2b, y = sqrt(r1^2 - x^2)."""
        assert tie_point((0.0, 0.0), (5000.0, 0.0), (3000.0, 4000.0)) == pytest.approx((1800, 2400))

    def test_arcs_that_do_not_meet(self) -> None:
        assert tie_point((0.0, 0.0), (5000.0, 0.0), (1000.0, 1000.0)) is None
        assert tie_point((1.0, 1.0), (1.0, 1.0), (1000.0, 1000.0)) is None

    def test_every_node_comes_back_from_its_two_tapes_on_the_left(self) -> None:
        at = {f"corner {c.name}": (c.x, c.y) for c in ROOM.corners}
        for tie in tied(ROOM, DIAGONAL).ties:
            first, second = tie.legs
            found = tie_point(at[first.held], at[second.held], (first.reads, second.reads))
            assert found == pytest.approx((tie.node.x, tie.node.y), abs=1e-6)


class TestAccuracy:
    @settings(max_examples=15, deadline=None)
    @given(
        st.tuples(st.floats(500, 4000), st.floats(500, 4000)),
        st.floats(1000, 6000),
        st.floats(0, 3),
        st.integers(0, 10**6),
    )
    def test_the_spread_is_that_of_a_monte_carlo(
        self, at: tuple[float, float], base: float, sd: float, seed: int
    ) -> None:
        """Both arcs struck 20,000 times with random slips of the lengths, of the held points and of the mark."""
        first, second = held(0.0, 0.0, sd), held(base, 0.0, sd)
        if not WEAK / 2 < crossing_angle(at, first.at, second.at) < math.pi - WEAK / 2:
            return
        rng = np.random.default_rng(seed)
        n = 20_000
        a, b = (rng.normal((one.x, one.y), sd, (n, 2)) for one in (first, second))
        r = np.hypot(at[0], at[1]) + rng.normal(0, TOOLS.set, n)
        s = np.hypot(at[0] - base, at[1]) + rng.normal(0, TOOLS.set, n)
        d = np.hypot(*(b - a).T)
        along = (r**2 - s**2 + d**2) / (2 * d)
        out = np.sqrt(np.maximum(r**2 - along**2, 0.0))
        way = (b - a) / d[:, None]
        points = a + along[:, None] * way + out[:, None] * np.column_stack([-way[:, 1], way[:, 0]])
        points += rng.normal(0, TOOLS.mark, (n, 2))
        predicted = tie_spread(at, first, second, TOOLS)
        assert worst(predicted) == pytest.approx(worst(np.cov(points.T)), rel=0.03)

    def test_arcs_that_cross_square_are_best(self) -> None:
        """Worst direction = set / sin of half the crossing angle or of the half beyond, with the mark."""
        square = worst(tie_spread((1000.0, 1000.0), held(0.0, 1000.0), held(1000.0, 0.0), TOOLS))
        assert square == pytest.approx(math.hypot(TOOLS.set, TOOLS.mark))
        thirty = tie_spread((0.0, 0.0), held(1000.0, 0.0), held(1000 * math.cos(WEAK), 1000 * math.sin(WEAK)), TOOLS)
        assert worst(thirty) == pytest.approx(math.hypot(TOOLS.set / (math.sqrt(2) * math.sin(WEAK / 2)), TOOLS.mark))

    def test_no_other_pair_of_corners_is_better(self) -> None:
        corners = [held(c.x, c.y) for c in ROOM.corners]
        for tie in tied(ROOM, DIAGONAL).ties:
            at = (tie.node.x, tie.node.y)
            pairs = [(a, b) for i, a in enumerate(corners) for b in corners[i + 1 :]]
            best = min(
                worst(tie_spread(at, a, b, TOOLS))
                for a, b in pairs
                if math.sin(crossing_angle(at, a.at, b.at)) > 0.1
                and min(math.dist(a.at, at), math.dist(b.at, at)) > 300
            )
            assert tie.sd == pytest.approx(best, abs=0.011)

    def test_the_third_tape_may_be_out_by_three_standard_deviations(self) -> None:
        for tie in tied(ROOM, SQUARE).ties:
            assert tie.check is not None
            assert tie.check.held not in {leg.held for leg in tie.legs}
            least = ALLOW * TOOLS.set
            assert least < tie.allow <= ALLOW * math.hypot(tie.sd, TOOLS.set) + 1e-9


class TestWhatCannotBeTied:
    control: Control = control_of(ROOM)

    def test_a_weak_crossing_is_flagged(self) -> None:
        """Half a metre off the middle of a long wall, with a tape that reaches no corner but those of that wall."""
        room = rectangle(8000, 2600)
        node = Node(name="N1", what="by hand", zone="floor", x=4000.0, y=60.0)
        tools = replace(TOOLS, tape=4003.0)
        control = replace(control_of(room), lines=(), centre=(4000.0, 60.0))
        found = tie_nodes(room=room, region=floor_region(room), control=control, nodes=[node], tools=tools)
        assert [finding.code for finding in found.findings] == ["setout-no-tie"]
        node = replace(node, y=700.0)
        tools = replace(TOOLS, tape=4100.0)
        control = replace(control, centre=(4000.0, 700.0))
        found = tie_nodes(room=room, region=floor_region(room), control=control, nodes=[node], tools=tools)
        assert found.ties[0].weak
        assert found.ties[0].angle == pytest.approx(math.pi - 2 * math.atan2(700, 4000))
        assert [finding.code for finding in found.findings] == ["setout-weak-tie"]

    def test_nothing_in_reach(self) -> None:
        node = Node(name="N1", what="by hand", zone="floor", x=2100.0, y=1800.0)
        found = tie_nodes(
            room=ROOM, region=floor_region(ROOM), control=self.control, nodes=[node], tools=replace(TOOLS, tape=400.0)
        )
        assert found.ties == ()
        assert [finding.code for finding in found.findings] == ["setout-no-tie"]

    def test_no_tape_crosses_a_wall(self) -> None:
        room = l_room()
        layout = laid(room, grid((300.0, 300.0), 3.0), (1000.0, 1000.0))
        region = floor_region(room)
        at = {f"corner {c.name}": (c.x, c.y) for c in room.corners}
        control = control_of(room)
        at |= {mark.name: (mark.x, mark.y) for line in control.lines for mark in line.marks} | {
            "centre": control.centre
        }

        for tie in tied(room, layout).ties:
            for leg in tie.legs:
                assert is_clear(region, at[leg.held], (tie.node.x, tie.node.y))


class TestDiagonals:
    def test_they_run_across_the_floor_and_no_node_is_in_two(self) -> None:
        found = tied(ROOM, SQUARE)
        names = [name for diagonal in found.diagonals for name in diagonal.between]
        assert len(names) == len(set(names))
        longest = found.diagonals[0]
        assert longest.expected == pytest.approx(2 * math.hypot(1818, 1515))
        assert 0 < longest.allow < 15

    def test_ties_come_by_themselves_only_where_a_floor_needs_them(self) -> None:
        assert marked(ROOM, SQUARE, with_ties=None).ties is None
        assert marked(ROOM, DIAGONAL, with_ties=None).ties is not None


def test_nodes_of_an_empty_floor() -> None:
    control = control_of(ROOM)
    snap = snap_list(room=ROOM, control=control, layouts=[])
    assert find_nodes(room=ROOM, region=floor_region(ROOM), control=control, layouts=[], snap=snap) == ()
