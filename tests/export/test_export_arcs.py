"""True arcs in what is drawn: SVG arc commands and DXF bulges, read back by libraries of others."""

import io
import math
import re

import ezdxf
import pytest
from ezdxf.math import bulge_center, bulge_radius

from floorwright.draw.style import Pen, Tone
from floorwright.draw.view import Fill, Item, Line, View
from floorwright.export.dxf import floor_dxf
from floorwright.export.svg import view_svg

BULGE = 2 * 700 / 3600
WALL = Line(points=((3600, 3000), (0, 3000)), pen=Pen.WALL, bulges=(BULGE,))
RING = ((0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0))
RADIUS = 3600**2 / 5600 + 350


def shown(*items: Item, turn: int = 0) -> View:
    return View(name="v", described="d", scale=20, window=(0, 0, 4000, 4000), items=items, turn=turn)


def test_dxf_polyline_has_the_bulge_and_so_the_centre_and_radius() -> None:
    document = ezdxf.read(io.StringIO(floor_dxf(shown(WALL)).decode()))
    assert not document.audit().errors
    (line,) = document.modelspace().query("LWPOLYLINE")
    (start, end) = line.get_points("xyb")
    assert bulge_radius(start[:2], end[:2], start[2]) == pytest.approx(RADIUS)
    centre = bulge_center(start[:2], end[:2], start[2])
    assert tuple(centre) == pytest.approx((1800, 3700 - RADIUS))


def test_dxf_hatch_follows_the_arc() -> None:
    fill = Fill(rings=(RING,), tone=Tone.UNDER, bulges=((0.0, 0.0, BULGE, 0.0),))
    (hatch,) = ezdxf.read(io.StringIO(floor_dxf(shown(fill)).decode())).modelspace().query("HATCH")
    assert hatch.paths[0].vertices[2][2] == pytest.approx(BULGE)


@pytest.mark.parametrize("turn", range(4))
def test_svg_arc_lies_on_the_circle_and_bows_the_right_way(turn: int) -> None:
    view = shown(WALL, turn=turn)
    text = view_svg(view, standalone=False)
    move = re.search(r"M([\d.]+) ([\d.]+)A([\d.]+) [\d.]+ 0 ([01]) ([01]) ([\d.]+) ([\d.]+)", text)
    assert move is not None
    x0, y0, radius, large, sweep, x1, y1 = map(float, move.groups())
    assert radius == pytest.approx(RADIUS / 20, abs=1e-3)
    assert (large, sweep) == (0, 0)
    # The centre by the rules of the SVG recommendation, F.6.5, for a circle.
    half = math.dist((x0, y0), (x1, y1)) / 2
    out = math.sqrt(radius**2 - half**2)
    way = -1 if large == sweep else 1
    cx = (x0 + x1) / 2 + way * out * (y0 - y1) / (2 * half)
    cy = (y0 + y1) / 2 - way * out * (x0 - x1) / (2 * half)
    px, py = view.on_paper((1800, 3700 - RADIUS))
    assert (cx, cy) == pytest.approx((px, view.height - py), abs=1e-2)


def test_closed_fill_of_more_than_half_a_circle() -> None:
    fill = Fill(rings=(((0.0, 1000.0), (1200.0, 1000.0)),), tone=Tone.TILE, bulges=((3.0, 0.0),))
    text = view_svg(shown(fill), standalone=False)
    assert re.search(r"M0 150A50 50 0 1 0 60 150L0 150Z", text)
