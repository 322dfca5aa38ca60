"""Booking a room: from nothing to a measured floor, by the keypad alone; a slip is named, or honestly not."""

import tomllib
from importlib.resources import files
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, expect

KITCHEN = (files("floorwright") / "examples" / "larch-row-kitchen.toml").read_text(encoding="utf-8")


def press(page: Page, keys: str) -> None:
    """Presses keys of the keypad, one for each character; fractions and marks by their own keys."""
    for key in keys.split(" ") if " " in keys else keys:
        name = {"'": "feet", '"': "inches"}.get(key, key)
        page.locator(".keys").get_by_role("button", name=name, exact=True).click()


def book(page: Page, reading: str, keys: str) -> None:
    expect(page.locator(".keypad .reads")).to_contain_text(reading)
    press(page, keys)
    page.get_by_role("button", name="Book it").click()
    expect(page.locator("table.figures")).to_contain_text(reading)


def test_a_room_is_booked_by_the_keypad_and_draws_itself(page: Page, server: Any) -> None:
    page.get_by_label("Name").fill("Hall")
    page.get_by_role("button", name="Rectangle").click()
    expect(page.locator(".not-to-scale")).to_be_visible()
    readings = {"A to B": "3000", "B to C": "2000", "C to D": "3000", "D to A": "2000"}
    for _ in range(5):
        reading = page.locator(".keypad .reads span").first.inner_text()
        book(page, reading, readings.get(reading, "3605.5"))
    expect(page.locator("path.wall")).to_be_visible()
    booked = tomllib.loads((server.folder / "Hall.toml").read_text(encoding="utf-8"))["survey"]["distances"]
    assert {key: booked[key] for key in ("A-B", "B-C")} == {"A-B": 3000, "B-C": 2000}


def test_undo_and_redo_by_key_walk_the_readings(page: Page, server: Any) -> None:
    page.get_by_role("button", name="larch row kitchen").click()
    expect(page.locator("path.wall")).to_be_visible()
    page.get_by_role("button", name="read SW to NE again").click()
    press(page, "5510")
    page.get_by_role("button", name="Book it").click()
    path = server.folder / "Larch row kitchen.toml"
    expect(page.locator("table.figures")).to_contain_text("5510")
    page.locator("svg.plan").focus()
    page.keyboard.press("Control+z")
    expect(page.locator("table.figures")).not_to_contain_text("5510")
    assert path.read_text(encoding="utf-8") == KITCHEN
    page.keyboard.press("Control+Shift+z")
    expect(page.locator("table.figures")).to_contain_text("5510")
    assert "5510" in path.read_text(encoding="utf-8")


def test_a_room_comes_from_a_drawing_whose_unit_is_asked_for(page: Page, tmp_path: Path) -> None:
    drawing = tmp_path / "hall.geojson"
    drawing.write_text('{"type": "Polygon", "coordinates": [[[0, 0], [4.2, 0], [4.21, 3.6], [0, 3.59], [0, 0]]]}')
    page.set_input_files("input[type=file]", drawing)
    expect(page.get_by_text("Which unit is the drawing in?")).to_be_visible()
    page.get_by_role("button", name="m", exact=True).click()
    expect(page.locator("path.wall")).to_be_visible()
    expect(page.locator(".panel")).to_contain_text("15.12 m²")


def test_an_action_is_found_by_its_name(page: Page) -> None:
    page.get_by_role("button", name="larch row kitchen").click()
    expect(page.locator("path.wall")).to_be_visible()
    page.locator("svg.plan").focus()
    page.keyboard.press("/")
    page.get_by_label("What do you want to do?").fill("set out")
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Set out", exact=True)).to_have_attribute("aria-current", "step")
