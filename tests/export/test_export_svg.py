"""An SVG in real millimetres, read back."""

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest

from floorwright.draw.style import Pen, Size, Tone
from floorwright.draw.view import Curve, Dimension, Fill, Item, Line, Text, View
from floorwright.export.pens import DARK, FILLINGS, LIGHT, PRINT, STROKES, Palette
from floorwright.export.svg import view_svg

SVG = "{http://www.w3.org/2000/svg}"
PAIR = re.compile(r"[ML](-?[\d.]+) (-?[\d.]+)")


def parsed(view: View, imperial: bool = False) -> ET.Element:
    return ET.fromstring(view_svg(view, imperial=imperial))


def extent(root: ET.Element, pen: Pen) -> tuple[float, float, float, float]:
    """Returns (x least, y least, x most, y most) of what a pen draws."""
    paths = [path.get("d", "") for path in root.iter(f"{SVG}path") if path.get("class") == pen]
    points = [(float(x), float(y)) for path in paths for x, y in PAIR.findall(path)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def bare(*items: Item, check_bar: bool = True) -> View:
    return View(name="v", described="d", scale=10, window=(0, 0, 1000, 1000), items=items, check_bar=check_bar)


def test_user_unit_is_a_millimetre_on_paper(true_room: View) -> None:
    root = parsed(true_room)
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("170mm", "220mm", "0 0 170 220")
    assert extent(root, Pen.WALL) == (5, 5, 165, 205)


def test_a_spoiled_drawing_is_noticed(true_room: View) -> None:
    """The reading above can fail: a wall moved by a third of a millimetre on paper shows."""
    moved = replace(true_room, items=(Line(points=((0, 0), (3206, 4000)), pen=Pen.WALL),))
    assert extent(parsed(moved), Pen.WALL) != (5, 5, 165, 205)


@pytest.mark.parametrize("turn", range(4))
def test_turned_view_turns_its_paper(true_room: View, turn: int) -> None:
    root = parsed(replace(true_room, turn=turn, check_bar=False))
    wide, high = (160, 200) if turn % 2 == 0 else (200, 160)
    assert extent(root, Pen.WALL) == (5, 5, 5 + wide, 5 + high)


def test_up_on_the_floor_is_up_on_the_paper() -> None:
    root = parsed(bare(Line(points=((0, 0), (0, 900)), pen=Pen.WALL), check_bar=False))
    (path,) = (path.get("d") for path in root.iter(f"{SVG}path") if path.get("class") == "wall")
    assert path == "M0 100L0 10"


@pytest.mark.parametrize(("imperial", "length", "said"), [(False, 100, "100 mm"), (True, 101.6, "4 in")])
def test_check_bar(true_room: View, imperial: bool, length: float, said: str) -> None:
    root = parsed(true_room, imperial=imperial)
    (bar,) = (group for group in root.iter(f"{SVG}g") if group.get("class") == "check-bar")
    match = re.match(r"M([\d.]+) [\d.]+H([\d.]+)", bar[0].get("d", ""))
    assert match
    assert float(match[2]) - float(match[1]) == pytest.approx(length, abs=1e-9)
    assert said in (bar[1].text or "")
    assert 'class="check-bar"' not in view_svg(replace(true_room, check_bar=False))


def test_arc_goes_anticlockwise_on_the_floor() -> None:
    quarter = Curve(centre=(500, 500), radius=100, start=0, end=1.5707963267948966, pen=Pen.ARC)
    assert "M60 50A10 10 0 0 0 50 40" in view_svg(bare(quarter))
    most = Curve(centre=(500, 500), radius=100, start=0, end=4.71238898038469, pen=Pen.ARC)
    assert view_svg(bare(most)).count("A10 10 0 0 0") == 2
    over_zero = Curve(centre=(500, 500), radius=100, start=-0.1, end=0.1, pen=Pen.ARC)
    assert view_svg(bare(replace(over_zero, start=6.183185307179586))) == view_svg(bare(over_zero))


def test_holes_are_left_open() -> None:
    square = ((0.0, 0.0), (900.0, 0.0), (900.0, 900.0), (0.0, 900.0))
    hole = ((300.0, 300.0), (300.0, 600.0), (600.0, 600.0), (600.0, 300.0))
    root = parsed(bare(Fill(rings=(square, hole), tone=Tone.TILE)))
    (path,) = (path for path in root.iter(f"{SVG}path") if path.get("fill-rule") == "evenodd")
    assert path.get("d", "").count("M") == 2


def test_hatch_where_a_photocopy_must_keep_the_meaning() -> None:
    square = ((0.0, 0.0), (900.0, 0.0), (900.0, 900.0), (0.0, 900.0))
    for tone in (Tone.UNDER, Tone.OBSTACLE):
        assert f'id="v-{tone}"' in view_svg(bare(Fill(rings=(square,), tone=tone)))
    assert "pattern" not in view_svg(bare(Fill(rings=(square,), tone=Tone.TILE)))


def test_texts_are_escaped_and_printable() -> None:
    hostile = 'a<b>&"c"</text>\x00'
    view = View(
        name=hostile, described=hostile, scale=10, window=(0, 0, 900, 900), items=(Text(at=(0, 0), text=hostile),)
    )
    root = parsed(view)
    texts = [element.text for element in root.iter(f"{SVG}text")]
    assert texts[0] == 'a<b>&"c"</text>□'
    assert root.find(f"{SVG}title") is not None
    assert root.findtext(f"{SVG}desc") == 'a<b>&"c"</text>□'


def test_size_of_text_is_by_its_capitals() -> None:
    root = parsed(bare(Text(at=(500, 500), text="8", size=Size.FIGURE), check_bar=False))
    (text,) = root.iter(f"{SVG}text")
    assert float(text.get("font-size", "")) == pytest.approx(3.5 * 1.375)
    assert float(text.get("y", "")) == pytest.approx(50 + 3.5 / 2)


def test_standalone_carries_the_font_and_a_ground(room_view: View) -> None:
    alone, set_in = view_svg(room_view), view_svg(room_view, standalone=False)
    assert "data:font/otf;base64," in alone
    assert "font-face" not in set_in
    assert "http" not in alone.replace("http://www.w3.org/2000/svg", "")


def test_same_view_same_text(room_view: View) -> None:
    assert view_svg(room_view) == view_svg(replace(room_view))


def test_no_long_numbers(room_view: View) -> None:
    drawn = view_svg(room_view, standalone=False)
    assert re.search(r"\d\.\d{5}", drawn) is None
    assert "-0 " not in drawn
    assert re.search(r"\de-?\d", drawn) is None


def luminance(colour: str) -> float:
    """Returns the relative luminance of WCAG 2.2."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("palette", [LIGHT, DARK, PRINT], ids=["light", "dark", "print"])
def test_contrast(palette: Palette) -> None:
    """WCAG 2.2: 4.5 for text, 7 for figures that people mark from, 3 for lines that mean something."""
    for ground in (palette.paper, palette.tile, palette.cut):
        assert contrast(palette.ink, ground) >= 7
    for name in ("quiet", "control", "limit", "agrees", "doubt"):
        assert contrast(palette.as_dict()[name], palette.paper) >= 4.5, name


def test_every_pen_and_tone_is_looked_up_and_told_apart_without_colour() -> None:
    assert set(STROKES) == set(Pen)
    assert set(FILLINGS) == set(Tone)
    telling = [Pen.WALL, Pen.SAWN, Pen.CONTROL, Pen.HIDDEN, Pen.READING, Pen.SUSPECT, Pen.ARC]
    assert len({(STROKES[pen].width, STROKES[pen].dashes) for pen in telling}) == len(telling)
    assert STROKES[Pen.SAWN].width > STROKES[Pen.FACTORY].width


def test_dimension_is_printed_as_given_and_never_measured() -> None:
    drawn = view_svg(bare(Dimension(start=(0, 500), end=(900, 500), offset=5, text="3′-4 ¹⁄₂″")))
    assert ">3′-4 ¹⁄₂″</text>" in drawn
    assert "900" not in drawn.split("</defs>")[1].split("check-bar")[0]


def test_what_belongs_to_the_paper_is_drawn_last(true_room: View) -> None:
    bar = Text(at=(3000.0, 100.0), text="must measure 100 mm")
    svg = view_svg(replace(true_room, aside=(bar,), check_bar=False))
    assert svg.index('class="wall"') < svg.index("must measure 100 mm")


def test_control_lines_stand_clear_of_what_they_run_over(true_room: View) -> None:
    line = Line(points=((0.0, 0.0), (3200.0, 4000.0)), pen=Pen.CONTROL)
    svg = view_svg(replace(true_room, items=(*true_room.items, line)))
    under, over = (path for path in re.findall("<path [^>]*>", svg) if 'd="M5 205L165 5"' in path)
    assert f'stroke="{LIGHT.paper}"' in under
    assert "stroke-dasharray" in over
    assert "stroke-dasharray" not in under
