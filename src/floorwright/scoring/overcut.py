"""What a round blade leaves: at the end of a cut its bottom falls short of its top."""

import math


def over_cut(depth: float, blade: float) -> float:
    """Returns how far the end of a cut at the surface lies past the end of its bottom, mm.

    A blade of radius R, sunk to a depth d, cuts the surface over sqrt(d (2 R - d)) either side of its middle: half a
    chord. Run past a corner by so much, the cut is at depth in the corner; stopped at the corner, so much is left to
    finish by hand.

    Args:
        depth: of the cut, mm, 0 or more.
        blade: its diameter, mm, over the depth.
    """
    return math.sqrt(depth * (blade - depth))
