"""The one page of the app and its files: they come with the package, and nothing comes from anywhere else.

They are read once and sent gzipped, the client's own modules as one script and its styles as one. The address of each
holds the version of them all, so that a browser keeps what it has and asks again only for another version; and the page
names all that the script imports, so that it is asked for at once.
"""

from __future__ import annotations

import base64
import gzip
import hashlib
import json
import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Final

from floorwright.web.joined import joined

MODULES: Final = {
    "preact": "vendor/preact.js",
    "preact/hooks": "vendor/preact-hooks.js",
    "htm": "vendor/htm.js",
    "@preact/signals-core": "vendor/signals-core.js",
    "@preact/signals": "vendor/signals.js",
}
"""Names that modules import others by."""

TYPES: Final = {
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "json": "application/json",
    "svg": "image/svg+xml",
    "otf": "font/otf",
    "LICENSE": "text/plain; charset=utf-8",
}

_STATIC: Final = files("floorwright") / "web" / "static"
_FONTS: Final = files("floorwright") / "export" / "fonts"
"""The face of the sheets is the face of the screens."""

FIRST: Final = "app/main.js"
SCRIPT: Final = "app.js"
"""The client's own modules as they are sent."""

STYLE: Final = "style.css"
"""The styles that the page names as they are sent."""

_SHEET: Final = re.compile(r'\s*<link rel="stylesheet" href="/static/(style/[^"]+)" />')


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Static:
    """A file as it is sent.

    Attributes:
        content: as it is.
        zipped: the same, gzipped.
        kind: its media type.
    """

    content: bytes
    zipped: bytes
    kind: str


@cache
def statics() -> dict[str, Static]:
    """Returns every file that may be asked for by its name, folders before it."""
    found = contents()
    styles = re.findall(_SHEET, _template())
    sent = {name: content for name, content in found.items() if not name.startswith("app/") and name not in styles}
    modules = {name: content.decode() for name, content in found.items() if name.startswith("app/")}
    sent[SCRIPT] = joined(FIRST, modules).encode()
    sent[STYLE] = b"".join(found[name] for name in styles).replace(b'url("../', b'url("')
    return {name: _sized(content, TYPES[name.rpartition(".")[2]]) for name, content in sent.items()}


def _sized(content: bytes, kind: str) -> Static:
    return Static(content=content, zipped=gzip.compress(content, mtime=0), kind=kind)


def contents() -> dict[str, bytes]:
    """Returns what the package holds for the page, by name, folders before it."""
    found: dict[str, bytes] = {}
    folders = [("", _STATIC), ("fonts/", _FONTS)]
    while folders:
        prefix, folder = folders.pop()
        for item in folder.iterdir():
            if item.is_dir():
                folders.append((f"{prefix}{item.name}/", item))
            elif item.name.rpartition(".")[2] in TYPES:
                found[f"{prefix}{item.name}"] = item.read_bytes()
    return dict(sorted(found.items()))


@cache
def version() -> str:
    """Returns what tells these files from those of any other version."""
    whole = hashlib.sha256()
    for name, one in statics().items():
        whole.update(name.encode() + b"\0" + one.content)
    return whole.hexdigest()[:16]


def static_file(asked: str) -> tuple[Static, bool] | None:
    """Returns a file, and whether it was asked for by its version and so may be kept; None where there is none."""
    first, _, rest = asked.partition("/")
    kept = first == version()
    found = statics().get(rest if kept else asked)
    return None if found is None else (found, kept)


def import_map() -> str:
    """Returns the map from names of modules to where they are, which the page holds inline."""
    return json.dumps({"imports": {name: f"{_root()}{path}" for name, path in MODULES.items()}})


def _root() -> str:
    return f"/static/{version()}/"


@cache
def script_hashes() -> tuple[str, ...]:
    """Returns the hashes of the inline scripts that the page holds: the import map's alone."""
    digest = hashlib.sha256(import_map().encode()).digest()
    return (f"sha256-{base64.b64encode(digest).decode()}",)


@cache
def page() -> Static:
    """Returns the page."""
    ahead = "\n    ".join(f'<link rel="modulepreload" href="/static/{name}" />' for name in MODULES.values())
    text = _page_of_one_style().replace("{{ modules }}", ahead).replace('"/static/', f'"{_root()}')
    return _sized(text.replace("{{ import map }}", import_map()).encode(), "text/html; charset=utf-8")


def _template() -> str:
    return (_STATIC / "index.html").read_text(encoding="utf-8")


def _page_of_one_style() -> str:
    """Returns the page with one style in place of those that it names, one behind the other."""
    one = f'\n    <link rel="stylesheet" href="/static/{STYLE}" />'
    return re.sub(_SHEET, "", re.sub(_SHEET, one, _template(), count=1))


def loaded_names() -> tuple[str, ...]:
    """Returns the names of what the page loads but for the fonts."""
    named = re.findall(r'"/static/([^"]+)"', _page_of_one_style())
    return (*(name for name in named if not name.startswith("fonts/")), *MODULES.values())
