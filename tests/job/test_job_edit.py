"""Edits keep the rest of a job file to the letter, and are made again of a file that changed meanwhile."""

import tomllib
from importlib.resources import files
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.job.load import load_text
from floorwright.job.write.edit import Edit, EditClashError, EditError, edited, merged

KITCHEN = (files("floorwright") / "examples" / "larch-row-kitchen.toml").read_text(encoding="utf-8")


def put(*path: str | int, value: Any) -> Edit:
    return Edit(do="put", path=path, value=value)


def test_a_changed_value_changes_one_line() -> None:
    after = edited(KITCHEN, [put("survey", "distances", "SW-NE", value="5.531 m")])
    changed = [(old, new) for old, new in zip(KITCHEN.split("\n"), after.split("\n"), strict=True) if old != new]
    assert changed == [("SW-NE = 5530", 'SW-NE = "5.531 m"')]


def test_an_added_reading_stands_at_the_end_of_its_table() -> None:
    after = edited(KITCHEN, [put("survey", "distances", "SW-P", value=1200)])
    lines = after.split("\n")
    assert lines[lines.index("SW-P = 1200") - 1] == "SE-NW = 5541"
    assert [line for line in lines if line != "SW-P = 1200"] == KITCHEN.split("\n")


def test_comments_stay() -> None:
    text = '# the first\nunits = "mm" # metric\n\n[aims]\n# why half\nleast_piece = "half" # the rule\n'
    after = edited(text, [put("aims", "least_piece", value="third")])
    assert after == text.replace('"half"', '"third"')


def test_tables_are_made_where_they_are_missing() -> None:
    after = edited('title = "hall"\n', [put("survey", "distances", "A-B", value=4200)])
    assert tomllib.loads(after) == {"title": "hall", "survey": {"distances": {"A-B": 4200}}}


def test_added_tables_follow_their_own_kind_with_a_blank_line_between() -> None:
    door = {"name": "back door", "wall": "N", "from": "NE", "offset": 300, "width": 800}
    after = edited(KITCHEN, [Edit(do="add", path=("openings",), value=door)])
    assert 'width = 900\n\n[[openings]]\nname = "back door"' in after
    assert "width = 800\n\n[control]" in after
    assert load_text(after).is_sound


def test_the_first_of_a_kind_is_added_too() -> None:
    pipe = {"name": "pipe", "kind": "pipe", "wall": "S", "from": "SW", "along": 300, "out": 200, "diameter": 60}
    loaded = load_text(edited(KITCHEN, [Edit(do="add", path=("obstacles",), value=pipe)]))
    assert loaded.is_sound
    assert loaded.job is not None
    assert [obstacle.name for obstacle in loaded.job.obstacles] == ["pipe"]


def test_a_table_on_one_line_stays_on_one_line() -> None:
    after = edited(KITCHEN, [put("control", "first_line", value={"by": "points", "from": [0, 0], "to": "NE"})])
    assert 'first_line = {by = "points", from = [0, 0], to = "NE"}' in after
    assert load_text(after).is_sound


def test_what_is_dropped_is_gone() -> None:
    after = edited(KITCHEN, [Edit(do="drop", path=("openings", 0)), Edit(do="drop", path=("zones", 0, "joint_most"))])
    data = tomllib.loads(after)
    assert data.get("openings", []) == []
    assert "joint_most" not in data["zones"][0]


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        (Edit(do="drop", path=("openings", 4)), "there is no openings 5 to take out"),
        (put("openings", 4, "width", value=3), "there is no openings 5"),
        (put("title", "long", value="x"), "title is a value, and holds no long"),
        (Edit(do="add", path=("title",), value="x"), "title is no list to add to"),
        (put("title", value=None), "a value cannot be nothing"),
        (put(value=3), "an edit needs a path"),
    ],
)
def test_an_edit_without_a_place_is_refused(edit: Edit, said: str) -> None:
    with pytest.raises(EditError, match=said):
        edited(KITCHEN, [edit])


def test_a_file_that_is_no_toml_is_refused() -> None:
    with pytest.raises(EditError, match="cannot be read"):
        edited("title = ", [put("title", value="x")])


def test_edits_of_different_values_both_hold() -> None:
    theirs = KITCHEN.replace("SE-NE = 3612", "SE-NE = 3610 # read again").replace("compass = 2000", "compass = 1500")
    both = merged(KITCHEN, theirs, [put("zones", 0, "joint", value=4)])
    assert both == theirs.replace("joint = 3\n", "joint = 4\n")


def test_edits_of_the_same_value_clash() -> None:
    theirs = KITCHEN.replace("joint = 3\n", "joint = 2\n")
    with pytest.raises(EditClashError, match="zones 1, joint was 3 and has become 2 meanwhile"):
        merged(KITCHEN, theirs, [put("zones", 0, "joint", value=4)])


def test_a_place_in_an_array_that_changed_its_length_clashes() -> None:
    theirs = edited(KITCHEN, [Edit(do="drop", path=("openings", 0))])
    with pytest.raises(EditClashError):
        merged(KITCHEN, theirs, [put("openings", 0, "width", value=800)])


names = st.text("ABCDEFG", min_size=1, max_size=2)
readings = st.dictionaries(st.tuples(names, names).map("-".join), st.integers(1, 9999), min_size=1, max_size=6)


@given(readings)
def test_what_is_put_is_what_is_read(found: dict[str, int]) -> None:
    after = edited(KITCHEN, [put("survey", "distances", key, value=value) for key, value in found.items()])
    expected = tomllib.loads(KITCHEN)
    expected["survey"]["distances"] |= found
    assert tomllib.loads(after) == expected
