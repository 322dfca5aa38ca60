"""Writing several files into a folder without ever treading on a person's own work.

A file is replaced only when this program wrote it and nobody has edited it since; a list of what was written, with a
digest of each, is kept beside the files. Every file is written whole or not at all.
"""

import hashlib
import json
import os
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

LIST_NAME: Final = ".floorwright-files.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What became of the files.

    Attributes:
        written: paths written, in order.
        kept: paths left alone, since they are somebody else's or were edited.
    """

    written: tuple[Path, ...]
    kept: tuple[Path, ...]


def digest(content: bytes) -> str:
    """Returns the SHA-256 of a content, in hex."""
    return hashlib.sha256(content).hexdigest()


def write_whole(path: Path, content: bytes, *, durable: bool = False) -> None:
    """Writes a file whole or not at all: into a temporary neighbour first, which then takes its name.

    Args:
        path: of the file.
        content: all of it.
        durable: whether it must outlast the machine's power: the disk has it then before this returns.
    """
    try:
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as refused:
        refused.filename = str(path)  # the temporary's own name says nothing to a person
        raise
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            if durable:
                stream.flush()
                os.fsync(stream.fileno())
        Path(temporary).chmod(0o644)
        Path(temporary).replace(path)
        if durable:
            _keep_names(path.parent)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise


def _keep_names(folder: Path) -> None:
    """Has the disk keep the names in a folder, where the system can be told to."""
    if hasattr(os, "O_DIRECTORY"):
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def listed(folder: Path) -> dict[str, str]:
    """Returns name -> digest of what was written into a folder before; nothing where the list is absent or damaged."""
    try:
        found = json.loads((folder / LIST_NAME).read_text(encoding="utf-8"))
    except (FileNotFoundError, json.JSONDecodeError, UnicodeDecodeError):
        return {}
    if not isinstance(found, dict):
        return {}
    return {str(name): str(value) for name, value in found.items()}


def write_files(folder: Path, files: Mapping[str, bytes]) -> Written:
    """Writes files into a folder, which is made if need be, and returns which were written and which were kept.

    Args:
        folder: where.
        files: name -> content. A name holds no folder.

    Raises:
        OSError: the disk's own words, when a file or the folder cannot be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    known = listed(folder)
    written: list[Path] = []
    kept: list[Path] = []
    for name, content in files.items():
        path = folder / name
        if path.exists():
            there = path.read_bytes() if path.is_file() else None
            ours = there is not None and (known.get(name) == digest(there) or there == content)
            if not ours:
                kept.append(path)
                continue
        write_whole(path, content)
        known[name] = digest(content)
        written.append(path)
    write_whole(folder / LIST_NAME, (json.dumps(known, indent=1, sort_keys=True) + "\n").encode())
    return Written(written=tuple(written), kept=tuple(kept))
