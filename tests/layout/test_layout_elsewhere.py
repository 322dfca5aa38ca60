"""A position by hand is laid, scored like any other, and drawn as it is laid."""

import pickle
from importlib.resources import files

import numpy as np
import pytest
import shapely

from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.layout.elsewhere import outlines, placed
from floorwright.layout.layout import Layout
from floorwright.layout.positions import YOUR_OWN
from floorwright.layout.score import Floor
from floorwright.pattern.cell import Placement

KITCHEN = (files("floorwright") / "examples" / "larch-row-kitchen.toml").read_text(encoding="utf-8")


def solved(text: str = KITCHEN) -> Solution:
    job = load_text(text).job
    assert job is not None
    return solve(job)


def floor_of(layout: Layout) -> Floor:
    assert layout.floor is not None
    return layout.floor


@pytest.fixture(scope="module")
def kitchen() -> Solution:
    return solved()


def test_the_chosen_position_scores_the_same_again(kitchen: Solution) -> None:
    layout = kitchen.layouts[0]
    again = placed(floor_of(layout), layout.cell, layout.chosen.placement)
    assert (again.full, again.cut, again.walls) == (layout.chosen.full, layout.chosen.cut, layout.chosen.walls)
    assert again.worst == pytest.approx(layout.chosen.worst, abs=1e-9)


def test_what_is_scored_against_goes_from_process_to_process(kitchen: Solution) -> None:
    floor, cell = floor_of(kitchen.layouts[0]), kitchen.layouts[0].cell
    sent = pickle.loads(pickle.dumps((floor, cell)))
    where = Placement(origin=(2000.0, 100.0), angle=0.01)
    assert placed(sent[0], sent[1], where) == placed(floor, cell, where)


def test_outlines_are_the_pieces(kitchen: Solution) -> None:
    layout = kitchen.layouts[0]
    drawn = outlines(floor_of(layout), layout.cell, layout.chosen.placement)
    full = [piece + at for piece, places in zip(drawn.full, drawn.at, strict=True) for at in places]
    ours = shapely.union_all([shapely.Polygon(ring) for ring in (*full, *drawn.cut)])
    theirs = shapely.union_all([shapely.Polygon(piece.rings[0]) for piece in layout.pieces])
    assert len(full) == layout.chosen.full
    assert shapely.area(shapely.symmetric_difference(ours, theirs)) < 1e-3
    assert sum(drawn.under) == layout.chosen.under


def test_a_persons_own_position_is_laid_and_its_cost_is_said() -> None:
    own = solved(KITCHEN.replace('pattern = "grid"\n', 'pattern = "grid"\nat = [1000, 500]\n'))
    layout = own.layouts[0]
    assert layout.chosen.name == YOUR_OWN
    assert layout.chosen.joint == 3.0
    crossing = (np.array([1000.0, 500.0]) - layout.chosen.placement.origin) / 450.0
    assert crossing == pytest.approx(np.round(crossing), abs=1e-9)
    assert any(finding.code == "layout-own-option" for finding in layout.findings)


def test_a_named_option_goes_before_a_position() -> None:
    text = KITCHEN.replace('pattern = "grid"\n', 'pattern = "grid"\nat = [1000, 500]\n')
    name = "joint on centre across, full tile at S, joint 4 mm"
    own = solved(text.replace("[aims]\n", f'[aims]\noption = "{name}"\n'))
    assert own.layouts[0].chosen.name == name
