"""What `solve` gives back: the job and the result of every part."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from floorwright.control.control import Control
    from floorwright.control.readings import Verdict
    from floorwright.cuts.refit import Refit
    from floorwright.cuts.schedule import CutList
    from floorwright.findings import Finding
    from floorwright.geometry.region import Region
    from floorwright.job.lay.bordered import Bordered
    from floorwright.job.model import Job
    from floorwright.layout.change import Change
    from floorwright.layout.grounds import Meeting
    from floorwright.layout.layout import Layout
    from floorwright.layout.unmoved import Unmoved
    from floorwright.plan.room import Room
    from floorwright.scoring.scored import Scored
    from floorwright.setout.course import Course
    from floorwright.setout.set_out import SetOut
    from floorwright.setout.snap import SnapList
    from floorwright.survey.survey import SurveyResult
    from floorwright.takeoff.order import Order
    from floorwright.units import LengthStyle


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solution:
    """Every part's result, as far as the job allowed.

    Attributes:
        job: as read.
        style: how its lengths print.
        survey: adjusted readings.
        room: as adjusted; None when the readings do not fix one. Where they contradict each other grossly it is there
            to be looked at, and nothing is set out on it.
        region: the floor wall to wall, with door reveals and holes; None without a room.
        control: None without a room to trust.
        layouts: one per zone, of a border one per wall; empty when the job has no zone, or they do not fit.
        border: what there is to choose from for a border of free width; None without one.
        snap: what to snap; None without control.
        setout: nodes, ties, gauge rods and coordinates; None without control.
        courses: one per row and column of the layouts.
        cuts: one per layout.
        orders: one for each kind of goods; empty without a layout.
        findings: of every part, worst first.
        changes: of the job that would do away with cuts, or bring every piece to the limit.
        unmoved: walls that may move, and that had better not.
        stopped: whether a person stopped a search (Ctrl-C): this is the best that was found till then.
        scored: the lines to cut into a slab; None where the job scores nothing.
        verdicts: what the readings taken on the lines say of them.
        breaks: where two fields meet between rooms.
        refit: what has become of the floor since some of it was laid; None where none is.
    """

    job: Job
    style: LengthStyle
    survey: SurveyResult
    room: Room | None
    region: Region | None
    control: Control | None
    layouts: tuple[Layout, ...]
    border: Bordered | None
    snap: SnapList | None
    setout: SetOut | None
    courses: tuple[Course, ...]
    cuts: tuple[CutList, ...]
    orders: tuple[Order, ...]
    findings: tuple[Finding, ...]
    changes: tuple[Change, ...] = ()
    unmoved: tuple[Unmoved, ...] = ()
    stopped: bool = False
    verdicts: tuple[Verdict, ...] = ()
    breaks: tuple[Meeting, ...] = ()
    refit: Refit | None = None
    scored: Scored | None = None
