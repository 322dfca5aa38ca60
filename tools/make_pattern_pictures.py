"""Remakes docs/pictures/patterns/: every pattern of the catalogue on a small patch, clipped by the program itself.

.venv/bin/python -m tools.make_pattern_pictures
"""

from pathlib import Path

import numpy as np
from tests.pattern.samples import SAMPLES, Sample

from floorwright.geometry.region import Points, Region
from floorwright.layout.pieces import pieces_of
from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.cell import Placement

PICTURES = Path(__file__).parent.parent / "docs" / "pictures" / "patterns"
ACROSS, UP = 6.0, 4.0
"""Of the patch: so many times the side of a square with the area of a piece."""

WIDTH = 300.0
"""Of a picture, its own units."""

FILLS = ("#E9E3D7", "#C9D2D3", "#D8CDBB", "#F4F0E8")
INK, JOINT = "#1D2226", "#6B7278"


def picture(sample: Sample) -> str:
    """Returns the picture of a pattern as SVG."""
    cell = sample.cell()
    side = (abs(float(np.linalg.det(cell.repeat))) / len(cell.pieces)) ** 0.5
    wide, high = ACROSS * side, UP * side
    rim = np.array([[0.0, 0.0], [wide, 0.0], [wide, high], [0.0, high]])
    patch = Region(rings=(rim,), edges=(("foot", "right", "top", "left"),))
    at = cell.anchors[0].at if cell.anchors else np.zeros(2)
    origin = rim.mean(axis=0) - at
    placed = Placement(origin=(float(origin[0]), float(origin[1])), angle=0.0)
    scale = WIDTH / wide
    kinds = list(dict.fromkeys(cell.kinds)) or [""]
    paths: dict[str, str] = dict.fromkeys(kinds, "")
    for piece in pieces_of("patch", patch, cell, placed):
        paths[cell.kind(piece.index[2])] += "".join(_path(ring, scale, high) for ring in piece.rings)
    drawn = "".join(
        f'<path fill="{FILLS[n % len(FILLS)]}" stroke="{INK}" stroke-width="0.6" d="{path}"/>\n'
        for n, path in enumerate(paths.values())
    )
    size = f'width="{WIDTH:g}" height="{high * scale:.1f}" viewBox="0 0 {WIDTH:g} {high * scale:.1f}"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size}>\n<title>{sample.pattern}</title>\n'
        f'<rect width="100%" height="100%" fill="{JOINT}"/>\n{drawn}</svg>\n'
    )


def _path(ring: Points, scale: float, high: float) -> str:
    points = [f"{x * scale:.1f} {(high - y) * scale:.1f}" for x, y in ring.tolist()]
    return f"M{'L'.join(points)}Z"


def main() -> None:
    """Writes a picture of every pattern."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    for name in PATTERNS:
        sample = next(one for one in SAMPLES if one.pattern == name)
        path = PICTURES / f"{name.replace(',', '').replace(' ', '-')}.svg"
        path.write_text(picture(sample), encoding="utf-8")


if __name__ == "__main__":
    main()
