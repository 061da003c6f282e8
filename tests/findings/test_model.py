"""What a finding may say, and what it refuses to be."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.findings.model import Finding, Limit, exit_code, sorted_by_limit
from sendoff.findings.telling import answer, tell

LB = 0.45359237


def mass(demand: float | None, most: float, group: str = "", **more: object) -> Finding:
    missing = () if demand is not None else ("weigh_empty",)
    return Finding("x", "axle_beam", "mass", Limit(most=most), demand, group, missing=missing, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("demand", "group", "verdict"),
    [
        (900.0, "", "within"),
        (951.0, "", "tight"),
        (949.0, "", "within"),
        (901.0, "tire", "tight"),
        (1000.0, "", "tight"),
        (1000.1, "", "over"),
    ],
)
def test_the_verdict_follows_the_unrounded_margin(demand: float, group: str, verdict: str) -> None:
    assert mass(demand, 1000.0, group).verdict == verdict


def test_an_uncertain_weighing_widens_tight() -> None:
    assert mass(940.0, 1000.0).verdict == "within"
    assert mass(940.0, 1000.0, uncertainty=20.0).verdict == "tight"


@pytest.mark.parametrize(
    ("share", "verdict"),
    [(0.20, "within"), (0.165, "tight"), (0.149, "over"), (0.24, "tight"), (0.26, "over")],
)
def test_a_window_is_tight_two_points_from_its_edge(share: float, verdict: str) -> None:
    found = Finding("x", "coupling_share", "ratio", Limit(least=0.15, most=0.25), share)
    assert found.verdict == verdict


def test_what_is_unknown_says_what_to_measure() -> None:
    found = mass(None, 1000.0)
    assert found.verdict == "unknown"
    assert "weigh it" in tell(found, "en", "us").margin
    with pytest.raises(ValueError, match="says what to measure"):
        Finding("x", "axle_beam", "mass", Limit(most=1.0), None)
    with pytest.raises(ValueError, match="says what to measure"):
        Finding("x", "axle_beam", "mass", Limit(most=1.0), 1.0, missing=("weigh_empty",))


def test_a_finding_without_limit_or_with_an_endless_number_is_refused() -> None:
    with pytest.raises(ValueError, match="needs a limit"):
        Finding("x", "axle_beam", "mass", Limit(), 1.0)
    with pytest.raises(ValueError, match="finite"):
        mass(float("inf"), 1.0)


def test_exit_codes_put_a_passed_limit_first() -> None:
    within, over, unknown = mass(1.0, 1000.0), mass(2.0, 1.0), mass(None, 1.0)
    assert [exit_code(found) for found in ([within], [within, over, unknown], [within, unknown], [])] == [
        0,
        1,
        3,
        0,
    ]


def test_what_limits_first_stands_first() -> None:
    found = sorted_by_limit(
        [
            mass(500.0, 1000.0),
            mass(980.0, 1000.0),
            mass(None, 1000.0),
            mass(1100.0, 1000.0),
            mass(1400.0, 1000.0),
        ]
    )
    assert [finding.verdict for finding in found] == ["over", "over", "unknown", "tight", "within"]
    assert found[0].demand == 1400.0


def test_shown_demands_round_up_and_limits_down() -> None:
    told = tell(mass(1001.0 * LB, 1009.0 * LB), "en", "us")
    assert (str(told.demand), str(told.limit)) == ("1,010 lb", "1,000 lb")
    assert told.verdict == "tight", "the verdict uses the unrounded values"


def test_the_answer_never_approves() -> None:
    for language in ("en", "es"):
        words = answer([mass(1.0, 1000.0)], language)
        assert "safe" not in words.lower()
        assert "segur" not in words.lower()
    assert answer([mass(1.0, 1000.0)], "en") == "None of the limits checked is passed."


@given(st.floats(1, 1e6), st.floats(1, 1e6))
def test_every_demand_gets_a_verdict_that_agrees_with_its_margin(demand: float, most: float) -> None:
    found = mass(demand, most)
    assert found.margin is not None
    assert (found.verdict == "over") == (demand > most)
    assert tell(found, "es", "metric").margin
