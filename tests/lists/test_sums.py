"""The sum that a list states, beside the sum of its rows.

Rounding: a figure rounded to a digit d is off by a uniform share of it, variance d²/12 (closed form
of the uniform distribution), so of n rounded figures 95 in 100 sums lie within 2 √n d/√12.
"""

import random
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.conftest import BOATS
from tests.in_words import SAY, in_words

from trimdive.boatfile import parse
from trimdive.text.list_words import aboard_words, remarks, sum_sentence
from trimdive.weightlists import ListPreview, plan_of, taken_over, understood


def read(text: str) -> ListPreview:
    return understood(text.encode(), "list.csv")


@given(st.lists(st.integers(1, 99999), min_size=1, max_size=30), st.integers(-5000, 5000))
def test_the_difference_is_the_difference(tenths: list[int], off: int) -> None:
    rows = "".join(f"part {k},{mass / 10:.1f}\n" for k, mass in enumerate(tenths))
    stated = sum(tenths) + off
    if stated < 0:
        return
    preview = read(f"Part,Mass [g]\n{rows}Total,{stated / 10:.1f}\n")
    (one,) = preview.sums
    assert one.found == pytest.approx(sum(tenths) / 1e4, rel=1e-9)
    assert one.difference == pytest.approx(off / 1e4, abs=1e-9)
    assert one.agrees is (abs(off) <= 0.5 + 2 * sqrt(len(tenths) / 12))


def test_subtotals_cover_their_own_rows() -> None:
    preview = read(
        "Part;Masse [g]\nRumpf\nSchale;1000\nLack;120\nZwischensumme;1120\nAntrieb\nMotor;190\n"
        "Welle;50\nZwischensumme;240\nGesamt;1360\n"
    )
    assert [one.rows for one in preview.sums] == [(3, 4), (7, 8), (3, 4, 7, 8)]
    assert all(one.agrees for one in preview.sums)
    assert preview.sums[-1].is_whole
    assert preview.mass == pytest.approx(1.36)  # no total counts as a part


def test_totals_of_groups_called_total() -> None:
    preview = read(
        "Part,Mass [g]\nshell,1000\npaint,120\nTotal hull,1120\nmotor,190\nshaft,50\n"
        "Total drive,240\nTotal,1360\n"
    )
    assert [one.rows for one in preview.sums] == [(2, 3), (5, 6), (2, 3, 5, 6)]
    assert all(one.agrees for one in preview.sums)


def test_running_totals() -> None:
    preview = read("Part,Mass [g]\na,100\nb,200\nTotal,300\nc,50\nTotal,350\n")
    assert [one.rows for one in preview.sums] == [(2, 3), (2, 3, 5)]
    assert all(one.agrees for one in preview.sums)


@pytest.mark.parametrize(
    ("stated", "hint"),
    [
        (1120, "row 3 (motor): the list's sum leaves it out?"),
        (1500, "row 3 (motor): the list's sum counts it twice?"),
        (1285, "row 6, which is not added"),
    ],
)
def test_what_explains_a_difference(stated: int, hint: str) -> None:
    preview = read(
        f"Part,Mass [g]\nshell,1000\nmotor,190\nservo,55\nfuse,65\nlift,-25\nTotal,{stated}\n"
    )
    (one,) = preview.sums
    assert not one.agrees
    assert hint in in_words(one.hint)


def test_one_piece_counted_of_several() -> None:
    preview = read("Part,Qty,Mass each [g]\nshell,1,1000\nservo,3,55\nTotal,,1055\n")
    assert "one piece of row 3" in in_words(preview.sums[0].hint)


def test_rounding_covers_95_of_100_lists() -> None:
    source = random.Random(7)
    held = 0
    for _ in range(300):
        exact = [source.uniform(1, 500) for _ in range(25)]
        rows = "".join(f"part {k},{mass:.0f}\n" for k, mass in enumerate(exact))
        (one,) = read(f"Part,Mass [g]\n{rows}Total,{sum(exact):.0f}\n").sums
        held += one.agrees
    # 2 deviations cover 95.4 %, the half digit of the total a little more; 300 lists tell 1.2 %.
    assert 0.93 < held / 300 < 0.995


@pytest.mark.parametrize(("stated", "agrees"), [(300, True), (310, False)])
def test_a_total_above_its_rows_covers_them(stated: int, agrees: bool) -> None:
    preview = read(f"Part,Mass [g]\nTotal,{stated}\na,100\nb,200\n")
    assert preview.sums[0].rows == (3, 4)
    assert preview.sums[0].agrees is agrees


@pytest.mark.parametrize("mass", ["tbd", ""])
def test_rounding_explains_no_gap_of_a_row_left_out(mass: str) -> None:
    """Masses in kilograms leave 2 g to rounding; what a row left out weighs may be as little."""
    rows = "shell,1.120 kg\nmotor,0.310 kg\n"
    whole, short = (
        read(f"Part,Mass,x\n{rows}{more}Total,1.4313 kg,\n")
        for more in ("", f"mystery,{mass},90 mm\n")
    )
    assert whole.sums[0].agrees
    assert sum_sentence(SAY, whole.sums[0], "g").endswith("1.3 g more, which rounding explains.")
    (one,) = short.sums
    assert [row.number for row in short.not_understood] == [4]
    assert not one.agrees
    said = sum_sentence(SAY, one, "g")
    assert "rounding" not in said
    assert said.endswith("1.3 g more. Row 4, which is not understood, is not added.")


def test_a_mass_is_written_no_finer_than_typed_and_is_then_the_same() -> None:
    """4 1/2 oz is 127.572 853... g by the international ounce, 28.349 523 125 g."""
    listed = read(
        "Part,Mass,x,z,Material\ntray,4 1/2 oz,500 mm,50 mm,PETG\nrod,25.55 g,400 mm,50 mm,PETG\n"
    )
    text = (BOATS / "grebe" / "boat.toml").read_text("utf-8")
    boat = parse(text)
    plan = plan_of(listed, boat)
    assert aboard_words(plan) == "2 new parts; 0 aboard already"
    text = taken_over(text, plan, boat, remarks(plan))
    assert 'mass = "127.57 g"' in text
    assert 'mass = "25.55 g"' in text
    again = plan_of(listed, parse(text))
    assert not again.changes
    assert aboard_words(again) == "0 new parts; 2 aboard already, 2 of them with the same mass"
    heavier = read("Part,Mass,x,z,Material\ntray,4 3/4 oz,500 mm,50 mm,PETG\n")
    assert aboard_words(plan_of(heavier, parse(text))) == (
        "0 new parts; 1 aboard already, 1 of them weighed again"
    )
