"""Medallions of every shape, soldier borders, a zone's own least piece, and zones across a break, from the job on."""

import math
from collections.abc import Iterable, Iterator
from itertools import combinations

import numpy as np
import pytest
import shapely
from tests.job.test_job_breaks import BROKEN

from floorwright.draw.sheet import Beside, Block, Prose
from floorwright.draw.view import Curve, View
from floorwright.findings import Severity
from floorwright.geometry.restore import restored_region
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.job.write.text import job_text
from floorwright.layout.layout import Layout
from floorwright.sheets.snap import snap_sheet

HALL = """
schema = 1
units = "mm"
[survey]
outline = ["SW", "SE", "NE", "NW"]
[survey.walls]
S = "SW-SE"
E = "SE-NE"
[survey.distances]
SW-SE = 2600
SE-NE = 2200
NE-NW = 2600
NW-SW = 2200
SW-NE = 3405.9
SE-NW = 3405.9
[[openings]]
name = "door"
wall = "E"
from = "SE"
offset = 600
width = 800
[control]
first_line = { by = "parallel", wall = "S" }
centre = { by = "mid-point", wall = "S" }
NORTH
[[goods]]
name = "Tile 300"
length = 297
width = 297
[[goods]]
name = "Sett 100"
length = 97
width = 97
[[goods]]
name = "Brick"
length = 200
width = 98
[[zones]]
goods = "Tile 300"
joint = 3
gap = 5
"""
MEDALLION = """
[[zones]]
name = "medallion"
kind = "inset"
goods = "Sett 100"
joint = 3
"""
EDGE = """
[[zones]]
name = "edge"
kind = "border"
goods = "Brick"
joint = 3
"""

FREE = "width_least = 60\nwidth_most = 98\n"


def solved(text: str, north: str = "") -> Solution:
    loaded = load_text(text.replace("NORTH", north))
    assert loaded.job is not None
    assert [one for one in loaded.findings if one.severity is Severity.ERROR] == []
    assert load_text(job_text(loaded.job)).job == loaded.job
    return solve(loaded.job, findings=loaded.findings)


def zone(solution: Solution, name: str) -> Layout:
    return next(layout for layout in solution.layouts if layout.zone == name)


def shape(layout: Layout) -> shapely.Polygon:
    return shapely.Polygon(layout.region.rings[0], layout.region.rings[1:])


def sides(ring: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> tuple[list[float], list[float]]:
    """Lengths of the sides of a ring, and their directions in degrees, the first first."""
    along = np.roll(ring, -1, axis=0) - ring
    return np.hypot(*along.T).tolist(), (np.degrees(np.arctan2(along[:, 1], along[:, 0])) % 360).tolist()


def no_piece_on_another(solution: Solution) -> bool:
    pieces = [shapely.Polygon(p.rings[0], p.rings[1:]) for layout in solution.layouts for p in layout.pieces]
    tree = shapely.STRtree(pieces)
    pairs = tree.query(pieces, predicate="intersects").T.tolist()
    return all(pieces[a].intersection(pieces[b]).area < 1.0 for a, b in pairs if a < b)


@pytest.mark.parametrize(("called", "count"), [("octagon", 8), ("hexagon", 6)])
@pytest.mark.parametrize(
    ("keys", "north", "along"),
    [("", "", 0.0), ('facing = "door"', "", 90.0), ('facing = "north"', "north = 112", 112.0), ("turn = 10", "", 10.0)],
)
def test_a_medallion_of_equal_sides_is_turned_as_asked(
    called: str, count: int, keys: str, north: str, along: float
) -> None:
    text = f'{HALL}{MEDALLION}shape = "{called}"\nlength = 900\ncentre = [1300, 1000]\n{keys}\n'
    solution = solved(text, north)
    inset = zone(solution, "medallion")
    lengths, directions = sides(inset.region.rings[0])
    # A side of n equal ones, 900 from flat to flat: 900 tan(180 / n).
    assert lengths == pytest.approx([900 * math.tan(math.pi / count)] * count)
    # One side lies square to the direction, and the pattern's rows along it.
    off = [abs(math.remainder(turn - along - 90, 360.0)) for turn in directions]
    assert min(off) == pytest.approx(0.0, abs=1e-6)
    turned = math.degrees(inset.chosen.placement.angle) - along
    assert math.remainder(turned, 90.0) == pytest.approx(0.0, abs=1e-6)
    assert shape(inset).centroid.coords[0] == pytest.approx((1300, 1000))
    assert shape(zone(solution, "floor")).distance(shape(inset)) == pytest.approx(3.0)


def test_a_round_medallion_is_round_and_the_field_is_cut_a_joint_off() -> None:
    solution = solved(f'{HALL}{MEDALLION}shape = "round"\nlength = 1000\n')
    inset, field = zone(solution, "medallion"), zone(solution, "floor")
    (outline,) = restored_region(inset.region)
    assert outline.is_curved
    (circle,) = inset.region.circles.values()
    assert circle.radius == 500.0
    assert circle.centre == pytest.approx(solution.control.centre if solution.control else ())
    (hole,) = field.region.circles.values()
    assert hole.radius == 503.0
    assert math.fsum(piece.area for piece in inset.pieces) == pytest.approx(math.pi * 500**2 * 0.97**2, rel=0.01)
    sawn = {name for piece in inset.pieces for ring in piece.edges for name in ring if name}
    assert sawn == {"round edge"}
    arcs = [piece for layout in solution.cuts for piece in layout.pieces if piece.arcs]
    assert len(arcs) > 20
    assert no_piece_on_another(solution)


def test_the_snap_list_says_how_a_round_medallion_is_struck() -> None:
    keys = 'shape = "round"\nlength = 800\ncentre = [1500, 1000]\n'
    solution = solved(f"{HALL}{MEDALLION}{keys}")
    sheet = snap_sheet(solution)
    told = " ".join(line for block in prose(sheet.blocks) for line in block.lines)
    # The centre is the middle of the room, 1300 and 1100; the joint of 3 is struck in its middle.
    assert (
        "Strike the round edge of medallion about O, 200 mm on along the first line and 100 mm square off it to the "
        "right from the centre, at 401.5 mm"
    ) in told
    (curve,) = [item for view in views(sheet.blocks) for item in view.items if isinstance(item, Curve)]
    assert (curve.centre, curve.radius) == ((1500.0, 1000.0), 401.5)


def flat(blocks: Iterable[Block]) -> Iterator[Block]:
    for block in blocks:
        yield from flat((*block.left, *block.right)) if isinstance(block, Beside) else (block,)


def prose(blocks: Iterable[Block]) -> list[Prose]:
    return [block for block in flat(blocks) if isinstance(block, Prose)]


def views(blocks: Iterable[Block]) -> list[View]:
    return [block for block in flat(blocks) if isinstance(block, View)]


def test_an_outline_is_counted_from_its_centre_and_turned_with_it() -> None:
    keys = 'outline = [[-400, -200], [400, -200], [600, 0], [0, 300]]\noutline_from = "centre"\ncentre = [1300, 1100]\n'
    inset = zone(solved(f"{HALL}{MEDALLION}{keys}turn = 30\n"), "medallion")
    cos, sin = math.cos(math.pi / 6), math.sin(math.pi / 6)
    (first, *_) = inset.region.rings[0].tolist()
    assert first == pytest.approx([1300 - 400 * cos + 200 * sin, 1100 - 400 * sin - 200 * cos])
    assert inset.part is not None
    assert inset.part.outline is not None
    assert inset.part.outline.centre == (1300.0, 1100.0)


def test_a_zone_has_its_own_least_piece() -> None:
    solution = solved(f'{HALL}least_piece = "fifth"\n{MEDALLION}shape = "octagon"\nlength = 800\nleast_piece = 40\n')
    assert zone(solution, "floor").limit == pytest.approx(297 / 5)
    assert zone(solution, "medallion").limit == 40.0


@pytest.mark.parametrize("corners", ["mitred", "butted", "woven"])
def test_soldiers_stand_across_their_border(corners: str) -> None:
    solution = solved(f'{HALL}{EDGE}lay = "soldiers"\ncorners = "{corners}"\n')
    side = next(layout for layout in solution.layouts if layout.zone == "edge S")
    assert side.cell.size == (98.0, 200.0)
    assert side.part is not None
    assert side.part.strip is not None
    assert side.part.strip.fat == pytest.approx(200.0, abs=0.1)
    full = [piece for piece in side.pieces if piece.full]
    assert full
    for piece in full:
        assert np.ptp(piece.rings[0], axis=0) == pytest.approx([98.0, 200.0], abs=0.2)
    assert no_piece_on_another(solution)
    stretchers = solved(f'{HALL}{EDGE}corners = "{corners}"\n')
    assert next(one for one in stretchers.layouts if one.zone == "edge S").cell.size == (200.0, 98.0)


@pytest.fixture(scope="module")
def across() -> Solution:
    strip = '[[goods]]\nname = "Strip"\nlength = 300\nwidth = 100\n'
    border = '[[zones]]\nname = "edge"\nkind = "border"\ngoods = "Strip"\njoint = 3\n'
    mat = '[[zones]]\nname = "mat"\nkind = "inset"\ngoods = "Strip"\njoint = 3\ncentre = [1400, 3050]\n'
    loaded = load_text(f"{BROKEN}{strip}{border}{mat}length = 500\nwidth = 300\n")
    assert loaded.job is not None
    return solve(loaded.job, findings=loaded.findings)


def test_a_border_and_a_mat_lie_across_a_break(across: Solution) -> None:
    assert [one.found for one in across.findings if one.severity is Severity.ERROR] == []
    tiles, blocks, mat = (shape(zone(across, name)) for name in ("tiles", "blocks", "mat"))
    # The faces of the wall are at 3000 and 3100, and the first line runs through the arch: the mat lies along it, cut
    # out of both fields, a joint off.
    assert mat.bounds == pytest.approx((1250, 2800, 1550, 3300), abs=0.1)
    assert tiles.distance(mat) == pytest.approx(3.0, abs=0.01)
    assert blocks.distance(mat) == pytest.approx(3.0, abs=0.01)
    sides_of_border = [shape(one) for one in across.layouts if one.is_border]
    assert len(sides_of_border) > 8
    for one, other in combinations([tiles, blocks, mat, *sides_of_border], 2):
        assert one.intersection(other).area < 1.0
    for side in sides_of_border:
        assert min(side.distance(tiles), side.distance(blocks)) == pytest.approx(3.0, abs=0.01)
    assert no_piece_on_another(across)


@pytest.mark.parametrize(
    ("more", "severity", "code", "found"),
    [
        (f'{MEDALLION}shape = "round"\nlength = 900\nwidth = 400\n', "warning", "job-unused", "`width` of an inset"),
        (f'{MEDALLION}length = 900\noutline_from = "centre"\n', "warning", "job-unused", "`outline_from` without"),
        (
            f'{MEDALLION}outline = [[1000, 900], [1600, 900], [1300, 1500]]\nshape = "octagon"\n',
            "warning",
            "job-unused",
            "`shape` beside `outline`",
        ),
        (
            f'{MEDALLION}outline = ["SW", [600, 0], [300, 500]]\noutline_from = "centre"\n',
            "error",
            "job-choice",
            "a corner of the room, SW",
        ),
        (f'{MEDALLION}length = 900\nfacing = "north"\n', "error", "job-missing-key", "no `north`"),
        (f'{MEDALLION}length = 900\nlay = "soldiers"\n', "warning", "job-unused", "`lay` of a zone that is an inset"),
        (
            f"{EDGE}{FREE}{EDGE.replace('edge', 'second')}{FREE}",
            "error",
            "job-range",
            "a second border of free width beside edge",
        ),
        (f"{EDGE}width = 150\n", "error", "job-range", "150 mm"),
    ],
)
def test_what_cannot_be_so_is_said_once(more: str, severity: str, code: str, found: str) -> None:
    loaded = load_text(HALL.replace("NORTH", "") + more)
    (told,) = [one for one in loaded.findings if one.severity is not Severity.NOTE]
    assert (str(told.severity), told.code) == (severity, code)
    assert told.found.startswith(found)
    assert told.remedy


def test_a_border_of_soldiers_may_be_as_wide_as_they_are_long() -> None:
    loaded = load_text(HALL.replace("NORTH", "") + f'{EDGE}lay = "soldiers"\nwidth = 150\n')
    assert [one for one in loaded.findings if one.severity is not Severity.NOTE] == []
