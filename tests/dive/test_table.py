"""The dive of the demo boats against what was worked out of them apart, and laws of any dive."""

from math import degrees

import numpy as np
import pytest

from trimdive.assessment import Assessment
from trimdive.ballast.dive import dive, planned
from trimdive.boatfile import parse
from trimdive.boatfile.boat import FillStep
from trimdive.errors import BoatError
from trimdive.hydrostatics.equilibrium import rest


def test_both_tanks_together_bittern_trims_five_degrees(bittern: Assessment) -> None:
    """Worked out apart: 5.1° bow down at 82 %; her lead as placed anew makes 0.4° of the rest."""
    most = bittern.down.largest_trim
    assert degrees(most.state.trim_angle) == pytest.approx(5.4, abs=0.6)
    assert most.filling == pytest.approx(0.83, abs=0.03)
    assert not bittern.down.jumps


def test_with_the_after_tank_leading_about_half(bittern: Assessment) -> None:
    """After tank 8 % of its filling ahead until it has its share: never more than 2.4°, told apart.

    Ours is 2.7°: her lead as placed anew.
    """
    share = bittern.neutral
    ahead = (
        FillStep(levels={"after tank": 0.08}),
        FillStep(levels={"after tank": share, "forward tank": share - 0.08}),
        FillStep(levels={"forward tank": share}),
    )
    boat = bittern.boat.model_copy(update={"fills": ahead})
    down = Assessment(boat=boat, files=bittern.files).down
    before = [m for m in down.moments if m.filling <= bittern.neutral]
    most = max(abs(m.state.trim_angle) for m in before)
    assert degrees(most) < 0.6 * degrees(bittern.down.largest_trim.state.trim_angle)


def test_positive_gm_throughout_down_and_up(bittern: Assessment, grebe: Assessment) -> None:
    for boat in (bittern, grebe):
        for way in (boat.down, boat.up):
            assert all(moment.state.rest.stable for moment in way.moments)
            assert way.least_gm.state.gm_t > 0.004


def test_as_bought_she_lolls_and_flops(bittern_as_bought: Assessment) -> None:
    down, up = bittern_as_bought.down, bittern_as_bought.up
    assert abs(degrees(down.largest_heel.state.heel)) > 10
    assert down.jumps
    assert up.jumps
    assert {round(jump.filling, 3) for jump in down.jumps} != {
        round(jump.filling, 3) for jump in up.jumps
    }


@pytest.mark.parametrize("up", [False, True])
def test_what_is_known_of_a_way_changes_nothing_of_it(
    up: bool, bittern: Assessment, bittern_as_bought: Assessment
) -> None:
    """Every rest worked out anew is as flopping and rising leave it: a law, no figure.

    She is alike on both sides, so where she lolls either side is as good: signs are left out.
    """
    for boat in (bittern, bittern_as_bought):
        tops = {skin.name: skin.outline for skin in boat.hull.skins}
        anew, known = dive(boat.floater, boat.path, tops, up=up), boat.up if up else boat.down
        assert [one.filling for one in known.moments] == [one.filling for one in anew.moments]
        for one, other in zip(known.moments, anew.moments, strict=True):
            mine, anew_n = one.state.rest.n, other.state.rest.n
            assert abs(mine) == pytest.approx(abs(anew_n), abs=1e-6)
            assert mine[[0, 2]] == pytest.approx(anew_n[[0, 2]], abs=1e-6), "lengthways none is"
        assert [jump.filling for jump in known.jumps] == [jump.filling for jump in anew.jumps]


def test_a_moment_of_the_dive_is_the_rest_from_scratch(grebe: Assessment) -> None:
    for moment in grebe.down.moments[::12]:
        again = rest(grebe.floater, grebe.path.at(moment.filling))
        assert again.n == pytest.approx(moment.state.rest.n, abs=1e-7)


def test_no_moment_is_nan_and_water_only_grows(grebe: Assessment) -> None:
    waters = np.stack([moment.state.rest.waters for moment in grebe.down.moments])
    assert np.isfinite(waters).all()
    assert (np.diff(waters.sum(axis=1)) >= -1e-15).all()
    assert all(np.isfinite(moment.state.gm_t) for moment in grebe.down.moments)


TANKS = """
format = 1
name = "x"
[[tank]]
name = "a"
bore = "100 mm"
length = "100 mm"
x = "300 mm"
z = "50 mm"
mass = "100 g"
{a}
[[tank]]
name = "b"
bore = "100 mm"
length = "100 mm"
x = "700 mm"
z = "50 mm"
mass = "100 g"
{b}
"""


def test_orders_rates_and_tables(bittern: Assessment) -> None:
    tanks = bittern.floater.tanks  # two alike; only names and figures of the file differ
    boat = parse(TANKS.format(a="order = 1", b="order = 2"))
    one_by_one = planned(boat, tanks)
    assert one_by_one.at(0.5) == pytest.approx(tanks.capacities * [1, 0])
    boat = parse(TANKS.format(a='rate = "2 L/min"', b='rate = "1 L/min"'))
    by_rates = planned(boat, tanks)
    assert by_rates.at(0.3)[0] == pytest.approx(2 * by_rates.at(0.3)[1])
    assert by_rates.at(1.0) == pytest.approx(tanks.capacities)
    fill = '\n[[fill]]\nlevels = {{ b = "50 %" }}\n'
    first_b = planned(parse(TANKS.format(a="", b=fill.format())), tanks)
    assert first_b.at(0.25) == pytest.approx(tanks.capacities * [0, 0.5])


def test_a_table_that_goes_back_and_one_that_names_no_tank(bittern: Assessment) -> None:
    fill = '\n[[fill]]\nlevels = { b = "50 %" }\n[[fill]]\nlevels = { b = "40 %" }\n'
    boat = parse(TANKS.format(a="", b="") + fill)
    with pytest.raises(BoatError, match="emptier than before"):
        planned(boat, bittern.floater.tanks)
    with pytest.raises(BoatError, match="there is no tank 'c'"):
        parse(TANKS.format(a="", b="") + '\n[[fill]]\nlevels = { c = "50 %" }\n')
    with pytest.raises(BoatError, match="too much"):
        parse(TANKS.format(a="", b="") + '\n[[fill]]\nlevels = { b = "150 %" }\n')
