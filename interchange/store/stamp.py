"""Short digests, and the stamp of the program's own code: what is derived holds as long as neither it nor the files change."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

from interchange.catalog.folders import PACKAGE

LEFT_OUT = frozenset({"__pycache__", "shipped"})


def digest(content: bytes) -> str:
    """A short digest of some content."""
    return hashlib.blake2b(content, digest_size=16).hexdigest()


def code_stamp() -> str:
    """Changes with any of the program's own files: another program version makes other caches. Takes about 1 ms."""
    parts: list[str] = []
    for folder, folders, names in os.walk(PACKAGE):
        folders[:] = sorted(set(folders) - LEFT_OUT)
        for name in sorted(names):
            stat = (Path(folder) / name).stat()
            parts.append(f"{name}:{stat.st_size}:{stat.st_mtime_ns}")
    return digest("\n".join(parts).encode())
