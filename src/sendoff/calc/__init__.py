"""Calculations: pure functions, SI numbers and tables in, numbers and workings out.

No disk, clock, network or randomness: "today" and published tables are arguments. One module a family;
the contract of a calculation (formula, units, range, worked example, source) is in CONTRIBUTING.md.
"""

from __future__ import annotations
