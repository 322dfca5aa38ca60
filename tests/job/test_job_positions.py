"""Lines of keys: in every kind of table that TOML has, and in any document that can be made up."""

import tomllib
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from floorwright.job.read.positions import Path, positions

EVERY_KIND = """\
top = 1
"a key" = 2
'lit"eral' = 3
a.b.c = 4
a.b."d.e" = 5

[table]          # a remark with = and [brackets]
x = "text # no remark"
y = '''
two lines
'''
z = [
    1,  # one
    [2, 3],
    { in = 4, out.er = 5 },
]

[table.inner]
t = 2026-03-02 10:00:00
[[rows]]
n = 1
[[rows]]
n = 2
[rows.sub]
s = { p = [1,
 2] }
[[rows.deep]]
d = \"\"\"a \\\\ \\" b\"\"\"
[[rows.deep]]
d = 2
"""


def test_every_kind_of_key() -> None:
    assert tomllib.loads(EVERY_KIND)
    expected: dict[Path, int] = {
        ("top",): 1,
        ("a key",): 2,
        ('lit"eral',): 3,
        ("a", "b", "c"): 4,
        ("a", "b", "d.e"): 5,
        ("table",): 7,
        ("table", "x"): 8,
        ("table", "y"): 9,
        ("table", "z"): 12,
        ("table", "z", 0): 13,
        ("table", "z", 1): 14,
        ("table", "z", 1, 1): 14,
        ("table", "z", 2, "in"): 15,
        ("table", "z", 2, "out", "er"): 15,
        ("table", "inner", "t"): 19,
        ("rows", 0): 20,
        ("rows", 0, "n"): 21,
        ("rows", 1): 22,
        ("rows", 1, "n"): 23,
        ("rows", 1, "sub", "s", "p"): 25,
        ("rows", 1, "sub", "s", "p", 1): 26,
        ("rows", 1, "deep", 0, "d"): 28,
        ("rows", 1, "deep", 1): 29,
        ("rows", 1, "deep", 1, "d"): 30,
    }
    found = positions(EVERY_KIND)
    assert {path: found.lines.get(path) for path in expected} == expected
    assert found.repeats == []


def test_the_nearest_that_is_there_stands_for_what_is_not() -> None:
    found = positions("[table]\nx = 1\n")
    assert found.line(("table", "y")) == 1
    assert found.line(("other",)) is None


def test_repeats_say_where_both_stand() -> None:
    found = positions("[t]\nx = 1\n[u]\n[t]\nx = 2\n")
    assert found.repeats[0] == (("t",), 1, 4)


KEYS = st.sampled_from(["a", "b-1", "C_2", '"sp ace"', "'li.t'", '"u\\u00e9"'])
SCALARS = st.sampled_from(
    ["1", "-2.5", "1e3", "true", '"x"', '"#[]{}="', "'''l\n'''", '"""q\\"\n"""', "''", "2026-03-02", "[]", "{}"]
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda values: "[" + ",\n ".join(values) + ",]" if values else "[ ]"),
        st.dictionaries(KEYS, inner.filter(lambda value: "\n" not in value), max_size=2).map(
            lambda table: "{" + ", ".join(f"{key} = {value}" for key, value in table.items()) + "}"
        ),
    ),
    max_leaves=6,
)


@st.composite
def documents(draw: st.DrawFn) -> str:
    lines: list[str] = []
    for _ in range(draw(st.integers(0, 8))):
        kind = draw(st.sampled_from(["pair", "table", "rows", "remark", "blank"]))
        key = ".".join(draw(st.lists(KEYS, min_size=1, max_size=3)))
        lines.append(
            {
                "pair": f"{key} = {draw(VALUES)}  # remark",
                "table": f"[{key}]",
                "rows": f"[[ {key} ]]",
                "remark": '# "x = [',
                "blank": "",
            }[kind]
        )
    return "\n".join(lines)


def paths(value: Any, path: Path = ()) -> list[Path]:
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path, *(inner for key, item in items for inner in paths(item, (*path, key)))]


@given(documents())
def test_every_path_that_toml_reads_has_a_line(document: str) -> None:
    try:
        data = tomllib.loads(document)
    except tomllib.TOMLDecodeError:
        positions(document)
        return
    found = positions(document)
    assert found.repeats == []
    lines = document.split("\n")
    for path in paths(data)[1:]:
        line = found.lines[path]
        assert 1 <= line <= len(lines)
        if isinstance(path[-1], str):
            plain = tomllib.loads(f'k = "{path[-1]}"')["k"]
            assert plain in lines[line - 1].replace("\\u00e9", "é")


@given(st.text(st.sampled_from("ab.=[]{}\"'#\n\\, 1"), max_size=60))
def test_no_text_keeps_it_from_coming_to_an_end(text: str) -> None:
    positions(text)
