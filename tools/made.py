"""Say what stands in a folder of packs: one line a unit, with the files that were made and how large they are."""

import pathlib
import sys


def main() -> int:
    """List every pack; an empty folder is a failure."""
    folder = pathlib.Path(sys.argv[1])
    packs = sorted(path.parent for path in folder.rglob("unit.json"))
    for pack in packs:
        files = sorted(path for path in pack.rglob("*") if path.is_file())
        drawings = [path for path in files if path.suffix == ".svg"]
        print(f"{pack}")
        for path in files:
            if path not in drawings:
                print(f"  {path.relative_to(pack)!s:<20}{path.stat().st_size / 1024:>8,.0f} KB")
        print(f"  {len(drawings)} drawings{sum(path.stat().st_size for path in drawings) / 1024:>17,.0f} KB")
    print(f"{len(packs)} packs in {folder}")
    return 0 if packs else 1


if __name__ == "__main__":
    sys.exit(main())
