"""The scales that drawings are made at, and the one that fits."""

from typing import Final

from floorwright.errors import FloorwrightValueError

METRIC_SCALES: Final = (1, 2, 5, 10, 20, 25, 50, 100, 200)
"""ISO 5455, with 1:25, which the trade uses."""

IMPERIAL_SCALES: Final = (1, 2, 4, 8, 12, 16, 24, 32, 48, 64, 96, 192)
"""Architects' scales, in inches to the foot: 12, 6, 3, 1 1/2, 1, 3/4, 1/2, 3/8, 1/4, 3/16, 1/8, 1/16."""

INCHES_TO_THE_FOOT: Final = {
    2: "6", 4: "3", 8: "1 ¹⁄₂", 12: "1", 16: "³⁄₄", 24: "¹⁄₂", 32: "³⁄₈", 48: "¹⁄₄", 64: "³⁄₁₆", 96: "¹⁄₈",
    192: "¹⁄₁₆",
}  # fmt: skip


def fit_scale(extent: tuple[float, float], space: tuple[float, float], imperial: bool = False) -> float:
    """Returns the largest of the usual scales at which a piece of floor fits a piece of paper: 20 for 1:20.

    Args:
        extent: (along, up) mm of floor.
        space: (along, up) mm of paper, as `page_space` gives.
        imperial: inches to the foot in place of ISO 5455.

    Raises:
        FloorwrightValueError: nothing to draw, or it fits at no scale.

    >>> fit_scale((3200, 4000), (178, 220))
    20
    """
    if not (min(extent) >= 0 and max(extent) > 0):
        raise FloorwrightValueError(f"nothing to draw to scale: {extent[0]:g} x {extent[1]:g} mm of floor")
    for scale in IMPERIAL_SCALES if imperial else METRIC_SCALES:
        if extent[0] <= space[0] * scale and extent[1] <= space[1] * scale:
            return scale
    raise FloorwrightValueError(
        f"{extent[0]:g} x {extent[1]:g} mm of floor fits {space[0]:g} x {space[1]:g} mm of paper at no scale"
    )


def scale_text(scale: float, imperial: bool = False) -> str:
    """Returns the scale as printed: `1:20`, or for imperial `¹⁄₂″ = 1′-0″`; full size is `1:1` in both."""
    if imperial and scale in INCHES_TO_THE_FOOT:
        return f"{INCHES_TO_THE_FOOT[int(scale)]}″ = 1′-0″"
    return f"1:{scale:g}"
