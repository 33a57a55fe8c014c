"""Counterweight of a loader tractor: EN 12525:2000+A2:2010 (CEN) and ASAE EP562 (MAR2005, ASABE), both at second hand.

Quoted in loader manuals and in a paper; the case with numbers is ours.
"""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.balance import counterweight, front_axle_loaded

CASE = {"rear_axle": 800, "total": 1700, "payload": 450, "ahead": 1.5, "wheelbase": 1.65, "behind": 1.1}


def as_quoted(G: float, G1: float, N: float, b: float, l1: float, l2: float, minus: bool = True) -> float:
    """The counterweight as the manuals print it, for a fifth of everything on the rear axle."""
    P = G + G1
    below = 5 * (l1 + l2) - l2 if minus else 5 * (l1 + l2) * l2
    return (5 * N * b + l2 * (P + N - 5 * G)) / below


@pytest.mark.published("EN 12525:2000+A2:2010 as quoted in loader manuals (secondary)")
@pytest.mark.parametrize(
    ("G", "G1", "N", "b", "l1", "l2"),
    [(800, 900, 450, 1.50, 1.10, 1.65), (600, 700, 300, 1.3, 0.9, 1.5), (2000, 2400, 1500, 2.0, 1.3, 2.3)],
)
def test_our_moment_balance_is_the_quoted_equation(
    G: float, G1: float, N: float, b: float, l1: float, l2: float
) -> None:
    ours = counterweight(rear_axle=G, total=G + G1, payload=N, ahead=b, wheelbase=l2, behind=l1, share=0.20)
    assert ours == pytest.approx(as_quoted(G, G1, N, b, l1, l2))


@pytest.mark.published("EN 12525:2000+A2:2010 as quoted in one loader manual (secondary), misprinted")
def test_one_print_without_the_minus_sign_is_no_mass_at_all() -> None:
    """Read as 5 (l1 + l2) l2 below the line: 12.4 kg too few in metres, and another result in each unit of length."""
    right = counterweight(**CASE, share=0.20)
    metres = as_quoted(800, 900, 450, 1.50, 1.10, 1.65, minus=False)
    millimetres = as_quoted(800, 900, 450, 1500, 1100, 1650, minus=False)
    assert right - metres == pytest.approx(12.4, abs=0.05)
    assert metres / millimetres == pytest.approx(1000)
    assert as_quoted(800, 900, 450, 1500, 1100, 1650) == pytest.approx(right)
    front = front_axle_loaded(900, 450, 1.5, 1.65, metres, 1.1)
    assert 1 - front / (1700 + 450 + metres) < 0.20


@pytest.mark.derived("constructed case: 800 kg behind and 900 kg in front, 450 kg at 1.50 m")
def test_counterweight_for_a_fifth_and_for_a_quarter() -> None:
    """A fifth with the arms level (EN 12525), a quarter with the loader raised (EP562)."""
    without = front_axle_loaded(900, 450, 1.5, 1.65, 0, 1.1)
    assert 100 * (1 - without / 2150) == pytest.approx(18.2, abs=0.05)
    assert counterweight(**CASE, share=0.20) == pytest.approx(26.7, abs=0.06)
    assert counterweight(**CASE, share=0.25) == pytest.approx(103.5, abs=0.05)
