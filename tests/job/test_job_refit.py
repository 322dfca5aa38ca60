"""A floor partly laid: what is laid stays, and only what a moved wall touches is cut anew."""

import json
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorwright.cuts.refit import ACCEPT, BROKEN, CUTS, LIFT, MISFIT, NOTHING, OPEN, Refit
from floorwright.export.data_floor import layout_data
from floorwright.findings import Severity
from floorwright.job.load import load
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.layout.piece import Piece
from floorwright.sheets.pack import pack

JOB = """\
units = "mm"
revision = "{revision}"

[survey]
outline = ["SW", "SE", "NE", "NW"]

[survey.points]
SW = [0, 0]
SE = [{width}, 0]
NE = [{width}, {east}]
NW = [0, {west}]

[survey.walls]
S = "SW-SE"
E = "SE-NE"
N = "NE-NW"
W = "NW-SW"

[control]
first_line = {{ by = "parallel", wall = "S" }}
centre = {{ by = "point", x = 1500, y = 1200 }}

[[goods]]
name = "tile"
length = 300
width = 300

[[zones]]
goods = "tile"
joint = 3
gap = {gap}
{zone}
"""

LAID = """
[laid]
from = "a.toml"
line = [[0, 1200], [3000, 1200]]
side = "right"
"""


def job(
    *,
    width: float = 3000,
    east: float = 2400,
    west: float | None = None,
    revision: str = "A",
    zone: str = "",
    gap: float = 5,
) -> str:
    west = east if west is None else west
    return JOB.format(width=width, east=east, west=west, revision=revision, zone=zone, gap=gap)


def solved(folder: Path, before: str, now: str) -> tuple[Solution, Solution, Refit]:
    """The earlier job and the one that is laid on from it."""
    (folder / "a.toml").write_text(before)
    (folder / "b.toml").write_text(now)
    first, then = load(folder / "a.toml"), load(folder / "b.toml")
    assert first.job is not None
    assert then.job is not None
    earlier = solve(first.job, findings=first.findings)
    solution = solve(then.job, findings=then.findings, earlier=then.earlier)
    assert solution.refit is not None, [f for f in solution.findings if f.severity is Severity.ERROR]
    return earlier, solution, solution.refit


def by_id(solution: Solution) -> dict[str, Piece]:
    return {piece.id: piece for layout in solution.layouts for piece in layout.pieces}


def same(one: Piece, other: Piece) -> bool:
    return all(a.shape == b.shape and np.allclose(a, b, atol=1e-6) for a, b in zip(one.rings, other.rings, strict=True))


def test_no_change_is_nothing_to_do(tmp_path: Path) -> None:
    earlier, solution, refit = solved(tmp_path, job(), job(revision="B") + LAID)
    assert refit.verdict == NOTHING
    assert refit.changes == ()
    assert refit.misfits == ()
    assert refit.since == "revision A"
    was, now = by_id(earlier), by_id(solution)
    assert was.keys() == now.keys()
    assert all(same(was[name], now[name]) for name in was)
    assert solution.layouts[0].chosen.full == earlier.layouts[0].chosen.full


def test_a_wall_moved_changes_only_the_cuts_along_it(tmp_path: Path) -> None:
    earlier, _, refit = solved(tmp_path, job(), job(revision="B", east=2388) + LAID)
    assert refit.verdict == CUTS
    along = {piece.id for piece in earlier.layouts[0].pieces if "N" in piece.edges[0]}
    assert {change.piece for change in refit.changes} == along
    was = {cut.id: cut for cut in earlier.cuts[0].pieces}
    for change in refit.changes:
        assert change.what == "cut anew"
        assert change.short == 0
        if was[change.piece].kind == "straight":
            assert change.before is not None
            assert change.after is not None
            assert change.before[0] - change.after[0] == pytest.approx(12, abs=1e-6)


def test_pieces_cut_already_are_told_to_be_too_short(tmp_path: Path) -> None:
    _, _, refit = solved(tmp_path, job(), job(revision="B", east=2411) + LAID)
    assert refit.verdict == CUTS
    assert refit.changes
    assert all(change.short == pytest.approx(11, abs=1e-6) for change in refit.changes)


def test_a_limit_broken_comes_with_choices_and_their_costs(tmp_path: Path) -> None:
    # The cut at N was 197.5 wide; 170 less leave it 27.5, under half a tile.
    wide = "joint_most = 60"
    shorter = job(revision="B", east=2230, zone=wide) + LAID
    earlier, solution, refit = solved(tmp_path, job(zone=wide), shorter)
    before = min(cut.thin for cut in earlier.layouts[0].chosen.walls if cut.wall == "N")
    now = min(cut.thin for cut in solution.layouts[0].chosen.walls if cut.wall == "N")
    assert now == pytest.approx(before - 170)
    assert refit.verdict == BROKEN
    choices = {choice.what: choice for choice in refit.choices}
    assert {ACCEPT, LIFT, OPEN} <= choices.keys()
    assert choices[LIFT].pieces == len(refit.laid)
    opened = choices[OPEN]
    # The rows still to lay, each with its joint wider, take up the cut and the joint before it.
    assert opened.by * opened.rows == pytest.approx(now + 3)
    assert opened.allowed
    told = next(finding for finding in solution.findings if finding.code == "layout-refit")
    assert told.severity is Severity.WARNING
    assert "accept it" in told.remedy
    assert "lift the" in told.remedy


def test_no_joint_is_offered_that_is_over_twice_as_wide(tmp_path: Path) -> None:
    # The same 27.5 to take up, and nobody has allowed joints so wide.
    _, _, refit = solved(tmp_path, job(), job(revision="B", east=2230) + LAID)
    assert refit.verdict == BROKEN
    assert all(choice.joint <= 6.0 for choice in refit.choices if choice.what == OPEN)
    assert {choice.what for choice in refit.choices} >= {ACCEPT, LIFT}


def test_a_laid_piece_over_the_wall_is_an_error_with_its_name(tmp_path: Path) -> None:
    _, solution, refit = solved(tmp_path, job(), job(revision="B", width=2988) + LAID)
    assert refit.verdict == MISFIT
    over = [misfit for misfit in refit.misfits if misfit.over > 0]
    assert {misfit.wall for misfit in over} == {"E"}
    # Sawn 5 short of a wall that now stands 12 nearer.
    assert all(misfit.over == pytest.approx(7, abs=1e-6) for misfit in over)
    errors = [finding for finding in solution.findings if finding.code == "layout-laid-over-wall"]
    (error,) = errors
    assert error.place == "wall E"
    assert error.found.startswith(f"{len(over)} laid pieces stand over E by 7 mm: ")
    assert all(misfit.piece in error.found for misfit in over)


def test_a_gap_that_is_too_wide_or_too_narrow_at_laid_pieces_is_told(tmp_path: Path) -> None:
    _, solution, refit = solved(tmp_path, job(), job(revision="B", width=2997) + LAID)
    assert {round(misfit.gap, 6) for misfit in refit.misfits} == {2.0}
    _, solution, refit = solved(tmp_path, job(), job(revision="B", width=3004) + LAID)
    assert {round(misfit.gap, 6) for misfit in refit.misfits} == {9.0}
    assert any(finding.code == "layout-laid-gap" for finding in solution.findings)


def test_pieces_may_be_named_and_the_joint_is_the_one_laid(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text(job())
    first = load(tmp_path / "a.toml").job
    assert first is not None
    names = [piece.id for piece in solve(first).layouts[0].pieces][:5]
    listed = ", ".join(f'"{name}"' for name in names)
    now = job(revision="B", east=2388).replace("joint = 3", "joint = 4")
    _, solution, refit = solved(tmp_path, job(), now + f'\n[laid]\nfrom = "a.toml"\npieces = [{listed}]\n')
    assert sorted(refit.laid) == sorted(names)
    assert solution.layouts[0].cell.joint == 3


def test_the_first_wall_may_be_the_one_that_moved(tmp_path: Path) -> None:
    # S was read 12 too near: from its corners all else seems 12 farther. Held at N, only S moves.
    laid = LAID.replace('side = "right"', 'side = "left"') + 'hold = ["NW", "NE"]\n'
    earlier, solution, refit = solved(tmp_path, job(), job(revision="B", east=2412) + laid)
    assert refit.verdict == CUTS
    assert {wall for change in refit.changes for wall in change.walls if len(change.walls) == 1} == {"S"}
    was, now = by_id(earlier), by_id(solution)
    for name in refit.laid:
        assert np.allclose(now[name].rings[0], was[name].rings[0] + (0, 12), atol=1e-6)


@settings(max_examples=10)
@given(st.floats(-14, 14), st.floats(-14, 14))
def test_laid_pieces_never_move_and_only_what_touches_the_wall_changes(east: float, west: float) -> None:
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        now = job(revision="B", east=round(2400 + east, 3), west=round(2400 + west, 3)) + LAID
        earlier, solution, refit = solved(Path(folder), job(), now)
    was, is_now = by_id(earlier), by_id(solution)
    assert refit.laid
    assert all(same(was[name], is_now[name]) for name in refit.laid)
    assert not {change.piece for change in refit.changes} & set(refit.laid)
    touching = {name for name, piece in (*was.items(), *is_now.items()) if any("N" in names for names in piece.edges)}
    assert {change.piece for change in refit.changes} <= touching
    for name in was.keys() - {change.piece for change in refit.changes}:
        assert all(np.allclose(a, b, atol=0.6) for a, b in zip(was[name].rings, is_now[name].rings, strict=True))


def test_the_data_and_the_sheet_tell_the_changes(tmp_path: Path) -> None:
    _, solution, refit = solved(tmp_path, job(), job(revision="B", east=2388) + LAID)
    made = json.loads(json.dumps(layout_data(solution)))["refit"]
    assert made["verdict"] == CUTS
    assert len(made["changes"]) == len(refit.changes)
    assert {change["piece"] for change in made["changes"]} == {change.piece for change in refit.changes}
    (sheet,) = [sheet for sheet in pack(solution).sheets if sheet.key == "changes"]
    assert sheet.title == f"Changes since revision A: {len(refit.changes)} pieces."


@pytest.mark.parametrize(
    ("laid", "found"),
    [
        ('from = "a.toml"\npieces = ["floor:99,99,0"]', "'floor:99,99,0', which is no piece"),
        ('from = "a.toml"\nline = [[0, 9000], [3000, 9000]]\nside = "left"', "no piece that is laid"),
        ('from = "none.toml"\npieces = ["floor:0,0,0"]', "none.toml, which cannot be opened"),
        ('from = "b.toml"\npieces = ["floor:0,0,0"]', "b.toml, which was laid by this job itself"),
        ('from = "broken.toml"\npieces = ["floor:0,0,0"]', "broken.toml, which has an error"),
    ],
)
def test_what_cannot_be_laid_on_is_told_once(tmp_path: Path, laid: str, found: str) -> None:
    (tmp_path / "a.toml").write_text(job())
    (tmp_path / "broken.toml").write_text(job().replace("joint = 3", 'joint = "x"'))
    (tmp_path / "b.toml").write_text(job(revision="B") + f"\n[laid]\n{laid}\n")
    loaded = load(tmp_path / "b.toml")
    assert loaded.job is not None
    solution = solve(loaded.job, findings=loaded.findings, earlier=loaded.earlier)
    errors = [finding for finding in solution.findings if finding.severity is Severity.ERROR]
    assert len(errors) == 1
    assert found in errors[0].found
    assert solution.layouts == ()


def test_other_tiles_cannot_be_laid_on(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text(job())
    (tmp_path / "b.toml").write_text(job(revision="B").replace("length = 300", "length = 310") + LAID)
    loaded = load(tmp_path / "b.toml")
    assert loaded.job is not None
    solution = solve(loaded.job, findings=loaded.findings, earlier=loaded.earlier)
    assert [f.code for f in solution.findings if f.severity is Severity.ERROR] == ["job-laid"]
