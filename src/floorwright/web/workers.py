"""Processes that do the slow work, so that no answer waits behind it and all of it can be stopped.

Work goes by lanes, such as the search for one job: what is asked for in a lane takes the place of what is still being
done there, and that is ended at once. A process that is ended, runs over its time or dies is replaced by a fresh one.
"""

from __future__ import annotations

import asyncio
import contextlib
import importlib
import os
import signal
import sys
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from floorwright.errors import FloorwrightError

if TYPE_CHECKING:
    from collections.abc import Callable
    from multiprocessing.connection import Connection
    from multiprocessing.context import BaseContext
    from multiprocessing.process import BaseProcess
    from types import ModuleType

TASKS: Final = "floorwright.web.tasks"
"""The module whose functions are the tasks."""

MEMORY: Final = 2 << 30
"""Bytes that a process may grow by, whatever it is given to read."""

BEHIND: Final = 5
"""How much nicer than the others a process is whose work nobody waits for: they get about three times its share."""

NEWS, DONE, FAILED = "news", "done", "failed"
STOP: Final = ("stop", ())

SEARCHING: Final = "searching"
"""How what a search tells that it is doing begins; there it can be stopped, and hands over the best that it has."""


class SupersededError(FloorwrightError):
    """The work was ended since newer work took its place."""


class OverTimeError(FloorwrightError):
    """The work was ended since it took too long."""


class WorkersError(FloorwrightError):
    """The work ended in a fault of ours; the message says which, for the log alone."""


@dataclass(slots=True, eq=False)
class _Worker:
    process: BaseProcess
    link: Connection

    def end(self) -> None:
        self.process.kill()
        self.process.join()
        with contextlib.suppress(OSError):
            self.link.close()


@dataclass(slots=True, eq=False)
class _Run:
    """Work that is waiting or being done."""

    worker: _Worker | None = None
    superseded: bool = False

    def supersede(self) -> None:
        self.superseded = True
        if self.worker is not None:
            self.worker.process.kill()


class Workers:
    """Some processes for one kind of work."""

    def __init__(self, count: int, *, behind: bool = False) -> None:
        """Takes how many there are, and whether all other work goes before theirs; they start with the first work."""
        self._count = count
        self._behind = behind
        # The one that was busy last comes first: it has kept what it made.
        self._idle: asyncio.LifoQueue[_Worker | None] = asyncio.LifoQueue()
        for _ in range(count):
            self._idle.put_nowait(None)
        self._lanes: dict[str, _Run] = {}
        self._all: set[_Worker] = set()

    async def run(
        self, task: str, *given: Any, lane: str, seconds: float, tell: Callable[[str, float], None] | None = None
    ) -> Any:
        """Returns what a task makes of its arguments.

        Args:
            task: name of a function in `web.tasks`.
            given: its arguments, which must go from process to process.
            lane: what it takes the place of.
            seconds: after which it is ended.
            tell: told what is being done and the share of it done.

        Raises:
            SupersededError: newer work in the lane took its place.
            OverTimeError: it took too long.
            WorkersError: it raised.
        """
        run = _Run()
        before = self._lanes.get(lane)
        if before is not None:
            before.supersede()
        self._lanes[lane] = run
        worker = await self._idle.get()
        if run.superseded:
            self._idle.put_nowait(worker)
            raise SupersededError(lane)
        whole = False
        try:
            if worker is None or not worker.process.is_alive():
                worker = await asyncio.to_thread(self._fresh)
            run.worker = worker
            if run.superseded:
                raise SupersededError(lane)
            async with asyncio.timeout(seconds):
                answer = await _answer(worker, (task, given), tell)
            whole = True
        except TimeoutError:
            raise OverTimeError(task) from None
        except (EOFError, OSError) as error:
            if run.superseded:
                raise SupersededError(lane) from None
            raise WorkersError(f"{task}: its process died") from error
        finally:
            run.worker = None
            if not whole and worker is not None:
                self._all.discard(worker)
                worker.end()
            self._idle.put_nowait(worker if whole else None)
            if self._lanes.get(lane) is run:
                del self._lanes[lane]
        kind, value = answer
        if kind == FAILED:
            raise WorkersError(f"{task}: {value}")
        return value

    def stop(self, lane: str) -> bool:
        """Has the search in a lane end with the best that it has, as Ctrl-C does; whether there was one."""
        run = self._lanes.get(lane)
        if run is None or run.worker is None:
            return False
        with contextlib.suppress(OSError):
            run.worker.link.send(STOP)
        return True

    def close(self) -> None:
        """Ends all processes."""
        for worker in list(self._all):
            worker.end()
        self._all.clear()

    def _fresh(self) -> _Worker:
        context = _context()
        ours, theirs = context.Pipe()
        process = context.Process(target=_serve, args=(theirs, TASKS, self._behind), daemon=True)  # type: ignore[attr-defined]
        process.start()
        theirs.close()
        worker = _Worker(process=process, link=ours)
        self._all.add(worker)
        return worker


def _context() -> BaseContext:
    """Returns how processes are made: forked from one that holds the libraries and no threads, where there is that."""
    import multiprocessing

    if "forkserver" in multiprocessing.get_all_start_methods():
        context = multiprocessing.get_context("forkserver")
        context.set_forkserver_preload([TASKS])
        return context
    return multiprocessing.get_context("spawn")


async def _answer(worker: _Worker, work: Any, tell: Callable[[str, float], None] | None) -> tuple[str, Any]:
    await asyncio.to_thread(worker.link.send, work)
    while True:
        kind, value = await asyncio.to_thread(worker.link.recv)
        if kind != NEWS:
            return kind, value
        if tell is not None:
            tell(*value)


def _serve(link: Connection, module: str, behind: bool) -> None:
    """Does the tasks of a module until the link closes; runs in a process of its own."""
    # Ctrl-C at the terminal is the server's to hear.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if behind and sys.platform != "win32":
        os.nice(BEHIND)
    tasks = importlib.import_module(module)
    limit_memory()
    while True:
        try:
            work = link.recv()
            if work == STOP:  # It came when the search had just ended.
                continue
            link.send(_done(tasks, work, link))
        except (EOFError, OSError):
            return


def _done(tasks: ModuleType, work: tuple[str, tuple[Any, ...]], link: Connection) -> tuple[str, Any]:
    task, given = work

    def tell(what: str, share: float) -> None:
        link.send((NEWS, (what, share)))
        if what.startswith(SEARCHING) and link.poll():
            link.recv()
            raise KeyboardInterrupt

    try:
        return DONE, getattr(tasks, task)(*given, tell)
    except OSError:
        raise
    except Exception as error:  # Whatever it is, the process goes on, and the server says so.
        return FAILED, f"{type(error).__name__}: {error}"


def limit_memory() -> None:
    """Lets this process grow by no more than `MEMORY`, where the system can be told so."""
    if sys.platform == "win32":
        return
    import resource

    _, most = resource.getrlimit(resource.RLIMIT_AS)
    now = _size()
    wanted = now + MEMORY if most == resource.RLIM_INFINITY else min(now + MEMORY, most)
    resource.setrlimit(resource.RLIMIT_AS, (wanted, most))


def _size() -> int:
    """Returns the bytes of address space that this process has now, 0 where the system does not say."""
    try:
        with open("/proc/self/statm", encoding="ascii") as stream:  # noqa: PTH123 - a path of the system's, not a file
            return int(stream.read().split()[0]) * os.sysconf("SC_PAGE_SIZE")
    except OSError:
        return 4 << 30
