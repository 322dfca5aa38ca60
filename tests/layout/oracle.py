"""The tests' own judge of a position: exact overlay through shapely, measures written out anew.

It shares no code with the program's kernel or search.
"""

import math
from collections.abc import Iterator

import numpy as np
import shapely
from tests.layout.rooms import polygon_of, to_floor

from floorwright.geometry.region import Region
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import TOUCH


def narrowest(part: shapely.Polygon, tile: shapely.Polygon) -> float:
    """The lesser of the hull's width and what is left behind each saw line, those of holes too."""
    part = shapely.orient_polygons(part)
    outer = shapely.get_coordinates(part.exterior)[:-1]
    depth = math.inf
    for ring in (part.exterior, *part.interiors):
        corners = shapely.get_coordinates(ring)[:-1]
        onward = np.roll(corners, -1, axis=0)
        off = shapely.distance(tile.exterior, shapely.points((corners + onward) / 2))
        for (ax, ay), (bx, by) in zip(corners[off > TOUCH / 10], onward[off > TOUCH / 10], strict=True):
            behind = (bx - ax) * (outer[:, 1] - ay) - (by - ay) * (outer[:, 0] - ax)
            depth = min(depth, behind.max() / math.hypot(bx - ax, by - ay))
    hull = shapely.get_coordinates(shapely.convex_hull(part))
    run = np.diff(hull, axis=0)
    away = hull[None, :] - hull[:-1, None]
    across = (run[:, None, 0] * away[..., 1] - run[:, None, 1] * away[..., 0]) / np.hypot(*run.T)[:, None]
    return min(depth, float(np.ptp(across, axis=1).min()))


class Judge:
    """Judges positions of one pattern in one room."""

    def __init__(self, region: Region, cell: UnitCell) -> None:
        self.cell = cell
        self.room = polygon_of(region)
        shapely.prepare(self.room)
        self.corners = shapely.get_coordinates(shapely.box(*self.room.bounds))[:4]
        self.shrunk = [
            shapely.get_coordinates(shapely.buffer(shapely.Polygon(piece), -TOUCH, join_style="mitre"))
            for piece in cell.pieces
        ]

    def pieces(self, placement: Placement) -> Iterator[tuple[shapely.Polygon, shapely.Polygon]]:
        """The cut pieces with their tiles (less `TOUCH` all round), the smallest first."""
        return ((part, tile) for part, tile, _ in self._cut(placement))

    def _cut(self, placement: Placement) -> Iterator[tuple[shapely.Polygon, shapely.Polygon, int]]:
        """The same with the number of each tile; how many tiles lie whole on the floor is kept as well."""
        cos, sin = math.cos(placement.angle), math.sin(placement.angle)
        local = (self.corners - placement.origin) @ np.array([[cos, -sin], [sin, cos]])
        st = local @ np.linalg.inv(self.cell.repeat)
        low, high = np.floor(st.min(axis=0)).astype(int) - 2, np.ceil(st.max(axis=0)).astype(int) + 2
        ij = np.stack(np.meshgrid(np.arange(low[0], high[0] + 1), np.arange(low[1], high[1] + 1)), axis=-1)
        away = ij.reshape(-1, 2) @ self.cell.repeat
        for_each: list[np.ndarray] = []
        for piece in self.shrunk:
            rings = to_floor((piece + away[:, None]).reshape(-1, 2), placement).reshape(len(away), -1, 2)
            for_each.append(np.array(shapely.polygons(rings)))
        tiles = np.concatenate(for_each)
        tiles = tiles[shapely.intersects(self.room, tiles)]
        inside = shapely.contains_properly(self.room, tiles)
        self._whole = int(inside.sum())
        tiles = tiles[~inside]
        cut = shapely.intersection(tiles, self.room)
        parts, owner = shapely.get_parts(cut, return_index=True)
        area = shapely.area(parts)
        for n in np.argsort(area, kind="stable"):
            if area[n] >= TOUCH**2:
                yield parts[n], tiles[owner[n]], int(owner[n])

    def counts(self, placement: Placement, small: float) -> tuple[int, int, int, float]:
        """Pieces cut, tiles touched, pieces under a width, and the narrowest piece, mm."""
        cut = [(owner, narrowest(part, tile)) for part, tile, owner in self._cut(placement)]
        touched = {owner for owner, _ in cut}
        widths = [width for _, width in cut]
        whole = self._whole
        return len(cut), len(touched) + whole, sum(width < small for width in widths), min(widths, default=math.inf)

    def value(self, placement: Placement) -> float:
        """The narrowest piece, mm; the tile's shorter side if none is cut."""
        return min((narrowest(part, tile) for part, tile in self.pieces(placement)), default=min(self.cell.size))

    def beats(self, placement: Placement, bound: float) -> bool:
        """Whether every cut piece is wider than the bound."""
        return all(narrowest(part, tile) > bound for part, tile in self.pieces(placement))


def leaves_strip(region: Region, cell: UnitCell, placement: Placement) -> bool:
    """Whether an edge along the rows ends in a joint, or farther out at one end than a tile reaches.

    Where every third perp lines up, edges square to the rows count only if they are true to a joint's width and long
    enough to meet all three kinds of row.
    """
    if not cell.lines:
        return False
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    pitch = np.array(cell.size) + cell.joint
    shift = float(cell.b[0]) % pitch[0]
    phases = [0.0] if shift == 0 else [n * shift for n in range(round(pitch[0] / shift))]
    for ring in region.rings:
        local = (ring - placement.origin) @ np.array([[cos, -sin], [sin, cos]])
        for (ax, ay), (bx, by) in zip(local, np.roll(local, -1, axis=0), strict=True):
            length = math.hypot(bx - ax, by - ay)
            for outward, start, stop, way in (((by - ay) / length, ax, bx, 0), ((ax - bx) / length, ay, by, 1)):
                rise, size = abs(stop - start), cell.size[way]
                if abs(outward) < math.cos(math.radians(5)) or rise > size / 2 or length < cell.joint + 0.1:
                    continue
                broken = way == 0 and len(phases) > 1
                if broken and (rise > cell.joint or length < (len(phases) + 1) * pitch[1]):
                    continue
                # From a tile's inner side outwards; the tile starts half a joint from a joint's centre.
                sign = 1 if outward > 0 else -1
                for phase in phases if broken else [0.0]:
                    thin = (min(sign * start, sign * stop) - sign * phase - cell.joint / 2) % pitch[way]
                    if not TOUCH < thin <= size + TOUCH - rise:
                        return True
    return False


def over_the_bound(
    region: Region, cell: UnitCell, angle: float, bound: float, found: Placement | None, steps: int
) -> list[Placement]:
    """The positions of a dense grid, and of some close to the one found, that beat a bound and leave no strip."""
    judge = Judge(region, cell)
    share = (np.arange(steps) + 0.37) / steps
    tried = [np.array([s, t]) @ cell.repeat for s in share for t in share]
    cos, sin = math.cos(angle), math.sin(angle)
    if found is not None:
        at = np.array(found.origin) @ np.array([[cos, -sin], [sin, cos]])
        away = (-1.5, -0.2, 0.3)
        tried += [at + np.array([dx, dy]) for dx in away for dy in away]
    placements = [Placement(origin=(cos * x - sin * y, sin * x + cos * y), angle=angle) for x, y in tried]
    return [
        placement
        for placement in placements
        if judge.beats(placement, bound + TOUCH) and not leaves_strip(region, cell, placement)
    ]
