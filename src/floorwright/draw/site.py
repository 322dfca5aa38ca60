"""The nouns of the site copy: what a phone needs of a job, one thing to do after the other. Floor frame, mm."""

from dataclasses import dataclass

from floorwright.draw.sheet import Prose
from floorwright.draw.view import Fill, Item, Line, Point
from floorwright.geometry.region import Points

Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A name beside the work.

    Attributes:
        at: a point of what bears it.
        away: unit direction from there to the name.
        text: as printed.
        what: `corner`, `wall`, `door` or `room`.
    """

    at: Point
    away: Point
    text: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tiles:
    """Full tiles of one shape.

    Attributes:
        outline: (n, 2), with its first corner at the origin.
        places: (m, 2), where that corner lies.
    """

    outline: Points
    places: Points


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteCut:
    """A cut piece on the floor.

    Attributes:
        label: its number.
        shape: on the floor.
        is_under: whether it is under the limit.
    """

    label: str
    shape: Fill
    is_under: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SitePlan:
    """The floor.

    Attributes:
        box: x least, y least, x most, y most.
        floor: the slab and what stands on it.
        tiles: full ones.
        cuts: every cut piece, those of a zone after each other.
        sawn: sides of theirs that are sawn.
        walls: with doors and control lines.
        names: of corners, walls, doors and rooms.
    """

    box: Box
    floor: tuple[Item, ...]
    tiles: tuple[Tiles, ...]
    cuts: tuple[SiteCut, ...]
    sawn: tuple[Line, ...]
    walls: tuple[Item, ...]
    names: tuple[Named, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteTask:
    """One thing to do.

    Attributes:
        name: short, for a list; empty where its number does.
        text: sentences.
        figures: what is marked, each with the words that tell it from the others.
        points: to be marked or used, with their letters.
        lines: to be struck.
        arcs: to be swung: centre, and the point that they cross near.
    """

    name: str
    text: str
    figures: tuple[tuple[str, str], ...]
    points: tuple[tuple[str, Point], ...] = ()
    lines: tuple[tuple[Point, Point], ...] = ()
    arcs: tuple[tuple[Point, Point], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteSteps:
    """Things that are done in one go.

    Attributes:
        heading: what they make.
        tasks: in order.
        why: what makes them true, what to watch.
    """

    heading: str
    tasks: tuple[SiteTask, ...]
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteCheck:
    """A check reading, with all that a verdict on what is typed needs.

    Attributes:
        heading: of the checks that it stands among.
        ends: between what.
        reads, within: as printed.
        why: what it proves.
        points: both ends.
        expected: mm.
        arms, way, at: of a reading across the cross, see `control.readings.Yardstick`; no arms for any other.
        limits: mm out up to which it is good, and from which it is out.
        is_rough: whether it cannot tell between them; else it is doubtful.
        out: what to do, `{}` for how far out it is: where it is out by more than 0, and by less.
        doubtful: likewise, read it again.
        cannot: what to do where it cannot tell.
        told: how the verdict is told, `{}` for how far out it is.
    """

    heading: str
    ends: str
    reads: str
    within: str
    why: str
    points: tuple[Point, ...]
    expected: float
    arms: tuple[float, ...]
    way: int
    at: float
    limits: tuple[float, float]
    is_rough: bool
    out: tuple[str, str]
    doubtful: tuple[str, str]
    cannot: str
    told: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TilePicture:
    """A cut piece in its tile, much as it lies on the floor.

    Attributes:
        tile: the full tile.
        kept: what is left of it.
        sawn: its sawn sides.
        marks: where the saw lines meet the tile's sides, each with its figure and the corner that it is measured from.
    """

    tile: tuple[Point, ...]
    kept: Fill
    sawn: tuple[Line, ...]
    marks: tuple[tuple[Point, Point, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteAlike:
    """Cuts of a wall that are all the same.

    Attributes:
        numbers: as they are said.
        pieces: where they are among the cuts of the plan.
        kept: what to keep at both ends, empty where no straight cut is.
        note: what else is to be known.
        also: what else is cut of them.
        picture: of one of them.
    """

    numbers: str
    pieces: tuple[int, ...]
    kept: tuple[str, str]
    note: str
    also: tuple[str, ...]
    picture: TilePicture


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteCuts:
    """The cuts that a walk first meets at a wall; `ends`: what stands over both figures."""

    heading: str
    ends: tuple[str, str]
    cuts: tuple[SiteAlike, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteCopy:
    """A job as it goes to site.

    Attributes:
        title: one sentence.
        system: `metric` or `imperial`.
        column: unit of figures that stand without theirs; empty in feet and inches.
        unit: what a bare number typed is in.
        plan: the floor.
        first: what was decided, and what needs an answer.
        steps: control lines.
        checks: readings that prove them.
        nail, lines: the corner that the pattern's lines run from, and those.
        cuts: by wall.
        scored: what is cut into the slab itself, in order.
        before_snapping, before_sawing: what to mind.
    """

    title: str
    system: str
    column: str
    unit: str
    plan: SitePlan
    first: tuple[Prose, ...]
    steps: tuple[SiteSteps, ...]
    checks: tuple[SiteCheck, ...]
    nail: str
    lines: tuple[SiteTask, ...]
    cuts: tuple[SiteCuts, ...]
    scored: tuple[SiteSteps, ...]
    before_snapping: tuple[Prose, ...]
    before_sawing: tuple[Prose, ...]
