"""Where caches lie."""

from __future__ import annotations

import os
from pathlib import Path


def cache_folder() -> Path:
    """INTERCHANGE_CACHE, or the folder the system has for caches."""
    named = os.environ.get("INTERCHANGE_CACHE")
    if named:
        return Path(named)
    import platformdirs

    return Path(platformdirs.user_cache_dir("interchange", appauthor=False))
