"""What a job file can say and a form on the screen says too: aims, turns, joints, rings, scored slabs, rooms, edges."""

import tomllib
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page, expect

AXE = Path(__file__).parents[3] / "tools" / "client" / "node_modules" / "axe-core" / "axe.min.js"
SOLVED_MS = 90_000
"""A machine with much else to do takes long to work a floor out."""


def opened(page: Page, example: str, stage: str) -> None:
    page.get_by_role("button", name=example).click()
    page.get_by_role("button", name=stage, exact=True).click()


def file_of(server: Any) -> dict[str, Any]:
    (path,) = Path(server.folder).glob("*.toml")
    return tomllib.loads(path.read_text(encoding="utf-8"))


def section(page: Page, title: str) -> Locator:
    """Opens a part of the panel by its heading."""
    found = page.locator("details.section", has=page.get_by_role("heading", name=title, exact=True))
    expect(found).to_be_visible(timeout=SOLVED_MS)
    if found.get_attribute("open") is None:
        found.locator("summary").first.click()
    return found


def fill(where: Locator, label: str, text: str) -> None:
    field = where.get_by_label(label)
    field.fill(text)
    field.press("Enter")


def said(page: Page, text: str) -> None:
    expect(page.locator(".said")).to_have_text(text)


def test_an_aim_is_held_to_a_limit_and_to_walls(page: Page, server: Any) -> None:
    opened(page, "Plot 7 bath", "Lay")
    aims = section(page, "Aims")
    aims.get_by_label("One more aim").select_option("balanced cuts")
    row = aims.locator("li", has_text="balanced cuts")
    expect(row).to_be_visible()
    row.get_by_text("Held to").click()
    fill(row, "As good as the best within", "1/8in")
    expect(row).to_contain_text("within 1/8in")
    kept = file_of(server)["aims"]["order"]
    assert kept[-1] == {"aim": "balanced cuts", "walls": ["near", "far"], "within": "1/8in"}
    aims.get_by_role("button", name="right", exact=True).last.click()
    said(page, "seen by nobody: right")
    assert file_of(server)["aims"]["hidden"] == ["right"]


def test_angles_and_a_range_of_joints_are_written(page: Page, server: Any) -> None:
    opened(page, "Larch row kitchen", "Lay")
    turned = section(page, "Turned")
    fill(turned, "Or try these", "0, 45")
    said(page, "Or try these 0, 45")
    joints = section(page, "Joint and gap")
    fill(joints, "May be closed to", "2")
    said(page, "May be closed to 2")
    zone = file_of(server)["zones"][0]
    assert (zone["angles"], zone["joint_least"]) == ([0, 45], 2)


def test_a_slab_that_is_scored_is_read_and_its_border_changed(page: Page, server: Any) -> None:
    opened(page, "Mill lane patio", "Lay")
    panel = page.locator(".panel")
    expect(panel).to_contain_text("254.5 ft", timeout=SOLVED_MS)
    # Seventeen lines, seven of them in two where the circle stops them, and the circle.
    expect(page.locator("svg.plan .score")).to_have_count(25)
    page.get_by_role("button", name='take squares of 12"').click()
    said(page, 'squares of 12"')
    scoring = file_of(server)["scoring"]
    assert (scoring["length"], scoring["border_ends"], scoring["border_sides"]) == (12, 12, 12)
    page.get_by_role("button", name="Undo").click()
    page.get_by_role("button", name="Cut and order").click()
    expect(panel).to_contain_text("Before any cut find out what is in it", timeout=SOLVED_MS)
    page.locator(".tick", has_text="R9").click()
    expect(panel).to_contain_text("1 of 17 lines cut")


def test_rings_are_read_and_one_more_is_added(page: Page, server: Any) -> None:
    opened(page, "Mill yard circle", "Lay")
    plan = page.locator("svg.plan")
    expect(page.locator("[data-figures]")).to_be_visible(timeout=SOLVED_MS)
    box = plan.bounding_box()
    assert box is not None
    # The hub stone stands in the middle of the circle, a little below the middle of the yard.
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] * 0.56)
    expect(page.locator(".panel")).to_contain_text("From the inside out")
    rings = section(page, "Rings")
    rings.get_by_role("button", name="One more ring outside").click()
    said(page, "one more ring")
    expect(rings.locator("fieldset")).to_have_count(3)
    fill(rings.locator("fieldset").last, "So many rings", "2")
    said(page, "So many rings 2")
    circle = next(zone for zone in file_of(server)["zones"] if zone["name"] == "circle")
    assert circle["rings"][-1] == {"times": 2}
    page.get_by_role("button", name="Middle of circle").focus()
    page.keyboard.press("Shift+ArrowRight")
    said(page, "circle moved")
    circle = next(zone for zone in file_of(server)["zones"] if zone["name"] == "circle")
    assert circle["centre"] == [2710, 2600]


def test_an_edge_may_move_and_stays_again(page: Page, server: Any) -> None:
    opened(page, "Plot 7 bath", "Lay")
    edges = section(page, "Edges that may move")
    edges.get_by_label("One more edge").select_option("far")
    fill(edges, "far out by up to", "2")
    said(page, "far out by up to 2")
    assert file_of(server)["free"][0]["out"] == 2
    edges.get_by_role("button", name="It stays: far").click()
    said(page, "far stays")
    assert not file_of(server).get("free")


def test_a_floor_of_two_rooms_may_break_between_them(page: Page, server: Any) -> None:
    opened(page, "Number 12 open plan", "Measure")
    page.get_by_label("From lounge to hall the floor").select_option("breaks")
    expect(page.get_by_label("Width of the strip or door bar")).to_be_visible()
    assert file_of(server)["links"][0]["floor"] == "breaks"


def test_a_round_wall_is_drawn_round(page: Page) -> None:
    opened(page, "Mill yard circle", "Measure")
    wall = page.locator("svg.plan path.wall")
    expect(wall).to_be_visible()
    assert (wall.get_attribute("d") or "").count("L") > 10


def test_no_form_has_a_fault_that_a_checker_of_access_finds(page: Page) -> None:
    found = []
    for example in ("Mill lane patio", "Plot 7 bath", "Mill yard circle"):
        opened(page, example, "Lay")
        expect(page.locator(".big-figures")).to_be_visible(timeout=SOLVED_MS)
        page.evaluate("for (const one of document.querySelectorAll('.panel details')) one.open = true")
        page.evaluate(AXE.read_text(encoding="utf-8"))
        done = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
        found += [
            f"{example}: {one['id']}: {node['html'][:160]} {node['failureSummary'][:300]}"
            for one in done["violations"]
            for node in one["nodes"]
        ]
        page.get_by_role("button", name="All jobs").click()
    assert found == []


def test_a_cut_at_a_wall_opens_to_its_sum(page: Page) -> None:
    opened(page, "Plot 7 bath", "Lay")
    page.get_by_role("button", name='why the cut at left is 7 1/2"').first.click(timeout=SOLVED_MS)
    because = page.locator("tr.because")
    expect(because).to_contain_text('2 × 1/8" expansion gap + 2 × 7 1/2" cut + 7 × 1/4" joint + 6 × 11 3/4" full tile')
    expect(because).to_contain_text("= 7'-3 1/2\"")


def test_planks_are_given_their_lengths(page: Page, server: Any) -> None:
    opened(page, "Larch row kitchen", "Lay")
    pattern = section(page, "Pattern")
    pattern.get_by_role("button", name="Another pattern").click()
    pattern.get_by_role("button", name="planks", exact=True).click(timeout=SOLVED_MS)
    fill(pattern, "Lengths", "600, 900, 1200")
    said(page, "Lengths 600, 900, 1200")
    zone = file_of(server)["zones"][0]
    assert (zone["pattern"], zone["lengths"]) == ("planks", [600, 900, 1200])
