"""Parts of a slab with lines of their own: borders cut into cells, insets, tiles beside what is scored."""

from pathlib import Path

import pytest
import shapely

import floorwright
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.scoring.scored import Scored

FOOT = 304.8
WHOLE = (Path(floorwright.__file__).parent / "examples" / "mill-lane-patio.toml").read_text(encoding="utf-8")
PATIO = WHOLE.replace('border_ends = "24in"\nborder_sides = "12in"\n', "").partition("[[scoring.circles]]")[0]

EDGING = """
[[scoring.zones]]
name = "edging"
band = "12in"
length = "24in"
colours = ["charcoal", "slate"]
"""
RUG = """
[[scoring.zones]]
name = "rug"
kind = "inset"
size = ["8ft", "64in"]
pattern = "basketweave"
length = "16in"
width = "8in"
"""
TILES = """
[[goods]]
name = "Slate 12"
length = "11 3/4in"

[[zones]]
name = "tiles"
goods = "Slate 12"
joint = "1/4in"
gap = 0
"""
OUTLINE = 'length = "24in"\noutline = [[0, 0], ["12ft", 0], ["12ft", "18ft"], [0, "18ft"]]\n'


def solved(text: str) -> Solution:
    loaded = load_text(text)
    assert loaded.job is not None
    assert {finding.code for finding in loaded.findings} <= {"job-assumed"}, loaded.findings
    return floorwright.solve(loaded.job)


def scored(text: str) -> Scored:
    done = solved(text).scored
    assert done is not None
    return done


def cuts(done: Scored) -> list[shapely.LineString]:
    return [shapely.LineString([part.start, part.end]) for line in done.lines for part in line.parts]


def assert_each_cut_once(done: Scored) -> None:
    lines = cuts(done)
    assert shapely.union_all(lines, grid_size=0.001).length == pytest.approx(sum(line.length for line in lines))


def test_a_border_of_cells_whose_lines_go_on_from_the_field() -> None:
    done = scored(PATIO + EDGING)
    assert_each_cut_once(done)
    # Inside line 22 by 16 ft, four mitres of 12 in each way, and 10 + 7 cross lines a pair of sides of a foot each; the
    # field adds 10 and 7 lines of its own.
    mitres = [line for line in done.lines if line.name[0] in "DE"]
    assert sum(line.to_cut for line in mitres) == pytest.approx(4 * 2**0.5 * FOOT, abs=1.0)
    inside = 2 * (22 + 16) + 2 * (10 + 7) + 10 * 16 + 7 * 22
    total = done.straight + done.there - sum(line.to_cut for line in mitres)
    assert total == pytest.approx(inside * FOOT, abs=5.0)
    edging = [cell for cell in done.cells if cell.colour in ("charcoal", "slate")]
    assert len(edging) == 2 * (11 + 8)
    assert sum(cell.area for cell in done.cells) == pytest.approx(24 * 18 * FOOT**2, rel=1e-6)


def test_cells_of_a_border_come_out_whole_and_it_says_so() -> None:
    done = solved(PATIO + EDGING.replace("24in", "25in"))
    told = [finding for finding in done.findings if finding.code == "scoring-fitted"]
    # 22 ft by 25 in is nearest to 11 cells, 16 ft to 8: 24 in both ways.
    assert len(told) == 4
    assert {finding.found for finding in told} == {'cells of 25" x 12" come out whole at 24" x 12"'}
    assert done.scored is not None
    assert len([cell for cell in done.scored.cells if cell.colour in ("charcoal", "slate")]) == 2 * (11 + 8)


def test_an_inset_is_cut_round_and_the_field_stops_at_it() -> None:
    done = scored(PATIO + RUG)
    assert_each_cut_once(done)
    rug = shapely.box(8 * FOOT, 76 * 25.4, 16 * FOOT, 140 * 25.4)
    lines = shapely.union_all(cuts(done))
    assert shapely.intersection(rug.boundary, lines.buffer(1)).length == pytest.approx(320 * 25.4, rel=1e-3)
    # Basketweave of 16 by 8 in, 6 by 4 blocks of 16 in: a line of 16 in in each, and the lines between them.
    inside = shapely.intersection(rug.buffer(-1), lines).length
    assert inside == pytest.approx((24 * 16 + 5 * 64 + 3 * 96) * 25.4, rel=5e-3)


def test_a_plain_band_has_only_its_own_lines() -> None:
    done = scored(PATIO + '[[scoring.zones]]\nname = "band"\nband = "6in"\ncolours = ["slate"]\ncorners = "butted"\n')
    assert_each_cut_once(done)
    assert len([cell for cell in done.cells if cell.colour == "slate"]) == 4


def test_bands_lie_inside_each_other_in_their_order() -> None:
    two = PATIO + EDGING + '[[scoring.zones]]\nname = "band"\nband = "6in"\n'
    done = scored(two)
    assert done.field is not None
    (low, high) = done.field.rings[0].min(axis=0), done.field.rings[0].max(axis=0)
    assert (*low, *high) == pytest.approx((1.5 * FOOT, 1.5 * FOOT, 22.5 * FOOT, 16.5 * FOOT), abs=0.5)


def test_tiles_are_neither_cut_through_nor_round() -> None:
    """A tiled inset in a scored slab: no cut lies in it or along it, and those that reach it stop there."""
    inset = TILES.replace('name = "tiles"', 'name = "hearth"\nkind = "inset"\nlength = "6ft"\nwidth = "4ft"')
    done = solved(PATIO + inset)
    assert [layout.zone for layout in done.layouts] == ["hearth"]
    assert done.scored is not None
    hearth = shapely.box(9 * FOOT, 7 * FOOT, 15 * FOOT, 11 * FOOT)
    cut = [
        shapely.LineString([part.start, part.end])
        for line in done.scored.lines
        for part in line.parts
        if not part.there
    ]
    assert shapely.intersection(shapely.union_all(cut), hearth.buffer(2)).length < 20.0
    stops = {stop.on for line in done.scored.lines for stop in line.stops}
    assert "the tiles" in stops
    assert sum(cell.area for cell in done.scored.cells) < (24 * 18 - 24) * FOOT**2


def test_half_scored_half_tiled() -> None:
    done = solved(PATIO.replace('length = "24in"\n', OUTLINE) + TILES)
    assert [layout.zone for layout in done.layouts] == ["tiles"]
    assert done.scored is not None
    assert sum(cell.area for cell in done.scored.cells) == pytest.approx(12 * 18 * FOOT**2, rel=1e-6)
    tiles = shapely.union_all([shapely.Polygon(piece.rings[0]) for piece in done.layouts[0].pieces])
    assert shapely.intersection(tiles, shapely.union_all(cuts(done.scored))).length == 0.0
    assert tiles.bounds[0] == pytest.approx(12 * FOOT + 6.35, abs=0.1)


def test_scored_in_an_outline_is_cut_round_where_nothing_is_tiled() -> None:
    done = scored(PATIO.replace('length = "24in"\n', OUTLINE))
    edge = shapely.LineString([(12 * FOOT, 0), (12 * FOOT, 18 * FOOT)])
    assert shapely.intersection(edge, shapely.union_all(cuts(done)).buffer(1)).length == pytest.approx(
        18 * FOOT, rel=0.01
    )


@pytest.mark.parametrize("turned", ["2ft", "0"])
def test_an_l_shaped_slab_is_cut_once_along_its_corner(turned: str) -> None:
    """A line of the pattern that goes on from the border's line at a corner that turns in is cut once, not twice."""
    job = (
        PATIO.replace('outline = ["A", "B", "C", "D"]', 'outline = ["A", "B", "C", "D", "E", "F"]')
        .partition("[survey.walls]")[0]
        .replace('direction = "anticlockwise"', 'direction = "anticlockwise"\ninward = ["D"]')
        + "[survey.points]\n"
        + "".join(
            f'{name} = ["{x}ft", "{y}ft"]\n'
            for name, x, y in (("A", 0, 0), ("B", 24, 0), ("C", 24, 9), ("D", 12, 9), ("E", 12, 18), ("F", 0, 18))
        )
        + "[scoring]\npattern = 'grid'\nlength = '24in'\n"
        + (f'border_ends = "{turned}"\nborder_sides = "1ft"\n' if turned != "0" else "")
    )
    assert_each_cut_once(scored(job))
