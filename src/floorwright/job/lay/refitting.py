"""A job whose floor is partly laid: what is laid is held, and what has become of the rest is told."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from floorwright.cuts.changed import changed_cuts
from floorwright.cuts.refit import BROKEN, NOTHING, VERDICTS, Choice, Refit, choices_of, verdict_of
from floorwright.cuts.say_refit import findings_of
from floorwright.findings import Finding, Severity
from floorwright.job.inputs import inputs
from floorwright.layout.part import lay_part
from floorwright.layout.refit import Tie, misfits, on_side, tie

if TYPE_CHECKING:
    from collections.abc import Sequence

    from floorwright.control.control import Control
    from floorwright.cuts.schedule import CutList
    from floorwright.geometry.region import Points, Region
    from floorwright.job.model import Job, Laid
    from floorwright.job.solution import Solution
    from floorwright.layout.layout import Layout
    from floorwright.plan.room import Room


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LaidBefore:
    """What is laid already.

    Attributes:
        before: the job that it was laid by, solved.
        ids: of the pieces that are laid.
        tied: how the floor of that job lies on this one's.
        held: the corners that both are tied by.
    """

    before: Solution
    ids: frozenset[str]
    tied: Tie
    held: tuple[str, str]

    def layout(self, name: str) -> Layout | None:
        """Returns the earlier layout of a part of the floor of which some is laid; None where none is."""
        found = (layout for layout in self.before.layouts if layout.zone == name)
        return next((layout for layout in found if any(piece.id in self.ids for piece in layout.pieces)), None)


def laid_before(job: Job, room: Room, before: Solution) -> tuple[LaidBefore | None, tuple[Finding, ...]]:
    """Returns what a job says is laid, and what is wrong with it.

    Args:
        job: with `laid`.
        room: as measured now.
        before: the earlier job, solved.
    """
    laid = job.laid
    assert laid is not None
    held = laid.hold or (room.walls[0].start, room.walls[0].end)
    wrong = _unlike(job, before, held)
    if wrong is None and before.room is not None:
        tied = tie(before.room, room, held)
        ids, wrong = _laid_ids(laid, before)
        if wrong is None:
            return LaidBefore(before=before, ids=ids, tied=tied, held=held), ()
    return None, (wrong,) if wrong is not None else ()


def _problem(key: str, found: str, expected: str, remedy: str) -> Finding:
    return Finding(
        code="job-laid",
        severity=Severity.ERROR,
        place=key,
        found=found,
        expected=expected,
        remedy=remedy,
        source="yours",
    )


def _unlike(job: Job, before: Solution, held: tuple[str, str]) -> Finding | None:
    """Returns why a job cannot be laid on from another, if it cannot."""
    if not before.layouts or before.room is None:
        expected = "the job that the floor was laid by"
        return _problem("laid.from", "a job that lays nothing", expected, "name another file")
    corners = {corner.name for corner in before.room.corners}
    missing = [name for name in held if name not in corners]
    if missing:
        expected = "two corners of both jobs that have not moved"
        return _problem("laid.hold", f"corner {missing[0]}, which the earlier job has not", expected, "name others")
    zones = {zone.name: zone for zone in job.zones}
    for layout in before.layouts:
        name = layout.part.zone if layout.part else layout.zone
        if name not in zones:
            return _problem(
                "zones", f"no zone {name}, of which some is laid", "the zones of the earlier job", "call it as before"
            )
        cell = inputs.zone(job, zones[name], _control(before))["make_cell"](layout.cell.joint)
        if (cell.name, cell.size) != (layout.cell.name, layout.cell.size):
            return _problem(
                "zones",
                f"other tiles or another pattern in {name} than are laid",
                "the tiles and the pattern of the earlier job",
                "copy its goods and its pattern",
            )
    return None


def _control(before: Solution) -> Control:
    assert before.control is not None, "what is laid was set out"
    return before.control


def _laid_ids(laid: Laid, before: Solution) -> tuple[frozenset[str], Finding | None]:
    pieces = [piece for layout in before.layouts for piece in layout.pieces]
    unknown = sorted(set(laid.pieces) - {piece.id for piece in pieces})
    if unknown:
        return frozenset(), _problem(
            "laid.pieces",
            f"{unknown[0]!r}, which is no piece of the earlier layout",
            f"ids as `floorwright layout --json` of the earlier job gives them, such as {pieces[0].id!r}",
            "look it up there, or say on which side of a line all is laid",
        )
    ids = frozenset(laid.pieces)
    if laid.line is not None and laid.side is not None:
        start, end = _line(laid, before)
        ids |= on_side(pieces, start, end, laid.side)
    if not ids:
        expected = "some of the floor on that side of the line"
        return ids, _problem("laid.side", "no piece that is laid", expected, "look at the line and the side")
    return ids, None


def _line(laid: Laid, before: Solution) -> tuple[Points, Points]:
    """Returns two points of the line on the floor as it was when it was laid."""
    assert before.room is not None
    if isinstance(laid.line, str):
        line = next(one for one in _control(before).lines if one.name == laid.line)
        start = np.array(line.through)
        return start, start + np.array([np.cos(line.angle), np.sin(line.angle)])
    corners = {corner.name: (corner.x, corner.y) for corner in before.room.corners}
    first, last = [np.array(corners[at] if isinstance(at, str) else at) for at in laid.line or ()]
    return first, last


def refit_of(
    job: Job,
    on: LaidBefore,
    layouts: Sequence[Layout],
    cuts: Sequence[CutList],
    room: Room,
    region: Region,
    control: Control,
) -> tuple[Refit, tuple[Finding, ...]]:
    """Returns what has become of a floor that is laid on, and what there is to say of it."""
    parts = [
        _part(job, on, layout, list_, room, region, control)
        for layout, list_ in zip(layouts, cuts, strict=True)
        if on.layout(layout.zone) is not None
    ]
    assert job.laid is not None
    refit = Refit(
        since=f"revision {on.before.job.revision}" if on.before.job.revision else job.laid.earlier,
        held=on.held,
        laid=tuple(name for part in parts for name in part.laid),
        verdict=max((part.verdict for part in parts), key=VERDICTS.index, default=NOTHING),
        changes=tuple(change for part in parts for change in part.changes),
        misfits=tuple(misfit for part in parts for misfit in part.misfits),
        choices=tuple(choice for part in parts for choice in part.choices),
    )
    return refit, findings_of(refit, job.style)


def _part(
    job: Job, on: LaidBefore, layout: Layout, cuts: CutList, room: Room, region: Region, control: Control
) -> Refit:
    """Returns what has become of one part of the floor."""
    before = on.layout(layout.zone)
    assert before is not None
    assert layout.part is not None
    was_cut = next(one for one in on.before.cuts if one.zone == before.zone)
    frozen = [piece for piece in layout.pieces if piece.id in on.ids]
    found = misfits(frozen, layout.part.sides, region, layout.gap, job.style.mm(1))
    changes = changed_cuts(before, was_cut, layout, cuts, on.ids, job.style)
    verdict = verdict_of(changes, found, layout, before, on.ids)
    choices: tuple[Choice, ...] = ()
    if verdict == BROKEN:
        zone = next(zone for zone in job.zones if zone.name == layout.part.zone)
        given = inputs.zone(job, zone, control) | {"choose": ""}
        anew = lay_part(part=layout.part, room=room, control=control, style=job.style, **given)
        choices = choices_of(layout, layout.part.sides, frozen, anew, given["joint_most"] or given["joint"])
    return Refit(
        since="",
        held=on.held,
        laid=tuple(piece.id for piece in frozen),
        verdict=verdict,
        changes=changes,
        misfits=found,
        choices=choices,
    )
