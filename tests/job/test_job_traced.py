"""Rooms traced from DXF and GeoJSON: joined, flattened, questioned, refused in words."""

import io
import json
import math
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from ezdxf.layouts import Modelspace

from floorwright.geometry.measure import area
from floorwright.job.load import load
from floorwright.job.read.drawing import Drawn
from floorwright.job.read.dxf_outline import read_dxf
from floorwright.job.read.geojson_outline import read_geojson
from floorwright.job.solve import solve
from floorwright.job.write.text import job_text

SHARED = Path(__file__).parent.parent.parent.parent / "shared" / "dxf"
ROOM = [(0, 0), (4200, 0), (4210, 3600), (0, 3588)]
MM, INCHES, METRES = 4, 1, 6

Draw = Callable[[Modelspace], object]


def drawing(draw: Draw, units: int = MM, version: str = "R2010") -> bytes:
    document = ezdxf.new(version, units=units)
    document.header["$INSUNITS"] = units
    draw(document.modelspace())
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


def lines(space: Modelspace, corners: list[tuple[float, float]] | list[tuple[int, int]], layer: str = "FLOOR") -> None:
    for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
        space.add_line(start, end, dxfattribs={"layer": layer})


def closed(space: Modelspace, corners: object, layer: str = "FLOOR") -> None:
    space.add_lwpolyline(corners, format="xyb", close=True, dxfattribs={"layer": layer})


def ring(drawn: Drawn) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return np.array([(x, y) for _, x, y in drawn.points])


def words(drawn: Drawn) -> str:
    assert drawn.points == ()
    errors = [f for f in drawn.findings if f.severity == "error"]
    assert len(errors) == 1
    return f"{errors[0].found} | {errors[0].expected} | {errors[0].remedy}"


@pytest.mark.parametrize("version", ["R12", "R2000", "R2018"])
def test_loose_lines_are_joined(version: str) -> None:
    """Out of order, one drawn backwards, ends 0.4 mm apart; the ring comes out anticlockwise."""

    def draw(space: Modelspace) -> None:
        space.add_line((0, 0), (4200, 0))
        space.add_line((4210, 3600), (0, 3588.4))
        space.add_line((4210, 3600), (4200.3, 0))
        space.add_line((0, 3588), (0, 0))

    drawn = read_dxf(drawing(draw, version=version), "plan.dxf", None, "mm")
    assert [name for name, _, _ in drawn.points] == ["A", "B", "C", "D"]
    assert area(ring(drawn)) == pytest.approx(area(ROOM), rel=1e-3)
    assert area(ring(drawn)) > 0


def test_a_gap_is_no_outline() -> None:
    def draw(space: Modelspace) -> None:
        for start, end in pairwise(ROOM):
            space.add_line(start, end)

    drawn = read_dxf(drawing(draw), "plan.dxf", None, "mm")
    assert "3 lines on layer 0, and none of them closes; its ends are 3.588 m apart" in words(drawn)


def test_a_bulge_stays_an_arc(tmp_path: Path) -> None:
    """A bay window: half a circle of 1500 mm on a wall of 3000, and a wall that bows in by 200."""
    shallow = 2 * 200 / 3000
    ends = [(0, 0, 0), (3000, 0, 1.0), (3000, 3000, 0), (0, 3000, -shallow)]
    for vertices in (ends, [(0, 0, shallow), (0, 3000, 0), (3000, 3000, -1.0), (3000, 0, 0)]):
        content = drawing(lambda space, vertices=vertices: closed(space, vertices))  # type: ignore[misc]
        drawn = read_dxf(content, "plan.dxf", None, None)
        assert len(drawn.points) == 4
        assert sorted(arc.rise for arc in drawn.arcs) == pytest.approx([-200, 1500])
        assert "job-dxf-curved" in [f.code for f in drawn.findings]
        (tmp_path / "plan.dxf").write_bytes(content)
        (tmp_path / "job.toml").write_text('schema = 1\nunits = "mm"\n[survey]\ntraced = "plan.dxf"\n')
        job = load(tmp_path / "job.toml").job
        assert job is not None
        radius = 3000**2 / 1600 + 100
        half = math.asin(1500 / radius)
        bowed = radius**2 * (half - math.sin(2 * half) / 2)
        assert solve(job).survey.area == pytest.approx(9e6 + math.pi * 1500**2 / 2 - bowed, rel=1e-9)


@pytest.mark.parametrize("by", ["circle", "two halves", "one bulge over half"])
def test_a_round_room(tmp_path: Path, by: str) -> None:
    def draw(space: Modelspace) -> None:
        if by == "circle":
            space.add_circle((500, 700), 2000)
        elif by == "two halves":
            closed(space, [(-1500, 700, 1.0), (2500, 700, 1.0)])
        else:
            # Three quarters of the circle and one quarter.
            closed(space, [(2500, 700, math.tan(3 * math.pi / 8)), (500, -1300, math.tan(math.pi / 8))])

    (tmp_path / "plan.dxf").write_bytes(drawing(draw))
    (tmp_path / "job.toml").write_text('schema = 1\nunits = "mm"\n[survey]\ntraced = "plan.dxf"\n')
    job = load(tmp_path / "job.toml").job
    assert job is not None
    result = solve(job).survey
    assert result.area == pytest.approx(math.pi * 2000**2, rel=1e-8)
    assert result.perimeter == pytest.approx(math.tau * 2000, rel=1e-8)


def test_arcs_of_your_own_stand_before_those_drawn(tmp_path: Path) -> None:
    (tmp_path / "plan.dxf").write_bytes(
        drawing(lambda space: closed(space, [(0, 0, 0), (3000, 0, 1.0), (3000, 3000, 0), (0, 3000, 0)]))
    )
    arcs = '[[survey.arcs]]\nwall = "B-C"\nrise = 1480\n'
    (tmp_path / "job.toml").write_text(f'schema = 1\nunits = "mm"\n[survey]\ntraced = "plan.dxf"\n{arcs}')
    job = load(tmp_path / "job.toml").job
    assert job is not None
    assert solve(job).survey.arcs[0].arc.rise == pytest.approx(1480)


def test_a_room_of_many_short_walls_asks_for_one_check(tmp_path: Path) -> None:
    """A round room drawn as 180 short lines: 180 corners, and still a check to measure."""
    turns = 2 * math.pi * np.arange(180) / 180
    ends = [(3000 * math.cos(turn), 3000 * math.sin(turn), 0.0) for turn in turns]
    (tmp_path / "plan.dxf").write_bytes(drawing(lambda space: closed(space, ends)))
    (tmp_path / "job.toml").write_text('schema = 1\nunits = "mm"\n[survey]\ntraced = "plan.dxf"\n')
    job = load(tmp_path / "job.toml").job
    assert job is not None
    result = solve(job).survey
    assert len(result.corners) == 180
    assert result.area == pytest.approx(math.pi * 3000**2, rel=1e-3)
    assert result.to_measure[0].why == "checks"


def test_an_arc_closes_lines() -> None:
    def draw(space: Modelspace) -> None:
        space.add_line((0, 0), (3000, 0))
        space.add_arc((3000, 1500), 1500, 270, 90)
        space.add_line((3000, 3000), (0, 3000))
        space.add_line((0, 3000), (0, 0))

    drawn = read_dxf(drawing(draw), "plan.dxf", None, None)
    assert area(ring(drawn)) == pytest.approx(9e6)
    (arc,) = drawn.arcs
    assert arc.rise == pytest.approx(1500)


def test_layers() -> None:
    def draw(space: Modelspace) -> None:
        lines(space, ROOM, "FLOOR")
        lines(space, [(0, 0), (900, 0), (0, 900)], "STAIR")

    content = drawing(draw)
    assert "2 layers: FLOOR (4), STAIR (3)" in words(read_dxf(content, "plan.dxf", None, None))
    assert "a layer with lines: FLOOR or STAIR" in words(read_dxf(content, "plan.dxf", "WALLS", None))
    assert len(read_dxf(content, "plan.dxf", "floor", None).points) == 4


def test_a_header_in_mm_over_a_room_in_inches_is_questioned() -> None:
    """165 by 142 would be a box of 0.17 m; in inches it is a room of 4.2 m."""
    inches = [(x / 25.4, y / 25.4) for x, y in ROOM]
    content = drawing(lambda space: lines(space, inches), MM)
    assert "in (4.21 m)" in words(read_dxf(content, "plan.dxf", None, None))
    assert area(ring(read_dxf(content, "plan.dxf", None, "in"))) == pytest.approx(area(ROOM), rel=1e-9)
    assert area(ring(read_dxf(drawing(lambda space: lines(space, inches), INCHES), "p", None, None))) == pytest.approx(
        area(ROOM), rel=1e-9
    )


def test_doors_belie_the_header() -> None:
    """A hall 1,000 across may be 1 m or 25.4 m; its door swings of 35.4 are 0.9 m in inches and 35 mm in mm."""

    def draw(space: Modelspace) -> None:
        lines(space, [(0, 0), (1000, 0), (1000, 800), (0, 800)])
        space.add_arc((0, 100), 35.4, 0, 90, dxfattribs={"layer": "FLOOR"})

    told = words(read_dxf(drawing(draw, MM), "plan.dxf", None, None))
    assert "door swings of 35.4 mm" in told
    assert "they would be in in" in told


def test_no_unit_no_room() -> None:
    told = words(read_dxf(drawing(lambda space: lines(space, ROOM), 0), "plan.dxf", None, None))
    assert "does not say its unit" in told
    assert "mm (4.21 m)" in told


def test_broken_files_are_never_silently_empty() -> None:
    content = drawing(lambda space: lines(space, ROOM))
    assert "no DXF" in words(read_dxf(b"hello", "plan.dxf", None, None))
    assert words(read_dxf(b"", "plan.dxf", None, None))
    assert "nothing that makes an outline" in words(read_dxf(drawing(lambda space: None), "plan.dxf", None, None))
    for cut in range(200, len(content), len(content) // 25):
        drawn = read_dxf(content[:cut], "plan.dxf", None, "mm")
        assert drawn.points == () or len(drawn.points) == 4
        assert any(f.severity in ("error", "warning") for f in drawn.findings), cut


def test_a_repaired_file_says_so() -> None:
    content = drawing(lambda space: lines(space, ROOM))
    drawn = read_dxf(content[: content.rindex(b"  0\r\nEOF" if b"\r\n" in content else b"  0\nEOF")], "p", None, None)
    assert len(drawn.points) == 4
    assert "job-dxf-repaired" in [f.code for f in drawn.findings]


def test_a_mended_figure_is_told_of() -> None:
    """The library reads `42x00.0` as 42; nobody may lay to that without a word."""
    content = drawing(lambda space: lines(space, ROOM)).replace(b"4200", b"42x00")
    drawn = read_dxf(content, "plan.dxf", None, "mm")
    (repaired,) = [f for f in drawn.findings if f.code == "job-dxf-repaired"]
    assert "42x00" in repaired.found


@pytest.mark.parametrize("version", ["R12", "R2010"])
def test_a_damaged_file_never_raises(version: str) -> None:
    def draw(space: Modelspace) -> None:
        lines(space, ROOM)
        space.add_arc((3000, 1500), 1500, 270, 90, dxfattribs={"layer": "FLOOR"})
        space.add_polyline2d([(0, 0), (100, 0), (100, 100)], close=True)

    whole, draws = drawing(draw, version=version), np.random.default_rng(3)
    begins = whole.rindex(b"ENTITIES")
    for _ in range(60):
        content = bytearray(whole)
        for at in draws.integers(begins, len(whole) - 40, int(draws.integers(1, 8))):
            damage = (b"1e999", b"nan", b"\n", b"-", b"\xff", b"")[int(draws.integers(6))]
            content[at : at + int(draws.integers(20))] = damage
        drawn = read_dxf(bytes(content), "plan.dxf", "FLOOR", "mm")
        assert drawn.points or any(f.severity == "error" for f in drawn.findings)
        assert np.isfinite([(x, y) for _, x, y in drawn.points]).all()


@pytest.mark.skipif(not SHARED.is_dir(), reason="the folder of shared drawings is not beside the project")
class TestSharedDrawings:
    def test_a_laser_meters_profile_is_refused(self) -> None:
        content = (SHARED / "Leica_Disto_S910.dxf").read_bytes()
        assert "points from -1.07804 to 0.286172 high" in words(read_dxf(content, "a.dxf", None, None))

    def test_walls_are_no_floor(self) -> None:
        content = (SHARED / "wipeout_door.dxf").read_bytes()
        assert "layer" in words(read_dxf(content, "a.dxf", None, None))
        told = words(read_dxf(content, "a.dxf", "A.Wall_Internal", None))
        assert "92.7 m across, as the file says that it is in inches" in told
        assert "mm (3.65 m)" in told
        assert "2 outlines apart from each other" in words(read_dxf(content, "a.dxf", "A.Wall_Internal", "mm"))

    def test_a_building_is_questioned_and_then_taken(self) -> None:
        content = (SHARED / "houses_of_parliament_georeferenced.dxf").read_bytes()
        assert "284 m across" in words(read_dxf(content, "a.dxf", None, None))
        drawn = read_dxf(content, "a.dxf", None, "in")
        assert len(drawn.points) == 15
        assert area(ring(drawn)) > 0


def geojson(*rings: list[tuple[float, float]], name: str = "") -> bytes:
    polygon = {"type": "Polygon", "coordinates": [[*one, one[0]] for one in rings]}
    feature = {"type": "Feature", "properties": {"name": name}, "geometry": polygon}
    return json.dumps({"type": "FeatureCollection", "features": [feature]}).encode()


def test_geojson_in_a_plane() -> None:
    metres = [(x / 1000, y / 1000) for x, y in ROOM]
    drawn = read_geojson(geojson(metres, [(1.0, 1.0), (2.0, 1.0), (1.0, 2.0)]), "a.geojson", None, "m")
    assert ring(drawn) == pytest.approx(np.array(ROOM, dtype=float), abs=1e-6)
    assert "job-geojson-holes" in [f.code for f in drawn.findings]


def test_geojson_in_degrees_is_refused() -> None:
    told = words(read_geojson(geojson([(0.1, 51.5), (0.1001, 51.5), (0.1, 51.5001)]), "a.geojson", None, None))
    assert "degrees" in told
    assert 'drawn_in = "m"' in told


def test_geojson_of_several() -> None:
    one = json.loads(geojson([(0, 0), (4, 0), (4, 3)], name="hall"))
    one["features"] += json.loads(geojson([(5, 0), (9, 0), (9, 3)], name="bath"))["features"]
    content = json.dumps(one).encode()
    assert "2 polygons" in words(read_geojson(content, "a", None, "m"))
    assert "bath or hall" in words(read_geojson(content, "a", "kitchen", "m"))
    assert len(read_geojson(content, "a", "Bath", "m").points) == 3


@pytest.mark.parametrize("content", [b"", b"{", b"[1]", b'{"type": "Polygon", "coordinates": [[["x", 1]]]}', b"\xff"])
def test_no_geojson(content: bytes) -> None:
    assert words(read_geojson(content, "a.geojson", None, "m"))


def test_a_traced_job_solves_and_is_written_again(tmp_path: Path) -> None:
    (tmp_path / "plan.dxf").write_bytes(drawing(lambda space: lines(space, ROOM[::-1])))
    file = tmp_path / "job.toml"
    file.write_text('schema = 1\nunits = "mm"\n[survey]\ntraced = "plan.dxf"\n[survey.distances]\nA-B = 3589\n')
    loaded = load(file)
    assert loaded.job is not None
    assert loaded.is_sound, loaded.findings
    result = solve(loaded.job).survey
    assert result.area == pytest.approx(area(ROOM), rel=1e-3)
    text = job_text(loaded.job)
    assert "points" not in text
    file.write_text(text)
    assert load(file).job == loaded.job
