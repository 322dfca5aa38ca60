"""The one page of the app and its files: they come with the package, and nothing comes from anywhere else."""

from __future__ import annotations

import base64
import hashlib
import json
from functools import cache
from importlib.resources import files
from typing import Final

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


def import_map() -> str:
    """Returns the map from names of modules to where they are, which the page holds inline."""
    return json.dumps({"imports": {name: f"/static/{path}" for name, path in MODULES.items()}})


def script_hashes() -> tuple[str, ...]:
    """Returns the hashes of the inline scripts that the page holds: the import map's alone."""
    digest = hashlib.sha256(import_map().encode()).digest()
    return (f"sha256-{base64.b64encode(digest).decode()}",)


@cache
def page() -> str:
    """Returns the page."""
    template = (_STATIC / "index.html").read_text(encoding="utf-8")
    return template.replace("{{ import map }}", import_map())


@cache
def static_names() -> frozenset[str]:
    """Returns the names of all files that may be asked for, folders before them."""
    found: list[str] = []
    folders = [("", _STATIC), ("fonts/", _FONTS)]
    while folders:
        prefix, folder = folders.pop()
        for item in folder.iterdir():
            if item.is_dir():
                folders.append((f"{prefix}{item.name}/", item))
            elif item.name.rpartition(".")[2] in TYPES:
                found.append(f"{prefix}{item.name}")
    return frozenset(found)


def static_file(name: str) -> tuple[bytes, str] | None:
    """Returns the content and media type of a file, None where there is none of that name."""
    if name not in static_names():
        return None
    kind = name.rpartition(".")[2]
    source = _FONTS / name.removeprefix("fonts/") if name.startswith("fonts/") else _STATIC / name
    return source.read_bytes(), TYPES[kind]
