"""Write both locks anew from pyproject.toml (needs uv): hashes for every file, no address of any index in them."""

import pathlib
import shutil
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
COMMON = [
    "--no-config",
    "--universal",
    "--python-version",
    "3.11",
    "--generate-hashes",
    "--no-header",
    "--no-annotate",
]


def main() -> int:
    """Compile the large lock first; the small one takes its versions from it, so that both agree."""
    uv = shutil.which("uv")
    if not uv:
        print("lock: uv is needed to write locks (pip install uv)")
        return 2
    upgrade = [word for word in sys.argv[1:] if word.startswith("--upgrade")]
    for arguments in (
        ["--group", "dev", "--extra", "fast", "--extra", "server", *upgrade, "-o", "requirements-dev.lock"],
        ["--group", "build", "-c", "requirements-dev.lock", *upgrade, "-o", "requirements.lock"],
    ):
        command = [uv, "pip", "compile", "--quiet", *COMMON, "pyproject.toml", *arguments]
        code = subprocess.run(command, cwd=ROOT, check=False).returncode
        if code:
            return code
    return 0


if __name__ == "__main__":
    sys.exit(main())
