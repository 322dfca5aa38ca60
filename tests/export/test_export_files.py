"""Every format makes its files from the same pack."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from floorwright.draw.sheet import Columns, Pack, Prose, Sheet
from floorwright.draw.view import View
from floorwright.export import files


def test_files_of_a_pack(pack: Pack) -> None:
    made = files.pack_files(pack)
    assert list(made) == [
        "pack.pdf", "floor.dxf", "small-plan.svg", "room-and-tiles.svg", "control-lines.svg", "cut-list.csv",
    ]  # fmt: skip
    assert made["pack.pdf"].startswith(b"%PDF-")
    assert all(content for content in made.values())
    assert made == files.pack_files(pack)


def test_names_are_never_taken_twice(pack: Pack) -> None:
    twice = tuple(sheet for sheet in pack.sheets for _ in range(2))
    doubled = Pack(**{name: getattr(pack, name) for name in pack.__slots__} | {"sheets": twice})
    assert [name for name in files.svg_files(doubled) if name.startswith("small")] == [
        "small-plan.svg",
        "small-plan-2.svg",
    ]
    assert "cut-list-2.csv" in files.csv_files(doubled)


def test_a_pack_without_drawings_has_none(one_sheet: Callable[..., Pack]) -> None:
    assert list(files.pack_files(one_sheet(Prose(lines=("x",))))) == ["pack.pdf"]


def test_only_plans_make_a_picture_file(pack: Pack, room_view: View) -> None:
    strips = Sheet(key="courses", title="Strips.", blocks=(Columns(blocks=(room_view,)),))
    assert files.svg_files(replace(pack, sheets=(strips,))) == {}
    plan = replace(strips, key="snap")
    assert list(files.svg_files(replace(pack, sheets=(plan,)))) == ["room-and-tiles.svg"]


def test_a_registered_format_is_made(pack: Pack, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files, "FORMATS", dict(files.FORMATS))
    files.register("txt", lambda made: {"title.txt": made.job.encode()})
    assert files.pack_files(pack)["title.txt"] == b"Larch Row kitchen"
