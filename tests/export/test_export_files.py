"""Every format makes its files from the same pack."""

from collections.abc import Callable

import pytest

from floorwright.draw.sheet import Pack, Prose
from floorwright.export import files


def test_files_of_a_pack(pack: Pack) -> None:
    made = files.pack_files(pack)
    assert list(made) == [
        "pack.pdf", "floor.dxf", "small-plan.svg", "room-and-tiles.svg", "control-lines.svg", "first.csv", "cuts.csv",
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
    assert "cuts-2.csv" in files.csv_files(doubled)


def test_a_pack_without_drawings_has_none(one_sheet: Callable[..., Pack]) -> None:
    assert list(files.pack_files(one_sheet(Prose(lines=("x",))))) == ["pack.pdf"]


def test_a_registered_format_is_made(pack: Pack, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files, "FORMATS", dict(files.FORMATS))
    files.register("txt", lambda made: {"title.txt": made.job.encode()})
    assert files.pack_files(pack)["title.txt"] == b"Larch Row kitchen"
