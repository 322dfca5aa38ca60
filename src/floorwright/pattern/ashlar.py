"""Random ashlar: pieces of three sizes on one module, drawn by rules, the same every time for one seed."""

import math
from collections.abc import Iterator, Mapping
from typing import Final, TypeAlias

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.pattern.cell import Size, Sized, UnitCell
from floorwright.pattern.modular import Place, Spans, in_place, module, module_anchors, module_lines
from floorwright.pattern.shape import check_goods

MODULES: Final = 12
"""Modules each way after which it repeats."""

STARTS: Final = 400
"""Fillings begun before a seed is given up."""

TRIES: Final = 600
"""Pieces tried in one of them."""

RUN: Final = 7
"""Modules that a straight joint should run at most."""

ACROSS: Final = 4
"""Modules from one piece across a seam to the next."""

SPANS: Final[Spans] = (("large", (2, 2)), ("long", (2, 1)), ("small", (1, 1)))
"""Modules that a piece of each kind is long and wide."""

LIKELY: Final = {(2, 2): 0.45, (2, 1): 0.25, (1, 2): 0.25, (1, 1): 0.05}
"""How readily each is reached for."""

KIND_OF: Final = {(2, 2): "large", (2, 1): "long", (1, 2): "long", (1, 1): "small"}

Grid: TypeAlias = list[list[bool]]
Joints: TypeAlias = list[tuple[Grid, int, int]]


def random_ashlar(sizes: Mapping[str, Size], joint: float, *, seed: int) -> UnitCell:
    """Returns pieces of three sizes on one module at random; no four corners meet, and straight joints are kept short.

    Args:
        sizes: of `large` (2 modules square), `long` (2 by 1) and `small` (1), mm.
        joint: mm.
        seed: any whole number.
    """
    for size in sizes.values():
        check_goods(size, joint)
    unit = module(sizes, SPANS, joint)
    places = _filled(seed)
    return UnitCell(
        name="random ashlar",
        a=np.array([MODULES * unit, 0.0]),
        b=np.array([0.0, MODULES * unit]),
        pieces=tuple(in_place(place, sizes[place.kind], unit) for place in places),
        joint=joint,
        size=sizes["large"],
        lines=module_lines(unit),
        kinds=tuple(place.kind for place in places),
        sizes=tuple(Sized(name=kind, size=sizes[kind]) for kind, _ in SPANS),
        anchors=module_anchors(places, unit),
    )


def _filled(seed: int) -> tuple[Place, ...]:
    """Returns a filling without a fault.

    Raises:
        FloorwrightValueError: if none is found, which no seed that was tried has come to.
    """
    rng = np.random.Generator(np.random.PCG64(seed))
    for _ in range(STARTS):
        drawn = _Filling(rng)
        if drawn.fill():
            return tuple(drawn.places)
    raise FloorwrightValueError(f"seed {seed} leads to no ashlar: take another")


class _Filling:
    """A repeat on its way: what is taken, and which sides of modules are joints; columns and rows run round.

    Every piece laid only adds joints, so a fault stays: what makes one is taken up again at once.

    Attributes:
        places: so far.
    """

    def __init__(self, rng: np.random.Generator) -> None:
        """Starts with nothing laid."""
        self.places: list[Place] = []
        self._rng = rng
        self._tries = TRIES
        self._taken: Grid = _nothing()
        # The left side of a module, by [row][column], and its lower side, by [column][row].
        self._left: Grid = _nothing()
        self._below: Grid = _nothing()

    def fill(self) -> bool:
        """Returns whether every module was filled from the lower left, going back where nothing fits.

        Some pieces are laid across the seams before, or the seams would be straight joints.
        """
        first = int(self._rng.random() * ACROSS)
        for at in range(first, MODULES - 1, ACROSS):
            for x, y in ((MODULES - 1, at), ((at + ACROSS // 2) % MODULES, MODULES - 1)):
                if self._is_free(x, y, (2, 2)):
                    self._lay(x, y, (2, 2))
        return self._fill_from(0)

    def _fill_from(self, number: int) -> bool:
        while number < MODULES**2 and self._taken[number // MODULES][number % MODULES]:
            number += 1
        if number == MODULES**2:
            return True
        y, x = divmod(number, MODULES)
        for span in _drawn(self._rng):
            if not self._is_free(x, y, span) or self._tries == 0:
                continue
            self._tries -= 1
            added = self._lay(x, y, span)
            if not self._is_faulty(x, y, span) and self._fill_from(number):
                return True
            self._take_up(added)
        return False

    def _is_free(self, x: int, y: int, span: tuple[int, int]) -> bool:
        return not any(self._taken[row][column] for column, row in _modules(x, y, span))

    def _lay(self, x: int, y: int, span: tuple[int, int]) -> Joints:
        """Lays a piece and returns the joints that it adds."""
        self.places.append(Place(kind=KIND_OF[span], at=(x, y), span=span))
        for column, row in _modules(x, y, span):
            self._taken[row][column] = True
        wide, high = span
        sides = [(self._left, row % MODULES, at % MODULES) for row in range(y, y + high) for at in (x, x + wide)]
        sides += [(self._below, at % MODULES, row % MODULES) for at in range(x, x + wide) for row in (y, y + high)]
        added = [(grid, one, other) for grid, one, other in sides if not grid[one][other]]
        for grid, one, other in added:
            grid[one][other] = True
        return added

    def _take_up(self, added: Joints) -> None:
        place = self.places.pop()
        for column, row in _modules(*place.at, place.span):
            self._taken[row][column] = False
        for grid, one, other in added:
            grid[one][other] = False

    def _is_faulty(self, x: int, y: int, span: tuple[int, int]) -> bool:
        """Returns whether four corners meet at a corner of a piece, or a straight joint along it runs too far."""
        left, below = self._left, self._below
        columns, rows = [x, (x + span[0]) % MODULES], [y, (y + span[1]) % MODULES]
        for column in columns:
            for row in rows:
                before, under = (column - 1) % MODULES, (row - 1) % MODULES
                if left[row][column] and left[under][column] and below[column][row] and below[before][row]:
                    return True
        return any(_runs_far([left[row][column] for row in range(MODULES)]) for column in columns) or any(
            _runs_far([below[column][row] for column in range(MODULES)]) for row in rows
        )


def _nothing() -> Grid:
    return [[False] * MODULES for _ in range(MODULES)]


def _modules(x: int, y: int, span: tuple[int, int]) -> Iterator[tuple[int, int]]:
    wide, high = span
    return (((x + i) % MODULES, (y + j) % MODULES) for j in range(high) for i in range(wide))


def _drawn(rng: np.random.Generator) -> list[tuple[int, int]]:
    """Returns the spans in the order in which they are reached for, likely ones sooner."""
    keys = {span: -math.log(1.0 - float(rng.random())) / likely for span, likely in LIKELY.items()}
    return sorted(keys, key=lambda span: keys[span])


def _runs_far(joints: list[bool]) -> bool:
    """Returns whether a run of joints, round the seam, is longer than `RUN`."""
    if all(joints):
        return True
    start = joints.index(False)
    run = 0
    for joint in (*joints[start:], *joints[:start]):
        run = run + 1 if joint else 0
        if run > RUN:
            return True
    return False
