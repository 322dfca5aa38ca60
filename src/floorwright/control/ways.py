"""The ways to raise a square line, and which of them is taken."""

from collections.abc import Callable, Sequence
from typing import Final

from floorwright.control.choices import Tools
from floorwright.control.control import Considered, Construction
from floorwright.control.square import compass, equal_diagonals, three_four_five
from floorwright.control.squares_more import off_laser, semicircle
from floorwright.control.station import Station
from floorwright.findings import Finding, Severity

SQUARES: Final[tuple[tuple[str, Callable[[Station, Tools], Construction | None]], ...]] = (
    ("compass", compass),
    ("3-4-5", three_four_five),
    ("equal diagonals", equal_diagonals),
    ("semicircle", semicircle),
    ("laser", off_laser),
)
"""Ways to raise the square line, of equals the first is taken."""

BY_METHOD: Final = dict(SQUARES)


def squares(station: Station, tools: Tools) -> tuple[Construction, ...]:
    """Returns every way to raise the square line that the floor and the tools allow."""
    return tuple(made for _, raised in SQUARES if (made := raised(station, tools)))


def taken(made: Sequence[Construction], tools: Tools) -> Construction:
    """Returns the way that is asked for; the truest where none is, or where that one cannot be."""
    asked = [one for one in made if one.method == tools.square]
    return min(asked or made, key=lambda one: one.sd_angle)


def considered(made: Sequence[Construction], tools: Tools) -> tuple[Considered, ...]:
    """Returns every way to raise the square line, the one taken first, then the truest, those that cannot be last."""
    fitted = {one.method: one for one in made if one.makes == "square line"}
    chosen = taken(tuple(fitted.values()), tools)
    ways = sorted(
        (
            Considered(
                makes=one.makes,
                method=one.method,
                sd_angle=one.sd_angle,
                why_not="" if one is chosen else f"{one.sd_angle / chosen.sd_angle:.1f} times as far out",
            )
            for one in fitted.values()
        ),
        key=lambda way: (way.why_not != "", way.sd_angle or 0.0),
    )
    for method, _ in SQUARES:
        if method not in fitted:
            ways.append(Considered(makes="square line", method=method, sd_angle=None, why_not=_why_not(method, tools)))
    return tuple(ways)


def not_as_asked(made: Sequence[Construction], tools: Tools) -> tuple[Finding, ...]:
    """Returns a finding where the way that is asked for cannot be: the truest stands in."""
    fitted = [one for one in made if one.makes == "square line"]
    if not tools.square or any(one.method == tools.square for one in fitted):
        return ()
    why_not, instead = _why_not(tools.square, tools), taken(fitted, tools).method
    finding = Finding(
        code="control-square-as-asked",
        severity=Severity.WARNING,
        place="square line",
        found=f"cannot be raised by {tools.square}: {why_not}; raised by {instead} instead",
        expected=f"the square line raised by {tools.square}",
        remedy="ask for another way under `square`, or move the centre",
    )
    return (finding,)


def _why_not(method: str, tools: Tools) -> str:
    missing = {"compass": tools.compass <= 0, "semicircle": tools.compass <= 0, "laser": tools.laser <= 0}
    if missing.get(method):
        return f"no {'laser' if method == 'laser' else 'compass'} to hand"
    return "does not fit the clear floor about the centre"
