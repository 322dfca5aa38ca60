"""The client's modules as one script: each a function of its own, behind those that it imports from, without remarks.

The modules are what is written, checked and tested. A browser would ask for each of them on its own, and find out what
to ask for next only from what it has: on a site's network that is seconds of an empty screen. So they are put behind
each other once, as the app starts; what they import from outside stays imported. `/**` begins a remark wherever it
stands.
"""

from __future__ import annotations

import posixpath
import re
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

_BLOCK: Final = r"/\*\*(?:(?!\*/).)*\*/"
_REMARK: Final = re.compile(rf"^[ \t]*{_BLOCK}[ \t]*\n|^[ \t]*// [^\n]*\n|{_BLOCK} ?", re.MULTILINE | re.DOTALL)
_IMPORT: Final = re.compile(r'^import (\w+|\{[^}]*\}) from "([^"]+)";$', re.MULTILINE)
_ONWARD: Final = re.compile(r'^export \{([^}]*)\} from "([^"]+)";$', re.MULTILINE)
_EXPORT: Final = re.compile(r"^export (?=(?:const|(?:async )?function|class) (\w+))", re.MULTILINE)
_LEFT: Final = re.compile(r"^(?:import|export)\b.*", re.MULTILINE)


def joined(first: str, modules: Mapping[str, str]) -> str:
    """Returns a script that does what a module and all that it imports do.

    Args:
        first: name of the module that starts all.
        modules: name, folders before it -> text.

    Raises:
        ValueError: an import leads nowhere or in a ring, or is written in a way that is not known here.
    """
    names: dict[str, str] = {}
    parts: list[str] = []
    outside: dict[str, str] = {}
    begun: list[str] = []

    def of(source: str, name: str) -> str:
        """Returns what a module is called in the script, after putting it there."""
        if not source.startswith("."):
            return outside.setdefault(source, f"$from{len(outside)}")
        return put(posixpath.normpath(posixpath.join(posixpath.dirname(name), source)))

    def put(name: str) -> str:
        if name not in names:
            if name in begun or name not in modules:
                raise ValueError(f"{' > '.join(begun)} > {name}: {'a ring' if name in begun else 'no such module'}")
            begun.append(name)
            part = _function(modules[name], lambda source: of(source, name))
            begun.pop()
            names[name] = f"${len(names)}"
            parts.append(f"const {names[name]} = {part};\n")
        return names[name]

    put(first)
    imports = "".join(f'import * as {called} from "{source}";\n' for source, called in outside.items())
    return imports + "".join(parts)


def _function(module: str, of: Callable[[str], str]) -> str:
    """Returns a module as a function that is called at once and gives what the module exports."""
    exported: list[str] = []

    def imported(found: re.Match[str]) -> str:
        what, source = found[1], of(found[2])
        if not what.startswith("{"):
            return f"const {what} = {source}.default;"
        # `a as b` is `a: b` where it is taken out of an object.
        return f"const {what.replace(' as ', ': ')} = {source};"

    def handed_on(found: re.Match[str]) -> str:
        exported.extend(name.strip() for name in found[1].split(",") if name.strip())
        return f"const {{{found[1]}}} = {of(found[2])};"

    def named(found: re.Match[str]) -> str:
        exported.append(found[1])
        return ""

    text = _EXPORT.sub(named, _ONWARD.sub(handed_on, _IMPORT.sub(imported, _REMARK.sub("", module))))
    left = _LEFT.search(text)
    if left is not None:
        raise ValueError(f"not known here: {left[0]}")
    return f"(() => {{\n{text}return {{ {', '.join(exported)} }};\n}})()"
