"""Write what tests hold results against: the JSON Schemas of all files, and unit.json of three demo sheets.

Run it when the shape of a file or the demo yard was changed on purpose, and read the difference before committing it.
"""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "src"))

from sendoff.asbuilt.resolve import as_built  # noqa: E402
from sendoff.asbuilt.schemas import write_schemas  # noqa: E402
from sendoff.asbuilt.unit import to_json  # noqa: E402
from sendoff.catalogue.load import load  # noqa: E402

YARD = ROOT / "examples" / "quillback"
SHEETS = ("qb-0107", "qb-0111", "qb-0203")


def main() -> None:
    """Write everything."""
    for path in write_schemas(ROOT / "src" / "sendoff" / "data" / "schemas"):
        print(f"wrote {path.relative_to(ROOT)}")
    catalogue = load(YARD / "catalogue")
    folder = ROOT / "tests" / "asbuilt" / "golden"
    folder.mkdir(exist_ok=True)
    for name in SHEETS:
        path = folder / f"{name}.unit.json"
        path.write_bytes(to_json(as_built(YARD / "sheets" / f"{name}.toml", catalogue)))
        print(f"wrote {path.relative_to(ROOT)}")


if __name__ == "__main__":
    main()
