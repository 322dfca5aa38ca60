"""The nouns of practice: an exercise, what is drawn of it, its answers, and how it is marked."""

from dataclasses import dataclass
from typing import Final, Literal

from floorwright.control.sight import Point
from floorwright.units import LengthStyle

Kind = Literal["square", "bisect", "perpendicular", "parallel", "mitre", "arc", "balance", "wrong reading", "diagonal"]

KINDS: Final[tuple[Kind, ...]] = (
    "square", "bisect", "perpendicular", "parallel", "mitre", "arc", "balance", "wrong reading", "diagonal",
)  # fmt: skip
"""In the order in which they are learnt."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A straight line. points: floor mm. as_: `wall`, `line` (control), `joint` or `reading`."""

    points: tuple[Point, Point]
    as_: Literal["wall", "line", "joint", "reading", "suspect"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Struck:
    """An arc as it is struck, drawn only near a point. mm."""

    centre: Point
    radius: float
    near: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """What is drawn at a true scale.

    Attributes:
        scale: 25 for 1:25.
        box: x least, y least, x most, y most that the paper shows, floor mm.
        margin: mm on paper about that.
        strokes, arcs: drawn in order.
        points: name -> place, floor mm: a cross each.
    """

    scale: float
    box: tuple[float, float, float, float]
    strokes: tuple[Stroke, ...] = ()
    arcs: tuple[Struck, ...] = ()
    points: tuple[tuple[str, Point], ...] = ()
    margin: float = 7.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """A table of what the learner is told: headings, then rows of texts."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """An answer.

    Attributes:
        what: asked for: `feet either side of the middle`.
        figure: as printed.
        sum: how it is worked out, with its figures; empty where it is read off.
    """

    what: str
    figure: str
    sum: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """A length that a marker measures or reads, and marks.

    Attributes:
        what: from where to where, or which figure.
        expected: mm as it is measured: on the paper, or of a figure that is written down.
        on_paper: whether it is measured on the paper; else the learner's own figure is read.
    """

    what: str
    expected: float
    on_paper: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """One exercise of one variation.

    Attributes:
        kind: see `KINDS`.
        number: of the variation; the same number and options give the same exercise.
        style: how its lengths print.
        title: what is to be done, as a sentence.
        task: what to do, step by step.
        given: what the learner starts from.
        table: figures to work from; None where the drawing has all.
        answers: in the order of the task.
        checks: what is marked.
        solved: the drawing with the answer.
        why: what there is to learn from it.
        exact: text that must be named, such as the wrong reading; empty where all is measured.
    """

    kind: Kind
    number: int
    style: LengthStyle
    title: str
    task: tuple[str, ...]
    given: Picture
    table: Given | None
    answers: tuple[Answer, ...]
    checks: tuple[Check, ...]
    solved: Picture
    why: tuple[str, ...]
    exact: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Marking:
    """How exercises are marked (our default: 1 mm full, 2 mm half; common practice, no source).

    Attributes:
        full: mm; so far out earns all marks of a check.
        half: mm; so far out earns half of them, beyond it none.
        marks: for each check.
    """

    full: float = 1.0
    half: float = 2.0
    marks: int = 2

    def earned(self, check: Check, measured: float) -> float:
        """Returns the marks for what was measured."""
        out = abs(measured - check.expected)
        return float(self.marks) if out <= self.full else self.marks / 2 if out <= self.half else 0.0
