"""How far out the further constructions may be: first-order standard deviations, as in `control.accuracy`.

Lengths are set or read to `Tools.set`, marks made to `Tools.mark` in any direction, a line laid to a mark as true as a
mark is made; all independent. What is given (the line that a construction starts from, its centre) is exact. Angles in
radians. Where arcs are swung at one setting an error of that setting is common to them and cancels; the formulas take
every arc as set anew, so they are on the safe side. A tape that is long or short in proportion changes no angle that
is raised by lengths alone: all of them grow alike.
"""

import math
from typing import Final

from floorwright.control.choices import Tools
from floorwright.tolerance import COINCIDENT

MILLI: Final = 1e-3
"""mm per m as radians."""


def semicircle_square(along: float, up: float, tools: Tools) -> float:
    """Returns the standard deviation of a square raised in a semicircle (Thales), radians.

    A pin stands at (along, up) from the centre, r away; an arc of r about it cuts the first line 2 along out, the line
    from there over the pin is carried on by r, and the far end lies square over the centre, 2 up out. To first order
    its place along the first line is out by

        e r / along - e1 up^2 / (r along) - m1 up^2 / r^2 - m2 along up / r^2 - e2 along / r + m3 + (2 l1 - l2) up / r

    with e the radial slip of the pin (set and mark), e1 and e2 the arc and the length carried on, m1 and m2 the mark on
    the first line along it and across, m3 the far mark, and l1, l2 the line laid to the pin and to the mark: carried on
    as far again, a slip at the pin counts double.

    Args:
        along, up: mm, both over 0.
        tools: see there.
    """
    r = math.hypot(along, up)
    lengths = (r / along) ** 2 + (up**2 / (r * along)) ** 2 + (along / r) ** 2
    marks = (r / along) ** 2 + (up / r) ** 4 + (along * up / r**2) ** 2 + 1 + 5 * (up / r) ** 2
    return math.sqrt(tools.set**2 * lengths + tools.mark**2 * marks) / (2 * up)


def laser_square(along: float, out: float, tools: Tools) -> float:
    """Returns the standard deviation of a square taken off a laser that stands on the centre, radians.

    It is aimed at a mark on the first line; set up beside the centre by a mark, it turns and shifts the beam.
    Variance = laser^2 + 2 mark^2 (1 / along^2 + 1 / out^2).

    Args:
        along, out: mm from the centre to the mark aimed at, and to the mark made on the square beam.
        tools: its `laser` is over 0.
    """
    return math.sqrt((MILLI * tools.laser) ** 2 + 2 * tools.mark**2 * (1 / along**2 + 1 / out**2))


def dropped_square(foot: float, away: float, below: float, tools: Tools) -> float:
    """Returns the standard deviation of a perpendicular from a point to a line, radians.

    An arc about the point cuts the line `foot` either side; arcs from both cuts cross `below` on the other side, and
    the line is struck from the point through the crossing. With r^2 = foot^2 + away^2 and s^2 = foot^2 + below^2 the
    crossing is out along the line by r (e1 - e2) / (2 foot), s (e3 - e4) / (2 foot), the mean of the cuts' marks along
    and below / (2 foot) of their difference across, and its own mark.
    Variance = (set^2 (r^2 + s^2) / (2 foot^2) + mark^2 (3 / 2 + below^2 / (2 foot^2))) / (away + below)^2.

    Args:
        foot: mm from the foot of the perpendicular to each cut.
        away: mm from the line to the point.
        below: mm from the line to the crossing.
        tools: see there.
    """
    lengths = (2 * foot**2 + away**2 + below**2) / (2 * foot**2)
    marks = 1.5 + (below / foot) ** 2 / 2
    return math.sqrt(tools.set**2 * lengths + tools.mark**2 * marks) / (away + below)


def offset_sd(tools: Tools) -> float:
    """Returns how far out a line laid to an arc about a mark on another line is there, one standard deviation, mm.

    The mark across its line, the radius, and the line laid to the arc. Variance = set^2 + 2 mark^2.
    """
    return math.sqrt(tools.set**2 + 2 * tools.mark**2)


def parallel_turn(apart: float, tools: Tools) -> float:
    """Returns the standard deviation of a parallel by two equal offsets, radians: sqrt(2) offset / apart.

    Args:
        apart: mm between the two marks that the arcs are swung about.
        tools: see there.
    """
    return math.sqrt(2) * offset_sd(tools) / apart


def carried_on(beyond: float, straightedge: float, tools: Tools) -> float:
    """Returns how far out a line is that is carried on with a straightedge, one standard deviation, mm.

    Half the straightedge is laid to the line that is there, at the far end of that half and at its near one, and half
    carries it on; then again, on what was drawn. Laid to two marks o apart, an end t o beyond is out by
    (1 + t) of the nearer, t of the farther, and by its own drawing. With o half the straightedge and n whole moves
    before the last, every one of them adds w = 2 a - b + c, of variance 6 mark^2, to the bend of the line:
    variance = 6 mark^2 (sum of (j + t)^2, j = 1 to n) + mark^2 ((1 + t)^2 + t^2 + 1). It goes as the cube of the
    number of moves, so a line is stretched rather than carried on wherever it can be.

    Args:
        beyond: mm past the end of the line that is there; that line counts as exact.
        straightedge: its length, mm, over 0.
        tools: see there.
    """
    held = straightedge / 2
    moves = max(0, math.ceil(beyond / held - COINCIDENT) - 1)
    left = beyond / held - moves
    before = math.fsum((number + left) ** 2 for number in range(1, moves + 1))
    return tools.mark * math.sqrt(6 * before + (1 + left) ** 2 + left**2 + 1)


def past_turn(near: float, far: float, tools: Tools) -> float:
    """Returns the standard deviation of a line carried past an obstacle on a parallel and brought back, radians.

    Two offsets out, `near` apart, and two back, `far` apart. Variance = 2 offset^2 (1 / near^2 + 1 / far^2).
    """
    return math.sqrt(2) * offset_sd(tools) * math.hypot(1 / near, 1 / far)


def past_shift(near: float, gap: float, tools: Tools) -> float:
    """Returns how far beside itself a line is where it comes back behind an obstacle, one standard deviation, mm.

    With g = gap / near the parallel, struck through two offsets, is out there by (1 + g) of the last and g of the
    first, and the offset back adds its own. Variance = offset^2 ((1 + g)^2 + g^2 + 1).

    Args:
        near: mm between the two offsets before the obstacle.
        gap: mm from the last of them to the first one behind it.
        tools: see there.
    """
    share = gap / near
    return offset_sd(tools) * math.sqrt((1 + share) ** 2 + share**2 + 1)


def bisector_turn(arm: float, half: float, tools: Tools) -> float:
    """Returns the standard deviation of the bisector of an angle, radians.

    Equal marks on both arms, equal arcs of the same length from them, the line from the corner through their crossing,
    2 arm cos(half) away. The crossing is out square to the bisector by
    (e2 - e1 + (a2 - a1) cos 2 half + (n1 + n2) sin 2 half) / (2 sin half) with e the arcs, a the marks along their arms
    and n across them. At 45 degrees it is `accuracy.equal_marks_45` of one side on a true square.

    Args:
        arm: mm from the corner to each mark.
        half: half the angle, radians, over 0 and under a right angle.
        tools: see there.
    """
    both = 2 * tools.set**2 + 2 * (tools.set**2 + tools.mark**2) * math.cos(2 * half) ** 2
    both += 2 * tools.mark**2 * math.sin(2 * half) ** 2
    out = both / (4 * math.sin(half) ** 2) + tools.mark**2
    return math.sqrt(out) / (2 * arm * math.cos(half))


def chord_turn(radius: float, angle: float, tools: Tools) -> float:
    """Returns the standard deviation of an angle set off by its chord, radians.

    A mark on the first line at the radius, an arc of the radius about the centre, and one of the chord
    2 radius sin(angle / 2) about the mark. With s and c the sine and cosine of half the angle the crossing is out
    square to the line by (e2 - s e1 - s a + c n) / c.
    Variance = (set^2 (1 + 2 s^2) / c^2 + mark^2 (1 + 1 / c^2)) / radius^2. At 60 degrees the chord is the radius.

    Args:
        radius: mm.
        angle: radians, over 0 and under two right angles; the smaller the truer.
        tools: see there.
    """
    sine, cosine = math.sin(angle / 2), math.cos(angle / 2)
    lengths = (1 + 2 * sine**2) / cosine**2
    return math.sqrt(tools.set**2 * lengths + tools.mark**2 * (1 + 1 / cosine**2)) / radius


def stepped_30(radius: float, tools: Tools) -> float:
    """Returns the standard deviation of a 30 raised by stepping the radius and halving the 60, radians.

    From the mark on the line and from the crossing at 60, arcs of the radius cross sqrt(3) radius out. How far along
    the first mark was set cancels. Variance = (4 set^2 + 5 mark^2) / (3 radius^2).
    """
    return math.sqrt((4 * tools.set**2 + 5 * tools.mark**2) / 3) / radius


def trammel_arc(tools: Tools) -> float:
    """Returns how far in or out a mark on an arc swung about its own centre is, one standard deviation, mm."""
    return math.hypot(tools.set, tools.mark)


def chord_offset(radius: float, chord: float, along: float, tools: Tools) -> float:
    """Returns how far in or out a mark of a large arc set off from its chord is, one standard deviation, mm.

    With t the share of the chord, and the arc leaning by v there, sin v = (along - chord / 2) / radius:
    variance = cos^2 v (set^2 + mark^2 ((1 - t)^2 + t^2)) + sin^2 v (set^2 + mark^2) + mark^2.

    Args:
        radius: mm.
        chord: mm from end to end, at most twice the radius.
        along: mm from the first end, along the chord.
        tools: see there.
    """
    share, lean = along / chord, math.asin((along - chord / 2) / radius)
    across = tools.set**2 + tools.mark**2 * ((1 - share) ** 2 + share**2)
    endways = tools.set**2 + tools.mark**2
    return math.sqrt(math.cos(lean) ** 2 * across + math.sin(lean) ** 2 * endways + tools.mark**2)


def rise_offset(radius: float, chord: float, along: float) -> float:
    """Returns how far an arc stands off its chord, mm: sqrt(R^2 - x^2) - sqrt(R^2 - c^2 / 4), x from the middle."""
    x = along - chord / 2
    return math.sqrt(radius**2 - x**2) - math.sqrt(max(0.0, radius**2 - chord**2 / 4))


def radius_of(chord: float, rise: float) -> float:
    """Returns the radius of an arc from its chord and rise, mm: c^2 / (8 h) + h / 2."""
    return chord**2 / (8 * rise) + rise / 2


def best_foot(reach: float) -> float:
    """Returns how far out the feet of a compass square should stand for a reach, mm: reach / sqrt(2).

    The error goes as 1 / foot^2 + 1 / apex^2 (`accuracy.compass_square`) with foot^2 + apex^2 = reach^2; its derivative
    is nought where foot = apex, and there the arcs cross square.
    """
    return reach / math.sqrt(2)
