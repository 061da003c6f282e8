"""List the commands of a Makefile: every target with a `##` note."""

import pathlib
import re
import sys

for line in pathlib.Path(sys.argv[1]).read_text(encoding="utf-8").splitlines():
    found = re.match(r"([a-z-]+):.*?##\s*(.*)", line)
    if found:
        print(f"  make {found[1]:<8}{found[2]}")
