"""Work in processes: done, superseded, stopped, over its time, and failed."""

import asyncio
import sys
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest

from floorwright.web import workers
from floorwright.web.workers import OverTimeError, SupersededError, Workers, WorkersError

HELD = "tests_web_held"


@pytest.fixture(autouse=True)
def own_tasks(monkeypatch: pytest.MonkeyPatch, tmp_path: Any) -> None:
    """Puts tasks in place that tests can hold up; a process finds them by path, as it shares nothing with this one."""
    (tmp_path / f"{HELD}.py").write_text(
        "import os, time\n"
        "def add(a, b, tell):\n    tell('adding', 0.5)\n    return a + b\n"
        "def wait(seconds, tell):\n    time.sleep(seconds)\n    return 'waited'\n"
        "def look(tell):\n"
        "    try:\n"
        "        for n in range(1000):\n"
        "            tell('searching all positions', n / 1000)\n"
        "            time.sleep(0.02)\n"
        "    except KeyboardInterrupt:\n        return 'best so far'\n    return 'all'\n"
        "def fail(tell):\n    raise ValueError('our own')\n"
        "def hoard(size, tell):\n    return len(bytearray(size))\n"
        "def die(tell):\n    os._exit(9)\n"
        "def nice(tell):\n    return os.nice(0)\n",
        encoding="utf-8",
    )
    monkeypatch.setattr(workers, "TASKS", HELD)
    monkeypatch.syspath_prepend(str(tmp_path))


def run(work: Coroutine[Any, Any, Any]) -> Any:
    """Runs it in a thread: a browser that other tests keep open has this one's loop."""
    with ThreadPoolExecutor(1) as thread:
        return thread.submit(asyncio.run, work).result()


def test_a_task_gives_its_answer_and_its_news() -> None:
    async def work() -> None:
        crew, news = Workers(1), list[tuple[str, float]]()
        answer = await crew.run("add", 2, 3, lane="a", seconds=20, tell=lambda *one: news.append(one))
        crew.close()
        assert (answer, news) == (5, [("adding", 0.5)])

    run(work())


def test_newer_work_in_a_lane_ends_the_older_at_once() -> None:
    async def work() -> None:
        crew = Workers(2)
        older = asyncio.create_task(crew.run("wait", 60, lane="a", seconds=90))
        await asyncio.sleep(0.3)
        assert await crew.run("add", 1, 1, lane="a", seconds=20) == 2
        with pytest.raises(SupersededError):
            await older
        crew.close()

    run(work())


def test_work_that_waits_for_a_process_is_superseded_too() -> None:
    async def work() -> None:
        crew = Workers(1)
        first = asyncio.create_task(crew.run("wait", 0.5, lane="b", seconds=20))
        await asyncio.sleep(0.1)
        older = asyncio.create_task(crew.run("add", 1, 1, lane="a", seconds=20))
        await asyncio.sleep(0.1)
        assert await crew.run("add", 2, 2, lane="a", seconds=20) == 4
        assert await first == "waited"
        with pytest.raises(SupersededError):
            await older
        crew.close()

    run(work())


def test_a_stopped_search_hands_over_the_best_it_has_and_its_process_goes_on() -> None:
    async def work() -> None:
        crew, begun = Workers(1), asyncio.Event()
        loop = asyncio.get_running_loop()

        def tell(_what: str, _share: float) -> None:
            loop.call_soon_threadsafe(begun.set)

        look = asyncio.create_task(crew.run("look", lane="a", seconds=60, tell=tell))
        await begun.wait()
        assert crew.stop("a")
        assert await look == "best so far"
        assert not crew.stop("a")
        assert await crew.run("add", 1, 2, lane="a", seconds=20) == 3
        crew.close()

    run(work())


def test_work_over_its_time_is_ended_and_the_next_is_done() -> None:
    async def work() -> None:
        crew = Workers(1)
        with pytest.raises(OverTimeError):
            await crew.run("wait", 60, lane="a", seconds=0.3)
        assert await crew.run("add", 1, 2, lane="a", seconds=20) == 3
        crew.close()

    run(work())


@pytest.mark.parametrize("task", ["fail", "die", "nothing_of_that_name"])
def test_work_that_fails_says_so_and_the_next_is_done(task: str) -> None:
    async def work() -> None:
        crew = Workers(1)
        with pytest.raises(WorkersError, match=task):
            await crew.run(task, lane="a", seconds=20)
        assert await crew.run("add", 1, 2, lane="a", seconds=20) == 3
        crew.close()

    run(work())


def test_work_that_wants_more_memory_than_it_may_have_fails_and_the_next_is_done() -> None:
    async def work() -> None:
        crew = Workers(1)
        with pytest.raises(WorkersError, match="MemoryError"):
            await crew.run("hoard", workers.MEMORY * 5 // 4, lane="a", seconds=20)
        assert await crew.run("hoard", 1000, lane="a", seconds=20) == 1000
        crew.close()

    run(work())


def test_who_no_longer_waits_ends_the_work() -> None:
    async def work() -> None:
        crew = Workers(1)
        asked = asyncio.create_task(crew.run("wait", 60, lane="a", seconds=90))
        await asyncio.sleep(0.3)
        asked.cancel()
        with pytest.raises(asyncio.CancelledError):
            await asked
        assert await crew.run("add", 1, 2, lane="a", seconds=20) == 3
        crew.close()

    run(work())


@pytest.mark.skipif(sys.platform == "win32", reason="there processes are not nice to each other")
def test_what_nobody_waits_for_gives_way_to_what_somebody_does() -> None:
    async def work() -> None:
        ahead, behind = Workers(1), Workers(1, behind=True)
        first, second = [await crew.run("nice", lane="a", seconds=20) for crew in (ahead, behind)]
        assert second > first
        ahead.close()
        behind.close()

    run(work())
