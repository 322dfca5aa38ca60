"""A person's own files are never replaced."""

from pathlib import Path

import pytest

from floorwright.export import folder


def test_writes_new_files_and_replaces_its_own(tmp_path: Path) -> None:
    target = tmp_path / "deep" / "pack"
    first = folder.write_files(target, {"a.txt": b"one", "b.txt": b"two"})
    assert [path.name for path in first.written] == ["a.txt", "b.txt"]
    second = folder.write_files(target, {"a.txt": b"changed"})
    assert second.kept == ()
    assert (target / "a.txt").read_bytes() == b"changed"
    assert (target / "b.txt").read_bytes() == b"two"


def test_an_edited_file_stays_and_is_named(tmp_path: Path) -> None:
    folder.write_files(tmp_path, {"a.txt": b"one"})
    (tmp_path / "a.txt").write_bytes(b"one, with my notes")
    result = folder.write_files(tmp_path, {"a.txt": b"two"})
    assert result.written == ()
    assert [path.name for path in result.kept] == ["a.txt"]
    assert (tmp_path / "a.txt").read_bytes() == b"one, with my notes"


def test_somebody_elses_file_stays_even_without_a_list(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_bytes(b"mine")
    assert folder.write_files(tmp_path, {"a.txt": b"ours"}).kept == (tmp_path / "a.txt",)
    (tmp_path / "b.txt").mkdir()
    assert folder.write_files(tmp_path, {"b.txt": b"ours"}).kept == (tmp_path / "b.txt",)


@pytest.mark.parametrize("damage", [b"", b"[]", b"\xff\xfe", b"{"])
def test_a_damaged_list_trusts_nothing(tmp_path: Path, damage: bytes) -> None:
    folder.write_files(tmp_path, {"a.txt": b"one"})
    (tmp_path / folder.LIST_NAME).write_bytes(damage)
    assert folder.write_files(tmp_path, {"a.txt": b"two"}).kept == (tmp_path / "a.txt",)


def test_a_failed_write_leaves_nothing_half_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder.write_files(tmp_path, {"a.txt": b"one"})

    def full_disk(self: Path, target: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full_disk)
    with pytest.raises(OSError, match="No space"):
        folder.write_files(tmp_path, {"a.txt": b"two"})
    monkeypatch.undo()
    assert (tmp_path / "a.txt").read_bytes() == b"one"
    assert sorted(path.name for path in tmp_path.iterdir()) == [folder.LIST_NAME, "a.txt"]
