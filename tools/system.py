"""Install the packages of .ci/debian.txt where that is possible, else print the line that would."""

import os
import pathlib
import shutil
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent


def main() -> int:
    """Install, or say how."""
    lines = (ROOT / ".ci" / "debian.txt").read_text(encoding="utf-8").splitlines()
    packages = [line.strip() for line in lines if line.strip() and not line.startswith("#")]
    apt = shutil.which("apt-get")
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    if not (apt and root):
        print(
            f"Run as root on Debian or Ubuntu:  apt-get install -y --no-install-recommends {' '.join(packages)}"
        )
        return 0
    query = ["dpkg-query", "-W", "-f", "${db:Status-Status}\n", *packages]
    known = subprocess.run(query, capture_output=True, text=True, check=False)
    if known.returncode == 0 and set(known.stdout.split()) == {"installed"}:
        print(f"already here: {', '.join(packages)}")
        return 0
    settings = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *packages]):
        code = subprocess.run(
            [apt, *command], env=settings, stdout=subprocess.DEVNULL, check=False
        ).returncode
        if code:
            return code
    print(f"installed: {', '.join(packages)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
