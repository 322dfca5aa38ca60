"""Runs the app: which address it takes, and what it tells the person of it."""

from __future__ import annotations

import contextlib
import socket
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from floorwright.web.guard import KEY_NAME, Guard, hosts_of, new_key

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

LOCAL: Final = "127.0.0.1"
EVERYWHERE: Final = "0.0.0.0"  # noqa: S104 - only where the person asks for it, and then with a key
DEFAULT_PORT: Final = 8660
TRIES: Final = 20
"""Ports tried from the default one, where that is taken."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Post:
    """Where the app is to be found.

    Attributes:
        listener: bound, not yet listening.
        guard: what a request must show.
        link: for this machine's browser.
        lan: for others on the network, None on the loopback alone.
    """

    listener: socket.socket
    guard: Guard
    link: str
    lan: str | None


def take_post(port: int | None, *, lan: bool) -> Post:
    """Returns a place to serve from.

    Args:
        port: the one wanted; None for the default one or the next that is free.
        lan: whether others on the network may come in, with a key.

    Raises:
        OSError: the port, or every port tried, is taken.
    """
    listener = _bound(EVERYWHERE if lan else LOCAL, port)
    taken = listener.getsockname()[1]
    if not lan:
        return Post(listener=listener, guard=Guard(hosts=hosts_of(taken)), link=f"http://{LOCAL}:{taken}/", lan=None)
    key, address = new_key(), lan_address()
    names = [address, socket.gethostname().lower(), f"{socket.gethostname().lower()}.local"]
    return Post(
        listener=listener,
        guard=Guard(hosts=hosts_of(taken, names), key=key),
        link=f"http://{LOCAL}:{taken}/?{KEY_NAME}={key}",
        lan=f"http://{address}:{taken}/?{KEY_NAME}={key}",
    )


def _bound(host: str, port: int | None) -> socket.socket:
    ports = [port] if port is not None else [*range(DEFAULT_PORT, DEFAULT_PORT + TRIES)]
    for wanted in ports:
        # Only of a socket that says it is TCP does the event loop send at once what is small: others wait 40 ms.
        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((host, wanted))
        except OSError:
            listener.close()
            if wanted == ports[-1]:
                raise
        else:
            return listener
    raise AssertionError("there is a port to try")


def lan_address() -> str:
    """Returns this machine's address on its network, the loopback's where it is on none."""
    with contextlib.suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        # Nothing is sent: the system only says from where it would be. The address is one kept for documents.
        probe.connect(("192.0.2.1", 9))
        return str(probe.getsockname()[0])
    return LOCAL


def qr_text(link: str) -> str:
    """Returns a QR code of a link for a terminal."""
    from io import StringIO

    import segno

    drawn = StringIO()
    segno.make(link, error="l").terminal(out=drawn, compact=True, border=2)
    return drawn.getvalue()


def serve(folder: Path, post: Post, started: Callable[[], None]) -> None:
    """Serves the app until Ctrl-C.

    Args:
        folder: of job files.
        post: where.
        started: called once it answers.
    """
    import uvicorn

    from floorwright.web.app import create_app

    config = uvicorn.Config(
        create_app(folder, post.guard),
        log_level="warning",
        access_log=False,
        server_header=False,
        timeout_graceful_shutdown=2,
    )

    class Server(uvicorn.Server):
        async def startup(self, sockets: list[socket.socket] | None = None) -> None:
            await super().startup(sockets)
            started()

    Server(config).run(sockets=[post.listener])
