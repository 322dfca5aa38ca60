"""The DXF read back by its library's own reader."""

import io
import math
from dataclasses import replace

import ezdxf
import pytest
from ezdxf.document import Drawing

from floorwright.draw.style import Pen, Size, Tone
from floorwright.draw.view import Curve, Dimension, Fill, Item, Line, Text, View
from floorwright.errors import FloorwrightValueError
from floorwright.export.dxf import LAYERS, floor_dxf


def read(data: bytes) -> Drawing:
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def shown(*items: Item, scale: float = 20, turn: int = 0) -> View:
    return View(name="v", described="d", scale=scale, window=(0, 0, 4000, 4000), items=items, turn=turn)


def dimension_texts(document: Drawing) -> list[str]:
    """Returns the texts in the pictures of the dimensions: what a program that opens the file shows."""
    return [
        entity.dxf.text
        for dimension in document.modelspace().query("DIMENSION")
        for entity in document.blocks.get(dimension.dxf.geometry)
        if entity.dxftype() == "TEXT"
    ]


def test_opens_clean_in_millimetres(room_view: View) -> None:
    document = read(floor_dxf(room_view))
    auditor = document.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    assert document.dxfversion == "AC1032"
    assert (document.header["$INSUNITS"], document.header["$MEASUREMENT"]) == (4, 1)
    assert set(LAYERS.values()) <= {layer.dxf.name for layer in document.layers}


def test_floor_is_at_its_size(true_room: View) -> None:
    (walls,) = read(floor_dxf(true_room)).modelspace().query('LWPOLYLINE[layer=="WALLS"]')
    assert walls.closed
    assert [tuple(point) for point in walls.get_points("xy")] == [(0, 0), (3200, 0), (3200, 4000), (0, 4000)]


def test_inches_when_the_job_is_imperial() -> None:
    document = read(floor_dxf(shown(Line(points=((0, 0), (254, 508)), pen=Pen.CONTROL)), imperial=True))
    assert (document.header["$INSUNITS"], document.header["$MEASUREMENT"]) == (1, 0)
    (line,) = document.modelspace().query("LINE")
    assert tuple(line.dxf.end)[:2] == pytest.approx((10, 20))


@pytest.mark.parametrize("text", ["3200", "3200.5"])
def test_dimension_prints_true(text: str) -> None:
    length = float(text)
    document = read(floor_dxf(shown(Dimension(start=(0, 0), end=(length, 0), offset=-8, text=text))))
    (dimension,) = document.modelspace().query("DIMENSION")
    assert dimension.get_measurement() == pytest.approx(length)
    assert dimension.dxf.text == text
    assert dimension_texts(document) == [text]
    assert document.dimstyles.get(dimension.dxf.dimstyle).dxf.dimlfac == 1


def test_dimension_in_feet_and_inches_prints_our_figure() -> None:
    item = Dimension(start=(0, 0), end=(1028.7, 0), offset=-8, text="3′-4 ¹⁄₂″")
    document = read(floor_dxf(shown(item), imperial=True))
    assert dimension_texts(document) == ["3'-4 1/2\""]
    (dimension,) = document.modelspace().query("DIMENSION")
    assert dimension.get_measurement() == pytest.approx(40.5)


def test_a_dimension_style_that_scales_would_be_noticed() -> None:
    """The library's stock style prints 3200 as 320000: the reading above can tell."""
    document = ezdxf.new("R2018", setup=True)
    document.modelspace().add_linear_dim(base=(0, -100), p1=(0, 0), p2=(3200, 0), dimstyle="EZDXF").render()
    assert [
        entity.dxf.text
        for dimension in document.modelspace().query("DIMENSION")
        for entity in document.blocks.get(dimension.dxf.geometry).query("MTEXT TEXT")
    ] != ["3200"]


def test_texts_stand_at_their_height_on_the_floor() -> None:
    document = read(floor_dxf(shown(Text(at=(100, 200), text="12", size=Size.FIGURE, angle=math.pi / 2), turn=1)))
    (text,) = document.modelspace().query("TEXT")
    assert text.dxf.height == pytest.approx(3.5 * 20)
    assert tuple(text.dxf.align_point)[:2] == pytest.approx((100, 200))
    assert text.dxf.layer == "TEXT V"


def test_arc_and_hatch() -> None:
    square = ((0.0, 0.0), (300.0, 0.0), (300.0, 300.0), (0.0, 300.0))
    view = shown(
        Curve(centre=(0, 0), radius=1500, start=0.5, end=0.7, pen=Pen.ARC),
        Fill(rings=(square,), tone=Tone.OBSTACLE),
        Fill(rings=(square,), tone=Tone.TILE),
    )
    model = read(floor_dxf(view)).modelspace()
    (arc,) = model.query("ARC")
    assert (arc.dxf.radius, arc.dxf.layer) == (1500, "ARCS")
    assert arc.dxf.start_angle == pytest.approx(math.degrees(0.5))
    assert [hatch.dxf.layer for hatch in model.query("HATCH")] == ["HATCH OBSTACLES"]


def test_views_of_one_floor_lie_over_each_other_once(true_room: View) -> None:
    more = replace(true_room, scale=50, items=(*true_room.items, Line(points=((0, 0), (9, 9)), pen=Pen.CONTROL)))
    model = read(floor_dxf([true_room, more])).modelspace()
    assert len(model.query("LWPOLYLINE")) == 1
    assert len(model.query('LINE[layer=="CONTROL"]')) == 1


def test_names_that_two_views_share_are_written_once() -> None:
    plan = shown(Text(at=(0.0, 0.0), text="SW"), Text(at=(3000.0, 0.0), text="1"))
    larger = shown(Text(at=(-100.0, -100.0), text="SW"), Text(at=(0.0, 0.0), text="1"), scale=10)
    texts = [entity.dxf.text for entity in read(floor_dxf([plan, larger])).modelspace().query("TEXT")]
    assert texts == ["SW", "1", "1"]


def test_all_text_is_sized_for_the_finest_scale_on_a_layer_of_its_view() -> None:
    coarse = replace(shown(Text(at=(0.0, 0.0), text="A"), scale=50), name="room")
    fine = replace(shown(Text(at=(900.0, 0.0), text="B"), scale=25), name="layout-floor")
    texts = {entity.dxf.text: entity.dxf for entity in read(floor_dxf([coarse, fine])).modelspace().query("TEXT")}
    assert {name: (text.layer, text.height) for name, text in texts.items()} == {
        "A": ("TEXT ROOM", 62.5),
        "B": ("TEXT LAYOUT FLOOR", 62.5),
    }


def test_what_belongs_to_the_paper_is_not_on_the_floor(true_room: View) -> None:
    bar = Line(points=((3250.0, 0.0), (3250.0, 2000.0)), pen=Pen.MARK)
    assert floor_dxf(replace(true_room, aside=(bar,))) == floor_dxf(true_room)


def test_same_view_same_bytes_and_the_library_left_as_it_was(room_view: View) -> None:
    before = ezdxf.options.write_fixed_meta_data_for_testing
    assert floor_dxf(room_view) == floor_dxf(replace(room_view))
    assert ezdxf.options.write_fixed_meta_data_for_testing == before


def test_hostile_text_stays_text() -> None:
    hostile = "a\n0\nENDSEC\n%%u{\\C1;x}\x00 שלום"
    document = read(floor_dxf(shown(Text(at=(0, 0), text=hostile))))
    assert document.audit().errors == []
    assert len(document.modelspace()) == 1


def test_no_view() -> None:
    with pytest.raises(FloorwrightValueError):
        floor_dxf([])
