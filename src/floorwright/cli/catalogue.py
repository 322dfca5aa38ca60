"""The catalogue of patterns as text and as data."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.cli.text import paragraph, table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from floorwright.pattern.entry import Parameter, Pattern


def catalogue_text(patterns: Sequence[Pattern]) -> str:
    """Returns a table of patterns: name, what it looks like, the keys that it takes."""
    rows = [(pattern.name, pattern.says, ", ".join(keys_of(pattern))) for pattern in patterns]
    told = "`floorwright patterns NAME` tells all about one."
    return f"{table(('Pattern', 'What it is', 'Keys'), rows, left=(0, 1, 2))}\n\n{told}"


def keys_of(pattern: Pattern) -> list[str]:
    """Returns the keys of a zone that a pattern takes beside its goods and its joint."""
    own = [one.key for one in pattern.parameters]
    return [*(["sizes"] if len(pattern.kinds) > 1 else []), *(["stand"] if pattern.stands else []), *own]


def pattern_text(pattern: Pattern) -> str:
    """Returns all about one pattern."""
    goods = [f"{kind.name or 'goods'}: {kind.measured}" for kind in pattern.kinds]
    lines = [
        f"{pattern.name}: {pattern.says}.",
        f"Goods: {'; '.join(goods)}.",
        *(f"{one.key}: {one.meaning}{allowed(one)}." for one in pattern.parameters),
        *(("stand: square to wall or diagonal to wall; nobody can sign before it is said.",) if pattern.stands else ()),
        f"Closes {pattern.closes}.",
        f"Working lines: {pattern.lines}.",
        f"Angles: {pattern.angles}.",
        *pattern.cautions,
    ]
    return "\n".join(paragraph(line) for line in lines)


def allowed(parameter: Parameter) -> str:
    """Returns what a parameter may be and what it is without a value, as a phrase in brackets."""
    parts = []
    if parameter.choices:
        parts.append(" or ".join(parameter.choices))
    elif parameter.least is not None and parameter.most is not None:
        parts.append(f"{parameter.least:g} to {parameter.most:g}")
    if parameter.default not in (None, ()):
        parts.append(f"without it {parameter.default}")
    return f" ({'; '.join(parts)})" if parts else ""
