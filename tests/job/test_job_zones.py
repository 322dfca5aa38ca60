"""Borders and insets through the job file: what is laid, what is refused, and what is said of it."""

from pathlib import Path

import pytest

import floorwright
from floorwright.job.load import load_text
from floorwright.job.solution import Solution

EXAMPLES = Path(floorwright.__file__).parent / "examples"
GARDEN = (EXAMPLES / "willow-end-garden-room.toml").read_text(encoding="utf-8")
KITCHEN = (EXAMPLES / "larch-row-kitchen.toml").read_text(encoding="utf-8")
RUG = '[[zones]]\nname = "rug"\nkind = "inset"\ngoods = "Slate strip 450"\njoint = 4\nlength = 1800\nwidth = 1200\n'
BORDER = '[[zones]]\nname = "border"\nkind = "border"\ngoods = "Porcelain 450 nominal"\njoint = 3\nwidth = 300\n'


def solved(text: str) -> Solution:
    loaded = load_text(text, "job.toml")
    assert loaded.job is not None, loaded.findings
    return floorwright.solve(loaded.job, findings=loaded.findings)


def with_zone(text: str, zone: str) -> str:
    return text.replace("[aims]", f"{zone}\n[aims]")


def errors(solution: Solution) -> list[str]:
    return [finding.code for finding in solution.findings if finding.severity == "error"]


def test_a_rug_is_cut_out_of_the_field_with_the_wider_joint_around_it() -> None:
    solution = solved(with_zone(GARDEN, RUG))
    assert errors(solution) == []
    field, rug = (next(one for one in solution.layouts if one.zone == name) for name in ("field", "rug"))
    assert len(field.region.rings) == 2
    hole = field.region.rings[1]
    assert sorted(hole.max(axis=0) - hole.min(axis=0)) == pytest.approx([1200 + 2 * 4, 1800 + 2 * 4])
    assert set(field.region.edges[1]) == {f"rug, {side} side" for side in ("near", "right", "far", "left")}
    assert rug.chosen.walls[0].wall == "near side"
    slate = next(order for order in solution.orders if order.goods == "Slate strip 450")
    border = [one for one in solution.layouts if one.is_border]
    assert slate.tiles == sum(one.chosen.full + one.chosen.cut for one in (*border, rug))


def test_a_rug_turned_to_a_door_lies_along_it() -> None:
    solution = solved(with_zone(GARDEN, RUG + 'centre = [2900, 1500]\nfacing = "French doors"\n'))
    rug = next(one for one in solution.layouts if one.zone == "rug")
    assert rug.region.rings[0].mean(axis=0) == pytest.approx([2900, 1500], abs=0.5)


@pytest.mark.parametrize("extra", ["centre = [100, 100]", "centre = [5500, 4300]"])
def test_a_rug_off_the_floor_is_an_error(extra: str) -> None:
    solution = solved(with_zone(GARDEN, f"{RUG}{extra}\n"))
    assert errors(solution) == ["layout-zone-misfit"]
    assert solution.layouts == ()


def test_rugs_that_overlap_are_an_error() -> None:
    other = RUG.replace('"rug"', '"mat"') + "centre = [3000, 2200]\n"
    assert errors(solved(with_zone(with_zone(GARDEN, RUG), other))) == ["layout-zone-misfit"]


def test_a_border_wider_than_the_room_is_an_error() -> None:
    wide = with_zone(KITCHEN, BORDER.replace("width = 300", "rows = 6"))
    solution = solved(wide)
    assert errors(solution) == ["layout-zone-misfit"]
    assert solution.control is not None


def test_a_border_takes_the_taper_of_a_crooked_room_and_says_so() -> None:
    solution = solved(with_zone(KITCHEN, BORDER))
    tapers = [finding for finding in solution.findings if finding.code == "layout-border-taper"]
    assert any("wall N: 276 to 300" in finding.found for finding in tapers)
    field = solved(with_zone(KITCHEN, BORDER + 'taper = "field"\n'))
    assert not [finding for finding in field.findings if finding.code == "layout-border-taper"]


def test_a_bond_has_nothing_to_finish_on_so_that_widths_are_tried() -> None:
    text = GARDEN.replace('pattern = "grid"\nangle = 45', 'pattern = "brick bond"')
    solution = solved(text)
    (told,) = [finding for finding in solution.findings if finding.code == "layout-border-by-steps"]
    strip = next(one.part.strip for one in solution.layouts if one.part and one.part.strip)
    # 150 to 340 in halves of a millimetre, no more than twelve of them: 17.5 apart.
    assert strip.fat == pytest.approx(150 + 4 * 17.5)
    assert "best found of 11 widths, 17.5 mm apart" in told.found

    def worst(of: Solution) -> float:
        return next(layout.chosen.worst for layout in of.layouts if layout.zone == "field")

    # Laid by themselves, its neighbours leave the field no wider a worst piece.
    for width in (202.5, 237.5):
        given = text.replace("width_least = 150\nwidth_most = 340\n", f"width = {width}\n")
        assert given != text
        assert worst(solved(given)) <= worst(solution) + 0.01
