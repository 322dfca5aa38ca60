"""Cuts along arcs: the figures that a person marks on the tile, against the circle worked out by hand."""

import math

import numpy as np
import pytest
from tests.job.test_job_arcs import ROOM
from tests.job.test_job_solve import solved

from floorwright.cuts.frame import onto_floor, tile_of
from floorwright.cuts.schedule import CutPiece
from floorwright.draw.sheet import Columns, Table
from floorwright.job.solution import Solution
from floorwright.sheets.cuts import cuts_sheet


@pytest.fixture(scope="module")
def bay() -> Solution:
    return solved(ROOM)


def curved(solution: Solution) -> list[CutPiece]:
    return [piece for piece in solution.cuts[0].pieces if piece.kind == "curved"]


def test_ends_rise_and_radius_are_those_of_the_wall_less_its_gap(bay: Solution) -> None:
    wall, layout = bay.survey.arcs[0].arc, bay.layouts[0]
    index = {piece.id: piece.index for piece in layout.pieces}
    seen = 0
    for piece in curved(bay):
        tile = tile_of(layout.cell, index[piece.id][2])
        for arc in piece.arcs:
            seen += 1
            assert arc.wall == "bay"
            assert arc.radius == pytest.approx(wall.radius - 6, abs=1e-6)
            ends = onto_floor(
                np.array([arc.start, arc.end]), tile, layout.cell, layout.chosen.placement, index[piece.id]
            )
            assert np.hypot(*(ends - wall.centre).T) == pytest.approx([wall.radius - 6] * 2, abs=1e-6)
            half = arc.chord / 2
            assert arc.rise == pytest.approx(arc.radius - math.sqrt(arc.radius**2 - half**2), abs=1e-6)
            assert max((off for _, off in arc.offsets), default=0.0) <= arc.rise + 1e-9
    assert seen >= 8


def test_marks_are_measured_from_the_corner_that_is_kept(bay: Solution) -> None:
    corners = {"bottom left": (0, 0), "bottom right": (447, 0), "top right": (447, 447), "top left": (0, 447)}
    for piece in curved(bay):
        ring = np.array(piece.outline[0])
        for arc in piece.arcs:
            for end, mark in zip((arc.start, arc.end), arc.marks, strict=True):
                if mark is None:
                    assert all(1 < value < 446 for value in end)
                    continue
                assert math.dist(corners[mark.corner], end) == pytest.approx(mark.distance, abs=1e-6)
                middle = (np.array(corners[mark.corner]) + end) / 2
                # The stretch from the corner to the mark is kept: it lies on the piece's outline.
                run = np.roll(ring, -1, axis=0) - ring
                away = middle - ring
                share = np.clip((away * run).sum(1) / np.maximum((run**2).sum(1), 1e-9), 0, 1)
                assert np.hypot(*(away - share[:, None] * run).T).min() < 0.01


def test_wall_that_bows_in_hollows_its_cuts() -> None:
    solution = solved(ROOM.replace('bows = "out"\nrise = [742, 743]', 'bows = "in"\nrise = 320'))
    arcs = [arc for piece in curved(solution) for arc in piece.arcs if arc.wall == "bay"]
    assert arcs
    assert all(arc.rise < 0 for arc in arcs)
    assert all(off < 0 for arc in arcs for _, off in arc.offsets)


def test_round_column_is_bored_and_a_wide_one_is_cut_along_an_arc() -> None:
    for diameter, bored in ((300, True), (1000, False)):
        solution = solved(ROOM.replace("diameter = 300", f"diameter = {diameter}"))
        pieces = [piece for piece in solution.cuts[0].pieces if "post" in piece.walls]
        assert pieces
        assert all(bool(piece.bores) == bored and bool(piece.arcs) != bored for piece in pieces)
        if bored:
            assert pieces[0].bores[0].radius == pytest.approx(156)
        else:
            assert pieces[0].arcs[0].radius == pytest.approx(506, abs=1e-6)


def test_cut_list_tells_rise_and_radius(bay: Solution) -> None:
    sheet = cuts_sheet(bay, (bay.layouts[0], bay.cuts[0]))
    tables = [
        one for block in sheet.blocks if isinstance(block, Columns) for one in block.blocks if isinstance(one, Table)
    ]
    (table,) = [one for one in tables if one.heading.startswith("Wall bay")]
    radius = bay.survey.arcs[0].arc.radius - 6
    assert table.heading == f"Wall bay, from C to D: radius {round(radius * 2) / 2:g}"
    assert any("bulges" in cell for row in table.rows for cell in row)
