"""The nouns of control. Floor frame, mm and radians."""

from dataclasses import dataclass

from floorwright.findings import Finding


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A mark that a person makes: a running distance from a named corner along a named wall.

    Attributes:
        name: letter or short name on the sheet.
        on: name of the wall (or control line) that it lies on.
        start: name of the corner or point that the tape's zero is held at.
        distance: mm from there.
        x, y: mm.
        sd: standard deviation of its place along `on`, mm.
    """

    name: str
    on: str
    start: str
    distance: float
    x: float
    y: float
    sd: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """How far out a line may be at a distance from where it was struck: one standard deviation, mm."""

    at: float
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlLine:
    """A line to strike.

    Attributes:
        name: `first line`, `square line`, `45 left` (anticlockwise of the first line) or `45 right`.
        angle: radians from x, in (-pi, pi].
        through: mm, a point on it (the centre).
        marks: where it meets the walls, both ends, in the line's direction.
        sd_angle: radians, predicted from how it is raised.
        drift: at the end of the line on either side and at any wall asked for.
    """

    name: str
    angle: float
    through: tuple[float, float]
    marks: tuple[Mark, ...]
    sd_angle: float
    drift: tuple[Drift, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """A short arc as it is struck: centre, radius and the point near which it is drawn. mm."""

    centre: tuple[float, float]
    radius: float
    near: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing to do.

    Attributes:
        number: from 1, within its construction.
        action: `extend` (stretch the line from `start` over the point before `end`, and mark `end` `length` beyond it),
            `mark` (a point at `length` from `start` on a line), `arc` (swing `length` about `start`, near `end`),
            `join` (strike a line through `start` and `end`), `help` and `touch` (strike a line that just touches the
            arcs at `start` and `end`: a helping line, or the line itself), `pull` (hold a tape from `start` to `end`:
            it must read `length`).
        tool: `tape`, `compass`, `chalk line`, `laser`.
        start, end: point names on the drawing.
        length: radius or distance, mm; 0 for `join`.
        points: points that this step makes or uses, name -> (x, y) mm, for the drawing.
        arcs: short arcs that this step strikes.
    """

    number: int
    action: str
    tool: str
    start: str
    end: str
    length: float
    points: tuple[tuple[str, float, float], ...] = ()
    arcs: tuple[Arc, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Construction:
    """A way to raise a line, fitted to the room.

    Attributes:
        makes: name of the line it makes (`square line`, `45 left`, ...).
        method: `marks on the walls`, `compass`, `3-4-5`, `equal diagonals`, `semicircle`, `laser`, `four equal marks`,
            `chord`, `stepping the radius`, `a parallel past it`.
        size: what to call it by: length between the walls (marks), foot distance (compass), longest side (3-4-5),
            diagonal (equal diagonals), arm (four equal marks), offset (parallel), mm.
        steps: in order.
        sd_angle: predicted standard deviation of the line's angle against the first line, radians.
        chosen: the one whose accuracy the line carries.
        why: one or two sentences: what makes it true, what to watch.
    """

    makes: str
    method: str
    size: float
    steps: tuple[Step, ...]
    sd_angle: float
    chosen: bool = False
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Considered:
    """A way to raise a line that was thought of.

    Attributes:
        makes, method: as in `Construction`.
        sd_angle: predicted, radians; None where it was not fitted.
        why_not: why it is not the one chosen, in words; empty for the chosen one.
    """

    makes: str
    method: str
    sd_angle: float | None
    why_not: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """A reading to take once the lines are down.

    Attributes:
        between: the two points to measure between, each as words (`1500 out on the square line, north arm`).
        expected: mm.
        allow: mm; outside expected +/- allow, something is wrong (three standard deviations).
        why: one sentence: what it proves.
        legs: for a reading across the lines, its ends as marks on the lines, running from the centre and named after
            the wall that they lie towards; empty for any other.
    """

    between: tuple[str, str]
    expected: float
    allow: float
    why: str
    legs: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Control:
    """Everything to set out before the pattern.

    Attributes:
        centre: mm.
        centre_how: words: `middle of the first line`, ...
        first_how: words: `middle of S to middle of N`, ...
        lines: first line, square line and the two 45s.
        constructions: every way worked out; one `chosen` per line.
        checks: readings to take.
        considered: every way to raise the square line that was thought of, the chosen one first.
        findings: what a person should know (mid-lines that do not cross square, ...).
    """

    centre: tuple[float, float]
    centre_how: str
    first_how: str
    lines: tuple[ControlLine, ...]
    constructions: tuple[Construction, ...]
    checks: tuple[Check, ...]
    findings: tuple[Finding, ...]
    considered: tuple[Considered, ...] = ()
