"""`python -m sendoff` is the same as `sendoff`."""

from __future__ import annotations

from sendoff.cli import main

if __name__ == "__main__":
    main()
