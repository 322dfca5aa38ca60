"""The patterns that people ask for by name, each made at the real size and joint of the goods.

A new pattern is one function that returns a `UnitCell` and one entry in a table of `BUILT_IN`.
"""

from typing import Final

from floorwright.errors import FloorwrightValueError
from floorwright.pattern.entries_many import MANY
from floorwright.pattern.entries_one import ONE_SIZE
from floorwright.pattern.entries_seeded import SEEDED
from floorwright.pattern.entry import Pattern
from floorwright.pattern.rows import brick_bond, grid

__all__ = ["BUILT_IN", "KEYS", "PATTERNS", "brick_bond", "grid", "register"]

PATTERNS: Final[dict[str, Pattern]] = {}
"""Every pattern by the name that a job file calls it."""


def register(pattern: Pattern) -> None:
    """Adds a pattern to the catalogue.

    Raises:
        FloorwrightValueError: if the name is taken.
    """
    if pattern.name in PATTERNS:
        raise FloorwrightValueError(f"there is a pattern called {pattern.name!r} already")
    PATTERNS[pattern.name] = pattern


BUILT_IN: Final[tuple[Pattern, ...]] = (*ONE_SIZE, *MANY, *SEEDED)

for _pattern in BUILT_IN:
    register(_pattern)

KEYS: Final = frozenset(one.key for pattern in BUILT_IN for one in pattern.parameters)
"""Every key of a zone that is some pattern's parameter."""
