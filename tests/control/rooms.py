"""Rooms that the tests of control and setout share."""

import math
from collections.abc import Sequence

import numpy as np

from floorwright.plan.room import Corner, Obstacle, Opening, Room, Wall


def room(
    corners: dict[str, tuple[float, float]],
    walls: Sequence[str],
    *,
    openings: tuple[Opening, ...] = (),
    obstacles: tuple[Obstacle, ...] = (),
) -> Room:
    """A room from its corners, anticlockwise, and the names of its walls."""
    names = list(corners)
    return Room(
        name="room",
        corners=tuple(Corner(name=name, x=x, y=y) for name, (x, y) in corners.items()),
        walls=tuple(Wall(name=wall, start=names[i], end=names[(i + 1) % len(names)]) for i, wall in enumerate(walls)),
        openings=openings,
        obstacles=obstacles,
    )


def rectangle(length: float, width: float, **more: tuple[Opening, ...]) -> Room:
    corners = {"SW": (0.0, 0.0), "SE": (length, 0.0), "NE": (length, width), "NW": (0.0, width)}
    return room(corners, "SENW", openings=more.get("openings", ()))


def swing(a: tuple[float, float], b: tuple[float, float], from_a: float, from_b: float) -> tuple[float, float]:
    """The point left of a-b at two taped distances."""
    base = math.dist(a, b)
    along = (from_a**2 - from_b**2 + base**2) / (2 * base)
    out = math.sqrt(from_a**2 - along**2)
    ux, uy = (b[0] - a[0]) / base, (b[1] - a[1]) / base
    return a[0] + along * ux - out * uy, a[1] + along * uy + out * ux


def larch_row() -> Room:
    """Scenario S2: its six readings agree to under 0.01 mm, so five of them place the corners."""
    sw, se = (0.0, 0.0), (4200.0, 0.0)
    corners = {"SW": sw, "SE": se, "NE": swing(sw, se, 5530, 3612), "NW": swing(sw, se, 3588, 5541)}
    door = Opening(name="door", wall="S", start=1200.0, width=900.0)
    return room(corners, "SENW", openings=(door,))


def l_room() -> Room:
    corners = {
        "A": (0.0, 0.0), "B": (5000.0, 0.0), "C": (5000.0, 2000.0), "D": (1800.0, 2000.0), "E": (1800.0, 4600.0),
        "F": (0.0, 4600.0),
    }  # fmt: skip
    return room(corners, ["AB", "BC", "CD", "DE", "EF", "FA"])


def column(x: float, y: float, size: float, name: str = "column") -> Obstacle:
    outline = np.array([[x, y], [x + size, y], [x + size, y + size], [x, y + size]])
    return Obstacle(name=name, kind="column", outline=outline, centre=(x + size / 2, y + size / 2))
