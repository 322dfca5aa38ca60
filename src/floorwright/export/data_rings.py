"""Rings as data. `export.data` says how numbers are written."""

from __future__ import annotations

from math import degrees
from typing import TYPE_CHECKING

from floorwright.export.data import Data, number

if TYPE_CHECKING:
    from floorwright.layout.layout import Layout
    from floorwright.pattern.ring import Ring


def rings_data(layout: Layout) -> Data | None:
    """Returns the rings of a zone, from the inside out; None for a zone of anything else.

    `joint_*_mm` are along the arc, `across_*_mm` straight from piece to piece.
    """
    rings, part = layout.rings, layout.part
    if rings is None or part is None or part.outline is None:
        return None
    x, y = part.outline.centre
    return {
        "centre_mm": [number(x), number(y)],
        "along_deg": number(degrees(part.outline.along)),
        "sweep_deg": number(degrees(rings.sweep)),
        "stone_mm": number(rings.stone),
        "reach_mm": number(rings.reach),
        "rings": [_ring(name, one) for name, one in zip(rings.names, rings.rings, strict=True)],
    }


def _ring(name: str, one: Ring) -> Data:
    return {
        "name": name,
        "pieces": one.pieces,
        "inside_mm": number(one.inside),
        "depth_mm": number(one.depth),
        "joint_inside_mm": number(one.joints[0]),
        "joint_outside_mm": number(one.joints[1]),
        "across_inside_mm": number(one.across[0]),
        "across_outside_mm": number(one.across[1]),
        "tapered": one.tapered,
        "wide_inside_mm": number(one.widths[0]),
        "wide_outside_mm": number(one.widths[1]),
        "plan_ratio": number(one.ratio),
        "first_joint_deg": number(degrees(one.first)),
        "step_deg": number(degrees(one.step)),
        "chord_mm": number(one.chord(1)),
    }


def tapers_data(layout: Layout) -> list[Data]:
    """Returns what every ring's pieces are sawn to, once for each ring that is tapered."""
    rings = layout.rings
    if rings is None:
        return []
    return [
        {
            "zone": layout.zone,
            "ring": name,
            "pieces": one.pieces,
            "wide_inside_mm": number(one.widths[0]),
            "wide_outside_mm": number(one.widths[1]),
            "deep_mm": number(one.depth),
            "goods_wide_mm": number(one.unit),
            "off_corner_inside_mm": number((one.unit - one.widths[0]) / 2),
            "off_corner_outside_mm": number((one.unit - one.widths[1]) / 2),
        }
        for name, one in zip(rings.names, rings.rings, strict=True)
        if one.tapered
    ]
