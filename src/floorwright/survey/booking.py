"""A blank booking for a room not yet measured: which distances to take, in which order, and what they will give."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.survey.accuracy import EU_II, READING, Tape, sd
from floorwright.survey.adjustment import Adjustment, Datum
from floorwright.survey.network import derivatives, network
from floorwright.survey.observation import Distance
from floorwright.survey.outline import Outline, template
from floorwright.survey.solve import adjust
from floorwright.survey.take import freedom, pairs_to_measure

LETTERS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"

SIDE: Final = 4000.0
"""mm. Our default of a wall in the made-up room that a booking is reckoned on."""

CHECKED: Final = 0.1
"""Our default: a tenth of a slip must show. Diagonals are added until it does for every reading, where they can."""

INNER: Final = Datum(kind="inner constraints")

DENT: Final = 0.25
"""How far a corner that turns in lies behind its neighbours in the made-up room (see `survey.outline.template`)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """One line of the sheet.

    Attributes:
        start, end: zero of the tape, and where it is read.
        why: `wall`, `fixes the shape`, `checks`.
    """

    start: str
    end: str
    why: str

    @property
    def name(self) -> str:
        """As the reading is booked."""
        return f"{self.start}-{self.end}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Booking:
    """A blank booking.

    Attributes:
        corners: anticlockwise.
        readings: in the order to take them: round the walls, then the diagonals from each corner in turn.
        sd_corner: mm, expected standard deviation of the worst corner, of any one coordinate with all corners alike
            (inner constraints), in a room of walls about `side` long.
        least_redundancy: part of a slip that shows in the worst checked reading, 0 to 1.
        side: mm, of the walls that this is reckoned for.
        tape: name of the class that it is reckoned for.
    """

    corners: tuple[str, ...]
    readings: tuple[Blank, ...]
    sd_corner: float
    least_redundancy: float
    side: float
    tape: str


def booking(
    corners: int | Sequence[str],
    *,
    inward: Collection[str] = (),
    side: float = SIDE,
    tape: Tape = EU_II,
    hook: bool = False,
    reading: float = READING,
) -> Booking:
    """Returns which distances to take of a room: every wall, enough diagonals to fix it, and at least one to check.

    Reckoned on a made-up room with the turns booked, so that no diagonal leaves the room there. Diagonals fan out from
    the first corner where they can; then each more is the one that makes the worst checked reading best checked, until
    every reading is. Three corners have no diagonal: there the first wall is read again from its other end.

    Args:
        corners: how many (named A, B, C, ...) or their names, anticlockwise; three or more, each once.
        inward: those that turn into the room.
        side: mm, about the length of a wall.
        tape, hook, reading: as for `survey.accuracy.sd`.

    Raises:
        FloorwrightValueError: fewer than three corners, a name twice, or an inward name that is no corner.
    """
    names = corner_names(corners) if isinstance(corners, int) else tuple(corners)
    if len(names) < 3 or len(set(names)) < len(names) or not set(inward) <= set(names):
        raise FloorwrightValueError("a booking needs three corners or more, each named once, the inward among them")
    outline = Outline(corners=names, inward=frozenset(inward), straight=frozenset())
    room = template(outline, (), side=side, stretch=1.2, dent=DENT)
    place = dict(zip(names, room, strict=True))

    def distance(start: str, end: str, key: str) -> Distance:
        length = float(np.hypot(*(place[end] - place[start])))
        return Distance(key=key, a=start, b=end, measured=length, sd=sd(length, tape, hook=hook, reading=reading))

    walls = [distance(name, outline.neighbours(name)[1], "wall") for name in names]
    if len(names) == 3:
        taken = [*walls, distance(names[1], names[0], "checks")]
    else:
        free = pairs_to_measure(names, outline, walls, room)
        taken = _designed(names, room, walls, [distance(a, b, "fixes the shape") for _, a, b in free])
    result = adjust(names, room, taken, INNER)
    return Booking(
        corners=names,
        readings=tuple(Blank(start=o.a, end=o.b, why=o.key) for o in _walked(names, taken)),
        sd_corner=float(np.sqrt(np.diag(result.covariance).max())),
        least_redundancy=_worst(result),
        side=side,
        tape=tape.name,
    )


def corner_names(count: int) -> tuple[str, ...]:
    """Returns names for corners that have none: A to Z, then A2 to Z2 and so on."""
    rounds = [divmod(i, len(LETTERS)) for i in range(count)]
    return tuple(LETTERS[letter] + (str(times + 1) if times else "") for times, letter in rounds)


def _designed(names: Sequence[str], room: Points, walls: list[Distance], free: list[Distance]) -> list[Distance]:
    """Walls, the first of the free diagonals that fix the room between them, and those that check best."""
    taken, rest = list(walls), list[Distance]()
    for diagonal in free:
        fixes = freedom(names, room, [*taken, diagonal]) < freedom(names, room, taken)
        (taken if fixes else rest).append(diagonal)
    if freedom(names, room, taken):
        raise FloorwrightValueError("no diagonals in sight of each other fix a room with these corners turning in")
    checked = False
    while rest and not (checked and _worst(adjust(names, room, taken, INNER)) >= CHECKED):
        best = _best_check(adjust(names, room, taken, INNER), taken, rest)
        taken.append(replace(rest.pop(best), key="checks"))
        checked = True
    return taken


def _best_check(adjustment: Adjustment, taken: Sequence[Distance], rest: Sequence[Distance]) -> int:
    """Which of the rest leaves the worst checked reading best checked, by updating the cofactors with one row each."""
    names, xy = adjustment.points, adjustment.xy - adjustment.xy.mean(axis=0)
    old, new = derivatives(network(names, taken), xy), derivatives(network(names, rest), xy)
    old_sd, new_sd = np.array([o.sd for o in taken]), np.array([o.sd for o in rest])
    now = np.array([r.redundancy for r in adjustment.residuals])
    spread = np.einsum("ij,jk,ik->i", new, adjustment.covariance, new)
    gained = (old @ adjustment.covariance @ new.T / old_sd[:, None]) ** 2 / (new_sd**2 + spread)
    own = new_sd**2 / (new_sd**2 + spread)
    worst = np.round(np.minimum((now[:, None] + gained).min(axis=0), own), 6)
    return int(np.argmax(worst))


def _worst(adjustment: Adjustment) -> float:
    return min(residual.redundancy for residual in adjustment.residuals)


def _walked(names: Sequence[str], taken: Sequence[Distance]) -> list[Distance]:
    """Walls in order, then everything read from the first corner, from the second and so on."""
    order = {name: i for i, name in enumerate(names)}
    across = [o for o in taken if o.key != "wall"]
    return [o for o in taken if o.key == "wall"] + sorted(across, key=lambda o: (order[o.a], order[o.b]))
