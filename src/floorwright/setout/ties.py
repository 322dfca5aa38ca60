"""Ties: every node from two known points with two tapes, how true that is, and the diagonals that prove the lot."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from floorwright.control.checks import ALLOW
from floorwright.control.choices import Tools
from floorwright.control.control import Control
from floorwright.control.sight import Point, is_clear
from floorwright.control.square import CENTRE
from floorwright.findings import Finding, Severity
from floorwright.geometry.region import Region
from floorwright.plan.room import Room
from floorwright.setout.nodes import Node
from floorwright.tolerance import COINCIDENT, RANK_STEP

WEAK: Final = math.radians(30)
"""Arcs that cross at less than this, or at more than 150 degrees, fix a point weakly (common practice, no source)."""

LEAST_LEG: Final = 300.0
"""mm. A tape held to a point nearer than this steers the other one hardly at all (our default)."""

MOST_DIAGONALS: Final = 1
"""Diagonals that prove a node: its third tape does so as well."""

Spread: TypeAlias = NDArray[np.float64]
"""(2, 2) covariance of a point, mm2."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A point that a tape is held at: a corner of the room, the centre, or a mark on a wall.

    Attributes:
        name: as printed: `corner A`, `centre`, `M3`.
        x, y: mm.
        sd_x, sd_y: standard deviations, mm.
        is_corner: whether it is there before anything is struck.
    """

    name: str
    x: float
    y: float
    sd_x: float
    sd_y: float
    is_corner: bool

    @property
    def at(self) -> Point:
        """mm."""
        return self.x, self.y


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One tape: the point it is held at, and what it reads at the node, mm."""

    held: str
    reads: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Tie:
    """A node and the two tapes that fix it.

    Attributes:
        node: see `Node`.
        legs: walking from the first held point to the second, the node is on the left hand.
        angle: at which the two arcs cross, radians, in (0, pi).
        weak: whether that is under `WEAK` or as near to straight.
        sd: of the node in its worst direction, mm: both tapes, the points they are held at, and the mark itself.
        check: a third tape to prove it, None where no third point sees the node.
        allow: mm that the third tape may be out by (three standard deviations); 0 without one.
    """

    node: Node
    legs: tuple[Leg, Leg]
    angle: float
    weak: bool
    sd: float
    check: Leg | None = None
    allow: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagonal:
    """A distance between two nodes that proves them. expected, allow: mm."""

    between: tuple[str, str]
    expected: float
    allow: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Ties:
    """Attributes:
    ties: one for each node that two held points see.
    diagonals: from node to node, longest first, none under half the longest: no node is in more than one.
    findings: weak ties, and nodes that cannot be tied.
    """

    ties: tuple[Tie, ...]
    diagonals: tuple[Diagonal, ...]
    findings: tuple[Finding, ...]


def tie_spread(at: Point, first: Held, second: Held, tools: Tools) -> Spread:
    """Returns the covariance of a point struck by two arcs and marked, (2, 2) mm2.

    With u and v the directions from the held points, the arcs say u.p = r and v.p = s to first order, so p has the
    covariance A C A' with A the inverse of the rows u, v and C the variances of the two arcs: each that of its length
    (`Tools.set`) and of its held point along it. The mark adds `Tools.mark` in every direction. It is proportional to
    1 / sin^2 of the angle at which the arcs cross. (Geometry; the tests hold it against a Monte Carlo.)
    """
    rows, arcs = [], []
    for held in (first, second):
        length = math.dist(held.at, at)
        cos, sin = (at[0] - held.x) / length, (at[1] - held.y) / length
        rows.append((cos, sin))
        arcs.append(tools.set**2 + (held.sd_x * cos) ** 2 + (held.sd_y * sin) ** 2)
    solve = np.linalg.inv(np.array(rows))
    return np.asarray(solve @ np.diag(arcs) @ solve.T + tools.mark**2 * np.eye(2))


def worst(spread: Spread) -> float:
    """Returns the standard deviation in the worst direction, mm."""
    return math.sqrt(float(np.linalg.eigvalsh(spread)[-1]))


def crossing_angle(at: Point, first: Point, second: Point) -> float:
    """Returns the angle at which arcs about two points cross at a third, radians, in [0, pi]."""
    a, b = (math.atan2(held[1] - at[1], held[0] - at[0]) for held in (first, second))
    return abs(math.remainder(a - b, math.tau))


def tie_point(first: Point, second: Point, reads: tuple[float, float]) -> Point | None:
    """Returns the point at two distances from two others, on the left of the way from first to second; None if the
    arcs do not meet.

    With b the distance between the two: x = (r1^2 - r2^2 + b^2) / (2 b) along the way and y = sqrt(r1^2 - x^2) to the
    left of it (geometry).

    >>> tie_point((0.0, 0.0), (4000.0, 0.0), (3000.0, 5000.0))
    (0.0, 3000.0)
    """
    base = math.dist(first, second)
    if base < COINCIDENT:
        return None
    along = (reads[0] ** 2 - reads[1] ** 2 + base**2) / (2 * base)
    square = reads[0] ** 2 - along**2
    if square < 0:
        return None
    cos, sin = (second[0] - first[0]) / base, (second[1] - first[1]) / base
    out = math.sqrt(square)
    return first[0] + along * cos - out * sin, first[1] + along * sin + out * cos


def tie_nodes(*, room: Room, region: Region, control: Control, nodes: Sequence[Node], tools: Tools) -> Ties:
    """Returns every node with the two tapes that fix it best, a third to prove it, and the diagonals between nodes.

    Two corners of the room are taken, as they are there before anything is struck; the centre and the marks of the
    first line and the square line only where no two corners do better than weakly.

    Args:
        room: as adjusted; the accuracy of its corners counts, each taken as independent of the others.
        region: the floor, that no tape can cross a hole of.
        control: whose centre and marks may be held.
        nodes: to tie.
        tools: whose tape must reach.
    """
    held = held_points(room, control, tools)
    ties: list[Tie] = []
    spreads: dict[str, Spread] = {}
    findings: list[Finding] = []
    for node in nodes:
        at = (node.x, node.y)
        seen = [one for one in held if LEAST_LEG <= math.dist(one.at, at) <= tools.tape]
        seen = [one for one in seen if is_clear(region, one.at, at)]
        pair = _best(at, seen, tools)
        if pair is None:
            findings.append(_untied(node))
            continue
        tie, spread = _tie(node, pair, seen, tools)
        ties.append(tie)
        spreads[node.name] = spread
    weak = [tie for tie in ties if tie.weak]
    if weak:
        findings.append(_weak(weak))
    return Ties(
        ties=tuple(ties),
        diagonals=tuple(_diagonals(region, ties, spreads, tools)),
        findings=tuple(findings),
    )


def held_points(room: Room, control: Control, tools: Tools) -> tuple[Held, ...]:
    """Returns what a tape can be held at: the corners, then the centre and the marks of the two lines of the cross.

    A mark is as true along its wall as it was made (`Mark.sd`) and across it as the nearer corner; the centre has been
    marked twice, on a wall and then along the first line.
    """
    corners = [
        Held(name=f"corner {one.name}", x=one.x, y=one.y, sd_x=one.sd_x, sd_y=one.sd_y, is_corner=True)
        for one in room.corners
    ]
    base = max((math.hypot(one.sd_x, one.sd_y) for one in room.corners), default=0.0)
    marked = [
        Held(name=mark.name, x=mark.x, y=mark.y, sd_x=math.hypot(mark.sd, base), sd_y=math.hypot(mark.sd, base),
             is_corner=False)
        for line in control.lines[:2]
        for mark in line.marks
    ]  # fmt: skip
    made = math.hypot(math.sqrt(2) * math.hypot(tools.set, tools.mark), base)
    centre = Held(name=CENTRE, x=control.centre[0], y=control.centre[1], sd_x=made, sd_y=made, is_corner=False)
    return (*corners, centre, *marked)


def _best(at: Point, seen: Sequence[Held], tools: Tools) -> tuple[Held, Held] | None:
    """The pair with the least error; of equals the first as booked."""
    for among in ([one for one in seen if one.is_corner], seen):
        pairs = [pair for pair in combinations(among, 2) if _crosses(at, pair)]
        if pairs:
            best = min(pairs, key=lambda pair: round(worst(tie_spread(at, pair[0], pair[1], tools)) / RANK_STEP))
            if not _is_weak(crossing_angle(at, best[0].at, best[1].at)) or len(among) == len(seen):
                return best
    return None


def _crosses(at: Point, pair: tuple[Held, Held]) -> bool:
    return math.sin(crossing_angle(at, pair[0].at, pair[1].at)) > math.sin(WEAK) / 3


def _is_weak(angle: float) -> bool:
    return not WEAK <= angle <= math.pi - WEAK


def _tie(node: Node, pair: tuple[Held, Held], seen: Sequence[Held], tools: Tools) -> tuple[Tie, Spread]:
    at = (node.x, node.y)
    first, second = pair
    turn = (second.x - first.x) * (at[1] - first.y) - (second.y - first.y) * (at[0] - first.x)
    if turn < 0:
        first, second = second, first
    spread = tie_spread(at, first, second, tools)
    angle = crossing_angle(at, first.at, second.at)
    check, allow = _third(at, spread, [one for one in seen if one not in pair], tools)
    tie = Tie(
        node=node,
        legs=(_leg(first, at), _leg(second, at)),
        angle=angle,
        weak=_is_weak(angle),
        sd=worst(spread),
        check=check,
        allow=allow,
    )
    return tie, spread


def _leg(held: Held, at: Point) -> Leg:
    return Leg(held=held.name, reads=math.dist(held.at, at))


def _third(at: Point, spread: Spread, others: Sequence[Held], tools: Tools) -> tuple[Leg | None, float]:
    """The tape that would show most: along the direction in which the node is known worst."""
    if not others:
        return None, 0.0
    way = np.linalg.eigh(spread)[1][:, -1]

    def shows(held: Held) -> float:
        return abs(float(np.dot((at[0] - held.x, at[1] - held.y), way))) / math.dist(at, held.at)

    best = max(others, key=lambda held: (held.is_corner, round(shows(held), 3)))
    towards = (np.asarray(at) - np.asarray(best.at)) / math.dist(at, best.at)
    own = float(towards @ spread @ towards) + tools.set**2
    own += (best.sd_x * towards[0]) ** 2 + (best.sd_y * towards[1]) ** 2
    return _leg(best, at), ALLOW * math.sqrt(own)


def _diagonals(region: Region, ties: Sequence[Tie], spreads: dict[str, Spread], tools: Tools) -> Iterator[Diagonal]:
    """The longest distances between nodes of a zone that a tape reaches, no node in more than one of them."""
    used: dict[str, int] = {}
    pairs = [(one.node, other.node) for one, other in combinations(ties, 2) if one.node.zone == other.node.zone]
    longest = max((length for pair in pairs if (length := _apart(*pair)) <= tools.tape), default=0.0)
    for one, other in sorted(pairs, key=lambda pair: -round(_apart(*pair) / RANK_STEP)):
        length = _apart(one, other)
        if (
            not longest / 2 <= length <= longest
            or max(used.get(one.name, 0), used.get(other.name, 0)) >= MOST_DIAGONALS
        ):
            continue
        if not is_clear(region, (one.x, one.y), (other.x, other.y)):
            continue
        used |= {node.name: used.get(node.name, 0) + 1 for node in (one, other)}
        along = np.array([other.x - one.x, other.y - one.y]) / length
        variance = float(along @ (spreads[one.name] + spreads[other.name]) @ along) + tools.set**2
        yield Diagonal(between=(one.name, other.name), expected=length, allow=ALLOW * math.sqrt(variance))


def _apart(one: Node, other: Node) -> float:
    return math.dist((one.x, one.y), (other.x, other.y))


def _untied(node: Node) -> Finding:
    return Finding(
        code="setout-no-tie",
        severity=Severity.WARNING,
        place=f"node {node.name}, {node.what}",
        found="no two corners or marks see it within the length of the tape",
        expected="two points to hold a tape at",
        remedy="find it by the snapped lines, or take a longer tape",
    )


def _weak(ties: Sequence[Tie]) -> Finding:
    worst_one = min(ties, key=lambda tie: math.sin(tie.angle))
    return Finding(
        code="setout-weak-tie",
        severity=Severity.WARNING,
        place=f"node {', '.join(tie.node.name for tie in ties)}",
        found=f"the arcs of {worst_one.node.name} cross at {math.degrees(worst_one.angle):.0f} degrees at best",
        expected="30 to 150 degrees (common practice, no source)",
        remedy="prove it by the third tape, or find it by the snapped lines",
    )
