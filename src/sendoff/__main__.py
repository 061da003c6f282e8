"""Where `sendoff` and `python -m sendoff` begin: nothing is imported before Ctrl-C has its plain answer."""

from __future__ import annotations

import sys


def main() -> None:
    """Run the command line."""
    try:
        from sendoff.cli import main as command_line

        command_line()
    except KeyboardInterrupt:
        sys.stderr.write("Stopped. Nothing half-made is left.\n")
        sys.exit(130)


if __name__ == "__main__":
    main()
