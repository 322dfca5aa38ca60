"""Ctrl-C while a job is solved: a search ends with the best it has, and what comes between searches is finished."""

from __future__ import annotations

import signal
import threading
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from types import FrameType

SEARCHES: Final = ("searching", "weighing", "trying changes")
"""How the words begin for what may be broken off anywhere and hands over the best that it has."""


@dataclass(slots=True)
class Stop:
    """Whether Ctrl-C was pressed, and what was being done when it was last told.

    Attributes:
        asked: whether it was pressed.
        what: is being done.
    """

    asked: bool = False
    what: str = ""

    @property
    def in_search(self) -> bool:
        """Whether a search is on."""
        return self.what.startswith(SEARCHES)


@contextmanager
def stoppable(
    progress: Callable[[str, float], None],
) -> Iterator[tuple[Callable[[str, float], None], Stop]]:
    """Gives a function to call with what is being done and how far it is, and whether Ctrl-C was pressed.

    Pressed in a search, it is raised there; between searches it waits for the next one, which is short then, so that
    there is a result to show. Pressed again it ends everything at once.
    """
    stop = Stop()

    def told(what: str, share: float) -> None:
        stop.what = what
        progress(what, share)
        # At the very start of a search nothing would catch it.
        if stop.asked and stop.in_search and share > 0:
            raise KeyboardInterrupt

    def pressed(_signal: int, _frame: FrameType | None) -> None:
        again, stop.asked = stop.asked, True
        if again or stop.in_search:
            raise KeyboardInterrupt

    if threading.current_thread() is not threading.main_thread():
        yield told, stop
        return
    before = signal.signal(signal.SIGINT, pressed)
    try:
        yield told, stop
    finally:
        signal.signal(signal.SIGINT, before)
