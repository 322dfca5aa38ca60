"""From the outline of a piece to the marks that it is sawn by.

A saw line is found from the sawn sides of the piece, drawn on right across the full tile, and measured at both tile
sides from the factory corner that is kept. Past an outside corner of the piece the saw runs on through waste; at an
inside corner it stops.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from floorwright import tolerance
from floorwright.cuts.frame import Tile
from floorwright.cuts.schedule import ArcCut, Bore, SawLine, TileMark
from floorwright.geometry.arc import Arc
from floorwright.geometry.region import Points, Region

OFFSETS = 100.0
"""mm at most between the offsets that an arc is marked by. Our default."""

ROUND_FROM = 6
"""So many corners or more between sides of one name, all on one circle, stand for a round obstacle."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Round:
    """A round obstacle, or a wall that is an arc, the gap taken off: centre, (2,) mm, and radius, mm.

    Attributes:
        centre, radius: see above.
        hollow: whether the floor lies inside it.
    """

    centre: Points
    radius: float
    hollow: bool = False

    def is_bore(self, tile: Tile) -> bool:
        """Whether it is cut as a hole or a bite: it is no wider than the tile is."""
        return not self.hollow and 2 * self.radius <= float(np.ptp(tile.outline, axis=0).min())


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawn:
    """How a piece is sawn.

    Attributes:
        saws: straight lines, ring by ring.
        bores: round cuts.
        arcs: cuts along wider rounds.
        factory: sides of the tile with something left, in the tile's order.
        meets: whether two lines meet at an outside corner of the piece.
        turns_in: whether the piece has an inside corner, a hole or a round bite.
    """

    saws: tuple[SawLine, ...]
    bores: tuple[Bore, ...]
    arcs: tuple[ArcCut, ...]
    factory: tuple[str, ...]
    meets: bool
    turns_in: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Run:
    """Sides of a ring that are one cut, or one stretch as made (`wall` None)."""

    points: Points
    wall: str | None
    bent: bool

    @property
    def leaving(self) -> Points:
        """Unit direction in which it comes to its end, (2,)."""
        return _unit(self.points[-2], self.points[-1]) if self.bent else _unit(self.points[0], self.points[-1])

    @property
    def setting_out(self) -> Points:
        """Unit direction in which it leaves its start, (2,)."""
        return _unit(self.points[0], self.points[1]) if self.bent else _unit(self.points[0], self.points[-1])


def rounds_of(region: Region) -> dict[str, Round]:
    """Returns the round walls and obstacles of a region by name, floor frame, also one that touches a wall."""
    found = {
        name: Round(centre=np.array(circle.centre), radius=circle.radius, hollow=circle.hollow)
        for name, circle in region.circles.items()
    }
    for ring, names in zip(region.rings, region.edges, strict=True):
        for name in dict.fromkeys(names):
            between = [n for n in range(len(ring)) if names[n] == name == names[n - 1]]
            if name not in found and len(between) >= ROUND_FROM:
                one = _circle(ring[between])
                if one is not None:
                    found[name] = one
    return found


def _circle(points: Points) -> Round | None:
    """Returns the circle that all the points lie on, None if there is none."""
    middle = points.mean(axis=0)
    local = points - middle
    # x^2 + y^2 = 2 cx x + 2 cy y + (r^2 - c^2), linear in cx, cy and what is in brackets
    (x, y, rest), *_ = np.linalg.lstsq(
        np.column_stack([2 * local, np.ones(len(local))]), (local**2).sum(axis=1), rcond=None
    )
    radii = np.hypot(local[:, 0] - x, local[:, 1] - y)
    if np.ptp(radii) > tolerance.TOUCH or rest + x * x + y * y <= 0:
        return None
    return Round(centre=middle + np.array([x, y]), radius=float(radii.max()))


def sawn(
    rings: Sequence[Points], walls: Sequence[Sequence[str | None]], tile: Tile, rounds: Mapping[str, Round]
) -> Sawn:
    """Returns how a piece is sawn out of its tile.

    Args:
        rings: of the piece, (n, 2) mm in the tile's own frame; the outline anticlockwise, holes clockwise.
        walls: for each ring, per side, the wall that it is sawn to, or None where it is as made (see `true_walls`).
        tile: the full tile.
        rounds: round obstacles by name, in the tile's own frame.
    """
    saws: list[SawLine] = []
    bores: dict[str, Bore] = {}
    arcs: list[ArcCut] = []
    kept: set[str] = set()
    meets, turns_in = False, len(rings) > 1
    for ring, names in zip(rings, walls, strict=True):
        kept |= sides_kept(ring, tile)
        runs = _runs(ring, names, rounds)
        for n, run in enumerate(runs):
            before, after = runs[n - 1], runs[(n + 1) % len(runs)]
            if run.wall is None:
                continue
            if run.bent and rounds[run.wall].is_bore(tile):
                _add_bore(bores, run, rounds[run.wall], tile)
                turns_in = True
                continue
            if run.bent:
                arcs.append(_arc_cut(run, rounds[run.wall], tile))
                continue
            in_start, in_end = _corner(before, run, tile, rounds), _corner(run, after, tile, rounds)
            meets |= in_end > 0
            turns_in |= in_end < 0
            saws.append(_saw_line(run, in_start, in_end, tile, rings))
    return Sawn(
        saws=tuple(saws),
        bores=tuple(bores.values()),
        arcs=tuple(arcs),
        factory=tuple(side for side in dict.fromkeys(tile.sides) if side in kept),
        meets=meets,
        turns_in=turns_in,
    )


def true_walls(ring: Points, names: Sequence[str | None], tile: Tile) -> tuple[str | None, ...]:
    """Returns the wall of each side, None where it lies along the tile's own side: nothing is sawn there."""
    along = _along_sides(ring, tile)
    return tuple(None if side is not None else name for side, name in zip(along, names, strict=True))


def sides_kept(ring: Points, tile: Tile) -> set[str]:
    """Returns the sides of the tile that a ring of the piece has something of."""
    lengths = np.hypot(*(np.roll(ring, -1, axis=0) - ring).T)
    along = _along_sides(ring, tile)
    return {side for side, length in zip(along, lengths, strict=True) if side and length > tolerance.TOUCH}


def _along_sides(ring: Points, tile: Tile) -> list[str | None]:
    """Returns for each side of a ring the side of the tile that it lies along, if any."""
    ends = np.roll(ring, -1, axis=0)
    along: list[str | None] = [None] * len(ring)
    for side, (a, b) in zip(tile.sides, _sides(tile), strict=True):
        unit = (b - a) / np.hypot(*(b - a))
        off = np.maximum(abs(_cross(unit, ring - a)), abs(_cross(unit, ends - a)))
        for n in np.flatnonzero(off <= tolerance.TOUCH):
            along[n] = side
    return along


def _runs(ring: Points, walls: Sequence[str | None], rounds: Mapping[str, Round]) -> list[_Run]:
    """Returns the ring as runs of sides that are one cut, in order."""
    count = len(ring)
    bent = [_on_round(ring[n], ring[(n + 1) % count], walls[n], rounds) for n in range(count)]

    def goes_on(n: int) -> bool:
        """Whether side n goes on from side n - 1."""
        if (walls[n] is None) != (walls[n - 1] is None) or bent[n] != bent[n - 1]:
            return False
        if bent[n]:
            return walls[n] == walls[n - 1]
        return walls[n] is None or _in_line(ring[n - 1], ring[n], ring[(n + 1) % count])

    breaks = [n for n in range(count) if not goes_on(n)] or [0]
    runs = []
    for n, first in enumerate(breaks):
        stop = breaks[(n + 1) % len(breaks)]
        length = (stop - first) % count or count
        sides = [(first + m) % count for m in range(length)]
        points = ring[[*sides, stop]]
        longest = max(sides, key=lambda m: float(np.hypot(*(ring[(m + 1) % count] - ring[m]))))
        runs.append(_Run(points=points, wall=walls[longest], bent=bent[first]))
    return runs


def _on_round(start: Points, end: Points, wall: str | None, rounds: Mapping[str, Round]) -> bool:
    """Returns whether a side is one of the many that stand for a round obstacle's wall."""
    if wall is None or wall not in rounds:
        return False
    one = rounds[wall]
    off = [abs(np.hypot(*(point - one.centre)) - one.radius) for point in (start, end)]
    return bool(max(off) <= tolerance.CHORD + tolerance.STRIP)


def _in_line(before: Points, at: Points, after: Points) -> bool:
    along = after - before
    return bool(
        abs(_cross(along, at - before)) <= tolerance.COINCIDENT * np.hypot(*along) and along @ (at - before) > 0
    )


def _corner(before: _Run, after: _Run, tile: Tile, rounds: Mapping[str, Round]) -> int:
    """Returns how two runs meet: 1 at an outside corner of two saw lines, -1 at an inside one or at a round bite.

    It is 0 where one of them is the tile's own side.
    """
    if before.wall is None or after.wall is None or before is after:
        return 0
    if any(run.bent and run.wall is not None and rounds[run.wall].is_bore(tile) for run in (before, after)):
        return -1
    return 1 if _cross(before.leaving, after.setting_out) > 0 else -1


def _saw_line(run: _Run, in_start: int, in_end: int, tile: Tile, rings: Sequence[Points]) -> SawLine:
    start, end = run.points[0], run.points[-1]
    marks = _pencil(start, end, tile)
    stops = [in_start < 0, in_end < 0]
    reach = [start, end]
    for n, corner in enumerate((in_start, in_end)):
        if corner > 0:
            beyond = np.array(marks[n].at)
            stops[n] = _runs_into(reach[n], beyond, rings)
            reach[n] = reach[n] if stops[n] else beyond
    assert run.wall is not None
    return SawLine(
        wall=run.wall,
        start=_pair(reach[0]),
        end=_pair(reach[1]),
        start_mark=None if stops[0] else marks[0].distance,
        end_mark=None if stops[1] else marks[1].distance,
        length=float(np.hypot(*(reach[1] - reach[0]))),
        marks=marks,
    )


def _pencil(start: Points, end: Points, tile: Tile) -> tuple[TileMark, TileMark]:
    """Returns the marks of a line drawn right across the tile, from start on to end, what is kept on its left."""
    unit = (end - start) / np.hypot(*(end - start))
    left = _cross(unit, tile.outline - start)
    left[abs(left) <= tolerance.COINCIDENT] = (
        0.0  # through a corner: marked along the side that is kept, on any machine
    )
    marks = []
    for n, (a, b) in enumerate(_sides(tile)):
        here, there = float(left[n]), float(left[(n + 1) % len(left)])
        if (here > 0) == (there > 0):
            continue
        at = a + (b - a) * (here / (here - there))
        kept = _kept_corner(n, -1, left, tile, at) if here > 0 else _kept_corner(n + 1, 1, left, tile, at)
        distance = float(np.hypot(*(at - tile.outline[kept])))
        mark = TileMark(side=tile.sides[n], corner=tile.corners[kept], distance=distance, at=_pair(at))
        marks.append((float(unit @ at), mark))
    marks.sort(key=lambda pair: pair[0])
    return marks[0][1], marks[-1][1]


def _kept_corner(first: int, step: int, left: Points, tile: Tile, at: Points) -> int:
    """Returns the corner that a mark is measured from: the first that is kept, going round; the nearest of all where
    an arc is cut at both its ends, and none of it is kept."""
    count = len(left)
    for n in range(first, first + step * count, step):
        if left[n % count] <= 0.0:
            break
        if tile.corners[n % count]:
            return n % count
    named = [n for n in range(count) if tile.corners[n]]
    return min(named, key=lambda n: round(float(np.hypot(*(at - tile.outline[n]))), 6))


def _runs_into(corner: Points, beyond: Points, rings: Sequence[Points]) -> bool:
    """Returns whether the way through the waste from an outside corner to the tile's side crosses the piece again."""
    along = beyond - corner
    for ring in rings:
        ends = np.roll(ring, -1, axis=0)
        from_start, from_end = _cross(along, ring - corner), _cross(along, ends - corner)
        sides = ends - ring
        corner_side = sides[:, 0] * (corner - ring)[:, 1] - sides[:, 1] * (corner - ring)[:, 0]
        beyond_side = sides[:, 0] * (beyond - ring)[:, 1] - sides[:, 1] * (beyond - ring)[:, 0]
        touch = tolerance.COINCIDENT * max(float(np.hypot(*along)), 1.0)
        reach = tolerance.COINCIDENT * np.maximum(np.hypot(*sides.T), 1.0)
        crosses = (from_start * from_end < 0) & (np.minimum(abs(from_start), abs(from_end)) > touch)
        crosses &= (corner_side * beyond_side < 0) & (np.minimum(abs(corner_side), abs(beyond_side)) > reach)
        if crosses.any():
            return True
    return False


def _add_bore(bores: dict[str, Bore], run: _Run, one: Round, tile: Tile) -> None:
    assert run.wall is not None
    length = float(np.hypot(*np.diff(run.points, axis=0).T).sum())
    if run.wall in bores:
        length += bores[run.wall].length
    marks = _centre_marks(one.centre, tile)
    bores[run.wall] = Bore(wall=run.wall, centre=_pair(one.centre), radius=one.radius, length=length, marks=marks)


def _arc_cut(run: _Run, one: Round, tile: Tile) -> ArcCut:
    assert run.wall is not None
    start, end = run.points[0], run.points[-1]
    away = run.points - one.centre
    turned = np.unwrap(np.arctan2(away[:, 1], away[:, 0]))
    arc = Arc(start=_pair(start), end=_pair(end), bulge=math.tan(float(turned[-1] - turned[0]) / 4))
    count = max(2, math.ceil(arc.chord / OFFSETS))
    places = [arc.chord * n / count for n in range(1, count)] if abs(arc.bulge) <= 1 else []
    return ArcCut(
        wall=run.wall,
        start=arc.start,
        end=arc.end,
        bulge=arc.bulge,
        marks=(_mark_at(start, tile, kept_after=False), _mark_at(end, tile, kept_after=True)),
        offsets=tuple((place, arc.offset(place)) for place in places),
    )


def _mark_at(at: Points, tile: Tile, *, kept_after: bool) -> TileMark | None:
    """Returns the mark at a point on the tile's outline, None for one inside the tile.

    The outline runs anticlockwise about what is kept: where an arc ends, its side goes on to the corner after it, and
    where one starts, it comes from the corner before.
    """
    for n, (a, b) in enumerate(_sides(tile)):
        length = float(np.hypot(*(b - a)))
        along = float((at - a) @ _unit(a, b))
        on_side = abs(float(_cross(_unit(a, b), at - a))) <= tolerance.STRIP
        if on_side and -tolerance.STRIP <= along <= length + tolerance.STRIP:
            corner = tile.corner_from(n + 1, 1) if kept_after else tile.corner_from(n, -1)
            # Straight from the corner: along a straight side that is the way along the side.
            distance = float(np.hypot(*(at - tile.outline[corner])))
            return TileMark(side=tile.sides[n], corner=tile.corners[corner], distance=distance, at=_pair(at))
    return None


def _centre_marks(centre: Points, tile: Tile) -> tuple[TileMark, ...]:
    """Returns the marks that lines square to the sides through a round's centre make on the nearer sides."""
    if not tile.half_turns:
        return ()
    sides = list(_sides(tile))
    marks = []
    for pair in ((0, 2), (1, 3)):
        far = [round(abs(float(_cross(_unit(*sides[n]), centre - sides[n][0]))) / tolerance.RANK_STEP) for n in pair]
        n = pair[0] if far[0] <= far[1] else pair[1]
        a, b = sides[n]
        length, along = float(np.hypot(*(b - a))), float((centre - a) @ _unit(a, b))
        if not -tolerance.COINCIDENT <= along <= length + tolerance.COINCIDENT:
            continue
        near = along <= length / 2
        corner = tile.corners[n if near else (n + 1) % len(sides)]
        distance = max(0.0, along if near else length - along)
        marks.append(TileMark(side=tile.sides[n], corner=corner, distance=distance, at=_pair(a + _unit(a, b) * along)))
    return tuple(marks)


def _unit(a: Points, b: Points) -> Points:
    return np.asarray((b - a) / np.hypot(*(b - a)))


def _sides(tile: Tile) -> Iterator[tuple[Points, Points]]:
    return zip(tile.outline, np.roll(tile.outline, -1, axis=0), strict=True)


def _cross(one: Points, other: Points) -> Points:
    """z of the cross product of one vector with (..., 2) others."""
    return np.asarray(one[0] * other[..., 1] - one[1] * other[..., 0])


def _pair(point: Points) -> tuple[float, float]:
    return float(point[0]), float(point[1])
