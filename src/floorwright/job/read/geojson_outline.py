"""The outline of a room traced from GeoJSON: one polygon in a plane, in a unit of length that the job names."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from floorwright.findings import Severity
from floorwright.job.read.drawing import Drawn, finding, refusal, size_text, units_text, units_that_fit
from floorwright.job.read.problem import listed
from floorwright.job.read.ring import Chain, named_ring
from floorwright.tolerance import CHORD
from floorwright.units import MM_IN

if TYPE_CHECKING:
    from collections.abc import Iterator

CODE: Final = "job-geojson"
NAMES: Final = ("name", "id", "ref", "layer")
"""Properties that a feature may be called by."""

MOST_TOLD: Final = 8


def read_geojson(content: bytes, file: str, layer: str | None, drawn_in: str | None) -> Drawn:
    """Returns the corners of the one polygon, in order, mm.

    The standard (RFC 7946) knows coordinates in degrees only. A degree is no length, and a building's place on the
    globe is seldom good to a joint, so degrees are refused; with `drawn_in` the numbers are lengths in a plane.

    Args:
        content: of the file.
        file: its name, for the findings.
        layer: name of the feature to take; None where there is only one polygon.
        drawn_in: unit of the coordinates.
    """
    try:
        data = json.loads(content.decode("utf-8-sig"))
        polygons = list(_polygons(data, ""))
    except (ValueError, RecursionError, TypeError, KeyError, AttributeError, IndexError):
        return refusal(CODE, file, "a file that is no GeoJSON", "GeoJSON with a Polygon", "export it again")
    if layer is not None:
        names = sorted({name for name, _ in polygons if name})
        polygons = [(name, rings) for name, rings in polygons if name.casefold() == layer.casefold()]
        if not polygons:
            expected = f"one of {listed(names[:MOST_TOLD])}" if names else "a feature with a name"
            return refusal(CODE, file, f"no polygon named {layer}", expected, "name one as layer")
    if len(polygons) != 1:
        found = f"{len(polygons)} polygons" if polygons else "no polygon"
        return refusal(CODE, file, found, "one, the room's", "name its feature as layer, or keep it alone in the file")
    rings = polygons[0][1]
    ring = Chain(vertices=tuple((x, y, 0.0) for x, y in rings[0]), closed=True)
    across = ring.across()
    if drawn_in is None:
        degrees = all(abs(x) <= 180.0 and abs(y) <= 90.0 for x, y in rings[0])
        found = "coordinates in degrees, as the standard has them" if degrees else "coordinates whose unit is not said"
        fits = units_text(across)
        return refusal(
            CODE, file, found, "lengths in a plane" + (f": a room in {fits}" if fits and not degrees else ""),
            'project it to a plane in metres, and write drawn_in = "m"',
        )  # fmt: skip
    if drawn_in not in units_that_fit(across):
        fits = units_text(across)
        return refusal(
            CODE, file, f"an outline {size_text(across, drawn_in)} across in {drawn_in}",
            "the size of a room" + (f", as it would be in {fits}" if fits else ""), "look at drawn_in",
        )  # fmt: skip
    flat = ring.scaled(float(MM_IN[drawn_in])).flat(CHORD)
    if len(flat) < 3:
        return refusal(CODE, file, f"an outline of {len(flat)} corners", "three or more", "look at the file")
    told = [finding("job-traced", Severity.NOTE, file, f"an outline of {len(flat)} corners", remedy="look at it drawn")]
    if len(rings) > 1:
        told.append(finding(
            "job-geojson-holes", Severity.WARNING, file, f"{len(rings) - 1} holes in the room's outline",
            "the outline alone", "book columns and pipes as obstacles",
        ))  # fmt: skip
    return Drawn(points=named_ring(flat), findings=tuple(told))


def geojson_names(content: bytes) -> list[str]:
    """Returns the names of the features that are polygons; none where it is no GeoJSON."""
    try:
        data = json.loads(content.decode("utf-8-sig"))
        return sorted({name for name, _ in _polygons(data, "") if name})
    except (ValueError, RecursionError, TypeError, KeyError, AttributeError, IndexError):
        return []


def _polygons(data: Any, name: str) -> Iterator[tuple[str, list[list[tuple[float, float]]]]]:
    """Every polygon with the name of its feature, as rings of x, y."""
    kind = data["type"]
    if kind == "FeatureCollection":
        for feature in data["features"]:
            yield from _polygons(feature, "")
    elif kind == "Feature" and data.get("geometry"):
        properties = {"id": data.get("id"), **(data.get("properties") or {})}
        called = next((str(properties[key]) for key in NAMES if properties.get(key) not in (None, "")), "")
        yield from _polygons(data["geometry"], called)
    elif kind == "GeometryCollection":
        for geometry in data["geometries"]:
            yield from _polygons(geometry, name)
    elif kind in ("Polygon", "MultiPolygon"):
        for polygon in [data["coordinates"]] if kind == "Polygon" else data["coordinates"]:
            rings = [[(float(point[0]), float(point[1])) for point in ring] for ring in polygon]
            if not all(np.isfinite(ring).all() for ring in rings) or not all(rings) or not rings:
                raise ValueError("a coordinate that is no number")
            yield name, rings
