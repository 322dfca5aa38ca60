"""Setting out: a line is taken, dragged or nudged; it says what it catches on, and the figures follow."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

KITCHEN = (Path(__file__).parents[3] / "src" / "floorwright" / "examples" / "larch-row-kitchen.toml").read_text("utf-8")
DOOR_AXIS = 1650  # 1200 from SW and half of 900


def set_out(page: Page, part: str = "Lines") -> None:
    page.get_by_role("button", name="Larch row kitchen", exact=True).click()
    expect(page.locator("path.wall").first).to_be_visible()
    page.get_by_role("button", name="Set out", exact=True).click()
    page.locator(".parts").get_by_role("button", name=part, exact=True).click()


def press(page: Page, keys: str) -> None:
    for key in keys:
        page.locator(".keys").get_by_role("button", name=key, exact=True).click()


def control(server: Any) -> dict[str, Any]:
    found: dict[str, Any] = tomllib.loads(text(server))["control"]
    return found


def text(server: Any) -> str:
    written: str = (server.folder / "Larch row kitchen.toml").read_text(encoding="utf-8")
    return written


def grip(page: Page, name: str) -> Locator:
    return page.locator(f".grip[aria-label^='{name}:']")


def middle(where: Locator) -> tuple[float, float]:
    box = where.locator(".grip-dot").bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def pixels_per_mm(page: Page) -> float:
    """From the ends of the first line, which stand 4205.02 mm apart."""
    (left, _), (right, _) = (middle(grip(page, f"{which} end of the first line")) for which in ("first", "second"))
    return (right - left) / 4205.0223


def test_a_line_is_taken_by_touch_and_undone(watch: Any, server: Any) -> None:
    page = watch(has_touch=True).page()
    set_out(page)
    card = page.locator(".candidate").filter(has_text="middle of S to middle of N")
    expect(card).to_contain_text("to cut")
    expect(page.locator(".candidate.yours")).to_contain_text("parallel to S")
    card.tap()
    expect(page.locator(".how")).to_contain_text("middle of S to middle of N")
    assert control(server)["first_line"] == {"by": "mid-points", "walls": ["S", "N"]}
    page.get_by_role("button", name="Undo").tap()
    expect(page.locator(".how")).to_contain_text("parallel to S")
    assert text(server) == KITCHEN


def test_the_centre_is_dragged_by_mouse_and_catches_on_the_door(page: Page, server: Any) -> None:
    set_out(page)
    x, y = middle(grip(page, "centre"))
    scale = pixels_per_mm(page)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + (DOOR_AXIS - 2100) * scale + 4, y - 60, steps=6)
    expect(page.locator(".snapped")).to_contain_text("in line with door")
    page.mouse.up()
    expect(page.locator(".how")).to_contain_text("as typed")
    centre = control(server)["centre"]
    assert (centre["by"], centre["x"]) == ("point", DOOR_AXIS)
    assert centre["y"] > 1850
    expect(page.locator("p.said")).to_contain_text("in line with door")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".how")).to_contain_text("middle of S")
    assert text(server) == KITCHEN


def test_the_centre_is_dragged_by_a_finger(watch: Any, server: Any) -> None:
    watched = watch(has_touch=True, viewport={"width": 360, "height": 740}, device_scale_factor=2)
    page = watched.page()
    set_out(page)
    x, y = middle(grip(page, "centre"))
    to = x + (DOOR_AXIS - 2100) * pixels_per_mm(page) + 3
    touch = watched.context.new_cdp_session(page)
    fingers = [("touchStart", x), ("touchMove", (x + to) / 2), ("touchMove", to)]
    for kind, at in fingers:
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": at, "y": y - (at != x) * 25}]})
    expect(page.locator(".snapped")).to_contain_text("in line with door")
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    expect(page.locator(".how")).to_contain_text("as typed")
    assert control(server)["centre"]["x"] == DOOR_AXIS


def test_the_centre_goes_by_keys_and_says_what_it_meets(page: Page, server: Any) -> None:
    set_out(page)
    expect(page.locator(".candidate").first).to_be_visible()
    held = grip(page, "centre")
    held.focus()
    page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Enter")
    expect(page.locator(".how")).to_contain_text("as typed")
    centre = control(server)["centre"]
    assert (centre["x"], centre["y"]) == (2111, pytest.approx(1801, abs=0.1))
    held.focus()
    said = []
    for _ in range(12):
        page.keyboard.press("Alt+ArrowLeft")
        said.append(page.locator(".snapped").inner_text())
        if "in line with door" in said[-1]:
            break
    page.keyboard.press("Enter")
    expect(page.locator(".snapped")).to_have_count(0)
    expect(page.locator("p.said")).to_contain_text("in line with door")
    assert control(server)["centre"]["x"] == DOOR_AXIS, said


def test_an_end_of_the_line_is_dragged_and_catches_on_a_wall_s_direction(page: Page, server: Any) -> None:
    set_out(page)
    first = grip(page, "first end of the first line")
    x, y = middle(first)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 60, y + 80, steps=4)
    expect(page.locator(".snapped")).to_be_visible()
    page.mouse.move(x + 40, y, steps=4)
    expect(page.locator(".snapped")).to_contain_text("parallel to S")
    page.mouse.up()
    expect(page.locator(".how")).to_contain_text("through")
    line = control(server)["first_line"]
    assert line["by"] == "points"
    assert line["from"][1] == line["to"][1]


def test_the_drift_changes_with_the_way_to_square_and_with_the_tools(page: Page, server: Any) -> None:
    set_out(page, "Tools")
    far = page.locator(".far-out dd strong")
    expect(far).to_have_text("1.2 mm")
    expect(page.locator(".panel")).to_contain_text("Good enough")
    page.get_by_role("radio", name="3-4-5").check()
    expect(far).to_have_text("2.4 mm")
    expect(page.locator(".panel")).to_contain_text("Use a bigger one")
    assert control(server)["square"] == "3-4-5"
    page.get_by_role("radio", name="The truest").check()
    expect(far).to_have_text("1.2 mm")
    assert "square" not in control(server)
    reach = page.get_by_label("Compass reaches")
    reach.fill("0")
    reach.press("Enter")
    expect(far).to_have_text("1.7 mm")
    page.get_by_role("button", name="Undo").click()
    expect(far).to_have_text("1.2 mm")
    page.get_by_label("Show how far out").check()
    expect(page.locator("path.fan")).to_have_count(8)
    expect(page.locator(".switch")).to_contain_text("drawn 100 times as far")


def test_the_working_grid_is_asked_for_by_its_form(page: Page, server: Any) -> None:
    def written() -> dict[str, Any]:
        found: dict[str, Any] = tomllib.loads(text(server)).get("setout", {}).get("grid", {})
        return found

    set_out(page, "Tools")
    summary = page.locator("summary", has_text="Working grid")
    summary.click()
    grid = page.locator(".field select")
    grid.select_option("none")
    expect(page.locator("p.said")).to_have_text("working grid: none")
    reach, skins = page.get_by_label("A box is no wider than"), page.get_by_label("Set before the mortar skins")
    expect(reach).to_have_value("1300")
    reach.fill("900")
    reach.press("Enter")
    expect(page.locator("p.said")).to_have_text("A box is no wider than 900")
    skins.fill("1.2")
    skins.press("Enter")
    expect(page.locator("p.said")).to_have_text("Set before the mortar skins 1.2")
    expect(skins).to_have_value("1.2")
    assert written() == {"wanted": False, "reach": 900, "skins": 1.2}
    expect(summary).to_contain_text("none")
    grid.select_option("")
    expect(page.locator("p.said")).to_have_text("working grid from three boxes")
    assert written() == {"reach": 900, "skins": 1.2}


def test_the_steps_come_one_at_a_time_and_light_the_plan(page: Page) -> None:
    set_out(page, "Steps")
    step = page.locator(".step-text")
    expect(step).to_have_text("On wall W mark M1, 1788 mm from NW.")
    onward = page.get_by_role("button", name="Done: next")
    for _ in range(5):
        onward.click()
    expect(step).to_contain_text("cross arcs at X1")
    expect(page.locator(".step-now path.arc")).to_have_count(2)
    expect(page.locator(".step-made line.struck")).to_have_count(1)
    page.get_by_role("button", name="Back").click()
    expect(step).to_contain_text("F1 and F2")
    while onward.is_visible():
        onward.click()
    page.get_by_role("button", name="Prove the cross").click()
    expect(page.locator(".keypad")).to_be_visible()


def test_a_check_reading_gets_its_verdict_in_words(page: Page, server: Any) -> None:
    set_out(page, "Check")
    expect(page.locator("h2 .reading")).to_have_text("E 2000 to N 1500")
    press(page, "2520")
    page.get_by_role("button", name="Book it").click()
    verdict = page.locator(".verdict")
    expect(verdict).to_contain_text("Out.")
    expect(verdict).to_contain_text("Move M")
    assert control(server)["readings"] == [{"between": ["E 2000", "N 1500"], "reads": 2520}]
    press(page, "2500")
    page.get_by_role("button", name="Book it anew").click()
    # Read with this tape and these marks, no 3-4-5 of this size can prove half a 3 mm joint for certain.
    expect(verdict).not_to_contain_text("Out.")
    assert control(server)["readings"] == [{"between": ["E 2000", "N 1500"], "reads": 2500}]
    page.get_by_role("button", name="Undo").click()
    expect(verdict).to_contain_text("Out.")
