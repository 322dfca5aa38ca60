"""The gate that every request goes through: let in or refused, no larger than it may be, answered with the headers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse

from floorwright.web.guard import COOKIE, key_in

if TYPE_CHECKING:
    from collections.abc import Mapping

    from starlette.types import ASGIApp, Message, Receive, Scope, Send

    from floorwright.web.guard import Guard

LARGEST_BODY: Final = 32_000_000
"""Bytes of a request: a drawing of the largest size, or a job file of the largest size written with escapes."""


TOO_LARGE: Final = f"a request may hold {LARGEST_BODY // 1_000_000} MB at most"


def fault(status: int, code: str, message: str, **more: Any) -> JSONResponse:
    """Returns an answer that is an error, in the one shape that they all have."""
    return JSONResponse({"error": {"code": code, "message": message, **more}}, status_code=status)


class Gate:
    """Middleware: it holds no answer back, so that news of long work goes out as it comes."""

    def __init__(self, app: ASGIApp, *, guard: Guard, headers: Mapping[str, str]) -> None:
        """Takes what it stands before, what a request must show, and the headers of every answer."""
        self._app = app
        self._guard = guard
        self._headers = headers

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Lets a request through, or answers it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        asked = Headers(scope=scope)
        query = scope["query_string"].decode("latin-1")
        refusal = self._guard.refusal(scope["method"], asked, query)
        shown = refusal is None and bool(key_in(query))

        async def say(message: Message) -> None:
            if message["type"] == "http.response.start":
                self._finish(MutableHeaders(scope=message), shown=shown)
            await send(message)

        length = asked.get("content-length", "")
        if refusal is not None:
            await fault(refusal.status, "refused", refusal.why)(scope, receive, say)
        elif length.isdigit() and int(length) > LARGEST_BODY:
            await fault(413, "http", TOO_LARGE)(scope, receive, say)
        else:
            await self._app(scope, _counted(receive), say)

    def _finish(self, headers: MutableHeaders, *, shown: bool) -> None:
        """Adds the headers of every answer, and the cookie that carries the key from then on where it was shown."""
        for name, value in self._headers.items():
            headers.setdefault(name, value)
        if self._guard.key is not None and shown:
            headers.append("set-cookie", f"{COOKIE}={self._guard.key}; HttpOnly; Path=/; SameSite=strict")


def _counted(receive: Receive) -> Receive:
    """Returns what hands the parts of a request on until they are more than a request may hold, whatever it said."""
    size = 0

    async def counted() -> Message:
        nonlocal size
        message = await receive()
        size += len(message.get("body", b""))
        if size > LARGEST_BODY:
            raise HTTPException(413, TOO_LARGE)
        return message

    return counted
