"""What a pen and a tone look like: ISO 128 weights and dashes first, then hatch, then the colours of a palette."""

from dataclasses import dataclass, fields, replace
from typing import Final

from floorwright.draw.style import Pen, Tone


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """Colours by their use, as `#RRGGBB`."""

    paper: str
    ink: str
    quiet: str
    control: str
    limit: str
    agrees: str
    doubt: str
    tile: str
    cut: str
    waste: str

    def as_dict(self) -> dict[str, str]:
        """Returns the colours by name."""
        return {field.name: getattr(self, field.name) for field in fields(self)}


LIGHT: Final = Palette(
    paper="#FBFAF7",
    ink="#1D2226",
    quiet="#6B7278",
    control="#1F5FA8",
    limit="#A8401F",
    agrees="#3C6E47",
    doubt="#8A6410",
    tile="#E9E3D7",
    cut="#D8CDBB",
    waste="#C9D2D3",
)
DARK: Final = Palette(
    paper="#16191C",
    ink="#ECEAE4",
    quiet="#9AA1A6",
    control="#7DB3F0",
    limit="#F0906F",
    agrees="#8CC79A",
    doubt="#E3BE66",
    tile="#3A3F42",
    cut="#4A443B",
    waste="#34434A",
)
PRINT: Final = replace(LIGHT, paper="#FFFFFF", tile="#F3EFE7", cut="#E3DACB")
"""For white paper, tiles lighter so that what is written on them reads at arm's length and toner is spared."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A line as drawn.

    Attributes:
        width: mm.
        ink: the palette's name of its colour.
        dashes: dashes and spaces, mm; none: continuous.
        cased: mm of paper colour along it, so that its dashes are seen where it runs over another line; 0 for none.
        core: mm of paper colour down its middle, which makes it a double line; 0 for none.
    """

    width: float
    ink: str = "ink"
    dashes: tuple[float, ...] = ()
    cased: float = 0.0
    core: float = 0.0


def dashed(width: float, *parts: float) -> tuple[float, ...]:
    """Returns dashes in mm by ISO 128-2, which counts in line widths: 24 long dash, 12 dash, 3 space, 0.5 dot."""
    return tuple(round(width * part, 3) for part in parts)


STROKES: Final = {
    Pen.WALL: Stroke(width=0.7),
    Pen.JOINT: Stroke(width=0.18, ink="quiet"),
    Pen.FACTORY: Stroke(width=0.18, ink="quiet"),
    Pen.SAWN: Stroke(width=0.5),
    Pen.CONTROL: Stroke(width=0.35, ink="control", dashes=dashed(0.35, 24, 3, 0.5, 3), cased=0.8),
    Pen.ARC: Stroke(width=0.25, ink="control"),
    Pen.DIMENSION: Stroke(width=0.18),
    Pen.HIDDEN: Stroke(width=0.25, dashes=dashed(0.25, 12, 3)),
    Pen.READING: Stroke(width=0.25, ink="quiet", dashes=dashed(0.25, 24, 3, 6, 3)),
    Pen.SUSPECT: Stroke(width=0.5, ink="limit", dashes=dashed(0.25, 12, 3, 0.5, 3, 0.5, 3)),
    Pen.OPENING: Stroke(width=0.25),
    Pen.OBSTACLE: Stroke(width=0.5),
    Pen.ZONE: Stroke(width=0.35),
    Pen.MARK: Stroke(width=0.35),
    Pen.RULE: Stroke(width=0.18, ink="quiet"),
    # ISO 128-2 has dots half a width long: at 0.5 mm they would be lost on a wet sheet.
    Pen.SCORE: Stroke(width=0.5, ink="control", dashes=dashed(0.5, 1.5, 2), cased=0.8),
    Pen.SLAB_JOINT: Stroke(width=1.5, core=0.7),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """Parallel lines: their angle in degrees and their distance and width in mm on paper."""

    angle: float
    apart: float
    width: float = 0.18
    ink: str = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class Filling:
    """A filled area as drawn: the palette's name of its colour, and a hatch where a photocopy must keep the meaning."""

    ink: str | None
    hatch: Hatch | None = None


FILLINGS: Final = {
    Tone.SLAB: Filling(ink="paper"),
    Tone.TILE: Filling(ink="tile"),
    Tone.CUT: Filling(ink="cut"),
    Tone.UNDER: Filling(ink="cut", hatch=Hatch(angle=45, apart=1.2, width=0.25, ink="limit")),
    Tone.OBSTACLE: Filling(ink="paper", hatch=Hatch(angle=135, apart=0.9)),
    Tone.WASTE: Filling(ink="waste"),
    # Over the tiles of a zone: wide enough apart to leave its numbers and joints plain.
    Tone.BORDER: Filling(ink=None, hatch=Hatch(angle=60, apart=2.4, width=0.13, ink="quiet")),
    Tone.INSET: Filling(ink=None, hatch=Hatch(angle=120, apart=1.6, width=0.13, ink="quiet")),
}
