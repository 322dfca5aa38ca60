"""Arcs of tiles and of rings as a whole job draws them: read back out of its DXF and its SVG."""

import io
import math
import re
from collections import Counter
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from ezdxf.math import bulge_center, bulge_radius

import floorwright
from floorwright.draw.view import Item, View
from floorwright.export.dxf import floor_dxf
from floorwright.export.svg import view_svg
from floorwright.geometry.arc import bulged_area
from floorwright.job.load import load, load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.sheets.tiles import tile_items, zone_items

EXAMPLES = Path(floorwright.__file__).parent / "examples"

# A scale of 200 with joints of 3: the module's circle has a radius of 101.5, its top 1.5 less, its hollows 1.5 more.
TOP, HOLLOW = 100.0, 103.0

PORCH = """
schema = 1
units = "mm"
[survey]
outline = ["SW", "SE", "NE", "NW"]
[survey.distances]
SW-SE = 760
SE-NE = 620
NE-NW = 758
NW-SW = 622
SW-NE = 980
[[goods]]
name = "scale"
length = 200
[[zones]]
goods = "scale"
pattern = "fish scale"
joint = 3
"""


@pytest.fixture(scope="module")
def porch() -> Solution:
    loaded = load_text(PORCH)
    assert loaded.job is not None
    return solve(loaded.job)


@pytest.fixture(scope="module")
def court() -> Solution:
    loaded = load(EXAMPLES / "mill-yard-circle.toml")
    assert loaded.job is not None
    return solve(loaded.job)


def view(*items: Item) -> View:
    return View(name="v", described="d", scale=10, window=(0, 0, 6000, 6000), items=items)


def arcs(*items: Item) -> list[tuple[float, float, float]]:
    """Centre and radius of every arc in the DXF, rounded to a hundredth."""
    document = ezdxf.read(io.StringIO(floor_dxf(view(*items)).decode()))
    assert not document.audit().errors
    found = []
    for line in document.modelspace().query("LWPOLYLINE"):
        points = line.get_points("xyb")
        for start, end in zip(points, [*points[1:], points[0]], strict=True):
            if start[2]:
                x, y = bulge_center(start[:2], end[:2], start[2])
                found.append((round(x, 2), round(y, 2), round(bulge_radius(start[:2], end[:2], start[2]), 2)))
    return found


def test_every_arc_of_a_fish_scale_floor_is_a_factory_arc(porch: Solution) -> None:
    (layout,) = porch.layouts
    found = arcs(*tile_items(layout))
    # Where a wall runs almost along an arc its end is left on the chord, up to 0.2 off it.
    assert all(min(abs(radius - TOP), abs(radius - HOLLOW)) < 0.2 for *_, radius in found)
    exact = [radius for *_, radius in found if radius in (TOP, HOLLOW)]
    assert len(exact) > 0.95 * len(found)
    full = sum(piece.full for piece in layout.pieces)
    assert full > 5
    tops = Counter((x, y) for x, y, radius in found if radius == TOP)
    assert len(tops) >= full
    # Centres of tops lie on the pattern's own lattice, whether the tile is cut or not.
    placement = layout.chosen.placement
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    own = (np.array(list(tops)) - placement.origin) @ np.array([[cos, -sin], [sin, cos]]) - layout.cell.anchors[0].at
    steps = own @ np.linalg.inv(layout.cell.repeat)
    assert steps == pytest.approx(np.round(steps), abs=1e-3)


def test_the_svg_has_the_same_radii(porch: Solution) -> None:
    text = view_svg(view(*tile_items(porch.layouts[0])), standalone=False)
    radii = {round(float(one) * 10, 1) for one in re.findall(r"A([\d.]+) ", text)}
    assert {TOP, HOLLOW} <= radii
    assert all(min(abs(radius - TOP), abs(radius - HOLLOW)) < 0.2 for radius in radii)


def test_no_sawn_side_is_an_arc_in_a_straight_room(porch: Solution) -> None:
    for piece in porch.layouts[0].pieces:
        for outline in piece.outlines:
            for name, bulge in zip(outline.names, outline.bulges, strict=True):
                assert name is None or not bulge


def test_areas_are_of_the_true_shape(porch: Solution) -> None:
    (layout,) = porch.layouts
    (outline,) = layout.cell.outlines
    assert outline is not None
    true = bulged_area(outline.points, outline.bulges)
    assert all(piece.area == pytest.approx(true) for piece in layout.pieces if piece.full)
    flat = layout.cell.pieces[0]
    assert abs(true - bulged_area(flat, (0.0,) * len(flat))) < 0.01 * true
    for piece in layout.pieces:
        if not piece.full:
            rings = sum(bulged_area(ring, (0.0,) * len(ring)) for ring in piece.rings)
            assert piece.area == pytest.approx(rings, abs=0.01 * true)


def test_cut_marks_are_straight_from_a_true_corner(porch: Solution) -> None:
    from floorwright.cuts.frame import tile_of

    (layout,), (cuts,) = porch.layouts, porch.cuts
    tile = tile_of(layout.cell, 0)
    corners = {name: at for name, at in zip(tile.corners, tile.outline, strict=True) if name}
    assert sorted(corners) == ["corner 1", "corner 2", "corner 3"]
    assert set(tile.sides) == {"side 1", "side 2", "side 3"}
    assert math.dist(corners["corner 1"], corners["corner 2"]) == pytest.approx(200.0, abs=1.0)
    marks = [mark for piece in cuts.pieces for saw in piece.saws for mark in saw.marks]
    assert marks
    for mark in marks:
        assert mark.distance == pytest.approx(math.dist(mark.at, corners[mark.corner]))


def test_rings_and_their_hub_read_back_as_circles(court: Solution) -> None:
    circle = next(layout for layout in court.layouts if layout.zone == "circle")
    assert circle.rings is not None
    hub = set(arcs(*tile_items(circle)))
    assert hub == {(2700.0, 2600.0, 250.0)}
    rim = arcs(*zone_items([circle]))
    assert {(x, y) for x, y, _ in rim} == {(2700.0, 2600.0)}
    assert {radius for *_, radius in rim} == {circle.rings.radius}


def test_flags_around_the_rings_are_sawn_a_joint_off_the_circle(court: Solution) -> None:
    flags = next(layout for layout in court.layouts if layout.zone == "flags")
    circle = next(layout for layout in court.layouts if layout.zone == "circle")
    assert circle.rings is not None
    about = [radius for x, y, radius in arcs(*tile_items(flags)) if (x, y) == (2700.0, 2600.0)]
    assert set(about) == {circle.rings.radius + 8.0}
    assert len(about) > 10


def test_a_coping_reads_back_along_its_kerb(court: Solution) -> None:
    coping = next(layout for layout in court.layouts if layout.zone == "coping")
    radius = 5410.0**2 / (8 * 905.0) + 905.0 / 2
    found = arcs(*zone_items([coping]))
    # The gap of 10 off the kerb, and the coping's depth and joint inside it, all about the kerb's own centre.
    assert max(one for *_, one in found) == pytest.approx(radius - 10.0, abs=2.0)
    assert len({(x, y) for x, y, _ in found}) == 1
