"""Every drawing of one unit, for one reader: language and units chosen once, the views made once."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.drawings import figures, one_line, plug_face, raised, sheets, small, tie_downs, wheel_nuts
from sendoff.drawings.svg import Drawing
from sendoff.drawings.views import Views
from sendoff.units import System


class UnitDrawings:
    """The drawings of one unit; stations are called by their number on the walk, from 1."""

    def __init__(self, unit: AsBuiltUnit, language: str, system: System) -> None:
        self.unit, self.language, self.system = unit, language, system
        self._views = Views(unit)

    @cached_property
    def cover(self) -> Drawing:
        """The large side view of the cover."""
        return sheets.cover(self._views, self.language, self.system)

    @cached_property
    def sheet(self) -> Drawing:
        """The landscape drawing sheet."""
        return sheets.sheet(self._views, self.language, self.system)

    @cached_property
    def walk_map(self) -> Drawing:
        """The plan with the walk alone."""
        return sheets.walk_map(self._views, self.language)

    def small_side(self, width_mm: float = 60.0) -> Drawing:
        """Return the small side view."""
        return small.small_side(self._views, self.language, width_mm)

    @cached_property
    def screen_side(self) -> Drawing:
        """The side view 360 px wide."""
        return small.screen_side(self._views, self.language)

    def silhouette(self, longest_m: float | None = None) -> Drawing:
        """Return the list silhouette; `longest_m` is the longest trailer of the list."""
        return small.silhouette(self._views, self.language, longest_m)

    def locator(self, number: int) -> Drawing:
        """Return where a station is."""
        return small.locator(self._views, self.unit.stations[number - 1], number, self.language)

    def station_figure(
        self, number: int, letters: Mapping[str, str] | None = None, *, key: bool = False
    ) -> Drawing:
        """Return what stands at a station; `letters` by slot, else a, b, c … in the order of its slots."""
        station = self.unit.stations[number - 1]
        return figures.station_figure(self._views, station, number, self.language, letters, key=key)

    @cached_property
    def tie_downs(self) -> Drawing | None:
        """The plan with tie-down points, where there are any."""
        return tie_downs.tie_downs(self._views, self.language, self.system)

    @cached_property
    def raised(self) -> Drawing | None:
        """The side with the body raised, where there is one."""
        return raised.raised_side(self._views, self.language, self.system)

    @cached_property
    def wheel_nuts(self) -> Drawing | None:
        """The order of the wheel nuts."""
        return wheel_nuts.wheel_nuts(self.unit, self.language)

    @cached_property
    def plug_face(self) -> Drawing | None:
        """The face of the plug."""
        return plug_face.plug_face(self.unit, self.language)

    @cached_property
    def one_line(self) -> Drawing | None:
        """The one-line electrical diagram."""
        return one_line.one_line(self.unit, self.language, self.system)

    def files(self) -> dict[str, Drawing]:
        """Return the drawings of a pack's drawings folder by file name."""
        found: dict[str, Drawing | None] = {
            "cover.svg": self.cover,
            "sheet.svg": self.sheet,
            "walk.svg": self.walk_map,
            "side-60mm.svg": self.small_side(),
            "side-360px.svg": self.screen_side,
            "silhouette.svg": self.silhouette(),
            "tie-downs.svg": self.tie_downs,
            "raised.svg": self.raised,
            "wheel-nuts.svg": self.wheel_nuts,
            "plug-face.svg": self.plug_face,
            "one-line.svg": self.one_line,
        }
        for number in range(1, len(self.unit.stations) + 1):
            found[f"station-{number:02d}.svg"] = self.station_figure(number)
            found[f"station-{number:02d}-where.svg"] = self.locator(number)
        return {name: drawing for name, drawing in found.items() if drawing is not None}
