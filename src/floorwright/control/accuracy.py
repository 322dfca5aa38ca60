"""How far out a construction may be: first-order standard deviations of its angle.

Two things go wrong when a line is raised: a length is set or read wrong (`Tools.set`, along the tape or the compass)
and a mark is made beside where it should be (`Tools.mark`, in any direction). All of them are independent, and the
first line is taken as exact. Angles are in radians, so 0.001 is 1 mm per metre. Each formula is the sum of squares of
the first-order effect of every error on the angle of the line; the tests hold each against a Monte Carlo of the same
steps.
"""

import math
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from floorwright.control.choices import Tools

Number = TypeVar("Number", float, NDArray[np.float64])


def compass_square(feet: float, apex: float, tools: Tools, *, sides: int = 2) -> float:
    """Returns the standard deviation of a square raised by compass, radians.

    The feet are `feet` either side of the centre on the first line; arcs swung from both cross at `apex` above, and
    below too when `sides` is 2. With r the radius, r^2 = feet^2 + apex^2:

    - radii that differ by d move a crossing along the first line by r d / (2 feet);
    - feet that are both out along the line move every crossing by the mean of the two, alike above and below: with two
      sides the line shifts and does not turn;
    - feet that are out across the line, by a and b, turn the line by (a - b) / (2 feet);
    - a mark beside a crossing moves that end alone.

    Two sides, joined crossing to crossing: variance = (set^2 / 4 + mark^2 / 2) (1 / feet^2 + 1 / apex^2).
    One side, joined to the centre: variance = set^2 / 2 (1 / feet^2 + 1 / apex^2) + (set^2 + mark^2) / (2 apex^2)
    + mark^2 / (2 feet^2) + mark^2 / apex^2.

    For a given radius 1 / feet^2 + 1 / apex^2 is least at feet = apex, where the arcs cross square. The radii are
    taken as set anew for every arc: swung at one setting, an error of that setting is common to both feet and cancels.

    Args:
        feet: mm from the centre to each foot.
        apex: mm from the centre to each crossing.
        tools: see there.
        sides: 1 or 2.
    """
    return math.sqrt(compass_variance(feet, apex, tools, sides=sides))


def compass_variance(feet: Number, apex: Number, tools: Tools, *, sides: int = 2) -> Number:
    """Returns the variance that `compass_square` is the root of, radians squared, of one cross or of many."""
    size = 1 / feet**2 + 1 / apex**2
    if sides == 2:
        return (tools.set**2 / 4 + tools.mark**2 / 2) * size
    lengths = tools.set**2 / 2 * (size + 1 / apex**2)
    marks = tools.mark**2 * (1 / (2 * feet**2) + 3 / (2 * apex**2))
    return lengths + marks


def compass_feet(sd_angle: float, tools: Tools) -> float:
    """Returns the feet (and the apex: arcs crossing square) that a square of this accuracy takes, both sides, mm."""
    return math.sqrt(tools.set**2 / 2 + tools.mark**2) / sd_angle


def triangle_square(along: float, out: float, tools: Tools) -> float:
    """Returns the standard deviation of a square raised by a triangle of three taped lengths, radians.

    From c^2 = a^2 + b^2 - 2 a b cos C at C = 90 degrees: dC = (c dc - a da - b db) / (a b), so the lengths give
    sqrt(2) c / (a b) set. The mark on the first line is out along it (as `a` is) and across it, which turns the
    triangle by mark / a; the mark at the far corner turns the line by mark / b.
    Variance = 2 set^2 (1 / a^2 + 1 / b^2) + mark^2 (1 / a^2 + 2 / b^2).

    Args:
        along, out: a and b, the sides along the first line and along the line raised, mm.
        tools: see there.
    """
    lengths = 2 * tools.set**2 * (1 / along**2 + 1 / out**2)
    return math.sqrt(lengths + tools.mark**2 * (1 / along**2 + 2 / out**2))


def triangle_unit(sd_angle: float, tools: Tools) -> float:
    """Returns the 1 of the 3-4-5 triangle (3 along the first line) that a square of this accuracy takes, mm."""
    lengths = 2 * tools.set**2 * (1 / 9 + 1 / 16)
    return math.sqrt(lengths + tools.mark**2 * (1 / 9 + 2 / 16)) / sd_angle


def diagonals_square(along: float, out: float, tools: Tools) -> float:
    """Returns the standard deviation of a square raised by making the diagonals of a rectangle equal, radians.

    The far corners slide along the far side alone, together, until the diagonals agree. Far corners out of place by x
    make the diagonals differ by 2 a x / d, so with every side set and both diagonals read
    x = (da1 - da2) / 2 + b (db1 - db2) / (2 a) + d (e2 - e1) / (2 a); the lengths come to set d / (a b). Marks: the
    near corner turns the base by mark / a and counts half along it, the two far corners count half each way, and the
    corner that the line is struck through is marked anew. Variance = (set^2 + 3/2 mark^2) (1 / a^2 + 1 / b^2).

    Args:
        along, out: a and b, the sides along the first line and along the line raised, mm.
        tools: see there.
    """
    return math.sqrt((tools.set**2 + 1.5 * tools.mark**2) * (1 / along**2 + 1 / out**2))


def equal_marks_45(arm: float, square: float, tools: Tools, *, sides: int = 2) -> float:
    """Returns the standard deviation of a 45 raised from four equal marks on the arms of the cross, radians.

    From neighbouring marks arcs of radius `arm` cross in the outer corner of the quarter, and the line joins the
    crossings of opposite quarters, or one crossing to the centre. A mark that is out along its arm moves no crossing to
    first order, one that is out across does; a square that is out by t turns both 45s by t / 2.
    Variance = square^2 / 4 + (set^2 + 2 mark^2) / (2 sides arm^2).

    Args:
        arm: mm from the centre to each mark.
        square: standard deviation of the square, radians.
        tools: see there.
        sides: 1 or 2.
    """
    return math.sqrt(square**2 / 4 + (tools.set**2 + 2 * tools.mark**2) / (2 * sides * arm**2))


def equal_marks_arm(sd_angle: float, square: float, tools: Tools) -> float | None:
    """Returns the arm that a 45 of this accuracy takes, mm; None where the square alone is worse than that."""
    left = sd_angle**2 - square**2 / 4
    return math.sqrt((tools.set**2 + 2 * tools.mark**2) / (4 * left)) if left > 0 else None


def taped_mark(tools: Tools) -> float:
    """Returns the standard deviation of a mark made at a taped distance, along the tape, mm."""
    return math.hypot(tools.set, tools.mark)


def drift(sd_angle: float, distance: float, tools: Tools) -> float:
    """Returns how far out a line may be at a distance from the centre, one standard deviation, mm.

    The angle times the distance, and the mark that the line is struck or met with there.
    """
    return math.hypot(sd_angle * distance, tools.mark)


def angle_for_drift(most: float, distance: float, tools: Tools) -> float | None:
    """Returns the standard deviation of angle that keeps the drift at a distance to `most`; None if the marks alone
    are worse."""
    left = most**2 - tools.mark**2
    return math.sqrt(left) / distance if left > 0 and distance > 0 else None


def reading_across(first: float, second: float, angle: float) -> float:
    """Returns what a tape reads between a mark on each of two lines that cross, mm.

    Args:
        first, second: mm from the crossing to the mark on each line.
        angle: between the two arms that carry the marks, radians.
    """
    return math.sqrt(max(0.0, first**2 + second**2 - 2 * first * second * math.cos(angle)))
