"""The nouns of the job file, key for key. Lengths are mm, angles degrees, whatever unit the file is in.

A job is read by `job.load`. Made in Python with `Job.model_validate(data, context={"unit": "in"})`, its bare numbers
are inches and its defaults those of a file in inches; without a context they are mm.
"""

from floorwright.job.model.aims import Aim, Aims, FreeEdge
from floorwright.job.model.control import Centre, CheckReading, Control, FirstLine
from floorwright.job.model.goods import DrawnPattern, DrawnPiece, Goods, Group, Ordering
from floorwright.job.model.job import SCHEMA, Job
from floorwright.job.model.laid import Laid
from floorwright.job.model.rooms import Link, Obstacle, Opening, Room, SlabJoint
from floorwright.job.model.scoring import ScoredCircle, Scoring, Slab, Stencil
from floorwright.job.model.setout import Grid, SetOut
from floorwright.job.model.survey import AngleReading, ArcWall, OffsetReading, Square, Straight, Survey, Tape
from floorwright.job.model.zones import Zone, ZoneRing

__all__ = [
    "SCHEMA",
    "Aim",
    "Aims",
    "AngleReading",
    "ArcWall",
    "Centre",
    "CheckReading",
    "Control",
    "DrawnPattern",
    "DrawnPiece",
    "FirstLine",
    "FreeEdge",
    "Goods",
    "Grid",
    "Group",
    "Job",
    "Laid",
    "Link",
    "Obstacle",
    "OffsetReading",
    "Opening",
    "Ordering",
    "Room",
    "ScoredCircle",
    "Scoring",
    "SetOut",
    "Slab",
    "SlabJoint",
    "Square",
    "Stencil",
    "Straight",
    "Survey",
    "Tape",
    "Zone",
    "ZoneRing",
]
