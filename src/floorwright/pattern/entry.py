"""What the catalogue holds of a pattern: how it is called, what it takes, how it is made, when it closes."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

from floorwright.findings import Finding, Severity
from floorwright.pattern.cell import Size, UnitCell
from floorwright.units import LengthStyle

Maker: TypeAlias = Callable[..., UnitCell]
"""Takes the size of every kind of piece by its name, the joint, then the pattern's parameters by theirs."""


def by_size(make: Maker, *kinds: str) -> Maker:
    """Returns the maker of a pattern whose function takes the sizes of these kinds, then the joint and the parameters;
    without kinds the size of the only one."""

    def made(sizes: Mapping[str, Size], joint: float, **values: Any) -> UnitCell:
        return make(*(sizes[kind] for kind in kinds or tuple(sizes)[:1]), joint, **values)

    return made


def by_length(make: Maker) -> Maker:
    """Returns the maker of a pattern whose function takes one measure of its main size, the joint, the parameters."""

    def made(sizes: Mapping[str, Size], joint: float, **values: Any) -> UnitCell:
        return make(next(iter(sizes.values()))[0], joint, **values)

    return made


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A kind of piece that a pattern is laid with.

    Attributes:
        name: trade word, `octagon`; empty for the only one of a pattern.
        measured: what of it is given.
        own: whether it needs goods of its own; else it is the main goods unless others are named.
    """

    name: str
    measured: str = "length and width"
    own: bool = True


ONE: tuple[Kind, ...] = (Kind(name=""),)
"""A pattern of equal pieces."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameter:
    """Something to be chosen of a pattern beside its goods and its joint.

    Attributes:
        key: of the job file.
        meaning: one phrase.
        default: what is taken without it; None where that depends on the goods.
        least, most: where it is a number.
        choices: where it is a word.
        shapes: whether the pattern is made with it; else it is only held against what is made.
    """

    key: str
    meaning: str
    default: Any = None
    least: float | None = None
    most: float | None = None
    choices: tuple[str, ...] = ()
    shapes: bool = True

    def allows(self, value: Any) -> bool:
        """Returns whether a value is in range; of a list every part must be."""
        if isinstance(value, tuple):
            return all(self.allows(part) for part in value)
        if self.choices:
            return value in self.choices
        return (self.least is None or value >= self.least) and (self.most is None or value <= self.most)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a zone asks of its pattern.

    Attributes:
        place: of the zone, for findings.
        sizes: of every kind, mm, in the pattern's order, by name.
        joint: mm.
        values: of the pattern's parameters.
        style: how lengths are written.
    """

    place: str
    sizes: Mapping[str, Size]
    joint: float
    values: Mapping[str, Any]
    style: LengthStyle

    @property
    def size(self) -> Size:
        """Of the main goods, mm."""
        return next(iter(self.sizes.values()))

    def text(self, mm: float) -> str:
        """Returns a length as it prints, finer than the job's own step where it is a size to order."""
        return self.style.entered_text(round(mm, 1) if self.style.system == "metric" else mm, unit=True)

    def finding(
        self, code: str, found: str, expected: str = "", remedy: str = "", severity: Severity = Severity.WARNING
    ) -> Finding:
        """Returns a finding about the pattern."""
        return Finding(
            code=code, severity=severity, place=self.place, found=found, expected=expected, remedy=remedy,
        )  # fmt: skip


Check: TypeAlias = Callable[[Asked], Iterator[Finding]]


def closes_always(_asked: Asked) -> Iterator[Finding]:
    """Yields nothing: a pattern that closes with every size and joint."""
    return iter(())


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """One entry of the catalogue.

    Attributes:
        name: trade name, as a job file calls it.
        says: what it looks like, one phrase.
        make: see `Maker`.
        kinds: what it is laid with, the main goods first.
        parameters: what may be chosen.
        check: what does not close with the goods and the joint that are asked for, and what would.
        closes: when it closes, one phrase.
        lines: what to snap and what it is for, one phrase.
        angles: at which angles it is laid, one phrase.
        cautions: what goes wrong, a short sentence each; common practice without a source unless one is named.
        group: of its symmetries, in the crystallographers' short names, pieces of one kind taken alike.
        pieces: how many shapes it has, mirrored ones counted apart.
        vertices: number of sides of the pieces round each kind of meeting, where it is one of the Archimedean tilings.
        stands: whether the person must say how it stands to the wall before anything is agreed.
    """

    name: str
    says: str
    make: Maker
    kinds: tuple[Kind, ...] = ONE
    parameters: tuple[Parameter, ...] = ()
    check: Check = closes_always
    closes: str = "with any size and joint"
    lines: str
    angles: str
    cautions: tuple[str, ...] = ()
    group: str
    pieces: int = 1
    vertices: str = ""
    stands: bool = False

    def cell(self, sizes: Mapping[str, Size], joint: float, values: Mapping[str, Any]) -> UnitCell:
        """Returns its unit cell for goods and a joint; parameters without a value take their default."""
        taken = {one.key: values.get(one.key, one.default) for one in self.parameters if one.shapes}
        return self.make(sizes, joint, **taken)

    def parameter(self, key: str) -> Parameter | None:
        """Returns the parameter of that key, or None."""
        return next((one for one in self.parameters if one.key == key), None)
