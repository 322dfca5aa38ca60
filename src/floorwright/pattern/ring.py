"""One ring of whole pieces about a centre: how many, how wide their joints are inside and outside, when they taper.

The pieces of a ring touch its circle with the middle of their inside edge, so that a compass set to the inside radius
tells where each lies. Its joints are told in two ways:

- *along the arc*, as the trade reckons: the length of the circle less the pieces, shared out. Limits are held against
  these;
- *straight across*, as a spacer or a tape finds it between two pieces, square to the line half way between them.

They differ by less than prints in a ring of many pieces, and by millimetres in one of a dozen.
"""

import math
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.pattern.cell import Size
from floorwright.tolerance import COINCIDENT, LEAST_SAWN
from floorwright.units import LengthStyle

FULL: Final = math.tau
"""A whole turn, radians."""

MOST_RATIO: Final = 2.0
"""A piece longer than this times its width is narrow: two of them become one. Trade advice, passed on second hand."""

WHERE_NEEDED, NEVER, ALWAYS = "where needed", "never", "always"
"""When pieces are tapered."""

Taper: TypeAlias = str


class RingMisfitError(FloorwrightValueError):
    """No ring comes of what is asked.

    Attributes:
        what: with a place in braces for every length.
        lengths: mm, by those names.
    """

    def __init__(self, what: str, **lengths: float) -> None:
        super().__init__(what.format(**{name: f"{mm:.1f} mm" for name, mm in lengths.items()}))
        self.what = what
        self.lengths = lengths

    def said(self, style: LengthStyle) -> str:
        """Returns what is wrong, lengths in the units of the job."""
        return self.what.format(**{name: style.text(mm, unit=True, feet=False) for name, mm in self.lengths.items()})


@dataclass(frozen=True, slots=True, kw_only=True)
class Joints:
    """The joints between the pieces of a ring, mm.

    Attributes:
        asked: of tapered pieces, and what the joints of pieces left whole come as near to as they can.
        least: at the inside of pieces left whole.
        most: at their outside.
    """

    asked: float
    least: float
    most: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A ring, or of less than a turn an arc of a fan.

    Attributes:
        pieces: how many.
        inside: mm from the centre to the middle of an inside edge.
        depth: mm, of a piece outward.
        widths: (inside, outside) of a piece, mm along the ring.
        unit: mm, the width of the goods along the ring.
        sweep: radians.
        first: radians from the direction of the pattern to the first joint (of a fan: to its first side).
    """

    pieces: int
    inside: float
    depth: float
    widths: tuple[float, float]
    unit: float
    sweep: float = FULL
    first: float = 0.0

    @property
    def step(self) -> float:
        """From joint to joint, radians."""
        return self.sweep / self.pieces

    @property
    def outside(self) -> float:
        """From the centre to the middle of an outside edge, mm."""
        return self.inside + self.depth

    @property
    def reach(self) -> float:
        """From the centre to an outside corner, mm: nothing of the ring lies farther out."""
        return math.hypot(self.outside, max(self.widths) / 2)

    @property
    def tapered(self) -> bool:
        """Whether its pieces are sawn to a wedge."""
        return self.unit - min(self.widths) > COINCIDENT

    @property
    def joints(self) -> tuple[float, float]:
        """Inside and outside, mm along the arc."""
        return self.step * self.inside - self.widths[0], self.step * self.outside - self.widths[1]

    @property
    def across(self) -> tuple[float, float]:
        """Inside and outside, mm straight across: 2 (r sin h - w / 2 cos h), h half a step."""
        sin, cos = math.sin(self.step / 2), math.cos(self.step / 2)
        inner, outer = self.widths
        return 2 * self.inside * sin - inner * cos, 2 * self.outside * sin - outer * cos

    @property
    def ratio(self) -> float:
        """The length of a piece by its width, as it lies: over 1."""
        mean = sum(self.widths) / 2
        return max(self.depth, mean) / min(self.depth, mean)

    @property
    def narrow(self) -> bool:
        """Whether its pieces are too long outward for their width."""
        return self.ratio > MOST_RATIO + COINCIDENT and self.depth > sum(self.widths) / 2

    @property
    def angles(self) -> tuple[float, ...]:
        """Of its joints from the first on, radians from the direction of the pattern; of a fan with its last side."""
        count = self.pieces if self.sweep >= FULL - COINCIDENT else self.pieces + 1
        return tuple(self.first + n * self.step for n in range(count))

    def chord(self, joints: int) -> float:
        """Returns the straight line between two joints so many apart on its inside circle, mm: 2 r sin(a / 2)."""
        return 2 * self.inside * math.sin(joints * self.step / 2)

    def outline(self) -> Points:
        """Returns a piece that points up its frame, (4, 2) mm: the centre of the ring is the origin, the inside edge
        the first side."""
        inner, outer = (width / 2 for width in self.widths)
        return np.array(
            [(-inner, self.inside), (inner, self.inside), (outer, self.outside), (-outer, self.outside)],
            dtype=np.float64,
        )


def least_radius(unit: Size, joints: Joints) -> float:
    """Returns the inside radius under which pieces left whole open their joints too far, mm.

    Along the arc n (w + least) = 2 pi r inside and n (w + most) = 2 pi (r + d) outside, so r = d (w + least) /
    (most - least). It is a lower bound: the number of pieces is a whole one, see `next_radius`.

    Args:
        unit: (width along the ring, depth), mm.
        joints: their limits.
    """
    width, depth = unit
    spread = joints.most - joints.least
    return depth * (width + joints.least) / spread if spread > COINCIDENT else math.inf


def whole_numbers(unit: Size, inside: float, joints: Joints, sweep: float = FULL, of: int = 1) -> range:
    """Returns the numbers of whole pieces that keep their joints within the limits, along the arc.

    Args:
        unit: (width along the ring, depth), mm.
        inside: radius, mm.
        joints: their limits.
        sweep: radians.
        of: only multiples of this.
    """
    width, depth = unit
    most = math.floor(sweep * inside / (width + joints.least) / of + COINCIDENT) * of
    least = max(1, math.ceil(sweep * (inside + depth) / (width + joints.most) / of - COINCIDENT)) * of
    return range(least, most + 1, of)


def next_radius(unit: Size, inside: float, joints: Joints, sweep: float = FULL, of: int = 1) -> float:
    """Returns the least inside radius, no less than the one given, at which a whole number of pieces keeps its joints
    within the limits; infinite where none does. Arguments are those of `whole_numbers`."""
    width, depth = unit
    spread = joints.most - joints.least
    if spread <= COINCIDENT:
        return math.inf
    fewest = max(sweep * depth / spread, sweep * (inside + depth) / (width + joints.most))
    pieces = math.ceil(fewest / of - COINCIDENT) * of
    return max(inside, pieces * (width + joints.least) / sweep)


def taper_width(radius: float, step: float, joint: float) -> float:
    """Returns how wide a tapered piece is at a radius, mm: 2 r tan h - j / cos h, h half a step, so that the joint is
    as wide straight across all the way."""
    return 2 * radius * math.tan(step / 2) - joint / math.cos(step / 2)


def fewest_tapered(unit: Size, inside: float, joint: float, sweep: float = FULL, of: int = 1) -> int:
    """Returns the least number of tapered pieces that the goods are wide enough for at the outside.

    Args:
        unit: (width along the ring, depth), mm.
        inside: radius, mm.
        joint: mm.
        sweep: radians.
        of: only multiples of this.
    """
    width, depth = unit
    # Less than half a turn each; fewer pieces are wider, so the first that fits is the least.
    pieces = max(
        math.floor(sweep / math.pi / of) * of + of,
        math.floor(sweep * (inside + depth) / (width + joint) / of) * of,
        of,
    )
    while taper_width(inside + depth, sweep / pieces, joint) > width + COINCIDENT:
        pieces += of
    return pieces


def ring(
    unit: Size,
    inside: float,
    joints: Joints,
    *,
    sweep: float = FULL,
    of: int = 1,
    taper: Taper = WHERE_NEEDED,
    pieces: int | None = None,
    first: float = 0.0,
) -> Ring:
    """Returns the ring: pieces left whole where their joints keep the limits, tapered where they do not.

    Of several numbers of whole pieces the one is taken whose joints, half way out, are nearest to those asked for; of
    two as near the smaller. Where pieces are never to be tapered and none keeps the limits, it is the most pieces that
    still have the least joint inside. Tapered pieces are as few as the goods are wide enough for.

    Args:
        unit: (width along the ring, depth), mm.
        inside: radius, mm.
        joints: what is asked, and the limits.
        sweep: radians.
        of: the number of pieces is a multiple of this, for joints that line up on spokes.
        taper: `where needed`, `never` or `always`.
        pieces: a person's own number.
        first: radians to the first joint.

    Raises:
        RingMisfitError: pieces would overlap, or be narrower than can be sawn.
    """
    width, depth = unit
    allowed = whole_numbers(unit, inside, joints, sweep, of)
    fit = [n for n in allowed if pieces in (None, n)]

    def whole(count: int) -> Ring:
        return Ring(
            pieces=count, inside=inside, depth=depth, widths=(width, width), unit=width, sweep=sweep, first=first
        )

    def off(count: int) -> float:
        return abs(sweep * (inside + depth / 2) / count - width - joints.asked)

    if taper != ALWAYS and fit:
        return whole(min(fit, key=lambda count: (round(off(count) / COINCIDENT), count)))
    if taper == NEVER:
        count = pieces or max(of, math.floor(sweep * inside / (width + joints.least) / of + COINCIDENT) * of)
        made = whole(count)
        if min(made.across) < -COINCIDENT or made.step >= math.pi:
            raise RingMisfitError(
                f"{count} pieces {{width}} wide do not go round at {{inside}}", width=width, inside=inside
            )
        return made
    count = pieces or fewest_tapered(unit, inside, joints.asked, sweep, of)
    return _tapered(unit, inside, joints.asked, count, sweep, first)


def _tapered(unit: Size, inside: float, joint: float, count: int, sweep: float, first: float) -> Ring:
    width, depth = unit
    step = sweep / count
    if step >= math.pi:
        raise RingMisfitError(f"{count} pieces do not go round: each would take half a turn or more")
    inner, outer = (taper_width(radius, step, joint) for radius in (inside, inside + depth))
    if outer > width + COINCIDENT:
        said = f"{count} pieces would be {{outer}} wide outside, the goods are {{width}}"
        raise RingMisfitError(said, outer=outer, width=width)
    if inner < min(LEAST_SAWN, width / 2):
        said = f"{count} pieces would be {{inner}} wide inside, too narrow to saw; begin farther out"
        raise RingMisfitError(said, inner=max(inner, 0.0))
    return Ring(pieces=count, inside=inside, depth=depth, widths=(inner, outer), unit=width, sweep=sweep, first=first)


def merged(one: Ring, of: int = 1) -> Ring | None:
    """Returns the ring with two narrow pieces made one: half as many, tapered, the joint as it is half way out; of an
    odd number one more than half. None where nothing comes of it.

    Args:
        one: a ring.
        of: the number of pieces stays a multiple of this.
    """
    count = math.ceil(one.pieces / 2 / of) * of
    joint = sum(one.across) / 2
    if count >= one.pieces or one.sweep / count >= math.pi:
        return None
    inner, outer = (taper_width(radius, one.sweep / count, joint) for radius in (one.inside, one.outside))
    return Ring(
        pieces=count,
        inside=one.inside,
        depth=one.depth,
        widths=(inner, outer),
        unit=outer,
        sweep=one.sweep,
        first=one.first,
    )


def inside_of(
    reach: float,
    unit: Size,
    joints: Joints,
    *,
    sweep: float = FULL,
    of: int = 1,
    taper: Taper = WHERE_NEEDED,
    pieces: int | None = None,
) -> float:
    """Returns the inside radius at which the corners of a ring just reach so far out, mm, by halving.

    Args:
        reach: mm from the centre.
        unit, joints, sweep, of, taper, pieces: as for `ring`.

    Raises:
        RingMisfitError: no ring comes of it.
    """
    width, depth = unit
    low, high = math.sqrt(max(reach**2 - width**2 / 4, 0.0)) - depth, reach - depth
    if low <= 0.0:
        raise RingMisfitError("pieces {depth} deep do not go into a radius of {reach}", depth=depth, reach=reach)
    while high - low > COINCIDENT:
        middle = (low + high) / 2
        made = ring(unit, middle, joints, sweep=sweep, of=of, taper=taper, pieces=pieces)
        low, high = (low, middle) if made.reach > reach else (middle, high)
    return low
