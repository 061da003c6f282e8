"""Margin bars: how much of a limit is asked, told by length and pattern so that a copier loses nothing.

50 mm are the whole limit. Within: gray up to the demand. TIGHT: hatched. OVER: black, always clearly past the tick.
UNKNOWN: dashed. A window has a band between two ticks and a pointer. The word beside the bar carries the verdict.
"""

from __future__ import annotations

from typing import Final, Literal

from sendoff.display import figure
from sendoff.drawings.svg import BAR, EDGE, INK, MID, WHITE, Canvas, Drawing, Pen
from sendoff.phrases import say

Verdict = Literal["within", "tight", "over", "unknown"]
WIDTH_MM, HEIGHT_MM, WHOLE_MM = 64.0, 7.0, 50.0
_LEFT: Final = 0.4
_TICK: Final = Pen(0.7)
_LEAST_PAST_MM: Final = 3.2
_TOP, _DEEP = 1.7, 3.6


def margin_bar(
    verdict: Verdict,
    language: str,
    *,
    demand: float | None = None,
    most: float | None = None,
    least: float | None = None,
) -> Drawing:
    """Return the bar of a limit: at most, at least, or a window; `demand` is None where it is unknown.

    What has no amount, such as a plug that fits or does not, gets a plain line, or the black bar past its tick.
    """
    canvas = Canvas(WIDTH_MM, HEIGHT_MM)
    word = say(f"verdict.{verdict}", language)
    if verdict == "unknown" or demand is None:
        if verdict == "unknown":
            _unknown(canvas)
        elif verdict == "over":
            _at_most(canvas, 1.0, verdict)
        else:
            canvas.line((_LEFT, HEIGHT_MM / 2), (_LEFT + WHOLE_MM, HEIGHT_MM / 2), EDGE)
        return canvas.done("", say("drawing.shows.bar", language, verdict=word))
    if most is not None and least is not None:
        _window(canvas, demand, least, most)
        return canvas.done("", say("drawing.shows.bar", language, verdict=word))
    limit = most if most is not None else least
    if not limit:
        raise ValueError("a bar needs a limit that is not zero")
    share = demand / limit
    if most is not None:
        _at_most(canvas, share, verdict)
    else:
        _at_least(canvas, share, verdict)
    percent = f"{figure(share * 100, 1, 'demand' if most is not None else 'capacity')} %"
    return canvas.done("", say("drawing.shows.bar_share", language, verdict=word, share=percent))


def _tick(canvas: Canvas, x: float, pen: Pen = _TICK) -> None:
    canvas.line((x, (HEIGHT_MM - 6.4) / 2 + pen.width / 2), (x, (HEIGHT_MM + 6.4) / 2 - pen.width / 2), pen)


def _frame(canvas: Canvas, long: float) -> None:
    canvas.rect((_LEFT, _TOP), long, _DEEP, Pen(0.18))


def _fill(canvas: Canvas, long: float, verdict: Verdict) -> None:
    if verdict == "tight":
        canvas.rect((_LEFT, _TOP), long, _DEEP, None, MID)
        _hatch(canvas, long)
        canvas.rect((_LEFT, _TOP), long, _DEEP, Pen(0.18))
    else:
        canvas.rect((_LEFT, _TOP), long, _DEEP, None, INK if verdict == "over" else BAR)


def _hatch(canvas: Canvas, long: float) -> None:
    """Hatch the bar at 45 degrees, each stroke cut to the bar."""
    ends = []
    step = 1.0
    for number in range(int((long + _DEEP) / step) + 1):
        low = number * step
        x0, x1 = max(low - _DEEP, 0.0), min(low, long)
        if x1 > x0:
            ends += [(_LEFT + x0, _TOP + low - x0), (_LEFT + x1, _TOP + low - x1)]
    canvas.strokes(ends, Pen(0.3))


def _at_most(canvas: Canvas, share: float, verdict: Verdict) -> None:
    tick = _LEFT + WHOLE_MM
    if verdict == "over":
        past = min(max((share - 1) * WHOLE_MM, _LEAST_PAST_MM), WIDTH_MM - WHOLE_MM - 1.0)
        _fill(canvas, WHOLE_MM + past, verdict)
        _tick(canvas, tick, Pen(1.5, color=WHITE))
        _tick(canvas, tick)
        return
    _frame(canvas, WHOLE_MM)
    _fill(canvas, max(min(share, 1.0), 0.0) * WHOLE_MM, verdict)
    _tick(canvas, tick)


def _at_least(canvas: Canvas, share: float, verdict: Verdict) -> None:
    """Draw what is there against what must be there: the tick is the least, the bar should reach past it."""
    whole = max(share, 1.0)
    tick = _LEFT + WHOLE_MM / whole
    _frame(canvas, WHOLE_MM)
    _fill(canvas, max(share, 0.0) / whole * WHOLE_MM, verdict)
    if verdict != "over":
        _tick(canvas, tick, Pen(1.5, color=WHITE))
    _tick(canvas, tick)


def _unknown(canvas: Canvas) -> None:
    canvas.rect((_LEFT, _TOP), WHOLE_MM, _DEEP, Pen(EDGE.width, (1.6, 1.0)), WHITE)
    canvas.words_in((_LEFT + WHOLE_MM / 2, HEIGHT_MM / 2), "?", 8.5, weight=600)
    _tick(canvas, _LEFT + WHOLE_MM)


def _window(canvas: Canvas, demand: float, least: float, most: float) -> None:
    """Draw a window a third of the line wide, and a pointer that stops at the line's ends."""
    start, end = 21.0, 42.0
    middle = HEIGHT_MM / 2
    canvas.rect((start, _TOP), end - start, _DEEP, None, MID)
    canvas.line((_LEFT, _TOP + _DEEP), (WIDTH_MM - _LEFT, _TOP + _DEEP), EDGE)
    for x in (start, end):
        _tick(canvas, x)
    scale = (end - start) / (most - least) if most > least else 0.0
    x = min(max(start + (demand - least) * scale, 1.8), WIDTH_MM - 1.8)
    canvas.polygon(
        [(x - 1.5, middle - 2.6), (x + 1.5, middle - 2.6), (x, middle + 1.5)], Pen(0.3, color=WHITE), INK
    )
