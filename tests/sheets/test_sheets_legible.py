"""Sheets as printed: no word stands on another, and the bar to check the print by is always of one length."""

import math
import re

import pytest

from floorwright.draw.sheet import flat
from floorwright.draw.style import Pen
from floorwright.draw.view import Line, View
from floorwright.export.svg import view_svg
from floorwright.job.solution import Solution
from floorwright.sheets.pack import pack

BAR = re.compile(r'class="check-bar"><path [^>]*d="M([\d.]+) [\d.]+H([\d.]+)')


def bar_length(view: View, imperial: bool) -> float:
    """Returns the length of a view's check bar in mm on paper, as drawn."""
    if view.check_bar:
        found = BAR.search(view_svg(view, imperial=imperial))
        assert found
        return float(found[2]) - float(found[1])
    strokes = [item.points for item in view.aside if isinstance(item, Line) and item.pen is Pen.MARK]
    return max(math.dist(*points) for points in strokes) / view.scale


def test_every_drawing_to_scale_has_a_bar_of_one_length(any_room: Solution) -> None:
    imperial = any_room.style.system == "imperial"
    measured = [
        bar_length(block, imperial)
        for sheet in pack(any_room).sheets
        # The pictures of cuts are too small for a bar, and carry every figure.
        if sheet.key != "cuts"
        for block in flat(sheet.blocks)
        if isinstance(block, View) and block.is_to_scale
    ]
    assert len(measured) >= 2
    assert measured == pytest.approx([101.6 if imperial else 100.0] * len(measured))
