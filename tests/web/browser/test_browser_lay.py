"""The pattern in hand: dragged by mouse, finger and keys it tells what it comes to, snaps, is laid and put back."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

COUNT_REDRAWN = """() => {
    window.redrawn = 0;
    new MutationObserver((seen) => { window.redrawn += seen.length; })
        .observe(document.querySelector("svg.plan"), { subtree: true, attributes: true, attributeFilter: ["d"] });
}"""

Point = tuple[float, float]

SOLVED_MS = 90_000
"""A machine with much else to do takes long to work a floor out."""


def lay(page: Page, example: str = "larch row kitchen") -> None:
    """Opens an example at the stage where it is laid, worked out."""
    page.get_by_role("button", name=example).click()
    page.get_by_role("button", name="Lay", exact=True).click()
    expect(page.locator("[data-hand=take]")).to_be_enabled(timeout=SOLVED_MS)


def in_hand(page: Page, example: str = "larch row kitchen") -> None:
    lay(page, example)
    page.locator("[data-hand=take]").click()
    # The pieces come with what there is to snap to.
    expect(page.locator("[data-pieces=exact]")).to_be_attached()


def figure(page: Page, name: str) -> Locator:
    return page.locator(f"[data-figure={name}]")


def middle(page: Page) -> Point:
    box = page.locator("svg.plan").bounding_box()
    assert box is not None
    return box["x"] + box["width"] * 0.45, box["y"] + box["height"] * 0.6


def drag(page: Page, way: Point) -> None:
    x, y = middle(page)
    page.mouse.move(x, y)
    page.mouse.down()
    for step in range(1, 9):
        page.mouse.move(x + way[0] * step / 8, y + way[1] * step / 8)


def zone(server: Any, number: int = 0) -> dict[str, Any]:
    (path,) = Path(server.folder).glob("*.toml")
    text = path.read_text(encoding="utf-8")
    found: dict[str, Any] = tomllib.loads(text)["zones"][number]
    return found


def test_the_figures_go_with_the_mouse_and_nothing_is_drawn_anew(page: Page, server: Any) -> None:
    in_hand(page)
    expect(figure(page, "cut")).to_have_text("24")
    page.evaluate(COUNT_REDRAWN)
    drag(page, (57.0, -31.0))
    expect(figure(page, "cut")).to_contain_text("was 24")
    assert page.evaluate("window.redrawn") == 0
    expect(page.locator("[data-ghost=shown]")).to_be_attached()
    page.mouse.up()
    expect(page.locator("[data-pieces=exact]")).to_be_attached()
    page.locator("[data-hand=lay]").click()
    expect(page.locator("[data-hand=take]")).to_be_enabled(timeout=SOLVED_MS)
    assert len(zone(server)["at"]) == 2
    assert zone(server)["joint"] == 4  # that of the floor as it was seen
    expect(page.locator(".options [aria-pressed=true]")).to_contain_text("your own position")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".options [aria-pressed=true]")).to_contain_text("full tile at S")
    assert "at" not in zone(server)
    assert zone(server)["joint"] == 3


def test_it_snaps_and_says_to_what_and_is_put_back(page: Page, server: Any) -> None:
    in_hand(page)
    # It is laid with a joint on the square line: a few pixels across it stays there.
    drag(page, (4.0, -24.0))
    expect(page.locator("[data-snapped]")).to_contain_text("a joint on the square line")
    page.mouse.up()
    page.locator("[data-hand=back]").click()
    expect(figure(page, "cut")).to_have_text("24")
    expect(page.locator("[data-hand=way]")).to_have_text("As it is laid.")
    assert "at" not in zone(server)


def scale_of(page: Page) -> float:
    """Pixels to a mm, once the plan is drawn as it is moved."""
    page.evaluate("new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)))")
    scale = "new DOMMatrix(getComputedStyle(document.querySelector('svg.plan .floor')).transform).a"
    return float(page.evaluate(scale))


def test_it_goes_with_a_finger_and_two_fingers_move_the_plan(watch: Any) -> None:
    page = watch(viewport={"width": 390, "height": 780}, has_touch=True, is_mobile=True).page()
    in_hand(page)
    x, y = middle(page)
    session = page.context.new_cdp_session(page)

    def touch(kind: str, *points: Point) -> None:
        fingers = [{"x": px, "y": py, "id": number} for number, (px, py) in enumerate(points)]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": fingers})

    touch("touchStart", (x, y))
    for step in range(1, 7):
        touch("touchMove", (x + 5 * step, y - 3 * step))
    expect(page.locator("[data-figures=held]")).to_be_attached()
    touch("touchEnd")
    before = page.locator("[data-hand=way]").inner_text()
    assert before != "As it is laid."
    scale = scale_of(page)
    touch("touchStart", (x - 20, y))
    touch("touchStart", (x - 20, y), (x + 20, y))
    for step in range(1, 5):
        touch("touchMove", (x - 20 - 8 * step, y), (x + 20 + 8 * step, y))
    touch("touchEnd")
    # 40 pixels apart to 104.
    assert scale_of(page) == pytest.approx(scale * 2.6, rel=0.01)
    assert page.locator("[data-hand=way]").inner_text() == before


def test_keys_move_it_by_a_millimetre_and_ten_and_lay_it(page: Page, server: Any) -> None:
    in_hand(page)
    page.locator("svg.plan").focus()
    for key in ("ArrowRight", "ArrowRight", "Shift+ArrowUp"):
        page.keyboard.press(key)
    expect(page.locator("[data-hand=way]")).to_contain_text("2 mm right, 10 mm up")
    page.keyboard.press("Escape")
    expect(page.locator("[data-hand=way]")).to_have_text("As it is laid.")
    page.keyboard.press("Shift+ArrowLeft")
    page.keyboard.press("Enter")
    expect(page.locator("[data-hand=take]")).to_be_enabled(timeout=SOLVED_MS)
    # Laid at (2100, 1807): a joint on the square line, a full tile with half a joint and the gap off the first wall.
    assert zone(server)["at"] == [2090, 1807]


def test_it_is_turned_by_its_grip_and_by_keys(page: Page, server: Any) -> None:
    in_hand(page)
    grip = page.get_by_role("button", name="Turn the pattern")
    box = grip.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for step in range(1, 9):
        page.mouse.move(x - step * 8, y - step * 19)
    page.mouse.up()
    expect(page.locator("[data-hand=way]")).to_contain_text("anticlockwise")
    grip.focus()
    page.keyboard.press("Escape")
    page.locator("[data-hand=back]").click()
    grip.focus()
    page.keyboard.press("Shift+ArrowLeft")
    page.keyboard.press("ArrowLeft")
    expect(page.locator("[data-hand=way]")).to_contain_text("turned by 1.1° anticlockwise")
    page.locator("[data-hand=lay]").click()
    expect(page.locator("[data-hand=take]")).to_be_enabled(timeout=SOLVED_MS)
    assert zone(server)["angle"] == 1.1


def test_of_several_zones_the_one_touched_is_moved(page: Page, server: Any) -> None:
    lay(page, "willow end garden room")
    expect(page.get_by_role("heading", name="field", exact=True)).to_be_visible()
    box = page.locator("svg.plan path.wall").bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] * 0.5, box["y"] + box["height"]
    page.mouse.click(x, y - 12)
    expect(page.get_by_role("heading", name="border S")).to_be_visible()
    expect(page.locator("[data-hand=take]")).not_to_be_attached()
    page.mouse.click(x, y - box["height"] / 2)
    page.locator("[data-hand=take]").click()
    expect(page.locator("[data-pieces=exact]")).to_be_attached()
    drag(page, (40.0, 0.0))
    page.mouse.up()
    page.locator("[data-hand=lay]").click()
    expect(page.locator("[data-hand=take]")).to_be_enabled(timeout=SOLVED_MS)
    assert "at" in zone(server, 1)
    assert "at" not in zone(server, 0)


def test_a_piece_that_is_touched_tells_its_cut(page: Page) -> None:
    lay(page)
    box = page.locator("svg.plan path.wall").bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + 15, box["y"] + box["height"] / 2)
    piece = page.locator("[data-piece]")
    expect(piece).to_contain_text("Cut at W")
    expect(piece).to_contain_text("thin end")


def file_of(server: Any, *, as_laid: bool = False) -> dict[str, Any]:
    """The job file, or the one beside it that its floor was laid by."""
    (path,) = [path for path in Path(server.folder).glob("*.toml") if path.stem.endswith(" as laid") == as_laid]
    return tomllib.loads(path.read_text(encoding="utf-8"))


def open_section(page: Page, title: str) -> Locator:
    section = page.locator("details.section", has=page.get_by_role("heading", name=title, exact=True))
    section.locator("summary").first.click()
    return section


def test_a_pattern_is_picked_by_its_picture_and_undone(page: Page, server: Any) -> None:
    lay(page)
    section = open_section(page, "Pattern")
    section.get_by_role("button", name="Another pattern").click()
    bond = section.get_by_role("button", name="brick bond")
    expect(bond.locator("path")).to_be_visible(timeout=SOLVED_MS)
    bond.click()
    shift = section.get_by_label("Which way courses are shifted")
    expect(shift).to_be_visible()
    shift.select_option("left")
    expect(page.get_by_role("button", name="Undo")).to_be_enabled()
    expect(shift).to_have_value("left")
    expect(page.locator(".of-before")).to_have_count(0, timeout=SOLVED_MS)
    assert (zone(server)["pattern"], zone(server)["shift"]) == ("brick bond", "left")
    for _ in range(2):
        page.get_by_role("button", name="Undo").click()
    expect(section.locator("summary")).to_contain_text("grid")
    assert zone(server)["pattern"] == "grid"


def test_an_aim_moved_up_by_its_key_is_written_first(page: Page, server: Any) -> None:
    lay(page)
    section = open_section(page, "Aims")
    aim = section.get_by_label("fewest cuts; arrow keys move it")
    aim.focus()
    page.keyboard.press("ArrowUp")
    expect(section).to_contain_text("Your own.")
    names = [one["aim"] for one in file_of(server)["aims"]["order"]]
    assert names.index("fewest cuts") < names.index("lined up")
    expect(page.locator(".of-before")).to_have_count(0, timeout=SOLVED_MS)


def walls(page: Page) -> dict[str, float]:
    box = page.locator("svg.plan path.wall").bounding_box()
    assert box is not None
    return {"x": box["x"], "y": box["y"], "width": box["width"], "height": box["height"]}


def test_a_border_is_made_wider_at_its_edge(page: Page, server: Any) -> None:
    lay(page, "willow end garden room")
    box = walls(page)
    page.mouse.click(box["x"] + box["width"] * 0.4, box["y"] + box["height"] - 12)
    grip = page.get_by_role("button", name="Width of the border at S").bounding_box()
    assert grip is not None
    x, y = grip["x"] + grip["width"] / 2, grip["y"] + grip["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y - 6)
    page.mouse.move(x, y - 12)
    said = page.locator(".snapped").inner_text()
    page.mouse.up()
    expect(page.get_by_role("button", name="Undo")).to_be_enabled()
    border = zone(server)
    # What was seen is written: 265 and what 12 pixels are, in whole millimetres.
    assert said == f"border {border['width']} mm wide"
    assert border["width"] == pytest.approx(265 + 12 * 5600 / box["width"], abs=6)
    assert "width_least" not in border


def test_what_is_laid_is_marked_by_touching_it(page: Page, server: Any) -> None:
    lay(page)
    section = open_section(page, "Laid already")
    section.get_by_label("Mark").select_option("pieces that are touched")
    box = walls(page)
    for along in (0.32, 0.43, 0.43):  # the last touch takes the second back
        page.mouse.click(box["x"] + box["width"] * along, box["y"] + box["height"] * 0.94)
    expect(page.locator("[data-marking]")).to_contain_text("1 so far")
    page.get_by_role("button", name="They are laid").click()
    expect(section.locator("summary")).to_contain_text("1 piece")
    found = file_of(server)["laid"]
    assert found["from"].endswith(" as laid.toml")
    assert found["pieces"] == ["floor:-2,-4,0"]
    assert "laid" not in file_of(server, as_laid=True)


def test_everything_on_one_side_of_a_line_is_laid(page: Page, server: Any) -> None:
    lay(page)
    section = open_section(page, "Laid already")
    section.get_by_label("Mark").select_option("first line")
    box = walls(page)
    page.mouse.click(box["x"] + box["width"] * 0.4, box["y"] + box["height"] * 0.8)
    expect(section.locator("summary")).to_contain_text("right of first line")
    laid = file_of(server)["laid"]
    assert (laid["line"], laid["side"]) == ("first line", "right")
