"""What there is to say of rings: joints that open too far, wedges to saw, narrow pieces, fans that are none."""

import math
from collections.abc import Iterator
from typing import Final

from floorwright.findings import Finding, Severity
from floorwright.pattern.ring import ALWAYS, MOST_RATIO, Joints, Ring, RingMisfitError, merged, next_radius, ring
from floorwright.pattern.rings import FAN, Rings
from floorwright.tolerance import COINCIDENT
from floorwright.units import LengthStyle

FAN_RADIUS: Final = 10_000.0
"""mm. A fan is laid under this radius."""

FAN_SWEEP: Final = math.radians(45.0)
"""A fan is laid over this angle."""

SECOND_HAND: Final = "trade advice, passed on second hand"
"""Of fans, and of pieces no longer than twice their width: no source of our own."""


def findings_of_rings(rings: Rings, place: str, style: LengthStyle) -> tuple[Finding, ...]:
    """Returns the findings of rings, from the inside out.

    Args:
        rings: see there.
        place: of the zone, for the findings.
        style: how lengths are written.
    """
    said = _Says(place=place, style=style)
    found: list[Finding] = []
    for number, (name, one) in enumerate(zip(rings.names, rings.rings, strict=True)):
        unit = rings.units[number]
        if one.tapered:
            found += said.tapered(name, one, rings.joints, unit)
        else:
            found += said.opened(name, one, rings.joints, unit, rings.spokes)
        if one.narrow:
            found += said.narrow(name, one, rings.spokes)
    found += said.middle(rings)
    if rings.name == FAN:
        found += said.fan(rings)
    return tuple(found)


class _Says:
    """A class because all it says is of one place, in one style."""

    def __init__(self, *, place: str, style: LengthStyle) -> None:
        self._place = place
        self._style = style

    def text(self, mm: float, *, unit: bool = False) -> str:
        return self._style.text(mm, unit=unit, feet=False)

    def _finding(self, code: str, severity: Severity, found: str, source: str = "geometry", **more: str) -> Finding:
        return Finding(code=code, severity=severity, place=self._place, found=found, source=source, **more)

    def tapered(self, name: str, one: Ring, joints: Joints, unit: tuple[float, float]) -> Iterator[Finding]:
        inner, outer = (self.text(width) for width in one.widths)
        found = f"{name}: {one.pieces} pieces sawn to a wedge, {outer} wide outside and {inner} inside"
        start = next_radius(unit, one.inside, joints, one.sweep)
        remedy = ""
        if start > one.inside + COINCIDENT and math.isfinite(start):
            remedy = f"or start it at {self.text(start, unit=True)}, where pieces can stay whole"
        yield self._finding("pattern-ring-tapered", Severity.NOTE, found, remedy=remedy)

    def opened(self, name: str, one: Ring, joints: Joints, unit: tuple[float, float], spokes: int) -> Iterator[Finding]:
        inner, outer = one.joints
        if inner < joints.least - COINCIDENT:
            yield self._finding(
                "pattern-ring-tight",
                Severity.WARNING,
                f"{name}: joints of {self.text(inner)} at the inside of {one.pieces} pieces",
                source="yours",
                expected=f"no less than {self.text(joints.least, unit=True)}",
                remedy="take a piece fewer, or start farther out",
            )
        if outer > joints.most + COINCIDENT:
            yield self._finding(
                "pattern-ring-open",
                Severity.WARNING,
                f"{name}: units open to {self.text(outer, unit=True)} at the outside",
                source="yours",
                expected=f"no more than {self.text(joints.most, unit=True)}",
                remedy=self._taper_or_start(one, joints, unit, spokes),
            )

    def _taper_or_start(self, one: Ring, joints: Joints, unit: tuple[float, float], spokes: int) -> str:
        ways = []
        try:
            wedge = ring(unit, one.inside, joints, sweep=one.sweep, of=spokes, taper=ALWAYS)
            inner, outer = (self.text(width) for width in wedge.widths)
            ways.append(f"taper: {wedge.pieces} pieces, {outer} wide outside and {inner} inside")
        except RingMisfitError:
            pass
        start = next_radius(unit, one.inside, joints, one.sweep, spokes)
        if math.isfinite(start):
            ways.append(f"start at {self.text(start, unit=True)} or farther out")
        return ", or ".join(ways) or "take wider goods"

    def narrow(self, name: str, one: Ring, spokes: int) -> Iterator[Finding]:
        two = merged(one, spokes)
        ways = []
        if two is not None and not two.narrow:
            inner, outer = (self.text(width) for width in two.widths)
            goods = f"goods at least {self.text(two.widths[1], unit=True)} wide"
            ways.append(f"make two into one: {two.pieces} pieces, {outer} outside and {inner} inside, from {goods}")
        ways.append("lay their length along the ring")
        yield self._finding(
            "pattern-ring-narrow",
            Severity.WARNING,
            f"{name}: pieces {self.text(one.depth)} deep and {self.text(sum(one.widths) / 2)} wide in their middle",
            source=SECOND_HAND,
            expected=f"none longer than {MOST_RATIO:g} times its width",
            remedy=", or ".join(ways),
        )

    def middle(self, rings: Rings) -> Iterator[Finding]:
        if rings.stone or not rings.is_round:
            return
        yield self._finding(
            "pattern-ring-middle",
            Severity.NOTE,
            f"the middle, {self.text(2 * rings.inside, unit=True)} across, is left open",
            remedy="name the goods of a `stone` for it, or have it filled as agreed",
        )

    def fan(self, rings: Rings) -> Iterator[Finding]:
        if rings.reach > FAN_RADIUS or rings.sweep <= FAN_SWEEP + COINCIDENT:
            yield self._finding(
                "pattern-fan",
                Severity.WARNING,
                f"a fan of {math.degrees(rings.sweep):.3g} degrees and a radius of {self.text(rings.reach, unit=True)}",
                source=SECOND_HAND,
                expected=f"over 45 degrees, and under {self.text(FAN_RADIUS, unit=True)}",
                remedy="lay straight courses here, or rings that go all the way round",
            )
