"""Taper templates over several pages: every page's name stands clear of what is drawn on it."""

from pathlib import Path

import shapely

import floorwright
from floorwright.draw.lettering import text_width
from floorwright.draw.style import CAP_HEIGHT
from floorwright.draw.view import Cross, Line, Text, View
from floorwright.job.load import load
from floorwright.job.solve import solve
from floorwright.sheets.templates import templates_sheet


def name_box(text: Text) -> shapely.Polygon:
    x, y = text.at
    high = CAP_HEIGHT[text.size]
    return shapely.box(x, y - high / 2, x + text_width(text.text, text.size), y + high / 2)


def test_names_of_pages_stand_clear_of_sides_and_crosses() -> None:
    loaded = load(Path(floorwright.__file__).parent / "examples" / "mill-yard-circle.toml")
    assert loaded.job is not None
    solution = solve(loaded.job)
    views: list[View] = []
    for layout in solution.layouts:
        sheet = templates_sheet(solution, layout)
        views += [block for block in sheet.blocks if isinstance(block, View)] if sheet else []
    assert len(views) > 8
    for view in views:
        (name,) = [item for item in view.items if isinstance(item, Text)]
        box, page = name_box(name), shapely.box(*view.window)
        assert page.contains(box), view.name
        for item in view.items:
            if isinstance(item, Line):
                points = [*item.points, item.points[0]] if item.closed else item.points
                assert not shapely.LineString(points).intersects(box), view.name
            elif isinstance(item, Cross):
                assert shapely.Point(item.at).distance(box) > 2.0, view.name
