"""What cannot be so in what a zone asks of its pattern: keys of another one, figures out of range, sizes of no use."""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING, Any

import shapely

from floorwright.job.check.needs import unused
from floorwright.job.read.misfit import quoted
from floorwright.job.read.problem import UNTOLD, Problem, did_you_mean, listed
from floorwright.pattern.catalogue import KEYS, PATTERNS
from floorwright.tolerance import SLIVER_AREA

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.job.check.reference import Known
    from floorwright.job.model import DrawnPattern, Job, Zone
    from floorwright.job.read.positions import Path
    from floorwright.pattern.entry import Parameter, Pattern


def check_drawn(job: Job, original: dict[str, Any]) -> Iterator[Problem]:
    """Yields drawn patterns that are none: without pieces, of a name that is taken, repeating nowhere, crossing
    themselves.

    Args:
        job: what is left of it.
        original: the tables of the file, with what was left out.
    """
    tables = original.get("patterns")
    given = {table["name"] for table in tables if _has_pieces(table)} if isinstance(tables, list) else set()
    for i, one in enumerate(job.patterns):
        path: Path = ("patterns", i)
        yield from _of_no_drawing(path, one)
        if one.name in PATTERNS or one.name in [other.name for other in job.patterns[:i]]:
            yield Problem(
                path=(*path, "name"),
                code="job-same-name",
                found=f"a second pattern called {quoted(one.name)}",
                expected="a name that no pattern has",
                remedy="give it another",
                drop=path,
            )
        else:
            yield from islice(_incomplete(path, one, told=one.name in given), 1)


def _of_no_drawing(path: Path, one: DrawnPattern) -> Iterator[Problem]:
    """Keys that say how a drawing is read, where there is none."""
    for key in ("layers", "drawn_in"):
        if one.traced is None and getattr(one, key):
            yield unused((*path, key), f"`{key}` without `traced`")


def _has_pieces(table: object) -> bool:
    return isinstance(table, dict) and isinstance(table.get("name"), str) and bool(table.get("pieces"))


def _incomplete(path: Path, one: DrawnPattern, *, told: bool) -> Iterator[Problem]:
    """What a pattern lacks, or has that cannot be; `told` is whether pieces that are left out are told of."""
    if not one.pieces and (told or one.traced is not None):
        yield Problem(path=path, code=UNTOLD, found="", drop=path)
    if not one.pieces:
        yield _not_drawn((*path, "pieces"), "no pieces", "one piece or more", "draw them, each with its corners")
    for key, vector in (("across", one.across), ("along", one.along)):
        if vector is None:
            yield Problem(
                path=(*path, key),
                code="job-missing-key",
                found=f"no `{key}`",
                expected="both repeat vectors, from a piece to the same piece of the next repeat",
                remedy=f"add {key} = [x, y]",
                drop=path,
            )
    if one.across is None or one.along is None:
        return
    if abs(one.across[0] * one.along[1] - one.across[1] * one.along[0]) < SLIVER_AREA:
        yield _not_drawn(
            (*path, "along"), "two repeats in one line", "one across the other", "measure the repeat again"
        )
    for n, piece in enumerate(one.pieces):
        shape = shapely.Polygon(piece.corners)
        if not shape.is_valid or shape.area < SLIVER_AREA:
            yield _not_drawn(
                (*path, "pieces", n, "corners"),
                "an outline that crosses itself or holds nothing",
                "corners in order round the piece",
                "look at their order",
            )


def _not_drawn(path: Path, found: str, expected: str, remedy: str) -> Problem:
    return Problem(
        path=path, code="job-pattern", found=found, expected=expected, remedy=remedy, drop=path[:2]
    )  # fmt: skip


def check_parameters(path: Path, zone: Zone, pattern: Pattern) -> Iterator[Problem]:
    """Yields keys that this pattern has no use for, and values that it does not allow."""
    given = zone.model_fields_set & {*KEYS, "stand"}
    own = {one.key for one in pattern.parameters} | ({"stand"} if pattern.stands else set())
    for key in sorted(given - own):
        yield unused((*path, key), f"`{key}` with {quoted(zone.pattern)}")
    for parameter in pattern.parameters:
        value = getattr(zone, parameter.key)
        if parameter.key in given and value is not None and not parameter.allows(value):
            yield out_of_range((*path, parameter.key), parameter, value, path)


def out_of_range(path: Path, parameter: Parameter, value: object, drop: Path) -> Problem:
    """Returns the problem of a parameter's value that its pattern does not allow."""
    expected = listed(parameter.choices) if parameter.choices else f"{parameter.least:g} to {parameter.most:g}"
    return Problem(
        path=path,
        code="job-range",
        found=f"{value:g}" if isinstance(value, int | float) else quoted(str(value)),
        expected=f"{expected}: {parameter.meaning}",
        remedy=f"write one of them, or leave it out for {parameter.default}",
        drop=drop,
    )


def check_sizes(path: Path, zone: Zone, pattern: Pattern, known: Known) -> Iterator[Problem]:
    """Yields sizes that the pattern does not have, goods that there are not, and sizes that it needs."""
    main, *others = pattern.kinds
    for name, goods in zone.sizes.items():
        if all(kind.name != name for kind in others):
            yield _no_size((*path, "sizes", name), name, pattern)
        else:
            yield from known.check((*path, "sizes", name), goods, path)
    for kind in others:
        if kind.own and kind.name not in zone.sizes:
            yield Problem(
                path=(*path, "sizes"),
                code="job-missing-key",
                found=f"no goods for the {kind.name} of {quoted(pattern.name)}",
                expected=f"goods for each size; `goods` are those of the {main.name}",
                remedy="write sizes = { " + ", ".join(f'{one.name} = "..."' for one in others if one.own) + " }",
                drop=path,
            )
            return


def _no_size(path: Path, name: str, pattern: Pattern) -> Problem:
    main, *others = pattern.kinds
    names = [kind.name for kind in others]
    near = did_you_mean(name, names) if names else None
    if not names:
        expected = f"no sizes: {quoted(pattern.name)} has one, whose goods are `goods`"
    else:
        expected = f"{listed(names)}; `goods` are those of the {main.name}"
    return Problem(
        path=path,
        code="job-choice",
        found=f"a size called {quoted(name)}",
        expected=expected,
        remedy=f"write {near}" if near else "take it out",
        drop=path,
    )
