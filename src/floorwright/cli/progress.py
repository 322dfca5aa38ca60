"""One line on a terminal that says what is being done: only where it takes a while, and nothing on a pipe."""

from __future__ import annotations

import sys
from contextlib import contextmanager
from time import monotonic
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

PATIENCE: Final = 0.5
"""Seconds before anything is shown."""


@contextmanager
def progress_line() -> Iterator[Callable[[str, float], None]]:
    """Gives a function to call with what is being done and how far it is, 0 to 1; the line is gone at the end."""
    started = monotonic()
    widest = 0

    def show(what: str, share: float) -> None:
        nonlocal widest
        if not sys.stderr.isatty() or monotonic() - started < PATIENCE:
            return
        line = f"{what}: {share:.0%}"
        widest = max(widest, len(line))
        sys.stderr.write("\r" + line.ljust(widest))
        sys.stderr.flush()

    try:
        yield show
    finally:
        if widest:
            sys.stderr.write("\r" + " " * widest + "\r")
            sys.stderr.flush()
