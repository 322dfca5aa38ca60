"""Who is let in: this machine alone, or those with the key; and what a page may load.

A page of another site must not reach the app through the person's own browser. So a request must name a host that the
app was told it has (or a name that a stranger bought could lead here), a change must come from a page of the app's
own, and the pages may run no script and load no thing but their own.
"""

from __future__ import annotations

import hmac
import secrets
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final
from urllib.parse import parse_qs, urlsplit

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

KEY_NAME: Final = "key"
COOKIE: Final = "floorwright-key"
LOOPBACK: Final = ("127.0.0.1", "localhost", "[::1]")
SAFE: Final = frozenset({"GET", "HEAD"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why a request is not answered.

    Attributes:
        status: of HTTP.
        why: in plain words.
    """

    status: int
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Guard:
    """What a request must show.

    Attributes:
        hosts: `name:port` that the app answers to.
        key: what a request must carry, in its address once and in a cookie from then on; None on the loopback alone.
    """

    hosts: frozenset[str]
    key: str | None = None

    def refusal(self, method: str, headers: Mapping[str, str], query: str) -> Refusal | None:
        """Returns why a request is refused, None where it is let in."""
        host = headers.get("host", "").lower()
        if host not in self.hosts:
            return Refusal(status=421, why="this address is not one that the app was started for")
        if method not in SAFE:
            source = headers.get("origin")
            if source is None or urlsplit(source).netloc.lower() != host:
                return Refusal(status=403, why="a change must come from a page of the app itself")
        elif headers.get("sec-fetch-site", "same-origin") not in {"same-origin", "none"} and not self._is_page(headers):
            return Refusal(status=403, why="a page of another site may load nothing from the app")
        if self.key is not None and not self._has_key(headers, query):
            return Refusal(status=401, why="open the link that the app printed: it carries the key")
        return None

    def _is_page(self, headers: Mapping[str, str]) -> bool:
        """Whether a person followed a link here, which is how the link with the key is opened."""
        return headers.get("sec-fetch-mode") == "navigate" and headers.get("sec-fetch-dest") == "document"

    def _has_key(self, headers: Mapping[str, str], query: str) -> bool:
        shown = key_in(query) or cookie_in(headers.get("cookie", ""))
        return bool(shown) and hmac.compare_digest(shown.encode(), (self.key or "").encode())


def key_in(query: str) -> str:
    """Returns the key that an address carries, empty where it has none."""
    return parse_qs(query, max_num_fields=20).get(KEY_NAME, [""])[0] if query else ""


def cookie_in(cookies: str) -> str:
    """Returns the key that the cookies carry, empty where they have none."""
    for cookie in cookies.split(";"):
        name, _, value = cookie.strip().partition("=")
        if name == COOKIE:
            return value
    return ""


def new_key() -> str:
    """Returns a random key, 128 bits."""
    return secrets.token_urlsafe(16)


def hosts_of(port: int, names: Iterable[str] = ()) -> frozenset[str]:
    """Returns what the app answers to: the loopback's names, and others, all with the port."""
    return frozenset(f"{name}:{port}".lower() for name in (*LOOPBACK, *names))


def security_headers(script_hashes: Iterable[str]) -> dict[str, str]:
    """Returns the headers of every answer.

    Args:
        script_hashes: of the inline scripts that the pages hold, `sha256-...`: the import map's alone.
    """
    scripts = " ".join(f"'{one}'" for one in script_hashes)
    policy = (
        "default-src 'none'",
        f"script-src 'self' {scripts}".rstrip(),
        "style-src 'self'",
        # A drawing's own parts are placed by style attributes, which run nothing.
        "style-src-attr 'unsafe-inline'",
        "img-src 'self' data: blob:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
    )
    return {
        "content-security-policy": "; ".join(policy),
        "x-content-type-options": "nosniff",
        "referrer-policy": "no-referrer",
        "cross-origin-opener-policy": "same-origin",
        "cross-origin-resource-policy": "same-origin",
        "cache-control": "no-store",
    }
