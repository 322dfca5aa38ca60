"""Pens, tones and text sizes by what they mean. Meaning is carried by line type and weight first, colour second.

Line types follow ISO 128: continuous thick = what is there, continuous thin = joints and dimensions, long-dash-dot =
control lines, dashed = hidden, double thin = movement joint, dotted = score line.
"""

from enum import StrEnum


class Pen(StrEnum):
    """What a line means; its weight, dashes and colour are looked up by each export."""

    WALL = "wall"
    JOINT = "joint"
    FACTORY = "factory"
    SAWN = "sawn"
    CONTROL = "control"
    ARC = "arc"
    DIMENSION = "dimension"
    HIDDEN = "hidden"
    READING = "reading"
    SUSPECT = "suspect"
    OPENING = "opening"
    OBSTACLE = "obstacle"
    ZONE = "zone"
    MARK = "mark"
    RULE = "rule"
    SCORE = "score"
    SLAB_JOINT = "slab joint"


class Tone(StrEnum):
    """What a filled area means."""

    SLAB = "slab"
    TILE = "tile"
    CUT = "cut"
    UNDER = "under"
    OBSTACLE = "obstacle"
    WASTE = "waste"
    BORDER = "border"
    INSET = "inset"


class Size(StrEnum):
    """Text by capital height on paper, see `CAP_HEIGHT`; a person marks from a `FIGURE`."""

    TITLE = "title"
    HEADING = "heading"
    FIGURE = "figure"
    TEXT = "text"
    SMALL = "small"


CAP_HEIGHT = {Size.TITLE: 5.0, Size.HEADING: 3.5, Size.FIGURE: 3.5, Size.TEXT: 2.5, Size.SMALL: 2.0}
"""mm on paper."""
