"""Rings through the job file: circles in a field, fans, copings along a round wall, and what each is told."""

import math
from functools import lru_cache

import numpy as np
import pytest
import shapely

from floorwright.cli.report import cuts_text, layout_text, takeoff_text
from floorwright.export.data_cuts import cuts_data
from floorwright.export.data_floor import layout_data
from floorwright.findings import Severity
from floorwright.geometry.arc import Arc
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.layout.layout import Layout
from floorwright.setout.ring_marks import ring_marks
from floorwright.sheets.pack import pack
from floorwright.tolerance import ARC

YARD = """\
schema = 1
title = "Back yard"
units = "mm"

[survey]
outline = ["A", "B", "C", "D"]
direction = "anticlockwise"

[survey.walls]
house = "A-B"
lawn = "C-D"

[survey.distances]
A-B = 3000
B-C = 2800
C-D = 3000
D-A = 2800
A-C = 4104
B-D = 4103

[[goods]]
name = "Flag 600"
length = 597
width = 597

[[goods]]
name = "Block"
length = 160
width = 120

[[goods]]
name = "Sett"
length = 80
width = 80

[[goods]]
name = "Hub"
length = 300
"""

FIELD = """
[[zones]]
name = "field"
goods = "Flag 600"
joint = 6
gap = 5
"""

CIRCLE = """
[[zones]]
name = "circle"
kind = "rings"
goods = "Block"
joint = 6
joint_least = 4
joint_most = 16
"""

KIT = (
    CIRCLE
    + """\
stone = "Hub"
centre = [1500, 1400]
[[zones.rings]]
times = 2
[[zones.rings]]
goods = "Sett"
times = 3
"""
)

ROUND_LAWN = """
[[survey.arcs]]
wall = "lawn"
bows = "BOWS"
rise = 400
"""

COPING = """
[[zones]]
name = "coping"
kind = "rings"
goods = "Block"
along_wall = "D-C"
joint = 6
joint_most = 16
gap = 10
[[zones.rings]]
"""


@lru_cache(maxsize=32)
def solved(text: str) -> Solution:
    loaded = load_text(text, name="yard.toml")
    assert loaded.job is not None, loaded.findings
    return solve(loaded.job, findings=loaded.findings)


def codes(solution: Solution) -> list[str]:
    return [finding.code for finding in solution.findings if finding.code.startswith(("pattern", "layout-zone"))]


def errors(solution: Solution) -> list[str]:
    return [finding.code for finding in solution.findings if finding.severity is Severity.ERROR]


def layout_of(solution: Solution, zone: str) -> Layout:
    return next(layout for layout in solution.layouts if layout.zone == zone)


def shapes(layout: Layout) -> list[shapely.Polygon]:
    return [shapely.Polygon(piece.rings[0], piece.rings[1:]) for piece in layout.pieces]


def assert_clear(solution: Solution, least: float) -> None:
    """No two pieces of the floor lie nearer than a joint."""
    every = [shape for layout in solution.layouts for shape in shapes(layout)]
    one, other = shapely.STRtree(every).query(every, predicate="dwithin", distance=least - 0.01)
    assert (one == other).all()


def test_a_circle_kit_inside_a_square_field() -> None:
    solution = solved(YARD + FIELD + KIT)
    field, circle = layout_of(solution, "field"), layout_of(solution, "circle")
    assert errors(solution) == []
    assert circle.rings is not None
    assert_clear(solution, 3.9)
    assert (circle.chosen.cut, circle.chosen.full) == (0, 1 + sum(one.pieces for one in circle.rings.rings))
    # The field is cut to the true circle a joint outside the one that is struck round the rings.
    radius = circle.rings.radius + 6
    bulged = [outline for piece in field.pieces for outline in piece.outlines]
    assert bulged
    arcs = [
        Arc(start=tuple(outline.points[n]), end=tuple(outline.points[(n + 1) % len(outline.points)]), bulge=bulge)
        for outline in bulged
        for n, bulge in enumerate(outline.bulges)
        if bulge
    ]
    assert {round(arc.radius, 6) for arc in arcs} == {radius}
    # All round, but for the joints between the flags.
    assert 2 * math.pi * radius - sum(arc.length for arc in arcs) < 16 * 6 * 1.5
    assert all(math.dist(arc.centre, (1500, 1400)) < 1e-6 for arc in arcs)
    # Nothing of the field lies inside; what is kept is what the circle leaves.
    disc = shapely.Point(1500, 1400).buffer(radius, quad_segs=2000)
    assert all(shape.intersection(disc).area < 1 for shape in shapes(field))
    stone = next(piece for piece in circle.pieces if circle.cell.kind(piece.index[2]) == "centre stone")
    assert stone.area == pytest.approx(math.pi * 150**2)


def test_what_a_circle_kit_is_told() -> None:
    solution = solved(YARD + FIELD + KIT)
    circle = layout_of(solution, "circle")
    assert circle.rings is not None
    tapered = [one for one in circle.rings.rings if one.tapered]
    assert codes(solution).count("pattern-ring-tapered") == len(tapered) > 0
    orders = {order.goods: order.tiles for order in solution.orders}
    assert orders["Hub"] == 1
    assert orders["Block"] == sum(one.pieces for one in circle.rings.rings[:2])
    assert orders["Sett"] == sum(one.pieces for one in circle.rings.rings[2:])
    assert "Rings, from the inside out" in layout_text(solution)
    assert "Tapered pieces" in cuts_text(solution)
    assert "sawn to a wedge" in takeoff_text(solution).lower()
    (data,) = [zone["rings"] for zone in layout_data(solution)["zones"] if zone["name"] == "circle"]
    assert data["centre_mm"] == [1500.0, 1400.0]
    for told, one in zip(data["rings"], circle.rings.rings, strict=True):
        assert told["joint_outside_mm"] == pytest.approx(one.joints[1], abs=1e-4)
        assert told["pieces"] == one.pieces
    assert len(cuts_data(solution)["tapers"]) == len(tapered)


def test_the_sheets_of_a_circle_kit() -> None:
    solution = solved(YARD + FIELD + KIT)
    circle = layout_of(solution, "circle")
    assert circle.rings is not None
    sheets = {sheet.key: sheet for sheet in pack(solution).sheets}
    assert {"rings", "templates"} <= set(sheets)
    table = dict(sheets["rings"].lists)["rings"]
    assert [row[1] for row in table.rows] == [str(one.pieces) for one in circle.rings.rings]
    marks = dict(sheets["rings"].lists)["ring-marks"]
    assert len(marks.rows) == sum(one.pieces // 2 for one in circle.rings.rings)


def test_marks_run_from_one_start_and_lie_on_the_joints() -> None:
    solution = solved(YARD + FIELD + KIT)
    circle = layout_of(solution, "circle")
    told = ring_marks(circle, 3000.0)
    assert circle.rings is not None
    for mark, one in zip(told, circle.rings.rings, strict=True):
        assert mark.reachable
        pieces = [
            shape
            for shape, piece in zip(shapes(circle), circle.pieces, strict=True)
            if circle.cell.kind(piece.index[2]) == mark.name
        ]
        for joint in mark.marks:
            angle = mark.heading + joint.angle
            at = np.array([1500 + one.inside * math.cos(angle), 1400 + one.inside * math.sin(angle)])
            assert math.dist(at, mark.start) == pytest.approx(joint.chord)
            # In the middle of a joint: as far from one piece as from the other.
            near = sorted(piece.distance(shapely.Point(at)) for piece in pieces)[:2]
            assert near[0] == pytest.approx(near[1], abs=1e-6)
            assert near[0] > 1.0
    assert not ring_marks(circle, 100.0)[-1].reachable
    assert ring_marks(layout_of(solution, "field"), 100.0) == ()


def test_walls_cut_rings() -> None:
    text = YARD + FIELD + KIT.replace("centre = [1500, 1400]", 'centre = "A"')
    solution = solved(text)
    circle = layout_of(solution, "circle")
    assert errors(solution) == []
    assert circle.chosen.cut > 0
    assert_clear(solution, 3.9)
    room = shapely.box(5, 5, 2995, 2795)
    assert all(room.buffer(2).contains(shape) for shape in shapes(circle))
    # What lies of the whole kit within the gaps, clipped here.
    whole = layout_of(solved(YARD + FIELD + KIT), "circle")
    floor = shapely.Polygon(circle.region.rings[0])
    (x, y) = circle.chosen.placement.origin
    moved = [shapely.transform(shape, lambda points: points - (1500, 1400) + (x, y)) for shape in shapes(whole)]
    expected = sum(shape.intersection(floor).area for shape in moved)
    assert sum(shape.area for shape in shapes(circle)) == pytest.approx(expected, rel=1e-4)


def test_turned_rings_are_the_same_rings_turned() -> None:
    plain = layout_of(solved(YARD + FIELD + KIT), "circle")
    turned = layout_of(solved(YARD + KIT.replace("joint = 6", "joint = 6\nturn = 33", 1)), "circle")
    assert plain.chosen.full == turned.chosen.full
    angle = math.radians(33)
    matrix = np.array([[math.cos(angle), math.sin(angle)], [-math.sin(angle), math.cos(angle)]])
    for one, other in zip(plain.pieces, turned.pieces, strict=True):
        if not one.outlines:
            moved = (one.rings[0] - (1500, 1400)) @ matrix + (1500, 1400)
            assert np.abs(moved - other.rings[0]).max() < 1e-6


def test_units_that_open_too_far_and_what_to_do() -> None:
    rings = CIRCLE + 'inside = 400\n[[zones.rings]]\ntaper = "never"\nlay = "out from the centre"\n'
    solution = solved(YARD + rings)
    (told,) = [finding for finding in solution.findings if finding.code == "pattern-ring-open"]
    assert told.severity is Severity.WARNING
    # 20 pieces of 120 go round 2 pi 400 with 4 or more between; at 560 they leave 2 pi 560 / 20 - 120 = 55.9.
    assert "open to 56 mm" in told.found
    assert "taper: " in told.remedy
    assert "or start at 1658 mm" in told.remedy
    assert "pattern-ring-middle" in codes(solution)


def test_narrow_pieces_and_what_two_of_them_made_one_would_be() -> None:
    goods = YARD.replace('name = "Block"\nlength = 160\nwidth = 120', 'name = "Block"\nlength = 230\nwidth = 100')
    solution = solved(goods + CIRCLE + 'inside = 120\n[[zones.rings]]\nlay = "out from the centre"\n')
    (told,) = [finding for finding in solution.findings if finding.code == "pattern-ring-narrow"]
    assert "make two into one" in told.remedy


def test_a_fan_and_the_trade_advice_about_it() -> None:
    fan = CIRCLE + "inside = 700\nsweep = 90\ncentre = [300, 300]\n[[zones.rings]]\ntimes = 3\n"
    solution = solved(YARD + fan)
    assert errors(solution) == []
    assert "pattern-fan" not in codes(solution)
    layout = layout_of(solution, "circle")
    assert layout.cell.name == "fan"
    assert layout.chosen.cut == 0
    assert_clear(solution, 3.9)
    assert "pattern-fan" in codes(solved(YARD + fan.replace("sweep = 90", "sweep = 40")))


@pytest.mark.parametrize("bows", ["out", "in"])
def test_a_coping_along_a_round_wall(bows: str) -> None:
    solution = solved(YARD + ROUND_LAWN.replace("BOWS", bows) + FIELD + COPING)
    assert errors(solution) == []
    coping = layout_of(solution, "coping")
    assert coping.rings is not None
    (one,) = coping.rings.rings
    assert one.pieces == len({piece.index for piece in coping.pieces})
    assert_clear(solution, 3.0)
    # The chord 3000 and the rise 400 make a radius of 3012.5; the gap of 10 lies between it and the coping.
    radius = 3000**2 / (8 * 400) + 400 / 2
    if bows == "out":
        assert one.reach == pytest.approx(radius - 10, abs=3 * ARC)
        assert coping.chosen.cut == 0
    else:
        assert one.inside == pytest.approx(radius + 10, abs=3 * ARC)
    assert "coping" in {sheet.title.split(":")[0].lower() for sheet in pack(solution).sheets}
    # Its centre is out of reach: the inside circle is struck off a string.
    (marks,) = ring_marks(coping, 1500.0)
    assert not marks.reachable
    assert max(out for _, out in marks.offsets) == pytest.approx(
        one.inside * (1 - math.cos(one.sweep / 2)), abs=1e-6
    )  # fmt: skip


def test_a_coping_needs_a_round_wall() -> None:
    solution = solved(YARD + COPING)
    assert "layout-zone-misfit" in errors(solution)
    assert solution.layouts == ()


def test_rings_that_cannot_be_made_are_an_error_and_no_floor() -> None:
    solution = solved(YARD + CIRCLE + "inside = 5\n[[zones.rings]]\n")
    assert "pattern-impossible" in errors(solution)
    assert solution.layouts == ()


def test_rings_in_feet_and_inches() -> None:
    text = (YARD + KIT).replace('units = "mm"', 'units = "in"')
    for mm in ("3000", "2800", "4104", "4103", "597", "160", "120", "80", "300"):
        text = text.replace(f"= {mm}\n", f'= "{mm} mm"\n')
    text = text.replace("[1500, 1400]", '["1500 mm", "1400 mm"]')
    for joint in ("joint = 6", "joint_least = 4", "joint_most = 16"):
        text = text.replace(joint, joint.replace("= ", '= "') + ' mm"')
    solution = solved(text)
    assert errors(solution) == []
    assert "(mm)" not in layout_text(solution).split("Rings,")[1]
