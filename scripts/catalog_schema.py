"""Write catalog/catalog.schema.json, from which editors know what a catalog file may hold. Run it when the model changes."""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from interchange.catalog.schema import schema_text  # noqa: E402 - the path above is for a checkout that is not installed

if __name__ == "__main__":
    (ROOT / "catalog" / "catalog.schema.json").write_text(schema_text(), encoding="utf-8")
