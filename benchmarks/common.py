"""What every benchmark needs: the processor's name, CPU time, and a table with ratios."""

import os
import platform
import time
from collections.abc import Callable
from pathlib import Path


def processor() -> str:
    """Returns the name of the processor, as the system gives it, and how many cores it has."""
    info = Path("/proc/cpuinfo")
    lines = info.read_text(encoding="utf-8").splitlines() if info.exists() else []
    named = [line.partition(":")[2].strip() for line in lines if line.startswith("model name")]
    return f"{named[0] if named else platform.processor() or platform.machine()}, {os.cpu_count()} cores"


def cpu_ms(work: Callable[[], object], *, repeats: int = 7, loops: int = 1) -> float:
    """Returns the least CPU milliseconds of one call over some repeats, after one call to warm."""
    work()
    least = float("inf")
    for _ in range(repeats):
        start = time.process_time()
        for _ in range(loops):
            work()
        least = min(least, (time.process_time() - start) / loops)
    return 1e3 * least
