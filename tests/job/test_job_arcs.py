"""A room with walls that are arcs through the job file: survey, layout, data, sheets and the way back to text."""

import json
import math

import numpy as np
import pytest
from tests.job.test_job_solve import errors, solved

from floorwright.cli.report import survey_text
from floorwright.draw.sheet import Table
from floorwright.draw.sheet import flat as flat_blocks
from floorwright.export.data import survey_data
from floorwright.job.load import load_text
from floorwright.job.write.text import job_text
from floorwright.sheets.room import room_sheet

ROOM = """
schema = 1
title = "Garden room"
date = 2026-03-09
units = "mm"

[survey]
outline = ["A", "B", "C", "D"]
direction = "anticlockwise"

[survey.tape]
class = "EU II"

[survey.walls]
front = "A-B"
bay = "C-D"

[survey.distances]
A-B = 3608
B-C = 3012
C-D = 3598
D-A = 3005
A-C = 4697
B-D = 4693

[[survey.arcs]]
wall = "C-D"
bows = "out"
rise = [742, 743]

[[openings]]
name = "door"
wall = "front"
from = "A"
offset = 700
width = 820

[[obstacles]]
name = "post"
kind = "round column"
wall = "B-C"
from = "B"
along = 1500
out = 700
diameter = 300

[control]
first_line = { by = "parallel", wall = "front" }
centre = { by = "mid-point", wall = "front" }

[[goods]]
name = "Porcelain 450"
length = 447

[[zones]]
goods = "Porcelain 450"
joint = 3
gap = 6
"""


def test_room_with_a_bay_lays_out_and_proves() -> None:
    solution = solved(ROOM)
    assert not errors(solution)
    (layout,) = solution.layouts
    assert all(proof.status == "proved" for proof in layout.proofs)
    # Area of the bay by hand: r = c^2 / 8h + h / 2, less the sector's triangle.
    chord, rise = solution.survey.arcs[0].arc.chord, 742.5
    radius = chord**2 / (8 * rise) + rise / 2
    half = math.asin(chord / 2 / radius)
    room = solution.room
    assert room is not None
    ring = room.corner_ring
    x, y = ring.T
    straight = (np.dot(x, np.roll(y, -1)) - np.dot(np.roll(x, -1), y)) / 2
    assert solution.survey.area == pytest.approx(straight + radius**2 * (half - math.sin(2 * half) / 2), rel=1e-9)


def test_no_tile_stands_over_a_round_wall_or_nearer_than_its_gap() -> None:
    solution = solved(ROOM)
    arc, layout = solution.survey.arcs[0].arc, solution.layouts[0]
    for piece in layout.pieces:
        for ring in piece.rings:
            beyond = ring[:, 1] > max(arc.start[1], arc.end[1])
            assert np.all(np.hypot(*(ring[beyond] - arc.centre).T) <= arc.radius - 6 + 1e-6)
            assert np.all(np.hypot(*(ring - solution.room.obstacles[0].centre).T) >= 150 + 6 - 1e-6)  # type: ignore[union-attr]


def test_data_text_and_sheet_tell_the_arc() -> None:
    solution = solved(ROOM)
    (arc,) = json.loads(json.dumps(survey_data(solution)))["arcs"]
    assert arc["bows"] == "out"
    assert arc["rise_mm"] == 742.5
    assert arc["radius_mm"] == pytest.approx(2550.9, abs=0.3)
    assert [one["key"] for one in arc["readings"]] == ["rise", "rise"]
    assert "bay  out" in " ".join(survey_text(solution).split("\n")).replace("bay       out", "bay  out")
    tables = {block.heading: block for block in flat_blocks(room_sheet(solution).blocks) if isinstance(block, Table)}
    assert tables["Round walls"].rows[0][:2] == ("bay", "out")
    offsets = tables["Offsets of bay"].rows
    assert offsets[0] == ("0", "0", "1.5")
    assert ("1799", "742.5") in [row[:2] for row in offsets]
    assert len({row[0] for row in tables["Out of square"].rows} & {"C", "D"}) == 0


def test_written_and_read_again_it_is_the_same_job() -> None:
    loaded = load_text(ROOM)
    assert loaded.job is not None
    again = load_text(job_text(loaded.job))
    assert again.job == loaded.job
    assert again.job.survey.arcs[0].wall == "bay"


def test_a_point_on_the_arc_by_two_ties() -> None:
    text = ROOM.replace("B-D = 4693", "B-D = 4693\nA-P = 4160\nB-P = 4166").replace(
        'bows = "out"\nrise = [742, 743]', 'points = ["P"]'
    )
    solution = solved(text)
    assert not errors(solution)
    assert solution.survey.arcs[0].arc.rise == pytest.approx(742, abs=4)
    assert "P" in {residual.key for residual in solution.survey.arcs[0].residuals}


def test_an_arc_that_crosses_the_room_is_refused() -> None:
    bare = ROOM[: ROOM.index("[[obstacles]]")] + ROOM[ROOM.index("[control]") :]
    solution = solved(bare.replace('bows = "out"\nrise = [742, 743]', 'bows = "in"\nrise = 3400'))
    assert {finding.code for finding in errors(solution)} == {"plan-no-floor"}


def test_door_in_a_round_wall() -> None:
    text = ROOM.replace(
        'wall = "front"\nfrom = "A"\noffset = 700\nwidth = 820',
        'wall = "bay"\nfrom = "C"\noffset = 1500\nwidth = 900\nreveal = 60',
    )
    solution = solved(text)
    assert not errors(solution)
    region, arc = solution.region, solution.survey.arcs[0].arc
    assert region is not None
    ring, names = region.rings[0], region.edges[0]
    jamb = ring[names.index("door reveal right")]
    assert tuple(jamb) == pytest.approx(arc.at(1500), abs=1e-6)
    assert {"door threshold", "bay"} <= set(names)
