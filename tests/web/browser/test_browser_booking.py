"""Booking by thumb: from blank to a pack in feet and inches, doors and ties, slips named, and undo of it all."""

import io
import tomllib
import zipfile
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

SOLVED_MS = 90_000
"""A floor takes seconds to work out, and many where the machine is busy."""


def press(page: Page, *keys: str) -> None:
    """Taps keys of the keypad by what stands on them; figures may be given together."""
    pad = page.locator(".keys")
    for key in keys:
        for name in [key] if "/" in key else key:
            said = {"'": "feet", '"': "inches"}.get(name, name)
            pad.get_by_role("button", name=said, exact=True).tap()


def book(page: Page, *keys: str) -> None:
    press(page, *keys)
    page.locator(".keypad button[type=submit]").tap()


def held(server: Any, name: str) -> dict[str, Any]:
    found: dict[str, Any] = tomllib.loads((server.folder / f"{name}.toml").read_text(encoding="utf-8"))
    return found


def tap_corner(page: Page, name: str) -> None:
    page.locator("text.corner", has_text=name).first.wait_for()
    spot = page.evaluate(
        """(name) => {
          const text = [...document.querySelectorAll("text.corner")].find((one) => one.textContent === name);
          const middle = document.querySelector("path.wall").getBoundingClientRect();
          const box = text.getBoundingClientRect();
          const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
          const [dx, dy] = [middle.x + middle.width / 2 - x, middle.y + middle.height / 2 - y];
          const far = Math.hypot(dx, dy);
          return [x + (dx / far) * 18, y + (dy / far) * 18];
        }""",
        name,
    )
    page.touchscreen.tap(*spot)


@pytest.fixture
def phone(watch: Any) -> Page:
    page: Page = watch(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True).page()
    return page


def test_a_bathroom_in_feet_and_inches_goes_from_blank_to_a_pack_by_thumb(phone: Page, server: Any) -> None:
    phone.get_by_label("feet and inches").tap()
    phone.get_by_role("button", name="Rectangle").tap()
    walls = {"A to B": ("7'3", "1/2"), "C to D": ("7'3", "1/2"), "B to C": ("10'2", "1/2", "1/8")}
    across = ("12'6", "1/2", "1/8")
    sides = {**walls, "D to A": walls["B to C"], "A to C": across, "B to D": across}
    for count in range(1, 7):
        reading = phone.locator(".keypad .reads span").first.inner_text()
        book(phone, *sides[reading])
        expect(phone.locator("table.readings th[scope=row]")).to_have_count(count)
    expect(phone.locator("path.wall")).to_be_visible()
    expect(phone.get_by_text("Every reading is in")).to_be_visible()

    phone.get_by_role("button", name="Lay", exact=True).tap()
    for keys in (("11", "1/2", "1/4"), ("1/4",), ("1/8",)):
        book(phone, *keys)
    phone.get_by_role("button", name="Book it").tap()
    expect(phone.locator(".said")).to_have_text("Tile to be laid")

    phone.get_by_role("button", name="Cut and order", exact=True).tap()
    phone.get_by_role("button", name="Make the pack").tap()
    link = phone.get_by_role("link", name="Everything")
    expect(link).to_be_visible(timeout=SOLVED_MS)
    with phone.expect_download() as downloading:
        link.tap()
    archive = zipfile.ZipFile(io.BytesIO(Path(downloading.value.path()).read_bytes()))
    assert {"pack.pdf", "floor.dxf"} <= set(archive.namelist())
    job = held(server, "New job")
    assert job["survey"]["distances"]["A-B"] == "7' 3 1/2"
    assert (job["goods"][0]["length"], job["zones"][0]["joint"], job["zones"][0]["gap"]) == ("11 3/4", "1/4", "1/8")
    expect(phone.locator(".cuts").first).to_be_attached(timeout=SOLVED_MS)


OVER_MEASURED = """schema = 1
title = "Hall"
units = "mm"

[survey]
outline = ["A", "B", "C", "D"]

[survey.distances]
A-B = 4000
B-C = 3000
C-D = 4000
D-A = 3000
A-C = 5000
B-D = 4950
A-P = 1500
B-P = 2941
C-P = 3500
D-P = 2418.5
"""


def test_a_slip_in_an_over_measured_room_is_named_and_mended(page: Page, server: Any) -> None:
    (server.folder / "Hall.toml").write_text(OVER_MEASURED, encoding="utf-8")
    page.reload()
    page.get_by_role("button", name="open Hall").click()
    expect(page.locator(".keypad .reads")).to_contain_text("B to D")
    expect(page.locator(".doubtful")).to_contain_text("it seems 50 mm short")
    expect(page.locator("line.doubted")).to_have_count(1)
    page.keyboard.type("5000")
    page.keyboard.press("Enter")
    expect(page.locator("line.doubted")).to_have_count(0)
    assert held(server, "Hall")["survey"]["distances"]["B-D"] == 5000


def test_with_one_reading_to_spare_a_slip_of_20_is_said_honestly_not_to_be_placed(page: Page, server: Any) -> None:
    page.get_by_role("button", name="Larch row kitchen", exact=True).click()
    page.get_by_role("button", name="read SW to NE again").click()
    page.keyboard.type("5510")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="The readings disagree")).to_be_visible()
    expect(page.locator(".doubtful")).to_contain_text("cannot be told from these readings")
    expect(page.locator("line.doubted")).to_have_count(6)
    page.get_by_role("button", name="show SW-SE, SE-NE").click()
    expect(page.locator("line.lit").first).to_be_attached()


def test_a_door_is_booked_changed_and_taken_out_and_all_of_it_undone(watch: Any, server: Any) -> None:
    page: Page = watch(viewport={"width": 1280, "height": 800}, has_touch=True).page()
    page.get_by_role("button", name="Training bay", exact=True).click()
    expect(page.locator("path.wall")).to_be_visible()
    before = (server.folder / "Training bay.toml").read_text(encoding="utf-8")
    page.get_by_role("button", name="Book something else").click()
    page.get_by_role("button", name="A door or opening").click()
    page.get_by_role("group", name="Wall").get_by_role("button", name="A-B").tap()
    page.get_by_role("group", name="Measured from").get_by_role("button", name="A").tap()
    book(page, "1200")
    book(page, "900")
    page.get_by_role("button", name="Book it").tap()
    expect(page.locator(".others")).to_contain_text("door: 900 mm wide in A-B, 1200 mm from A")
    assert held(server, "Training bay")["openings"] == [
        {"name": "door", "wall": "A-B", "from": "A", "offset": 1200, "width": 900}
    ]
    page.get_by_role("button", name="Book something else").click()
    page.get_by_role("button", name="An angle read").click()
    page.get_by_role("button", name="All jobs").click()
    page.get_by_role("button", name="open Training bay").click()
    # What was begun is left with the job that it was begun in.
    expect(page.get_by_role("heading", name="An angle read")).to_have_count(0)
    page.get_by_role("button", name="take out door").click()
    expect(page.locator(".others")).to_have_count(0)
    for _ in range(2):
        page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("button", name="Undo")).to_be_disabled()
    assert (server.folder / "Training bay.toml").read_text(encoding="utf-8") == before


def test_two_corners_touched_are_read_between_and_read_once_more(watch: Any, server: Any) -> None:
    page: Page = watch(viewport={"width": 1280, "height": 800}, has_touch=True).page()
    page.get_by_role("button", name="Training bay", exact=True).click()
    expect(page.locator("path.wall")).to_be_visible()
    tap_corner(page, "A")
    expect(page.get_by_role("heading", name="From A")).to_be_visible()
    tap_corner(page, "C")
    expect(page.locator(".keypad .reads")).to_contain_text("A to C")
    book(page, "7811")
    expect(page.locator("table.readings")).to_contain_text("7811")
    page.get_by_role("button", name="why A to C fits").click()
    expect(page.locator(".because")).to_contain_text("by the tape's class and a person's eye")
    page.get_by_role("button", name="Read it once more").click()
    book(page, "7810.5")
    expect(page.locator("table.readings")).to_contain_text("7811, 7810.5")
    assert held(server, "Training bay")["survey"]["distances"]["A-C"] == [7811, 7810.5]


def test_how_far_out_a_corner_may_be_is_drawn_and_told(page: Page) -> None:
    page.get_by_role("button", name="Larch row kitchen", exact=True).click()
    page.get_by_label("Show how far out each corner may be").check()
    expect(page.locator("ellipse.ellipse")).to_have_count(4)
    expect(page.locator(".not-to-scale")).to_contain_text("times larger than life")
    expect(page.locator("table", has_text="How far out a corner may be")).to_contain_text("NE")
