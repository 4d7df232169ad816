"""Answers remembered between runs, as long as nothing they were made from has changed.

An answer is kept with the digest of every file that went into it, the listing of every folder, and the stamp of the program's
own code. It is plain JSON in the cache folder: looking again costs no database and no reading of YAML.
"""

from __future__ import annotations

import contextlib
import json
import os
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from interchange.catalog.folders import source_files
from interchange.errors import InputError
from interchange.store.place import cache_folder
from interchange.store.stamp import code_stamp, digest

MOST_KEPT = 200


def _path(question: str) -> Path:
    return cache_folder() / "answers" / f"{digest(question.encode())}.json"


def inputs(folders: Iterable[Path], files: Iterable[Path]) -> dict[str, str]:
    """Every file an answer rests on, with its digest; empty where one is not there.

    Taken before the work, so that an answer made while a file changes is not kept as one of the new content.
    """
    listed = [source.path for source in source_files(tuple(folders))]
    return {str(path): digest(path.read_bytes()) if path.is_file() else "" for path in (*listed, *files)}


def recall(question: str) -> Any | None:  # noqa: ANN401 - what was kept
    """The answer kept for a question; None where there is none or anything has changed since."""
    try:
        kept = json.loads(_path(question).read_bytes())
        folders, files = [Path(name) for name in kept["folders"]], [Path(name) for name in kept["files"]]
        fresh = kept["stamp"] == code_stamp() and kept["inputs"] == inputs(folders, files)
    except (OSError, ValueError, KeyError, TypeError, InputError):
        return None
    return kept["answer"] if fresh else None


def keep(question: str, answer: object, folders: Iterable[Path], files: Iterable[Path], made_from: dict[str, str]) -> None:
    """Keep an answer with what it was made from; a cache that cannot be written is no fault."""
    path = _path(question)
    with contextlib.suppress(OSError):
        kept = {
            "stamp": code_stamp(),
            "folders": [str(folder) for folder in folders],
            "files": [str(file) for file in files],
            "inputs": made_from,
            "answer": answer,
        }
        path.parent.mkdir(parents=True, exist_ok=True)
        aside = path.with_suffix(f".{os.getpid()}")
        aside.write_text(json.dumps(kept), encoding="utf-8")
        aside.replace(path)
        _prune(path.parent)


def _prune(folder: Path) -> None:
    """Forget the oldest answers beyond a number, and with them what killed commands left half written."""
    answers = sorted(folder.iterdir(), key=lambda path: path.stat().st_mtime, reverse=True)
    for path in answers[MOST_KEPT:]:
        path.unlink(missing_ok=True)
