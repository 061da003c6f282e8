"""An independent reading of a catalogue: what must be said of a unit, worked out from the raw TOML alone.

It shares no code with the product: its own TOML reader (the standard library's), its own way of fitting options, its
own idea of the lap. It is small so that a person can believe it by reading it.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from itertools import combinations as choose
from pathlib import Path
from typing import Any

STATES = "bare coupled plugged_in powered raised wheels_off_ground rolling loaded first_miles".split()
LISTS = {
    "caution": "cautions",
    "upkeep": "upkeep",
    "fault": "troubles",
    "show_me": "show_me",
    "handed_over": "handed_over",
    "line": "lines",
}


class Evaluator:
    """Answers what is said of any legal set of options of any type."""

    def __init__(self, folder: Path) -> None:
        self.cards = {path.stem: tomllib.loads(path.read_text()) for path in folder.glob("cards/*/*.toml")}
        self.types = {path.stem: tomllib.loads(path.read_text()) for path in folder.glob("trailers/*.toml")}
        self.sentences = tomllib.loads((folder / "sentences.toml").read_text())["sentence"]
        self._measure: dict[str, float] = {}

    def legal(self, name: str, options: frozenset[str]) -> bool:
        """A set of options that can be built: its rules hold, and no slot is wanted differently by equals."""
        return self.rules_hold(name, options) and self.fill(name, options) is not None

    def rules_hold(self, name: str, options: frozenset[str]) -> bool:
        """Needs met, nothing excluded, at most one of each group."""
        table = self.types[name].get("options", {})
        for option in options:
            rule = table[option]
            if not set(rule.get("requires", ())) <= options or options & set(rule.get("excludes", ())):
                return False
        groups = [table[option]["group"] for option in options if "group" in table[option]]
        return len(groups) == len(set(groups))

    def every_legal(self, name: str) -> Iterator[frozenset[str]]:
        """All legal sets, by trying every subset: only for small types."""
        known = sorted(self.types[name].get("options", {}))
        for size in range(len(known) + 1):
            for some in choose(known, size):
                if self.legal(name, frozenset(some)):
                    yield frozenset(some)

    def fill(self, name: str, options: frozenset[str]) -> dict[str, str] | None:
        """What fills each slot, or None where two options of one rank want different parts."""
        filled: dict[str, str] = {}
        table = self.types[name].get("options", {})
        for slot, rule in self.types[name]["slots"].items():
            wanted: dict[int, set[str]] = {}
            for option in options:
                asked = table[option]
                if slot in asked.get("fits", {}):
                    wanted.setdefault(asked.get("rank", 0), set()).add(asked["fits"][slot])
                if slot in asked.get("empties", ()):
                    wanted.setdefault(asked.get("rank", 0), set()).add("")
            best = wanted[max(wanted)] if wanted else {rule.get("standard", "")}
            if len(best) > 1:
                return None
            if any(best):
                filled[slot] = best.pop()
        return filled

    def said(self, name: str, options: frozenset[str]) -> dict[str, Any]:
        """What must be said of a legal set of options."""
        filled = self.fill(name, options)
        assert filled is not None
        return {"fitted": filled} | self.said_of(name, filled)

    def said_of(self, name: str, filled: dict[str, str]) -> dict[str, Any]:
        """Stations in lap order, acts by state and station, all other entries; the variants do not matter for these."""
        kinds = {slot: reference.split("/")[0] for slot, reference in filled.items()}
        places = {slot: self._places(name, slot) for slot in kinds}
        stations = self._lap(name, places)
        acts: dict[tuple[str, str], set[tuple[str, str, tuple[str, ...]]]] = {}
        entries: set[tuple[str, str, str]] = set()
        for slot, kind in kinds.items():
            card = self.cards[kind]
            home = next(station for station in stations if any(met == station for _, met in places[slot]))
            for what in ("step", "check"):
                for act in card.get(what, ()):
                    if not self._counts(act, kinds):
                        continue
                    met_at: dict[str, tuple[str, ...]] = {home: ()}
                    if act.get("each") == "place":
                        met_at = {
                            s: tuple(p for p, met in places[slot] if met == s)
                            for s in stations
                            if any(met == s for _, met in places[slot])
                        }
                    for station, spots in met_at.items():
                        state = act.get("state") or self.types[name]["stations"][station]["state"]
                        acts.setdefault((state, station), set()).add((slot, act["id"], spots))
            entries |= {
                (slot, LISTS[list_], item["id"])
                for list_ in LISTS
                for item in card.get(list_, ())
                if self._counts(item, kinds)
            }
        legs = [(state, station) for state in STATES for station in stations if (state, station) in acts]
        told: dict[str, str] = {}
        for sentence in self.sentences:
            if self._counts(sentence, kinds):
                told.setdefault(sentence["id"], sentence["say"]["en"])
        return {
            "stations": stations,
            "legs": legs,
            "acts": acts,
            "entries": entries,
            "sentences": list(told),
        }

    @staticmethod
    def _counts(item: dict[str, Any], kinds: dict[str, str]) -> bool:
        def holds(condition: str) -> bool:
            slot, *card = condition.split("=")
            return slot in kinds and (not card or kinds[slot] == card[0])

        return all(map(holds, item.get("if_fitted", ()))) and not any(
            map(holds, item.get("unless_fitted", ()))
        )

    def _places(self, name: str, slot: str) -> list[tuple[str, str]]:
        """Place ids with the station each is met at."""
        rule = self.types[name]["slots"][slot]
        spots = rule["places"]
        if isinstance(spots, dict):
            ends = ("_out", "_in") if spots.get("dual") else ("",)
            axles = range(1, len(self.types[name]["frame"]["axles"]["x"]) + 1)
            found = [
                (f"{side}_{n}{end}", side)
                for n in axles
                for side in spots.get("sides", ("left", "right"))
                for end in ends
            ]
        else:
            found = [(spot["id"], spot["side"]) for spot in spots]
        met = rule["station"]
        return [(place, met if isinstance(met, str) else met[side]) for place, side in found]

    def _lap(self, name: str, places: dict[str, list[tuple[str, str]]]) -> list[str]:
        """Stations in the order of a lap that goes down the driver's side first."""
        rank = {"front": 0, "left": 1, "center": 1, "rear": 2, "right": 3}
        declared = list(self.types[name]["stations"])
        met = {station for spots in places.values() for _, station in spots}

        def key(station: str) -> tuple[int, float, int]:
            side = self.types[name]["stations"][station]["side"]
            x = self._x(name, station, places) if side in {"left", "center", "right"} else 0.0
            return rank[side], -x if side == "right" else x, declared.index(station)

        return sorted(met, key=key)

    def _x(self, name: str, station: str, places: dict[str, list[tuple[str, str]]]) -> float:
        own = self.types[name]["stations"][station].get("x")
        if own:
            return self._meters(own)
        found = []
        for slot, spots in places.items():
            rule = self.types[name]["slots"][slot]["places"]
            for place, met in spots:
                if met == station:
                    if isinstance(rule, dict):
                        found.append(
                            self._meters(
                                self.types[name]["frame"]["axles"]["x"][int(place.split("_")[1]) - 1]
                            )
                        )
                    else:
                        found.append(next(self._meters(spot["x"]) for spot in rule if spot["id"] == place))
        return sum(found) / len(found)

    def _meters(self, text: str) -> float:
        if text not in self._measure:
            factor = {"in": 0.0254, "ft": 0.3048, "m": 1.0, "mm": 0.001, "cm": 0.01}
            words = text.split()
            self._measure[text] = sum(
                float(number) * factor[unit] for number, unit in zip(words[::2], words[1::2], strict=True)
            )
        return self._measure[text]
