"""The one-line diagram of what is fitted: where current comes from, what guards it, what it drives.

The layout is computed from the parts of the unit, a row for each path that is there: charger, charge lead with battery
and motors, breakaway, brake magnets, reverse lock-out, lamps. Lines that carry over 100 A are thick.
"""

from __future__ import annotations

from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart
from sendoff.display import show
from sendoff.drawings.lettering import fitting_points, lines_of, width_mm
from sendoff.drawings.plug_face import kind_of, number_of
from sendoff.drawings.svg import EDGE, INK, OUTLINE, QUIET, WHITE, Canvas, Drawing, Pen, Point
from sendoff.phrases import say
from sendoff.units import System

WIDTH_MM: Final = 184.0
THICK_FROM_A: Final = 100.0
_THIN, _THICK = Pen(0.35), Pen(1.1)
_PLUG, _NODE, _FUSE, _JOIN, _BATTERY, _SWITCH, _BUS, _FUSE_2, _MOTOR, _WORDS = (
    24.0, 37.0, 48.0, 61.0, 74.0, 99.0, 115.0, 127.0, 141.0, 150.0,
)  # fmt: skip
"""Where the columns stand: right edge of the plug, then the middles of what stands in each column."""
_HALF_BATTERY: Final = (9.0, 5.6)
_MOTOR_MM: Final = 5.4
_LAMP_WIRES: Final = ("tail", "left", "right")
_HEAVY_LAMP_WIRES: Final = ("clearance", "tail", "left", "right", "stop")
"""Lamp wires of a pick-up's plug, where stop rides on the turn wires, and of a heavy truck's."""


class _Diagram:
    """One diagram being drawn, from top to bottom."""

    def __init__(self, unit: AsBuiltUnit, language: str, system: System) -> None:
        self.unit, self.language, self.system = unit, language, system
        self.told: list[str] = []
        part = unit.part
        self.plug, self.lead, self.battery = part("plug"), part("charge_lead"), part("battery")
        self.charger, self.inlet = part("charger") or part("solar"), part("shore_inlet")
        self.pump, self.winch = part("pump"), part("winch")
        self.breakaway, self.brakes, self.lamps = part("breakaway"), part("brakes"), part("lamps")
        self.inside = part("inside_light")
        self.antilock, self.converter, self.second = part("abs"), part("converter"), part("second_battery")
        self.heavy = kind_of(unit) == "heavy_duty_7"
        self.wires = _HEAVY_LAMP_WIRES if self.heavy else _LAMP_WIRES
        self.own_charge_plug = self.lead is not None and number_of(unit, "charge") is None
        self.house, self.box_lamps = part("house_battery"), part("interior_light")
        self.rows = self._rows()
        self.height = self.rows["end"] + 9.5
        self.canvas = Canvas(WIDTH_MM, self.height)

    def _rows(self) -> dict[str, float]:
        """Return how far down each path lies."""
        rows, y = {}, 6.6
        if self.charger is not None or self.winch is not None:
            rows["upper"] = y
            y += 22.0
        elif self.battery is not None or self.house is not None or self.breakaway is not None:
            y = 11.0
        if self.battery is not None or self.lead is not None:
            rows["battery"] = y
            y += 24.0
        if self.inside is not None:
            rows["inside"] = y
            y += 24.0 if self.breakaway is not None else 12.0
        if self.house is not None:
            rows["house"] = y
            y += 22.0
        if self.brakes is not None and (self.brakes.si("magnets_per_axle") or self.is_actuated()):
            if self.breakaway is not None:
                rows["breakaway"] = y
                y += 19.0
            rows["brakes"] = y
            y += 12.0
        if number_of(self.unit, "reverse_lockout") is not None:
            rows["reverse_lockout"] = y
            y += 12.0
        if self.lamps is not None:
            for wire in self.wires:
                rows[wire] = y
                y += 6.4
            y -= 1.0
        if self.antilock is not None and number_of(self.unit, "auxiliary") is not None:
            rows["antilock"] = y + 3.0
            y += 10.0
        rows["end"] = y
        return rows

    def is_actuated(self) -> bool:
        """Tell whether a box with a pump of its own, fed by the brake wire, works the brakes."""
        fed = number_of(self.unit, "brake") is not None and self.breakaway is not None
        return fed and self.brakes is not None and self.brakes.si("pressure") is not None

    # ── pieces ──────────────────────────────────────────────────────────────────────────────────────────────────────

    def say(self, key: str, **values: object) -> str:
        return say(f"one_line.{key}", self.language, **values)

    def shown(self, part: FittedPart | None, name: str) -> str | None:
        """Return a value of a part as the reader reads it."""
        value = part.values.get(name) if part is not None else None
        if value is None:
            return None
        if value.words is not None:
            return value.words.get(self.language, value.given)
        if value.si is None:
            return value.given
        return str(show(value.quantity, value.si, self.system, value.role, value.given))

    def name(self, part: FittedPart) -> str:
        return part.name[self.language]

    def line(self, *points: Point, thick: bool = False) -> None:
        self.canvas.polyline(points, _THICK if thick else _THIN)

    def node(self, spot: Point) -> None:
        self.canvas.circle(spot, 1.0, None, INK)

    def words(self, center: Point, words: str, points: float = 7.5, *, bold: bool = False) -> None:
        self.canvas.words_in(center, words, points, weight=600 if bold else 400)

    def fuse(self, middle: float, y: float, rating: str | None) -> None:
        self.canvas.rect((middle - 4.0, y - 1.7), 8.0, 3.4, EDGE, WHITE)
        self.canvas.line((middle - 4.0, y), (middle + 4.0, y), _THIN)
        if rating is not None:
            self.words((middle, y - 4.1), rating, 8.0, bold=True)

    def cells(self, middle: float, y: float) -> None:
        across, deep = _HALF_BATTERY
        self.canvas.rect((middle - across, y - deep), 2 * across, 2 * deep, OUTLINE, WHITE)
        for x, half, pen in ((-3.3, 3.4, 0.3), (-1.1, 1.8, 0.8), (1.1, 3.4, 0.3), (3.3, 1.8, 0.8)):
            self.canvas.line((middle + x, y - half), (middle + x, y + half), Pen(pen))
        self.line((middle - across, y), (middle - 3.3, y))
        self.line((middle + 3.3, y), (middle + across, y))

    def switch(self, middle: float, y: float, words: str, *, thick: bool) -> None:
        self.canvas.line((middle - 4.0, y), (middle + 3.4, y - 3.3), _THICK if thick else Pen(0.5))
        self.canvas.circle((middle - 4.0, y), 0.9, None, INK)
        self.canvas.circle((middle + 4.0, y), 0.9, _THIN, WHITE)
        for number, line in enumerate(lines_of(words, 23.0, 7.5)):
            self.words((middle, y + 3.6 + 3.0 * number), line)

    def motor(self, y: float, part: FittedPart, told: str | None) -> None:
        self.canvas.circle((_MOTOR, y), _MOTOR_MM, OUTLINE, WHITE)
        self.words((_MOTOR, y), "M", 12.0)
        self.label((_WORDS, y), self.name(part), told)

    def lamp(self, at: Point) -> None:
        self.canvas.circle(at, 2.3, EDGE, WHITE)
        for dx, dy in ((1.6, 1.6), (1.6, -1.6)):
            self.canvas.line((at[0] - dx, at[1] - dy), (at[0] + dx, at[1] + dy), _THIN)

    def label(self, at: Point, name: str, told: str | None) -> None:
        room = WIDTH_MM - at[0] - 0.5
        lines = lines_of(name, room, 8.5, 600)
        rows = len(lines) + (1 if told else 0)
        y = at[1] - (rows - 1) * 1.75 + 1.0
        for line in lines:
            self.canvas.text((at[0], y), line, fitting_points(line, room, 8.5, 600), weight=600)
            y += 3.5
        if told:
            self.canvas.text((at[0], y), told, fitting_points(told, room, 7.5))

    # ── paths ───────────────────────────────────────────────────────────────────────────────────────────────────────

    def terminal(self, y: float, function: str, words: str) -> None:
        number = number_of(self.unit, function)
        told = f"{number} {words}" if number is not None else words
        self.canvas.text((_PLUG + 1.2, y - 1.0), told, 7.5)

    def draw_plug(self) -> None:
        """Draw the plug as a box down the left side, as high as what hangs on it."""
        if self.plug is None:
            return
        apart = {"upper", "end"} | ({"battery"} if self.own_charge_plug else set())
        first = min(y for key, y in self.rows.items() if key not in apart) - 6.0
        low = self.rows["end"]
        self.canvas.rect((0.4, first), _PLUG - 0.4, low - first, OUTLINE, WHITE)
        middle = (_PLUG / 2 + 0.2, (first + low) / 2)
        self.words((middle[0], middle[1] - 2.0), self.say("plug"), 9.0, bold=True)
        count = self.plug.si("terminals")
        if count:
            self.words((middle[0], middle[1] + 2.2), self.say("ways", count=int(count)), 8.0)
        if self.own_charge_plug:
            y = self.rows["battery"]
            self.canvas.rect((0.4, y - 5.0), _PLUG - 0.4, 10.0, OUTLINE, WHITE)
            words = self.say("charge_plug")
            self.words((middle[0], y), words, fitting_points(words, _PLUG - 2.0, 8.5, 600), bold=True)

    def draw_charge(self) -> None:
        """Draw the charge lead with its fuse, up to the battery."""
        y = self.rows["battery"]
        if self.plug is not None and self.lead is not None:
            end = _BATTERY - _HALF_BATTERY[0] if self.battery is not None else _JOIN
            self.line((_PLUG, y), (end, y))
            if not self.own_charge_plug:
                self.terminal(y, "charge", self.say("charge"))
            self.fuse(_FUSE, y, self.shown(self.lead, "fuse"))
            gauge = self.shown(self.lead, "gauge")
            if gauge is not None:
                self.words((_FUSE, y + 4.0), gauge, 7.0)
            self.told.append(f"{self.name(self.lead)} {self.shown(self.lead, 'fuse') or ''}".strip())
        if self.converter is not None:
            self._draw_converter(y, self.converter)
        if self.charger is not None and self.battery is not None:
            self._draw_charger(y)
        if self.battery is not None:
            self.cells(_BATTERY, y)
            name = self.name(self.battery)
            beside = _JOIN + 1.2 + width_mm(name, 8.5, 600) / 2 if self.charger is not None else 0.0
            self.words((max(_BATTERY, beside), y - 8.0), name, 8.5, bold=True)
            capacity = self._battery_words()
            if capacity:
                self.words((_BATTERY, y + 8.0), capacity)
            self.told.append(f"{self.name(self.battery)} {capacity}".strip())

    def _battery_words(self) -> str:
        capacity, added = self.shown(self.battery, "capacity"), self.shown(self.second, "capacity")
        return "12 V, " + " + ".join(one for one in (capacity, added) if one is not None) if capacity else ""

    def _draw_converter(self, y: float, converter: FittedPart) -> None:
        """Draw the converter in the charge lead, between its breaker and the battery."""
        self.canvas.rect((53.6, y - 3.2), 6.0, 6.4, EDGE, WHITE)
        self.words((56.6, y), "DC", 7.0, bold=True)
        current = self.shown(converter, "output_current")
        told = f"{self.name(converter)}, {current}" if current is not None else self.name(converter)
        right = _BATTERY - max(_HALF_BATTERY[0], width_mm(self._battery_words(), 8.5) / 2) - 1.0
        room = right - _NODE - 1.5
        for number, line in enumerate(lines_of(told, room, 7.5)):
            self.words((right - room / 2, y + 7.4 + 3.0 * number), line, fitting_points(line, room, 7.5))
        self.told.append(told)

    def _draw_charger(self, y: float) -> None:
        charger, top = self.charger, self.rows["upper"]
        if charger is None:
            return
        supply = self.shown(self.inlet, "supply")
        told = (
            self.say("from_inlet", supply=supply)
            if supply is not None
            else self.shown(charger, "power") or ""
        )
        wide = max(width_mm(self.name(charger), 8.5, 600), width_mm(told, 7.5)) + 5.0
        right = _JOIN - 6.0
        left = max(right - wide, 0.4)
        self.canvas.rect((left, top - 5.2), right - left, 10.4, OUTLINE, WHITE)
        middle = (left + right) / 2
        self.words((middle, top - (2.0 if told else 0.0)), self.name(charger), 8.5, bold=True)
        if told:
            self.words((middle, top + 2.3), told, fitting_points(told, right - left - 1.5, 7.5))
        self.line((right, top), (_JOIN, top), (_JOIN, y))
        self.node((_JOIN, y))
        current = self.shown(charger, "current") or self.shown(charger, "gives")
        if current is not None:
            self.canvas.text((_JOIN + 1.2, top + 4.6), current, 8.0, weight=600)
        self.told.append(f"{self.name(charger)} {current or ''}".strip())

    def draw_motors(self) -> None:
        """Draw what the battery drives: main switch, fuses, pump, winch."""
        if self.battery is None:
            return
        y = self.rows["battery"]
        motors = [
            (part, row, name, key)
            for part, row, name, key in (
                (self.pump, y, "motor_current", "at_relief"),
                (self.winch, self.rows.get("upper", y), "full_pull_current", "at_full_pull"),
            )
            if part is not None
        ]
        if not motors:
            return
        most = max(part.si(name) or 0.0 for part, _, name, _ in motors)
        thick = most > THICK_FROM_A
        self.line((_BATTERY + _HALF_BATTERY[0], y), (_SWITCH - 4.0, y), thick=thick)
        self.line((_SWITCH + 4.9, y), (_BUS, y), thick=thick)
        self.switch(_SWITCH, y, self.say("main_switch"), thick=thick)
        for part, row, name, key in motors:
            heavy = (part.si(name) or 0.0) > THICK_FROM_A
            corner = [(_BUS, y), (_BUS, row)] if row != y else [(_BUS, y)]
            self.line(*corner, (_MOTOR - _MOTOR_MM, row), thick=heavy)
            self.fuse(_FUSE_2, row, self.shown(part, "fuse"))
            current = self.shown(part, name)
            self.motor(row, part, self.say(key, current=current) if current is not None else None)
            self.told.append(f"{self.name(part)} {current or ''}".strip())
        if len(motors) > 1:
            self.node((_BUS, y))

    def draw_house(self) -> None:
        """Draw the small battery of a closed body, kept charged by the truck, and the lamps inside it."""
        if self.house is None:
            return
        y = self.rows["house"]
        if self.plug is not None:
            self.line((_PLUG, y), (_BATTERY - _HALF_BATTERY[0], y))
            self.terminal(y, "charge", self.say("charge"))
        self.cells(_BATTERY, y)
        self.words((_BATTERY, y - 8.0), self.name(self.house), 8.5, bold=True)
        capacity = self.shown(self.house, "capacity")
        if capacity is not None:
            self.words((_BATTERY, y + 8.0), f"12 V, {capacity}")
        self.told.append(f"{self.name(self.house)} {capacity or ''}".strip())
        if self.box_lamps is None:
            return
        x = _BUS + 9.0
        self.line((_BATTERY + _HALF_BATTERY[0], y), (x, y))
        self.fuse(_SWITCH, y, self.shown(self.house, "fuse"))
        self.lamp((x, y))
        self.label((x + 5.5, y), self.name(self.box_lamps), self.shown(self.box_lamps, "draw"))
        self.told.append(self.name(self.box_lamps))

    def draw_breakaway(self) -> None:
        """Draw the breakaway battery, kept charged from the charge lead, and its switch onto the brake line."""
        if "breakaway" not in self.rows or self.breakaway is None:
            return
        y, brakes = self.rows["breakaway"], self.rows["brakes"]
        if self.plug is not None and (self.lead is not None or self.inside is not None):
            top = self.rows["battery" if self.lead is not None else "inside"]
            self.line((_NODE, top), (_NODE, y), (_BATTERY - _HALF_BATTERY[0], y))
            self.node((_NODE, top))
            self.words(((_NODE + _BATTERY - _HALF_BATTERY[0]) / 2, y + 2.6), self.say("keeps_charged"))
        self.cells(_BATTERY, y)
        self.words((_BATTERY, y - 8.0), self.say("breakaway_battery"), 8.5, bold=True)
        capacity = self.shown(self.breakaway, "capacity")
        if capacity is not None:
            self.words((_BATTERY, y + 7.6), f"12 V, {capacity}")
        self.line((_BATTERY + _HALF_BATTERY[0], y), (_SWITCH - 4.0, y))
        self.line((_SWITCH + 4.9, y), (_BUS, y), (_BUS, brakes))
        self.switch(_SWITCH, y, self.say("breakaway_switch"), thick=False)
        self.node((_BUS, brakes))
        self.told.append(f"{self.say('breakaway_battery')} {capacity or ''}".strip())

    def draw_brakes(self) -> None:
        """Draw the brake line with its magnets, one ring each; brakes without magnets have no line."""
        if self.brakes is None or "brakes" not in self.rows:
            return
        y = self.rows["brakes"]
        if not self.brakes.si("magnets_per_axle"):
            self.line((_PLUG, y), (_MOTOR - _MOTOR_MM, y))
            self.terminal(y, "brake", self.say("brakes"))
            self.motor(y, self.brakes, self.shown(self.brakes, "pressure"))
            self.told.append(self.name(self.brakes))
            return
        per_axle = int(self.brakes.si("magnets_per_axle") or 2)
        count = per_axle * sum(self.unit.geometry.axles.braked)
        start, pitch = _BUS + 9.0, 7.0
        if self.plug is not None:
            self.line((_PLUG, y), (start, y))
            self.terminal(y, "brake", self.say("brakes"))
        self.line((start, y), (start + (count - 1) * pitch, y))
        for number in range(count):
            self.canvas.circle((start + number * pitch, y), 2.5, EDGE, WHITE)
            self.words((start + number * pitch, y), str(number + 1), 7.5)
        current = self.shown(self.brakes, "magnet_current")
        told = (
            self.say("magnets", count=count, current=current)
            if current is not None
            else self.say("magnets_plain", count=count)
        )
        room = WIDTH_MM - start + 2.0
        self.canvas.text((start - 2.5, y - 4.4), told, fitting_points(told, room, 8.5, 600), weight=600)
        self.told.append(told)

    def draw_lock_out(self) -> None:
        """Draw the valve that keeps surge brakes off while the truck backs up."""
        if "reverse_lockout" not in self.rows or self.plug is None:
            return
        y, x = self.rows["reverse_lockout"], _BUS + 9.0
        self.line((_PLUG, y), (x - 3.4, y))
        self.terminal(y, "reverse_lockout", self.say("reverse"))
        for side in (-1, 1):
            corners = [(x, y), (x + side * 3.4, y - 2.4), (x + side * 3.4, y + 2.4)]
            self.canvas.polygon(corners, EDGE, WHITE)
        current = self.shown(self.plug, "lock_out_current")
        told = self.say("lock_out", current=current) if current is not None else self.say("lock_out_plain")
        room = WIDTH_MM - x + 4.0
        self.canvas.text((x - 3.4, y - 4.4), told, fitting_points(told, room, 8.5, 600), weight=600)
        self.told.append(told)

    def draw_lamps(self) -> None:
        """Draw the lamp wires."""
        if self.lamps is None or self.plug is None:
            return
        for wire in self.wires:
            y = self.rows[wire]
            self.line((_PLUG, y), (_BUS + 6.5, y))
            self.terminal(y, wire, self.say(f"heavy_{wire}" if self.heavy else wire))
            self.lamp((_BUS + 9.0, y))
        self.label((_BUS + 14.5, self.rows["left"]), self.name(self.lamps), None)
        self.told.append(self.name(self.lamps))

    def draw_inside(self) -> None:
        """Draw the lights inside, fed from the charge terminal through their own fuse."""
        if self.inside is None or self.plug is None:
            return
        y = self.rows["inside"]
        self.line((_PLUG, y), (_BUS + 6.5, y))
        self.terminal(y, "charge", self.say("charge"))
        self.fuse(_FUSE, y, self.shown(self.inside, "fuse"))
        self.lamp((_BUS + 9.0, y))
        self.label((_BUS + 14.5, y), self.name(self.inside), self.shown(self.inside, "draw"))
        self.told.append(f"{self.name(self.inside)} {self.shown(self.inside, 'draw') or ''}".strip())

    def draw_antilock(self) -> None:
        """Draw the antilock unit: fed by its own wire, and by the stop wire where that fails."""
        if "antilock" not in self.rows or self.antilock is None:
            return
        y, x = self.rows["antilock"], _BUS + 9.0
        self.line((_PLUG, y), (x - 3.0, y))
        self.terminal(y, "auxiliary", self.say("antilock"))
        if "stop" in self.rows:
            stop = self.rows["stop"]
            self.line((_SWITCH, stop), (_SWITCH, y - 1.6), (x - 3.0, y - 1.6))
            self.node((_SWITCH, stop))
        self.canvas.rect((x - 3.0, y - 3.2), 6.0, 6.4, EDGE, WHITE)
        self.words((x, y), "ABS", 7.0, bold=True)
        self.label((_BUS + 14.5, y), self.name(self.antilock), None)
        self.told.append(self.name(self.antilock))

    def draw_legend(self) -> None:
        """Say what the thickness means and where every return goes."""
        ground = number_of(self.unit, "ground")
        if ground is None:
            return
        heavy = any(
            part is not None and (part.si(name) or 0.0) > THICK_FROM_A
            for part, name in ((self.pump, "motor_current"), (self.winch, "full_pull_current"))
        )
        told = self.say("legend" if heavy else "legend_thin", ground=ground)
        points = fitting_points(told, WIDTH_MM - 1, 8.0)
        self.canvas.text((0.4, self.height - 1.4), told, points, color=QUIET, italic=True)


def one_line(unit: AsBuiltUnit, language: str, system: System) -> Drawing | None:
    """Return the one-line electrical diagram of what is fitted, or None for a unit without anything electric."""
    if unit.part("plug") is None and unit.part("battery") is None:
        return None
    diagram = _Diagram(unit, language, system)
    diagram.draw_plug()
    if "battery" in diagram.rows:
        diagram.draw_charge()
        diagram.draw_motors()
    diagram.draw_inside()
    diagram.draw_house()
    diagram.draw_breakaway()
    diagram.draw_brakes()
    diagram.draw_lock_out()
    diagram.draw_lamps()
    diagram.draw_antilock()
    diagram.draw_legend()
    words = say("drawing.shows.one_line", language, lines="; ".join(diagram.told))
    return diagram.canvas.done("", words)
