"""A slow and simple way to lay a pattern, by shapely alone, so that cuts are tested apart from the real kernel."""

from collections.abc import Callable, Sequence

import numpy as np
import pytest
import shapely

from floorwright import tolerance
from floorwright.geometry.region import Points, Region
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option
from floorwright.layout.piece import Piece
from floorwright.pattern.cell import Placement, UnitCell

LayNaively = Callable[..., Layout]


def region_of(*rings: tuple[Sequence[tuple[float, float]], Sequence[str]]) -> Region:
    return Region(
        rings=tuple(np.array(ring, dtype=np.float64) for ring, _ in rings), edges=tuple(tuple(n) for _, n in rings)
    )


def lay(region: Region, cell: UnitCell, origin: tuple[float, float], angle: float) -> Layout:
    floor = shapely.Polygon(region.rings[0], list(region.rings[1:]))
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
    reach = float(np.hypot(*np.ptp(region.rings[0], axis=0))) * 2
    count = int(reach / min(np.hypot(*cell.a), np.hypot(*cell.b))) + 2
    pieces: list[Piece] = []
    for i in range(-count, count):
        for j in range(-count, count):
            for k, outline in enumerate(cell.pieces):
                tile = shapely.Polygon((outline + i * cell.a + j * cell.b) @ turn + np.array(origin))
                if floor.intersects(tile):
                    pieces += _pieces(tile, floor, region, (i, j, k))
    option = Option(
        name="by hand", placement=Placement(origin=origin, angle=angle), joint=cell.joint, full=0, cut=0, worst=0.0,
        worst_piece="", worst_thin=0.0, walls=(), shaken=0.0, fragile=False, refused="", under=0,
    )  # fmt: skip
    return Layout(
        zone="floor", cell=cell, region=region, gap=(0.0, 0.0), limit=0.0, chosen=option, options=(option,),
        pieces=tuple(pieces), proofs=(), findings=(),
    )  # fmt: skip


def _pieces(tile: shapely.Polygon, floor: shapely.Polygon, region: Region, index: tuple[int, int, int]) -> list[Piece]:
    parts = [
        part
        for part in shapely.get_parts(tile.intersection(floor))
        if part.geom_type == "Polygon" and part.area > tolerance.SLIVER_AREA
    ]
    made = []
    for n, part in enumerate(parts):
        full = part.area > tile.area - tolerance.SLIVER_AREA
        part = shapely.geometry.polygon.orient(part)
        rings = [np.array(ring.coords)[:-1] for ring in (part.exterior, *part.interiors)]
        name = f"floor:{index[0]},{index[1]},{index[2]}" + (f"/{n + 1}" if len(parts) > 1 else "")
        made.append(
            Piece(
                id=name, index=index, full=full, rings=tuple(rings),
                edges=tuple(tuple(_walls(ring, region)) for ring in rings), area=part.area, narrowest=0.0, depth=0.0,
            )
        )  # fmt: skip
    return made


def _walls(ring: Points, region: Region) -> list[str | None]:
    walls: list[str | None] = []
    for start, end in zip(ring, np.roll(ring, -1, axis=0), strict=True):
        found = None
        for border, names in zip(region.rings, region.edges, strict=True):
            for a, b, name in zip(border, np.roll(border, -1, axis=0), names, strict=True):
                side = shapely.LineString([a, b])
                if max(side.distance(shapely.Point(start)), side.distance(shapely.Point(end))) < tolerance.COINCIDENT:
                    found = name
        walls.append(found)
    return walls


@pytest.fixture
def lay_naively() -> LayNaively:
    return lay


@pytest.fixture
def make_region() -> Callable[..., Region]:
    return region_of
