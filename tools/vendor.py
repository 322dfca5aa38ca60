"""Remakes the vendored modules of the working screen from the packages that `tools/client/package.json` pins.

    cd tools/client && npm ci && cd ../.. && .venv/bin/python tools/vendor.py

Each module is copied as its package ships it, less the reference to a source map that is not shipped here; its licence
goes beside it. A test holds what is in the repository against what this makes.
"""

import json
import re
from pathlib import Path

ROOT = Path(__file__).parent.parent
PACKAGES = ROOT / "tools" / "client" / "node_modules"
VENDOR = ROOT / "src" / "floorwright" / "web" / "static" / "vendor"

MODULES = {
    "preact.js": "preact/dist/preact.mjs",
    "preact-hooks.js": "preact/hooks/dist/hooks.mjs",
    "htm.js": "htm/dist/htm.module.js",
    "signals-core.js": "@preact/signals-core/dist/signals-core.module.js",
    "signals.js": "@preact/signals/dist/signals.module.js",
}
LICENCES = {
    "preact.LICENSE": "preact",
    "htm.LICENSE": "htm",
    "signals-core.LICENSE": "@preact/signals-core",
    "signals.LICENSE": "@preact/signals",
}
SOURCE_MAP = re.compile(rb"\n?//# sourceMappingURL=[^\n]*\n?")


def vendored() -> dict[str, bytes]:
    """Returns name -> content of every vendored file."""
    made: dict[str, bytes] = {}
    for name, source in MODULES.items():
        made[name] = SOURCE_MAP.sub(b"", (PACKAGES / source).read_bytes()).rstrip() + b"\n"
    for name, package in LICENCES.items():
        made[name] = (PACKAGES / package / "LICENSE").read_bytes()
    versions = {
        package: json.loads((PACKAGES / package / "package.json").read_text(encoding="utf-8"))["version"]
        for package in LICENCES.values()
    }
    made["versions.json"] = (json.dumps(versions, indent=2) + "\n").encode()
    return made


def main() -> None:
    """Writes them."""
    VENDOR.mkdir(parents=True, exist_ok=True)
    for name, content in vendored().items():
        (VENDOR / name).write_bytes(content)


if __name__ == "__main__":
    main()
