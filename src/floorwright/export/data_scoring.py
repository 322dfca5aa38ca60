"""A scored slab as data: lines, stops, circles, cells, and the search for borders. `export.data` says how numbers are
written."""

from __future__ import annotations

from math import degrees
from typing import TYPE_CHECKING

from floorwright.export.data import M2, number
from floorwright.scoring.cautions import DUST, IN_SLAB, SAW
from floorwright.scoring.scored import colours

if TYPE_CHECKING:
    from floorwright.export.data import Data
    from floorwright.scoring.arc_rows import ArcRow
    from floorwright.scoring.landing import Search
    from floorwright.scoring.lines import ScoreLine
    from floorwright.scoring.scored import Scored
    from floorwright.scoring.spokes import Spokes


def scoring_data(scored: Scored | None) -> Data | None:
    """Returns all that is cut; None where the job scores nothing."""
    if scored is None:
        return None
    design, saw = scored.design, scored.design.saw
    return {
        "name": design.name,
        "pattern": design.cell.name,
        "cell_mm": [number(side) for side in design.cell.size],
        "border_ends_mm": number(design.ends),
        "border_sides_mm": number(design.sides),
        "nail": scored.nail,
        "cautions": [IN_SLAB, DUST, SAW],
        "joints": [
            {"name": joint.name, "kind": joint.kind, "from_mm": _point(joint.ends[0]), "to_mm": _point(joint.ends[1])}
            for joint in scored.joints
        ],
        "lines": [_line(line) for line in scored.lines],
        "order": [line.name for line in scored.cut_in_order],
        "zones": [
            {
                "name": area.name,
                "pattern": area.cell.name if area.cell else None,
                "cell_mm": [number(side) for side in area.cell.size] if area.cell else None,
                "outline_mm": [_point(point) for point in area.region.rings[0].tolist()],
            }
            for area in scored.design.areas
        ],
        "circles": [
            {
                "centre_mm": _point(circle.centre),
                "radius_mm": number(circle.radius),
                "length_mm": number(circle.length),
                "plain": circle.plain,
                "radii_mm": [number(radius) for radius in circle.radii],
            }
            for circle in design.circles
        ],
        "spokes": [_spokes(one) for one in scored.spokes],
        "arcs": [_arc_row(row) for row in scored.arcs],
        "crossings": [
            {
                "joint": one.joint,
                "off_centre_mm": number(one.off),
                "either_side_mm": number(one.half),
                "points_mm": [_point(point) for point in one.points],
            }
            for one in scored.crossings
        ],
        **_saws(scored),
        "blade_mm": number(saw.blade),
        "depth_mm": number(saw.depth),
        "width_mm": number(saw.width),
        "over_cut_mm": number(scored.over_cut),
        "total_mm": number(scored.straight + scored.round),
        "straight_mm": number(scored.straight),
        "round_mm": number(scored.round),
        "there_mm": number(scored.there),
        "off_by_circles_mm": number(scored.lost),
        "missed_joints": [
            {"joint": one.joint, "off_mm": None if one.off is None else number(one.off)} for one in scored.missed
        ],
        "cells": [
            {
                "what": cell.what,
                "colour": cell.colour,
                "area_m2": number(cell.area * M2),
                "rings_mm": [[_point(point) for point in ring] for ring in cell.rings],
            }
            for cell in scored.cells
        ],
        "colours": [{"name": name, "area_m2": number(area * M2)} for name, area in colours(scored)],
        "stencil": _strips(scored),
        "search": None if scored.search is None else _search(scored.search),
    }


def saws_data(scored: Scored | None) -> Data | None:
    """Returns how much is cut with what; None where the job scores nothing."""
    return None if scored is None else {"name": scored.design.name, **_saws(scored)}


def _saws(scored: Scored) -> Data:
    spokes = sum(one.length for one in scored.spokes)
    circles = sum(circle.length for circle in scored.design.circles)
    kinds = (
        (scored.design.saw.name, "straight", len(scored.cut_in_order), scored.straight - spokes),
        (scored.design.saw.name, "spoke", sum(len(one.lines) for one in scored.spokes), spokes),
        ("grinder on a pivot", "circle", sum(len(circle.radii) for circle in scored.design.circles), circles),
        ("grinder on a pivot", "arc", sum(len(row.swings) for row in scored.arcs), scored.round - circles),
        ("by hand", "stop", scored.stops, scored.stops * scored.over_cut),
    )
    return {
        "saws": [
            {"saw": saw, "cuts": cuts, "count": count, "length_mm": number(length)}
            for saw, cuts, count, length in kinds
            if count
        ]
    }


def _spokes(one: Spokes) -> Data:
    return {
        "circle": one.circle,
        "ring": one.ring,
        "outer_mm": number(one.outer),
        "inner_mm": number(one.inner),
        "count": one.count,
        "first_deg": number(degrees(one.first)),
        "chord_mm": number(one.chord),
        "length_mm": number(one.length),
        "lines": [{"from_mm": _point(start), "to_mm": _point(end)} for start, end in one.lines],
        "there": list(one.there),
    }


def _arc_row(row: ArcRow) -> Data:
    return {
        "row": row.number,
        "radius_mm": number(row.radius),
        "running_mm": number(row.running),
        "along_mm": [number(along) for along in row.along],
        "arcs": [
            {
                "pivot_mm": _point(swing.pivot),
                "start_deg": number(degrees(swing.start)),
                "sweep_deg": number(degrees(swing.sweep)),
                "length_mm": number(swing.length),
            }
            for swing in row.swings
        ],
        "stops": row.stops,
    }


def _line(line: ScoreLine) -> Data:
    return {
        "name": line.name,
        "kind": line.kind,
        "what": line.what,
        "there": bool(line.joints),
        "joints": list(line.joints),
        "running_mm": number(line.running),
        "angle_deg": number(degrees(line.angle)),
        "from_mm": _point(line.parts[0].start) if line.parts else None,
        "to_mm": _point(line.parts[-1].end) if line.parts else None,
        "length_mm": number(line.to_cut),
        "there_mm": number(line.there),
        "off_by_circles_mm": number(line.lost),
        "parts": [
            {
                "from_mm": _point(part.start),
                "to_mm": _point(part.end),
                "there": part.there,
                "length_mm": number(part.length),
            }
            for part in line.parts
        ],
        "stops": [{"at_mm": _point(stop.at), "on": stop.on} for stop in line.stops],
    }


def _search(search: Search) -> Data:
    limits = search.limits
    return {
        "status": "searched: every",
        "step_mm": number(limits.step),
        "border_least_mm": number(limits.border_least),
        "border_most_mm": number(limits.border_most),
        "size_least_mm": number(limits.size_least),
        "sizes_tried": search.sizes,
        "borders_tried": search.borders,
        "moved_mm": number(search.moved),
        "landings": [
            {
                "size_mm": number(one.size),
                "ends_mm": [number(border) for border in one.ends],
                "sides_mm": [number(border) for border in one.sides],
                "equal_mm": [number(border) for border in one.equal],
            }
            for one in search.landings
        ],
    }


def _strips(scored: Scored) -> Data | None:
    strips = scored.strips
    if strips is None:
        return None
    return {
        "starts_mm": [number(start) for start in strips.starts],
        "width_mm": number(strips.width),
        "sheets": strips.sheets,
        "overlap_mm": number(strips.overlap),
        "last_mm": number(strips.last),
    }


def _point(point: tuple[float, float]) -> list[float]:
    return [number(value) for value in point]
