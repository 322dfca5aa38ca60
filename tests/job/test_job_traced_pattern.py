"""Patterns traced from DXF and SVG: laid as drawn, questioned, refused in words."""

import io
import math
from collections.abc import Callable
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from ezdxf.layouts import Modelspace
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.job.test_job_patterns import ROOM

from floorwright.findings import Severity
from floorwright.job.load import Loaded, load
from floorwright.job.read.svg_contents import SvgError, svg_contents
from floorwright.job.read.svg_path import numbers, runs_of
from floorwright.job.read.traced_pattern import Traced, read_pattern
from floorwright.job.solve import solve
from floorwright.job.write.text import job_text
from floorwright.pattern.catalogue import PATTERNS

MM, INCHES, UNSAID = 4, 1, 0
Corners = list[tuple[float, float]]

# Basketweave of 203 x 100 with joints of 3, somewhere off the origin.
WEAVE: list[Corners] = [
    [(x + 5000.0, y - 700.0) for x, y in corners]
    for corners in (
        [(1.5, 1.5), (204.5, 1.5), (204.5, 101.5), (1.5, 101.5)],
        [(1.5, 104.5), (204.5, 104.5), (204.5, 204.5), (1.5, 204.5)],
        [(207.5, 1.5), (307.5, 1.5), (307.5, 204.5), (207.5, 204.5)],
        [(310.5, 1.5), (410.5, 1.5), (410.5, 204.5), (310.5, 204.5)],
    )
]
REPEAT = [((0.0, 0.0), (206.0, 206.0)), ((90.0, 0.0), (-116.0, 206.0))]


def drawing(draw: Callable[[Modelspace], object], units: int = MM) -> bytes:
    document = ezdxf.new("R2010", units=units)
    document.header["$INSUNITS"] = units
    draw(document.modelspace())
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


def weave(space: Modelspace, scale: float = 1.0, layer: str = "pieces") -> None:
    for corners in WEAVE:
        points = [(x * scale, y * scale) for x, y in corners]
        space.add_lwpolyline(points, close=True, dxfattribs={"layer": layer})
    for (x0, y0), (x1, y1) in REPEAT:
        space.add_line((x0 * scale, y0 * scale), (x1 * scale, y1 * scale), dxfattribs={"layer": "Repeat"})


def svg(body: str, head: str = 'width="500mm" height="500mm" viewBox="0 0 500 500"') -> bytes:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {head}>{body}</svg>'.encode()


def weave_svg(head: str = 'width="500mm" height="500mm" viewBox="0 0 500 500"') -> bytes:
    """The same with y down, one piece of every shape element, placed by transforms."""
    return svg(
        '<g id="pieces" transform="translate(0,500) scale(1,-1)">'
        '<rect x="1.5" y="1.5" width="203" height="100"/>'
        '<path d="m1.5,104.5h203v100H1.5z"/>'
        '<g transform="rotate(90 207.5 1.5)"><rect x="207.5" y="-98.5" width="203" height="100"/></g>'
        '<polygon points="310.5,1.5 410.5,1.5 410.5,204.5 310.5 204.5"/>'
        '</g><g id="repeat"><line x1="0" y1="0" x2="206" y2="-206"/><path d="M90 0 L-116-206"/></g>',
        head,
    )


def job(folder: Path, file: str, more: str = "") -> Loaded:
    drawn = f'\n[[patterns]]\nname = "our weave"\ntraced = "{file}"\n{more}\n'
    goods = '\n[[goods]]\nname = "piece"\nlength = 203\nwidth = 100\n'
    zone = '\n[[zones]]\ngoods = "piece"\npattern = "our weave"\njoint = 3\ngap = 5\n'
    path = folder / "job.toml"
    path.write_text(f"{ROOM}{drawn}{goods}{zone}")
    return load(path)


def errors(loaded: Loaded) -> list[tuple[str, str]]:
    return [(one.code, one.found) for one in loaded.findings if one.severity is Severity.ERROR]


def words(traced: Traced) -> str:
    assert traced.pieces == ()
    (error,) = [one for one in traced.findings if one.severity is Severity.ERROR]
    return f"{error.found} | {error.expected} | {error.remedy}"


def spread(traced: Traced) -> set[tuple[float, ...]]:
    return {tuple(np.round(np.sort(np.array(ring), axis=0).ravel(), 6).tolist()) for _, ring in traced.pieces}


@pytest.mark.parametrize("file", ["weave.dxf", "weave.svg"])
def test_a_traced_pattern_is_laid_as_the_catalogue_lays_it(tmp_path: Path, file: str) -> None:
    (tmp_path / file).write_bytes(drawing(weave) if file.endswith("dxf") else weave_svg())
    loaded = job(tmp_path, file)
    assert loaded.job is not None
    solution = solve(loaded.job, findings=loaded.findings)
    assert [one.found for one in solution.findings if one.code.startswith("pattern")] == []
    there = PATTERNS["basketweave"].cell({"": (203.0, 100.0)}, 3.0, {"abreast": 2})
    here = solution.layouts[0].cell
    assert abs(np.linalg.det(here.repeat)) / len(here.pieces) == pytest.approx(
        abs(np.linalg.det(there.repeat)) / len(there.pieces)
    )
    assert solution.layouts[0].chosen.full > 50
    # The drawing has its zero on a piece; joints meet half a joint off it both ways.
    assert here.anchors[0].at == pytest.approx([-1.5, -1.5])
    notes = {one.code: one.found for one in loaded.findings}
    assert notes["job-traced"] == "4 pieces; the repeat as layer repeat has it"
    assert notes["job-drawing-unit"] == "a largest piece 203 mm across, as the file says that it is in mm"


def test_both_readers_find_the_same_pieces() -> None:
    by_dxf = read_pattern(drawing(weave), "weave.dxf")
    by_svg = read_pattern(weave_svg(), "weave.svg")
    assert spread(by_dxf) == spread(by_svg)
    assert np.array(by_dxf.repeat) == pytest.approx(np.array([[206.0, 206.0], [-206.0, 206.0]]))
    # The other way up, y down: the same two vectors once turned up.
    assert np.array(by_svg.repeat) == pytest.approx(np.array(by_dxf.repeat))


def test_units_of_the_header_are_taken_and_said() -> None:
    traced = read_pattern(drawing(lambda space: weave(space, 1 / 25.4), INCHES), "weave.dxf")
    assert spread(traced) == spread(read_pattern(drawing(weave), "weave.dxf"))
    (note,) = [one for one in traced.findings if one.code == "job-drawing-unit"]
    assert note.found == "a largest piece 203 mm across, as the file says that it is in inches"


def test_an_svg_in_inches_on_paper() -> None:
    head = f'width="{500 / 25.4}in" height="{500 / 25.4}in" viewBox="0 0 500 500"'
    traced = read_pattern(weave_svg(head), "weave.svg")
    assert spread(traced) == spread(read_pattern(weave_svg(), "weave.svg"))


@pytest.mark.parametrize(
    ("content", "file"),
    [
        (drawing(weave, UNSAID), "weave.dxf"),
        (weave_svg('width="500" height="500"'), "weave.svg"),
        (weave_svg('width="100%" viewBox="0 0 500 500"'), "weave.svg"),
    ],
)
def test_a_drawing_that_does_not_say_its_unit_is_questioned(content: bytes, file: str) -> None:
    said = words(read_pattern(content, file))
    assert said.startswith("a drawing that does not say its unit, its largest piece 203 across")
    assert "mm (203 mm) or cm (2030 mm)" in said
    assert len(read_pattern(content, file, drawn_in="mm").pieces) == 4


def test_a_unit_that_makes_no_pieces_is_questioned() -> None:
    said = words(read_pattern(drawing(lambda space: weave(space, 1 / 1000)), "weave.dxf"))
    assert "a largest piece 0.203 mm across, as the file says that it is in mm" in said
    assert "as it would be in m (203 mm)" in said


def test_several_layers_are_kinds_of_piece() -> None:
    def draw(space: Modelspace) -> None:
        space.add_lwpolyline([(0, 0), (200, 0), (200, 200), (0, 200)], close=True, dxfattribs={"layer": "large"})
        space.add_lwpolyline([(200, 0), (300, 0), (300, 100), (200, 100)], close=True, dxfattribs={"layer": "dot"})
        space.add_lwpolyline([(0, 0), (900, 0), (900, 900)], close=True, dxfattribs={"layer": "frame"})
        space.add_text("a note", dxfattribs={"layer": "frame"})
        space.add_line((0, 0), (200, 100), dxfattribs={"layer": "REPEAT"})
        space.add_line((0, 0), (-100, 200), dxfattribs={"layer": "REPEAT"})

    traced = read_pattern(drawing(draw), "two.dxf", ("dot", "large"))
    assert [kind for kind, _ in traced.pieces] == ["dot", "large"]
    told = {one.code: one.found for one in traced.findings}
    assert told["job-traced"] == "2 pieces of 2 kinds: dot, large; the repeat as layer repeat has it"
    assert "1 TEXT" in told["job-traced-left-out"]
    assert "no lines on layer dots | a layer with lines: layer dot, layer frame or layer large" in words(
        read_pattern(drawing(draw), "two.dxf", ("dots",))
    )


def test_the_repeat_of_the_job_file_stands_before_the_drawing(tmp_path: Path) -> None:
    (tmp_path / "weave.dxf").write_bytes(drawing(weave))
    loaded = job(tmp_path, "weave.dxf", "across = [206, 206]\nalong = [-206, 206]")
    assert errors(loaded) == []
    assert "the repeat as the job file has it" in {one.code: one.found for one in loaded.findings}["job-traced"]
    assert loaded.job is not None
    assert load_again(tmp_path, loaded).job == loaded.job


def load_again(folder: Path, loaded: Loaded) -> Loaded:
    assert loaded.job is not None
    (folder / "again.toml").write_text(job_text(loaded.job))
    assert "corners" not in job_text(loaded.job)
    return load(folder / "again.toml")


def open_lines(space: Modelspace) -> None:
    for corners in WEAVE:
        for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
            space.add_line(start, end)


def curved(space: Modelspace) -> None:
    weave(space)
    space.add_lwpolyline([(0, 0, 0), (100, 0, 1)], format="xyb", close=True, dxfattribs={"layer": "pieces"})


def circle(space: Modelspace) -> None:
    weave(space)
    space.add_circle((0, 0), 40, dxfattribs={"layer": "pieces"})


def three_repeats(space: Modelspace) -> None:
    weave(space)
    space.add_line((0, 0), (50, 50), dxfattribs={"layer": "repeat"})


def no_repeat(space: Modelspace) -> None:
    space.add_lwpolyline(WEAVE[0], close=True)


@pytest.mark.parametrize(
    ("draw", "said"),
    [
        (open_lines, "16 lines that do not close | each piece a closed outline | join the sides of each piece"),
        (curved, "1 outline with a curve on layer pieces | pieces of straight sides"),
        (circle, "1 outline with a curve on layer pieces | pieces of straight sides"),
        (three_repeats, "3 straight lines on a layer `repeat` | two lines"),
        (no_repeat, "no lines on a layer `repeat` | two lines"),
        (lambda space: space.add_text("nothing"), "nothing that makes a piece, only 1 TEXT"),
    ],
)
def test_a_dxf_that_is_no_pattern_is_refused_once(draw: Callable[[Modelspace], object], said: str) -> None:
    assert words(read_pattern(drawing(draw), "weave.dxf")).startswith(said)


BOMB = (
    '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>'
    '<svg xmlns="http://www.w3.org/2000/svg"><text>&b;</text></svg>'
)
FETCH = (
    '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/hostname">]>'
    '<svg xmlns="http://www.w3.org/2000/svg"><text>&a;</text></svg>'
)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (BOMB.encode(), "an entity of its own, a"),
        (FETCH.encode(), "an entity of its own, a"),
        (b"<svg><g></svg>", "a file that is no SVG (mismatched tag, line 1)"),
        (b"", "a file that is no SVG (no element found, line 1)"),
        (b"\x00\x01PK", "a file that is no SVG"),
        (b'<?xml version="1.0" encoding="x-none"?><svg/>', "a file in an encoding of its own"),
        (b"<html/>", "a file of <html>"),
        (svg('<path id="p1" d="M0 0C1 1 2 2 3 3"/>'), "a curve: <path> p1 with the command C"),
        (svg('<path d="M0 0L5 5a1 1 0 0 1 2 2"/>'), "a curve: <path> with the command a"),
        (svg('<circle r="4"/>'), "a curve: <circle>"),
        (svg('<rect width="9" height="9" rx="2"/>'), "a curve: <rect>"),
        (svg('<g transform="spin(3)"/>'), "a transform 'spin(3)'"),
        (svg('<g transform="rotate(3 4)"/>'), "a transform rotate of 2 numbers"),
        (svg('<g transform="matrix(1 2 x)"/>'), "a transform 'matrix(1 2 x)'"),
        (svg("<g>" * 300 + "</g>" * 300), "groups more than 200 deep"),
        (svg('<rect width="1" height="1"/>' * 20_001), "more than 20000 shapes"),
        (svg(f'<path d="M0 0{"L1 1" * 60_000}"/>'), "nothing that makes a piece, only a <path> that cannot be read"),
        (svg('<polygon points="1 2 3"/>'), "nothing that makes a piece"),
        (svg('<path d="M0 0L1e999 5L5 5z"/>'), "nothing that makes a piece"),
        (svg('<defs><rect width="9" height="9"/></defs><use href="#a"/>'), "nothing that makes a piece, only 1 use"),
        (svg('<g display="none"><rect width="90" height="90"/></g>'), "nothing that makes a piece"),
    ],
)
def test_a_hostile_or_broken_svg_is_refused_once(content: bytes, said: str) -> None:
    assert words(read_pattern(content, "weave.svg")).startswith(said)


@pytest.mark.parametrize(
    ("file", "content", "code", "found"),
    [
        ("weave.svg", BOMB.encode(), "job-svg", "an entity of its own, a"),
        ("weave.dxf", b"no drawing", "job-dxf", "a file that is no DXF"),
        ("weave.dxf", None, "job-file-beside", "weave.dxf, which cannot be opened"),
        ("weave.png", b"", "job-file-beside", "weave.png"),
    ],
)
def test_a_job_with_a_bad_drawing_has_one_error(
    tmp_path: Path, file: str, content: bytes | None, code: str, found: str
) -> None:
    if content is not None:
        (tmp_path / file).write_bytes(content)
    ((told, said),) = errors(job(tmp_path, file))
    assert told == code
    assert said.startswith(found)


def test_keys_of_a_drawing_do_nothing_without_one(tmp_path: Path) -> None:
    (tmp_path / "weave.dxf").write_bytes(drawing(weave))
    loaded = job(tmp_path, "weave.dxf", "across = [206, 206]\npieces = [{ corners = [[0, 0], [1, 0], [1, 1]] }]")
    assert errors(loaded) == []
    told = [one.found for one in loaded.findings if one.code == "job-unused"]
    assert told == ["`across` alone beside `traced`", "`pieces` beside `traced`"]


def test_paths_are_followed_as_the_standard_says() -> None:
    # SVG 2, section 9.3: numbers after a move are lines; relative ones count from where the one before ended.
    assert runs_of("M1,2 3,4-5-6z m1 1 l2 0v3h-2Z") == [
        ([(1.0, 2.0), (3.0, 4.0), (-5.0, -6.0)], True),
        ([(2.0, 3.0), (4.0, 3.0), (4.0, 6.0), (2.0, 6.0)], True),
    ]
    assert runs_of("M0 0L4 0L4 4L0 0") == [([(0.0, 0.0), (4.0, 0.0), (4.0, 4.0)], True)]
    assert runs_of("M0 0L4 0ZL1 1") == [([(0.0, 0.0), (4.0, 0.0)], True), ([(0.0, 0.0), (1.0, 1.0)], False)]
    assert numbers("1.5.5-2e1,3") == [1.5, 0.5, -20.0, 3.0]


def test_transforms_nest_from_the_outside_in() -> None:
    # SVG 2, section 8.5: the list is applied as if nested, the last to the shape first.
    body = '<g transform="translate(10 20)"><line transform="rotate(90) scale(2)" x1="0" y1="0" x2="3" y2="0"/></g>'
    (chain,) = svg_contents(svg(body)).chains[""]
    assert np.array(chain.vertices)[:, :2] == pytest.approx(np.array([[10.0, -20.0], [10.0, -26.0]]))
    skewed = '<line transform="skewX(45)" x1="0" y1="0" x2="0" y2="5"/>'
    (chain,) = svg_contents(svg(skewed)).chains[""]
    assert chain.vertices[1][:2] == pytest.approx((5.0, -5.0))


@settings(max_examples=150)
@given(st.text(alphabet="MmLlHhVvZzCcAa0123456789.,- eE+", max_size=40))
def test_no_path_brings_the_reader_down(path: str) -> None:
    try:
        contents = svg_contents(svg(f'<path d="{path}"/>'))
    except SvgError:
        return
    assert all(math.isfinite(x + y) for chains in contents.chains.values() for c in chains for x, y, _ in c.vertices)


@settings(max_examples=100)
@given(st.binary(max_size=60))
def test_no_bytes_bring_the_reader_down(content: bytes) -> None:
    for file in ("a.svg", "a.dxf"):
        assert words(read_pattern(content, file))
