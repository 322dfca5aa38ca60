"""Real room outlines laid out with 600 x 600, joint 3, gap 5: true to the longest wall, and at 45 degrees to it.

    .venv/bin/python -m benchmarks.rooms [FOLDER]

The outlines are read from `shared/rooms` beside the repository, or from the folder given; they are not part of it. A
room that its gap cuts in two is laid as its largest part. Each is searched for the widest narrowest piece, exactly by
axis where that is possible, and cut there. Where every position leaves a strip at some wall (a curve drawn as chords
has a wall in every direction), it is cut with a joint on its middle.
"""

import json
import math
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import shapely
from benchmarks.common import processor

from floorwright.geometry.inset import inset_parts
from floorwright.geometry.region import Region
from floorwright.layout.axis import axes_of
from floorwright.layout.clip import Clipped, clip
from floorwright.layout.option import Proof
from floorwright.layout.rectilinear import best_on_axis, is_rectilinear
from floorwright.layout.search import search
from floorwright.pattern.catalogue import grid
from floorwright.pattern.cell import Placement

FOLDER = Path(__file__).resolve().parents[2] / "shared" / "rooms"
CELL = grid((600.0, 600.0), 3.0)
GAP = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """One room laid out.

    Attributes:
        name: of the room.
        corners: how many.
        region: what is covered.
        clipped: its pieces.
        placement: of the pattern, None where every position leaves a strip.
        proofs: of the search.
        seconds: CPU time of search and cut.
    """

    name: str
    corners: int
    region: Region
    clipped: Clipped
    placement: Placement | None
    proofs: tuple[Proof, ...]
    seconds: float

    @property
    def proved(self) -> bool:
        return all(proof.status == "proved" for proof in self.proofs)


def outlines(folder: Path = FOLDER) -> Iterator[tuple[str, Region]]:
    """The rooms of a folder by name, mm."""
    for path in sorted(folder.glob("*.geojson")):
        for feature in json.loads(path.read_text(encoding="utf-8"))["features"]:
            outer, *inner = feature["geometry"]["coordinates"]
            polygon = shapely.orient_polygons(shapely.Polygon(outer, inner))
            rings = [1e3 * shapely.get_coordinates(ring)[:-1] for ring in (polygon.exterior, *polygon.interiors)]
            names = tuple(tuple(f"{n}.{edge}" for edge in range(len(ring))) for n, ring in enumerate(rings))
            yield feature["properties"]["room"], Region(rings=tuple(rings), edges=names)


def longest_wall(region: Region) -> float:
    """The direction of the longest edge of the outer ring, radians."""
    run = np.roll(region.rings[0], -1, axis=0) - region.rings[0]
    x, y = run[np.hypot(run[:, 0], run[:, 1]).argmax()]
    return math.atan2(y, x)


def area(region: Region) -> float:
    return float(shapely.Polygon(region.rings[0], region.rings[1:]).area)


def lay(name: str, room: Region, turned: float) -> Laid:
    """Lays a room out, turned from its longest wall."""
    region = max(inset_parts(room, GAP), key=area)
    angle = longest_wall(room) + turned
    x, y = np.mean([region.rings[0].min(axis=0), region.rings[0].max(axis=0)], axis=0).tolist()
    centre = (float(x), float(y))
    start = time.process_time()
    placement, proofs = _best(region, angle, centre)
    clipped = clip(region, CELL, placement or Placement(origin=centre, angle=angle))
    taken = time.process_time() - start
    corners = sum(len(ring) for ring in region.rings)
    return Laid(
        name=name, corners=corners, region=region, clipped=clipped, placement=placement, proofs=proofs, seconds=taken
    )


def _best(region: Region, angle: float, centre: tuple[float, float]) -> tuple[Placement | None, tuple[Proof, ...]]:
    if is_rectilinear(region, CELL, angle):
        origin, proofs = np.zeros(2), []
        for axis in axes_of(CELL, angle):
            found = best_on_axis(region, axis, float(np.array(centre) @ axis.direction), 0.0, "")
            if found is not None:
                origin += (found.low - CELL.joint / 2) * axis.direction
                proofs.append(found.proof)
        if len(proofs) == 2:
            return Placement(origin=(float(origin[0]), float(origin[1])), angle=angle), tuple(proofs)
    whole = search(region, CELL, angle=angle, centre=centre, spare=0.0, aim="")
    return whole.placement, (whole.proof,)


def row(name: str, laid: list[Laid]) -> str:
    """Returns the line of the table for one direction."""
    seconds = np.array([one.seconds for one in laid])
    tiles = sum(one.clipped.runs.count + len(one.clipped.index) for one in laid)
    return (
        f"{name:16} {len(laid):5} {np.median(seconds):8.3f} {np.percentile(seconds, 90):8.3f} {seconds.max():8.3f} "
        f"{sum(one.proved for one in laid):5} of {len(laid):3} {sum(one.placement is None for one in laid):7} "
        f"{sum(one.clipped.mended for one in laid):7} {tiles:7}"
    )


def report(rooms: list[tuple[str, Region]]) -> None:
    """Prints the table, with the slowest rooms and those that are not proved."""
    print(
        f"{'direction':16} {'rooms':>5} {'median':>8} {'90 %':>8} {'most':>8} {'proved':>12} {'strips':>7} "
        f"{'mended':>7} {'pieces':>7}"
    )
    for name, turned in (("longest wall", 0.0), ("45 degrees to it", math.pi / 4)):
        laid = [lay(room, region, turned) for room, region in rooms]
        print(row(name, laid))
        slow = sorted(laid, key=lambda one: -one.seconds)[:5]
        print("    slowest: " + ", ".join(f"{one.name} ({one.corners} corners, {one.seconds:.2f} s)" for one in slow))
        missed = [one.name for one in laid if not one.proved]
        if missed:
            print("    not proved: " + ", ".join(missed))


def main() -> None:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER
    rooms = list(outlines(folder))
    if not rooms:
        sys.exit(f"no room outlines in {folder}: give a folder with GeoJSON files of rooms in metres")
    print(f"{processor()}; CPU s, search and cut; {len(rooms)} rooms")
    report(rooms)


if __name__ == "__main__":
    main()
