"""Patterns through the job file: what a zone may ask of each, and what it is told."""

import pytest
from tests.pattern.samples import SAMPLES, Sample

from floorwright.findings import Finding, Severity
from floorwright.job.load import Loaded, load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.layout.kinds import counts_by_kind
from floorwright.pattern.catalogue import PATTERNS
from floorwright.sheets.pack import pack

ROOM = """\
schema = 1
title = "Utility room"
date = 2026-03-02
units = "mm"

[survey]
outline = ["SW", "SE", "NE", "NW"]
direction = "anticlockwise"

[survey.walls]
S = "SW-SE"
E = "SE-NE"
N = "NE-NW"
W = "NW-SW"

[survey.distances]
SW-SE = 2405
SE-NE = 1808
NE-NW = 2399
NW-SW = 1811
SW-NE = 3005
SE-NW = 3009

[[openings]]
name = "door"
wall = "S"
from = "SW"
offset = 300
width = 762

[control]
first_line = { by = "parallel", wall = "S" }
centre = { by = "mid-point", wall = "S" }

[aims]
least_piece = "fifth"
"""


def job(sample: Sample, extra: str = "", joint: float = 3.0) -> str:
    """The text of a job with a sample's pattern."""
    main, *others = PATTERNS[sample.pattern].kinds
    text = ROOM
    for kind in (main, *others):
        length, width = sample.sizes[kind.name]
        text += f'\n[[goods]]\nname = "{kind.name or "tile"} {length:g}"\nlength = {length}\nwidth = {width}\n'
    text += f'\n[[zones]]\npattern = "{sample.pattern}"\njoint = {joint}\ngap = 5\n'
    text += f'goods = "{main.name or "tile"} {sample.sizes[main.name][0]:g}"\n'
    if others:
        named = ", ".join(f'{kind.name} = "{kind.name} {sample.sizes[kind.name][0]:g}"' for kind in others)
        text += f"sizes = {{ {named} }}\n"
    for key, value in sample.values.items():
        text += f"{key} = {list(value)}\n" if isinstance(value, tuple) else f"{key} = {_written(value)}\n"
    return text + extra


def _written(value: object) -> str:
    return str(value) if isinstance(value, int | float) else f'"{value}"'


def laid(text: str) -> Solution:
    loaded = load_text(text)
    assert loaded.job is not None
    return solve(loaded.job, findings=loaded.findings)


def first(name: str) -> Sample:
    return next(sample for sample in SAMPLES if sample.pattern == name)


def stand(name: str) -> str:
    return 'stand = "square to wall"\n' if PATTERNS[name].stands else ""


@pytest.mark.parametrize("sample", SAMPLES, ids=str)
def test_every_pattern_lays_out_a_crooked_room(sample: Sample) -> None:
    loaded = load_text(job(sample, stand(sample.pattern)))
    assert loaded.job is not None
    assert [one for one in loaded.findings if one.severity is not Severity.NOTE] == []
    solution = solve(loaded.job, findings=loaded.findings)
    (layout,) = solution.layouts
    assert not any(one.severity is Severity.ERROR for one in solution.findings)
    assert layout.cell.name.startswith(sample.pattern.split(",")[0].removesuffix("s"))
    assert layout.chosen.full > 0
    assert layout.proofs
    assert any(sheet.key == "client" for sheet in pack(solution).sheets)


class TestADirection:
    def test_nobody_signs_a_herringbone_that_may_stand_either_way(self) -> None:
        solution = laid(job(first("herringbone")))
        assert [one.code for one in solution.findings if one.severity is Severity.ERROR] == ["pattern-stand"]
        keys = [sheet.key for sheet in pack(solution).sheets]
        assert "layout" in keys
        assert "client" not in keys

    @pytest.mark.parametrize(("word", "said"), [("square", "straight to wall S"), ("diagonal", "diagonal to wall S")])
    def test_once_it_is_said_the_client_reads_it(self, word: str, said: str) -> None:
        solution = laid(job(first("herringbone"), f'stand = "{word} to wall"\n'))
        (client,) = [sheet for sheet in pack(solution).sheets if sheet.key == "client"]
        assert said in repr(client)

    def test_the_leading_corners_are_lines_to_snap(self) -> None:
        solution = laid(job(first("herringbone"), 'stand = "diagonal to wall"\n'))
        assert solution.snap is not None
        families = {line.family for line in solution.snap.lines}
        assert not any(line.joint for line in solution.snap.lines if line.family in ("axes", "left corners"))
        (sheet,) = [sheet for sheet in pack(solution).sheets if sheet.key == "snap"]
        assert "joints, from" not in sheet.title
        assert "are no joints" in repr(sheet)
        assert {"axes", "left corners", "right corners"} <= families


def problem(loaded: Loaded, code: str) -> Finding:
    (one,) = [finding for finding in loaded.findings if finding.code == code]
    return one


class TestKindWords:
    def test_a_parameter_of_another_pattern_is_questioned(self) -> None:
        told = problem(load_text(job(first("grid"), "mitre = 45\n")), "job-unused")
        assert told.severity is Severity.WARNING
        assert "`mitre` with `grid`" in told.found

    def test_a_figure_out_of_range_is_an_error(self) -> None:
        told = problem(load_text(job(first("basketweave"), "abreast = 40\n")), "job-range")
        assert told.found == "40"
        assert told.expected.startswith("2 to 12")

    def test_a_missing_size_is_asked_for(self) -> None:
        text = "\n".join(line for line in job(first("octagon and dot")).splitlines() if not line.startswith("sizes"))
        told = problem(load_text(text), "job-missing-key")
        assert told.remedy == 'write sizes = { dot = "..." }'

    def test_a_size_that_the_pattern_has_not_is_an_error(self) -> None:
        text = job(first("octagon and dot")).replace("dot = ", "dott = ", 1)
        assert "a size called `dott`" in problem(load_text(text), "job-choice").found

    def test_goods_that_there_are_not_are_an_error(self) -> None:
        text = job(first("octagon and dot")).replace('dot = "dot 81', 'dot = "dot 91', 1)
        assert problem(load_text(text), "job-unknown-goods").severity is Severity.ERROR

    def test_a_pattern_that_cannot_be_made_is_not_laid(self) -> None:
        solution = laid(job(first("planks"), "stagger = 900\n"))
        assert solution.layouts == ()
        assert [one.code for one in solution.findings if one.severity is Severity.ERROR] == ["pattern-impossible"]

    def test_the_job_writes_and_reads_its_parameters(self) -> None:
        from floorwright.job.write.text import job_text

        for sample in SAMPLES:
            loaded = load_text(job(sample, stand(sample.pattern)))
            assert loaded.job is not None
            again = load_text(job_text(loaded.job))
            assert again.job == loaded.job


def test_the_same_seed_lays_the_same_floor_and_another_does_not() -> None:
    one, same, other = (laid(job(first("planks"), f"seed = {seed}\n")).layouts[0] for seed in (5, 5, 6))
    assert [piece.rings[0].tolist() for piece in one.pieces] == [piece.rings[0].tolist() for piece in same.pieces]
    assert [piece.rings[0].tolist() for piece in one.pieces] != [piece.rings[0].tolist() for piece in other.pieces]


def test_kinds_are_counted_and_cut_apart() -> None:
    solution = laid(job(first("octagon and dot")))
    layout, cuts = solution.layouts[0], solution.cuts[0]
    counts = {one.kind: (one.full, one.cut) for one in counts_by_kind(layout)}
    assert set(counts) == {"octagon", "dot"}
    assert sum(full for full, _ in counts.values()) == layout.chosen.full
    assert sum(cut for _, cut in counts.values()) == layout.chosen.cut == len(cuts.pieces)
    kinds = {piece.id: piece.cut_from for piece in cuts.pieces}
    by_label = {piece.label: piece for piece in cuts.pieces}
    for piece in layout.pieces:
        if not piece.full:
            assert kinds[piece.id] == layout.cell.kind(piece.index[2])
    assert all(piece.cut_from == by_label[piece.same_as].cut_from for piece in cuts.pieces)


def test_every_size_is_ordered_apart() -> None:
    solution = laid(job(first("octagon and dot")))
    counts = {one.kind: (one.full, one.cut) for one in counts_by_kind(solution.layouts[0])}
    ordered = {order.goods: (order.full, order.cut) for order in solution.orders}
    assert ordered == {"octagon 200": counts["octagon"], "dot 81.0854": counts["dot"]}
    area = sum(piece.area for piece in solution.layouts[0].pieces)
    assert sum(order.laid_area for order in solution.orders) == pytest.approx(area)


def test_left_and_right_hand_pieces_of_one_goods_are_told_apart_in_its_order() -> None:
    text = job(first("chevron"), 'stand = "square to wall"\n')
    kept = [line for line in text.splitlines() if not line.startswith("sizes")]
    solution = laid("\n".join(kept))
    (order,) = solution.orders
    counts = {one.kind: one.full + one.cut for one in counts_by_kind(solution.layouts[0])}
    assert order.tiles == sum(counts.values())
    told = {line.what.removeprefix("of these "): line.quantity for line in order.lines if line.code == "kind"}
    assert told == counts
