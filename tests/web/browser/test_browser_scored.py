"""Slabs scored with arcs, rings, borders and insets on the screen: every stage has something to say of them."""

from pathlib import Path
from typing import Any

from playwright.sync_api import Page, expect

import floorwright

EXAMPLE = Path(floorwright.__file__).parent / "examples" / "mill-lane-patio.toml"
SOLVED_MS = 90_000

RINGS = """
[[scoring.circles.rings]]
depth = "18in"
cells = 16

[[scoring.zones]]
name = "edging"
band = "12in"
length = "24in"
"""


def test_fish_scale_with_rings_and_a_border_of_cells(page: Page, server: Any) -> None:
    text = EXAMPLE.read_text(encoding="utf-8").replace('pattern = "grid"', 'pattern = "fish scale"')
    text = text.replace('border_ends = "24in"\nborder_sides = "12in"\n', "")
    (Path(server.folder) / "crowns.toml").write_text(text + RINGS, encoding="utf-8")
    page.reload()
    page.get_by_role("button", name="crowns").or_(page.get_by_role("link", name="crowns")).first.click()
    page.get_by_role("button", name="Lay", exact=True).click()
    panel = page.locator(".panel")
    table = panel.locator("table", has_text="By each saw")
    expect(table).to_contain_text("spokes", timeout=SOLVED_MS)
    expect(table).to_contain_text("arcs")
    expect(page.locator("svg.plan path.score")).to_have_count(1)
    # Joints are drawn where no line lies on them too.
    expect(page.locator("svg.plan .joint-there")).to_have_count(3)
    # The circle and the inner one of its ring.
    expect(page.locator("svg.plan circle.score")).to_have_count(2)
    page.get_by_role("button", name="Cut and order").click()
    expect(panel).to_contain_text("Arcs, row by row", timeout=SOLVED_MS)
    expect(panel).to_contain_text("kicks back")
    page.locator(".tick", has_text="Row 1").first.click()
    for stage in "sg":
        page.keyboard.press(stage)
        expect(panel).not_to_be_empty()


def test_each_stain_is_said_by_a_letter_on_the_slab(page: Page) -> None:
    page.get_by_role("button", name="Mill lane patio", exact=True).click()
    page.get_by_role("button", name="Lay", exact=True).click()
    letters = page.locator("svg.plan text.stain")
    # The border and the circle have one each; squares that the circle cuts have theirs where there is room.
    expect(letters.filter(has_text="C")).to_have_count(1, timeout=SOLVED_MS)
    expect(letters.filter(has_text="D")).to_have_count(1)
    assert letters.filter(has_text="A").count() > 27
